using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Climbing (rises and falls together) of a profile at a row of scales: what the choice of smoothing is learned from.</summary>
internal static class AscentKernel
{
    /// <summary>Standard deviations of the Gaussians [m].</summary>
    public static ReadOnlySpan<double> ScalesM => [12, 18, 25, 35, 50, 70, 100, 140, 200, 280];

    public const int ScaleCount = 10;

    /// <summary>Sum of rises and falls at each scale, by Gaussians one after the other on ever coarser cells.</summary>
    public static void Climbing(ReadOnlySpan<double> cells, double stepM, Span<double> climbingM)
    {
        double[] now = cells.ToArray(), next = new double[now.Length];
        double step = stepM, sigma = 0;
        int n = now.Length;
        for (int s = 0; s < ScaleCount; s++)
        {
            double target = ScalesM[s];

            // Cells a fifth of the smoothing already done lose nothing.
            while (sigma > 10 * step && n > 8)
            {
                int half = (n + 1) / 2;
                for (int i = 0; i < half; i++)
                {
                    now[i] = (now[2 * i] + now[Math.Min((2 * i) + 1, n - 1)]) / 2;
                }

                n = half;
                step *= 2;
            }

            double add = Math.Sqrt((target * target) - (sigma * sigma));
            ProfileKernel.Gaussian(now.AsSpan(0, n), step > 0 ? add / step : 0, next.AsSpan(0, n), cutSigmas: 4);
            (now, next) = (next, now);
            sigma = target;
            (double rise, double fall) = ProfileKernel.Sums(now.AsSpan(0, n));
            climbingM[s] = rise + fall;
        }
    }

    /// <summary>The scale at which the climbing is a wanted one, between the tabled ones by logarithms; the ends hold beyond them.</summary>
    public static double ScaleForM(ReadOnlySpan<double> climbingM, double wantedM)
    {
        const double Least = 1e-6;
        double w = Math.Log(Math.Max(wantedM, Least));
        for (int s = 0; s + 1 < ScaleCount; s++)
        {
            double a = Math.Log(Math.Max(climbingM[s], Least)), b = Math.Log(Math.Max(climbingM[s + 1], Least));
            if (w > b)
            {
                double t = a > b ? Math.Clamp((a - w) / (a - b), 0, 1) : 0;
                return Math.Exp(Math.Log(ScalesM[s]) + (t * (Math.Log(ScalesM[s + 1]) - Math.Log(ScalesM[s]))));
            }
        }

        return ScalesM[^1];
    }
}
