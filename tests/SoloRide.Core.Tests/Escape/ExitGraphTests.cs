using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Effort;
using SoloRide.Escape;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Escape;

public sealed class ExitGraphTests
{
    private static readonly EscapePace Plain = EscapePace.FromFunction("plain", TravelMode.Walk, s => TimeSpan.FromSeconds(s.LengthM));

    /// <summary>
    /// The fixture's chain A-B-C-D-E with X2 and X3 as side trails and E-F-A as a trail that joins two places of the route: own arithmetic.
    /// </summary>
    [Fact]
    [Checks(typeof(ExitGraph), CheckKind.Outside)]
    [Checks(typeof(EscapePace), CheckKind.Outside)]
    public void WalkOut_OnFixtureAsRoute_FindsWorstPlaceInsideAStep()
    {
        Dictionary<string, TrailStep> edge = CsvTable.Read(Repo.Data("planning", "walkout_fixture_edges.csv")).Rows
            .ToDictionary(r => r["u"] + r["v"], r => new TrailStep(r.Num("length_m"), r.Num("rise_m_u_to_v")));
        var route = new EscapeRoute
        {
            Steps = [edge["AB"], edge["BC"], edge["CD"], edge["DE"]],
            Exits = [On("A", 0), new ExitPoint { Name = "X2" }, new ExitPoint { Name = "X3" }],
            Trails =
            [
                new EscapeTrail("to X2", TrailEnd.OnRoute(Km(5.5)), TrailEnd.AtExit("X2"), [edge["CX2"]]),
                new EscapeTrail("to X3", TrailEnd.OnRoute(Km(9.9)), TrailEnd.AtExit("X3"), [edge["EX3"]]),
                new EscapeTrail("over F", TrailEnd.OnRoute(Km(9.9)), TrailEnd.OnRoute(Km(0)), [edge["EF"], edge["FA"]]),
            ],
        };
        WalkOutProfile w = ExitGraph.Build(route).WalkOut(EscapePace.For(TravelMode.Walk));
        Assert.Equal([0, 26.1946, 61.9448, 68.8929, 30.9903], w.Points.Select(p => Math.Round(p.Time!.Typical.TotalMinutes, 4)));
        Assert.Equal(["A", "A", "X2", "X3", "X3"], w.Points.Select(p => p.Exit!));
        Assert.Equal([WayOut.Here, WayOut.Back, WayOut.SideTrail, WayOut.On, WayOut.SideTrail], w.Points.Select(p => p.Way));
        Assert.Equal(5500 + 1085.133, w.Worst!.AlongRoute.Meters, 3);
        Assert.Equal(76.4710, w.Worst.Time!.Typical.TotalMinutes, 4);
        Assert.Equal([2400 + 3045.178, 5500 + 1085.133], w.EqualTimePoints.Select(p => Math.Round(p.AlongRoute.Meters, 3)));
        Assert.Equal(("A", "X2"), (w.EqualTimePoints[0].ExitBack, w.EqualTimePoints[0].ExitOn));
        Assert.Equal("to X3", w.Points[3].Trail);
        Assert.Equal(2600 + 2900, w.Points[3].Distance!.Value.Meters, 6);
    }

    [Fact]
    public void WalkOutPoint_AsText_ReadsAsASentence()
    {
        Estimate<TimeSpan> time = Estimate.Of(TimeSpan.FromMinutes(134), TimeSpan.FromMinutes(110), TimeSpan.FromMinutes(165));
        var point = new WalkOutPoint(Length.FromKilometers(21.44), time, Length.FromMeters(8150), "Lower Gate", WayOut.SideTrail, "Fold path", false);
        Assert.Equal("km 21.4: 2 h 14 (1 h 50 to 2 h 45) to Lower Gate, by a side trail (Fold path), 8 150 m", point.ToString());
        Assert.Equal("km 21.4: 2 h 14 (1 h 50 to 2 h 45) to Lower Gate, back along the route, 8 150 m, in part straight over unknown ground",
            (point with { Way = WayOut.Back, Trail = null, UsesStraightLine = true }).ToString());
        Assert.Equal("km 3.0: no way out", new WalkOutPoint(Length.FromKilometers(3), null, null, null, WayOut.None, null, false).ToString());
        Assert.All(Enum.GetValues<WayOut>().Where(w => w != WayOut.None), w => Assert.DoesNotContain("not known", (point with { Way = w }).ToString(), StringComparison.Ordinal));
    }

    [Fact]
    public void WalkOut_BetweenTwoExits_PeaksInTheMiddle_AndZonesAndSharesAreExact()
    {
        // 7 200 s from end to end at 1 m/s: the middle is 3 600 s out; 30 min out holds 3 600 of 7 200 m.
        ExitGraph graph = ExitGraph.Build(new EscapeRoute { Steps = [new TrailStep(7200, 0)], Exits = [On("start", 0), On("end", 7200)] });
        WalkOutProfile w = graph.WalkOut(Plain);
        Assert.Equal(3600, w.Worst!.AlongRoute.Meters, 6);
        Assert.Equal(3600, w.Worst.Time!.Typical.TotalSeconds, 6);
        Assert.Equal(0.5, w.ShareAbove(TimeSpan.FromMinutes(30)).DecimalFractions, 9);
        Assert.Equal(0, w.ShareAbove(TimeSpan.FromMinutes(60)).DecimalFractions, 9);
        IReadOnlyList<CommitmentZone> zones = w.Zones(near: TimeSpan.FromMinutes(30), far: TimeSpan.FromMinutes(50));
        Assert.Equal([RemotenessClass.Near, RemotenessClass.Remote, RemotenessClass.Far, RemotenessClass.Remote, RemotenessClass.Near], zones.Select(z => z.Class));
        Assert.Equal([0, 1800, 3000, 4200, 5400], zones.Select(z => Math.Round(z.From.Meters, 6)));
        Assert.Equal(7200, zones[^1].To.Meters, 9);
        Assert.Equal(WayOut.Back, w.At(Length.FromMeters(1000)).Way);
        Assert.Equal(WayOut.On, w.At(Length.FromMeters(7000)).Way);
        Assert.Equal(200, w.At(Length.FromMeters(7000)).Distance!.Value.Meters, 6);
    }

    [Fact]
    public void WalkOut_PastADrop_GoesOn_AndTheWorstPlaceIsJustPastIt()
    {
        // The second step cannot be passed backward.
        EscapePace pace = EscapePace.FromFunction("drop", TravelMode.Walk, s => s.RiseM > 40 ? null : TimeSpan.FromSeconds(s.LengthM));
        ExitGraph graph = ExitGraph.Build(new EscapeRoute
        {
            Steps = [new TrailStep(1000, 0), new TrailStep(100, -50), new TrailStep(5000, 0)],
            Exits = [On("start", 0), On("end", 6100)],
        });
        WalkOutProfile w = graph.WalkOut(pace);
        Assert.Equal(1000, w.At(Length.FromMeters(1000)).Time!.Typical.TotalSeconds, 6);
        Assert.Equal(5050, w.At(Length.FromMeters(1050)).Time!.Typical.TotalSeconds, 6);
        Assert.Equal(1000, w.Worst!.AlongRoute.Meters, 6);
        Assert.Equal(5100, w.Worst.Time!.Typical.TotalSeconds, 6);
        Assert.Equal(WayOut.On, w.Worst.Way);
    }

    [Fact]
    public void Exit_GivenByPlace_IsOnTheRouteOrJoinedByAStraightLineWithAFinding()
    {
        // About 111.3 m a thousandth of a degree on the equator.
        GeoPoint[] places = [new(0, 0), new(0, 0.01), new(0, 0.02)];
        var near = new ExitPoint { Name = "hut", Place = new GeoPoint(0.0002, 0.005) };
        var far = new ExitPoint { Name = "road", Place = new GeoPoint(0.01, 0.015) };
        var route = new EscapeRoute { Steps = [new TrailStep(1113.2, 0), new TrailStep(1113.2, 0)], Places = places, Exits = [near, far] };
        ExitGraph graph = ExitGraph.Build(route);
        WalkOutProfile w = graph.WalkOut(EscapePace.For(TravelMode.Walk));
        Assert.Equal(0, w.TimeFrom(Length.FromMeters(556.6))!.Value.TotalSeconds, 0);
        Assert.Contains(graph.Findings, f => f.Code == EscapeFindingCodes.StraightLine && f.Subject == "road" && f.Message.Contains("1.50", StringComparison.Ordinal));
        WalkOutPoint end = ExitGraph.Build(route with { Exits = [far] }).WalkOut(EscapePace.For(TravelMode.Walk)).At(Length.FromMeters(2226.4));
        Assert.True(end.UsesStraightLine);
        Assert.Equal((1105.74 * 1.5) + 556.6, end.Distance!.Value.Meters, 0);
        WalkOutProfile none = ExitGraph.Build(route with { Exits = [far] }, new ExitGraphOptions { Fallback = StraightLineFallback.None }).WalkOut(Plain);
        Assert.Null(none.Worst);
        Assert.Contains(none.Findings, f => f.Code == EscapeFindingCodes.ExitOffNetwork && f.Subject == "road");
        Assert.Equal(1, none.ShareAbove(TimeSpan.FromHours(5)).DecimalFractions, 9);
        Assert.Equal(RemotenessClass.NoWayOut, Assert.Single(none.Zones()).Class);
    }

    [Fact]
    [Checks(typeof(ExitGraph), CheckKind.BadInput)]
    [Checks(typeof(EscapePace), CheckKind.BadInput)]
    public void Build_BadInput_NamesTheItem()
    {
        TrailStep[] steps = [new(1000, 0)];
        Says("'bridge'", () => ExitGraph.Build(new EscapeRoute { Steps = steps, Exits = [On("bridge", 1500)] }));
        Says("'bridge'", () => ExitGraph.Build(new EscapeRoute { Steps = steps, Exits = [new ExitPoint { Name = "bridge" }] }));
        Says("'bridge'", () => ExitGraph.Build(new EscapeRoute { Steps = steps, Exits = [On("bridge", 1), On("bridge", 2)] }));
        Says("'gully'", () => ExitGraph.Build(new EscapeRoute { Steps = steps, Exits = [], Trails = [new EscapeTrail("gully", TrailEnd.OnRoute(Km(3)), null, steps)] }));
        Says("'mill'", () => ExitGraph.Build(new EscapeRoute { Steps = steps, Exits = [], Trails = [new EscapeTrail("gully", TrailEnd.OnRoute(Km(0)), TrailEnd.AtExit("mill"), steps)] }));
        Says("length above 0 m", () => ExitGraph.Build(new EscapeRoute { Steps = [], Exits = [] }));
        Says("one more than steps", () => ExitGraph.Build(new EscapeRoute { Steps = steps, Exits = [], Places = [new GeoPoint(0, 0)] }));
        ExitGraph graph = ExitGraph.Build(new EscapeRoute { Steps = steps, Exits = [On("a", 0)] });
        Says("'b'", () => graph.WalkOut(Plain, ["b"]));
        Says("'mad'", () => graph.WalkOut(EscapePace.FromFunction("mad", TravelMode.Walk, _ => TimeSpan.FromSeconds(-1))));
        Says("back[0]", () => EscapePace.FromStepTimes("p", TravelMode.Walk, [TimeSpan.Zero], [TimeSpan.FromSeconds(-2)]));
        Says("2", () => graph.WalkOut(EscapePace.FromStepTimes("p", TravelMode.Walk, [TimeSpan.Zero, TimeSpan.Zero], [TimeSpan.Zero, TimeSpan.Zero])));
        Assert.Throws<ArgumentOutOfRangeException>(() => new EscapePaceOptions { PushFactor = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => graph.WalkOut(Plain).At(Km(2)));
        Assert.Throws<ArgumentOutOfRangeException>(() => graph.WalkOut(Plain).ShareAbove(TimeSpan.Zero, 1));

        static void Says(string text, Func<object> act) => Assert.Contains(text, Assert.ThrowsAny<ArgumentException>(act).Message, StringComparison.Ordinal);
    }

    /// <summary>More exits never lengthen, slower scales, and the profile lies between its neighbours' times and the step between.</summary>
    [Property(MaxTest = 60)]
    [Checks(typeof(ExitGraph), CheckKind.Property)]
    [Checks(typeof(EscapePace), CheckKind.Property)]
    public void Profile_Laws(int seed)
    {
        var random = new Random(seed);
        TrailStep[] steps = [.. Enumerable.Range(0, random.Next(1, 30)).Select(_ => new TrailStep(random.Next(1, 800), random.Next(-90, 90)))];
        double m = steps.Sum(s => s.LengthM);
        ExitPoint[] exits = [.. Enumerable.Range(0, random.Next(1, 4)).Select(i => On("x" + i, random.NextDouble() * m))];
        var trail = new EscapeTrail("t", TrailEnd.OnRoute(Length.FromMeters(random.NextDouble() * m)), TrailEnd.OnRoute(Length.FromMeters(random.NextDouble() * m)), [new TrailStep(random.Next(1, 900), random.Next(-60, 60))]);
        var route = new EscapeRoute { Steps = steps, Exits = exits };
        EscapePace push = EscapePace.For(TravelMode.Push);
        WalkOutProfile w = ExitGraph.Build(route).WalkOut(push);
        WalkOutProfile more = ExitGraph.Build(route with { Exits = [.. exits, On("y", random.NextDouble() * m)] }).WalkOut(push);
        WalkOutProfile side = ExitGraph.Build(route with { Trails = [trail] }).WalkOut(push);
        WalkOutProfile slow = ExitGraph.Build(route).WalkOut(EscapePace.For(TravelMode.Push, options: new EscapePaceOptions { WalkerFactor = 0.5 }));
        WalkOutProfile lamp = ExitGraph.Build(route).WalkOut(EscapePace.For(TravelMode.Push, light: TravelLight.Lamp));
        WalkOutProfile hurt = ExitGraph.Build(route).WalkOut(EscapePace.For(TravelMode.Push, RiderCondition.InjuredLeg));
        for (int i = 0; i <= 50; i++)
        {
            Length at = Length.FromMeters(m * i / 50);
            double t = w.TimeFrom(at)!.Value.TotalSeconds;
            Assert.True(more.TimeFrom(at)!.Value.TotalSeconds <= t + 1e-6);
            Assert.True(side.TimeFrom(at)!.Value.TotalSeconds <= t + 1e-6);
            Assert.InRange(slow.TimeFrom(at)!.Value.TotalSeconds - (2 * t), -1e-5, 1e-5);
            Assert.True(lamp.TimeFrom(at)!.Value.TotalSeconds >= t);
            Assert.True(hurt.TimeFrom(at)!.Value.TotalSeconds >= t);
            Assert.True(t <= w.Worst!.Time!.Typical.TotalSeconds + 1e-6);
            Assert.True(w.TimeFrom(at, 0.9)!.Value.TotalSeconds >= t);
        }

        double covered = w.Zones().Sum(z => z.To.Meters - z.From.Meters);
        Assert.InRange(covered - m, -1e-6, 1e-6);
        double above = w.Zones(quantileProbability: 0.5).Where(z => z.Class is not RemotenessClass.Near).Sum(z => z.To.Meters - z.From.Meters) / m;
        Assert.InRange(above - w.ShareAbove(TimeSpan.FromMinutes(30)).DecimalFractions, -1e-9, 1e-9);
        Assert.Equal(w.EqualTimePoints.Count, slow.EqualTimePoints.Count);
        Assert.All(w.EqualTimePoints.Zip(slow.EqualTimePoints), p => Assert.InRange((p.First.AlongRoute - p.Second.AlongRoute).Meters, -1e-6, 1e-6));
    }

    /// <summary>
    /// Ten miles from the vehicle is where a break that cannot be fixed matters, a little over three hours on foot (common practice, no source):
    /// the level walking law gives that time, and pushing stays well under a working day.
    /// </summary>
    [Fact]
    public void TenMiles_OnFoot_TakesALittleOverThreeHours()
    {
        ExitGraph graph = ExitGraph.Build(new EscapeRoute { Steps = [new TrailStep(10 * 1609.344, 0)], Exits = [On("vehicle", 0)] });
        Assert.InRange(graph.WalkOut(EscapePace.For(TravelMode.Walk)).Worst!.Time!.Typical.TotalHours, 3, 3.5);
        Assert.InRange(graph.WalkOut(EscapePace.For(TravelMode.Push)).Worst!.Time!.Typical.TotalHours, 3.5, 4);
    }

    /// <summary>Whatever is computed about a way out carries the cautions: call early, local rules first, responses are assumptions, no first strike.</summary>
    [Fact]
    public void Results_WithFindings_CarryTheCautions()
    {
        string[] without =
        [
            .. typeof(ExitGraph).Assembly.GetExportedTypes()
                .Where(t => t.Namespace == "SoloRide.Escape" && t != typeof(ExitGraph) && t.GetProperty("Findings") is not null && t.GetProperty("Cautions") is null).Select(t => t.Name),
        ];
        Assert.Empty(without);
        string all = string.Join(' ', ExitGraph.Build(new EscapeRoute { Steps = [new TrailStep(1, 0)], Exits = [On("a", 0)] }).WalkOut(Plain).Cautions);
        Assert.All(["call early", "Local rules", "emergency number", "medical people", "assumptions", "first strike"], words => Assert.Contains(words, all, StringComparison.Ordinal));
    }

    [Fact]
    public void StepTimes_DriveTheProfile()
    {
        ExitGraph graph = ExitGraph.Build(new EscapeRoute { Steps = [new TrailStep(100, 0), new TrailStep(100, 0)], Exits = [On("start", 0), On("mid", 50)] });
        EscapePace pace = EscapePace.FromStepTimes("own", TravelMode.Push, [TimeSpan.FromSeconds(10), TimeSpan.FromSeconds(20)], [TimeSpan.FromSeconds(30), TimeSpan.FromSeconds(40)]);
        WalkOutProfile w = graph.WalkOut(pace);
        Assert.Equal([0, 0, 15, 55], w.Points.Select(p => p.Time!.Typical.TotalSeconds));
        WalkOutProfile home = graph.WalkOut(pace, ["start"]);
        Assert.Equal([0, 15, 30, 70], home.Points.Select(p => p.Time!.Typical.TotalSeconds));
    }

    [Fact]
    public void FromModel_UsesTheRidersPace_AndPushesWhereNobodyRides()
    {
        PaceModel model = PaceModel.For(new Rider { Mass = Mass.FromKilograms(76), SustainedPower = Power.FromWatts(165) });
        var ridable = new TrailStep(100, 1, 500, 0, TrailSurface.Firm, TrailDifficulty.Level1);
        var wall = new TrailStep(100, 35, 500, 0, TrailSurface.Rock, TrailDifficulty.Level5);
        EscapePace ride = EscapePace.FromModel(model, TravelMode.Ride), walk = EscapePace.FromModel(model, TravelMode.Walk);
        Assert.Equal(model.By(TravelMode.Ride, ridable)!.TypicalS, ride.Time(ridable)!.Value.TotalSeconds, 4);
        Assert.Equal(Math.Min(model.By(TravelMode.Push, wall)!.TypicalS, model.By(TravelMode.Carry, wall)!.TypicalS), ride.Time(wall)!.Value.TotalSeconds, 4);
        Assert.True(ride.Time(ridable) < walk.Time(ridable));
        Assert.True(EscapePace.FromModel(model, TravelMode.Walk, light: TravelLight.Lamp).Time(ridable) > walk.Time(ridable));
        Assert.True(EscapePace.FromModel(model, TravelMode.Ride, RiderCondition.InjuredLeg).Time(ridable) > walk.Time(ridable));
        WalkOutProfile w = ExitGraph.Build(new EscapeRoute { Steps = [ridable, wall], Exits = [On("start", 0)] }).WalkOut(walk);
        Assert.Equal(model.By(TravelMode.Walk, ridable.Reversed())!.TypicalS, w.Points[1].Time!.Typical.TotalSeconds, 4);
        Assert.True(w.Points[1].Time!.High > w.Points[1].Time!.Typical);
    }

    [Fact]
    public void OfProfile_TakesStepsAndPlaces_AndFindsExitsByPlace()
    {
        RideRoute route = RideRoute.FromPoints([new GeoPoint(45, 7, 500), new GeoPoint(45, 7.02, 600), new GeoPoint(45.01, 7.02, 580)]);
        ElevationProfile profile = ElevationProfile.Of(route);
        EscapeRoute r = EscapeRoute.Of(profile, [new ExitPoint { Name = "road", Place = new GeoPoint(45.0001, 7.02) }]);
        Assert.Equal(r.Steps.Count + 1, r.Places.Count);
        Assert.Equal(route.Length.Meters, r.Steps.Sum(s => s.LengthM), 6);
        WalkOutProfile w = ExitGraph.Build(r).WalkOut(EscapePace.For(TravelMode.Walk));
        double corner = route.DistanceAt(1).Meters;
        Assert.InRange(w.Points.Single(p => p.Way == WayOut.Here).AlongRoute.Meters, corner - 15, corner + 15);
        Assert.Equal(profile.Steps(Length.FromMeters(25)).Length, EscapeTrail.Of("t", TrailEnd.OnRoute(Length.Zero), null, profile, Length.FromMeters(25)).Steps.Count);
        RoutePosition off = OffRoute.Test(route, new GeoPoint(45.001, 7.01), Length.FromMeters(10));
        Assert.Equal(OffRouteVerdict.OffRoute, off.Verdict);
        Assert.Equal(route.Nearest(new GeoPoint(45.001, 7.01)).Offset.Meters, off.OffBy.Meters, 1);
    }

    internal static ExitPoint On(string name, double m) => new() { Name = name, AlongRoute = Length.FromMeters(m) };

    private static Length Km(double km) => Length.FromKilometers(km);
}
