using FsCheck.Xunit;
using SoloRide.Escape;
using UnitsNet;

namespace SoloRide.Tests.Escape;

/// <summary>Where a route meets itself.</summary>
public sealed class CrossingTests
{
    private const double MetresPerDegree = 111_320;

    private static readonly EscapePace Plain = EscapePace.FromFunction("plain", TravelMode.Walk, s => TimeSpan.FromSeconds(s.LengthM));

    /// <summary>East 2 km, a loop of 1 km sides, and back over the line at km 1: it crosses itself at km 1 and km 5.</summary>
    private static readonly (double EastM, double NorthM)[] Loop = [(0, 0), (2000, 0), (2000, 1000), (1000, 1000), (1000, -1000)];

    [Fact]
    public void Crossing_AtGrade_IsJoinedAndSaid()
    {
        EscapeRoute route = Route(Loop, double.NaN, ExitGraphTests.On("start", 0));
        ExitGraph graph = ExitGraph.Build(route);
        Finding f = Assert.Single(graph.Findings, x => x.Code == EscapeFindingCodes.CrossingJoined);
        Assert.Contains("km 1.00 and km 5.00", f.Message, StringComparison.Ordinal);
        Assert.Contains("5.0 m", f.Message, StringComparison.Ordinal);
        WalkOutProfile w = graph.WalkOut(Plain);

        // From km 5 over the crossing: 1 km, not 5; from the end 2 km.
        Assert.InRange(w.At(Length.FromMeters(5000)).Time!.Typical.TotalSeconds, 995, 1005);
        Assert.Equal(WayOut.OtherPass, w.At(Length.FromMeters(5000)).Way);
        Assert.InRange(w.At(w.RouteLength).Time!.Typical.TotalSeconds, 1990, 2010);

        // The worst place is half-way round the loop: 1 km and half of 4 km.
        Assert.InRange(w.Worst!.Time!.Typical.TotalSeconds, 2990, 3010);
        BailOutOption b = Assert.Single(graph.BailOuts(w.RouteLength, Plain).Options);
        Assert.InRange(b.Time.Typical.TotalSeconds, 1990, 2010);
    }

    [Fact]
    public void Crossing_ByABridge_IsNotJoined()
    {
        EscapeRoute route = Route(Loop, double.NaN, ExitGraphTests.On("start", 0));
        foreach (ExitGraphOptions options in new[]
        {
            new ExitGraphOptions { Bridges = [Length.FromMeters(5010)] },
            new ExitGraphOptions { Bridges = [Length.FromMeters(990)] },
            new ExitGraphOptions { Crossings = RouteCrossings.KeepApart },
        })
        {
            ExitGraph graph = ExitGraph.Build(route, options);
            Assert.DoesNotContain(graph.Findings, x => x.Code == EscapeFindingCodes.CrossingJoined);
            Assert.Equal(options.Crossings == RouteCrossings.JoinAtGrade, graph.Findings.Any(x => x.Code == EscapeFindingCodes.CrossingApart));
            Assert.InRange(graph.WalkOut(Plain).At(Length.FromMeters(5000)).Time!.Typical.TotalSeconds, 4990, 5010);
        }

        // The second pass 30 m higher: a bridge by its height.
        (double, double, double)[] high = [(0, 0, 0), (1000, 0, 0), (2000, 0, 0), (2000, 1000, 30), (1000, 1000, 30), (1000, 0, 30), (1000, -1000, 30)];
        ExitGraph over = ExitGraph.Build(new EscapeRoute
        {
            Steps = [new TrailStep(1000, 0), new TrailStep(1000, 0), new TrailStep(1000, 30), new TrailStep(1000, 0), new TrailStep(1000, 0), new TrailStep(1000, 0)],
            Exits = [ExitGraphTests.On("start", 0)],
            Places = [.. high.Select(p => Place(p.Item1, p.Item2, p.Item3))],
        });
        Assert.Contains(over.Findings, x => x.Code == EscapeFindingCodes.CrossingApart);
        Assert.InRange(over.WalkOut(Plain).At(Length.FromMeters(5000)).Time!.Typical.TotalSeconds, 4990, 5010);
        Assert.Throws<ArgumentException>(() => ExitGraph.Build(route, new ExitGraphOptions { Bridges = [Length.FromKilometers(99)] }));
        Assert.Throws<ArgumentOutOfRangeException>(() => new ExitGraphOptions { CrossingTolerance = Length.FromMeters(60) });
    }

    [Fact]
    public void OutAndBack_ExitOnOnePass_IsFoundFromBoth()
    {
        // 4 km out and back on the same trail; the hut is given by its place at km 3, a shelter by its distance at km 1.
        EscapeRoute route = Route([(0, 0), (1000, 0), (2000, 0), (3000, 0), (4000, 0), (3000, 1), (2000, -1), (1000, 1), (0, 0)], double.NaN,
            new ExitPoint { Name = "hut", Place = Place(3000, 20, double.NaN) }, ExitGraphTests.On("shelter", 1000));
        WalkOutProfile w = ExitGraph.Build(route).WalkOut(Plain);
        Assert.InRange(w.At(Length.FromMeters(3000)).Time!.Typical.TotalSeconds, 0, 5);
        Assert.InRange(w.At(Length.FromMeters(5000)).Time!.Typical.TotalSeconds, 0, 5);
        Assert.InRange(w.At(Length.FromMeters(7000)).Time!.Typical.TotalSeconds, 0, 5);
        Assert.InRange(w.At(w.RouteLength).Time!.Typical.TotalSeconds, 995, 1005);
    }

    [Fact]
    public void Switchbacks_AreNotCutShort()
    {
        // Legs of 200 m, 12 m apart: no crossing, whatever the direction.
        (double, double)[] legs = [.. Enumerable.Range(0, 8).SelectMany(i => i % 2 == 0 ? new[] { (0.0, i * 12.0), (200.0, i * 12.0) } : [(200.0, i * 12.0), (0.0, i * 12.0)])];
        ExitGraph graph = ExitGraph.Build(Route(legs, double.NaN, ExitGraphTests.On("start", 0)));
        Assert.DoesNotContain(graph.Findings, x => x.Code == EscapeFindingCodes.CrossingJoined);
    }

    /// <summary>Joining crossings never lengthens a way out, and every meeting found is one of a search through all pairs.</summary>
    [Property(MaxTest = 60)]
    public void Crossings_RandomLines_FoundAndNeverLonger(int seed)
    {
        var random = new Random(seed);
        int n = random.Next(3, 40);
        (double EastM, double NorthM)[] line = [.. Enumerable.Range(0, n).Select(_ => (random.NextDouble() * 1500, random.NextDouble() * 1500))];
        double[] east = [.. line.Select(p => p.EastM)], north = [.. line.Select(p => p.NorthM)], along = new double[n];
        for (int i = 1; i < n; i++)
        {
            along[i] = along[i - 1] + Math.Sqrt(Math.Pow(east[i] - east[i - 1], 2) + Math.Pow(north[i] - north[i - 1], 2));
        }

        List<CrossingKernel.Meeting> found = CrossingKernel.Find(east, north, new double[n], along, 5, 50);
        for (int i = 0; i + 1 < n; i++)
        {
            for (int j = i + 1; j + 1 < n; j++)
            {
                (double gap, double s, double t) = CrossingKernel.Nearest(east[i], north[i], east[i + 1], north[i + 1], east[j], north[j], east[j + 1], north[j + 1]);
                double a = along[i] + (s * (along[i + 1] - along[i])), b = along[j] + (t * (along[j + 1] - along[j]));
                if (gap <= 5 && b - a > 50)
                {
                    Assert.Contains(found, m => Math.Abs(m.FirstM - a) <= 20 && Math.Abs(m.SecondM - b) <= 20);
                }
            }
        }

        Assert.All(found, m => Assert.InRange(m.GapM, 0, 5));
        EscapeRoute route = Route(line, double.NaN, ExitGraphTests.On("start", 0));
        WalkOutProfile joined = ExitGraph.Build(route).WalkOut(Plain), apart = ExitGraph.Build(route, new ExitGraphOptions { Crossings = RouteCrossings.KeepApart }).WalkOut(Plain);
        for (int i = 0; i <= 20; i++)
        {
            Length at = joined.RouteLength * (i / 20.0);
            Assert.True(joined.TimeFrom(at)!.Value.TotalSeconds <= apart.TimeFrom(at)!.Value.TotalSeconds + 1e-6);
        }
    }

    private static EscapeRoute Route((double EastM, double NorthM)[] line, double heightM, params ExitPoint[] exits) => new()
    {
        Steps = [.. Enumerable.Range(1, line.Length - 1).Select(i => new TrailStep(Math.Max(0, Math.Sqrt(Math.Pow(line[i].EastM - line[i - 1].EastM, 2) + Math.Pow(line[i].NorthM - line[i - 1].NorthM, 2))), 0))],
        Exits = exits,
        Places = [.. line.Select(p => Place(p.EastM, p.NorthM, heightM))],
    };

    private static GeoPoint Place(double eastM, double northM, double heightM) => new(northM / 110_574, 10 + (eastM / MetresPerDegree), heightM);
}
