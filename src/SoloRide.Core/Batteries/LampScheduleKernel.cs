using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>
/// One mode for each section: the most weighted log-light that the energy allows, no section below its least light. A multiple-choice knapsack,
/// solved by branch and bound with a price on energy; the bound of what was cut off is the proof.
/// </summary>
internal static class LampScheduleKernel
{
    /// <summary>Slack of the energy limit [Wh].</summary>
    public const double ToleranceWh = 1e-9;
    private const long MostNodes = 4_000_000;

    /// <summary>Outcome of <see cref="Solve"/>.</summary>
    /// <param name="Feasible">Whether any schedule keeps light and energy.</param>
    /// <param name="Worth">Sum of hours × weight × ln(lumens).</param>
    /// <param name="Bound">No schedule can exceed it.</param>
    /// <param name="EnergyWh">Energy of the schedule.</param>
    public readonly record struct Outcome(bool Feasible, double Worth, double Bound, double EnergyWh);

    /// <summary>Solves exactly; <paramref name="modes"/> receives the mode of each section.</summary>
    [Source("multiple-choice-knapsack", "branch and bound over a Lagrangian bound")]
    public static Outcome Solve(
        ReadOnlySpan<double> lumens, ReadOnlySpan<double> watts, ReadOnlySpan<double> hours, ReadOnlySpan<bool> allowed, ReadOnlySpan<double> weights,
        double energyWh, Span<int> modes)
    {
        int sections = hours.Length, count = lumens.Length;
        double limit = energyWh + ToleranceWh;
        double[] suffixLeast = new double[sections + 1];
        for (int j = sections - 1; j >= 0; j--)
        {
            double least = double.PositiveInfinity;
            for (int m = 0; m < count; m++)
            {
                if (allowed[(j * count) + m])
                {
                    least = Math.Min(least, watts[m] * hours[j]);
                }
            }

            suffixLeast[j] = suffixLeast[j + 1] + least;
        }

        if (!(suffixLeast[0] <= limit))
        {
            return new Outcome(false, double.NaN, double.NaN, double.NaN);
        }

        double price = Price(lumens, watts, hours, allowed, weights, energyWh);
        double[] suffixBest = new double[sections + 1];
        int[] turn = new int[sections * count];
        int[] turns = new int[sections];
        double[] key = new double[count];
        for (int j = sections - 1; j >= 0; j--)
        {
            double best = double.NegativeInfinity;
            for (int m = 0; m < count; m++)
            {
                if (allowed[(j * count) + m])
                {
                    key[m] = Value(lumens[m], hours[j], weights[j]) - (price * watts[m] * hours[j]);
                    best = Math.Max(best, key[m]);
                    turn[(j * count) + turns[j]++] = m;
                }
            }

            Span<int> row = turn.AsSpan(j * count, turns[j]);
            for (int a = 1; a < row.Length; a++)
            {
                for (int b = a; b > 0 && key[row[b]] > key[row[b - 1]]; b--)
                {
                    (row[b], row[b - 1]) = (row[b - 1], row[b]);
                }
            }

            suffixBest[j] = suffixBest[j + 1] + best;
        }

        // Depth first without recursion: at[j] is the place in the turn of section j.
        int[] at = new int[sections];
        double[] score = new double[sections + 1], energy = new double[sections + 1];
        double found = double.NegativeInfinity, foundWh = double.NaN, cut = double.NegativeInfinity;
        long nodes = 0;
        int depth = 0;
        at[0] = -1;
        while (depth >= 0)
        {
            at[depth]++;
            if (at[depth] >= turns[depth] || nodes > MostNodes)
            {
                if (nodes > MostNodes)
                {
                    cut = Math.Max(cut, score[depth] + (price * (energyWh - energy[depth])) + suffixBest[depth]);
                }

                depth--;
                continue;
            }

            nodes++;
            int m = turn[(depth * count) + at[depth]];
            double used = energy[depth] + (watts[m] * hours[depth]);
            if (used + suffixLeast[depth + 1] > limit)
            {
                continue;
            }

            double value = score[depth] + Value(lumens[m], hours[depth], weights[depth]);
            double bound = value + (price * (energyWh - used)) + suffixBest[depth + 1];
            if (bound <= found)
            {
                cut = Math.Max(cut, bound);
                continue;
            }

            score[depth + 1] = value;
            energy[depth + 1] = used;
            if (depth == sections - 1)
            {
                if (value > found)
                {
                    found = value;
                    foundWh = used;
                    for (int j = 0; j < sections; j++)
                    {
                        modes[j] = turn[(j * count) + at[j]];
                    }
                }

                continue;
            }

            depth++;
            at[depth] = -1;
        }

        return new Outcome(true, found, Math.Max(found, cut), foundWh);
    }

    /// <summary>The price of energy at which the relaxed sections just use it up: where the convex dual is least.</summary>
    private static double Price(
        ReadOnlySpan<double> lumens, ReadOnlySpan<double> watts, ReadOnlySpan<double> hours, ReadOnlySpan<bool> allowed, ReadOnlySpan<double> weights, double energyWh)
    {
        double low = 0, high = 1;
        while (Used(high, lumens, watts, hours, allowed, weights) > energyWh && high < 1e9)
        {
            high *= 4;
        }

        if (Used(0, lumens, watts, hours, allowed, weights) <= energyWh)
        {
            return 0;
        }

        for (int i = 0; i < 60; i++)
        {
            double mid = (low + high) / 2;
            if (Used(mid, lumens, watts, hours, allowed, weights) > energyWh)
            {
                low = mid;
            }
            else
            {
                high = mid;
            }
        }

        return high;
    }

    private static double Used(
        double price, ReadOnlySpan<double> lumens, ReadOnlySpan<double> watts, ReadOnlySpan<double> hours, ReadOnlySpan<bool> allowed, ReadOnlySpan<double> weights)
    {
        double used = 0;
        int count = lumens.Length;
        for (int j = 0; j < hours.Length; j++)
        {
            double best = double.NegativeInfinity, w = 0;
            for (int m = 0; m < count; m++)
            {
                double v = Value(lumens[m], hours[j], weights[j]) - (price * watts[m] * hours[j]);
                if (allowed[(j * count) + m] && (v > best || (v >= best && watts[m] < w)))
                {
                    best = v;
                    w = watts[m];
                }
            }

            used += w * hours[j];
        }

        return used;
    }

    [Source("assumption-log-light", "brightness as the logarithm of light")]
    private static double Value(double lumens, double hours, double weight) => hours * weight * Math.Log(lumens);
}
