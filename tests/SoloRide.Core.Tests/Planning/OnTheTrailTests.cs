using FsCheck.Xunit;
using SoloRide.Batteries;
using SoloRide.Hydration;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>News from the trail, against what the plan expected there.</summary>
public sealed class OnTheTrailTests
{
    private static readonly Device Lamp = Device.Lamp("lamp", DeviceKind.HeadLamp, CellPack.LithiumIon(10_000), DeviceMode.Of("middle", ModeUse.Lighting, 2, 2.2, 2.5));

    private static RideRequest Ride(double airC = 18, double windMps = 0, double fromDeg = 0, double startH = 0, double km = 40) => Rides.Request(Rides.Line(km), samples: 256) with
    {
        Start = Rides.Start.AddHours(startH),
        PreparedAt = Rides.Start.AddHours(startH - 12),
        Exits = [],
        Devices = [Lamp],
        Weather = new([new ForecastPlace("test", null, Enumerable.Range(0, 97).Select(h => new ForecastHour(
            Rides.Start.AddHours(h - 8),
            new Weather { AirTempC = airC, RelHumidityPct = 40, WindMps = windMps, WindFromDeg = fromDeg, GustMps = windMps, CloudPct = 20, PrecipMm = 0, ThunderPct = 0 })))]),
    };

    private static (RidePlan Plan, TrailUpdate Update) OnPlan(RideRequest r, int station, Volume? water = null)
    {
        RidePlan plan = RidePlanner.Plan(r);
        PlanStation s = plan.Stations[station];
        return (plan, RidePlanner.Replan(r, new TrailNews { AlongRoute = s.AlongRoute, At = s.Arrival.Typical, WaterInHand = water }));
    }

    public static TheoryData<string, double, double, double, double> Skies => new()
    {
        { "calm", 18, 0, 0, 0 },
        { "headwind 8", 18, 8, 0, 0 },
        { "headwind 15", 18, 15, 0, 0 },
        { "tailwind 8", 18, 8, 180, 0 },
        { "40 C", 40, 0, 0, 0 },
        { "-5 C", -5, 2, 90, 0 },
        { "night", 18, 0, 0, 14 },
        { "into the night", 18, 3, 0, 11 },
    };

    // News from the planned place at the planned time is no news: the factor is 1 and the finish stands, whatever wind, heat and darkness do.
    [Theory]
    [MemberData(nameof(Skies))]
    public void Replan_ExactlyOnPlan_GivesFactorOne_AndTheFinishAsPlanned(string sky, double airC, double windMps, double fromDeg, double startH)
    {
        (RidePlan plan, TrailUpdate update) = OnPlan(Ride(airC, windMps, fromDeg, startH), 2);
        Assert.True(Math.Abs(update.PaceFactor.Typical.DecimalFractions - 1) <= 0.01, $"{sky}: factor {update.PaceFactor.Typical.DecimalFractions:F3}");
        Assert.Equal("Pace as planned.", update.News[0]);
        Assert.True(update.News[1].StartsWith("Finish as planned", StringComparison.Ordinal), $"{sky}: {update.News[1]} was {plan.Finish!.Typical:HH:mm}");
    }

    [Property(MaxTest = 12)]
    public bool Replan_OnPlan_FactorOne_InAnyWeatherAndHour(byte air, byte wind, byte from, byte hour)
    {
        (_, TrailUpdate update) = OnPlan(Ride(-10 + (air % 55), wind % 13, from * 360 / 256.0, hour % 24, 25), 1);
        return Math.Abs(update.PaceFactor.Typical.DecimalFractions - 1) <= 0.01;
    }

    // Treatment at sources and stops of the plan are no slowness.
    [Fact]
    public void Replan_PlannedPauses_AreNotMovingTime()
    {
        RideRequest r = Ride(30) with
        {
            Treatment = new WaterTreatment(WaterTreatmentMethod.ChlorineDioxide),
            Sources = [new WaterSource { Name = "Spring", AlongRoute = Length.FromKilometers(5), WetProbability = 1 }],
            Load = new Load { WaterCapacity = Volume.FromLiters(3) },
        };
        RidePlan plan = RidePlanner.Plan(r);
        int after = plan.Stations.ToList().FindIndex(s => s.AlongRoute.Kilometers > 10);
        (_, TrailUpdate update) = OnPlan(r, after);
        Assert.InRange(update.PaceFactor.Typical.DecimalFractions, 0.99, 1.01);
    }

    // Hours in the legs count on after the news: a long ride's finish stands.
    [Fact]
    public void Replan_LateOnALongRide_KeepsTheHoursBefore()
    {
        (RidePlan plan, TrailUpdate update) = OnPlan(Ride(km: 110), 8);
        Assert.True((plan.Stations[8].Arrival.Typical - plan.Start).TotalHours > 5);
        Assert.StartsWith("Finish as planned", update.News[1], StringComparison.Ordinal);
    }

    [Theory]
    [MemberData(nameof(Skies))]
    public void Review_EndAsPlanned_IsPaceAsPlanned(string sky, double airC, double windMps, double fromDeg, double startH)
    {
        RideRequest r = Ride(airC, windMps, fromDeg, startH);
        RidePlan plan = RidePlanner.Plan(r);
        RideReview review = RideReview.Of(r, plan, new RideRecord { Finished = plan.Finish!.Typical });
        Assert.True(review.Lines.Contains("Pace as planned."), $"{sky}: {string.Join(" ", review.Lines)}");
        Assert.InRange(review.PaceFactor.Typical.DecimalFractions, 0.99, 1.01);
    }

    // A rider in time never sends "late"; who is late and covered does.
    [Fact]
    public void Message_OnTime_SaysOk_LateSaysLate()
    {
        RideRequest r = Ride();
        (RidePlan plan, TrailUpdate update) = OnPlan(r, 2, Volume.FromLiters(4));
        Assert.StartsWith("OK ", update.Message, StringComparison.Ordinal);
        PlanStation s = plan.Stations[2];
        TrailUpdate late = RidePlanner.Replan(r, new TrailNews { AlongRoute = s.AlongRoute, At = s.Arrival.Typical.AddMinutes(20), WaterInHand = Volume.FromLiters(6) });
        Assert.StartsWith("LATE BUT FINE ", late.Message, StringComparison.Ordinal);
    }

    // Never fine while the numbers say no: the message says what is short and that the rider turns or ends early.
    [Fact]
    public void Message_WhatIsShort_IsNeverFine()
    {
        RideRequest r = Ride(30);
        PlanStation s = RidePlanner.Plan(r).Stations[2];
        TrailUpdate dry = RidePlanner.Replan(r, new TrailNews { AlongRoute = s.AlongRoute, At = s.Arrival.Typical, WaterInHand = Volume.Zero });
        Assert.Equal(PlanVerdictKind.DoesNotFit, dry.Plan.Verdict.Kind);
        Assert.StartsWith("NOT AS PLANNED ", dry.Message, StringComparison.Ordinal);
        Assert.Contains("L missing", dry.Message, StringComparison.Ordinal);
        Assert.Contains("turning or ending early", dry.Message, StringComparison.Ordinal);

        RideRequest dusk = Ride(startH: 9) with { Devices = [] };
        TrailUpdate dark = RidePlanner.Replan(dusk, new TrailNews { AlongRoute = Length.FromKilometers(20), At = Rides.Start.AddHours(13.6), WaterInHand = Volume.FromLiters(5) });
        Assert.Equal(PlanVerdictKind.DoesNotFit, dark.Plan.Verdict.Kind);
        Assert.Contains("no lamp", dark.Message, StringComparison.Ordinal);

        TrailUpdate days = RidePlanner.Replan(r, new TrailNews { AlongRoute = Length.FromKilometers(20), At = r.Start.AddHours(100), WaterInHand = Volume.FromLiters(6) });
        foreach (TrailUpdate u in new[] { dry, dark, days })
        {
            Assert.StartsWith("NOT AS PLANNED ", u.Message, StringComparison.Ordinal);
            Assert.DoesNotContain("FINE", u.Message, StringComparison.Ordinal);
            Assert.DoesNotContain("OK", u.Message, StringComparison.Ordinal);
            Assert.True(u.Message.Length <= 160, u.Message);
        }
    }

    [Fact]
    public void Message_IsOnTheClockOfTheRide()
    {
        RideRequest r = Ride();
        PlanStation s = RidePlanner.Plan(r).Stations[2];
        var news = new TrailNews { AlongRoute = s.AlongRoute, At = s.Arrival.Typical, WaterInHand = Volume.FromLiters(4) };
        TrailUpdate local = RidePlanner.Replan(r, news), utc = RidePlanner.Replan(r, news with { At = news.At.ToUniversalTime() });
        Assert.Equal(local.Message, utc.Message);
        Assert.Equal(local.ToText(), utc.ToText());
        Assert.Contains("UTC-6", utc.Message, StringComparison.Ordinal);
    }

    // What a plan refuses is refused on the way.
    [Fact]
    public void Replan_RouteWithoutHeights_IsRefused()
    {
        RideRequest r = Rides.Request(Rides.Line(heights: false), 64);
        TrailUpdate update = RidePlanner.Replan(r, new TrailNews { AlongRoute = Length.FromKilometers(4), At = r.Start.AddHours(1) });
        Assert.Equal(PlanVerdictKind.Refused, update.Plan.Verdict.Kind);
        Assert.Empty(update.Plan.Stations);
        Assert.DoesNotContain("OK", update.Message, StringComparison.Ordinal);
        Assert.Contains("no heights", update.ToText(), StringComparison.Ordinal);
    }

    // Without a word on water the plan's own typical water stands in, is told as a guess, and does not stop a ride that is on its plan.
    [Theory]
    [InlineData(18)]
    [InlineData(30)]
    public void Replan_WaterNotGiven_IsTheTypical_AndSaidToBeAGuess(double airC)
    {
        (RidePlan plan, TrailUpdate update) = OnPlan(Ride(airC), 2);
        Assert.Equal(plan.Stations[2].WaterInHand.Typical.Liters, update.Plan.Stations[0].WaterInHand.Typical.Liters, 0.1);
        Assert.Contains("a guess", update.ToText(), StringComparison.Ordinal);
        Assert.True(update.Plan.Verdict.Kind <= plan.Verdict.Kind, string.Join(" ", update.Plan.Verdict.Reasons));
    }

    [Fact]
    public void Replan_AtASource_StillCountsIt()
    {
        RideRequest r = Ride(30) with { Sources = [new WaterSource { Name = "Spring", AlongRoute = Length.FromKilometers(20), WetProbability = 1 }], Load = new Load { WaterCapacity = Volume.FromLiters(3) } };
        RidePlan plan = RidePlanner.Plan(r);
        int at = plan.Stations.ToList().FindIndex(s => s.Name == "Spring");
        (_, TrailUpdate update) = OnPlan(r, at);
        Assert.Contains(update.Plan.Stations, s => s.Name == "Spring");
        Assert.StartsWith("Finish as planned", update.News[1], StringComparison.Ordinal);
    }

    // A way out that is passed twice keeps its one name.
    [Fact]
    public void Replan_WayOutPassedTwice_HasOneName()
    {
        RideRequest r = Ride(km: 20) with { Exits = [] };
        var there = r.Route.Points.Select(p => p.Place).ToList();
        there.AddRange(there.AsEnumerable().Reverse().Skip(1).ToList());
        r = r with { Route = SoloRide.Routes.RideRoute.FromPoints(there, "There And Back"), Exits = [new ExitPoint { Name = "Lower Gate", Place = there[0] }, new ExitPoint { Name = "Mill Road", Place = there[200] }], Load = new Load { WaterCapacity = Volume.FromLiters(6) } };
        TrailUpdate update = RidePlanner.Replan(r, new TrailNews { AlongRoute = Length.FromKilometers(22), At = r.Start.AddHours(2), WaterInHand = Volume.FromLiters(4) });
        Assert.DoesNotContain("(again)", update.ToText(), StringComparison.Ordinal);
        Assert.DoesNotContain("(again)", update.Plan.ToText(), StringComparison.Ordinal);
        Assert.Contains("Mill Road", update.ToText(), StringComparison.Ordinal);
        Assert.DoesNotContain("start is here", update.ToText(), StringComparison.Ordinal);
    }

    // Far off the factor is told as a multiple, and for what trail it holds.
    [Fact]
    public void News_SlowSoFar_SaysForWhichTrail()
    {
        RideRequest r = Ride();
        PlanStation s = RidePlanner.Plan(r).Stations[2];
        TimeSpan planned = s.Arrival.Typical - r.Start;
        Assert.Contains("on trail like that so far", RidePlanner.Replan(r, new TrailNews { AlongRoute = s.AlongRoute, At = r.Start + (planned * 1.2), WaterInHand = Volume.FromLiters(4) }).News[0], StringComparison.Ordinal);
        string slow = RidePlanner.Replan(r, new TrailNews { AlongRoute = s.AlongRoute, At = r.Start + (planned * 3), WaterInHand = Volume.FromLiters(6) }).News[0];
        Assert.Contains("times the planned time, on trail like that so far", slow, StringComparison.Ordinal);
    }
}
