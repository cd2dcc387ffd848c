using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>A short piece of trail in the direction of travel: the unit in which time, energy and water are counted.</summary>
/// <remarks><c>default</c> is a step of no length. Immutable.</remarks>
public readonly record struct TrailStep
{
    /// <summary>Makes a step.</summary>
    /// <param name="lengthM">[m, 0 or more] Horizontal length on the ellipsoid.</param>
    /// <param name="riseM">[m] Height gained, negative downhill.</param>
    /// <param name="elevationM">[m, NaN = unknown] Mean height of the step.</param>
    /// <param name="bearingDeg">[°, NaN = unknown] Direction of travel from north, clockwise.</param>
    /// <param name="surface">Surface class.</param>
    /// <param name="difficulty">Technical difficulty.</param>
    /// <exception cref="ArgumentOutOfRangeException">Length negative or not finite, rise not finite.</exception>
    public TrailStep(
        double lengthM,
        double riseM,
        double elevationM = double.NaN,
        double bearingDeg = double.NaN,
        TrailSurface surface = TrailSurface.Unknown,
        TrailDifficulty difficulty = TrailDifficulty.Unknown)
    {
        LengthM = Guard.NotNegative(lengthM, "m");
        RiseM = Guard.Finite(riseM, "m");
        ElevationM = elevationM;
        BearingDeg = bearingDeg;
        Surface = surface;
        Difficulty = difficulty;
    }

    /// <summary>Horizontal length [m].</summary>
    public double LengthM { get; }

    /// <summary>Height gained [m], negative downhill.</summary>
    public double RiseM { get; }

    /// <summary>Mean height of the step [m]; NaN when unknown.</summary>
    public double ElevationM { get; }

    /// <summary>Direction of travel [°] from north, clockwise; NaN when unknown.</summary>
    public double BearingDeg { get; }

    /// <summary>Surface class.</summary>
    public TrailSurface Surface { get; }

    /// <summary>Technical difficulty.</summary>
    public TrailDifficulty Difficulty { get; }

    /// <summary>Horizontal length.</summary>
    public Length Distance => Length.FromMeters(LengthM);

    /// <summary>Height gained, negative downhill.</summary>
    public Length Rise => Length.FromMeters(RiseM);

    /// <summary>Rise over run; level for a step of no length.</summary>
    public Grade Grade => Grade.FromRise(LengthM > 0 ? RiseM / LengthM : 0);

    /// <summary>The same piece travelled the other way.</summary>
    /// <returns>The reversed step.</returns>
    public TrailStep Reversed()
        => new(LengthM, -RiseM, ElevationM, double.IsNaN(BearingDeg) ? double.NaN : (BearingDeg + 180) % 360, Surface, Difficulty);
}
