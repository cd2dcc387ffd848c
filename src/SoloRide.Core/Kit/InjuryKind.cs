namespace SoloRide.Kit;

/// <summary>Injuries and troubles of the body that a lone rider prepares for.</summary>
public enum InjuryKind
{
    /// <summary>Graze or small cut.</summary>
    Graze,

    /// <summary>Deep cut or heavy bleeding.</summary>
    HeavyBleeding,

    /// <summary>Blister.</summary>
    Blister,

    /// <summary>Sprain.</summary>
    Sprain,

    /// <summary>Broken bone or dislocated joint.</summary>
    Fracture,

    /// <summary>Cooling.</summary>
    Cold,

    /// <summary>Sunburn, heat.</summary>
    Heat,
}
