namespace SoloRide.Effort;

/// <summary>A timed leg made ready: physics of its steps, how its sum scatters, which difficulties it holds.</summary>
internal sealed class LegPhysics
{
    private readonly StepPhysics[] _steps;

    public LegPhysics(PaceModel model, TimedLeg leg, StepConditions conditions, TimeSpan before)
    {
        RideId = leg.RideId;
        LogObserved = Math.Log(leg.Moving.TotalSeconds);
        RidePace pace = model.Along(leg.Steps, (_, _) => conditions with { MovingBefore = conditions.MovingBefore + before });
        _steps = pace.Physics;
        double typical = pace.Steps.Sum(s => s.TimeS);
        Span<double> mean = stackalloc double[StepPace.SpreadGroups], variance = stackalloc double[StepPace.SpreadGroups], sd = stackalloc double[StepPace.SpreadGroups];
        mean.Clear();
        variance.Clear();
        sd.Clear();
        double ride = 0;
        foreach (StepPace p in pace.Steps)
        {
            double s2 = p.StepLogSd * p.StepLogSd, m = p.TimeS * Math.Exp(0.5 * s2);
            mean[p.SpreadGroup] += m;
            variance[p.SpreadGroup] += m * m * (Math.Exp(s2) - 1);
            sd[p.SpreadGroup] = p.GroupLogSd;
            ride += p.TimeS * p.RideLogSd;
        }

        (double median, double logSd) = SpreadKernel.Sum(mean, variance, sd);
        LogMedian = Math.Log(median);
        LogMedianOverTypical = Math.Log(median / typical);
        LogSd = Math.Max(logSd, 1e-6);
        RideLogSd = ride / typical;
    }

    public string RideId { get; }

    public double LogObserved { get; }

    /// <summary>Of the model as it stands, today's factor included.</summary>
    public double LogMedian { get; }

    /// <summary>What the sum's skew adds to the sum of typical times.</summary>
    public double LogMedianOverTypical { get; }

    /// <summary>Spread that legs do not share.</summary>
    public double LogSd { get; }

    /// <summary>Spread shared by the whole ride, power included.</summary>
    public double RideLogSd { get; }

    public bool Has(TrailDifficulty difficulty) => Array.Exists(_steps, s => s.Difficulty == difficulty);

    /// <summary>Log median of the leg's time with power and technical speed changed.</summary>
    public double LogTime(double logPower, ReadOnlySpan<double> logTechnique)
    {
        double sum = 0, power = Math.Exp(logPower);
        Span<double> factor = stackalloc double[TrailPriors.Difficulties];
        for (int d = 0; d < factor.Length; d++)
        {
            factor[d] = Math.Exp(logTechnique[d]);
        }

        for (int i = 0; i < _steps.Length; i++)
        {
            if (_steps[i].TravelM > 0)
            {
                sum += StepKernel.Choose(_steps[i], power, factor[(int)_steps[i].Difficulty + 1]).TimeS;
            }
        }

        return Math.Log(sum) + LogMedianOverTypical;
    }
}
