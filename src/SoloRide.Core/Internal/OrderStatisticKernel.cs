using MathNet.Numerics.Distributions;

namespace SoloRide.Internal;

/// <summary>The slowest of several riders.</summary>
internal static class OrderStatisticKernel
{
    private const double Reach = 12;
    private const int Steps = 2400;

    /// <summary>Expected largest of n independent standard normal values: integral of z n phi(z) Phi(z)^(n-1). Trapezoid rule, which converges faster than any power on such an integrand.</summary>
    [Source("textbook-order-statistics", "expected largest value")]
    public static double ExpectedLargestNormal(int n)
    {
        if (n == 1)
        {
            return 0;
        }

        const double h = 2 * Reach / Steps;
        double sum = 0;
        for (int i = 0; i <= Steps; i++)
        {
            double z = -Reach + (i * h);
            double p = Normal.CDF(0, 1, z);
            sum += z * n * Normal.PDF(0, 1, z) * Math.Pow(p, n - 1);
        }

        return sum * h;
    }

    /// <summary>Mean time of the slowest of n riders over the time of the middle one, when their times spread by this share.</summary>
    public static double SlowestFactor(int n, double spreadFraction) => 1 + (spreadFraction * ExpectedLargestNormal(n));
}
