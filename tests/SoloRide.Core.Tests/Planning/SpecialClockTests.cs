using FsCheck.Xunit;
using SoloRide.Exposure;
using SoloRide.Kit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Heat, storm, canyon, fords, trouble, events and the worksheet: bad input and laws; their use is tested with the rides.</summary>
public sealed class SpecialClockTests
{
    private static readonly RideRequest Request = Rides.Request(samples: 64);

    private static StormRidge Ridge(double onsetH = 6) => new()
    {
        From = Length.FromKilometers(8),
        To = Length.FromKilometers(14),
        Onset = Estimate.Exact(Rides.Start.AddHours(onsetH)),
        Escapes = [new StormEscape("gully", Length.FromKilometers(10), Estimate.Exact(TimeSpan.FromMinutes(10)))],
    };

    [Fact]
    [Checks(typeof(HeatWindow), CheckKind.BadInput)]
    public void HeatWindow_BadInput_Throws()
    {
        Assert.Throws<ArgumentException>(() => HeatWindow.Of([]));
        Assert.Throws<ArgumentException>(() => HeatWindow.Of([new(Rides.Start, HeatCategory.One), new(Rides.Start, HeatCategory.Two)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => HeatWindow.FromForecast(Rides.Weather(), new GeoPoint(38, -109, 1500), Rides.Start, 0));
    }

    // Spans are exactly the hours below the limit; a higher limit never shortens them.
    [Property]
    [Checks(typeof(HeatWindow), CheckKind.Property)]
    public bool HeatWindow_Spans_AreTheHoursBelowTheLimit(byte[] categories)
    {
        if (categories.Length == 0)
        {
            return true;
        }

        HeatHour[] hours = [.. categories.Select((c, i) => new HeatHour(Rides.Start.AddHours(i), (HeatCategory)(c % 6)))];
        TimeSpan last = TimeSpan.Zero;
        foreach (HeatCategory limit in Enum.GetValues<HeatCategory>())
        {
            HeatWindow w = HeatWindow.Of(hours, limit);
            TimeSpan sum = w.Spans.Aggregate(TimeSpan.Zero, (s, x) => s + (x.To - x.From));
            if (sum != TimeSpan.FromHours(hours.Count(h => h.Category < limit)) || sum < last || hours.Any(h => (w.EndFrom(h.From) > h.From) != (h.Category < limit)))
            {
                return false;
            }

            last = sum;
        }

        return true;
    }

    [Fact]
    public void HeatWindow_FromForecast_HotterAirClosesEarlier_UnknownCountsAsHot()
    {
        var place = new GeoPoint(38, -109, 1500);
        Assert.Equal(24, HeatWindow.FromForecast(Rides.Weather(airC: 15), place, Rides.Start, 24).Spans.Sum(s => (s.To - s.From).TotalHours));
        Assert.True(HeatWindow.FromForecast(Rides.Weather(airC: 40, humidityPct: 60), place, Rides.Start, 24).Spans.Sum(s => (s.To - s.From).TotalHours) < 12);
        Assert.Empty(HeatWindow.FromForecast(Rides.Weather(airC: 15), place, Rides.Start.AddDays(30), 24).Spans);
    }

    [Fact]
    [Checks(typeof(StormPlanner), CheckKind.BadInput)]
    public void Storm_BadRidge_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => StormPlanner.Plan(Request, Ridge() with { To = Length.FromKilometers(7) }));
        Assert.Throws<ArgumentException>(() => StormPlanner.Plan(Request, Ridge() with { To = Length.FromKilometers(70) }));
        Assert.Throws<ArgumentException>(() => StormPlanner.Plan(Request, Ridge() with { Escapes = [new StormEscape("x", Length.FromKilometers(2), Estimate.Exact(TimeSpan.FromMinutes(5)))] }));
        Assert.Throws<ArgumentOutOfRangeException>(() => new StormEscape("x", Length.FromKilometers(2), Estimate.Exact(TimeSpan.FromMinutes(-5))));
    }

    // A storm that comes later moves every latest entry by as much.
    [Property(MaxTest = 4)]
    [Checks(typeof(StormPlanner), CheckKind.Property)]
    public bool Storm_LaterOnset_MovesTheEntryByAsMuch(byte minutes)
    {
        StormPlan a = StormPlanner.Plan(Request, Ridge()), b = StormPlanner.Plan(Request, Ridge(6 + (minutes / 60.0)));
        return Math.Abs((b.LatestEntry - a.LatestEntry).TotalMinutes - minutes) < 0.05 && b.LatestEntry >= b.LatestForWhole;
    }

    [Fact]
    [Checks(typeof(CanyonSun), CheckKind.BadInput)]
    public void Canyon_BadInput_Throws()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Canyon(500, -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => Canyon(0, 20));
        Assert.Throws<ArgumentOutOfRangeException>(() => CanyonSun.On(new DateOnly(2027, 6, 1), new GeoPoint(37, -111, 1000), ZoneOffsets.Fixed(-7), 400, Length.FromMeters(1), Length.FromMeters(1)));
    }

    [Property(MaxTest = 20)]
    [Checks(typeof(CanyonSun), CheckKind.Property)]
    public bool Canyon_HigherRims_NeverLengthenTheSun(ushort rim)
        => Canyon(500, rim % 4000).Day.DirectSun >= Canyon(500, (rim % 4000) + 100).Day.DirectSun - TimeSpan.FromSeconds(2);

    // Table horizon_angle: a rim 300 m above the trail at 500 m stands at 31.0 degrees. Without walls the sun ends at sunset.
    [Fact]
    [Checks(typeof(CanyonSun), CheckKind.Outside)]
    public void Canyon_RimAngle_AsTheTable_AndOpenGroundAsSunset()
    {
        Assert.Equal(31.0, Canyon(500, 300).RimDeg, 0.05);
        CanyonSun open = Canyon(500, 0);
        Assert.Equal(open.Day.Sun.Sunset.At!.Value, open.Ends!.Value, TimeSpan.FromMinutes(6));
        Assert.NotNull(open.ToDeadline(Length.Zero, Length.FromKilometers(1)));
    }

    [Fact]
    [Checks(typeof(FordPlanner), CheckKind.BadInput)]
    public void Ford_BadInput_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => FordPlanner.Plan(Request, []));
        Assert.Throws<ArgumentException>(() => FordPlanner.Plan(Request, [Ford(5, 0.1) with { Return = Length.FromKilometers(4) }]));
        Assert.Throws<ArgumentException>(() => FordPlanner.Plan(Request, [Ford(50, 0.1)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Ford(5, -0.1));
    }

    [Property(MaxTest = 4)]
    [Checks(typeof(FordPlanner), CheckKind.Property)]
    public bool Ford_FasterRise_NeverAllowsLaterCrossing(byte rise)
    {
        FordAhead slow = Ford(15, rise / 1000.0), fast = Ford(15, (rise + 5) / 1000.0);
        return (fast.LatestCrossing ?? DateTimeOffset.MaxValue) <= (slow.LatestCrossing ?? DateTimeOffset.MaxValue)
            && (!FordPlanner.Plan(Request, [fast]).InTime || FordPlanner.Plan(Request, [slow]).InTime);
    }

    [Fact]
    public void TimeBetween_AddsUpAtTheMiddle_AndRefusesDisorder()
    {
        TimeSpan whole = RidePlanner.TimeBetween(Request, Length.Zero, Length.FromKilometers(20)).Typical;
        TimeSpan parts = RidePlanner.TimeBetween(Request, Length.Zero, Length.FromKilometers(10)).Typical + RidePlanner.TimeBetween(Request, Length.FromKilometers(10), Length.FromKilometers(20)).Typical;
        Assert.Equal(whole.TotalMinutes, parts.TotalMinutes, 0.05 * whole.TotalMinutes);
        Assert.Throws<ArgumentException>(() => RidePlanner.TimeBetween(Request, Length.FromKilometers(10), Length.FromKilometers(10)));
        Assert.Throws<ArgumentOutOfRangeException>(() => RidePlanner.TimeBetween(Request, Length.FromKilometers(10), Length.FromKilometers(100)));
        Assert.Throws<ArgumentException>(() => RidePlanner.TimeBetween(Request with { Route = Rides.Line(heights: false) }, Length.Zero, Length.FromKilometers(10)));
    }

    [Fact]
    public void Trouble_WhoCannotMove_Calls_AndASoundRiderWalks()
    {
        TroubleNews news = new() { Kind = TroubleKind.BikeDead, AlongRoute = Length.FromKilometers(12), At = Rides.Start.AddHours(1), WaterInHand = Volume.FromLiters(3) };
        TroubleAdvice walk = RidePlanner.AfterTrouble(Request, news);
        Assert.Equal(TroubleChoice.Walk, walk.Choice);
        Assert.Equal("Half Way Road", walk.Ways[0].ExitName);
        TroubleAdvice call = RidePlanner.AfterTrouble(Request, news with { Kind = TroubleKind.CannotMove });
        Assert.Equal(TroubleChoice.Call, call.Choice);
        Assert.Empty(call.Ways);
        Assert.All(new[] { walk, call }, a => Assert.All(a.ToText().Split('\n'), l => Assert.True(l.Length <= 80, l)));

        // Half an hour without water is walked all the same, with the shortage named: a day's wait without water takes more.
        TroubleAdvice dry = RidePlanner.AfterTrouble(Request, news with { WaterInHand = Volume.Zero });
        Assert.Equal(TroubleChoice.Walk, dry.Choice);
        Assert.Contains("L short of what it takes", dry.Reason, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => RidePlanner.AfterTrouble(Request, news with { AlongRoute = Length.FromKilometers(40) }));
        Assert.Throws<ArgumentException>(() => RidePlanner.AfterTrouble(Request, news with { At = Rides.Start.AddHours(-1) }));
        Assert.Throws<ArgumentOutOfRangeException>(() => news with { WalkingSpeed = Speed.FromKilometersPerHour(20) });
    }

    [Fact]
    [Checks(typeof(EventPlanner), CheckKind.BadInput)]
    public void Event_BadInput_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => EventPlanner.Plan(Event() with { Waves = [] }));
        Assert.Throws<ArgumentException>(() => EventPlanner.Plan(Event() with { Waves = [new EventWave("x", Rides.Start, 0)] }));
        Assert.Throws<ArgumentException>(() => EventPlanner.Plan(Event() with { Checkpoints = [new EventCheckpoint("x", Length.FromKilometers(90))] }));
        Assert.Throws<ArgumentOutOfRangeException>(() => Event() with { FieldGsdFactor = 0.9 });
        Assert.Throws<ArgumentException>(() => EventPlanner.Plan(Event() with { MiddleRider = Request with { Route = Rides.Line(heights: false) } }));
    }

    // A field without spread is cut off at the middle rider's time; more spread never gives an earlier cut-off.
    [Property(MaxTest = 4)]
    [Checks(typeof(EventPlanner), CheckKind.Property)]
    public bool Event_MoreSpread_LaterCutOffs(byte spread)
    {
        EventPlan none = EventPlanner.Plan(Event() with { FieldGsdFactor = 1 }), some = EventPlanner.Plan(Event() with { FieldGsdFactor = 1 + (spread / 300.0) });
        return none.Checkpoints.Zip(some.Checkpoints).All(c => c.First.Release <= c.Second.Release && c.First.FirstRider == c.First.ByWave[0].CutOff);
    }

    [Fact]
    [Checks(typeof(RiskWorksheet), CheckKind.BadInput)]
    public void Worksheet_OutsideZeroToTen_Throws()
        => Assert.Throws<ArgumentOutOfRangeException>(() => RiskWorksheet.Of(1, 2, 3, 4, 5, 11));

    [Property]
    [Checks(typeof(RiskWorksheet), CheckKind.Property)]
    public bool Worksheet_AnyElementOfEight_Stops(byte a, byte b, byte c)
    {
        RiskWorksheet w = RiskWorksheet.Of(a % 11, b % 11, c % 11, 0, 0, 0);
        return w.Stops == (a % 11 >= 8 || b % 11 >= 8 || c % 11 >= 8) && w.Words.StartsWith("Stop", StringComparison.Ordinal) == w.Stops;
    }

    [Fact]
    [Checks(typeof(ColdWetExposure), CheckKind.BadInput)]
    public void ColdWet_Null_Throws_AndWithoutForecastNothingIsJudged()
    {
        RidePlan plan = RidePlanner.Plan(Request);
        Assert.Throws<ArgumentNullException>(() => ColdWetExposure.Of(plan, Rides.Weather(), null!));
        ColdWetExposure none = ColdWetExposure.Of(plan, Rides.Weather(fromHour: 500), [new Garment("jersey", 0.4)]);
        Assert.Null(none.Worst);
        Assert.Contains("not judged", none.Words, StringComparison.Ordinal);
    }

    // Colder air or less clothing never gives a milder class.
    [Property(MaxTest = 8)]
    [Checks(typeof(ColdWetExposure), CheckKind.Property)]
    public bool ColdWet_ColderOrLessWorn_IsNeverMilder(byte air)
    {
        double c = -10 + (air % 25);
        ColdWetClass Class(double airC, double clo) => ColdWetExposure.Of(ColdPlan, Rides.Weather(airC), [new Garment("worn", clo)]).Worst!.Class;
        return Class(c - 5, 0.8) >= Class(c, 0.8) && Class(c, 0.5) >= Class(c, 0.8);
    }

    private static readonly RidePlan ColdPlan = RidePlanner.Plan(Request with { Options = Request.Options with { Samples = 0 } });

    private static CanyonSun Canyon(double distance, double rim) => CanyonSun.On(new DateOnly(2025, 11, 8), new GeoPoint(37, -111.6, 1000), ZoneOffsets.Fixed(-7), 20, Length.FromMeters(rim), Length.FromMeters(distance));

    private static FordAhead Ford(double km, double riseM) => new()
    {
        Name = "ford", AlongRoute = Length.FromKilometers(km), At = Rides.Start, Depth = Length.FromMeters(0.3), WaterSpeed = Speed.FromMetersPerSecond(riseM < 0 ? -1 : 0.5), DepthRisePerHour = Length.FromMeters(riseM),
    };

    private static EventRequest Event() => new()
    {
        MiddleRider = Request,
        Waves = [new EventWave("one", Rides.Start, 10)],
        Checkpoints = [new EventCheckpoint("Half Way", Length.FromKilometers(10))],
        FieldGsdFactor = 1.2,
        Punctures = FailureRate.Known(0.002),
    };
}
