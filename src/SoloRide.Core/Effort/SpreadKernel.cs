using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Log-normal spread: quantile factors, and sums of times that share some of their spread.</summary>
internal static class SpreadKernel
{
    /// <summary>0.9 quantile of the standard normal.</summary>
    public const double Z90 = 1.2815515655446004;

    /// <summary>
    /// Median and log standard deviation of a sum of log-normal times of which each group shares a factor (moment matching).
    /// </summary>
    /// <param name="groupMean">Mean of each group's sum without its shared factor.</param>
    /// <param name="groupVariance">Variance of that sum from independent parts.</param>
    /// <param name="groupLogSd">Log standard deviation of the group's shared factor.</param>
    [Source("derived-lognormal-sum", "first two moments matched")]
    public static (double Median, double LogSd) Sum(ReadOnlySpan<double> groupMean, ReadOnlySpan<double> groupVariance, ReadOnlySpan<double> groupLogSd)
    {
        double mean = 0, variance = 0;
        for (int g = 0; g < groupMean.Length; g++)
        {
            double s2 = groupLogSd[g] * groupLogSd[g], m = Math.Exp(0.5 * s2), second = Math.Exp(2 * s2);
            mean += groupMean[g] * m;
            variance += (second * (groupVariance[g] + (groupMean[g] * groupMean[g]))) - (groupMean[g] * groupMean[g] * m * m);
        }

        if (!(mean > 0))
        {
            return (0, 0);
        }

        double sigma2 = Math.Log(1 + (Math.Max(0, variance) / (mean * mean)));
        return (mean * Math.Exp(-0.5 * sigma2), Math.Sqrt(sigma2));
    }
}
