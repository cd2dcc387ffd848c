namespace SoloRide.Kit;

/// <summary>What a first-aid item is for.</summary>
public enum FirstAidUse
{
    /// <summary>Cleaning a wound.</summary>
    WoundCleaning,

    /// <summary>Dressings and plasters.</summary>
    Dressing,

    /// <summary>Bandage that presses.</summary>
    PressureBandage,

    /// <summary>Tape and padding for blisters.</summary>
    BlisterCare,

    /// <summary>Elastic bandage.</summary>
    ElasticBandage,

    /// <summary>Triangular bandage or sling.</summary>
    Sling,

    /// <summary>Mouldable splint.</summary>
    Splint,

    /// <summary>Gloves.</summary>
    Gloves,

    /// <summary>Sheet or bag against cooling.</summary>
    BarrierSheet,

    /// <summary>Sun protection.</summary>
    SunProtection,

    /// <summary>The rider's own medicine, chosen with a doctor.</summary>
    OwnMedicine,
}
