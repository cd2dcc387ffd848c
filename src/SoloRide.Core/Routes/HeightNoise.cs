using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Figures of the noise in a recording's heights, by second differences over time.</summary>
internal sealed class HeightNoise
{
    public const int LagCount = 5;
    private const int MostSamples = 20_000;
    private const double LeastM = 0.02;

    private HeightNoise(double speedMps, double[] medianM, double[] rmsM) => (SpeedMps, MedianM, RmsM) = (speedMps, medianM, rmsM);

    public static ReadOnlySpan<double> LagsS => [5, 10, 20, 40, 80];

    public double SpeedMps { get; }

    /// <summary>Median absolute second difference at each lag.</summary>
    public double[] MedianM { get; }

    /// <summary>Root mean square second difference at each lag.</summary>
    public double[] RmsM { get; }

    /// <summary>Null when there are too few heights with times to judge by.</summary>
    public static HeightNoise? Of(ReadOnlySpan<double> distanceM, ReadOnlySpan<double> heightM, ReadOnlySpan<long> ticks)
    {
        if (ticks.IsEmpty)
        {
            return null;
        }

        int n = 0, first = -1, last = -1;
        double[] h = new double[heightM.Length];
        for (int i = 0; i < heightM.Length; i++)
        {
            if (!double.IsNaN(heightM[i]) && ticks[i] != RouteColumns.NoTime)
            {
                first = first < 0 ? i : first;
                last = i;
                h[n++] = heightM[i];
            }
        }

        double seconds = n < 2 ? 0 : Math.Abs(ticks[last] - ticks[first]) / (double)TimeSpan.TicksPerSecond;
        if (n < 20 || !(seconds >= 60))
        {
            return null;
        }

        double step = seconds / (n - 1), length = distanceM[^1];
        double[] median = new double[LagCount], rms = new double[LagCount];
        double[] d = new double[Math.Min(n, MostSamples)];
        for (int l = 0; l < LagCount; l++)
        {
            int k = Math.Clamp((int)Math.Round(LagsS[l] / step), 1, (n - 1) / 2);
            int available = n - (2 * k), stride = (available + MostSamples - 1) / MostSamples, used = (available - 1) / stride + 1;
            double sum = 0;

            // Taken from the middle outward in even steps, so that the reversed row gives the same ones.
            int offset = (available - 1 - ((used - 1) * stride)) / 2;
            for (int j = 0; j < used; j++)
            {
                int i = offset + (j * stride);
                double v = h[i + (2 * k)] - (2 * h[i + k]) + h[i];
                sum += v * v;
                d[j] = Math.Abs(v);
            }

            rms[l] = Math.Max(LeastM, Math.Sqrt(sum / used));
            median[l] = Math.Max(LeastM, MathNet.Numerics.Statistics.ArrayStatistics.MedianInplace(used == d.Length ? d : d[..used]));
        }

        return new HeightNoise(length / seconds, median, rms);
    }
}
