namespace SoloRide.Internal;

/// <summary>Quantiles of the standard normal law, quickly enough for sampling.</summary>
internal static class NormalKernel
{
    /// <summary>The 0.9 quantile: ranges of P10 to P90 are twice this many standard deviations wide.</summary>
    [Source("normal-quantile", "0.9")]
    public const double Z90 = 1.2815515655446004;

    private static readonly double[] A = [-3.969683028665376e+01, 2.209460984245205e+02, -2.759285104469687e+02, 1.383577518672690e+02, -3.066479806614716e+01, 2.506628277459239e+00];
    private static readonly double[] B = [-5.447609879822406e+01, 1.615858368580409e+02, -1.556989798598866e+02, 6.680131188771972e+01, -1.328068155288572e+01];
    private static readonly double[] C = [-7.784894002430293e-03, -3.223964580411365e-01, -2.400758277161838e+00, -2.549732539343734e+00, 4.374664141464968e+00, 2.938163982698783e+00];
    private static readonly double[] D = [7.784695709041462e-03, 3.224671290700398e-01, 2.445134137142996e+00, 3.754408661907416e+00];

    /// <summary>The value that a standard normal variable stays below with probability <paramref name="p"/>; relative error below 1.2e-9.</summary>
    [Source("acklam-2003", "rational approximation of the inverse normal distribution")]
    public static double Quantile(double p)
    {
        const double Low = 0.02425;
        if (p < Low)
        {
            double q = Math.Sqrt(-2 * Math.Log(p));
            return (((((((((C[0] * q) + C[1]) * q) + C[2]) * q) + C[3]) * q) + C[4]) * q + C[5]) / ((((((((D[0] * q) + D[1]) * q) + D[2]) * q) + D[3]) * q) + 1);
        }

        if (p > 1 - Low)
        {
            return -Quantile(1 - p);
        }

        double r = p - 0.5, s = r * r;
        return ((((((((((A[0] * s) + A[1]) * s) + A[2]) * s) + A[3]) * s) + A[4]) * s) + A[5]) * r / ((((((((((B[0] * s) + B[1]) * s) + B[2]) * s) + B[3]) * s) + B[4]) * s) + 1);
    }
}
