using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Daylight;
using UnitsNet;

namespace SoloRide.Tests.Daylight;

public sealed class TerrainSunTests
{
    /// <summary>Source: sun_events.csv. Behind a level skyline at 0 the sun comes and goes at sunrise and sunset, within 1 s more than the table's own bar.</summary>
    [Fact]
    [Checks(typeof(DirectSunDay), CheckKind.Outside)]
    public void DirectSun_LevelSkyline_IsSunriseToSunset()
    {
        HorizonProfile flat = HorizonProfile.Level();
        foreach (CsvRow r in Almanac.Table("sun_events.csv").Rows.Where(r => r["sunrise"].Length > 10 && r["sunset"].Length > 10 && r.Num("slowest_rate_arcsec_per_s") >= 5))
        {
            DirectSunDay d = DirectSunDay.On(
                DateOnly.Parse(r["local_date"], System.Globalization.CultureInfo.InvariantCulture), Almanac.Place(r, 0), ZoneOffsets.Fixed(r.Num("utc_offset_h")), flat, Almanac.Options(r));
            DateTimeOffset rise = Almanac.Utc(r["sunrise"]), set = Almanac.Utc(r["sunset"]);
            if (rise < set)
            {
                Assert.InRange((d.FirstSun!.Value - rise).TotalSeconds, -1, 1);
                Assert.InRange((d.LastSun!.Value - set).TotalSeconds, -1, 1);
            }
        }
    }

    /// <summary>A constant skyline is the plain event of its altitude; terrain that is flat, seen from a height, is the dip event. Within 1 s.</summary>
    [Theory]
    [InlineData(3)]
    [InlineData(12.5)]
    [InlineData(-1.0)]
    public void DirectSun_ConstantSkyline_IsThePlainEvent(double skylineDeg)
    {
        var place = new GeoPoint(46.5, 11.3, 300);
        var date = new DateOnly(2027, 4, 3);
        DirectSunDay d = DirectSunDay.On(date, place, ZoneOffsets.Fixed(2.0), HorizonProfile.Level(skylineDeg));
        double threshold = skylineDeg - SunShadeKernel.RefractionDeg(skylineDeg) - SunShadeKernel.RadiusDeg;
        foreach (DateTimeOffset at in new[] { d.FirstSun!.Value, d.LastSun!.Value })
        {
            // 10 arcsec is under a second at this latitude.
            Assert.Equal(threshold, SolarPosition.At(at, place).AltitudeDeg, 2.0 / 3600);
        }
    }

    /// <summary>Source: geometry, dip = acos(R/(R+h)), no terrestrial refraction; 1 s.</summary>
    [Fact]
    [Checks(typeof(HorizonProfile), CheckKind.Outside)]
    public void Horizon_FlatPlainFromAbove_IsTheDip()
    {
        var place = new GeoPoint(0, 0, 0);
        var options = new HorizonOptions { Azimuths = 72, Range = Length.FromKilometers(60), EyeHeight = Length.FromMeters(150), RefractionFactor = 0 };
        HorizonProfile profile = HorizonProfile.Of(place, new Almanac.Plain(0), options);
        double dipDeg = Math.Acos(6371000.0 / 6371150) * 180 / Math.PI;
        foreach (double a in profile.AltitudesDeg)
        {
            Assert.Equal(-dipDeg, a, 2.0 / 3600);
        }

        var date = new DateOnly(2027, 3, 20);
        SolarDay sea = SolarDay.On(date, place, ZoneOffsets.Utc, new DaylightOptions { HeightAboveHorizon = Length.FromMeters(150) });
        DirectSunDay d = DirectSunDay.On(date, place, ZoneOffsets.Utc, profile);
        Assert.InRange((d.FirstSun!.Value - sea.Sunrise.At!.Value).TotalSeconds, -1, 1);
        Assert.InRange((d.LastSun!.Value - sea.Sunset.At!.Value).TotalSeconds, -1, 1);
    }

    /// <summary>Source: geometry. A wall of known height and distance to the south stands at its angle; the plain behind does not matter.</summary>
    [Fact]
    [Checks(typeof(HorizonProfile), CheckKind.Outside)]
    public void Horizon_RidgeToTheSouth_StandsAtItsAngle()
    {
        // 500 m high from 3 km to 4 km south of the place; a degree of latitude is 111.05 km at 38 deg on the ellipsoid.
        var relief = new Almanac.Relief((lat, _) => 38 - lat is > 3000 / 111002.0 and < 4000 / 111002.0 ? 500 : 0);
        HorizonProfile p = HorizonProfile.Of(new GeoPoint(38, -109), relief, new HorizonOptions { EyeHeight = Length.Zero });
        double expected = Math.Atan((500 - (3000.0 * 3000 * 0.87 / 2 / 6371000)) / 3000) * 180 / Math.PI;
        Assert.Equal(expected, p.AltitudeDeg(180), 0.1);
        Assert.Equal(0, p.AltitudeDeg(0), 0.01);
        double oblique = Math.Atan(500 * Math.Cos(Math.PI / 6) / 3000) * 180 / Math.PI;
        Assert.Equal(oblique, p.AltitudeDeg(210), 0.12);
    }

    /// <summary>Within 0.05 deg of a scan of the same smooth relief every 2 m.</summary>
    [Fact]
    public void Horizon_SmoothRelief_EqualsADenseScan()
    {
        var relief = new Almanac.Relief((lat, lon) =>
            1500 + (60 * Math.Sin(lat * 700) * Math.Cos(lon * 500)) + (12 * Math.Sin((lat * 2300) + (lon * 1700))) + (500 * Math.Sin(lat * 90) * Math.Sin(lon * 70)));
        var place = new GeoPoint(46.5, 11.3);
        HorizonProfile p = HorizonProfile.Of(place, relief, new HorizonOptions { Azimuths = 90, Range = Length.FromKilometers(20) });
        double eye = relief.HeightM(46.5, 11.3) + 1.6;
        double[] dense = [.. Enumerable.Range(1, 10000).Select(i => i * 2.0)];
        for (int i = 0; i < 90; i++)
        {
            int unknown = 0;
            double t = HorizonKernel.Tangent(relief, 46.5, 11.3, eye, i * Math.PI / 45, dense, 0.13, ref unknown);
            Assert.Equal(Math.Atan(t) * 180 / Math.PI, p.AltitudesDeg[i], 0.05);
        }
    }

    [Fact]
    [Checks(typeof(HorizonProfile), CheckKind.BadInput)]
    [Checks(typeof(DirectSunDay), CheckKind.BadInput)]
    [Checks(typeof(SunOnRoute), CheckKind.BadInput)]
    public void Terrain_BadInput_Throws()
    {
        var p = new GeoPoint(0, 0);
        Assert.Throws<ArgumentNullException>(() => HorizonProfile.Of(p, null!));
        Assert.Throws<ArgumentException>(() => HorizonProfile.FromAngles([1, 2, 3]));
        Assert.Throws<ArgumentOutOfRangeException>(() => HorizonProfile.FromAngles([1, 2, 3, double.NaN]));
        Assert.Throws<ArgumentOutOfRangeException>(() => HorizonProfile.Level(95));
        Assert.Throws<ArgumentOutOfRangeException>(() => HorizonProfile.Level().AltitudeDeg(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => new HorizonOptions { Azimuths = 2 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new HorizonOptions { Range = Length.Zero });
        Assert.Throws<ArgumentOutOfRangeException>(() => new HorizonOptions { EyeHeight = Length.FromMeters(-1) });
        Assert.Throws<ArgumentOutOfRangeException>(() => new HorizonOptions { RefractionFactor = 2 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new HorizonOptions { NearStep = Length.Zero });
        Assert.Throws<ArgumentNullException>(() => DirectSunDay.On(new DateOnly(2027, 1, 1), p, ZoneOffsets.Utc, null!));
        Assert.Throws<ArgumentOutOfRangeException>(() => DirectSunDay.On(new DateOnly(2027, 1, 1), p, ZoneOffsets.Utc, HorizonProfile.Level(), null, 9));
        Assert.Throws<ArgumentNullException>(() => SunOnRoute.Along([DateTimeOffset.UnixEpoch], [p], null!));
        Assert.Throws<ArgumentException>(() => SunOnRoute.Along([DateTimeOffset.UnixEpoch], [p, p], new Almanac.Plain(0)));
    }

    /// <summary>Memory of the caller receives the same skyline, and nothing is allocated.</summary>
    [Fact]
    public void Horizon_Fill_EqualsTheProfileWithoutAllocation()
    {
        var relief = new Almanac.Relief((lat, lon) => 1500 + (60 * Math.Sin(lat * 700) * Math.Cos(lon * 500)));
        var place = new GeoPoint(46.5, 11.3);
        var options = new HorizonOptions { Azimuths = 24, Range = Length.FromKilometers(5) };
        double[] angles = new double[24];
        Assert.Empty(HorizonProfile.Fill(place, relief, angles, options));
        long before = GC.GetAllocatedBytesForCurrentThread();
        HorizonProfile.Fill(place, relief, angles, options);
        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.Equal(HorizonProfile.Of(place, relief, options).AltitudesDeg, angles);
        Assert.Equal(HorizonProfile.Of(place, relief, options), HorizonProfile.FromAngles(angles, place));
        Assert.Contains(HorizonProfile.Fill(new GeoPoint(46, 11), new Almanac.Plain(double.NaN), angles), f => f.Code == "daylight.terrain-gap");
        Assert.Throws<ArgumentNullException>(() => HorizonProfile.Fill(place, null!, new double[24]));
        Assert.Throws<ArgumentOutOfRangeException>(() => HorizonProfile.Fill(place, relief, new double[7]));
    }

    [Fact]
    public void Horizon_TerrainWithHoles_SaysSo()
    {
        HorizonProfile p = HorizonProfile.Of(new GeoPoint(46, 11, 100), new Almanac.Relief((_, lon) => lon > 11.01 ? double.NaN : 100), new HorizonOptions { Azimuths = 16, Range = Length.FromKilometers(5) });
        Assert.Contains(p.Findings, f => f.Code == "daylight.terrain-gap");
        Assert.DoesNotContain(p.AltitudesDeg, double.IsNaN);
        HorizonProfile blank = HorizonProfile.Of(new GeoPoint(46, 11), new Almanac.Plain(double.NaN), new HorizonOptions { Azimuths = 8 });
        Assert.Contains(blank.Findings, f => f.Severity == FindingSeverity.Warning);
    }

    /// <summary>Raising the skyline never gives more sun or more sky; spells lie in the day, in order.</summary>
    [Property(MaxTest = 40)]
    [Checks(typeof(DirectSunDay), CheckKind.Property)]
    [Checks(typeof(HorizonProfile), CheckKind.Property)]
    public bool DirectSun_HigherSkyline_NeverMoreSun(int seed)
    {
        var random = new Random(seed);
        var place = new GeoPoint((random.NextDouble() * 130) - 65, (random.NextDouble() * 300) - 150, 500);
        DateOnly date = DateOnly.FromDateTime(SolarPositionTests.RandomInstant(random).UtcDateTime);
        double[] low = [.. Enumerable.Range(0, 72).Select(_ => random.NextDouble() * 20)];
        double[] high = [.. low.Select(a => a + (random.NextDouble() * 20))];
        HorizonProfile lowSky = HorizonProfile.FromAngles(low), highSky = HorizonProfile.FromAngles(high);
        DirectSunDay a = DirectSunDay.On(date, place, ZoneOffsets.Utc, lowSky), b = DirectSunDay.On(date, place, ZoneOffsets.Utc, highSky);
        DateTimeOffset[] ends = [.. a.Spells.SelectMany(s => new[] { s.From, s.To })];
        return b.DirectSun <= a.DirectSun + TimeSpan.FromSeconds(1) && highSky.SkyViewFactor <= lowSky.SkyViewFactor
            && lowSky.SkyViewFactor is > 0 and <= 1 && a.DirectSun <= a.Sun.DayLength + TimeSpan.FromSeconds(1)
            && ends.Zip(ends.Skip(1)).All(p => p.First <= p.Second);
    }

    /// <summary>Source: geometry. A level skyline at h leaves cos^2 h of an evenly bright sky.</summary>
    [Fact]
    public void SkyViewFactor_LevelSkyline_IsCosineSquared()
    {
        Assert.Equal(1, HorizonProfile.Level().SkyViewFactor, 12);
        Assert.Equal(0.75, HorizonProfile.Level(30).SkyViewFactor, 12);
        Assert.Equal(0.5, HorizonProfile.Level(45).SkyViewFactor, 12);
    }

    /// <summary>Source: sun_events.csv. On flat ground the rider has sun from sunrise to sunset, wherever he rides: 1 s.</summary>
    [Fact]
    [Checks(typeof(SunOnRoute), CheckKind.Outside)]
    public void SunOnRoute_FlatGround_IsSunriseToSunset()
    {
        var horizon = new HorizonOptions { EyeHeight = Length.Zero, Range = Length.FromKilometers(1) };
        foreach (CsvRow r in Almanac.Table("sun_events.csv").Rows.Where(r => r["sunrise"].Length > 10 && r["sunset"].Length > 10 && r.Num("slowest_rate_arcsec_per_s") >= 8).Take(25))
        {
            DateTimeOffset rise = Almanac.Utc(r["sunrise"]), set = Almanac.Utc(r["sunset"]), start = rise.AddHours(-1);
            if (set < rise)
            {
                continue;
            }

            GeoPoint p = Almanac.Place(r, 0);
            SunOnRoute sun = SunOnRoute.Along([start, set.AddHours(1)], [p, p], new Almanac.Plain(0), horizon, Almanac.Options(r));
            Assert.InRange((sun.FirstSun!.Value - rise).TotalSeconds, -1, 1);
            Assert.InRange((sun.LastSun!.Value - set).TotalSeconds, -1, 1);
            Assert.InRange((sun.DirectSun - (set - rise)).TotalSeconds, -2, 2);
            Assert.Equal([false, false], sun.InSun);
        }
    }

    [Property(MaxTest = 15)]
    [Checks(typeof(SunOnRoute), CheckKind.Property)]
    public bool SunOnRoute_HigherTerrain_NeverMoreSun(int seed)
    {
        var random = new Random(seed);
        DateTimeOffset t = new DateTimeOffset(2027, 1, 1, 6, 0, 0, TimeSpan.Zero).AddDays(random.Next(365));
        double phase = random.NextDouble() * 6, scale = 300 + (random.NextDouble() * 900);
        var low = new Almanac.Relief((lat, lon) => 0);
        var high = new Almanac.Relief((lat, lon) => Math.Abs(lat - 46.5) < 0.0002 && lon is > 11.29 and < 11.36 ? 0 : scale * (1 + Math.Sin((lat * 900) + (lon * 600) + phase)));
        DateTimeOffset[] instants = [.. Enumerable.Range(0, 13).Select(i => t.AddMinutes(i * 50))];
        GeoPoint[] places = [.. Enumerable.Range(0, 13).Select(i => new GeoPoint(46.5, 11.3 + (i * 0.004)))];
        var horizon = new HorizonOptions { Range = Length.FromKilometers(8), NearStep = Length.FromMeters(20) };
        SunOnRoute open = SunOnRoute.Along(instants, places, low, horizon), closed = SunOnRoute.Along(instants, places, high, horizon);
        return closed.DirectSun <= open.DirectSun + TimeSpan.FromSeconds(1) && closed.TerrainShade >= TimeSpan.Zero
            && Math.Abs((closed.DirectSun + closed.TerrainShade - open.DirectSun - open.TerrainShade).TotalSeconds) < 240
            && (closed.FirstSun is null) == (closed.DirectSun == TimeSpan.Zero && !closed.InSun[0]);
    }
}
