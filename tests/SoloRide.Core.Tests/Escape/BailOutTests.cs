using FsCheck.Xunit;
using SoloRide.Escape;
using UnitsNet;

namespace SoloRide.Tests.Escape;

public sealed class BailOutTests
{
    private static readonly DateTimeOffset Noon = new(2027, 6, 14, 12, 0, 0, TimeSpan.Zero);

    /// <summary>1 m/s on foot on any ground.</summary>
    private static readonly EscapePace Plain = EscapePace.FromFunction("plain", TravelMode.Walk, s => TimeSpan.FromSeconds(s.LengthM));

    private static readonly EscapeRoute Route = new()
    {
        Steps = [new TrailStep(7200, 0), new TrailStep(7200, 0)],
        Exits = [ExitGraphTests.On("start", 0), ExitGraphTests.On("end", 14_400), new ExitPoint { Name = "farm", Phone = Known.Yes, PickUp = Known.Yes }],
        Trails = [new EscapeTrail("farm track", TrailEnd.OnRoute(Length.FromMeters(7200)), TrailEnd.AtExit("farm"), [new TrailStep(3600, 0)])],
    };

    [Fact]
    public void BailOuts_AreRankedByWhatSufficesThenTime()
    {
        // At 10 800 m: end in 3 600 s, farm in 7 200 s, start in 10 800 s.
        ExitGraph graph = ExitGraph.Build(Route);
        BailOutRanking r = graph.BailOuts(Length.FromMeters(10_800), Plain);
        Assert.Equal(["end", "farm", "start"], r.Options.Select(o => o.Exit.Name));
        Assert.Equal([3600, 7200, 10_800], r.Options.Select(o => o.Time.Typical.TotalSeconds));
        Assert.Equal([3600, 7200, 10_800], r.Options.Select(o => o.Distance.Meters));
        Assert.Equal([WayOut.On, WayOut.Back, WayOut.Back], r.Options.Select(o => o.Way));
        Assert.Equal([null, "farm track", null], r.Options.Select(o => o.Trail));
        // The farm has a telephone, the end may have none; the start is farther and offers no more.
        Assert.Equal([false, false, true], r.Options.Select(o => o.Dominated));
        Assert.Equal("end", r.Recommended!.Exit.Name);
    }

    [Fact]
    public void BailOuts_WhatIsInHandLimits()
    {
        ExitGraph graph = ExitGraph.Build(Route);
        var conditions = new WayOutConditions { Rates = [new ResourceRate(ResourceKind.Water, TravelMode.Walk, 0.5)], Leaves = Noon };
        ResourceAccount Water(double litres) => new(ResourceAmount.Water(Volume.FromLiters(litres)), ResourceAmount.Water(Volume.FromLiters(0.1)));
        BailOutRanking enough = graph.BailOuts(Length.FromMeters(10_800), Plain, conditions, [Water(0.7)]);
        Assert.Equal("end", enough.Recommended!.Exit.Name);
        BailOutRanking some = graph.BailOuts(Length.FromMeters(3600), Plain, conditions, [Water(0.7)]);
        Assert.Equal("start", some.Recommended!.Exit.Name);
        BailOutRanking none = graph.BailOuts(Length.FromMeters(10_800), Plain, conditions, [Water(0.5)]);
        Assert.Null(none.Recommended);
        Assert.Equal(0.1, none.Options[0].Missing[0].Volume!.Value.Liters, 9);
        Assert.Contains(none.Findings, f => f.Code == EscapeFindingCodes.ResourceShort);
        Assert.Contains("Food", Assert.Throws<ArgumentException>(() => graph.BailOuts(
            Length.Zero, Plain, conditions, [new ResourceAccount(ResourceAmount.Food(Energy.FromKilocalories(1)), ResourceAmount.Food(Energy.Zero))])).Message, StringComparison.Ordinal);
    }

    /// <summary>The ranking's least time is the profile's, and every option agrees with a profile of its exit alone.</summary>
    [Property(MaxTest = 60)]
    public void BailOuts_AgreeWithTheProfile(int seed)
    {
        var random = new Random(seed);
        TrailStep[] steps = [.. Enumerable.Range(0, random.Next(1, 12)).Select(_ => new TrailStep(random.Next(1, 800), random.Next(-90, 90)))];
        double m = steps.Sum(s => s.LengthM);
        ExitPoint[] exits = [.. Enumerable.Range(0, random.Next(1, 4)).Select(i => ExitGraphTests.On("x" + i, random.NextDouble() * m)), new ExitPoint { Name = "hut" }];
        ExitGraph graph = ExitGraph.Build(new EscapeRoute
        {
            Steps = steps,
            Exits = exits,
            Trails =
            [
                new EscapeTrail("a", TrailEnd.OnRoute(Length.FromMeters(random.NextDouble() * m)), TrailEnd.AtJunction("j"), [new TrailStep(random.Next(1, 900), random.Next(-60, 60))]),
                new EscapeTrail("b", TrailEnd.AtJunction("j"), TrailEnd.AtExit("hut"), [new TrailStep(random.Next(1, 900), 5), new TrailStep(50, -9)]),
            ],
        });
        EscapePace push = EscapePace.For(TravelMode.Push);
        Length at = Length.FromMeters(random.NextDouble() * m);
        BailOutRanking r = graph.BailOuts(at, push);
        WalkOutPoint nearest = graph.WalkOut(push).At(at);
        Assert.Equal(nearest.Exit, r.Options[0].Exit.Name);
        Assert.InRange((nearest.Distance!.Value - r.Options[0].Distance).Meters, -1e-6, 1e-6);
        foreach (BailOutOption o in r.Options)
        {
            WalkOutPoint alone = graph.WalkOut(push, [o.Exit.Name]).At(at);
            Assert.InRange((alone.Time!.Typical - o.Time.Typical).TotalSeconds, -1e-5, 1e-5);
            Assert.Equal(alone.Trail is null, o.Trail is null);
        }
    }

    [Fact]
    public void Needs_LightIsTheDarkPart_WaterTheWhole()
    {
        WalkOutProfile w = ExitGraph.Build(Route).WalkOut(Plain);
        var c = new WayOutConditions
        {
            Rates = [new ResourceRate(ResourceKind.Light, TravelMode.Walk, 1), new ResourceRate(ResourceKind.Water, TravelMode.Walk, 0.5), new ResourceRate(ResourceKind.Water, TravelMode.Ride, 9)],
            Leaves = Noon,
            Dark = [new DarkPeriod(Noon.AddMinutes(30), Noon.AddHours(9)), new DarkPeriod(Noon.AddMinutes(40), Noon.AddHours(9))],
            Air = Temperature.FromDegreesCelsius(5),
        };
        WalkOutNeeds needs = w.NeedsFrom(Length.FromMeters(7200), c);
        Assert.Equal(1, needs.Time!.Value.TotalHours, 9);
        Assert.Equal(30, needs.InTheDark.TotalMinutes, 9);
        Assert.Equal([0.5, 0.5], needs.Amounts.Select(a => Math.Round(a.Value, 9)));
        // Table waiting_insulation: 58.2 and 116.4 W/m2 at 5 C.
        Assert.Equal(4.08, needs.StandingInsulationClo!.Value, 2);
        Assert.Equal(2.04, needs.WalkingInsulationClo!.Value, 2);
        Assert.Equal(60, w.NeedsFrom(Length.FromMeters(7200), c with { Leaves = null }).InTheDark.TotalMinutes, 9);
        // Passing later and later: light is needed most where the way out falls into the dark, water at the longest way.
        IReadOnlyDictionary<ResourceKind, WalkOutNeeds> worst = w.NeedsAtWorst(c, along => Noon.AddSeconds(along.Meters / 8));
        Assert.Equal(w.Worst!.Time!.Typical, worst[ResourceKind.Water].Time);
        Assert.True(worst[ResourceKind.Light].Amounts[0].Value >= 0.5);
    }

    /// <summary>14 CFR 91.167(b) (rule RV5): no alternate when good from one hour before to one hour after; 91.151 (RV1, RV2): 30 min by day, 45 by night.</summary>
    [Fact]
    [Checks(typeof(AlternateExit), CheckKind.Outside)]
    public void Alternate_AsTheAviationRule()
    {
        ForecastJudgement Good(double from, double to, Known good = Known.Yes) => new(Noon.AddHours(from), Noon.AddHours(to), good);
        Assert.False(AlternateExit.Check(Noon, [Good(-1, 1)], "end").Required);
        Assert.False(AlternateExit.Check(Noon, [Good(0, 2), Good(-3, 0)], "end").Required);
        Assert.True(AlternateExit.Check(Noon, [Good(-1, 0.5)], "end").Required);
        Assert.True(AlternateExit.Check(Noon, [Good(-1, 2), Good(0.5, 1, Known.No)], "end").Required);
        Assert.True(AlternateExit.Check(Noon, [Good(-1, 2), Good(0.5, 1, Known.Unknown)], "end").Required);
        Assert.True(AlternateExit.Check(Noon, [], "end").Required);
        Assert.False(AlternateExit.Check(Noon, [Good(-1, 1), Good(2, 3, Known.No)], "end").Required);
        Assert.Equal(30, AlternateExit.TimeReserve(TimeSpan.FromHours(2), TravelLight.Day).TotalMinutes);
        Assert.Equal(45, AlternateExit.TimeReserve(TimeSpan.FromHours(2), TravelLight.Lamp).TotalMinutes);
        Assert.Equal(60, AlternateExit.TimeReserve(TimeSpan.FromHours(10), TravelLight.Lamp).TotalMinutes);
        AlternateNeed need = AlternateExit.Check(Noon, [], "end", ExitGraph.Build(Route).BailOuts(Length.FromMeters(10_800), Plain));
        Assert.Equal("farm", need.Alternate!.Exit.Name);
        Assert.Contains(need.Findings, f => f.Code == EscapeFindingCodes.AlternateTransferred);
    }

    [Fact]
    [Checks(typeof(AlternateExit), CheckKind.BadInput)]
    public void Alternate_BadInput()
    {
        Assert.Throws<ArgumentException>(() => AlternateExit.Check(Noon, [], ""));
        Assert.Throws<ArgumentOutOfRangeException>(() => AlternateExit.TimeReserve(TimeSpan.FromHours(-1), TravelLight.Day));
        Assert.Throws<ArgumentOutOfRangeException>(() => ExitGraph.Build(Route).BailOuts(Length.FromKilometers(99), Plain));
    }

    /// <summary>Less good weather never lifts the need; the reserve never shrinks with the time that remains.</summary>
    [Property]
    [Checks(typeof(AlternateExit), CheckKind.Property)]
    public void Alternate_Laws(byte a, byte b, byte c, byte d)
    {
        ForecastJudgement[] good = [new(Noon.AddMinutes(-a), Noon.AddMinutes(b), Known.Yes)];
        bool required = AlternateExit.Check(Noon, good, "x").Required;
        Assert.Equal(a < 60 || b < 60, required);
        Assert.True(!required || AlternateExit.Check(Noon, [.. good, new(Noon.AddMinutes(c - 128), Noon.AddMinutes(c - 127), Known.No)], "x").Required);
        Assert.True(AlternateExit.TimeReserve(TimeSpan.FromMinutes((double)c + d), TravelLight.Day) >= AlternateExit.TimeReserve(TimeSpan.FromMinutes(c), TravelLight.Day));
    }
}
