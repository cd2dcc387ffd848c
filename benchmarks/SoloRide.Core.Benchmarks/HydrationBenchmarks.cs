using BenchmarkDotNet.Attributes;
using SoloRide.Hydration;

namespace SoloRide.Benchmarks;

/// <summary>Carry plan: exact search against trying every plan, on chains like those of the check table; 40 sources at the default effort.</summary>
[MemoryDiagnoser]
public class HydrationBenchmarks
{
    private const int Cases = 50;
    private Chain[] _small = [];
    private Chain[] _eight = [];
    private Chain[] _forty = [];
    private readonly double[] _hours = new double[120];
    private readonly double[] _loss = new double[120];
    private readonly double[] _available = new double[120];
    private readonly double[] _open = new double[120];
    private readonly double[] _intake = new double[120];

    [GlobalSetup]
    public void Setup()
    {
        var random = new Random(42);
        _small = Make(random, 5);
        _eight = Make(random, 8);
        _forty = Make(random, 40);
        Array.Fill(_hours, 0.1);
        Array.Fill(_loss, 0.8);
        Array.Fill(_available, double.PositiveInfinity);
        Array.Fill(_open, double.NaN);
    }

    [Benchmark(Baseline = true, OperationsPerInvoke = Cases, Description = "5 sources, every plan tried")]
    public double EveryPlan5()
    {
        double sum = 0;
        foreach (Chain c in _small)
        {
            int m = c.Length.Length;
            int[] plan = [.. Enumerable.Range(1, m)];
            double best = double.PositiveInfinity;
            while (true)
            {
                bool fits = true;
                for (int i = 0; fits && i < m; i++)
                {
                    double d = 0;
                    for (int k = i; k < plan[i]; k++)
                    {
                        d += c.Need[k];
                    }

                    fits = d <= c.Limit[i] + 1e-9;
                }

                if (fits)
                {
                    (double cost, double fail) = WaterCarryKernel.Evaluate(c.Length, c.Need, c.Own, c.Wet, plan, []);
                    best = fail <= c.Alpha + 1e-12 && cost < best ? cost : best;
                }

                int j = m - 1;
                while (j >= 0 && plan[j] == m)
                {
                    plan[j] = j + 1;
                    j--;
                }

                if (j < 0)
                {
                    break;
                }

                plan[j]++;
            }

            sum += double.IsFinite(best) ? best : 0;
        }

        return sum;
    }

    [Benchmark(OperationsPerInvoke = Cases, Description = "5 sources, search")]
    public double Search5() => Solve(_small, 10_000_000);

    [Benchmark(OperationsPerInvoke = Cases, Description = "8 sources, search")]
    public double Search8() => Solve(_eight, 10_000_000);

    [Benchmark(OperationsPerInvoke = Cases, Description = "40 sources, search at default effort")]
    public double Search40() => Solve(_forty, WaterCarryConstants.SearchStates);

    [Benchmark(Description = "sweat band by the equations")]
    public double Band()
    {
        var x = new SweatInput(1.9, 250, 40, 30, 0.4, 2, 30, 0.4, 0.38, Known.Unknown);
        SweatBand band = x.Band();
        x.Scale(band, out _, out double typical, out _);
        return typical;
    }

    [Benchmark(Description = "sweat by heat strain, 3 h")]
    public double HeatStrain()
    {
        var x = new SweatInput(1.9, 250, 40, 30, 0.4, 2, 30, 0.4, 0.38, Known.Unknown);
        return SweatHeatStrain.Gpm2h(in x, 75, 1.8, 180);
    }

    [Benchmark(Description = "drinking ledger, 120 steps")]
    public double Ledger()
    {
        HydrationLedgerKernel.Drink(_hours, _loss, _available, _open, _open, 2.0 / 3, 1.42, 11.36, _intake);
        return _intake[^1];
    }

    private static double Solve(Chain[] chains, int states)
    {
        double sum = 0;
        Span<int> plan = stackalloc int[64];
        foreach (Chain c in chains)
        {
            WaterCarrySolution s = WaterCarryKernel.Solve(c.Length, c.Need, c.Own, c.Wet, c.Limit, c.Alpha, states, plan[..c.Length.Length]);
            sum += s.Feasible ? s.CostLKm : 0;
        }

        return sum;
    }

    private static Chain[] Make(Random random, int sources)
    {
        double[] wets = [0.3, 0.6, 0.8, 0.9, 0.95, 1];
        double[] alphas = [0, 0.01, 0.05, 0.1];
        var chains = new Chain[Cases];
        for (int n = 0; n < Cases; n++)
        {
            int m = sources + 1;
            double[] length = new double[m], need = new double[m], own = new double[m], wet = new double[m], limit = new double[m];
            double capacity = 2.5 + (4.2 * random.NextDouble());
            for (int i = 0; i < m; i++)
            {
                length[i] = Math.Round(Math.Clamp(-12 * Math.Log(1 - random.NextDouble()), 1, 50), 1);
                need[i] = Math.Round(length[i] * (0.03 + (0.06 * random.NextDouble())), 3);
                own[i] = length[i] * need[i] / 2;
                wet[i] = i == 0 ? 1 : wets[random.Next(wets.Length)];
                limit[i] = capacity;
            }

            chains[n] = new Chain(length, need, own, wet, limit, alphas[random.Next(alphas.Length)]);
        }

        return chains;
    }

    private sealed record Chain(double[] Length, double[] Need, double[] Own, double[] Wet, double[] Limit, double Alpha);
}
