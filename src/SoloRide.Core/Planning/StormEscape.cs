using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A way down from a ridge.</summary>
/// <remarks>Immutable.</remarks>
public sealed record StormEscape
{
    private readonly double _leavesM;

    /// <summary>Makes a way down.</summary>
    /// <param name="name">Name.</param>
    /// <param name="leavesAt">Where it leaves the ridge, from the start of the route.</param>
    /// <param name="time">From there to lower ground: P10 to P90.</param>
    /// <exception cref="ArgumentException">No name, a negative distance or time.</exception>
    public StormEscape(string name, Length leavesAt, Estimate<TimeSpan> time)
    {
        Name = Guard.NotEmpty(name);
        _leavesM = Guard.NotNegative(leavesAt.Meters, "m", nameof(leavesAt));
        Time = Guard.NotNull(time);
        Guard.NotNegative(time.Low, nameof(time));
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Where it leaves the ridge, from the start of the route.</summary>
    public Length LeavesAt => Length.FromMeters(_leavesM);

    /// <summary>From there to lower ground.</summary>
    public Estimate<TimeSpan> Time { get; }
}
