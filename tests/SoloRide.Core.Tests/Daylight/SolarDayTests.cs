using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Daylight;
using UnitsNet;

namespace SoloRide.Tests.Daylight;

public sealed class SolarDayTests
{
    private static readonly string[] Columns = ["sunrise", "sunset", "civil_dawn", "civil_dusk", "nautical_dawn", "nautical_dusk", "astro_dawn", "astro_dusk"];

    /// <summary>Source: sun_events.csv. No wrong state; 0.1 s where the row's slowest rate is 5 arcsec/s or more, 1.5 s everywhere; transit 0.04 s.</summary>
    [Fact]
    [Checks(typeof(SolarDay), CheckKind.Outside)]
    public void On_EveryRowOfTheTable_HasTheEvents()
    {
        foreach (CsvRow r in Almanac.Table("sun_events.csv").Rows)
        {
            SolarDay day = Day(r);
            SunEvent[] events = Events(day);
            string[] states = [r["state_riseset"], r["state_civil"], r["state_nautical"], r["state_astro"]];
            double bar = r.Num("slowest_rate_arcsec_per_s") >= 5 ? 0.1 : 1.5;
            for (int i = 0; i < 8; i++)
            {
                string truth = r[Columns[i]];
                if (truth is "none" or "")
                {
                    Assert.Null(events[i].At);
                    Assert.Equal(states[i / 2] switch { "always_above" => SunEventState.AlwaysAbove, "always_below" => SunEventState.AlwaysBelow, _ => SunEventState.NotInThisDay }, events[i].State);
                }
                else
                {
                    Assert.True(events[i].At is not null, $"row {r.Number} {Columns[i]}");
                    Assert.InRange((events[i].At!.Value - Almanac.Utc(truth)).TotalSeconds, -bar, bar);
                }
            }

            Assert.InRange((day.Transit.At!.Value - Almanac.Utc(r["transit"])).TotalSeconds, -0.04, 0.04);
            Assert.InRange((day.TransitAltitude!.Value.Degrees - r.Num("transit_alt_deg")) * 3600, -0.6, 0.6);
        }
    }

    /// <summary>
    /// Source: sunrise and sunset minutes of the US Naval Observatory for 2015, as quoted in the tests of a public solar library
    /// (39 N 105 W, UTC-7 and 39.917 N 116.383 E, UTC+8). Whole minutes: 35 s.
    /// </summary>
    [Theory]
    [InlineData(39, -105, -7, 1, 2, 7 * 60 + 19, 16 * 60 + 49)]
    [InlineData(39, -105, -7, 4, 2, 5 * 60 + 43, 18 * 60 + 24)]
    [InlineData(39, -105, -7, 8, 2, 5 * 60 + 1, 19 * 60 + 10)]
    [InlineData(39, -105, -7, 12, 2, 7 * 60 + 1, 16 * 60 + 38)]
    [InlineData(39.917, 116.383, 8, 1, 2, 7 * 60 + 36, 17 * 60)]
    [InlineData(39.917, 116.383, 8, 4, 2, 5 * 60 + 58, 18 * 60 + 39)]
    [InlineData(39.917, 116.383, 8, 8, 2, 5 * 60 + 13, 19 * 60 + 28)]
    [InlineData(39.917, 116.383, 8, 12, 2, 7 * 60 + 17, 16 * 60 + 50)]
    [Checks(typeof(SolarDay), CheckKind.Outside)]
    public void On_AlmanacMinutes_Agree(double lat, double lon, double offset, int month, int dayOfMonth, int rise, int set)
    {
        SolarDay day = SolarDay.On(new DateOnly(2015, month, dayOfMonth), new GeoPoint(lat, lon), ZoneOffsets.Fixed(offset));
        Assert.InRange((day.Sunrise.At!.Value.TimeOfDay - TimeSpan.FromMinutes(rise)).TotalSeconds, -35, 35);
        Assert.InRange((day.Sunset.At!.Value.TimeOfDay - TimeSpan.FromMinutes(set)).TotalSeconds, -35, 35);
    }

    [Fact]
    [Checks(typeof(SolarDay), CheckKind.BadInput)]
    public void On_BadInput_Throws()
    {
        Assert.Throws<ArgumentNullException>(() => SolarDay.On(new DateOnly(2027, 6, 14), new GeoPoint(40, 0), null!));
        Assert.Throws<ArgumentOutOfRangeException>(() => SolarDay.On(DateOnly.MinValue, new GeoPoint(40, 0), ZoneOffsets.Utc));
        Assert.Throws<ArgumentOutOfRangeException>(() => SolarDay.On(DateOnly.MaxValue, new GeoPoint(40, 0), ZoneOffsets.Utc));
        Assert.Throws<ArgumentOutOfRangeException>(() => SolarDay.Table(DateOnly.MaxValue.AddDays(-5), new GeoPoint(40, 0), ZoneOffsets.Utc, new SunTimes[9]));
    }

    [Fact]
    public void On_OutsideTheSpan_SaysSo()
    {
        Assert.Contains(SolarDay.On(new DateOnly(2120, 6, 1), new GeoPoint(40, 0), ZoneOffsets.Utc).Findings, f => f.Code == "daylight.outside-span");
        Assert.DoesNotContain(SolarDay.On(new DateOnly(2027, 6, 1), new GeoPoint(40, 0), ZoneOffsets.Utc).Findings, f => f.Code == "daylight.outside-span");
    }

    /// <summary>Events that happen are in order, and dusk events follow their dawns round transit.</summary>
    [Property(MaxTest = 200)]
    [Checks(typeof(SolarDay), CheckKind.Property)]
    public bool On_AtMiddleLatitudes_EventsAreOrdered(int seed)
    {
        var random = new Random(seed);
        double lat = (random.NextDouble() * 90) - 45, lon = (random.NextDouble() * 360) - 180;
        DateOnly date = DateOnly.FromDateTime(SolarPositionTests.RandomInstant(random).UtcDateTime);
        SolarDay d = SolarDay.On(date, new GeoPoint(lat, lon), ZoneOffsets.Fixed(TimeSpan.FromMinutes(Math.Round(lon * 4))));
        DateTimeOffset?[] order = [d.Starts, d.AstronomicalDawn.At, d.NauticalDawn.At, d.CivilDawn.At, d.Sunrise.At, d.Transit.At, d.Sunset.At, d.CivilDusk.At, d.NauticalDusk.At, d.AstronomicalDusk.At, d.Ends];
        return order.Zip(order.Skip(1)).All(p => p.First < p.Second);
    }

    /// <summary>At each event the altitude is the one asked for: within 0.01 arcsec.</summary>
    [Property(MaxTest = 200)]
    public bool On_AnyPlaceAndDay_AltitudeAtEventsIsTheThreshold(int seed)
    {
        var random = new Random(seed);
        GeoPoint place = SolarPositionTests.RandomPlace(random);
        place = new GeoPoint(place.LatDeg, place.LonDeg, 0);
        DateOnly date = DateOnly.FromDateTime(SolarPositionTests.RandomInstant(random).UtcDateTime);
        SolarDay d = SolarDay.On(date, place, ZoneOffsets.Fixed((double)random.Next(-12, 13)));
        double[] altitudes = [-50.0 / 60, -50.0 / 60, -6, -6, -12, -12, -18, -18];
        SunEvent[] events = Events(d);
        for (int i = 0; i < 8; i++)
        {
            foreach (DateTimeOffset at in events[i].All)
            {
                if (at < d.Starts || at > d.Ends || Math.Abs(SolarPosition.At(at, place).AltitudeDeg - altitudes[i]) * 3600 > 0.01)
                {
                    return false;
                }
            }
        }

        return true;
    }

    /// <summary>A brute scan of the altitude every two minutes finds the same crossings, to the poles.</summary>
    [Property(MaxTest = 40)]
    public bool On_AnyPlaceAndDay_MissesNoCrossing(int seed)
    {
        var random = new Random(seed);
        GeoPoint place = SolarPositionTests.RandomPlace(random);
        DateOnly date = DateOnly.FromDateTime(SolarPositionTests.RandomInstant(random).UtcDateTime);
        SolarDay d = SolarDay.On(date, place, ZoneOffsets.Fixed((double)random.Next(-12, 13)));
        DateTimeOffset[] t = [.. Enumerable.Range(0, 721).Select(i => d.Starts.AddMinutes(2 * i))];
        var p = new SolarPosition[t.Length];
        SolarPosition.At(t, place, p);
        double[] altitudes = [-50.0 / 60, -6, -12, -18];
        SunEvent[] events = Events(d);
        for (int k = 0; k < 4; k++)
        {
            int ups = 0, downs = 0;
            for (int i = 1; i < t.Length; i++)
            {
                ups += p[i - 1].AltitudeDeg <= altitudes[k] && p[i].AltitudeDeg > altitudes[k] ? 1 : 0;
                downs += p[i - 1].AltitudeDeg > altitudes[k] && p[i].AltitudeDeg <= altitudes[k] ? 1 : 0;
            }

            if (ups > Count(events[2 * k]) || downs > Count(events[(2 * k) + 1]))
            {
                return false;
            }
        }

        return true;

        // The kernel may find a pair that lies between two samples; it may not miss one.
        static int Count(SunEvent e) => e.All.Count;
    }

    /// <summary>Days follow each other without a jump: over midnight and the year's end an event moves by what it moves all season.</summary>
    [Property(MaxTest = 60)]
    public bool On_DaysInARow_MoveSmoothly(int seed)
    {
        var random = new Random(seed);
        var place = new GeoPoint((random.NextDouble() * 100) - 50, (random.NextDouble() * 360) - 180, 0);
        ZoneOffsets zone = ZoneOffsets.Fixed(TimeSpan.FromMinutes(Math.Round(place.LonDeg * 4)));
        DateOnly date = new(1950 + random.Next(150), 12, 29);
        double[] sunset = [.. Enumerable.Range(0, 6).Select(i => SolarDay.On(date.AddDays(i), place, zone).Sunset.At!.Value.TimeOfDay.TotalSeconds)];
        double[] steps = [.. sunset.Zip(sunset.Skip(1), (a, b) => b - a)];
        return steps.Zip(steps.Skip(1), (a, b) => Math.Abs(b - a)).All(change => change < 4);
    }

    /// <summary>At the equinox forenoon and afternoon mirror each other within the Sun's own motion.</summary>
    [Property(MaxTest = 40)]
    public bool On_Equinox_IsSymmetricAboutTransit(int seed)
    {
        var random = new Random(seed);
        var place = new GeoPoint((random.NextDouble() * 80) - 40, (random.NextDouble() * 300) - 150, 0);
        SolarDay d = SolarDay.On(new DateOnly(1990 + random.Next(60), 3, 20), place, ZoneOffsets.Fixed(TimeSpan.FromMinutes(Math.Round(place.LonDeg * 4))));
        double morning = (d.Transit.At!.Value - d.Sunrise.At!.Value).TotalSeconds, evening = (d.Sunset.At!.Value - d.Transit.At!.Value).TotalSeconds;

        // Declination moves 0.2 deg between rise and set at 40 deg latitude: under 90 s.
        return Math.Abs(morning - evening) < 90;
    }

    /// <summary>
    /// From sin h = sin phi sin d + cos phi cos d cos H the altitude turns where sin H = (d'/H')(tan phi - tan d cos H): within
    /// 0.00112 (|tan phi| + tan 23.5 deg) of the meridian, since d' stays below 0.4 deg and H' is 360 deg a day. Outside that
    /// neighbourhood of the two meridians it runs one way at every place and date. Beyond 89.9 deg of latitude the neighbourhood covers the
    /// whole circle and nothing can be said: the Sun's own motion moves the altitude more than the turning Earth.
    /// </summary>
    [Property(MaxTest = 150)]
    public bool On_AltitudeBetweenTransitAndItsOpposite_RunsOneWay(int seed)
    {
        var random = new Random(seed);
        double lat = (random.NextDouble() * 2 * 89.5) - 89.5;
        var place = new GeoPoint(lat, (random.NextDouble() * 360) - 180, random.NextDouble() * 5000);
        DateOnly date = DateOnly.FromDateTime(SolarPositionTests.RandomInstant(random).UtcDateTime);
        SolarDay d = SolarDay.On(date, place, ZoneOffsets.Fixed(TimeSpan.FromMinutes(Math.Round(place.LonDeg * 4))));
        double turn = 0.00112 * (Math.Abs(Math.Tan(lat * Math.PI / 180)) + 0.435);
        if (d.Transit.At is not { } transit || turn >= 1)
        {
            return false;
        }

        // Half a minute more for parallax, aberration and the changing length of the solar day.
        double from = (Math.Asin(turn) * 86400 / (2 * Math.PI)) + 30, to = 43200 - from - 30;
        for (int side = -1; side <= 1; side += 2)
        {
            double before = double.PositiveInfinity;
            for (double s = from; s <= to; s += Math.Max(30, (to - from) / 150))
            {
                double now = SolarPosition.At(transit.AddSeconds(side * s), place).AltitudeDeg;
                if (now >= before)
                {
                    return false;
                }

                before = now;
            }
        }

        return true;
    }

    /// <summary>A clock set back by 28 hours makes a local day of 52 hours: each event happens two or three times, and all are given.</summary>
    [Fact]
    public void On_DayOf52Hours_HasAllCrossings()
    {
        var zone = new ZoneOffsets("made", TimeSpan.FromHours(14), [new ZoneTransition(new DateTimeOffset(2027, 3, 19, 9, 59, 0, TimeSpan.Zero), TimeSpan.FromHours(-14))]);
        var place = new GeoPoint(10, 105, 0);
        DateOnly date = new(2027, 3, 19);
        SolarDay d = SolarDay.On(date, place, zone);
        Assert.InRange((d.Ends - d.Starts).TotalHours, 52, 52);
        DateTimeOffset[] t = [.. Enumerable.Range(0, (int)(d.Ends - d.Starts).TotalMinutes + 1).Select(i => d.Starts.AddMinutes(i))];
        var p = new SolarPosition[t.Length];
        SolarPosition.At(t, place, p);
        double[] altitudes = [-50.0 / 60, -6, -12, -18];
        SunEvent[] events = Events(d);
        int most = 0;
        for (int k = 0; k < 8; k++)
        {
            DateTimeOffset[] brute = [.. Enumerable.Range(1, t.Length - 1).Where(i => p[i - 1].AltitudeDeg > altitudes[k / 2] != p[i].AltitudeDeg > altitudes[k / 2] && p[i].AltitudeDeg > altitudes[k / 2] == (k % 2 == 0)).Select(i => t[i])];
            Assert.Equal(brute.Length, events[k].All.Count);
            Assert.All(brute.Zip(events[k].All), x => Assert.InRange((x.First - x.Second).TotalSeconds, 0, 60));
            most = Math.Max(most, brute.Length);
        }

        Assert.Equal(3, most);
        Assert.InRange(d.DayLength.TotalHours, 20, 40);
        var table = new SunTimes[1];
        SolarDay.Table(date, place, zone, table);
        Assert.True(table[0].HasMore);
        Assert.Equal(d.Sunset.At!.Value, table[0].Sunset!.Value, TimeSpan.FromMilliseconds(2));
    }

    /// <summary>Every result that depends on the date says when it lies outside the span, and events say what horizon they assume.</summary>
    [Theory]
    [InlineData(1949, true)]
    [InlineData(1950, false)]
    [InlineData(2100, false)]
    [InlineData(2101, true)]
    public void EveryResult_OutsideTheSpan_SaysSo(int year, bool outside)
    {
        var place = new GeoPoint(40, 0, 100);
        DateOnly date = new(year, 7, 1);
        var noon = new DateTimeOffset(year, 7, 1, 12, 0, 0, TimeSpan.Zero);
        var table = new SunTimes[1];
        SolarDay.Table(date, place, ZoneOffsets.Utc, table);
        var batch = new SolarPosition[1];
        SolarPosition.At([noon], place, batch);
        var lights = new SkyLight[1];
        SkyLight.Along([noon], [place], lights);
        IReadOnlyList<Finding>[] all =
        [
            SolarDay.On(date, place, ZoneOffsets.Utc).Findings, table[0].Findings, SolarPosition.At(noon, place).Findings, batch[0].Findings,
            MoonPosition.At(noon, place).Findings, MoonDay.On(date, place, ZoneOffsets.Utc).Findings, SkyLight.At(noon, place).Findings, lights[0].Findings,
            RideLight.Along([noon, noon.AddHours(1)], [place, place]).Findings, DaylightRange.Over(date, date.AddDays(1), place, ZoneOffsets.Utc).Findings,
            DaylightMargin.To(noon, [noon]).Findings, ClearSkyIrradiance.At(noon, place).Findings,
            SunOnRoute.Along([noon], [place], new Almanac.Plain(0)).Findings, DirectSunDay.On(date, place, ZoneOffsets.Utc, HorizonProfile.Level()).Findings,
        ];
        Assert.All(all, f => Assert.Equal(outside, f.Any(x => x.Code == "daylight.outside-span")));
        Assert.All(new[] { all[0], all[1], all[5], all[6], all[8], all[9], all[10], all[13] }, f => Assert.Contains(f, x => x.Code == "daylight.free-horizon"));
        Assert.True(SolarPosition.At(noon, place).Distance.Meters > 1.4e11);
    }

    [Fact]
    public void On_DaysOfClockChange_Have23And25Hours()
    {
        // Invented clock: an hour forward at 02:00 on 28 March 2027, back at 03:00 on 31 October.
        var zone = new ZoneOffsets("made", TimeSpan.FromHours(1),
        [
            new ZoneTransition(new DateTimeOffset(2027, 3, 28, 1, 0, 0, TimeSpan.Zero), TimeSpan.FromHours(2)),
            new ZoneTransition(new DateTimeOffset(2027, 10, 31, 1, 0, 0, TimeSpan.Zero), TimeSpan.FromHours(1)),
        ]);
        var place = new GeoPoint(47, 11, 600);
        SolarDay spring = SolarDay.On(new DateOnly(2027, 3, 28), place, zone), autumn = SolarDay.On(new DateOnly(2027, 10, 31), place, zone);
        Assert.Equal(TimeSpan.FromHours(23), spring.Ends - spring.Starts);
        Assert.Equal(TimeSpan.FromHours(25), autumn.Ends - autumn.Starts);
        Assert.Equal(TimeSpan.FromHours(2), spring.Sunrise.At!.Value.Offset);
        Assert.Equal(TimeSpan.FromHours(1), autumn.Sunrise.At!.Value.Offset);

        var table = new SunTimes[300];
        SolarDay.Table(new DateOnly(2027, 3, 1), place, zone, table);
        foreach (SunTimes t in table)
        {
            SolarDay d = SolarDay.On(t.Date, place, zone);
            Assert.Equal(d.Starts, t.Starts);
            Assert.InRange((d.Sunset.At!.Value - t.Sunset!.Value).TotalSeconds, -0.001, 0.001);
            Assert.InRange((d.Transit.At!.Value - t.Transit!.Value).TotalSeconds, -0.001, 0.001);
        }
    }

    /// <summary>The table's shared segments and the cold day agree: 1 ms at ordinary crossing rates.</summary>
    [Property(MaxTest = 15)]
    public bool Table_EqualsCold(int seed)
    {
        var random = new Random(seed);
        var place = new GeoPoint((random.NextDouble() * 110) - 55, (random.NextDouble() * 360) - 180, 0);
        ZoneOffsets zone = ZoneOffsets.Fixed((double)random.Next(-12, 13));
        var table = new SunTimes[40];
        SolarDay.Table(new DateOnly(1950 + random.Next(150), 1 + random.Next(12), 3), place, zone, table);
        return table.All(t =>
        {
            SolarDay d = SolarDay.On(t.Date, place, zone);
            return t.HorizonState == State(d.Sunrise, d.Sunset) && t.CivilState == State(d.CivilDawn, d.CivilDusk) && t.NauticalState == State(d.NauticalDawn, d.NauticalDusk)
                && t.AstronomicalState == State(d.AstronomicalDawn, d.AstronomicalDusk) && t.HasMore == Events(d).Append(d.Transit).Any(e => e.Again is not null)
                && Close(d.Sunrise.At, t.Sunrise) && Close(d.CivilDusk.At, t.CivilDusk) && Close(d.Transit.At, t.Transit) && Close(d.NauticalDawn.At, t.NauticalDawn);
        });

        static SunEventState State(SunEvent up, SunEvent down) => up.At is null && down.At is null ? up.State : SunEventState.Occurs;

        static bool Close(DateTimeOffset? a, DateTimeOffset? b) => a is null ? b is null : b is not null && Math.Abs((a.Value - b.Value).TotalMilliseconds) < 2;
    }

    /// <summary>Facts of the trade: midnight sun and polar night north of the circle; light all night at 60 N in June.</summary>
    [Fact]
    public void On_PolarCases_AreStates()
    {
        SolarDay summer = SolarDay.On(new DateOnly(2027, 6, 21), new GeoPoint(70, 20), ZoneOffsets.Fixed(1.0));
        Assert.Equal(SunEventState.AlwaysAbove, summer.Sunset.State);
        Assert.Null(summer.Sunset.At);
        Assert.Equal(TimeSpan.FromHours(24), summer.DayLength);
        SolarDay winter = SolarDay.On(new DateOnly(2027, 12, 21), new GeoPoint(70, 20), ZoneOffsets.Fixed(1.0));
        Assert.Equal(SunEventState.AlwaysBelow, winter.Sunrise.State);
        Assert.Equal(TimeSpan.Zero, winter.DayLength);
        Assert.Equal(SunEventState.Occurs, winter.CivilDawn.State);
        SolarDay bright = SolarDay.On(new DateOnly(2027, 6, 21), new GeoPoint(62, 20), ZoneOffsets.Fixed(1.0));
        Assert.Equal(SunEventState.Occurs, bright.Sunset.State);
        Assert.Equal(SunEventState.AlwaysAbove, bright.CivilDusk.State);
    }

    [Fact]
    public void On_EyeAboveThePlain_RisesEarlierByTheDip()
    {
        var place = new GeoPoint(0, 0, 0);
        var date = new DateOnly(2027, 3, 20);
        SolarDay low = SolarDay.On(date, place, ZoneOffsets.Utc);
        SolarDay high = SolarDay.On(date, place, ZoneOffsets.Utc, new DaylightOptions { HeightAboveHorizon = Length.FromMeters(1000) });

        // Geometric dip of 61 arcmin at 1000 m; 15 arcsec a second at the equator at equinox.
        Assert.InRange((low.Sunrise.At!.Value - high.Sunrise.At!.Value).TotalSeconds, 242, 246);
        Assert.Equal(low.CivilDusk, high.CivilDusk);
    }

    private static SolarDay Day(CsvRow r) => SolarDay.On(
        DateOnly.Parse(r["local_date"], System.Globalization.CultureInfo.InvariantCulture), Almanac.Place(r, 0), ZoneOffsets.Fixed(r.Num("utc_offset_h")), Almanac.Options(r));

    private static SunEvent[] Events(SolarDay d)
        => [d.Sunrise, d.Sunset, d.CivilDawn, d.CivilDusk, d.NauticalDawn, d.NauticalDusk, d.AstronomicalDawn, d.AstronomicalDusk];
}
