namespace SoloRide.Escape;

/// <summary>Where the margin of a backward count lies: in the leg times or in a fixed reserve, not in both.</summary>
public enum LegMargin
{
    /// <summary>The high end of each leg's time (P90 for estimates of level 0.8) and no reserve.</summary>
    HighTimes,

    /// <summary>The typical time of each leg and the fixed reserve of the options.</summary>
    FixedReserve,
}
