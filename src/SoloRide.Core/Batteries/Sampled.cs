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

    /// <summary>[device][sample] First outage without the bank; sorted by <see cref="Finish"/>.</summary>
    public double[][] AloneH { get; }

    /// <summary>[device][sample] First outage with the bank; sorted by <see cref="Finish"/>.</summary>
    public double[][] WithH { get; }

    public double MessageAtEnd { get; set; }

    public double MessageAfterNight { get; set; }

    public double CallAtEnd { get; set; }

    public double CallAfterNight { get; set; }

    public double AnyLampCount { get; set; }

    public double AnyLamp => AnyLampCount / Samples;

    /// <summary>Share of sorted times at or after an instant.</summary>
    public static double Share(double[] sorted, double hours)
    {
        int low = 0, high = sorted.Length;
        double limit = hours - 1e-9;
        while (low < high)
        {
            int mid = (low + high) / 2;
            if (sorted[mid] < limit)
            {
                low = mid + 1;
            }
            else
            {
                high = mid;
            }
        }

        return (double)(sorted.Length - low) / sorted.Length;
    }

    /// <summary>Median and range of sorted times; null when the median is beyond the horizon.</summary>
    public static Estimate<TimeSpan>? Depletion(double[] sorted, double level)
    {
        double median = Quantile(sorted, 0.5);
        return median >= BatteriesConstants.HorizonH ? null : Estimate.Of(Span(median), Span(Quantile(sorted, (1 - level) / 2)), Span(Quantile(sorted, (1 + level) / 2)), level);
    }

    public static TimeSpan Span(double hours)
        => TimeSpan.FromTicks((long)Math.Round(Math.Min(hours, BatteriesConstants.HorizonH) * TimeSpan.TicksPerHour));

    public void Finish(bool hasTopUps)
    {
        for (int d = 0; d < AloneH.Length; d++)
        {
            Array.Sort(AloneH[d]);
            if (hasTopUps)
            {
                Array.Sort(WithH[d]);
            }
            else
            {
                AloneH[d].CopyTo(WithH[d], 0);
            }
        }

        MessageAtEnd /= Samples;
        MessageAfterNight /= Samples;
        CallAtEnd /= Samples;
        CallAfterNight /= Samples;
    }

    /// <summary>Linear between order statistics; infinite values stay infinite.</summary>
    [Source("hyndman-fan-1996", "definition 7")]
    private static double Quantile(double[] sorted, double p)
    {
        double x = p * (sorted.Length - 1);
        int i = (int)x;
        double low = sorted[i], high = sorted[Math.Min(i + 1, sorted.Length - 1)];
        return double.IsInfinity(high) ? (x > i ? high : low) : low + ((x - i) * (high - low));
    }
}
