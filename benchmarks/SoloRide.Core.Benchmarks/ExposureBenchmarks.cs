using BenchmarkDotNet.Attributes;
using SoloRide.Exposure;

namespace SoloRide.Benchmarks;

/// <summary>Predicted heat strain: 8 hours, 64 cases an operation, both editions; the baseline is the printed step loops of the standard's listing.</summary>
[MemoryDiagnoser]
public class ExposureHeatStrainBenchmarks
{
    public const int Cases = 64;
    private readonly HeatStrainInput[] _inputs = new HeatStrainInput[Cases];
    private readonly HeatStrainInput[] _listing = new HeatStrainInput[Cases];

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(7);
        for (int i = 0; i < Cases; i++)
        {
            double ta = 20 + (random.NextDouble() * 25);
            _inputs[i] = HeatStrainInput.Standard with
            {
                Edition = i % 2 == 0 ? HeatStrainEdition.Iso7933Of2004 : HeatStrainEdition.Iso7933Of2023,
                AirC = ta,
                RadiantC = ta + (random.NextDouble() * 30),
                AirSpeedMps = 0.2 + (random.NextDouble() * 2.5),
                VapourKpa = HeatStrainInput.VapourFromHumidityKpa(ta, 20 + (random.NextDouble() * 60)),
                MetabolicWPerM2 = 110 + (random.NextDouble() * 200),
                Acclimatised = i % 3 == 0,
            };
            _listing[i] = _inputs[i] with { ListingLoops = true };
        }
    }

    [Benchmark(OperationsPerInvoke = Cases)]
    public double Converged() => Run(_inputs);

    [Benchmark(Baseline = true, OperationsPerInvoke = Cases)]
    public double ListingLoops() => Run(_listing);

    private static double Run(HeatStrainInput[] inputs)
    {
        double sum = 0;
        foreach (ref readonly HeatStrainInput x in inputs.AsSpan())
        {
            var setup = new HeatStrainSetup(in x);
            var body = HeatStrainStepper.Rested;
            HeatStrainKernel.Advance(ref body, in setup, 480);
            sum += body.RectalC;
        }

        return sum;
    }
}

/// <summary>WBGT with both roots to 1e-8 K or better; the baseline halves brackets to the same width.</summary>
[MemoryDiagnoser]
public class ExposureWbgtBenchmarks
{
    public const int Cases = 1000;
    private readonly double[] _x = new double[Cases * 7];

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(7);
        for (int i = 0; i < Cases; i++)
        {
            double cz = 0.05 + (random.NextDouble() * 0.94), solar = random.NextDouble() * 1000 * cz;
            (double used, double direct) = WbgtKernel.Solar(solar, cz, 1);
            double[] row = [5 + (random.NextDouble() * 40), 0.05 + (random.NextDouble() * 0.94), random.NextDouble() * 8, 650 + (random.NextDouble() * 380), used, cz, direct];
            row.CopyTo(_x, i * 7);
        }
    }

    [Benchmark(OperationsPerInvoke = Cases)]
    public double Bracketed()
    {
        double sum = 0;
        for (int i = 0; i < _x.Length; i += 7)
        {
            sum += WbgtKernel.Solve(_x[i], _x[i + 1], _x[i + 2], _x[i + 3], _x[i + 4], _x[i + 5], _x[i + 6]).WbgtC;
        }

        return sum;
    }

    [Benchmark(OperationsPerInvoke = Cases)]
    public double BracketedWithCertificate()
    {
        double sum = 0;
        for (int i = 0; i < _x.Length; i += 7)
        {
            WbgtRoots r = WbgtKernel.Solve(_x[i], _x[i + 1], _x[i + 2], _x[i + 3], _x[i + 4], _x[i + 5], _x[i + 6]);
            sum += WbgtKernel.Encloses(in r, 1e-8, _x[i], _x[i + 1], _x[i + 2], _x[i + 3], _x[i + 4], _x[i + 5], _x[i + 6]) ? r.WbgtC : double.NaN;
        }

        return sum;
    }

    /// <summary>How fast this machine is.</summary>
    [Benchmark(Baseline = true, OperationsPerInvoke = Cases)]
    public double ThousandSines()
    {
        double sum = 0;
        for (int i = 0; i < Cases; i++)
        {
            sum += Math.Sin(i * 1e-3);
        }

        return sum;
    }
}

/// <summary>Required insulation and exposure time: one operation is one level (IREQ, ICL, storage, time).</summary>
[MemoryDiagnoser]
public class ExposureInsulationBenchmarks
{
    public const int Cases = 1000;
    private readonly InsulationInput[] _inputs = new InsulationInput[Cases];

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(7);
        for (int i = 0; i < Cases; i++)
        {
            double ta = -40 + (random.NextDouble() * 48);
            _inputs[i] = new InsulationInput
            {
                AirC = ta,
                RadiantC = i % 2 == 0 ? ta : ta + (random.NextDouble() * 10) - 5,
                AirSpeedMps = 0.4 + (random.NextDouble() * 11),
                RelHumidityPct = 20 + (random.NextDouble() * 79),
                MetabolicWPerM2 = 58 + (random.NextDouble() * 240),
                WalkMps = random.NextDouble() * 1.2,
                PermeabilityLPerM2S = 1 + (random.NextDouble() * 99),
            };
        }
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Cases)]
    public double OneLevel()
    {
        double sum = 0;
        foreach (ref readonly InsulationInput x in _inputs.AsSpan())
        {
            sum += InsulationKernel.Solve(in x, neutral: false, 2).StorageWm2;
        }

        return sum;
    }

    [Benchmark(OperationsPerInvoke = Cases)]
    public double BothLevels()
    {
        double sum = 0;
        foreach (ref readonly InsulationInput x in _inputs.AsSpan())
        {
            sum += InsulationKernel.Solve(in x, neutral: false, 2).StorageWm2 + InsulationKernel.Solve(in x, neutral: true, 2).StorageWm2;
        }

        return sum;
    }
}
