namespace SoloRide.Kit;

/// <summary>Why an item is carried.</summary>
public enum KitLevel
{
    /// <summary>On every ride, near home too.</summary>
    Always,

    /// <summary>Added because this ride is far out.</summary>
    FarOut,
}
