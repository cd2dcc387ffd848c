using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>One event of the Sun in a local day.</summary>
/// <param name="At">The instant, with the zone's offset; null when it does not happen.</param>
/// <param name="State">Whether it happens, and why not.</param>
/// <param name="Again">A second time in the same day, which happens near the polar circles and on days of odd length; otherwise null.</param>
/// <remarks><c>default</c> has no instant and state <see cref="SunEventState.Occurs"/>; it is not meaningful.</remarks>
public readonly record struct SunEvent(DateTimeOffset? At, SunEventState State, DateTimeOffset? Again = null)
{
    /// <summary>A third time in the same day: only where a clock set back by a day or more makes the day longer than 36 hours; otherwise null.</summary>
    public DateTimeOffset? Third { get; init; }

    /// <summary>All times in the day, ascending; none to three.</summary>
    public IReadOnlyList<DateTimeOffset> All => At is not { } at ? [] : Again is not { } again ? [at] : Third is not { } third ? [at, again] : [at, again, third];

    /// <summary>The clock times, or why there is none.</summary>
    /// <returns>Text such as <c>20:41</c> or <c>always above</c>.</returns>
    public override string ToString() => At is null
        ? State switch
        {
            SunEventState.AlwaysAbove => "always above",
            SunEventState.AlwaysBelow => "always below",
            _ => "not in this day",
        }
        : string.Join(" and ", All.Select(Text.Clock));

    // Times are days from the start of the window, NaN where there is none.
    internal static SunEvent Of(ZoneOffsets zone, long startTicks, double first, double second, double third, CrossingState state)
    {
        return double.IsNaN(first)
            ? new SunEvent(null, StateOf(state, SunEventState.NotInThisDay))
            : new SunEvent(Local(first), SunEventState.Occurs, Local(second)) { Third = Local(third) };

        DateTimeOffset? Local(double days) => double.IsNaN(days) ? null : zone.ToLocal(new DateTimeOffset(SunTimes.Ticks(startTicks, days), TimeSpan.Zero));
    }

    internal static SunEventState StateOf(CrossingState state, SunEventState crosses) => state switch
    {
        CrossingState.AlwaysAbove => SunEventState.AlwaysAbove,
        CrossingState.AlwaysBelow => SunEventState.AlwaysBelow,
        _ => crosses,
    };
}
