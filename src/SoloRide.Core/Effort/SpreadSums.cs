using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Adds up times that share factors, for the median and spread of their sum.</summary>
internal sealed class SpreadSums
{
    private readonly double[] _time = new double[StepPace.SpreadGroups];
    private readonly double[] _stepVariance = new double[StepPace.SpreadGroups];
    private readonly double[] _groupSd = new double[StepPace.SpreadGroups];
    private double _rideSd;

    public double TotalS { get; private set; }

    public double RideLogSd => TotalS > 0 ? _rideSd / TotalS : 0;

    /// <summary>A step's own factor has mean 1, so that typical steps add up.</summary>
    public void Add(StepPace p)
    {
        double t = p.TimeS;
        TotalS += t;
        _time[p.SpreadGroup] += t;
        _stepVariance[p.SpreadGroup] += t * t * (Math.Exp(p.StepLogSd * p.StepLogSd) - 1);
        _groupSd[p.SpreadGroup] += t * p.GroupLogSd;
        _rideSd += t * p.RideLogSd;
    }

    public double Share(int group) => TotalS > 0 ? _time[group] / TotalS : 0;

    public double GroupLogSd(int group) => _time[group] > 0 ? _groupSd[group] / _time[group] : 0;

    /// <summary>Log variance of the sum from the steps alone.</summary>
    public double StepVariance => TotalS > 0 ? Math.Log(1 + (_stepVariance.Sum() / (TotalS * TotalS))) : 0;

    /// <summary>Median and log standard deviation of the sum, first two moments matched.</summary>
    /// <param name="today">Joint state of the factors; null: independent ones as the steps say.</param>
    [Source("derived-lognormal-sum", "first two moments matched, correlated groups")]
    public (double Median, double LogSd) Sum(TodayState? today)
    {
        if (!(TotalS > 0))
        {
            return (0, 0);
        }

        double ride = RideLogSd * RideLogSd, mean = 0, second = 0;
        for (int g = 0; g < _time.Length; g++)
        {
            if (_time[g] <= 0)
            {
                continue;
            }

            double vg = Covariance(g, g);
            mean += _time[g] * Math.Exp(0.5 * vg);
            second += _stepVariance[g] * Math.Exp(2 * vg);
            for (int h = 0; h < _time.Length; h++)
            {
                if (_time[h] > 0)
                {
                    second += _time[g] * _time[h] * Math.Exp((0.5 * (vg + Covariance(h, h))) + Covariance(g, h));
                }
            }
        }

        double sigma2 = Math.Max(0, Math.Log(second / (mean * mean)));
        return (mean * Math.Exp(-0.5 * sigma2), Math.Sqrt(sigma2));

        double Covariance(int g, int h)
        {
            if (today is not null)
            {
                return today.Whole(g, h);
            }

            double sd = GroupLogSd(g);
            return g == h ? ride + (sd * sd) : ride;
        }
    }
}
