using FsCheck.Xunit;
using SoloRide.Effort;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

public sealed class DecisionTests
{
    [Fact]
    public void SweepStarts_OverADay_GivesOneWindowThatEndsBeforeDusk()
    {
        StartSweep sweep = RidePlanner.SweepStarts(Rides.Request(samples: 64) with { PreparedAt = null }, Rides.Start.AddHours(-4), Rides.Start.AddHours(14), TimeSpan.FromHours(1));
        Assert.Equal(19, sweep.Outcomes.Count);
        (DateTimeOffset from, DateTimeOffset to) = Assert.Single(sweep.Windows);
        RidePlan plan = RidePlanner.Plan(Rides.Request(samples: 64));
        Assert.InRange(to, plan.LatestStart!.Value.AddHours(-1.1), plan.LatestStart.Value.AddHours(0.1));
        Assert.True(from < to);
    }

    [Fact]
    [Checks(typeof(RidePlanner), CheckKind.BadInput)]
    public void SweepStarts_BadSpan_Throws()
    {
        Assert.Throws<ArgumentException>(() => RidePlanner.SweepStarts(Rides.Request(), Rides.Start, Rides.Start.AddHours(-1), TimeSpan.FromHours(1)));
        Assert.Throws<ArgumentException>(() => RidePlanner.SweepStarts(Rides.Request(), Rides.Start, Rides.Start.AddHours(1), TimeSpan.FromSeconds(1)));
        Assert.Throws<ArgumentException>(() => RidePlanner.Compare([]));
    }

    // Each lever is a full plan of the changed request: the effect equals what planning the change by hand gives.
    [Fact]
    [Checks(typeof(RidePlanner), CheckKind.Property)]
    public void Levers_EachEffect_EqualsTheRecomputedPlan()
    {
        RideRequest r = Rides.Request(samples: 128) with { Start = Rides.Start.AddHours(9.5) };
        RidePlan plan = RidePlanner.Levers(r);
        Assert.NotEmpty(plan.Levers);
        LeverEffect earlier = plan.Levers.Single(l => l.Name == "start 60 min earlier");
        RidePlan byHand = RidePlanner.Plan(r with { Start = r.Start.AddHours(-1) });
        Assert.Equal(byHand.Margins.First(m => m.Kind == plan.Binding!.Kind && m.Name == plan.Binding.Name).Amount, earlier.NewMargin!.Amount);
        Assert.Contains("Helps most", plan.ToText(), StringComparison.Ordinal);
        Assert.Contains(plan.Levers, l => l.Name.Contains(" and ", StringComparison.Ordinal));
    }

    [Fact]
    public void Compare_WithItself_DiffersInNothing()
    {
        PlanComparison c = RidePlanner.Compare([("a", Rides.Request(samples: 64)), ("b", Rides.Request(samples: 64)), ("late", Rides.Request(samples: 64) with { Start = Rides.Start.AddHours(5) })]);
        Assert.Empty(c.Difference(0, 1));
        Assert.NotEmpty(c.Difference(0, 2));
    }

    // Closed form: a rider exactly on the planned pace has a factor of one; half the speed moves it up, and every latest pass stays a clock time of the same clock.
    [Property(MaxTest = 6)]
    public bool Replan_SlowerLegs_NeverBringTheFinishForward(byte more)
    {
        RideRequest r = Rides.Request(samples: 64);
        RidePlan plan = RidePlanner.Plan(r);
        PlanStation half = plan.Stations.Single(s => s.Name == "Half Way Road");
        TimeSpan asPlanned = half.Arrival.Typical - plan.Start;
        TrailUpdate slow = RidePlanner.Replan(r, new TrailNews { AlongRoute = half.AlongRoute, At = plan.Start + (asPlanned * (1.2 + (more / 200.0))), WaterInHand = Volume.FromLiters(3) });
        TrailUpdate right = RidePlanner.Replan(r, new TrailNews { AlongRoute = half.AlongRoute, At = plan.Start + asPlanned, WaterInHand = Volume.FromLiters(3) });
        return slow.PaceFactor.Typical > right.PaceFactor.Typical && slow.Plan.Finish!.Typical >= right.Plan.Finish!.Typical
            && Math.Abs(right.PaceFactor.Typical.DecimalFractions - 1) < 0.1 && slow.Message.Length <= 160 && slow.Message.All(char.IsAscii);
    }

    [Fact]
    public void Replan_SourceNowKnownDry_IsPlannedDry()
    {
        RideRequest r = Rides.Request(samples: 64) with { Sources = [new WaterSource { Name = "Spring", AlongRoute = Length.FromKilometers(14), WetProbability = 1 }] };
        TrailNews news = new() { AlongRoute = Length.FromKilometers(8), At = Rides.Start.AddHours(1), WaterInHand = Volume.FromLiters(1), SourcesNow = new Dictionary<string, Known> { ["Spring"] = Known.No } };
        Assert.True(RidePlanner.Replan(r, news).Plan.Margins.First(m => m is { Kind: MarginKind.Water, AfterTrouble: false }).InHandFraction
            <= RidePlanner.Replan(r, news with { SourcesNow = new Dictionary<string, Known>() }).Plan.Margins.First(m => m is { Kind: MarginKind.Water, AfterTrouble: false }).InHandFraction);
    }

    [Fact]
    public void Replan_NewsFromElsewhere_IsRefused()
    {
        RideRequest r = Rides.Request(samples: 0);
        Assert.Throws<ArgumentException>(() => RidePlanner.Replan(r, new TrailNews { AlongRoute = Length.FromKilometers(50), At = Rides.Start.AddHours(1) }));
        Assert.Throws<ArgumentException>(() => RidePlanner.Replan(r, new TrailNews { AlongRoute = Length.FromKilometers(5), At = Rides.Start.AddHours(-1) }));
        Assert.Throws<ArgumentException>(() => RidePlanner.Replan(r, new TrailNews { AlongRoute = Length.FromKilometers(5), At = Rides.Start.AddHours(1), Stopped = TimeSpan.FromHours(2) }));
    }
}
