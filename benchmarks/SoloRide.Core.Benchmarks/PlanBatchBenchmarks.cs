using BenchmarkDotNet.Attributes;
using BenchmarkDotNet.Engines;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Benchmarks;

/// <summary>A thousand plans of 200 samples each, streamed on one thread and on two; the ratio is the figure.</summary>
/// <remarks>One batch is one operation and takes seconds, so few are run.</remarks>
[MemoryDiagnoser]
[SimpleJob(RunStrategy.Monitoring, launchCount: 1, warmupCount: 1, iterationCount: 5)]
public class PlanBatchBenchmarks
{
    private const int Plans = 1000;
    private RideRequest[] _requests = null!;

    [GlobalSetup]
    public void Setup()
    {
        var start = new DateTimeOffset(2027, 6, 14, 7, 0, 0, TimeSpan.FromHours(-6));
        RideRoute[] routes = [.. Enumerable.Range(0, 8).Select(k => RideRoute.FromPoints(
            Enumerable.Range(0, 401 + (50 * k)).Select(i => new GeoPoint(38 + (i * 25 / 111_000.0), -109, 1500 + (120 * Math.Sin((i / 40.0) + k)))), $"route {k}"))];
        _requests = [.. Enumerable.Range(0, Plans).Select(i => new RideRequest
        {
            Route = routes[i % routes.Length],
            Start = start,
            Zone = ZoneOffsets.Fixed(-6),
            Rider = new Rider { Mass = Mass.FromKilograms(55 + (i % 40)), SustainedPower = Power.FromWatts(120 + (i % 80)) },
            Options = new PlanOptions { Samples = 200 },
        })];
    }

    [Benchmark(Baseline = true)]
    public double OneThread() => Run(1);

    [Benchmark]
    public double TwoThreads() => Run(2);

    private double Run(int threads)
        => PlanBatch.Run(_requests, p => p.Moving!.Typical.TotalHours, new PlanBatchOptions { MaxParallel = threads }).Sum(x => x.Kept);
}
