namespace SoloRide.Batteries;

/// <summary>What can be done about a device that may not last.</summary>
public enum PowerRemedyKind
{
    /// <summary>Charge it to full shortly before the start.</summary>
    ChargeFull,

    /// <summary>Carry it in an inner pocket, warm.</summary>
    CarryWarm,

    /// <summary>Run it in a mode that draws less.</summary>
    LowerMode,

    /// <summary>Hang it on the bank as the plan says.</summary>
    TopUp,
}
