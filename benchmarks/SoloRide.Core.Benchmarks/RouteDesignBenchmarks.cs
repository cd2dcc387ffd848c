using BenchmarkDotNet.Attributes;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Benchmarks;

/// <summary>Ways and loops on a network of 100 000 trails, beside plain label setting with the framework's priority queue as baseline.</summary>
[MemoryDiagnoser]
public class RouteDesignBenchmarks
{
    private const int Side = 224;

    private RouteNetwork _network = null!;
    private RouteNetwork _costs = null!;
    private List<(int To, double M)>[] _ways = null!;
    private GeoPoint[] _corners = null!;
    private int _from;
    private int _to;
    private LoopRequest _loop = null!;

    /// <summary>A grid of about 150 m, bent at random, one trail in a hundred one-way or closed; heights of rolling hills.</summary>
    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(11);
        var place = new GeoPoint[Side * Side];
        for (int i = 0; i < place.Length; i++)
        {
            double y = i / Side, x = i % Side;
            place[i] = new GeoPoint(45 + ((y + (0.6 * random.NextDouble())) * 0.00135), 7 + ((x + (0.6 * random.NextDouble())) * 0.0019),
                900 + (150 * Math.Sin(x / 9) * Math.Cos(y / 7)) + (40 * Math.Sin((x + y) / 3)));
        }

        var lines = new List<TrailLine>();
        for (int i = 0; i < place.Length; i++)
        {
            if (i % Side < Side - 1)
            {
                Add(i, i + 1);
            }

            if (i + Side < place.Length)
            {
                Add(i, i + Side);
            }
        }

        _network = RouteNetwork.Of(lines, new RouteNetworkOptions { Crossings = CrossingRule.SharedPoints });
        _costs = _network.WithCost(p => TimeSpan.FromSeconds((p.Step.LengthM / 3) + (Math.Max(0, p.Step.RiseM) * 4)));
        _corners = [place[(20 * Side) + 20], place[(200 * Side) + 200]];
        _ways = [.. Enumerable.Range(0, _network.Junctions.Count).Select(_ => new List<(int, double)>())];
        foreach (NetworkTrail t in _network.Trails)
        {
            if (t.Closure is null && t.OneWay != OneWayRule.Backward)
            {
                _ways[t.From].Add((t.To, t.Length.Meters));
            }

            if (t.Closure is null && t.OneWay != OneWayRule.Forward)
            {
                _ways[t.To].Add((t.From, t.Length.Meters));
            }
        }

        _from = Node(_corners[0]);
        _to = Node(_corners[1]);
        _loop = new LoopRequest { Trailhead = place[(112 * Side) + 112], Shortest = Length.FromKilometers(18), Longest = Length.FromKilometers(22), MostAscent = Length.FromMeters(1200) };
        LoopChoice choice = _network.Loops(_loop);
        Console.WriteLine($"// {_network}; loops {choice.Loops.Count}, gap {choice.Gap}, exhaustive {choice.IsExhaustive}");
        if (Math.Abs(Library() - Baseline()) > 1e-3)
        {
            throw new InvalidOperationException("Library and baseline differ.");
        }

        int Node(GeoPoint p) => _network.Junctions.MinBy(j => Math.Pow(j.Place.LatDeg - p.LatDeg, 2) + Math.Pow(j.Place.LonDeg - p.LonDeg, 2))!.Index;

        void Add(int a, int b) => lines.Add(new TrailLine(RideRoute.FromPoints([place[a], place[b]], $"{a}-{b}"))
        {
            OneWay = random.Next(200) == 0 ? OneWayRule.Forward : OneWayRule.None,
            Closure = random.Next(200) == 0 ? new TrailClosure { Reason = "washout" } : null,
        });
    }

    /// <summary>Point to point by distance, with the refused better way and the route as a line.</summary>
    [Benchmark]
    public double Library() => _network.Way(_corners).Length!.Value.Meters;

    /// <summary>Point to point by a cost of the caller's.</summary>
    [Benchmark]
    public double LibraryByCost() => _costs.Way(_corners).Cost!.Value.TotalSeconds;

    /// <summary>Length alone by label setting over adjacency lists.</summary>
    [Benchmark(Baseline = true)]
    public double Baseline()
    {
        var label = new double[_ways.Length];
        Array.Fill(label, double.PositiveInfinity);
        var queue = new PriorityQueue<int, double>();
        label[_from] = 0;
        queue.Enqueue(_from, 0);
        while (queue.TryDequeue(out int node, out double at))
        {
            if (node == _to)
            {
                return at;
            }

            if (at > label[node])
            {
                continue;
            }

            foreach ((int to, double m) in _ways[node])
            {
                if (at + m < label[to])
                {
                    label[to] = at + m;
                    queue.Enqueue(to, at + m);
                }
            }
        }

        return double.NaN;
    }

    /// <summary>Three loops of about 20 km with a bound of ascent, and the whole plan of the first.</summary>
    [Benchmark]
    public RidePlan LoopsWithAPlan()
    {
        LoopChoice choice = _network.Loops(_loop);
        return RidePlanner.Plan(RideRequest.For(choice.Loops[0].Directions[0].Route, new DateTimeOffset(2027, 6, 5, 8, 0, 0, TimeSpan.FromHours(2))));
    }
}
