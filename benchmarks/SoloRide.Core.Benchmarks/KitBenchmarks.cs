using BenchmarkDotNet.Attributes;
using SoloRide.Kit;
using UnitsNet;

namespace SoloRide.Benchmarks;

/// <summary>Choice of kit among 40 items: an ordinary request, and the hardest of 1 200 random ones (seeds of caps too tight for all needs, or two sorts of cap at once); the exhaustive search over 12 of them is the baseline that the branch and bound is proven against.</summary>
[MemoryDiagnoser]
public class KitBenchmarks
{
    private static readonly KitFunction[] Functions = Enum.GetValues<KitFunction>();
    private KitRequest _forty = null!;
    private KitRequest _twelve = null!;

    private KitRequest[] _hard = [];

    internal static KitRequest Request(int count, int seed, double capShare, bool packCap = true)
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
            Caps = new KitCaps { TotalMass = Mass.FromKilograms(items.Sum(i => i.Mass.Kilograms) * capShare), PackVolume = packCap ? Volume.FromLiters(1.5) : null },
        };
    }

    [GlobalSetup]
    public void Setup()
    {
        _forty = Request(40, 3, 0.5);
        _twelve = Request(12, 3, 0.5);
        _hard = [Request(40, 222, 0.35), Request(40, 275, 0.2, packCap: false), Request(40, 158, 0.2), Request(40, 297, 0.2, packCap: false), Request(40, 239, 0.2, packCap: false), Request(40, 5, 0.15)];
    }

    [Benchmark]
    public KitPlan FortyItems() => KitPlanner.Choose(_forty);

    [Benchmark]
    [Arguments(0)]
    [Arguments(1)]
    [Arguments(2)]
    [Arguments(3)]
    [Arguments(4)]
    [Arguments(5)]
    public KitPlan FortyItemsHard(int seed) => KitPlanner.Choose(_hard[seed]);

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
