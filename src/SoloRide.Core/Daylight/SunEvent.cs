using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>One event of the Sun in a local day.</summary>
/// <param name="At">The instant, with the zone's offset; null when it does not happen.</param>
/// <param name="State">Whether it happens, and why not.</param>
/// <param name="Again">A second time in the same day, which happens near the polar circles and on days of odd length; otherwise null.</param>
/// <remarks><c>default</c> has no instant and state <see cref="SunEventState.Occurs"/>; it is not meaningful.</remarks>
public readonly record struct SunEvent(DateTimeOffset? At, SunEventState State, DateTimeOffset? Again = null)
{
    /// <summary>The clock time, or why there is none.</summary>
    /// <returns>Text such as <c>20:41</c> or <c>always above</c>.</returns>
    public override string ToString() => At is { } at
        ? Again is { } again ? $"{Text.Clock(at)} and {Text.Clock(again)}" : Text.Clock(at)
        : State switch
        {
            SunEventState.AlwaysAbove => "always above",
            SunEventState.AlwaysBelow => "always below",
            _ => "not in this day",
        };
}
