using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Daylight;

namespace SoloRide.Tests.Daylight;

public sealed class SkyTests
{
    /// <summary>Source: moon.csv (ELP2000-82B fitted to DE441): 15 arcsec, 3e-5 of the fraction, 15 km.</summary>
    [Fact]
    [Checks(typeof(MoonPosition), CheckKind.Outside)]
    public void Moon_EveryRowOfTheTable_IsWithinTheBars()
    {
        foreach (CsvRow r in Almanac.Table("moon.csv").Rows)
        {
            MoonPosition p = MoonPosition.At(Almanac.Utc(r["utc"]), Almanac.Place(r), Almanac.Options(r));
            Assert.InRange(Almanac.Between(p.AzimuthDeg, p.AltitudeDeg, r.Num("azimuth_deg"), r.Num("altitude_deg")), 0, 15);
            Assert.InRange(p.IlluminatedFraction - r.Num("illuminated_fraction_topo"), -3e-5, 3e-5);
            Assert.InRange(p.Distance.Kilometers - r.Num("distance_topo_km"), -15, 15);
            Assert.InRange(p.GeocentricDistance.Kilometers - r.Num("distance_geo_km"), -15, 15);
        }
    }

    [Property(MaxTest = 200)]
    [Checks(typeof(MoonPosition), CheckKind.Property)]
    public bool Moon_AnyPlaceAndTime_IsWhereAMoonCanBe(int seed)
    {
        var random = new Random(seed);
        MoonPosition p = MoonPosition.At(SolarPositionTests.RandomInstant(random), SolarPositionTests.RandomPlace(random));
        return p.AzimuthDeg is >= 0 and <= 360 && p.AltitudeDeg is >= -90 and <= 90
            && p.GeocentricDistance.Kilometers is > 356_000 and < 407_000
            && p.IlluminatedFraction is >= 0 and <= 1
            && Math.Abs(p.PhaseAngle.Degrees + p.Elongation.Degrees - 180) < 0.3
            && p.Age >= TimeSpan.Zero && p.Age.TotalDays < 29.9
            && p.GroundIlluminance.Lux is >= 0 and < 0.5;
    }

    [Fact]
    [Checks(typeof(MoonPosition), CheckKind.BadInput)]
    [Checks(typeof(MoonDay), CheckKind.BadInput)]
    [Checks(typeof(SkyLight), CheckKind.BadInput)]
    [Checks(typeof(RideLight), CheckKind.BadInput)]
    public void Sky_BadInput_Throws()
    {
        DateTimeOffset t = DateTimeOffset.UnixEpoch;
        var p = new GeoPoint(0, 0);
        Assert.Throws<ArgumentOutOfRangeException>(() => MoonPosition.At(t, new GeoPoint(double.NaN, 0)));
        Assert.Throws<ArgumentNullException>(() => MoonDay.On(new DateOnly(2027, 1, 1), p, null!));
        Assert.Throws<ArgumentOutOfRangeException>(() => MoonDay.On(DateOnly.MinValue, p, ZoneOffsets.Utc));
        Assert.Throws<ArgumentException>(() => SkyLight.Along([t], [p, p], new SkyLight[1]));
        Assert.Throws<ArgumentException>(() => SkyLight.Phases([t], [p], []));
        Assert.Throws<ArgumentException>(() => RideLight.Along([], []));
        Assert.Throws<ArgumentException>(() => RideLight.Along([t.AddHours(1), t], [p, p]));
    }

    /// <summary>
    /// Source: computed with ERFA 2.0 (moon98, IAU 2006/2000A; UT1 = UTC, delta T 69.184 s), upper limb at 34 arcmin of refraction; 2 s of
    /// time and 10 s where the Moon rises at a low angle. 69 N: a day without the Moon, and two flat crossings.
    /// </summary>
    [Theory]
    [InlineData("2027-06-14", -6, 38.4, -109.6, "16:59:50.16", "02:37:04.55", "22:07:19.99", 2)]
    [InlineData("2026-12-24", 1, 46.5, 11.3, "16:48:55.39", "08:39:14.32", "00:08:06.71", 2)]
    [InlineData("2029-03-03", 12, -44.0, 169.0, "20:16:44.01", "09:19:20.20", "02:26:26.38", 2)]
    [InlineData("2027-01-07", 2, 69.0, 25.0, "", "", "12:07:31.81", 2)]
    [InlineData("2028-01-13", 1, 69.0, 25.0, "15:41:56.60", "10:09:15.87", "00:15:03.39", 10)]
    [InlineData("2028-01-06", 1, 69.0, 25.0, "08:44:14.46", "02:49:19.79", "18:20:13.58", 10)]
    [Checks(typeof(MoonDay), CheckKind.Outside)]
    public void MoonDay_AgainstAReferenceLibrary(string date, double offset, double lat, double lon, string rise, string set, string transit, double tolerance)
    {
        MoonDay day = MoonDay.On(DateOnly.Parse(date, System.Globalization.CultureInfo.InvariantCulture), new GeoPoint(lat, lon, 0), ZoneOffsets.Fixed(offset));
        Check(rise, day.Moonrise);
        Check(set, day.Moonset);
        Check(transit, day.Transit);

        void Check(string clock, SunEvent e)
        {
            if (clock.Length == 0)
            {
                Assert.Equal(SunEventState.AlwaysBelow, e.State);
                return;
            }

            Assert.InRange((e.At!.Value.TimeOfDay - TimeSpan.Parse(clock, System.Globalization.CultureInfo.InvariantCulture)).TotalSeconds, -tolerance, tolerance);
        }
    }

    [Property(MaxTest = 30)]
    [Checks(typeof(MoonDay), CheckKind.Property)]
    public bool MoonDay_Over30Days_HasOneTransitLessThanDaysAndAlternates(int seed)
    {
        var random = new Random(seed);
        var place = new GeoPoint((random.NextDouble() * 110) - 55, (random.NextDouble() * 360) - 180, 0);
        DateOnly first = DateOnly.FromDateTime(SolarPositionTests.RandomInstant(random).UtcDateTime);
        MoonDay[] days = [.. Enumerable.Range(0, 30).Select(i => MoonDay.On(first.AddDays(i), place, ZoneOffsets.Utc))];
        var all = days.SelectMany(d => d.Moonrise.All.Select(t => (t, 'r')).Concat(d.Moonset.All.Select(t => (t, 's'))))
            .OrderBy(e => e.Item1).ToList();
        int transits = days.Sum(d => d.Transit.All.Count);
        return transits is >= 28 and <= 30 && all.Zip(all.Skip(1)).All(p => p.First.Item2 != p.Second.Item2);
    }

    /// <summary>
    /// Source: values of the illuminance polynomials of the Explanatory Supplement family, computed outside for the table of methods;
    /// the glossary of a meteorological society gives about 600 to 400 lx at sunset, 3.5 to 2 lx at -6 and 0.008 lx at -12 deg.
    /// </summary>
    [Theory]
    [InlineData(90, 1.288e5)]
    [InlineData(30, 46300)]
    [InlineData(10, 11120)]
    [InlineData(5, 4499)]
    [InlineData(0, 758.6)]
    [InlineData(-0.8333, 453.5)]
    [InlineData(-2, 189.4)]
    [InlineData(-4, 29.93)]
    [InlineData(-6, 3.412)]
    [InlineData(-8, 0.348)]
    [InlineData(-10, 0.0421)]
    [InlineData(-12, 0.00814)]
    [InlineData(-15, 0.00202)]
    [InlineData(-17.99, 6.48e-4)]
    [Checks(typeof(SkyLight), CheckKind.Outside)]
    public void SunLux_PrintedValues(double altitudeDeg, double lux)
        => Assert.InRange(SkyLightKernel.SunOnlyLux(altitudeDeg) / lux, 0.997, 1.003);

    /// <summary>Source: the same family for the Moon at mean parallax 0.951 deg.</summary>
    [Theory]
    [InlineData(90, 0.269, 0.0760, 0.0319)]
    [InlineData(60, 0.216, 0.0610, 0.0256)]
    [InlineData(30, 0.0977, 0.0276, 0.0116)]
    [InlineData(10, 0.0236, 0.0067, 0.0028)]
    public void MoonLux_PrintedValues(double altitudeDeg, double full, double at60, double at90)
    {
        Assert.Equal(full, SkyLightKernel.MoonLux(altitudeDeg, 180, 0.951), 0.0006);
        Assert.Equal(at60, SkyLightKernel.MoonLux(altitudeDeg, 120, 0.951), 0.0002);
        Assert.Equal(at90, SkyLightKernel.MoonLux(altitudeDeg, 90, 0.951), 0.0001);
    }

    /// <summary>Phases along a route agree with single calls, and the light never rises as the Sun sinks from noon to moonless night.</summary>
    [Property(MaxTest = 60)]
    [Checks(typeof(SkyLight), CheckKind.Property)]
    public bool Phases_AlongARoute_EqualSingleCalls(int seed)
    {
        var random = new Random(seed);
        DateTimeOffset t = SolarPositionTests.RandomInstant(random);
        GeoPoint p = SolarPositionTests.RandomPlace(random);
        DateTimeOffset[] instants = [.. Enumerable.Range(0, 50).Select(i => t.AddMinutes(i * 17))];
        GeoPoint[] places = [.. Enumerable.Range(0, 50).Select(i => new GeoPoint(Math.Clamp(p.LatDeg + (i * 0.01), -90, 90), Math.Clamp(p.LonDeg + (i * 0.01), -180, 180), 0))];
        var phases = new LightPhase[50];
        var lights = new SkyLight[50];
        SkyLight.Phases(instants, places, phases);
        SkyLight.Along(instants, places, lights);
        for (int i = 0; i < 50; i++)
        {
            if (phases[i] != SkyLight.PhaseAt(instants[i], places[i]) || lights[i].Phase != phases[i] || !(lights[i].GroundLux >= SkyLightKernel.NightSkyLux))
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>Source: sun_events.csv. The time from civil dusk to civil dawn needs lights; 2 s from the interpolation between steps.</summary>
    [Fact]
    [Checks(typeof(RideLight), CheckKind.Outside)]
    public void RideLight_OverTheTablesDays_NeedsLightsBeforeDawnAndAfterDusk()
    {
        foreach (CsvRow r in Almanac.Table("sun_events.csv").Rows.Where(r => r["civil_dawn"].Length > 10 && r["civil_dusk"].Length > 10 && r.Num("slowest_rate_arcsec_per_s") > 5).Take(60))
        {
            DateTimeOffset start = Almanac.Utc(r["window_start_utc"]), dawn = Almanac.Utc(r["civil_dawn"]), dusk = Almanac.Utc(r["civil_dusk"]);
            GeoPoint p = Almanac.Place(r, 0);
            RideLight light = RideLight.Along([start, start.AddHours(24)], [p, p], Almanac.Options(r));
            TimeSpan truth = dawn < dusk ? dawn - start + (start.AddHours(24) - dusk) : dawn - dusk;
            Assert.InRange((light.NeedingLights - truth).TotalSeconds, -2, 2);
            Assert.Equal(TimeSpan.FromHours(24).TotalSeconds, light.ByPhase.Sum(t => t.TotalSeconds), 0.001);
        }
    }

    [Property(MaxTest = 40)]
    [Checks(typeof(RideLight), CheckKind.Property)]
    public bool RideLight_AnyRide_PartsAddUp(int seed)
    {
        var random = new Random(seed);
        DateTimeOffset t = SolarPositionTests.RandomInstant(random);
        var p = new GeoPoint((random.NextDouble() * 120) - 60, (random.NextDouble() * 300) - 150);
        DateTimeOffset[] instants = [.. Enumerable.Range(0, 20).Select(_ => t = t.AddMinutes(random.Next(0, 60)))];
        GeoPoint[] places = [.. Enumerable.Range(0, 20).Select(_ => p = new GeoPoint(p.LatDeg + 0.01, p.LonDeg + 0.01))];
        RideLight light = RideLight.Along(instants, places);
        return Math.Abs(light.ByPhase.Sum(x => x.TotalSeconds) - (instants[^1] - instants[0]).TotalSeconds) < 0.001
            && light.MoonlitDark <= light.NeedingLights
            && (light.LightsFrom is null) == (light.NeedingLights == TimeSpan.Zero && !light.Steps[0].NeedsLights)
            && light.Darkest.Lux <= light.Steps.Min(s => s.GroundLux) * (1 + 1e-12);
    }
}
