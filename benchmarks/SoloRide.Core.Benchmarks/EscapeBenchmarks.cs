using BenchmarkDotNet.Attributes;
using SoloRide.Escape;

namespace SoloRide.Benchmarks;

/// <summary>Ways out on networks of 2 500 and 100 000 nodes, beside the same search with the framework's priority queue as baseline.</summary>
[MemoryDiagnoser]
public class EscapeBenchmarks
{
    private TrailNetwork _network = null!;
    private List<(int To, double S)>[] _reversed = null!;
    private int[] _exits = null!;
    private ExitGraph _route = null!;
    private EscapeRoute _winding = null!;

    /// <summary>Nodes of the network.</summary>
    [Params(2_500, 100_000)]
    public int Nodes { get; set; }

    /// <summary>A plane grid with one way in eight left out, slopes at random, one exit in a thousand nodes (at least three).</summary>
    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(9);
        int side = (int)Math.Sqrt(Nodes);
        var links = new List<TrailLink>();
        for (int i = 0; i < Nodes; i++)
        {
            if ((i % side) + 1 < side && i + 1 < Nodes && random.Next(8) != 0)
            {
                links.Add(Link(i, i + 1));
            }

            if (i + side < Nodes && random.Next(8) != 0)
            {
                links.Add(Link(i, i + side));
            }
        }

        _exits = [.. Enumerable.Range(0, Math.Max(3, Nodes / 1000)).Select(_ => random.Next(Nodes)).Distinct()];
        _network = new TrailNetwork(Nodes, links, [.. _exits.Select(x => new NetworkExit(x, "x" + x))]);
        _reversed = [.. Enumerable.Range(0, Nodes).Select(_ => new List<(int, double)>())];
        foreach (TrailLink l in links)
        {
            _reversed[l.B].Add((l.A, l.AToB!.Value.TotalSeconds));
            _reversed[l.A].Add((l.B, l.BToA!.Value.TotalSeconds));
        }

        _route = ExitGraph.Build(new EscapeRoute
        {
            Steps = [.. Enumerable.Range(0, 2500).Select(_ => new TrailStep(20, random.Next(-3, 4)))],
            Exits = [.. Enumerable.Range(0, 6).Select(i => new ExitPoint { Name = "x" + i, AlongRoute = UnitsNet.Length.FromMeters(i * 10_000) })],
        });

        // A route that winds over itself: 2 500 steps of 20 m, turning at random.
        double north = 0, east = 0, heading = 0;
        var places = new List<GeoPoint> { new(0, 10) };
        for (int i = 0; i < 2500; i++)
        {
            heading += random.NextDouble() - 0.5;
            north += 20 * Math.Cos(heading);
            east += 20 * Math.Sin(heading);
            places.Add(new GeoPoint(north / 110_574, 10 + (east / 111_320)));
        }

        _winding = new EscapeRoute
        {
            Steps = [.. Enumerable.Range(0, 2500).Select(_ => new TrailStep(20, 0))],
            Places = places,
            Exits = [new ExitPoint { Name = "start", AlongRoute = UnitsNet.Length.Zero }],
        };

        TrailLink Link(int a, int b) => new(a, b, TimeSpan.FromSeconds(random.Next(100, 2000)), TimeSpan.FromSeconds(random.Next(100, 2000)), 300);
    }

    /// <summary>Time out from every node.</summary>
    /// <returns>Nodes reached.</returns>
    [Benchmark]
    public int WalkOutNetwork() => _network.WalkOut().NodesWithWayOut;

    /// <summary>The same with the framework's priority queue and lists of neighbours built beforehand.</summary>
    /// <returns>Nodes reached.</returns>
    [Benchmark(Baseline = true)]
    public int FrameworkQueue()
    {
        var time = new double[Nodes];
        Array.Fill(time, double.PositiveInfinity);
        var queue = new PriorityQueue<int, double>();
        foreach (int x in _exits)
        {
            time[x] = 0;
            queue.Enqueue(x, 0);
        }

        int reached = 0;
        var done = new bool[Nodes];
        while (queue.TryDequeue(out int node, out double t))
        {
            if (done[node])
            {
                continue;
            }

            done[node] = true;
            reached++;
            foreach ((int to, double s) in _reversed[node])
            {
                if (t + s < time[to])
                {
                    time[to] = t + s;
                    queue.Enqueue(to, t + s);
                }
            }
        }

        return reached;
    }

    /// <summary>A whole profile of a route of 2 500 steps, with worst place, equal-time points and zones.</summary>
    /// <returns>Equal-time points.</returns>
    [Benchmark]
    public int RouteProfile() => _route.WalkOut(EscapePace.For(TravelMode.Push)).EqualTimePoints.Count;

    /// <summary>Builds the graph of 2 500 steps with its crossings looked for and joined.</summary>
    /// <returns>Exits.</returns>
    [Benchmark]
    public int BuildWithCrossings() => ExitGraph.Build(_winding).Exits.Count;

    /// <summary>The same with all crossings kept apart.</summary>
    /// <returns>Exits.</returns>
    [Benchmark]
    public int BuildKeptApart() => ExitGraph.Build(_winding, new ExitGraphOptions { Crossings = RouteCrossings.KeepApart }).Exits.Count;

    /// <summary>A fixed loop of a million sines, to compare machines.</summary>
    /// <returns>Their sum.</returns>
    [Benchmark]
    public double MillionSines()
    {
        double sum = 0;
        for (int i = 0; i < 1_000_000; i++)
        {
            sum += Math.Sin(i);
        }

        return sum;
    }
}
