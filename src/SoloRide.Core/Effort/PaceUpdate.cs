using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>What today's legs say about the rest of today: the factor on moving time that they share.</summary>
/// <remarks>
/// The shared factor, the sustained power, pace on foot and the factors of surfaces and techniques are jointly normal on the log of
/// time; each leg narrows them in closed form, repeated a few times about the point where the update itself arrives.
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
        => new(Ratio.FromDecimalFractions(Math.Exp(LogFactor)), Ratio.FromDecimalFractions(Math.Exp(LogFactor - (NormalKernel.Z90 * LogSd))), Ratio.FromDecimalFractions(Math.Exp(LogFactor + (NormalKernel.Z90 * LogSd))));

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
        => Of(model, today, leg =>
        {
            StepConditions same = conditions?.Invoke(leg) ?? StepConditions.Default;
            return _ => same;
        });

    /// <summary>The same with the conditions of every step, by its number in the leg.</summary>
    internal static PaceUpdate Of(PaceModel model, IReadOnlyList<TimedLeg> today, Func<TimedLeg, Func<int, StepConditions>> conditions)
    {
        Guard.NotNull(model);
        Guard.NotNull(today);
        if (today.Count == 0)
        {
            throw new ArgumentException("An update needs at least one leg done today.", nameof(today));
        }

        // The factors are jointly normal; a leg's log time is linear in them about a point that the update itself moves, so a few rounds.
        TodayState prior = model.State, state = prior;
        LegPhysics[] legs = Ready(model, today, conditions);
        double plannedS = legs.Sum(l => l.TotalS);
        double kappa = 1;
        for (int round = 0; round < Rounds; round++)
        {
            TodayState next = prior;
            foreach (LegPhysics leg in legs)
            {
                double shift = 0;
                for (int i = 0; i < TodayState.Size; i++)
                {
                    shift += leg.Weights[i] * state.Mean[i];
                }

                next = next.Observe(leg.Weights, leg.LogExcess + shift, kappa * leg.OwnVariance);
            }

            // Ever shorter moves, so that legs at the edge between two modes do not send the point to and fro.
            double share = 2.0 / (round + 2), moved = 0;
            double[] mean = new double[TodayState.Size];
            for (int i = 0; i < mean.Length; i++)
            {
                double step = share * (next.Mean[i] - state.Mean[i]);
                mean[i] = state.Mean[i] + step;
                moved = Math.Max(moved, Math.Abs(step));
            }

            state = next.About(mean);
            legs = Ready(model.With(new PaceUpdate(state, 0, 0, today.Count)), today, conditions);
            double within = 0;
            foreach (LegPhysics leg in legs)
            {
                within += ((leg.LogExcess * leg.LogExcess) + state.Of(leg.Weights).Variance) / leg.OwnVariance;
            }

            // Legs that scatter more than the trail explains count for less.
            kappa = (CalibrationFit.VariancePriorWeight + within) / (CalibrationFit.VariancePriorWeight + legs.Length);
            if (moved < Settled)
            {
                break;
            }
        }

        double nowS = legs.Sum(l => l.TotalS);
        double[] whole = new double[TodayState.Size];
        foreach (LegPhysics leg in legs)
        {
            for (int i = 0; i < whole.Length; i++)
            {
                whole[i] += leg.Weights[i] * leg.TotalS / nowS;
            }
        }

        return new PaceUpdate(state, Math.Log(nowS / plannedS), Math.Sqrt(state.Of(whole).Variance), legs.Length);
    }

    private const int Rounds = 10;

    private const double Settled = 1e-3;

    private static LegPhysics[] Ready(PaceModel model, IReadOnlyList<TimedLeg> today, Func<TimedLeg, Func<int, StepConditions>> conditions)
    {
        var legs = new LegPhysics[today.Count];
        TimeSpan before = TimeSpan.Zero;
        for (int i = 0; i < legs.Length; i++)
        {
            legs[i] = new LegPhysics(model, today[i], conditions(today[i]), before);
            before += today[i].Moving;
        }

        return legs;
    }
}
