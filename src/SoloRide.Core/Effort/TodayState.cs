using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>
/// Jointly normal log factors of one ride: the shared one, the sustained power, how height and heat bite (in standard deviations of
/// their scatter), pace on foot, then one for each spread group. Legs done narrow them in closed form.
/// </summary>
internal sealed class TodayState
{
    /// <summary>Places of the factors that are not a group's.</summary>
    public const int Ride = 0, Power = 1, Conditions = 2, Foot = 3, Groups = 4;

    public const int Size = Groups + StepPace.SpreadGroups;

    private TodayState(double[] mean, double[,] covariance)
    {
        Mean = mean;
        Covariance = covariance;
    }

    public double[] Mean { get; }

    public double[,] Covariance { get; }

    /// <summary>Independent factors.</summary>
    public static TodayState Prior(double rideLogSd, double powerLogSd, double footLogSd, ReadOnlySpan<double> groupLogSd)
    {
        double[,] c = new double[Size, Size];
        c[Ride, Ride] = rideLogSd * rideLogSd;
        c[Power, Power] = powerLogSd * powerLogSd;
        c[Conditions, Conditions] = 1;
        c[Foot, Foot] = footLogSd * footLogSd;
        for (int g = 0; g < StepPace.SpreadGroups; g++)
        {
            c[Groups + g, Groups + g] = groupLogSd[g] * groupLogSd[g];
        }

        return new TodayState(new double[Size], c);
    }

    /// <summary>From stored means and covariance.</summary>
    public static TodayState Restored(double[] mean, double[,] covariance) => new([.. mean], (double[,])covariance.Clone());

    /// <summary>The same spread about other means.</summary>
    public TodayState About(double[] mean) => new(mean, Covariance);

    public double LogSd(int factor) => Math.Sqrt(Math.Max(0, Covariance[factor, factor]));

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
            if (a[i] == 0)
            {
                continue;
            }

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
