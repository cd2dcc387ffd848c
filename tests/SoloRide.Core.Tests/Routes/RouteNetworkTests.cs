using System.Globalization;
using System.Text.Json;
using FsCheck.Xunit;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Routes;

public sealed class RouteNetworkTests
{
    /// <summary>Own arithmetic on random graphs, recomputed once by a second program (planning/walkout); tolerance 0.001 s, the printed digit.</summary>
    [Fact]
    [Checks(typeof(RouteNetwork), CheckKind.Outside)]
    public void Way_OnReferenceGraphs_CostsAsMuch() => EqualCosts(Directory.GetFiles(Repo.Data("planning", "walkout"), "*.json"), int.MaxValue);

    /// <summary>The same with every graph of the reference data.</summary>
    [SkippableFact]
    [Checks(typeof(RouteNetwork), CheckKind.Outside)]
    public void Way_OnAllReferenceGraphs_CostsAsMuch() => EqualCosts(Directory.GetFiles(Repo.ReferenceFile("planning", "walkout"), "*.json"), 12);

    private static void EqualCosts(string[] files, int sampled)
    {
        Assert.NotEmpty(files);
        foreach (string file in files.Order(StringComparer.Ordinal))
        {
            using JsonDocument doc = JsonDocument.Parse(File.ReadAllText(file));
            JsonElement root = doc.RootElement;
            int n = root.GetProperty("nodes").GetInt32();

            // On a ring: no chord runs over a node that is not its own; crossings are no junctions.
            double radiusDeg = 0.05 * Math.Max(1, n / 600.0);
            GeoPoint Place(int i) => new(45 + (radiusDeg * Math.Cos(2 * Math.PI * i / n)), 7 + (1.4 * radiusDeg * Math.Sin(2 * Math.PI * i / n)));
            var cost = new Dictionary<string, (double On, double Back)>();
            var lines = new List<TrailLine>();
            foreach (JsonElement e in root.GetProperty("edges").EnumerateArray())
            {
                int a = e.GetProperty("a").GetInt32(), b = e.GetProperty("b").GetInt32();
                double on = Cost(e.GetProperty("cost_ab_s")), back = Cost(e.GetProperty("cost_ba_s"));
                string name = string.Create(CultureInfo.InvariantCulture, $"{Math.Min(a, b)}-{Math.Max(a, b)}");
                (on, back) = (Place(a).LatDeg, Place(a).LonDeg).CompareTo((Place(b).LatDeg, Place(b).LonDeg)) < 0 ? (on, back) : (back, on);
                if (cost.TryGetValue(name, out (double On, double Back) other))
                {
                    cost[name] = (Math.Min(on, other.On), Math.Min(back, other.Back));
                }
                else if (a != b)
                {
                    cost.Add(name, (on, back));
                    lines.Add(new TrailLine(RideRoute.FromPoints([Place(a), Place(b)], name)));
                }
            }

            RouteNetwork plain = RouteNetwork.Of(lines, new RouteNetworkOptions { Crossings = CrossingRule.SharedPoints });
            Assert.Equal(lines.Count, plain.Trails.Count);
            RouteNetwork network = plain.WithCost(p =>
            {
                double whole = p.Backward ? cost[p.Trail.Name].Back : cost[p.Trail.Name].On;
                return double.IsFinite(whole) ? TimeSpan.FromSeconds(whole * p.Step.LengthM / p.Trail.Length.Meters) : null;
            });
            int[] exits = [.. root.GetProperty("exits").EnumerateArray().Select(x => x.GetInt32())];
            double[] expected = [.. root.GetProperty("expected_cost_to_nearest_exit_s").EnumerateArray().Select(Cost)];
            for (int i = 0; i < n; i += Math.Max(1, n / sampled))
            {
                double best = exits.Min(x => x == i ? 0 : network.Way([Place(i), Place(x)], new WayOptions { WithinOfTrail = Length.FromMeters(1) }).Cost?.TotalSeconds ?? double.PositiveInfinity);
                Assert.True(best.Equals(expected[i]) || Math.Abs(best - expected[i]) < 0.001, $"{Path.GetFileName(file)} node {i}: {best} against {expected[i]}");
            }
        }

        static double Cost(JsonElement e) => e.ValueKind == JsonValueKind.Number ? e.GetDouble() : double.PositiveInfinity;
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

    /// <summary>Open tags of a file (osm-trail-tags): no bicycles, one-way, closed with the date of the information, surface and difficulty.</summary>
    [Fact]
    public void Of_FileTags_BarTheWayByName_AndStayOnTheTrail()
    {
        static string Feature(string name, GeoPoint a, GeoPoint b, string tags) => string.Create(CultureInfo.InvariantCulture,
            $"{{\"type\":\"Feature\",\"properties\":{{\"name\":\"{name}\"{tags}}},\"geometry\":{{\"type\":\"LineString\",\"coordinates\":[[{a.LonDeg:R},{a.LatDeg:R}],[{b.LonDeg:R},{b.LatDeg:R}]]}}}}");
        string text = "{\"type\":\"FeatureCollection\",\"features\":[" + string.Join(',', [
            Feature("foot path", At(0, 0), At(0, 1000), ",\"bicycle\":\"no\""),
            Feature("down only", At(1000, 0), At(0, 0), ",\"oneway\":\"yes\",\"surface\":\"rock\",\"mtb:scale\":\"3\""),
            Feature("slide", At(0, 0), At(-1000, 0), ",\"closed\":\"rockfall\",\"check_date\":\"2027-05-01\""),
        ]) + "]}";
        RouteNetwork net = RouteNetwork.Of(TrailLine.Of(RouteFile.Read(new MemoryStream(System.Text.Encoding.UTF8.GetBytes(text)), "sample")));
        NetworkTrail Trail(string name) => net.Trails.Single(t => t.Name == name);
        Assert.Equal(Known.No, Trail("foot path").Bicycles);
        Assert.NotEqual(OneWayRule.None, Trail("down only").OneWay);
        Assert.Equal(("rockfall", new DateOnly(2027, 5, 1)), (Trail("slide").Closure!.Reason, Trail("slide").Closure!.InformationDate));
        RouteSection section = Assert.Single(Trail("down only").Line.Sections);
        Assert.Equal((TrailSurface.Rock, TrailDifficulty.Level3), (section.Surface, section.Difficulty));

        foreach ((GeoPoint to, string name, TrailBars bar) in new[] { (At(0, 1000), "foot path", TrailBars.NoBicycles), (At(1000, 0), "down only", TrailBars.OneWay), (At(-1000, 0), "slide", TrailBars.Closed) })
        {
            WayRefusal no = Assert.Single(net.Way([At(0, 0), to]).Refusals);
            Assert.Equal((name, bar), (no.Trail, no.Bars));
            Assert.NotEmpty(no.OpenedBy);
            RouteWay way = net.Way([At(0, 0), to], new WayOptions { Allow = bar });
            Assert.True(way.IsFound);
            Assert.Equal(section.Surface == TrailSurface.Rock && name == "down only", way.Route!.Sections.Any(s => s.Surface == TrailSurface.Rock));
        }

        Assert.True(net.Way([At(1000, 0), At(0, 0)]).IsFound);
    }

    [Fact]
    [Checks(typeof(RouteNetwork), CheckKind.BadInput)]
    public void Way_BadPoints_SaysWhatAndWhere()
    {
        RouteNetwork net = RouteNetwork.Of([Line("a", 0, 0, 0, 1000), Line("b", 0, 5000, 0, 6000)]);
        Assert.Throws<ArgumentNullException>(() => RouteNetwork.Of(null!));
        Assert.Throws<ArgumentNullException>(() => RouteNetwork.Of([null!]));
        Assert.Contains("at least 2", Assert.Throws<ArgumentException>(() => net.Way([At(0, 0)])).Message, StringComparison.Ordinal);
        Assert.ThrowsAny<ArgumentException>(() => new RouteNetworkOptions { Tolerance = Length.FromMeters(double.NaN) });
        Assert.Throws<ArgumentOutOfRangeException>(() => new RouteNetworkOptions { Tolerance = Length.FromMeters(200) });
        Assert.Throws<ArgumentOutOfRangeException>(() => new WayOptions { WithinOfTrail = Length.FromMeters(0) });
        Assert.Throws<ArgumentException>(() => net.WithCost(_ => TimeSpan.FromSeconds(-1)));

        RouteWay apart = net.Way([At(0, 0), At(0, 6000)]);
        Assert.False(apart.IsFound);
        Finding none = Assert.Single(apart.Findings, f => f.Severity == FindingSeverity.Refusal);
        Assert.Contains("do not meet", none.Message, StringComparison.Ordinal);
        Assert.Contains(At(0, 6000).ToString(), none.Message, StringComparison.Ordinal);
        Assert.Contains(net.Findings, f => f.Code == "routes.network-parts");

        RouteWay off = net.Way([At(0, 0), At(700, 500)]);
        Assert.False(off.IsFound);
        Assert.Contains(off.Findings, f => f.Code == "routes.off-network" && f.Message.Contains("700 m", StringComparison.Ordinal));
    }

    [Fact]
    [Checks(typeof(RouteNetwork), CheckKind.BadInput)]
    public void Of_LineWithoutLength_IsLeftOutByPlace()
    {
        RouteNetwork net = RouteNetwork.Of([Line("a", 0, 0, 0, 1000), new TrailLine(RideRoute.FromPoints([At(50, 50), At(50, 50)], "spot"))]);
        Assert.Single(net.Trails);
        Finding f = Assert.Single(net.Findings, f => f.Code == "routes.zero-length-line");
        Assert.Equal("spot", f.Subject);
        Assert.Contains(At(50, 50).ToString(), f.Message, StringComparison.Ordinal);
        RouteNetwork none = RouteNetwork.Of([]);
        Assert.Empty(none.Trails);
        Assert.False(none.Way([At(0, 0), At(0, 10)]).IsFound);
        Assert.Empty(none.Loops(new LoopRequest { Trailhead = At(0, 0), Shortest = Length.Zero, Longest = Length.FromKilometers(1) }).Loops);
    }

    [Fact]
    [Checks(typeof(RouteNetwork), CheckKind.BadInput)]
    public void Of_LineOnItself_IsTakenOnce()
    {
        var there = new TrailLine(RideRoute.FromPoints([At(0, 0), At(0, 500), At(0, 1000), At(0, 500), At(0, 0)], "there and back"));
        RouteNetwork net = RouteNetwork.Of([there]);
        Assert.Equal(1000, net.Length.Meters, 0);
        Assert.Contains(net.Findings, f => f.Code == "routes.overlapping-lines" && f.Message.Contains("there and back", StringComparison.Ordinal));

        // Another line on a part of it.
        RouteNetwork two = RouteNetwork.Of([Line("long", 0, 0, 0, 2000), Line("short", 1, 400, 1, 900) with { OneWay = OneWayRule.Forward }]);
        Assert.Equal(2000, two.Length.Meters, 0);
        Assert.Contains(two.Findings, f => f.Code == "routes.overlapping-lines");
        Assert.False(two.Way([At(0, 2000), At(0, 0)]).IsFound);
    }

    [Fact]
    public void Way_OneWayAndClosed_GoesAroundByNameWithWhatOpensThem()
    {
        TrailLine fall = Line("Fall line", 0, 0, 0, 1000) with { OneWay = OneWayRule.Backward };
        TrailLine[] around = [Line("up", 0, 0, 800, 0), Line("over", 800, 0, 800, 1000), Line("down", 800, 1000, 0, 1000)];
        RouteNetwork net = RouteNetwork.Of([fall, .. around]);
        RouteWay way = net.Way([At(0, 0), At(0, 1000)]);
        Assert.Equal(2600, way.Length!.Value.Meters, 0);
        WayRefusal no = Assert.Single(way.Refusals);
        Assert.Equal(("Fall line", TrailBars.OneWay), (no.Trail, no.Bars));
        Assert.Contains("other way round", no.OpenedBy, StringComparison.Ordinal);
        Assert.Equal(1600, way.Detour!.Value.Meters, 0);
        Assert.Equal(1000, net.Way([At(0, 1000), At(0, 0)]).Length!.Value.Meters, 0);
        RouteWay walked = net.Way([At(0, 0), At(0, 1000)], new WayOptions { Allow = TrailBars.OneWay });
        Assert.Equal(1000, walked.Length!.Value.Meters, 0);
        Assert.Contains(walked.Findings, f => f.Code == "routes.bar-ignored");

        TrailLine shut = fall with { OneWay = OneWayRule.None, Closure = new TrailClosure { Reason = "logging", OpensOn = new DateOnly(2027, 6, 1) } };
        RouteNetwork closed = RouteNetwork.Of([shut, .. around]);
        Assert.Equal(2600, closed.Way([At(0, 0), At(0, 1000)]).Length!.Value.Meters, 0);
        Assert.Equal(1000, closed.Way([At(0, 0), At(0, 1000)], new WayOptions { Day = new DateOnly(2027, 6, 1) }).Length!.Value.Meters, 0);
        Assert.Contains("2027-06-01", Assert.Single(closed.Way([At(0, 0), At(0, 1000)]).Refusals).OpenedBy, StringComparison.Ordinal);
    }

    [Property(MaxTest = 40)]
    [Checks(typeof(RouteNetwork), CheckKind.Property)]
    public void Of_ShuffledAndTurnedLines_IsTheSameNetwork(int seed)
    {
        var random = new Random(seed);
        var lines = new List<TrailLine>();
        for (int k = 0; k < 12; k++)
        {
            GeoPoint[] points = [.. Enumerable.Range(0, 2 + random.Next(4)).Select(_ => At(random.Next(-1500, 1500), random.Next(-1500, 1500)))];
            lines.Add(new TrailLine(RideRoute.FromPoints(points.Prepend(At(random.Next(3) * 500, random.Next(3) * 500)), "t" + (k % 5))) { Layer = random.Next(6) == 0 ? 1 : 0 });
        }

        string first = Words(RouteNetwork.Of(lines));
        TrailLine[] shuffled = [.. lines.OrderBy(_ => random.Next())];
        Assert.Equal(first, Words(RouteNetwork.Of(shuffled)));

        static string Words(RouteNetwork n) => string.Join('\n', n.Trails.Select(t => $"{t.Index} {t.Name} {t.From} {t.To} {t.Layer} {t.Length.Meters:R} {t.Line.ToGeoJson()}").Concat(n.Findings.Select(f => f.Message)));
    }

    [Fact]
    [Checks(typeof(RouteNetwork), CheckKind.Property)]
    public void Of_TurnedLines_IsTheSameNetworkToACentimetre()
    {
        for (int seed = 0; seed < 60; seed++)
        {
            var random = new Random(seed);
            GeoPoint[][] drawn = [.. Enumerable.Range(0, 10).Select(_ => Enumerable.Range(0, 2 + random.Next(3)).Select(_ => At(random.Next(-1500, 1500), random.Next(-1500, 1500))).ToArray())];
            RouteNetwork a = RouteNetwork.Of(drawn.Select(d => new TrailLine(RideRoute.FromPoints(d))));
            RouteNetwork b = RouteNetwork.Of(drawn.Select(d => new TrailLine(RideRoute.FromPoints(random.Next(2) == 0 ? d : d.Reverse()))));
            Assert.True(a.Junctions.Count == b.Junctions.Count && a.Trails.Count == b.Trails.Count, $"seed {seed}: {a} against {b}");
            double[] x = [.. a.Trails.Select(t => t.Length.Meters).Order()], y = [.. b.Trails.Select(t => t.Length.Meters).Order()];
            Assert.True(x.Zip(y).All(p => Math.Abs(p.First - p.Second) < 0.01), $"seed {seed}: {a.Length.Meters} m against {b.Length.Meters} m");
        }
    }

    [Property(MaxTest = 30)]
    [Checks(typeof(RouteNetwork), CheckKind.Property)]
    public void Way_PartsAddUpAndNoTriangleIsBetter(int seed)
    {
        var random = new Random(seed);
        RouteNetwork net = RouteNetwork.Of(Enumerable.Range(0, 14).Select(k => Line("t" + k, random.Next(-1500, 1500), random.Next(-1500, 1500), random.Next(-1500, 1500), random.Next(-1500, 1500))));
        GeoPoint[] p = [.. Enumerable.Range(0, 3).Select(_ => net.Junctions[random.Next(net.Junctions.Count)].Place)];
        RouteWay ab = net.Way([p[0], p[1]]), bc = net.Way([p[1], p[2]]), ac = net.Way([p[0], p[2]]), all = net.Way(p);
        Assert.Equal(ab.IsFound && bc.IsFound, all.IsFound);
        if (all.IsFound)
        {
            Assert.Equal((ab.Length + bc.Length)!.Value.Meters, all.Length!.Value.Meters, 3);
            Assert.True(ac.Length!.Value.Meters <= all.Length.Value.Meters + 1e-3);
            Assert.Equal(ac.Length.Value.Meters, net.Way([p[2], p[0]]).Length!.Value.Meters, 3);
        }
    }

    /// <summary>Words of the open tags that bar the way (published key pages): in doubt the safe side, and a word for bicycles goes before one for all.</summary>
    [Theory]
    [InlineData("access", "private", "", TrailBars.Closed)]
    [InlineData("access", "forestry", "", TrailBars.Closed)]
    [InlineData("access", "military", "", TrailBars.Closed)]
    [InlineData("access", "permit", "", TrailBars.Closed)]
    [InlineData("access", "forestry", "designated", TrailBars.None)]
    [InlineData("access", "permissive", "", TrailBars.None)]
    [InlineData("access", "yes", "dismount", TrailBars.NoBicycles)]
    [InlineData("access", "yes", "private", TrailBars.NoBicycles)]
    [InlineData("access", "yes", "use_sidepath", TrailBars.NoBicycles)]
    [InlineData("access", "yes", "permissive", TrailBars.None)]
    public void Tags_ThatBarTheWay_AreRefused(string key, string value, string bicycle, TrailBars bars)
    {
        string json = "{\"type\":\"Feature\",\"properties\":{\"name\":\"t\",\"" + key + "\":\"" + value + "\"" + (bicycle.Length > 0 ? ",\"bicycle\":\"" + bicycle + "\"" : "")
            + "},\"geometry\":{\"type\":\"LineString\",\"coordinates\":[[7,45],[7.01,45]]}}";
        using var stream = new MemoryStream(System.Text.Encoding.UTF8.GetBytes(json));
        RouteWay way = RouteNetwork.Of(TrailLine.Of(RouteFile.Read(stream, "t.geojson"))).Way([new GeoPoint(45, 7), new GeoPoint(45, 7.01)]);
        Assert.Equal(bars, way.Refusals.Count == 0 ? TrailBars.None : way.Refusals[0].Bars);
        Assert.Equal(bars == TrailBars.None, way.IsFound);
    }

    /// <summary>Regression: dates once followed the calendar of the machine's culture (2570 for 2027).</summary>
    [Fact]
    public void Closure_UnderAnotherCalendar_KeepsItsDates()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            var other = (CultureInfo)CultureInfo.GetCultureInfo("ar-SA").Clone();
            CultureInfo.CurrentCulture = other;
            var closure = new TrailClosure { Reason = "nesting", InformationDate = new DateOnly(2027, 3, 1), OpensOn = new DateOnly(2027, 7, 15) };
            Assert.Equal("nesting, information of 2027-03-01, open again from 2027-07-15", closure.ToString());
            RouteNetwork net = RouteNetwork.Of([Line("Shut", 0, 0, 0, 1000) with { Closure = closure }]);
            Assert.Contains("stated for 2027-07-15", Assert.Single(net.Way([At(0, 0), At(0, 1000)]).Refusals).OpenedBy, StringComparison.Ordinal);
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    [Fact]
    public void JunctionsAlong_CrossRoads_GivesAngleSideAndWays()
    {
        RouteNetwork net = RouteNetwork.Of([Line("east", 0, -1000, 0, 1000), Line("north", -1000, 0, 1000, 0)]);
        RouteWay way = net.Way([At(-1000, 0), At(0, 1000)]);
        JunctionPass pass = Assert.Single(net.JunctionsAlong(way.Route!));
        Assert.Equal(4, pass.Ways.Count);
        Assert.Equal(TurnSide.Right, pass.Side);
        Assert.Equal(90, pass.TurnAngle!.Value.Degrees, 0);
        Assert.Equal(2, pass.WrongWays.Count);
        Assert.Equal(1000, pass.Along.Meters, 0);
        Assert.All(pass.WrongWays, w => Assert.Equal(1000, w.ToNextJunction.Meters, 0));
        Assert.Equal(new[] { TurnSide.Left, TurnSide.StraightOn }, pass.WrongWays.Select(w => w.Side));
    }

    private static GeoPoint At(double northM, double eastM) => new(45 + (northM / 111_132), 7 + (eastM / 78_847));

    private static TrailLine Line(string name, double n0, double e0, double n1, double e1) => new(RideRoute.FromPoints([At(n0, e0), At(n1, e1)], name));
}
