using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>What a <see cref="PaceReserve"/> costs and gains on a chain of steps. No claim about injuries or breakage.</summary>
/// <remarks>Immutable.</remarks>
public sealed record ReserveCost
{
    [Source("assumption-braking", "deceleration of a careful stop on a loose trail [m/s2]")]
    private const double DecelerationMps2 = 3;

    [Source("assumption-braking", "time until the brakes bite [s]")]
    private const double ReactionS = 1;

    internal ReserveCost(PaceReserve reserve, RidePace without, RidePace with)
    {
        Reserve = reserve;
        MovingWithout = without.Moving;
        MovingWith = with.Moving;
        EnergyWithout = without.MetabolicEnergy;
        EnergyWith = with.MetabolicEnergy;
        StoppingWithout = Stopping(without);
        StoppingWith = Stopping(with);
    }

    /// <summary>The reserve.</summary>
    public PaceReserve Reserve { get; }

    /// <summary>Time in motion with nothing left unused.</summary>
    public Estimate<TimeSpan> MovingWithout { get; }

    /// <summary>Time in motion with the reserve.</summary>
    public Estimate<TimeSpan> MovingWith { get; }

    /// <summary>What it costs in time.</summary>
    public TimeSpan ExtraTime => MovingWith.Typical - MovingWithout.Typical;

    /// <summary>Energy with nothing left unused.</summary>
    public Estimate<Energy> EnergyWithout { get; }

    /// <summary>Energy with the reserve.</summary>
    public Estimate<Energy> EnergyWith { get; }

    /// <summary>Mean stopping distance over the descents without the reserve (1 s reaction, 3 m/s², less the slope).</summary>
    public Length StoppingWithout { get; }

    /// <summary>The same with the reserve.</summary>
    public Length StoppingWith { get; }

    private static Length Stopping(RidePace pace)
    {
        double sum = 0, weight = 0;
        foreach (StepPace p in pace.Steps)
        {
            if (p.LimitedByTechnique && p.Step.RiseM < 0)
            {
                double grade = p.Step.RiseM / p.Step.LengthM, v = p.Outcome.RideSpeedMps;
                double deceleration = Math.Max(0.5, DecelerationMps2 + (Si.GravityMps2 * grade / Math.Sqrt(1 + (grade * grade))));
                sum += p.Step.LengthM * ((v * ReactionS) + (v * v / (2 * deceleration)));
                weight += p.Step.LengthM;
            }
        }

        return Length.FromMeters(weight > 0 ? sum / weight : 0);
    }
}
