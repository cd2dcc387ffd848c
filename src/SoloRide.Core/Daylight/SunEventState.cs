namespace SoloRide.Daylight;

/// <summary>Whether an event of the Sun happens in a local day, and why not.</summary>
public enum SunEventState
{
    /// <summary>It happens; the instant is given.</summary>
    Occurs,

    /// <summary>It does not happen: the Sun stays above the altitude all day (midnight sun; twilight all night).</summary>
    AlwaysAbove,

    /// <summary>It does not happen: the Sun stays below the altitude all day (polar night).</summary>
    AlwaysBelow,

    /// <summary>It does not happen in this day, though the Sun crosses the altitude the other way.</summary>
    NotInThisDay,
}
