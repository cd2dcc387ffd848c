using BenchmarkDotNet.Attributes;
using SoloRide.Effort;
using UnitsNet;

namespace SoloRide.Benchmarks;

/// <summary>Speed from power: batch and scalar against a million sines in the same run; one operation is one solve.</summary>
[MemoryDiagnoser]
public class EffortSpeedBenchmarks
{
    public const int Count = 1 << 16;
    private readonly double[] _c = new double[Count], _v = new double[Count];
    private double _cubeRoot;

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(3);
        for (int i = 0; i < Count; i++)
        {
            _c[i] = (90 * 9.81 * ((0.24 * random.NextDouble()) - 0.10 + 0.02)) + RidePowerKernel.BearingN;
        }

        _cubeRoot = Math.Cbrt(155 / 0.3);
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Count)]
    public double Sines()
    {
        double sum = 0;
        for (int i = 0; i < Count; i++)
        {
            sum += Math.Sin(i);
        }

        return sum;
    }

    [Benchmark(OperationsPerInvoke = Count)]
    public double Batch()
    {
        RidePowerKernel.StillAirMps(0.3, RidePowerKernel.BearingNsPerM, _c, 155, _v);
        return _v[0];
    }

    [Benchmark(OperationsPerInvoke = Count)]
    public double ScalarPrecomputed()
    {
        double sum = 0;
        foreach (double c in _c)
        {
            sum += RidePowerKernel.StillAirMps(0.3, RidePowerKernel.BearingNsPerM, c, 155, _cubeRoot);
        }

        return sum;
    }

    [Benchmark(OperationsPerInvoke = Count)]
    public double Scalar()
    {
        double sum = 0;
        foreach (double c in _c)
        {
            sum += RidePowerKernel.SpeedMps(0.3, RidePowerKernel.BearingNsPerM, c, 155, 0);
        }

        return sum;
    }
}

/// <summary>10 000 samples of 2 000 steps on one core: mode choice, walking cost, energy.</summary>
[MemoryDiagnoser]
public class EffortSampleBenchmarks
{
    private readonly double[] _seconds = new double[10_000], _joules = new double[10_000];
    private PaceSampler _sampler = null!;

    [GlobalSetup]
    public void Setup()
    {
        var steps = new TrailStep[2000];
        for (int i = 0; i < steps.Length; i++)
        {
            double grade = 0.12 * Math.Sin(i / 40.0);
            steps[i] = new TrailStep(30, 30 * grade, 800, i % 360, (TrailSurface)(1 + (i / 50 % 5)), (TrailDifficulty)(i / 70 % 3));
        }

        _sampler = PaceModel.For(new Rider { Mass = Mass.FromKilograms(76), SustainedPower = Power.FromWatts(165) }).Along(steps).Sampler(1);
    }

    [Benchmark]
    public double Samples()
    {
        _sampler.Totals(0, _seconds, _joules);
        return _seconds[0];
    }
}
