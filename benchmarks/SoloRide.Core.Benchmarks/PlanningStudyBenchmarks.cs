using BenchmarkDotNet.Attributes;
using SoloRide.Planning;

namespace SoloRide.Benchmarks;

/// <summary>Studies of a 50 km route at 25 m steps: a sweep of 48 starts and all usual levers, at 500 samples a plan; a fixed loop of sines beside them.</summary>
[MemoryDiagnoser]
public class PlanningStudyBenchmarks
{
    private RideRequest _request = null!;

    [GlobalSetup]
    public void Setup() => _request = PlanningBenchmarks.Request(500);

    [Benchmark]
    public StartSweep Sweep48() => RidePlanner.SweepStarts(_request, _request.Start, _request.Start.AddMinutes(47 * 15), TimeSpan.FromMinutes(15));

    [Benchmark]
    public RidePlan Levers() => RidePlanner.Levers(_request);

    [Benchmark(Baseline = true)]
    public double MillionSines() => PlanningBenchmarks.Sines();
}
