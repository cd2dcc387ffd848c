using SoloRide.Internal;

namespace SoloRide;

/// <summary>A piece of a ride that was really ridden, with the time it took: what own pace is learned from.</summary>
/// <remarks>Immutable.</remarks>
public sealed record TimedLeg
{
    /// <summary>Makes a leg.</summary>
    /// <param name="rideId">Which ride the leg belongs to; legs of one ride share a day's form and weather.</param>
    /// <param name="steps">The trail of the leg, at least one step with length.</param>
    /// <param name="moving">Time in motion, above zero.</param>
    /// <param name="stopped">Time standing still.</param>
    /// <exception cref="ArgumentException">No steps, or no length.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Moving time not positive, or stopped time negative.</exception>
    public TimedLeg(string rideId, IReadOnlyList<TrailStep> steps, TimeSpan moving, TimeSpan stopped = default)
    {
        RideId = Guard.NotEmpty(rideId);
        Steps = [.. Guard.NotNull(steps)];
        if (Steps.Sum(s => s.LengthM) <= 0)
        {
            throw new ArgumentException("A timed leg needs at least one step with a length above 0 m.", nameof(steps));
        }

        Moving = moving > TimeSpan.Zero
            ? moving
            : throw new ArgumentOutOfRangeException(nameof(moving), moving, "moving must be above zero.");
        Stopped = Guard.NotNegative(stopped);
    }

    /// <summary>Which ride the leg belongs to.</summary>
    public string RideId { get; }

    /// <summary>The trail of the leg.</summary>
    public IReadOnlyList<TrailStep> Steps { get; }

    /// <summary>Time in motion.</summary>
    public TimeSpan Moving { get; }

    /// <summary>Time standing still.</summary>
    public TimeSpan Stopped { get; }
}
