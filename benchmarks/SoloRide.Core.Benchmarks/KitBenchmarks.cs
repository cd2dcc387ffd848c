using BenchmarkDotNet.Attributes;
using SoloRide.Kit;
using UnitsNet;

namespace SoloRide.Benchmarks;

/// <summary>Choice of kit among 40 items; the exhaustive search over 12 of them is the baseline that the branch and bound is proven against.</summary>
[MemoryDiagnoser]
public class KitBenchmarks
{
    private static readonly KitFunction[] Functions = Enum.GetValues<KitFunction>();
    private KitRequest _forty = null!;
    private KitRequest _twelve = null!;

    internal static KitRequest Request(int count, int seed, double capShare)
    {
        var random = new Random(seed);
        KitItem[] items = [.. Enumerable.Range(0, count).Select(i => new KitItem(
            $"item {i}", Mass.FromGrams(10 + random.Next(300)), Volume.FromMilliliters(20 + random.Next(400)), (KitPlace)random.Next(3),
            [.. Enumerable.Range(0, 1 + random.Next(2)).Select(_ => Functions[random.Next(Functions.Length)]).Distinct()]) { Uses = 1 + random.Next(3) })];
        return new KitRequest
        {
            Items = items,
            Distance = Length.FromKilometers(50),
            Stakes = [.. RepairMatrix.Standard.Modes.Select(m => FailureStake.Everywhere(m.Kind, TimeSpan.FromMinutes(30 + random.Next(300))) with
            {
                Rate = FailureRate.FromLog(random.Next(4), Length.FromKilometers(1500)),
            })],
            Needs = KitNeed.ForWaiting(TimeSpan.FromHours(12), true),
            Caps = new KitCaps { TotalMass = Mass.FromKilograms(items.Sum(i => i.Mass.Kilograms) * capShare), PackVolume = Volume.FromLiters(1.5) },
        };
    }

    [GlobalSetup]
    public void Setup()
    {
        _forty = Request(40, 3, 0.5);
        _twelve = Request(12, 3, 0.5);
    }

    [Benchmark]
    public KitPlan FortyItems() => KitPlanner.Choose(_forty);

    [Benchmark(Baseline = true)]
    public double ExhaustiveTwelve()
    {
        double best = double.PositiveInfinity;
        for (int s = 0; s < 1 << 12; s++)
        {
            int[] set = [.. Enumerable.Range(0, 12).Where(i => (s >> i & 1) != 0)];
            if (KitPlanner.Fits(_twelve, set))
            {
                best = Math.Min(best, KitPlanner.Objective(_twelve, set));
            }
        }

        return best;
    }

    [Benchmark]
    public KitPlan TwelveItems() => KitPlanner.Choose(_twelve);
}
