namespace SoloRide.Kit;

/// <summary>How well a repair holds.</summary>
public enum RepairEffect
{
    /// <summary>The ride goes on as planned.</summary>
    Full,

    /// <summary>Good enough to leave by the nearest way out.</summary>
    Partial,
}
