using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Routes;

/// <summary>The loop search against every set of trails tried one after the other, by a second program of a few lines that shares nothing with it.</summary>
public sealed class LoopSearchTests
{
    public static TheoryData<int> Sizes => [.. Enumerable.Range(1, 20)];

    [Theory]
    [MemberData(nameof(Sizes))]
    [Checks(typeof(RouteNetwork), CheckKind.Outside)]
    public void Loops_OnSeededNetworks_AreThoseOfExhaustiveSearch(int edges)
    {
        for (int seed = 0; seed < 12; seed++)
        {
            var random = new Random((edges * 1000) + seed);
            int n = Math.Max(1, Math.Min(random.Next(3, 10), edges));
            RouteNetwork net = Network(random, n, edges);
            GeoPoint head = net.Junctions[random.Next(net.Junctions.Count)].Place;
            double all = net.Length.Meters, shortest = random.NextDouble() * all * 0.4, longest = shortest + (random.NextDouble() * all * 0.8);
            double climb = net.Trails.Sum(t => t.Ascent!.Value.Meters + t.Descent!.Value.Meters) / 2;
            var request = new LoopRequest
            {
                Trailhead = head,
                Shortest = Length.FromMeters(shortest),
                Longest = Length.FromMeters(longest),
                Wished = Length.FromMeters(shortest + (random.NextDouble() * (longest - shortest))),
                LeastAscent = seed % 3 == 0 ? Length.FromMeters(climb * 0.1) : null,
                MostAscent = seed % 3 != 1 ? Length.FromMeters(climb * 0.6) : null,
                MaxOverlapFraction = random.NextDouble(),
                MaxRepeatFraction = random.NextDouble() * 0.6,
                Count = 1 + random.Next(5),
            };
            LoopChoice found = net.Loops(request);
            (int seen, List<Loop> chosen) = Exhaustive(net, request);
            string where = $"{edges} edges, seed {seed}";
            Assert.True(found.IsExhaustive, where);
            Assert.True(found.LoopsSeen == seen, $"{where}: {found.LoopsSeen} loops against {seen}");
            Assert.True(found.Loops.Count == chosen.Count, $"{where}: {found.Loops.Count} chosen against {chosen.Count}");
            for (int i = 0; i < chosen.Count; i++)
            {
                LoopRide a = found.Loops[i];
                Loop b = chosen[i];
                Assert.True(Math.Abs(a.Length.Meters - b.LengthM) < 1e-6, $"{where}, loop {i}: {a.Length.Meters} m against {b.LengthM} m");
                Assert.Equal(b.Set, a.Directions[0].Trails.Select(t => t.Index).Distinct().Order());
                Assert.Equal((b.On ? 1 : 0) + (b.Back ? 1 : 0), a.Directions.Count);
                Assert.Equal(b.RepeatM / b.LengthM, a.RepeatedFraction, 9);
                Assert.All(a.Directions, d => Assert.Equal(a.Length.Meters, d.Route.Length.Meters, 3));
                Assert.All(a.Directions, d => Assert.True(d.Route.IsLoop));
            }

            Assert.Equal(chosen.Count == 0 ? (double?)null : 0.0, found.Gap?.Meters);
        }
    }

    [Fact]
    [Checks(typeof(RouteNetwork), CheckKind.BadInput)]
    public void Loops_ImpossibleRequest_SaysWhy()
    {
        RouteNetwork net = Network(new Random(4), 6, 12);
        LoopRequest request = new() { Trailhead = net.Junctions[0].Place, Shortest = Length.FromKilometers(2), Longest = Length.FromKilometers(1) };
        Assert.Contains("below Shortest", Assert.Throws<ArgumentException>(() => net.Loops(request)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => net.Loops(request with { Longest = Length.FromKilometers(3), Wished = Length.FromKilometers(4) }));
        Assert.Throws<ArgumentException>(() => net.Loops(request with { Longest = Length.FromKilometers(3), LeastAscent = Length.FromMeters(2), MostAscent = Length.FromMeters(1) }));
        Assert.ThrowsAny<ArgumentException>(() => request with { Longest = Length.FromMeters(double.PositiveInfinity) });
        Assert.Throws<ArgumentOutOfRangeException>(() => request with { Longest = Length.FromKilometers(1001) });
        Assert.Throws<ArgumentOutOfRangeException>(() => request with { MaxOverlapFraction = 1.1 });
        Assert.Throws<ArgumentNullException>(() => net.Loops(null!));
        LoopChoice off = net.Loops(request with { Longest = Length.FromKilometers(3), Trailhead = new GeoPoint(10, 10) });
        Assert.Empty(off.Loops);
        Assert.Contains(off.Findings, f => f.Code == "routes.off-network");
        LoopChoice none = net.Loops(request with { Shortest = Length.FromMeters(1), Longest = Length.FromMeters(2) });
        Assert.True(none.IsExhaustive);
        Assert.Contains(none.Findings, f => f.Code == "routes.no-loop" && f.Message.Contains("exists on this network", StringComparison.Ordinal));
    }

    /// <summary>Regression: on a grid too large to be searched whole the gap is stated and holds, and the same is found again.</summary>
    [Fact]
    [Checks(typeof(RouteNetwork), CheckKind.Property)]
    public void Loops_OnALargeGrid_StateTheGap()
    {
        var random = new Random(7);
        var lines = new List<TrailLine>();
        GeoPoint At(int i, int j) => new(45 + (i * 0.003) + (((i * 31) + (j * 17)) % 13 * 0.0001), 7 + (j * 0.004) + (((i * 7) + (j * 29)) % 11 * 0.0001), 600 + (((i * 53) + (j * 71)) % 120));
        for (int i = 0; i < 40; i++)
        {
            for (int j = 0; j < 40; j++)
            {
                if (i < 39 && random.Next(6) > 0)
                {
                    lines.Add(new TrailLine(RideRoute.FromPoints([At(i, j), At(i + 1, j)], $"n{i}-{j}")));
                }

                if (j < 39 && random.Next(6) > 0)
                {
                    lines.Add(new TrailLine(RideRoute.FromPoints([At(i, j), At(i, j + 1)], $"e{i}-{j}")));
                }
            }
        }

        RouteNetwork net = RouteNetwork.Of(lines);
        var request = new LoopRequest { Trailhead = At(20, 20), Shortest = Length.FromKilometers(18), Longest = Length.FromKilometers(22), MaxSteps = 400_000 };
        LoopChoice a = net.Loops(request), b = net.Loops(request);
        Assert.False(a.IsExhaustive);
        Assert.Equal(3, a.Loops.Count);
        Assert.Equal(a.Loops[0].OffWish, a.Gap);
        Assert.True(a.Gap!.Value.Meters < 100);
        Assert.Contains(a.Findings, f => f.Code == "routes.loop-search-bounded");
        Assert.Equal(a.Loops.Select(l => l.Directions[0].Route.ToGpx()), b.Loops.Select(l => l.Directions[0].Route.ToGpx()));
        Assert.All(a.Loops, l =>
        {
            Assert.InRange(l.Length.Kilometers, 18, 22);
            Assert.InRange(l.OverlapFraction, 0, 0.5);
            Assert.Equal(2, l.Directions.Count);
            Assert.NotEqual(l.Directions[0].IsClockwise, l.Directions[1].IsClockwise);
        });
    }

    /// <summary>Regression: no loop, and what would have to give is told: a closure by name with what opens it, a range by the figure needed.</summary>
    [Fact]
    public void Loops_NoneFound_TellWhatWouldHaveToGive()
    {
        GeoPoint At(double northM, double eastM, double heightM) => new(45 + (northM / 111_132), 7 + (eastM / 78_847), heightM);
        TrailLine Line(string name, params GeoPoint[] p) => new(RideRoute.FromPoints(p, name));
        TrailLine[] lines =
        [
            Line("Lane", At(0, 0, 500), At(0, 1000, 500)),
            Line("Bank", At(0, 1000, 500), At(1500, 1000, 800), At(3000, 1000, 500)),
            Line("Slide", At(3000, 1000, 500), At(3000, 4000, 500)) with { Closure = new TrailClosure { Reason = "rock fall", InformationDate = new DateOnly(2027, 5, 1), OpensOn = new DateOnly(2027, 8, 1) } },
            Line("Ford road", At(3000, 4000, 500), At(0, 4000, 500), At(0, 1000, 500)),
        ];
        RouteNetwork net = RouteNetwork.Of(lines);
        var request = new LoopRequest { Trailhead = At(0, 0, 500), Shortest = Length.FromKilometers(13), Longest = Length.FromKilometers(15), Options = new WayOptions { Day = new DateOnly(2027, 7, 1) } };

        // The ring of 12 km behind 1 km of lane, closed by one trail.
        LoopChoice closed = net.Loops(request);
        Assert.Empty(closed.Loops);
        WayRefusal no = Assert.Single(closed.Refusals);
        Assert.Equal(("Slide", TrailBars.Closed), (no.Trail, no.Bars));
        Assert.InRange(no.Length.Meters, 2990, 3010);
        Assert.Contains("2027-08-01", no.OpenedBy, StringComparison.Ordinal);
        Assert.Contains(closed.Findings, f => f.Code == "routes.barred" && f.Message.Contains("rock fall", StringComparison.Ordinal));
        Finding told = Assert.Single(closed.Findings, f => f.Code == "routes.no-loop");
        Assert.Contains("if Slide were open to it (2999 m barred)", told.Message, StringComparison.Ordinal);
        Assert.Equal("barred_m", Assert.Single(told.Values).Name);

        // Open again: found, and nothing is refused.
        LoopRequest later = request with { Options = new WayOptions { Day = new DateOnly(2027, 8, 1) } };
        LoopChoice open = net.Loops(later);
        Assert.Single(open.Loops);
        Assert.Empty(open.Refusals);
        string line = open.ToString().Split('\n')[0];
        Assert.StartsWith("14.0 km, 14 % out and back, ", line, StringComparison.Ordinal);
        Assert.EndsWith("Lane, Ford road, Slide, Bank", line, StringComparison.Ordinal);
        Assert.Contains("Every loop was looked at.", open.ToString(), StringComparison.Ordinal);
        Assert.StartsWith("No loop.", closed.ToString(), StringComparison.Ordinal);
        Assert.Contains(" m: Lane, Bank, Slide.", net.Way([At(0, 0, 500), At(3000, 1000, 500), At(3000, 4000, 500)], later.Options).ToString(), StringComparison.Ordinal);
        Assert.StartsWith("No way.", RouteNetwork.Of(lines[..2]).Way([At(0, 0, 500), At(9000, 9000, 0)]).ToString(), StringComparison.Ordinal);
        double ascent = open.Loops[0].Directions[0].Ascent!.Value.Meters;
        Assert.InRange(ascent, 200, 320);

        // Each range alone, with the figure that is needed.
        Assert.Equal(14_000, Value(later with { Longest = Length.FromKilometers(13.5) }, "length_m"), 20.0);
        Assert.Equal(14_000, Value(later with { Shortest = Length.FromKilometers(20), Longest = Length.FromKilometers(30) }, "length_m"), 20.0);
        Assert.Equal(ascent, Value(later with { MostAscent = Length.FromMeters(100) }, "ascent_m"), 1.0);
        Assert.Equal(ascent, Value(later with { LeastAscent = Length.FromMeters(1000) }, "ascent_m"), 1.0);
        Assert.Equal(2.0 / 14, Value(later with { MaxRepeatFraction = 0.1 }, "repeat_fraction"), 0.001);

        // Closed and too long: only together.
        Finding both = Assert.Single(net.Loops(request with { Longest = Length.FromKilometers(13.5) }).Findings, f => f.Code == "routes.no-loop");
        Assert.Contains("together", both.Message, StringComparison.Ordinal);
        Assert.Empty(both.Values);

        // A tree of trails has no loop, whatever gives.
        Finding never = Assert.Single(RouteNetwork.Of(lines[..2]).Loops(request).Findings, f => f.Code == "routes.no-loop");
        Assert.DoesNotContain("There would be", never.Message, StringComparison.Ordinal);

        double Value(LoopRequest r, string name)
        {
            LoopChoice none = net.Loops(r);
            Assert.Empty(none.Loops);
            Assert.Empty(none.Refusals);
            Finding f = Assert.Single(none.Findings, f => f.Code == "routes.no-loop");
            Assert.Contains("There would be one", f.Message, StringComparison.Ordinal);
            return double.Parse(Assert.Single(f.Values, v => v.Name == name).Text, System.Globalization.CultureInfo.InvariantCulture);
        }
    }

    // Nodes on a ring, straight trails between them, some twice by a bow, some from a node to itself.
    private static RouteNetwork Network(Random random, int nodes, int edges)
    {
        double[] turn = [.. Enumerable.Range(0, nodes).Select(_ => random.NextDouble())];
        GeoPoint Node(int i) => Around((i + (0.6 * turn[i])) / nodes, 0.03, 800 + (900 * turn[i]));
        var bows = new Dictionary<(int, int), int>();
        var lines = new List<TrailLine>();
        for (int e = 0; e < edges; e++)
        {
            int a = random.Next(nodes), b = nodes == 1 ? 0 : random.Next(nodes);
            int twice = bows[(Math.Min(a, b), Math.Max(a, b))] = bows.GetValueOrDefault((Math.Min(a, b), Math.Max(a, b))) + 1;
            double at = (a + (0.6 * turn[a])) / nodes, out0 = 0.034 + (0.004 * twice) + (0.0003 * e);
            GeoPoint[] points = a == b ? [Node(a), Around(at + 0.01, out0, 900), Around(at + 0.013, out0 + 0.003, 1100), Node(a)]
                : twice == 1 ? [Node(a), Node(b)] : [Node(a), Around(at + 0.002, out0, 700 + (random.NextDouble() * 800)), Node(b)];
            lines.Add(new TrailLine(RideRoute.FromPoints(points, "t" + e))
            {
                OneWay = random.Next(8) == 0 ? OneWayRule.Forward : OneWayRule.None,
                Closure = random.Next(14) == 0 ? new TrailClosure { Reason = "slide" } : null,
            });
        }

        return RouteNetwork.Of(lines, new RouteNetworkOptions { Crossings = CrossingRule.SharedPoints });

        static GeoPoint Around(double turn, double deg, double heightM) => new(45 + (deg * Math.Cos(2 * Math.PI * turn)), 7 + (1.4 * deg * Math.Sin(2 * Math.PI * turn)), heightM);
    }

    private sealed record Loop(int[] Set, double LengthM, double RepeatM, double TrailM, bool On, bool Back);

    private static (int Seen, List<Loop> Chosen) Exhaustive(RouteNetwork net, LoopRequest r)
    {
        NetworkTrail[] t = [.. net.Trails];
        int head = net.Junctions.MinBy(j => Geodesic.Between(j.Place, r.Trailhead).LengthM)!.Index;
        var loops = new List<Loop>();
        var degree = new int[net.Junctions.Count];
        var ring = new List<int>();
        Choose(0);
        double wished = r.Wished!.Value.Meters;
        var chosen = new List<Loop>();
        foreach (Loop l in loops.OrderBy(l => Math.Abs(l.LengthM - wished)))
        {
            if (chosen.Count < r.Count && chosen.All(c => l.Set.Intersect(c.Set).Sum(i => t[i].Length.Meters) / Math.Min(l.TrailM, c.TrailM) <= r.MaxOverlapFraction))
            {
                chosen.Add(l);
            }
        }

        return (loops.Count, chosen);

        // Every set of trails in which each node has two ends or none.
        void Choose(int i)
        {
            if (i == t.Length)
            {
                if (ring.Count > 0 && degree.All(d => d is 0 or 2) && Walk() is { } walk)
                {
                    Stems(walk, head, [], new bool[degree.Length]);
                }

                return;
            }

            Choose(i + 1);
            degree[t[i].From]++;
            degree[t[i].To]++;
            ring.Add(i);
            if (degree[t[i].From] <= 2 && degree[t[i].To] <= 2)
            {
                Choose(i + 1);
            }

            ring.RemoveAt(ring.Count - 1);
            degree[t[i].From]--;
            degree[t[i].To]--;
        }

        // The set in the order of one round, when it is one ring.
        List<(int Trail, bool Backward)>? Walk()
        {
            var left = new List<int>(ring);
            var walk = new List<(int, bool)>();
            int at = t[ring[0]].From, start = at;
            while (left.Count > 0)
            {
                int next = left.FindIndex(i => t[i].From == at || t[i].To == at);
                if (next < 0)
                {
                    return null;
                }

                bool backward = t[left[next]].From != at;
                walk.Add((left[next], backward));
                at = backward ? t[left[next]].From : t[left[next]].To;
                left.RemoveAt(next);
            }

            return at == start ? walk : null;
        }

        void Stems(List<(int Trail, bool Backward)> walk, int node, List<(int Trail, bool Backward)> stem, bool[] been)
        {
            if (degree[node] == 2)
            {
                Take(walk, stem);
                return;
            }

            been[node] = true;
            for (int i = 0; i < t.Length; i++)
            {
                foreach (bool backward in new[] { false, true })
                {
                    int from = backward ? t[i].To : t[i].From, to = backward ? t[i].From : t[i].To;
                    if (from == node && !been[to])
                    {
                        stem.Add((i, backward));
                        Stems(walk, to, stem, been);
                        stem.RemoveAt(stem.Count - 1);
                    }
                }
            }

            been[node] = false;
        }

        void Take(List<(int Trail, bool Backward)> walk, List<(int Trail, bool Backward)> stem)
        {
            double stemM = stem.Sum(s => t[s.Trail].Length.Meters), ringM = walk.Sum(s => t[s.Trail].Length.Meters), length = ringM + (2 * stemM);
            if (length < r.Shortest.Meters || length > r.Longest.Meters || 2 * stemM > r.MaxRepeatFraction * length || !stem.All(s => Open(s.Trail, false) && Open(s.Trail, true)))
            {
                return;
            }

            double stemUp = stem.Sum(s => Up(s.Trail, false) + Up(s.Trail, true));
            bool on = walk.All(s => Open(s.Trail, s.Backward)) && Fits(stemUp + walk.Sum(s => Up(s.Trail, s.Backward)));
            bool back = walk.All(s => Open(s.Trail, !s.Backward)) && Fits(stemUp + walk.Sum(s => Up(s.Trail, !s.Backward)));
            if (on || back)
            {
                loops.Add(new Loop([.. walk.Concat(stem).Select(s => s.Trail).Order()], length, 2 * stemM, ringM + stemM, on, back));
            }
        }

        bool Open(int i, bool backward) => t[i].Closure is null && t[i].OneWay != (backward ? OneWayRule.Forward : OneWayRule.Backward);

        double Up(int i, bool backward) => (backward ? t[i].Descent : t[i].Ascent)!.Value.Meters;

        bool Fits(double up) => !(up < (r.LeastAscent?.Meters ?? 0)) && !(up > (r.MostAscent?.Meters ?? double.PositiveInfinity));
    }
}
