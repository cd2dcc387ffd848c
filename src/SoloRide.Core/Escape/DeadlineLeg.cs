using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>A leg of the route with the time over it, planned stops included.</summary>
/// <remarks>
/// The high ends of several legs are added: right when one cause (form, weather, state of the trail) slows all legs together, on the safe
/// side when not. Immutable.
/// </remarks>
public sealed record DeadlineLeg
{
    private readonly double _lengthM;

    /// <summary>Makes a leg.</summary>
    /// <param name="length">Above zero.</param>
    /// <param name="time">Time in the direction of the route; zero or more.</param>
    /// <param name="back">Time against it; null where the route does not come back this way.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length of zero or less, or a negative time.</exception>
    public DeadlineLeg(Length length, Estimate<TimeSpan> time, Estimate<TimeSpan>? back = null)
    {
        _lengthM = Guard.Positive(length.Meters, "m", nameof(length));
        Time = Guard.NotNull(time);
        Guard.NotNegative(time.Low, nameof(time));
        Back = back;
        if (back is not null)
        {
            Guard.NotNegative(back.Low, nameof(back));
        }
    }

    /// <summary>Its length.</summary>
    public Length Length => Length.FromMeters(_lengthM);

    /// <summary>Time in the direction of the route.</summary>
    public Estimate<TimeSpan> Time { get; }

    /// <summary>Time against it; null where the route does not come back this way.</summary>
    public Estimate<TimeSpan>? Back { get; }

    internal double LengthM => _lengthM;
}
