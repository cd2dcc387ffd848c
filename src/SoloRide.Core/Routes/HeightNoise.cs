using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Tells the sources of heights apart by their noise.</summary>
internal static class HeightNoise
{
    /// <summary>Median absolute second difference of heights at a lag of 10 s above which a recording is by satellite.</summary>
    [Source("routes-ascent-fit", "threshold between barometric and satellite noise")]
    private const double ThresholdM = 1.75;

    public static (HeightSource Source, bool Doubtful) Recognise(ReadOnlySpan<double> heightM, ReadOnlySpan<long> utcTicks)
    {
        double[] times = new double[heightM.Length], heights = new double[heightM.Length];
        int n = 0, first = utcTicks.IsEmpty ? -1 : utcTicks.IndexOfAnyExcept(RouteColumns.NoTime);
        for (int i = 0; i < heightM.Length && first >= 0; i++)
        {
            if (!double.IsNaN(heightM[i]) && utcTicks[i] != RouteColumns.NoTime)
            {
                times[n] = Math.Abs(utcTicks[i] - utcTicks[first]) / (double)TimeSpan.TicksPerSecond;
                heights[n++] = heightM[i];
            }
        }

        if (n < 10 || times[n - 1] - times[0] < 60)
        {
            return (HeightSource.TerrainModel, n > 0);
        }

        double step = (times[n - 1] - times[0]) / (n - 1);
        int k = Math.Max(1, (int)Math.Round(10 / step));
        if (n < (2 * k) + 2)
        {
            return (HeightSource.TerrainModel, true);
        }

        double[] d = new double[n - (2 * k)];
        for (int i = 0; i < d.Length; i++)
        {
            d[i] = Math.Abs(heights[i + (2 * k)] - (2 * heights[i + k]) + heights[i]);
        }

        double median = MathNet.Numerics.Statistics.ArrayStatistics.MedianInplace(d);
        return (median < ThresholdM ? HeightSource.Barometric : HeightSource.Satellite, median is > 1.5 and < 2.0);
    }
}
