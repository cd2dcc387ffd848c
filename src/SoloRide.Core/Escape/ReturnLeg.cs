using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>A leg of the route with the time out over it and the time home over the same leg.</summary>
/// <remarks>Immutable.</remarks>
public sealed record ReturnLeg
{
    private readonly double _lengthM;

    /// <summary>Makes a leg.</summary>
    /// <param name="length">Above zero.</param>
    /// <param name="timeOut">Time over it in the direction of the route; zero or more.</param>
    /// <param name="timeHome">Time over it on the way home; zero or more.</param>
    /// <exception cref="ArgumentOutOfRangeException">A length of zero or less, or a negative time.</exception>
    public ReturnLeg(Length length, TimeSpan timeOut, TimeSpan timeHome)
    {
        _lengthM = Guard.Positive(length.Meters, "m", nameof(length));
        Out = Guard.NotNegative(timeOut, nameof(timeOut));
        Home = Guard.NotNegative(timeHome, nameof(timeHome));
    }

    /// <summary>Its length.</summary>
    public Length Length => Length.FromMeters(_lengthM);

    /// <summary>Time over it in the direction of the route.</summary>
    public TimeSpan Out { get; }

    /// <summary>Time over it on the way home.</summary>
    public TimeSpan Home { get; }
}
