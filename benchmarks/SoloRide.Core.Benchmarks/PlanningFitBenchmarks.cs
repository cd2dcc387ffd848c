using BenchmarkDotNet.Attributes;
using SoloRide.Planning;

namespace SoloRide.Benchmarks;

/// <summary>Cost over length and samples: what a sample adds must grow with the number of steps alone.</summary>
public class PlanningFitBenchmarks
{
    private RideRequest _request = null!;

    [Params(40, 80, 160)]
    public int Km { get; set; }

    [Params(2000, 10000)]
    public int Samples { get; set; }

    [GlobalSetup]
    public void Setup() => _request = PlanningBenchmarks.Request(Samples, Km);

    [Benchmark]
    public RidePlan Plan() => RidePlanner.Plan(_request);
}
