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
            sum += RidePowerKernel.SpeedMps(0.3, RidePowerKernel.BearingNsPerM, c, 155 + (0.01 * c), 0);
        }

        return sum;
    }
}

/// <summary>Metabolic cost on foot over spans against its scalar form in the same run; one operation is one step.</summary>
[MemoryDiagnoser]
public class EffortWalkingBenchmarks
{
    public const int Count = 1 << 14;
    private readonly double[] _v = new double[Count], _grade = new double[Count], _factor = new double[Count], _w = new double[Count];

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(5);
        for (int i = 0; i < Count; i++)
        {
            _v[i] = 0.2 + (1.7 * random.NextDouble());
            _grade[i] = -40 + (85 * random.NextDouble());
            _factor[i] = 1 + random.NextDouble();
        }
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Count)]
    public double Scalar()
    {
        for (int i = 0; i < Count; i++)
        {
            _w[i] = WalkCostKernel.OnFootWPerKg(_v[i], _grade[i], _factor[i], 1);
        }

        return _w[0];
    }

    [Benchmark(OperationsPerInvoke = Count)]
    public double Batch()
    {
        WalkCostBatchKernel.OnFootWPerKg(_v, _grade, _factor, _w);
        return _w[0];
    }
}

/// <summary>10 000 samples of 2 000 steps on one core: riding speed alone; mode choice, walking cost, energy; making the sampler.</summary>
[MemoryDiagnoser]
public class EffortSampleBenchmarks
{
    private const int Draws = 10_000;
    private readonly double[] _seconds = new double[Draws], _joules = new double[Draws], _resistance = new double[2000], _speed = new double[2000];
    private RidePace _ride = null!;
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

        _ride = PaceModel.For(new Rider { Mass = Mass.FromKilograms(76), SustainedPower = Power.FromWatts(165) }).Along(steps);
        _sampler = _ride.Sampler(1);
        for (int i = 0; i < steps.Length; i++)
        {
            _resistance[i] = _ride.Physics[i].C;
        }
    }

    /// <summary>The scalar solver over all samples and steps, for comparison.</summary>
    [Benchmark(Baseline = true)]
    public double RidingSpeedScalar()
    {
        double sum = 0;
        for (int k = 0; k < Draws; k++)
        {
            double watts = 120 + (0.008 * k), root = Math.Cbrt(watts / 0.3);
            for (int i = 0; i < _resistance.Length; i++)
            {
                sum += RidePowerKernel.StillAirMps(0.3, RidePowerKernel.BearingNsPerM, _resistance[i], watts, root);
            }
        }

        return sum;
    }

    [Benchmark]
    public double RidingSpeed()
    {
        for (int k = 0; k < Draws; k++)
        {
            RidePowerKernel.StillAirMps(0.3, RidePowerKernel.BearingNsPerM, _resistance, 120 + (0.008 * k), _speed);
        }

        return _speed[0];
    }

    [Benchmark]
    public double Samples()
    {
        _sampler.Totals(0, _seconds, _joules);
        return _seconds[0];
    }

    [Benchmark]
    public int MakeSampler() => _ride.Sampler(2).Steps;
}
