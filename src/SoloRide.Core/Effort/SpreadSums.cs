using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Adds up times that share factors, for the median and spread of their sum.</summary>
internal sealed class SpreadSums
{
    private readonly double[] _time = new double[StepPace.SpreadGroups];
    private readonly double[] _stepVariance = new double[StepPace.SpreadGroups];
    private readonly double[]?[] _weights = new double[]?[StepPace.SpreadGroups];

    public double TotalS { get; private set; }

    /// <summary>A step's own factor has mean 1, so that typical steps add up.</summary>
    public void Add(StepPace p)
    {
        double t = p.TimeS;
        TotalS += t;
        _time[p.SpreadGroup] += t;
        _stepVariance[p.SpreadGroup] += t * t * (Math.Exp(p.StepLogSd * p.StepLogSd) - 1);
        double[] sum = _weights[p.SpreadGroup] ??= new double[TodayState.Size];
        Span<int> factor = stackalloc int[StepSpread.Factors];
        Span<double> weight = stackalloc double[StepSpread.Factors];
        p.Spread.Fill(factor, weight);
        for (int i = 0; i < factor.Length; i++)
        {
            sum[factor[i]] += t * weight[i];
        }
    }

    /// <summary>How the log of the whole time moves with each factor.</summary>
    public double[] Weights()
    {
        double[] all = new double[TodayState.Size];
        if (TotalS > 0)
        {
            foreach (double[]? w in _weights)
            {
                for (int i = 0; w is not null && i < all.Length; i++)
                {
                    all[i] += w[i] / TotalS;
                }
            }
        }

        return all;
    }

    /// <summary>Log variance of the sum from the steps alone.</summary>
    public double StepVariance => TotalS > 0 ? Math.Log(1 + (_stepVariance.Sum() / (TotalS * TotalS))) : 0;

    /// <summary>Median and log standard deviation of the sum, first two moments matched; the parts of a group move together.</summary>
    /// <param name="state">Joint state of the factors.</param>
    [Source("derived-lognormal-sum", "first two moments matched, correlated groups")]
    public (double Median, double LogSd) Sum(TodayState state)
    {
        if (!(TotalS > 0))
        {
            return (0, 0);
        }

        int[] groups = [.. Enumerable.Range(0, _time.Length).Where(g => _time[g] > 0)];
        double[][] a = [.. groups.Select(g => _weights[g]!.Select(w => w / _time[g]).ToArray())];
        double mean = 0, second = 0;
        double[,] c = new double[groups.Length, groups.Length];
        double[] ca = new double[TodayState.Size];
        for (int g = 0; g < groups.Length; g++)
        {
            for (int i = 0; i < ca.Length; i++)
            {
                ca[i] = 0;
                for (int j = 0; j < ca.Length; j++)
                {
                    ca[i] += state.Covariance[i, j] * a[g][j];
                }
            }

            for (int h = 0; h < groups.Length; h++)
            {
                for (int i = 0; i < ca.Length; i++)
                {
                    c[g, h] += a[h][i] * ca[i];
                }
            }
        }

        for (int g = 0; g < groups.Length; g++)
        {
            double t = _time[groups[g]];
            mean += t * Math.Exp(0.5 * c[g, g]);
            second += _stepVariance[groups[g]] * Math.Exp(2 * c[g, g]);
            for (int h = 0; h < groups.Length; h++)
            {
                second += t * _time[groups[h]] * Math.Exp((0.5 * (c[g, g] + c[h, h])) + c[g, h]);
            }
        }

        double sigma2 = Math.Max(0, Math.Log(second / (mean * mean)));
        return (mean * Math.Exp(-0.5 * sigma2), Math.Sqrt(sigma2));
    }
}
