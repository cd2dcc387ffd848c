using System.Globalization;
using System.Text.Json;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Routes;

public sealed class RouteNetworkTests
{
    /// <summary>Own arithmetic on random graphs, recomputed once by a second program (planning/walkout); tolerance 0.001 s, the printed digit.</summary>
    [Fact]
    [Checks(typeof(RouteNetwork), CheckKind.Outside)]
    public void Way_OnReferenceGraphs_CostsAsMuch()
    {
        foreach (string file in Directory.GetFiles(Repo.Data("planning", "walkout"), "*.json").Order(StringComparer.Ordinal))
        {
            using JsonDocument doc = JsonDocument.Parse(File.ReadAllText(file));
            JsonElement root = doc.RootElement;
            int n = root.GetProperty("nodes").GetInt32();
            GeoPoint Place(int i) => new(45 + (i / 50 * 0.011) + (i * 7919 % 97 * 1e-6), 7 + (i % 50 * 0.013) + (i * 104729 % 89 * 1e-6));
            var cost = new Dictionary<string, (double On, double Back)>();
            var lines = new List<TrailLine>();
            foreach (JsonElement e in root.GetProperty("edges").EnumerateArray())
            {
                int a = e.GetProperty("a").GetInt32(), b = e.GetProperty("b").GetInt32();
                double on = e.GetProperty("cost_ab_s").GetDouble(), back = e.GetProperty("cost_ba_s").GetDouble();
                string name = string.Create(CultureInfo.InvariantCulture, $"{a}-{b}");
                cost[name] = Place(a).LatDeg < Place(b).LatDeg || (Place(a).LatDeg == Place(b).LatDeg && Place(a).LonDeg < Place(b).LonDeg) ? (on, back) : (back, on);
                lines.Add(new TrailLine(RideRoute.FromPoints([Place(a), Place(b)], name)));
            }

            RouteNetwork plain = RouteNetwork.Of(lines, new RouteNetworkOptions { Crossings = CrossingRule.SharedPoints });
            Assert.Equal(lines.Count, plain.Trails.Count);
            RouteNetwork network = plain.WithCost(p => TimeSpan.FromSeconds((p.Backward ? cost[p.Trail.Name].Back : cost[p.Trail.Name].On) * p.Step.LengthM / p.Trail.Length.Meters));
            int[] exits = [.. root.GetProperty("exits").EnumerateArray().Select(x => x.GetInt32())];
            double?[] expected = [.. root.GetProperty("expected_cost_to_nearest_exit_s").EnumerateArray().Select(x => x.ValueKind == JsonValueKind.Number ? x.GetDouble() : (double?)null)];
            for (int i = 0; i < n; i += Math.Max(1, n / 25))
            {
                double best = exits.Min(x => network.Way([Place(i), Place(x)]).Cost?.TotalSeconds ?? double.PositiveInfinity);
                Assert.True(best.Equals(expected[i] ?? double.PositiveInfinity) || Math.Abs(best - (expected[i] ?? double.PositiveInfinity)) < 0.001, $"{Path.GetFileName(file)} node {i}: {best} against {expected[i]}");
            }
        }
    }

    [Fact]
    public void Of_CrossingAndBridge_MeetOnlyOnOneLayer()
    {
        TrailLine east = Line("east", 0, -1000, 0, 1000), north = Line("north", -1000, 0, 1000, 0);
        Assert.Equal(4, RouteNetwork.Of([east, north]).Trails.Count);
        Assert.Equal(2, RouteNetwork.Of([east, north with { Layer = 1 }]).Trails.Count);
        Assert.Equal(RouteNetwork.Of([east, north]).Trails.Select(t => t.Line.ToGeoJson()), RouteNetwork.Of([north, east]).Trails.Select(t => t.Line.ToGeoJson()));
    }

    [Fact]
    public void Loops_OnASquare_AreTheSquareInBothDirections()
    {
        RouteNetwork net = RouteNetwork.Of([Line("s", 0, 0, 0, 1000), Line("e", 0, 1000, 1000, 1000), Line("n", 1000, 1000, 1000, 0), Line("w", 1000, 0, 0, 0)]);
        LoopChoice c = net.Loops(new LoopRequest { Trailhead = At(0, 0), Shortest = Length.FromMeters(3000), Longest = Length.FromMeters(5000) });
        Assert.True(c.IsExhaustive);
        Assert.Equal(2, Assert.Single(c.Loops).Directions.Count);
    }

    [Fact]
    public void Way_OverAClosedOnlyWay_NamesTheClosure()
    {
        TrailLine shut = Line("Gorge path", 0, 0, 0, 1000) with { Closure = new TrailClosure { Reason = "rockfall", InformationDate = new DateOnly(2027, 5, 1) } };
        RouteWay way = RouteNetwork.Of([shut, Line("spur", 0, 1000, 500, 1000)]).Way([At(0, 0), At(500, 1000)]);
        Assert.False(way.IsFound);
        Assert.Equal("Gorge path", Assert.Single(way.Refusals).Trail);
    }

    [Fact]
    public void Reverse_Twice_IsTheIdentity()
    {
        RouteDesign d = RouteDesign.Of(RideRoute.FromPoints([At(0, 0), At(300, 10), At(900, -40)]));
        Assert.Equal(d.Route.Points, d.Reverse().Reverse().Route.Points);
    }

    private static GeoPoint At(double northM, double eastM) => new(45 + (northM / 111_132), 7 + (eastM / 78_847));

    private static TrailLine Line(string name, double n0, double e0, double n1, double e1) => new(RideRoute.FromPoints([At(n0, e0), At(n1, e1)], name));
}
