using FsCheck.Xunit;
using SoloRide.Escape;
using UnitsNet;

namespace SoloRide.Tests.Escape;

public sealed class LosingTheWayTests
{
    [Fact]
    public void WrongTurns_CostTimeAndWayOut_TheWorstFirst()
    {
        // Riding 2 m/s down, 1 m/s up; walking 1 m/s. "gully" falls away for 3 km from the middle, "spur" is 120 m long.
        EscapePace ride = EscapePace.FromFunction("ride", TravelMode.Ride, s => TimeSpan.FromSeconds(s.RiseM < 0 ? s.LengthM / 2 : s.LengthM));
        EscapePace walk = EscapePace.FromFunction("walk", TravelMode.Walk, s => TimeSpan.FromSeconds(s.LengthM));
        ExitGraph graph = ExitGraph.Build(new EscapeRoute
        {
            Steps = [new TrailStep(1000, 0), new TrailStep(1000, 0)],
            Exits = [ExitGraphTests.On("start", 0), ExitGraphTests.On("end", 2000)],
            Trails =
            [
                new EscapeTrail("spur", TrailEnd.OnRoute(Length.FromMeters(500)), null, [new TrailStep(120, 5)]),
                new EscapeTrail("gully", TrailEnd.OnRoute(Length.FromMeters(1000)), null, [new TrailStep(1000, -100), new TrailStep(2000, -100)]),
            ],
        });
        IReadOnlyList<WrongTurn> turns = graph.WrongTurns(ride, graph.WalkOut(walk), marks: 1);
        Assert.Equal(["gully", "spur"], turns.Select(t => t.Trail));
        Assert.Equal([true, false], turns.Select(t => t.Marked));
        // 5 min: 600 m down, 600 s back up; 15 min: 1 800 m; 30 min: the end at 3 000 m after 25 min.
        Assert.Equal([600, 1800, 3000], turns[0].Notices.Select(n => n.Distance.Meters));
        Assert.Equal([900, 2700, 4500], turns[0].Notices.Select(n => n.ExtraTime!.Value.TotalSeconds));
        Assert.Equal([1600, 2800, 4000], turns[0].Notices.Select(n => n.WalkOut!.Value.TotalSeconds));
        Assert.Equal([false, false, true], turns[0].Notices.Select(n => n.TrailEnds));
        Assert.Equal(1000, turns[0].WalkOutHere!.Value.TotalSeconds);
        Assert.Equal([180, 180, 180], turns[1].Notices.Select(n => n.ExtraTime!.Value.TotalSeconds));
        Assert.Throws<ArgumentException>(() => graph.WrongTurns(ride, ExitGraph.Build(graph.Route).WalkOut(walk)));
        Assert.Throws<ArgumentException>(() => graph.WrongTurns(ride, graph.WalkOut(walk), [TimeSpan.Zero]));
    }

    /// <summary>A wrong trail that meets the route again costs the detour, not the way back; the way out is named.</summary>
    [Fact]
    public void WrongTurns_TrailThatRejoins_CostsTheDetour()
    {
        EscapePace even = EscapePace.FromFunction("even", TravelMode.Ride, s => TimeSpan.FromSeconds(s.LengthM));
        ExitGraph graph = ExitGraph.Build(new EscapeRoute
        {
            Steps = [new TrailStep(1000, 0), new TrailStep(1000, 0), new TrailStep(1000, 0)],
            Exits = [ExitGraphTests.On("start", 0), ExitGraphTests.On("end", 3000), new ExitPoint { Name = "farm" }],
            Trails =
            [
                new EscapeTrail("bend", TrailEnd.OnRoute(Length.FromMeters(500)), TrailEnd.OnRoute(Length.FromMeters(2000)), [new TrailStep(900, 0), new TrailStep(900, 0)]),
                new EscapeTrail("lane", TrailEnd.OnRoute(Length.FromMeters(1000)), TrailEnd.AtExit("farm"), [new TrailStep(2000, 0)]),
            ],
        });
        IReadOnlyList<WrongTurn> turns = graph.WrongTurns(even, graph.WalkOut(even));
        WrongTurn bend = turns.Single(t => t.Trail == "bend" && t.AlongRoute.Meters == 500);
        // After 15 min: 900 m along it. Back at the junction after 1 800 s; on, the route is met at km 2 after 1 800 s, 1 500 s later by the route: 300 s lost.
        Assert.Equal(1800, bend.Notices[1].ExtraTime!.Value.TotalSeconds, 6);
        Assert.Equal(300, bend.Notices[1].LeastExtraTime!.Value.TotalSeconds, 6);
        Assert.Equal(2000, bend.Notices[1].Rejoins!.Value.Meters, 6);
        // After 5 min going back (600 s) loses more than going on (300 s) too; at the end of the trail the rider is on the route.
        Assert.Equal(300, bend.Notices[0].LeastExtraTime!.Value.TotalSeconds, 6);
        Assert.Equal(300, bend.Notices[2].LeastExtraTime!.Value.TotalSeconds, 6);
        WrongTurn lane = turns.Single(t => t.Trail == "lane");
        Assert.Equal(lane.Notices[2].ExtraTime, lane.Notices[2].LeastExtraTime);
        Assert.Equal(1000, lane.Notices[2].Rejoins!.Value.Meters, 6);
        // 1 800 m along the lane the farm is 200 m on: another way out, not the way back.
        Assert.Equal(200, lane.Notices[2].WalkOut!.Value.TotalSeconds, 6);
        Assert.Equal("farm", lane.Notices[2].Exit);
        Assert.Equal("start", lane.Notices[0].Exit);
    }

    /// <summary>Later notice never costs less; a way back is never longer than the way in times the worst ratio.</summary>
    [Property(MaxTest = 60)]
    public void WrongTurns_CostGrowsWithNotice(int seed)
    {
        var random = new Random(seed);
        ExitGraph graph = ExitGraph.Build(new EscapeRoute
        {
            Steps = [new TrailStep(random.Next(100, 9000), random.Next(-300, 300))],
            Exits = [ExitGraphTests.On("start", 0)],
            Trails = [new EscapeTrail("t", TrailEnd.OnRoute(Length.FromMeters(50)), TrailEnd.OnRoute(Length.FromMeters(99)), [.. Enumerable.Range(0, random.Next(1, 9)).Select(_ => new TrailStep(random.Next(1, 2000), random.Next(-99, 99)))])],
        });
        EscapePace ride = EscapePace.For(TravelMode.Ride), push = EscapePace.For(TravelMode.Push);
        IReadOnlyList<WrongTurn> turns = graph.WrongTurns(ride, graph.WalkOut(push));
        Assert.Equal(2, turns.Count);
        foreach (WrongTurn t in turns)
        {
            Assert.True(t.Notices[0].ExtraTime <= t.Notices[1].ExtraTime && t.Notices[1].ExtraTime <= t.Notices[2].ExtraTime);
            Assert.All(t.Notices, n => Assert.True(n.TrailEnds || n.ExtraTime >= n.After));
            Assert.All(t.Notices, n => Assert.True(n.LeastExtraTime >= TimeSpan.Zero && n.LeastExtraTime <= n.ExtraTime + TimeSpan.FromMicroseconds(10)));
        }
    }

    /// <summary>A thousandth of a degree of latitude on the equator is 110.574 m (WGS 84, textbook); of longitude 111.320 m.</summary>
    [Fact]
    [Checks(typeof(OffRoute), CheckKind.Outside)]
    public void OffRoute_DistancesBearingsAndNearestThings()
    {
        GeoPoint[] route = [new(0, 10), new(0, 10.01), new(0, 10.02)];
        var options = new OffRouteOptions
        {
            Lines = [new LineFeature("river", [new GeoPoint(0.003, 10), new GeoPoint(0.003, 10.02)]), new LineFeature("fence", [new GeoPoint(0.5, 10)])],
            Exits = [new ExitPoint { Name = "hut", Place = new GeoPoint(0.001, 10.02) }, new ExitPoint { Name = "far", Place = new GeoPoint(1, 10) }, ExitGraphTests.On("km 3", 3000)],
        };
        RoutePosition p = OffRoute.Test(route, new GeoPoint(0.001, 10.005), Length.FromMeters(20), options);
        Assert.Equal(OffRouteVerdict.OffRoute, p.Verdict);
        Assert.Equal(110.574, p.OffBy.Meters, 2);
        Assert.Equal(556.6, p.AlongRoute.Meters, 0);
        Assert.Equal(180, p.BackToRoute.BearingDeg, 6);
        Assert.Equal("river", p.NearestLine!.Name);
        Assert.Equal(2 * 110.574, p.NearestLine.Distance.Meters, 2);
        Assert.InRange(Math.Min(p.NearestLine.BearingDeg, 360 - p.NearestLine.BearingDeg), 0, 1e-6);
        Assert.Equal("hut", p.NearestExit!.Name);
        Assert.Equal(90, p.NearestExit.BearingDeg, 6);
        Assert.Equal(1669.8, p.NearestExit.Distance.Meters, 0);
        Assert.Equal(OffRouteVerdict.Unsure, OffRoute.Test(route, new GeoPoint(0.001, 10.005), Length.FromMeters(100)).Verdict);
        Assert.Equal(OffRouteVerdict.OnRoute, OffRoute.Test(route, new GeoPoint(0.0001, 10.005), Length.FromMeters(5)).Verdict);
        // Across the 180th meridian.
        Assert.Equal(111.32, OffRoute.Test([new GeoPoint(0, 179.999), new GeoPoint(1, 179.999)], new GeoPoint(0, -180), Length.Zero).OffBy.Meters, 1);
    }

    [Fact]
    public void OffRoute_OutAndBack_TakesThePassNextToTheLastSurePlace()
    {
        GeoPoint[] route = [new(0, 10), new(0, 10.02), new(0, 10)];
        GeoPoint here = new(0.0001, 10.005);
        Assert.Equal(556.6, OffRoute.Test(route, here, Length.FromMeters(5), new OffRouteOptions { LastAlongRoute = Length.FromMeters(300) }).AlongRoute.Meters, 0);
        Assert.Equal(3896.2, OffRoute.Test(route, here, Length.FromMeters(5), new OffRouteOptions { LastAlongRoute = Length.FromMeters(3000) }).AlongRoute.Meters, 0);
    }

    /// <summary>No alarm inside the error of the position; a larger error never raises one.</summary>
    [Property]
    [Checks(typeof(OffRoute), CheckKind.Property)]
    public void OffRoute_NeverAlarmsInsideTheError(short dLat, short dLon, byte error, byte corridor)
    {
        GeoPoint[] route = [new(45, 7), new(45.01, 7.02), new(45.03, 7.01)];
        GeoPoint here = new(45.01 + (dLat / 3e6), 7.01 + (dLon / 3e6));
        var options = new OffRouteOptions { Corridor = Length.FromMeters(corridor / 10.0) };
        RoutePosition p = OffRoute.Test(route, here, Length.FromMeters(error), options);
        Assert.True(p.Verdict != OffRouteVerdict.OffRoute || p.OffBy.Meters > error);
        Assert.True(OffRoute.Test(route, here, Length.FromMeters(error + 10), options).Verdict != OffRouteVerdict.OffRoute || p.Verdict == OffRouteVerdict.OffRoute);
        Assert.Equal(p.Verdict == OffRouteVerdict.OnRoute, p.OffBy <= options.Corridor);
    }

    [Fact]
    [Checks(typeof(OffRoute), CheckKind.BadInput)]
    public void OffRoute_BadInput()
    {
        GeoPoint p = new(0, 0);
        Assert.Throws<ArgumentException>(() => OffRoute.Test([p], p, Length.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => OffRoute.Test([p, p], p, Length.FromMeters(-1)));
        Assert.Throws<ArgumentException>(() => new LineFeature("river", []));
        Assert.Equal(0, OffRoute.Test([p, p], p, Length.Zero).OffBy.Meters);
    }

    [Fact]
    [Checks(typeof(NavigationCheck), CheckKind.BadInput)]
    public void Navigation_OneFailureTakesBoth_IsAFinding()
    {
        NavigationCheck shared = NavigationCheck.Of([new NavigationMeans("computer", ["power bank", "signal"]), new NavigationMeans("telephone map", ["Power Bank"])]);
        Assert.False(shared.AreIndependent);
        Assert.Equal(["power bank"], shared.SharedFailures);
        Assert.Contains(shared.Findings, f => f.Code == EscapeFindingCodes.NavigationShared && f.Severity == FindingSeverity.Warning);
        NavigationCheck good = NavigationCheck.Of([new NavigationMeans("computer", ["power bank"]), new NavigationMeans("paper map and compass", ["rain"])]);
        Assert.True(good.AreIndependent);
        Assert.Empty(good.Findings);
        Assert.Contains(NavigationCheck.Of([new NavigationMeans("computer", [])]).Findings, f => f.Code == EscapeFindingCodes.NavigationSingle);
        Assert.Contains(NavigationCheck.Of([]).Findings, f => f.Code == EscapeFindingCodes.NavigationSingle);
        NavigationCheck ring = NavigationCheck.Of([new NavigationMeans("a", ["x", "y"]), new NavigationMeans("b", ["y", "z"]), new NavigationMeans("c", ["z", "x"])]);
        Assert.Empty(ring.SharedFailures);
        Assert.False(ring.AreIndependent);
        Assert.Throws<ArgumentException>(() => NavigationCheck.Of([new NavigationMeans("a", []), new NavigationMeans("A", [])]));
        Assert.Throws<ArgumentException>(() => new NavigationMeans("", []));
    }

    /// <summary>The order of the means changes nothing; a further means never takes independence away.</summary>
    [Property]
    [Checks(typeof(NavigationCheck), CheckKind.Property)]
    public void Navigation_Laws(byte a, byte b, byte c)
    {
        NavigationMeans[] means = [.. new[] { ("a", a), ("b", b), ("c", c) }.Select(p => new NavigationMeans(p.Item1, [.. Enumerable.Range(0, 8).Where(i => ((p.Item2 >> i) & 1) != 0).Select(i => "d" + i)]))];
        bool independent = NavigationCheck.Of(means).AreIndependent;
        Assert.Equal(independent, NavigationCheck.Of([means[2], means[0], means[1]]).AreIndependent);
        Assert.True(independent || !NavigationCheck.Of(means[..2]).AreIndependent);
        Assert.Equal((a & b & c) != 0, NavigationCheck.Of(means).SharedFailures.Count > 0);
    }

    [Fact]
    public void LostAdvice_BeginsWithStopping_AndCallsEarly()
    {
        Assert.StartsWith("Stop", LostAdvice.Sentences[0], StringComparison.Ordinal);
        Assert.Contains(LostAdvice.Sentences, s => s.Contains("Call early", StringComparison.Ordinal));
    }
}
