namespace SoloRide.Escape;

/// <summary>What depth and speed of the water say about crossing on foot, alone, with a bike.</summary>
public enum FordVerdict
{
    /// <summary>Below the limit used; check on the spot.</summary>
    BelowLimit,

    /// <summary>Doubtful: do not cross alone.</summary>
    Doubtful,

    /// <summary>Do not cross.</summary>
    DoNotCross,
}
