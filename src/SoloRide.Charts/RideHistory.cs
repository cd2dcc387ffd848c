using SoloRide.Effort;

namespace SoloRide.Charts;

/// <summary>Own rides beside the pace expected of them before and after learning from them.</summary>
/// <remarks>Immutable.</remarks>
public sealed record RideHistory
{
    /// <summary>Makes a history.</summary>
    /// <param name="before">The pace model without the rides.</param>
    /// <param name="after">The pace model with the calibration learned from them.</param>
    /// <param name="legs">The legs ridden, at least one.</param>
    /// <exception cref="ArgumentNullException">Something is null.</exception>
    /// <exception cref="ArgumentException">No legs.</exception>
    public RideHistory(PaceModel before, PaceModel after, IReadOnlyList<TimedLeg> legs)
    {
        ArgumentNullException.ThrowIfNull(before);
        ArgumentNullException.ThrowIfNull(after);
        ArgumentNullException.ThrowIfNull(legs);
        if (legs.Count == 0 || legs.Contains(null!))
        {
            throw new ArgumentException("At least one leg is needed, and none may be null.", nameof(legs));
        }

        Before = before;
        After = after;
        Legs = [.. legs];
    }

    /// <summary>The pace model without the rides.</summary>
    public PaceModel Before { get; }

    /// <summary>The pace model with the calibration.</summary>
    public PaceModel After { get; }

    /// <summary>The legs ridden.</summary>
    public IReadOnlyList<TimedLeg> Legs { get; }
}
