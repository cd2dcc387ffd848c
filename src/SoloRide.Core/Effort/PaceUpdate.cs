using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>What today's legs say about the rest of today: the factor on moving time that they share.</summary>
/// <remarks>Closed form: the precision-weighted mean of the prior (no factor) and the legs, on log time. Immutable.</remarks>
[Entry]
[Source("derived-normal-update", "normal prior and normal legs on log time")]
public sealed record PaceUpdate
{
    private PaceUpdate(double logFactor, double logSd, int legs)
    {
        LogFactor = logFactor;
        LogSd = logSd;
        Legs = legs;
    }

    /// <summary>Moving time over the model's, P10 to P90; above 1 is slower.</summary>
    public Estimate<Ratio> PaceFactor
        => new(Ratio.FromDecimalFractions(Factor), Ratio.FromDecimalFractions(Math.Exp(LogFactor - (SpreadKernel.Z90 * LogSd))), Ratio.FromDecimalFractions(Math.Exp(LogFactor + (SpreadKernel.Z90 * LogSd))));

    /// <summary>Number of legs used.</summary>
    public int Legs { get; }

    internal double Factor => Math.Exp(LogFactor);

    internal double LogFactor { get; }

    internal double LogSd { get; }

    /// <summary>From the legs done today.</summary>
    /// <param name="model">The model of the plan, without an earlier update of today.</param>
    /// <param name="today">Legs done today, in order.</param>
    /// <param name="conditions">Conditions of a leg; null: mild still air by day, hours before counted.</param>
    /// <returns>The update, for <see cref="PaceModel.With(PaceUpdate)"/>.</returns>
    /// <exception cref="ArgumentNullException">No model or no legs.</exception>
    /// <exception cref="ArgumentException">The list of legs is empty.</exception>
    public static PaceUpdate From(PaceModel model, IReadOnlyList<TimedLeg> today, Func<TimedLeg, StepConditions>? conditions = null)
    {
        Guard.NotNull(model);
        Guard.NotNull(today);
        if (today.Count == 0)
        {
            throw new ArgumentException("An update needs at least one leg done today.", nameof(today));
        }

        double[] residual = new double[today.Count], sd = new double[today.Count];
        double rideSd = 0, weight = 0;
        TimeSpan before = TimeSpan.Zero;
        for (int i = 0; i < today.Count; i++)
        {
            var leg = new LegPhysics(model, today[i], conditions?.Invoke(today[i]) ?? StepConditions.Default, before);
            before += today[i].Moving;
            residual[i] = leg.LogObserved - leg.LogMedian;
            sd[i] = leg.LogSd;
            double seconds = today[i].Moving.TotalSeconds;
            rideSd += leg.RideLogSd * seconds;
            weight += seconds;
        }

        (double mean, double posteriorSd) = Posterior(rideSd / weight, residual, sd);
        return new PaceUpdate(mean, posteriorSd, today.Count);
    }

    /// <summary>Posterior of a normal mean with prior N(0, s²) and observations of known spread.</summary>
    internal static (double Mean, double Sd) Posterior(double priorSd, ReadOnlySpan<double> observed, ReadOnlySpan<double> sd)
    {
        double precision = 1 / (priorSd * priorSd), sum = 0;
        for (int i = 0; i < observed.Length; i++)
        {
            double w = 1 / (sd[i] * sd[i]);
            precision += w;
            sum += w * observed[i];
        }

        return (sum / precision, Math.Sqrt(1 / precision));
    }
}
