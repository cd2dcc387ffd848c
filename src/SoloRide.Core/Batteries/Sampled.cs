using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>What the random draws gave.</summary>
internal sealed class Sampled
{
    public Sampled(int devices, int samples)
    {
        Samples = samples;
        AloneH = new double[devices][];
        WithH = new double[devices][];
        for (int d = 0; d < devices; d++)
        {
            AloneH[d] = new double[samples];
            WithH[d] = new double[samples];
        }
    }

    public int Samples { get; }

    /// <summary>[device][sample] First outage without the bank.</summary>
    public double[][] AloneH { get; }

    /// <summary>[device][sample] First outage with the bank; the array of <see cref="AloneH"/> for devices that never hang on it.</summary>
    public double[][] WithH { get; }

    public double MessageAtEnd { get; set; }

    public double MessageAfterNight { get; set; }

    public double CallAtEnd { get; set; }

    public double CallAfterNight { get; set; }

    public double AnyLampCount { get; set; }

    public double AnyLamp => AnyLampCount / Samples;

    /// <summary>Share of times at or after an instant.</summary>
    public static double Share(double[] times, double hours)
    {
        int count = 0;
        double limit = hours - 1e-9;
        foreach (double t in times)
        {
            count += t >= limit ? 1 : 0;
        }

        return (double)count / times.Length;
    }

    /// <summary>Median and range of times; null when the median is beyond the horizon. Reorders the times.</summary>
    public static Estimate<TimeSpan>? Depletion(double[] times, double level)
    {
        double low = Quantile(times, (1 - level) / 2), median = Quantile(times, 0.5), high = Quantile(times, (1 + level) / 2);
        return median >= BatteriesConstants.HorizonH ? null : Estimate.Of(Span(median), Span(low), Span(high), level);
    }

    public static TimeSpan Span(double hours)
        => TimeSpan.FromTicks((long)Math.Round(Math.Min(hours, BatteriesConstants.HorizonH) * TimeSpan.TicksPerHour));

    public void Finish(ReadOnlySpan<int> plugged)
    {
        for (int d = 0; d < AloneH.Length; d++)
        {
            if (!plugged.Contains(d))
            {
                WithH[d] = AloneH[d];
            }
        }

        MessageAtEnd /= Samples;
        MessageAfterNight /= Samples;
        CallAtEnd /= Samples;
        CallAfterNight /= Samples;
    }

    /// <summary>Linear between order statistics; infinite values stay infinite.</summary>
    [Source("hyndman-fan-1996", "definition 7")]
    private static double Quantile(double[] times, double p)
    {
        double x = p * (times.Length - 1);
        int i = (int)x;
        double low = OrderStatistic(times, i), high = low;
        if (i + 1 < times.Length)
        {
            // What lies behind the i-th is not below it: the next one is the least of them.
            high = double.PositiveInfinity;
            for (int k = i + 1; k < times.Length; k++)
            {
                high = Math.Min(high, times[k]);
            }
        }

        return double.IsInfinity(high) ? (x > i ? high : low) : low + ((x - i) * (high - low));
    }

    /// <summary>The value of a rank, by partitioning: what lies before it is not above, what lies behind it not below.</summary>
    private static double OrderStatistic(Span<double> x, int rank)
    {
        int low = 0, high = x.Length - 1;
        while (low < high)
        {
            double a = x[low], b = x[(low + high) >>> 1], c = x[high];
            double pivot = Math.Max(Math.Min(a, b), Math.Min(Math.Max(a, b), c));
            int i = low, j = high;
            while (i <= j)
            {
                while (x[i] < pivot)
                {
                    i++;
                }

                while (x[j] > pivot)
                {
                    j--;
                }

                if (i <= j)
                {
                    (x[i], x[j]) = (x[j], x[i]);
                    i++;
                    j--;
                }
            }

            if (rank <= j)
            {
                high = j;
            }
            else if (rank >= i)
            {
                low = i;
            }
            else
            {
                break;
            }
        }

        return x[rank];
    }
}
