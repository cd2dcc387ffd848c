using BenchmarkDotNet.Attributes;
using SoloRide.Contact;
using SoloRide.Internal;

namespace SoloRide.Benchmarks;

/// <summary>Grid conversions, beside a fixed loop of sines as yardstick of the machine.</summary>
[MemoryDiagnoser]
public class ContactBenchmarks
{
    private const int Count = 10_000;
    private readonly GeoPoint[] _places = new GeoPoint[Count];
    private readonly string[] _texts = new string[Count];
    private readonly char[] _buffer = new char[16];
    private CheckInSchedule _schedule = null!;

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(5);
        for (int i = 0; i < Count; i++)
        {
            _places[i] = new GeoPoint((random.NextDouble() * 160) - 78, (random.NextDouble() * 360) - 180);
            _texts[i] = GridReference.Of(_places[i], GridPrecision.OneMetre).ToString();
        }

        DateTimeOffset start = new(2027, 6, 14, 5, 20, 0, TimeSpan.FromHours(-6));
        _schedule = CheckInPlanner.Plan(new CheckInRequest
        {
            Points = [new DecisionPoint(CheckInKind.Start, "Gate", start), new DecisionPoint(CheckInKind.Finish, "Gate", start.AddHours(7))],
            LateFinish = start.AddHours(9),
            ToleratedWait = TimeSpan.FromHours(7),
            Response = TimeSpan.FromHours(3),
        });
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Count)]
    public double SinesYardstick()
    {
        double s = 0;
        for (int i = 0; i < Count; i++)
        {
            s += Math.Sin(_places[i].LonDeg);
        }

        return s;
    }

    [Benchmark(OperationsPerInvoke = Count)]
    public int GridText()
    {
        int n = 0;
        foreach (GeoPoint p in _places)
        {
            GridReference.Of(p, GridPrecision.OneMetre).TryFormat(_buffer, out int w);
            n += w;
        }

        return n;
    }

    [Benchmark(OperationsPerInvoke = Count)]
    public double UtmForward()
    {
        double s = 0;
        foreach (GeoPoint p in _places)
        {
            UtmKernel.UtmForward(p.LatDeg, p.LonDeg, UtmKernel.Zone(p.LatDeg, p.LonDeg), p.LatDeg >= 0, out double e, out _);
            s += e;
        }

        return s;
    }

    [Benchmark(OperationsPerInvoke = Count)]
    public double GridRead()
    {
        double s = 0;
        foreach (string t in _texts)
        {
            s += GridReference.Parse(t).Centre.LatDeg;
        }

        return s;
    }

    [Benchmark]
    public string Calendar() => ContactCalendar.For(_schedule, "plan", "Robin", ZoneOffsets.Fixed(-6), _schedule.First.Expected).ToText();
}
