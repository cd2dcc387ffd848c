namespace SoloRide.Effort;

/// <summary>A timed leg made ready: physics of its steps, how its sum scatters, which difficulties it holds.</summary>
internal sealed class LegPhysics
{
    private readonly StepPhysics[] _steps;

    public LegPhysics(PaceModel model, TimedLeg leg, StepConditions conditions, TimeSpan before, bool techniqueIsFitted)
    {
        RideId = leg.RideId;
        LogObserved = Math.Log(leg.Moving.TotalSeconds);
        RidePace pace = model.Along(leg.Steps, (_, _) => conditions with { MovingBefore = conditions.MovingBefore + before });
        _steps = pace.Physics;
        Sums = pace.Sums;
        LogMedian = Math.Log(pace.Moving.Typical.TotalSeconds);
        LogMedianOverTypical = LogMedian - Math.Log(Sums.TotalS);
        double variance = Sums.StepVariance;
        for (int g = 0; g < (techniqueIsFitted ? TrailPriors.Surfaces : StepPace.SpreadGroups); g++)
        {
            double sd = Sums.Share(g) * Sums.GroupLogSd(g);
            variance += sd * sd;
        }

        LogSd = Math.Max(Math.Sqrt(variance), 1e-6);
    }

    public string RideId { get; }

    public double LogObserved { get; }

    /// <summary>Of the model as it stands, today's factor included.</summary>
    public double LogMedian { get; }

    /// <summary>What the sum's skew adds to the sum of typical times.</summary>
    public double LogMedianOverTypical { get; }

    /// <summary>Spread that legs do not share.</summary>
    public double LogSd { get; }

    /// <summary>Time and spread by group.</summary>
    public SpreadSums Sums { get; }

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
