using BenchmarkDotNet.Attributes;
using SoloRide.Batteries;
using UnitsNet;

namespace SoloRide.Benchmarks;

/// <summary>Exact events against steps of one minute, allocation with proof, and the whole sampled plan; a fixed loop of sines beside them.</summary>
[MemoryDiagnoser]
public class BatteriesBenchmarks
{
    private const int Count = 12;
    private readonly PowerScenario _scenario;
    private readonly double[] _hours = new double[72];
    private readonly double[] _minute = new double[1];
    private readonly double[] _air = new double[72];
    private readonly sbyte[] _mode = new sbyte[72 * Count];
    private readonly double[] _port = new double[72 * Count];
    private readonly double[] _stored = new double[Count];
    private readonly double[] _outage = new double[Count];
    private readonly double[] _delivered = new double[Count];
    private readonly double[] _taken = new double[Count];
    private readonly double[] _works = new double[Count];
    private readonly double[] _scratch = new double[5 * Count];
    private readonly double[] _a = new double[Count];
    private readonly double[] _b = new double[Count];
    private readonly double[] _w = new double[Count];
    private readonly double[] _low = new double[Count];
    private readonly double[] _high = new double[Count];
    private readonly double[] _cell = new double[Count];
    private readonly int[] _tiers = new int[Count];
    private readonly PowerRequest _request;
    private readonly PowerRequest _short;

    public BatteriesBenchmarks()
    {
        var random = new Random(1);
        Device[] devices = [.. Enumerable.Range(0, Count).Select(d => new Device(
            $"d{d:00}", (DeviceKind)(d % 5), CellPack.LithiumIon(1500 + (200 * d)),
            DeviceMode.Of("low", ModeUse.Tracking, 0.04, 0.06, 0.1), DeviceMode.Of("high", ModeUse.Navigating, 0.3, 0.5, 0.8), DeviceMode.Of("wait", ModeUse.Standby, 0.01, 0.02, 0.03))
        {
            TopUp = TopUpRule.WhileInUse,
        })];
        _scenario = PowerScenario.Of(devices);
        for (int n = 0; n < 72; n++)
        {
            _hours[n] = 1;
            _air[n] = 8 + (7 * Math.Sin(n * Math.PI / 12));
            for (int d = 0; d < Count; d++)
            {
                _mode[(n * Count) + d] = (sbyte)(n % 24 < 12 ? (d % 2) : 2);
                _port[(n * Count) + d] = n % 24 >= 14 && n % 24 < 20 && d % 4 == n % 4 ? 5 : 0;
            }
        }

        for (int i = 0; i < Count; i++)
        {
            double eta = 0.7 + (0.25 * random.NextDouble());
            _a[i] = 1 / eta;
            _b[i] = 1 / (eta * (2.5 + (10 * random.NextDouble())));
            _w[i] = 1 + random.Next(8);
            _high[i] = 2 + (10 * random.NextDouble());
        }

        _request = new PowerRequest
        {
            Devices = devices,
            Timeline = [.. Enumerable.Range(0, 10).Select(i => new PowerInterval { Duration = TimeSpan.FromHours(1), AirTemperature = Temperature.FromDegreesCelsius(10 - i), IsDark = i > 7 })],
            UnplannedNight = [.. Enumerable.Range(0, 2).Select(_ => new PowerInterval { Duration = TimeSpan.FromHours(6), AirTemperature = Temperature.FromDegreesCelsius(-3), IsDark = true })],
            Bank = new PowerBank(10_000),
            Samples = 10_000,
        };

        // The same devices less charged and a longer night: five of them hang on the bank.
        Device[] low = [.. devices.Select((d, i) => d with { StartChargeFraction = 0.2 + (0.05 * i) })];
        _short = _request with
        {
            Devices = low,
            Timeline = [.. _request.Timeline.Select((t, i) => t with { Modes = low.Where((_, d) => (d + i) % 3 == 0).ToDictionary(d => d.Name, _ => "high") })],
            UnplannedNight = [.. Enumerable.Range(0, 2).Select(_ => new PowerInterval { Duration = TimeSpan.FromHours(31), AirTemperature = Temperature.FromDegreesCelsius(3), IsDark = true })],
        };
    }

    [Benchmark]
    public double MillionSines()
    {
        double sum = 0;
        for (int i = 0; i < 1_000_000; i++)
        {
            sum += Math.Sin(i);
        }

        return sum;
    }

    /// <summary>12 devices, 72 stretches of an hour, bank shared in the evenings: exact events.</summary>
    [Benchmark]
    public double ExactEvents72h() => Run(1);

    /// <summary>The same with the kernel held to steps of one minute: the usual way, as baseline.</summary>
    [Benchmark(Baseline = true)]
    public double MinuteSteps72h() => Run(60);

    [Benchmark]
    public double AllocationWithProof12()
    {
        AllocationKernel.Solve(_a, _b, _w, _tiers, 1, _low, _high, 40, 8, _cell);
        (double bound, _, _) = AllocationKernel.Bound(_a, _b, _w, _low, _high, 40, 8);
        return bound;
    }

    [Benchmark]
    public PowerPlan Plan10000Samples12Devices() => PowerPlanner.Plan(_request);

    /// <summary>The same where five devices are topped up: every draw runs without and with the bank, and remedies are sought for the first to fail.</summary>
    [Benchmark]
    public PowerPlan Plan10000Samples12DevicesTopUps() => PowerPlanner.Plan(_short);

    private double Run(int parts)
    {
        for (int d = 0; d < Count; d++)
        {
            _stored[d] = _scenario.FullWh[d];
            _outage[d] = double.PositiveInfinity;
        }

        var state = new PowerState { BankWh = 30, StoredWh = _stored, OutageH = _outage, DeliveredWh = _delivered, TakenWh = _taken, Works = _works, Scratch = _scratch };
        if (parts == 1)
        {
            var run = new PowerRun { Hours = _hours, AirC = _air, Mode = _mode, PortW = _port, FullWh = _scenario.FullWh, LoadW = _scenario.TypicalW };
            PowerKernel.Run(_scenario, run, 0, 72, ref state);
            return state.BankWh;
        }

        double step = 1.0 / parts;
        _minute[0] = step;
        for (int n = 0; n < 72; n++)
        {
            for (int i = 0; i < parts; i++)
            {
                var run = new PowerRun
                {
                    Hours = _minute, AirC = _air.AsSpan(n, 1), Mode = _mode.AsSpan(n * Count, Count), PortW = _port.AsSpan(n * Count, Count), FullWh = _scenario.FullWh, LoadW = _scenario.TypicalW,
                };
                PowerKernel.Run(_scenario, run, 0, 1, ref state);
            }
        }

        return state.BankWh;
    }
}
