using FsCheck.Xunit;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Routes;

public sealed class RouteDesignTests
{
    [Fact]
    [Checks(typeof(RouteDesign), CheckKind.BadInput)]
    public void Design_BadInput_SaysWhatIsAllowed()
    {
        Assert.Throws<ArgumentNullException>(() => RouteDesign.Of(null!));
        Assert.Contains("length of 0 m", Assert.Throws<ArgumentException>(() => RouteDesign.Of(RideRoute.FromPoints([At(0, 0), At(0, 0)]))).Message, StringComparison.Ordinal);
        RideRoute line = Walk(1, 20);
        Assert.Contains("neither a place nor a distance", Assert.Throws<ArgumentException>(() => RouteDesign.Of(line, [new ExitPoint { Name = "hut" }])).Message, StringComparison.Ordinal);
        Assert.Contains("Two exits", Assert.Throws<ArgumentException>(() => RouteDesign.Of(line, [Exit("x", 1), Exit("x", 2)])).Message, StringComparison.Ordinal);
        Assert.Contains("long", Assert.Throws<ArgumentException>(() => RouteDesign.Of(line, [Exit("far", 1e7)])).Message, StringComparison.Ordinal);
        RouteDesign d = RouteDesign.Of(line, [Exit("hut", 500)]);
        Assert.Contains("loop", Assert.Throws<ArgumentException>(() => d.StartAt(Length.FromMeters(100))).Message, StringComparison.Ordinal);
        Assert.Contains("loop", Assert.Throws<ArgumentException>(() => d.Repeat(2)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => d.CutAt(Length.FromMeters(-1)));
        Assert.ThrowsAny<ArgumentException>(() => d.CutAt(Length.FromMeters(double.NaN)));
        Assert.Throws<ArgumentOutOfRangeException>(() => d.CutAt(Length.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => d.Swap(Length.FromMeters(300), Length.FromMeters(200), line));
        Assert.Contains("hut", Assert.Throws<ArgumentException>(() => d.ShortenAt("barn")).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => d.Append(RideRoute.FromPoints([At(0, 0)])));
    }

    [Property(MaxTest = 40)]
    [Checks(typeof(RouteDesign), CheckKind.Property)]
    public void Reverse_Twice_IsTheIdentity(int seed)
    {
        RideRoute route = Walk(seed, 30).WithSections([new RouteSection(Length.FromMeters(100), Length.FromMeters(300)) { Difficulty = TrailDifficulty.Level2, Surface = TrailSurface.Rock }])
            .WithWaypoints([new RouteWaypoint(At(30, 30), "spring")]);
        RouteDesign once = RouteDesign.Of(route).Reverse(), twice = once.Reverse();
        Assert.Equal(route.Points, twice.Route.Points);
        Assert.Equal(route.Sections.Select(s => (s.From.Meters, s.To.Meters, s.Difficulty, s.Surface)), twice.Route.Sections.Select(s => (s.From.Meters, s.To.Meters, s.Difficulty, s.Surface)));
        Assert.Equal(route.Waypoints, twice.Route.Waypoints);
        Assert.Equal(route.ToGpx(), twice.Route.ToGpx());
        Assert.Equal(once.Original.Length, once.Figures.Length);
        Assert.Equal(RouteDesign.Of(route).Figures.Ascent!.Value.Meters, once.Figures.Descent!.Value.Meters, 9);
        Assert.Equal(2, twice.Changes.Count);
    }

    [Property(MaxTest = 40)]
    [Checks(typeof(RouteDesign), CheckKind.Property)]
    public void CutAt_BothParts_AddUpInLengthAndAscent(int seed, ushort at)
    {
        RouteDesign whole = RouteDesign.Of(Walk(seed, 40));
        Length x = whole.Figures.Length * ((1 + (at % 998)) / 1000.0);
        RouteDesign a = whole.CutAt(x), b = whole.CutAt(x, KeptPart.After);
        Assert.Equal(whole.Figures.Length.Meters, (a.Figures.Length + b.Figures.Length).Meters, 5);
        Assert.Equal(whole.Figures.Ascent!.Value.Meters, (a.Figures.Ascent + b.Figures.Ascent)!.Value.Meters, 6);
        Assert.Equal(whole.Figures.Descent!.Value.Meters, (a.Figures.Descent + b.Figures.Descent)!.Value.Meters, 6);

        // And put together again they are the whole.
        RouteDesign again = a.Append(b.Route);
        Assert.Equal(whole.Figures.Length.Meters, again.Figures.Length.Meters, 5);
        Assert.Empty(again.Route.Gaps);
    }

    [Property(MaxTest = 40)]
    [Checks(typeof(RouteDesign), CheckKind.Property)]
    public void Swap_FarAway_LeavesTheRestPointForPoint(int seed)
    {
        RideRoute route = Walk(seed, 60);
        RouteDesign before = RouteDesign.Of(route);
        Length a = route.DistanceAt(30), b = route.DistanceAt(40);
        RideRoute other = RideRoute.FromPoints([route.Points[30].Place, At(5000, 5000, 900), route.Points[40].Place]);
        RouteDesign after = before.Swap(a, b, other);
        Assert.Equal(route.Points.Take(31), after.Route.Points.Take(31));
        Assert.Equal(route.Points.Skip(40).Select(p => p.Place), after.Route.Points.Skip(after.Route.Count - 20).Select(p => p.Place));
        Assert.Empty(after.Route.Gaps);
        DesignChange change = Assert.Single(after.Changes);
        Assert.Equal((before.Figures, after.Figures), (change.Before, change.After));
        Assert.Equal(after.Figures.Length.Meters - before.Figures.Length.Meters, change.LengthGained.Meters, 6);
        Assert.Equal(a.Meters, change.From.Meters, 6);
        Assert.Equal(route.Points, before.Route.Points);
    }

    [Fact]
    public void StartAtAndRepeat_OnALoop_KeepItsLength()
    {
        RideRoute loop = RideRoute.FromPoints([At(0, 0, 100), At(0, 1000, 200), At(1000, 1000, 150), At(0, 0, 100)]);
        RouteDesign d = RouteDesign.Of(loop), moved = d.StartAt(At(0, 1000));
        Assert.Equal(0, Geodesic.Between(moved.Route.Start, At(0, 1000)).LengthM, 3);
        Assert.Equal(loop.Length.Meters, moved.Figures.Length.Meters, 5);
        Assert.True(moved.Route.IsLoop);
        RouteDesign three = d.Repeat(3);
        Assert.Equal(3 * loop.Length.Meters, three.Figures.Length.Meters, 5);
        Assert.Equal(3 * d.Figures.Ascent!.Value.Meters, three.Figures.Ascent!.Value.Meters, 6);
    }

    [Fact]
    public void ShortenAt_NamedExit_EndsThereAndListsWhatIsLost()
    {
        RideRoute line = RideRoute.FromPoints(Enumerable.Range(0, 11).Select(i => At(0, i * 500)));
        RouteDesign d = RouteDesign.Of(line, [new ExitPoint { Name = "Mill", Place = At(20, 2000) }, Exit("Ford", 4000)]);
        Assert.Equal(new[] { "Mill", "Ford" }, d.Figures.Exits);
        RouteDesign s = d.ShortenAt("Mill");
        Assert.Equal(2000, s.Figures.Length.Meters, 0);
        Assert.Equal(new[] { "Ford" }, Assert.Single(s.Changes).ExitsLost);
        Assert.Contains(s.Findings, f => f.Code == "routes.exit-lost");
        RouteDesign no = s.ShortenAt("Ford");
        Assert.Equal(s.Route, no.Route);
        Assert.Contains(no.Findings, f => f.Code == "routes.change-refused" && f.Message.Contains("Ford", StringComparison.Ordinal));
    }

    [Fact]
    [Checks(typeof(RouteDesign), CheckKind.Outside)]
    public void LeadByAndSwap_OverANetwork_TakeTheWayThatDrawnSquaresHave()
    {
        // Plane squares of 1 km: the lengths are known without a computer (common practice, no source).
        RouteNetwork net = RouteNetwork.Of([Line("base", 0, 0, 0, 1000), Line("base", 0, 1000, 0, 2000), Line("west", 0, 0, 1000, 0), Line("top", 1000, 0, 1000, 1000), Line("mid", 1000, 1000, 0, 1000), Line("spur", 1000, 1000, 1500, 1000)]);
        RouteDesign d = RouteDesign.Of(net.Way([At(0, 0), At(0, 2000)]).Route!);
        Assert.Equal(2000, d.Figures.Length.Meters, 0);
        RouteDesign by = d.LeadBy(At(1000, 500), net);

        // Out and back from the crossing adds 3 km and loses nothing; the round by the west would add 3 km and lose 1 km of the old route.
        Assert.Equal(5000, by.Figures.Length.Meters, 0);
        Assert.Equal(3000, Assert.Single(by.Changes).LengthGained.Meters, 0);
        RouteDesign swapped = d.Swap(Length.Zero, Length.FromMeters(1000), net);
        Assert.Equal(4000, swapped.Figures.Length.Meters, 0);
        RouteDesign no = d.Swap(Length.FromMeters(1200), Length.FromMeters(1800), net);
        Assert.Equal(d.Route, no.Route);
        Assert.Contains(no.Findings, f => f.Code == "routes.change-refused");

        RouteNetwork shut = RouteNetwork.Of([Line("base", 0, 0, 0, 1000), Line("spur", 0, 1000, 500, 1000) with { Closure = new TrailClosure { Reason = "nesting birds" } }, Line("base", 0, 1000, 0, 2000)]);
        RouteDesign refused = d.LeadBy(At(500, 1000), shut);
        Assert.Equal(d.Route, refused.Route);
        Assert.Equal("spur", Assert.Single(refused.Refusals).Trail);
    }

    /// <summary>Regression: what was checked on a track was not checked on the stretch that a network put in its place.</summary>
    [Fact]
    public void LeadBy_OverANetwork_HasNoDateAndNothingChecked()
    {
        RouteNetwork net = RouteNetwork.Of([Line("straight", 0, 0, 0, 2000), Line("up", 0, 500, 1000, 500), Line("over", 1000, 500, 1000, 1500), Line("down", 1000, 1500, 0, 1500)]);
        var origin = new RouteOrigin { RecordedFrom = new DateOnly(2027, 5, 1), RecordedTo = new DateOnly(2027, 5, 1), Sensor = RecordingSensor.Satellite, Checked = [OriginCheck.Access, OriginCheck.Closures] };
        RouteDesign d = RouteDesign.Of(RideRoute.FromPoints([At(0, 0), At(0, 500), At(0, 1500), At(0, 2000)]), origin: origin);
        Assert.Equal(2, d.Reverse().Origin.Checked.Count);
        RouteDesign by = d.LeadBy(At(1000, 1000), net);
        Assert.Empty(by.Refusals);
        Assert.Empty(by.Origin.Checked);
        Assert.Null(by.Origin.RecordedFrom);
        RouteDesign swapped = d.Swap(Length.FromMeters(500), Length.FromMeters(1500), net);
        Assert.Single(swapped.Changes);
        Assert.Empty(swapped.Origin.Checked);
    }

    private static ExitPoint Exit(string name, double m) => new() { Name = name, AlongRoute = Length.FromMeters(m) };

    private static RideRoute Walk(int seed, int points)
    {
        var random = new Random(seed);
        double n = 0, e = 0, h = 500;
        return RideRoute.FromPoints(Enumerable.Range(0, points).Select(_ => At(n += random.Next(20, 200), e += random.Next(-150, 150), h += random.Next(-20, 25))).ToArray());
    }

    private static GeoPoint At(double northM, double eastM, double heightM = double.NaN) => new(45 + (northM / 111_132), 7 + (eastM / 78_847), heightM);

    private static TrailLine Line(string name, double n0, double e0, double n1, double e1) => new(RideRoute.FromPoints([At(n0, e0), At(n1, e1)], name));
}
