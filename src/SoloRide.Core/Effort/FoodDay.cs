using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>One day to be fed: time and energy of the ride.</summary>
/// <remarks>Immutable.</remarks>
public sealed record FoodDay
{
    private readonly double _energyJ;

    /// <summary>Makes a day.</summary>
    /// <param name="elapsed">From start to finish, stops included; above zero, at most 24 h.</param>
    /// <param name="moving">Time in motion, at most the whole time.</param>
    /// <param name="metabolicEnergy">Energy that the body turns over meanwhile; 0 to 100 MJ.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public FoodDay(TimeSpan elapsed, TimeSpan moving, Energy metabolicEnergy)
    {
        Elapsed = elapsed > TimeSpan.Zero && elapsed <= TimeSpan.FromDays(1)
            ? elapsed
            : throw new ArgumentOutOfRangeException(nameof(elapsed), elapsed, "elapsed must be above 0 h and at most 24 h.");
        Moving = moving >= TimeSpan.Zero && moving <= elapsed
            ? moving
            : throw new ArgumentOutOfRangeException(nameof(moving), moving, "moving must be at least 0 h and at most the elapsed time.");
        _energyJ = Guard.InRange(metabolicEnergy.Joules, 0, 1e8, "J", nameof(metabolicEnergy));
    }

    /// <summary>From start to finish.</summary>
    public TimeSpan Elapsed { get; }

    /// <summary>Time in motion.</summary>
    public TimeSpan Moving { get; }

    /// <summary>Energy turned over meanwhile.</summary>
    public Energy MetabolicEnergy => Energy.FromJoules(_energyJ);

    internal double EnergyJ => _energyJ;

    /// <summary>The day of a ride: its typical time and energy.</summary>
    /// <param name="pace">The ride.</param>
    /// <returns>The day.</returns>
    /// <exception cref="ArgumentNullException">No ride.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The ride takes no time, or more than a day.</exception>
    public static FoodDay Of(RidePace pace)
    {
        Guard.NotNull(pace);
        TimeSpan elapsed = pace.Elapsed.Typical > pace.Moving.Typical ? pace.Elapsed.Typical : pace.Moving.Typical;
        return new FoodDay(elapsed, pace.Moving.Typical, pace.MetabolicEnergy.Typical);
    }
}
