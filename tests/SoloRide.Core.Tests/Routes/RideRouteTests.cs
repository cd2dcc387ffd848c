using FsCheck;
using FsCheck.Xunit;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Routes;

public sealed class RideRouteTests
{
    [Fact]
    [Checks(typeof(RideRoute), CheckKind.BadInput)]
    public void FromPoints_Nothing_SaysWhatIsNeeded()
        => Assert.Contains("at least one point", Assert.Throws<ArgumentException>(() => RideRoute.FromPoints(Array.Empty<GeoPoint>())).Message, StringComparison.Ordinal);

    [Fact]
    [Checks(typeof(RideRoute), CheckKind.BadInput)]
    public void PointAt_BeyondTheEnd_SaysRangeAndUnit()
    {
        RideRoute route = Walk(1, 20);
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => route.PointAt(route.Length + Length.FromMeters(1)));
        Assert.Contains(" m", e.Message, StringComparison.Ordinal);
    }

    [Property]
    [Checks(typeof(RideRoute), CheckKind.Property)]
    public bool Reversed_Twice_IsTheSameLine(int seed)
    {
        RideRoute route = Walk(seed, 50), twice = route.Reversed().Reversed();
        return twice.Length.Meters == route.Length.Meters && twice.Points.Select(p => p.Place).SequenceEqual(route.Points.Select(p => p.Place))
            && Enumerable.Range(0, 50).All(i => twice.DistanceAt(i).Meters == route.DistanceAt(i).Meters);
    }

    [Property]
    [Checks(typeof(RideRoute), CheckKind.Property)]
    public bool Part_TwoHalves_AddUpToTheWhole(int seed, NonNegativeInt at)
    {
        RideRoute route = Walk(seed, 50);
        Length cut = route.Length * (at.Get % 1000 / 1000.0);
        RideRoute a = route.Part(Length.Zero, cut), b = route.Part(cut, route.Length);
        return Math.Abs((a.Length + b.Length - route.Length).Meters) < 1e-6 && Math.Abs(a.Then(b).Length.Meters - route.Length.Meters) < 1e-6
            && a.Then(b).Gaps.Count == 0;
    }

    [Property]
    [Checks(typeof(RideRoute), CheckKind.Property)]
    public bool Length_Densified_IsUnchanged(int seed)
    {
        RideRoute route = Walk(seed, 30);
        var dense = new List<GeoPoint>();
        for (int i = 0; i < 30; i++)
        {
            dense.Add(route.Points[i].Place);
            if (i < 29)
            {
                dense.Add(route.PointAt((route.DistanceAt(i) + route.DistanceAt(i + 1)) / 2));
            }
        }

        return Math.Abs(RideRoute.FromPoints(dense).Length.Meters - route.Length.Meters) < 1e-6;
    }

    [Property]
    public bool Project_PointOfTheRoute_FindsItself(int seed, NonNegativeInt at)
    {
        RideRoute route = Walk(seed, 80);
        Length x = route.Length * (at.Get % 1000 / 1000.0);
        RoutePass nearest = route.Nearest(route.PointAt(x));
        return nearest.Offset.Meters < 1e-3 && route.Project(route.PointAt(x)).Any(p => Math.Abs((p.DistanceAlong - x).Meters) < 1e-2 || p.Offset.Meters < 1e-3);
    }

    [Fact]
    public void Project_OutAndBack_GivesTwoPasses()
    {
        GeoPoint[] outward = [.. Enumerable.Range(0, 101).Select(i => new GeoPoint(45 + (i * 0.0001), 7))];
        RideRoute route = RideRoute.FromPoints(outward.Concat(outward.Reverse()));
        var passes = route.Project(new GeoPoint(45.005, 7.0002));
        Assert.Equal(2, passes.Length);
        Assert.Equal(route.Length.Meters, (passes[0].DistanceAlong + passes[1].DistanceAlong).Meters, 1);
        Assert.InRange(passes[0].Offset.Meters, 15, 16.5);
        Assert.Single(route.Project(new GeoPoint(45.01, 7.0002)));
    }

    [Fact]
    public void ProjectInOrder_OutAndBack_TakesTheWayBackForTheSecondVisit()
    {
        GeoPoint[] outward = [.. Enumerable.Range(0, 101).Select(i => new GeoPoint(45 + (i * 0.0001), 7))];
        RideRoute route = RideRoute.FromPoints(outward.Concat(outward.Reverse()));
        var passes = route.ProjectInOrder([new GeoPoint(45.002, 7), new GeoPoint(45.008, 7), new GeoPoint(45.003, 7)]);
        Assert.True(passes[0].DistanceAlong < passes[1].DistanceAlong && passes[1].DistanceAlong < passes[2].DistanceAlong);
        Assert.True(passes[2].DistanceAlong > route.Length / 2);
    }

    [Fact]
    public void Project_AcrossTheAntimeridian_FindsThePass()
    {
        RideRoute route = RideRoute.FromPoints([new GeoPoint(52, 179.99), new GeoPoint(52, -179.99)]);
        RoutePass pass = route.Nearest(new GeoPoint(52.001, -179.9999));
        Assert.InRange(pass.Offset.Meters, 110, 112);
        Assert.InRange(route.Length.Meters, 1373, 1375);
    }

    [Fact]
    public void Read_SeveralTracks_IsAChoice()
    {
        string path = Repo.Data("routes", "files/syn_kitchen_sink.gpx");
        RideRoute first = RideRoute.Read(path);
        Assert.Equal(40, first.Points.Count);
        Assert.Contains(first.Findings, f => f.Code == "routes.several-lines");
        Assert.Equal(2, RideRoute.Read(path, new RouteReadOptions { Lines = LineChoice.Longest }).Points.Count);
        Assert.Throws<InputFormatException>(() => RideRoute.Read(path, new RouteReadOptions { Lines = LineChoice.Index, LineIndex = 1 }));
        Assert.Throws<ArgumentOutOfRangeException>(() => RideRoute.Read(path, new RouteReadOptions { Lines = LineChoice.Index, LineIndex = 99 }));
    }

    [Fact]
    public void Then_Apart_ReportsTheGap()
    {
        RideRoute a = RideRoute.FromPoints([new GeoPoint(45, 7), new GeoPoint(45.001, 7)]), b = RideRoute.FromPoints([new GeoPoint(45.002, 7), new GeoPoint(45.003, 7)]);
        RideRoute joined = a.Then(b);
        RouteGap gap = Assert.Single(joined.Gaps);
        Assert.Equal(111.1, gap.Length.Meters, 0.2);
        Assert.Contains(joined.Findings, f => f.Code == "routes.gap");
        Assert.Equal(gap.At.Meters, joined.Reversed().Gaps[0].At.Meters, 0.01);
    }

    [Fact]
    public void Route_OfOnePoint_HasNoLength()
    {
        RideRoute route = RideRoute.FromPoints([new GeoPoint(45, 7, 100)]);
        Assert.Equal(0, route.Length.Meters);
        Assert.False(route.IsLoop);
        Assert.Null(route.BearingAt(Length.Zero));
        Assert.Equal(route.Start, route.PointAt(Length.Zero));
        Assert.Single(route.Project(new GeoPoint(45.1, 7)));
        Assert.Empty(ElevationProfile.Of(route).Steps(Length.FromMeters(50)));
    }

    [Fact]
    public void LineString_BothWays_IsTheSameLine()
    {
        RideRoute route = Walk(3, 40);
        Assert.Equal(route.Points.Select(p => p.Place), RideRoute.FromLineString(route.ToLineString()).Points.Select(p => p.Place));
    }

    internal static RideRoute Walk(int seed, int n, bool heights = true)
    {
        var random = new Random(seed);
        double lat = 40 + random.NextDouble(), lon = -110 + random.NextDouble(), ele = 1500, heading = random.NextDouble() * 6.28;
        var points = new List<GeoPoint>();
        for (int i = 0; i < n; i++)
        {
            points.Add(new GeoPoint(lat, lon, heights ? ele : double.NaN));
            heading += random.NextDouble() - 0.5;
            lat += 0.0003 * Math.Cos(heading);
            lon += 0.0004 * Math.Sin(heading);
            ele += (random.NextDouble() - 0.48) * 6;
        }

        return RideRoute.FromPoints(points, "walk");
    }

    /// <summary>Regression: words about a route once made it forget where its heights come from.</summary>
    [Fact]
    public void With_OtherWords_KeepsWhereHeightsComeFrom()
    {
        RideRoute laid = RideRoute.FromPoints([new GeoPoint(45, 7), new GeoPoint(45.01, 7)]).Drape(new Flat(), DrapeMode.Replace);
        Assert.Equal(HeightSource.TerrainModel, laid.HeightSource);
        Assert.Equal(HeightSource.TerrainModel, laid.WithDescription("over the moor").HeightSource);
        Assert.Equal(HeightSource.TerrainModel, laid.WithName("moor").WithWaypoints([]).WithSections([]).Reversed().HeightSource);
    }

    private sealed class Flat : ITerrainHeights
    {
        public double HeightM(double latDeg, double lonDeg) => 700;

        public void HeightsM(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg, Span<double> heightsM) => heightsM.Fill(700);
    }
}
