using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>
/// Jointly normal log factors of one ride: the shared one first, then one for each spread group. Legs done narrow them in closed form.
/// </summary>
internal sealed class TodayState
{
    public const int Size = 1 + StepPace.SpreadGroups;

    private TodayState(double[] mean, double[,] covariance)
    {
        Mean = mean;
        Covariance = covariance;
    }

    public double[] Mean { get; }

    public double[,] Covariance { get; }

    /// <summary>Independent factors.</summary>
    public static TodayState Prior(double rideLogSd, ReadOnlySpan<double> groupLogSd)
    {
        double[,] c = new double[Size, Size];
        c[0, 0] = rideLogSd * rideLogSd;
        for (int g = 0; g < StepPace.SpreadGroups; g++)
        {
            c[g + 1, g + 1] = groupLogSd[g] * groupLogSd[g];
        }

        return new TodayState(new double[Size], c);
    }

    /// <summary>The shared factor and a group's, together.</summary>
    public static TodayState Restored(double[] mean, double[,] covariance) => new([.. mean], (double[,])covariance.Clone());

    public double LogFactor(int group) => Mean[0] + Mean[group + 1];

    /// <summary>Covariance of the whole factors of two groups.</summary>
    public double Whole(int g, int h) => Covariance[0, 0] + Covariance[0, g + 1] + Covariance[0, h + 1] + Covariance[g + 1, h + 1];

    /// <summary>One observation y = a·x + noise, x being the factors.</summary>
    [Source("derived-normal-update", "one scalar observation of a jointly normal state")]
    public TodayState Observe(ReadOnlySpan<double> a, double observed, double variance)
    {
        double[] gain = new double[Size], mean = [.. Mean];
        double[,] covariance = (double[,])Covariance.Clone();
        double expected = 0, total = variance;
        for (int i = 0; i < Size; i++)
        {
            expected += a[i] * mean[i];
            for (int j = 0; j < Size; j++)
            {
                gain[i] += covariance[i, j] * a[j];
            }
        }

        for (int i = 0; i < Size; i++)
        {
            total += a[i] * gain[i];
        }

        for (int i = 0; i < Size; i++)
        {
            mean[i] += gain[i] * (observed - expected) / total;
            for (int j = 0; j < Size; j++)
            {
                covariance[i, j] -= gain[i] * gain[j] / total;
            }
        }

        return new TodayState(mean, covariance);
    }

    /// <summary>Mean and variance of a·x.</summary>
    public (double Mean, double Variance) Of(ReadOnlySpan<double> a)
    {
        double mean = 0, variance = 0;
        for (int i = 0; i < Size; i++)
        {
            mean += a[i] * Mean[i];
            for (int j = 0; j < Size; j++)
            {
                variance += a[i] * a[j] * Covariance[i, j];
            }
        }

        return (mean, Math.Max(0, variance));
    }

    /// <summary>Lower root of the covariance, row by row; a factor without spread gives a row of zeros.</summary>
    public double[] Root()
    {
        double[] l = new double[Size * Size];
        for (int i = 0; i < Size; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = Covariance[i, j];
                for (int k = 0; k < j; k++)
                {
                    sum -= l[(i * Size) + k] * l[(j * Size) + k];
                }

                double pivot = l[(j * Size) + j];
                l[(i * Size) + j] = i == j ? Math.Sqrt(Math.Max(0, sum)) : pivot > 1e-12 ? sum / pivot : 0;
            }
        }

        return l;
    }
}
