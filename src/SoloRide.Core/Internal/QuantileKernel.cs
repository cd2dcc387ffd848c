namespace SoloRide.Internal;

/// <summary>Quantiles of sorted samples.</summary>
internal static class QuantileKernel
{
    /// <summary>Linear between order statistics, the k-th of n standing at (k - 1/2)/n.</summary>
    [Source("hyndman-fan-1996", "definition 5")]
    public static double OfSorted(ReadOnlySpan<double> sorted, double p)
    {
        int n = sorted.Length;
        if (n == 0)
        {
            return double.NaN;
        }

        double h = (p * n) - 0.5;
        if (h <= 0)
        {
            return sorted[0];
        }

        if (h >= n - 1)
        {
            return sorted[n - 1];
        }

        int k = (int)h;
        return sorted[k] + ((sorted[k + 1] - sorted[k]) * (h - k));
    }
}
