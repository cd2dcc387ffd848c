using System.Text.Json;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Escape;

namespace SoloRide.Tests.Escape;

public sealed class TrailNetworkTests
{
    public static TheoryData<string> Graphs
        => [.. Directory.GetFiles(Repo.Data("planning", "walkout"), "*.json").Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal)];

    /// <summary>Own arithmetic on random graphs, recomputed once by a second program; tolerance 0.001 s, the printed digit.</summary>
    [Theory]
    [MemberData(nameof(Graphs))]
    public void WalkOut_OnReferenceGraph_MeetsEveryNode(string file)
    {
        using JsonDocument doc = JsonDocument.Parse(File.ReadAllText(Repo.Data("planning", "walkout/" + file)));
        (TrailNetwork network, double?[] expected) = Read(doc);
        NetworkWalkOut result = network.WalkOut();
        for (int i = 0; i < network.NodeCount; i++)
        {
            TimeSpan? time = result.TimeFrom(i);
            Assert.Equal(expected[i] is null, time is null);
            if (expected[i] is { } e)
            {
                Assert.InRange(time!.Value.TotalSeconds, e - 0.001, e + 0.001);
                Assert.Equal(time.Value.TotalSeconds, Along(network, result.WayFrom(i)), 3);
            }
        }
    }

    /// <summary>Own arithmetic: the fixture of eight pieces at three speeds, exits A, X2, X3.</summary>
    [Theory]
    [InlineData(1.0)]
    [InlineData(0.8)]
    [InlineData(0.6)]
    public void WalkOut_OnFixture_MeetsTimesExitsAndPointsInsidePieces(double speedFactor)
    {
        (TrailNetwork network, string[] names) = Fixture();
        NetworkWalkOut result = network.WalkOut(EscapePace.For(TravelMode.Walk, options: new EscapePaceOptions { WalkerFactor = speedFactor }));
        foreach (CsvRow row in CsvTable.Read(Repo.Data("planning", "walkout_fixture_expected.csv")).Rows.Where(r => r.Num("speed_factor") == speedFactor))
        {
            int node = Array.IndexOf(names, row["node"]);
            Assert.Equal(row.Num("minutes"), result.TimeFrom(node)!.Value.TotalMinutes, 4);
            Assert.Equal(row["nearest_exit_by_time"], result.ExitFrom(node));
        }

        NetworkPoint[] points = [.. result.EqualTimePoints()];
        CsvRow[] rows = [.. CsvTable.Read(Repo.Data("planning", "equal_escape_points.csv")).Rows.Where(r => r.Num("speed_factor") == speedFactor)];
        Assert.Equal(rows.Length, points.Length);
        foreach (CsvRow row in rows)
        {
            NetworkPoint p = points.Single(q => names[q.A] == row["u"] && names[q.B] == row["v"]);
            Assert.Equal(row.Num("metres_from_u"), p.FromA.Meters, 3);
            Assert.Equal(row.Num("minutes_either_way"), p.Time.TotalMinutes, 4);
            Assert.Equal(row["exit_via_u"], p.ExitViaA);
            Assert.Equal(row["exit_via_v"], p.ExitViaB);
        }

        NetworkPoint worst = result.Worst()!;
        Assert.Equal("C", names[worst.A]);
        Assert.Equal("D", names[worst.B]);
        Assert.Equal(rows.Max(r => r.Num("minutes_either_way")), worst.Time.TotalMinutes, 4);
    }

    /// <summary>A textbook network (Dijkstra 1959 in many textbooks): checked by hand, each way written out.</summary>
    [Fact]
    [Checks(typeof(TrailNetwork), CheckKind.Outside)]
    public void WalkOut_OnSmallDirectedNetwork_IsTheHandCount()
    {
        // 0 -> 1 takes 4, back 1; 0 -> 2 takes 2, back 2; 2 -> 1 takes 1, back 5; 1 -> 3 (exit) takes 5; 2 -> 3 takes 8.
        var network = new TrailNetwork(4, [L(0, 1, 4, 1), L(0, 2, 2, 2), L(2, 1, 1, 5), L(1, 3, 5, 5), L(2, 3, 8, 8)], [new NetworkExit(3, "road")]);
        NetworkWalkOut r = network.WalkOut();
        Assert.Equal([8, 5, 6, 0], Enumerable.Range(0, 4).Select(i => r.TimeFrom(i)!.Value.TotalSeconds));
        Assert.Equal([0, 2, 1, 3], r.WayFrom(0));

        static TrailLink L(int a, int b, double on, double back) => new(a, b, TimeSpan.FromSeconds(on), TimeSpan.FromSeconds(back));
    }

    [Fact]
    [Checks(typeof(TrailNetwork), CheckKind.BadInput)]
    public void Network_BadInput_NamesTheItem()
    {
        TimeSpan s = TimeSpan.FromSeconds(1);
        Assert.Contains("links[1]", Assert.Throws<ArgumentException>(() => new TrailNetwork(2, [new TrailLink(0, 1, s, s), new TrailLink(0, 7, s, s)], [])).Message, StringComparison.Ordinal);
        Assert.Contains("'far road'", Assert.Throws<ArgumentException>(() => new TrailNetwork(2, [], [new NetworkExit(2, "far road")])).Message, StringComparison.Ordinal);
        Assert.Contains("from node 1 to node 0", Assert.Throws<ArgumentOutOfRangeException>(() => new TrailLink(0, 1, s, -s)).Message, StringComparison.Ordinal);
        Assert.Contains("links[0]", Assert.Throws<ArgumentException>(() => new TrailNetwork(2, [new TrailLink(0, 1, new TrailStep(10, 1))], []).WalkOut()).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new TrailNetwork(0, [], []));
    }

    [Fact]
    public void Network_InTwoPieces_IsAFindingAndNull()
    {
        TimeSpan s = TimeSpan.FromSeconds(10);
        var network = new TrailNetwork(4, [new TrailLink(0, 1, s, s), new TrailLink(2, 3, s, s)], [new NetworkExit(0, "hut")]);
        NetworkWalkOut r = network.WalkOut();
        Assert.Null(r.TimeFrom(3));
        Assert.Null(r.ExitFrom(2));
        Assert.Empty(r.WayFrom(2));
        Assert.Contains(r.Findings, f => f.Code == EscapeFindingCodes.NoWayOut && f.Message.StartsWith("2 of 4", StringComparison.Ordinal));
        Assert.Contains(new TrailNetwork(1, [], []).WalkOut().Findings, f => f.Code == EscapeFindingCodes.NoExit);
    }

    [Fact]
    public void Network_OneWayLink_IsTakenOneWayOnly()
    {
        TimeSpan s = TimeSpan.FromSeconds(10);
        NetworkWalkOut r = new TrailNetwork(3, [new TrailLink(0, 1, null, s), new TrailLink(1, 2, s, null)], [new NetworkExit(1, "road")]).WalkOut();
        Assert.Null(r.TimeFrom(0));
        Assert.Null(r.TimeFrom(2));
        Assert.Equal(TimeSpan.Zero, r.TimeFrom(1));
    }

    [Fact]
    public void Ties_GoToTheSmallerName()
    {
        TimeSpan s = TimeSpan.FromSeconds(10);
        NetworkWalkOut r = new TrailNetwork(
            5, [new TrailLink(0, 1, s, s), new TrailLink(1, 2, s, s), new TrailLink(1, 3, TimeSpan.Zero, TimeSpan.Zero), new TrailLink(3, 4, s, s)],
            [new NetworkExit(2, "b"), new NetworkExit(0, "c"), new NetworkExit(4, "a")]).WalkOut();
        Assert.Equal("a", r.ExitFrom(1));
        Assert.Equal("a", r.ExitFrom(3));
    }

    /// <summary>One more exit or trail never makes a way out longer; slower walking scales every time.</summary>
    [Property(MaxTest = 60)]
    [Checks(typeof(TrailNetwork), CheckKind.Property)]
    public void AddingExitOrTrail_NeverLengthens_AndSlowerScales(int seed)
    {
        var random = new System.Random(seed);
        int n = random.Next(2, 40);
        TrailLink Link() => new(random.Next(n), random.Next(n), new TrailStep(random.Next(1, 5000), random.Next(-400, 400)));
        TrailLink[] links = [.. Enumerable.Range(0, random.Next(1, 90)).Select(_ => Link())];
        NetworkExit[] exits = [.. Enumerable.Range(0, random.Next(1, 4)).Select(i => new NetworkExit(random.Next(n), "x" + i))];
        EscapePace walk = EscapePace.For(TravelMode.Walk);
        NetworkWalkOut now = new TrailNetwork(n, links, exits).WalkOut(walk);
        NetworkWalkOut trail = new TrailNetwork(n, [.. links, Link()], exits).WalkOut(walk);
        NetworkWalkOut exit = new TrailNetwork(n, links, [.. exits, new NetworkExit(random.Next(n), "y")]).WalkOut(walk);
        NetworkWalkOut slow = new TrailNetwork(n, links, exits).WalkOut(EscapePace.For(TravelMode.Walk, options: new EscapePaceOptions { WalkerFactor = 0.5 }));
        for (int i = 0; i < n; i++)
        {
            Assert.True(S(trail, i) <= S(now, i) + 1e-6);
            Assert.True(S(exit, i) <= S(now, i) + 1e-6);
            Assert.Equal(now.TimeFrom(i) is null, slow.TimeFrom(i) is null);
            if (now.TimeFrom(i) is not null)
            {
                Assert.InRange(S(slow, i) - (2 * S(now, i)), -1e-5, 1e-5);
            }
        }

        static double S(NetworkWalkOut w, int i) => w.TimeFrom(i)?.TotalSeconds ?? double.PositiveInfinity;
    }

    /// <summary>The search agrees with relaxing every link until nothing changes.</summary>
    [Property(MaxTest = 60)]
    public void WalkOut_AgreesWithRepeatedRelaxation(int seed)
    {
        var random = new System.Random(seed);
        int n = random.Next(2, 60);
        TrailLink[] links = [.. Enumerable.Range(0, random.Next(1, 150)).Select(_ => new TrailLink(
            random.Next(n), random.Next(n),
            random.Next(8) == 0 ? null : TimeSpan.FromSeconds(random.Next(0, 900)),
            random.Next(8) == 0 ? null : TimeSpan.FromSeconds(random.Next(0, 900))))];
        int target = random.Next(n);
        NetworkWalkOut r = new TrailNetwork(n, links, [new NetworkExit(target, "x")]).WalkOut();
        double[] w = [.. Enumerable.Repeat(double.PositiveInfinity, n)];
        w[target] = 0;
        for (bool changed = true; changed;)
        {
            changed = false;
            foreach (TrailLink l in links)
            {
                changed |= Relax(l.A, l.B, l.AToB);
                changed |= Relax(l.B, l.A, l.BToA);
            }
        }

        for (int i = 0; i < n; i++)
        {
            Assert.True(w[i] == (r.TimeFrom(i)?.TotalSeconds ?? double.PositiveInfinity) || Math.Abs(w[i] - r.TimeFrom(i)!.Value.TotalSeconds) < 1e-6);
        }

        bool Relax(int from, int to, TimeSpan? t)
        {
            if (t is not { } s || !(w[to] + s.TotalSeconds < w[from]))
            {
                return false;
            }

            w[from] = w[to] + s.TotalSeconds;
            return true;
        }
    }

    internal static (TrailNetwork Network, string[] Names) Fixture()
    {
        CsvRow[] rows = [.. CsvTable.Read(Repo.Data("planning", "walkout_fixture_edges.csv")).Rows];
        string[] names = [.. rows.SelectMany(r => new[] { r["u"], r["v"] }).Distinct()];
        int Id(string name) => Array.IndexOf(names, name);
        return (new TrailNetwork(
            names.Length,
            [.. rows.Select(r => new TrailLink(Id(r["u"]), Id(r["v"]), new TrailStep(r.Num("length_m"), r.Num("rise_m_u_to_v"))))],
            [.. new[] { "A", "X2", "X3" }.Select(x => new NetworkExit(Id(x), x))]), names);
    }

    internal static (TrailNetwork Network, double?[] Expected) Read(JsonDocument doc)
    {
        JsonElement root = doc.RootElement;
        TrailLink[] links = [.. root.GetProperty("edges").EnumerateArray().Select(e => new TrailLink(
            e.GetProperty("a").GetInt32(), e.GetProperty("b").GetInt32(),
            TimeSpan.FromSeconds(e.GetProperty("cost_ab_s").GetDouble()), TimeSpan.FromSeconds(e.GetProperty("cost_ba_s").GetDouble())))];
        NetworkExit[] exits = [.. root.GetProperty("exits").EnumerateArray().Select(x => new NetworkExit(x.GetInt32(), "x" + x.GetInt32().ToString("D6", System.Globalization.CultureInfo.InvariantCulture)))];
        double?[] expected = [.. root.GetProperty("expected_cost_to_nearest_exit_s").EnumerateArray().Select(x => x.ValueKind == JsonValueKind.Null ? (double?)null : x.GetDouble())];
        return (new TrailNetwork(root.GetProperty("nodes").GetInt32(), links, exits), expected);
    }

    private static double Along(TrailNetwork network, IReadOnlyList<int> way)
    {
        double s = 0;
        for (int i = 1; i < way.Count; i++)
        {
            s += network.Links.SelectMany(l => new[] { (l.A, l.B, T: l.AToB), (A: l.B, B: l.A, T: l.BToA) })
                .Where(l => l.A == way[i - 1] && l.B == way[i] && l.T is not null).Min(l => l.T!.Value.TotalSeconds);
        }

        return s;
    }
}
