namespace SoloRide.Effort;

/// <summary>A timed leg made ready: physics of its steps, how its sum scatters, which difficulties it holds.</summary>
internal sealed class LegPhysics
{
    private readonly StepPhysics[] _steps;

    public LegPhysics(PaceModel model, TimedLeg leg, StepConditions conditions, TimeSpan before)
        : this(model, leg, _ => conditions, before)
    {
    }

    /// <summary>With conditions of each step of the leg by its number.</summary>
    public LegPhysics(PaceModel model, TimedLeg leg, Func<int, StepConditions> conditions, TimeSpan before)
    {
        RideId = leg.RideId;
        LogObserved = Math.Log(leg.Moving.TotalSeconds);
        RidePace pace = model.Along(leg.Steps, (i, _) =>
        {
            StepConditions c = conditions(i);
            return c with { MovingBefore = c.MovingBefore + before };
        });
        _steps = pace.Physics;
        TotalS = pace.Sums.TotalS;
        StepVariance = pace.Sums.StepVariance;
        Weights = pace.Sums.Weights();
    }

    public string RideId { get; }

    public double LogObserved { get; }

    /// <summary>Typical time of the model as it stands, today's factors included.</summary>
    public double TotalS { get; }

    /// <summary>Log variance of the sum of the steps' own factors; their mean is 1.</summary>
    public double StepVariance { get; }

    /// <summary>The same, never nothing.</summary>
    public double OwnVariance => Math.Max(StepVariance, 1e-10);

    /// <summary>Log of the recorded time over the median of the model as it stands.</summary>
    public double LogExcess => LogObserved - Math.Log(TotalS) + (0.5 * StepVariance);

    /// <summary>How the log of the leg's time moves with each factor of <see cref="TodayState"/>.</summary>
    public double[] Weights { get; }

    public bool Has(TrailDifficulty difficulty) => Array.Exists(_steps, s => s.Difficulty == difficulty);

    public bool Descends => Array.Exists(_steps, s => s.DownShare > 0);

    /// <summary>Log median of the leg's time with power, technical speed and descending changed; the factors of ride and surface at 1.</summary>
    public double LogTime(double logPower, ReadOnlySpan<double> logTechnique, double logDescent)
    {
        double sum = 0, power = Math.Exp(logPower), descent = Math.Exp(logDescent);
        Span<double> factor = stackalloc double[TrailPriors.Difficulties];
        for (int d = 0; d < factor.Length; d++)
        {
            factor[d] = Math.Exp(logTechnique[d]);
        }

        for (int i = 0; i < _steps.Length; i++)
        {
            if (_steps[i].TravelM > 0)
            {
                sum += StepKernel.Choose(_steps[i], power, _steps[i].CapFactor(factor[(int)_steps[i].Difficulty + 1], descent)).TimeS;
            }
        }

        return Math.Log(sum) - (0.5 * StepVariance);
    }
}
