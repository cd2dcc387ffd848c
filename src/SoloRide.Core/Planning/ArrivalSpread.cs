using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Quantiles of everything that is uncertain in one plan: from samples, or from a closed form around the middle run.</summary>
internal sealed class ArrivalSpread
{
    private static readonly (int Draw, string Name)[] Named =
    [
        (SimulationKernel.DrawShared, "rider and day"),
        (SimulationKernel.DrawClasses, "surface and technique"),
        (SimulationKernel.DrawStops, "stops"),
        (SimulationKernel.DrawLegs, "single legs"),
        (SimulationKernel.DrawIncidents, "incidents"),
        (SimulationKernel.DrawTemperature, "air temperature"),
        (SimulationKernel.DrawWind, "wind"),
        (SimulationKernel.DrawCloud, "cloud"),
        (SimulationKernel.DrawSweat, "sweat"),
        (SimulationKernel.DrawSodium, "sodium of sweat"),
        (SimulationKernel.DrawSources, "dry or wet sources"),
        (SimulationKernel.DrawCells, "capacity of cells"),
    ];

    public static string NameOf(int draw) => Named.First(n => n.Draw == draw).Name;

    private readonly SimulationInput _input;
    private readonly SimulationResult _middle;
    private readonly SimulationResult? _samples;
    private readonly double[]?[] _sorted;

    private ArrivalSpread(SimulationInput input, SimulationResult middle, SimulationResult? samples)
    {
        _input = input;
        _middle = middle;
        _samples = samples;
        _sorted = new double[]?[input.Stations];
    }

    public int Samples => _samples?.Samples ?? 0;

    public SimulationResult? Result => _samples;

    public SimulationInput Input => _input;

    /// <summary>Chance that the best single lamp ends before the dark part does.</summary>
    public double ShareUnlit() => _samples is null ? double.NaN : Share(_samples.LampLeftSec, t => t < 0);

    public static ArrivalSpread Of(SimulationInput input, SimulationResult middle, PlanOptions options, CancellationToken cancel)
        => new(input, middle, options.Samples > 0 ? SimulationKernel.Run(input, options.Samples, options.Seed, options.Threads, cancel) : null);

    /// <summary>Seconds after the start at a station, not exceeded with probability p.</summary>
    public double Quantile(int station, double p)
    {
        if (_samples is null)
        {
            return _middle.ArrivalSec[station] * Math.Exp(NormalKernel.Quantile(p) * LogSd(-1, station));
        }

        if (_sorted[station] is not { } sorted)
        {
            sorted = _samples.Arrivals(station).ToArray();
            Array.Sort(sorted);
            _sorted[station] = sorted;
        }

        return QuantileKernel.OfSorted(sorted, p);
    }

    public (double Low, double Middle, double High) Range(int station) => (Quantile(station, 0.1), Quantile(station, 0.5), Quantile(station, 0.9));

    /// <summary>Time from one station to another, not exceeded with probability p; -1 is the start.</summary>
    public double RemainingQuantile(int from, int to, double p)
    {
        if (to <= from)
        {
            return 0;
        }

        if (_samples is null)
        {
            double t = _middle.ArrivalSec[to] - (from < 0 ? 0 : _middle.ArrivalSec[from]);
            return t * Math.Exp(NormalKernel.Quantile(p) * LogSd(from, to));
        }

        double[] rest = _samples.Arrivals(to).ToArray();
        if (from >= 0)
        {
            ReadOnlySpan<double> a = _samples.Arrivals(from);
            for (int i = 0; i < rest.Length; i++)
            {
                rest[i] -= a[i];
            }
        }

        Array.Sort(rest);
        return QuantileKernel.OfSorted(rest, p);
    }

    public double ShareAfter(int station, double sec)
        => _samples is null ? double.NaN : Share(_samples.Arrivals(station), t => t > sec);

    public double ShareDark(double sec) => _samples is null ? double.NaN : Share(_samples.DarkSec, t => t > sec);

    /// <summary>Least water in hand less what was wanted and not there [L], not exceeded with probability p.</summary>
    public double WaterLeftQuantile(double p)
        => _samples is null
            ? _middle.LeastWaterL[0] - _middle.ShortWaterL[0] + (p < 0.5 ? -LegSpreadL(1 - p) : LegSpreadL(p))
            : Sorted([.. _samples.LeastWaterL.Select((w, i) => w - _samples.ShortWaterL[i])], p);

    public double ShortWaterShare() => _samples is null ? double.NaN : Share(_samples.ShortWaterL, s => s > WaterPlan.CountedToL);

    public Estimate<Volume> Water(int station)
    {
        if (_samples is null)
        {
            double w = _middle.Water(station)[0], d = LegSpreadL(0.9);
            return Estimate.Of(Volume.FromLiters(w), Volume.FromLiters(Math.Max(0, w - d)), Volume.FromLiters(w + d));
        }

        double[] sorted = _samples.Water(station).ToArray();
        Array.Sort(sorted);
        return Estimate.Of(
            Volume.FromLiters(QuantileKernel.OfSorted(sorted, 0.5)), Volume.FromLiters(QuantileKernel.OfSorted(sorted, 0.1)), Volume.FromLiters(QuantileKernel.OfSorted(sorted, 0.9)));
    }

    public double Of(SpreadOf what, double p)
    {
        if (_samples is null)
        {
            double middle = Totals(_middle, what)[0];
            if (what == SpreadOf.Dark)
            {
                double shift = Quantile(_input.Stations - 1, p) - _middle.FinishSec[0];
                return Math.Max(0, middle + (EndsInTheDark() ? shift : 0));
            }

            return middle * Math.Exp(NormalKernel.Quantile(p) * TotalLogSd(what, p));
        }

        return Sorted(Totals(_samples, what), p);
    }

    public Estimate<T> Of<T>(SpreadOf what, Func<double, T> make)
        where T : struct, IComparable<T>
        => Estimate.Of(make(Of(what, 0.5)), make(Of(what, 0.1)), make(Of(what, 0.9)));

    /// <summary>Shares of the variance of a station's time that each named draw explains alone, largest first.</summary>
    public IReadOnlyList<(string Name, double ShareFraction)> Drivers(int station) => _samples is null ? [] : DriversOf(_samples.Arrivals(station));

    public IReadOnlyList<(string Name, double ShareFraction)> Drivers(SpreadOf what) => _samples is null ? [] : DriversOf(Totals(_samples, what));

    public IReadOnlyList<(string Name, double ShareFraction)> DriversOfLeastWater() => _samples is null ? [] : DriversOf(_samples.LeastWaterL);

    public IReadOnlyList<(string Name, double ShareFraction)> DriversOfLamp() => _samples is null ? [] : DriversOf(_samples.LampLeftSec);

    /// <summary>
    /// Squared correlation with the effect of each draw (its factor, its seconds): the share of variance that it explains alone, exact where the outcome is
    /// a product or sum of effects.
    /// </summary>
    [Source("own-coupled-ride", "first-order shares of variance by squared correlation with each effect")]
    internal IReadOnlyList<(string Name, double ShareFraction)> DriversOf(ReadOnlySpan<double> values)
    {
        if (_samples is null || _samples.Samples < LeastForShares)
        {
            return [];
        }

        int n = _samples.Samples;
        double mean = 0, variance = 0;
        foreach (double a in values)
        {
            mean += a / n;
        }

        foreach (double a in values)
        {
            variance += (a - mean) * (a - mean);
        }

        var shares = new List<(string Name, double ShareFraction)>();
        foreach ((int draw, string name) in Named)
        {
            double m = 0;
            for (int i = 0; i < n; i++)
            {
                m += _samples.Draws[(i * SimulationKernel.NamedDraws) + draw];
            }

            m /= n;
            double covariance = 0, own = 0;
            for (int i = 0; i < n; i++)
            {
                double d = _samples.Draws[(i * SimulationKernel.NamedDraws) + draw] - m;
                covariance += d * (values[i] - mean);
                own += d * d;
            }

            // A draw that does not vary, but for rounding, explains nothing; nor does an outcome that does not.
            if (own > 1e-20 * n * Math.Max(1, m * m) && variance > 1e-20 * n * Math.Max(1, mean * mean))
            {
                shares.Add((name, covariance * covariance / (own * variance)));
            }
        }

        return [.. shares.OrderByDescending(s => s.ShareFraction).ThenBy(s => s.Name, StringComparer.Ordinal)];
    }

    private const int LeastForShares = 64;
    private const int Parts = 8;

    /// <summary>Standard errors from consecutive parts of the samples; null with fewer than 256.</summary>
    public SampleConvergence? Convergence()
    {
        if (_samples is null || _samples.Samples < Parts * 32)
        {
            return null;
        }

        int n = _samples.Samples / Parts;
        Span<double> middle = stackalloc double[Parts], high = stackalloc double[Parts], late = stackalloc double[Parts], dry = stackalloc double[Parts];
        for (int k = 0; k < Parts; k++)
        {
            double[] sorted = _samples.FinishSec.AsSpan(k * n, n).ToArray();
            Array.Sort(sorted);
            middle[k] = QuantileKernel.OfSorted(sorted, 0.5);
            high[k] = QuantileKernel.OfSorted(sorted, 0.9);
            late[k] = QuantileKernel.OfSorted(sorted, 0.95);
            dry[k] = Share(_samples.ShortWaterL.AsSpan(k * n, n), s => s > WaterPlan.CountedToL);
        }

        return new SampleConvergence(_samples.Samples, TimeSpan.FromSeconds(Error(middle)), TimeSpan.FromSeconds(Error(high)), TimeSpan.FromSeconds(Error(late)), Error(dry));

        static double Error(ReadOnlySpan<double> parts)
        {
            double mean = 0, square = 0;
            foreach (double x in parts)
            {
                mean += x / Parts;
            }

            foreach (double x in parts)
            {
                square += (x - mean) * (x - mean);
            }

            return Math.Sqrt(square / (Parts - 1) / Parts);
        }
    }

    private static double[] Totals(SimulationResult r, SpreadOf what) => what switch
    {
        SpreadOf.Moving => r.MovingSec,
        SpreadOf.Dark => r.DarkSec,
        SpreadOf.Sweat => r.SweatL,
        SpreadOf.Drunk => r.DrunkL,
        SpreadOf.Wanted => [.. r.DrunkL.Select((d, i) => d + r.ShortWaterL[i])],
        SpreadOf.Kcal => r.Kcal,
        _ => r.SodiumMg,
    };

    private static double Sorted(double[] values, double p)
    {
        double[] copy = (double[])values.Clone();
        Array.Sort(copy);
        return QuantileKernel.OfSorted(copy, p);
    }

    private static double Share(ReadOnlySpan<double> values, Func<double, bool> hit)
    {
        int k = 0;
        foreach (double v in values)
        {
            k += hit(v) ? 1 : 0;
        }

        return (double)k / values.Length;
    }

    private bool EndsInTheDark()
    {
        int k = 0;
        foreach (double mark in _input.DarkSec)
        {
            k += mark <= Quantile(_input.Stations - 1, 0.9) ? 1 : 0;
        }

        return (k & 1) == 1;
    }

    private double LegSpreadL(double p)
        => _middle.DrunkL[0] / (1 + _input.FillToL.Count(f => f > 0)) * (Math.Exp(Math.Abs(NormalKernel.Quantile(p)) * TotalLogSd(SpreadOf.Drunk, Math.Max(p, 1 - p))) - 1);

    private double TotalLogSd(SpreadOf what, double p)
    {
        double shared = LogSd(-1, _input.Stations - 1);
        double sweat = _input.SweatLogSd(p > 0.5 ? 1 : -1);
        double warm = _input.SweatLph.Sum() is var now && now > 0 ? Math.Log(Math.Max(1e-9, _input.SweatWarmLph.Sum()) / now) / _input.WarmerK * _input.TemperatureSigmaK : 0;
        return what switch
        {
            SpreadOf.Moving or SpreadOf.Kcal => shared,
            SpreadOf.Sodium => Math.Sqrt((shared * shared) + (sweat * sweat) + (warm * warm) + (_input.SodiumSigma * _input.SodiumSigma)),
            _ => Math.Sqrt((shared * shared) + (sweat * sweat) + (warm * warm)),
        };
    }

    /// <summary>Standard deviation of the logarithm of the time between two stations: the shared factor whole, classes and legs by their share.</summary>
    private double LogSd(int from, int to)
    {
        Span<double> byClass = stackalloc double[_input.ClassSigma.Length];
        Span<double> byLeg = stackalloc double[_input.Legs];
        byClass.Clear();
        byLeg.Clear();
        double total = 0, wind = 0;
        int at = -1;
        for (int j = 0; j < _input.Sections; j++)
        {
            if (at >= from && at < to)
            {
                byClass[_input.Class[j]] += _input.LightSec[j];
                byLeg[_input.Leg[j]] += _input.LightSec[j];
                total += _input.LightSec[j];
                wind += _input.WindMoreLog.Length > 0 ? _input.LightSec[j] * (_input.WindMoreLog[j] - _input.WindLessLog[j]) / 2 : 0;
            }

            at = _input.StationAt[j] >= 0 ? _input.StationAt[j] : at;
        }

        if (total <= 0)
        {
            return 0;
        }

        double variance = _input.SharedSigma * _input.SharedSigma;
        for (int c = 0; c < byClass.Length; c++)
        {
            double s = byClass[c] / total * _input.ClassSigma[c];
            variance += s * s;
        }

        for (int l = 0; l < byLeg.Length; l++)
        {
            double s = byLeg[l] / total * _input.LegSigma[l];
            variance += s * s;
        }

        double stop = _input.StopShare / (1 + _input.StopShare) * _input.StopSigma;
        wind /= total;
        return Math.Sqrt(variance + (stop * stop) + (wind * wind));
    }
}
