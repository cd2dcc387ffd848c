using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>What today's legs say about the rest of today: the factor on moving time that they share.</summary>
/// <remarks>
/// Closed form: the shared factor and those of surfaces and techniques are jointly normal on the log of time; each leg narrows them.
/// Immutable.
/// </remarks>
[Entry]
[Source("derived-normal-update", "normal prior and normal legs on log time")]
public sealed record PaceUpdate
{
    private PaceUpdate(TodayState state, double logFactor, double logSd, int legs)
    {
        State = state;
        LogFactor = logFactor;
        LogSd = logSd;
        Legs = legs;
    }

    /// <summary>Moving time over the model's on trail like that done so far, P10 to P90; above 1 is slower.</summary>
    public Estimate<Ratio> PaceFactor
        => new(Ratio.FromDecimalFractions(Math.Exp(LogFactor)), Ratio.FromDecimalFractions(Math.Exp(LogFactor - (SpreadKernel.Z90 * LogSd))), Ratio.FromDecimalFractions(Math.Exp(LogFactor + (SpreadKernel.Z90 * LogSd))));

    /// <summary>Number of legs used.</summary>
    public int Legs { get; }

    internal static PaceUpdate Restored(TodayState state, double logFactor, double logSd, int legs) => new(state, logFactor, logSd, legs);

    internal TodayState State { get; }

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

        var legs = new LegPhysics[today.Count];
        TimeSpan before = TimeSpan.Zero;
        double rideSd = 0, whole = 0;
        for (int i = 0; i < legs.Length; i++)
        {
            legs[i] = new LegPhysics(model, today[i], conditions?.Invoke(today[i]) ?? StepConditions.Default, before, techniqueIsFitted: false);
            before += today[i].Moving;
            rideSd += legs[i].Sums.RideLogSd * legs[i].Sums.TotalS;
            whole += legs[i].Sums.TotalS;
        }

        double[] groupSd = model.GroupLogSds();
        TodayState state = TodayState.Prior(rideSd / whole, groupSd);
        double[] a = new double[TodayState.Size], all = new double[TodayState.Size];
        foreach (LegPhysics leg in legs)
        {
            a[0] = 1;
            for (int g = 0; g < StepPace.SpreadGroups; g++)
            {
                a[g + 1] = leg.Sums.Share(g);
            }

            for (int i = 0; i < a.Length; i++)
            {
                all[i] += a[i] * leg.Sums.TotalS / whole;
            }

            state = state.Observe(a, leg.LogObserved - leg.LogMedian, Math.Max(leg.Sums.StepVariance, 1e-10));
        }

        (double mean, double variance) = state.Of(all);
        return new PaceUpdate(state, mean, Math.Sqrt(variance), legs.Length);
    }
}
