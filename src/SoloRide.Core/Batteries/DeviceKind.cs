namespace SoloRide.Batteries;

/// <summary>What a device is for; it sets the default order in which the power bank serves.</summary>
public enum DeviceKind
{
    /// <summary>Two-way or one-way satellite messenger.</summary>
    Messenger,

    /// <summary>Lamp on the head or helmet.</summary>
    HeadLamp,

    /// <summary>Lamp on the handlebar.</summary>
    BarLamp,

    /// <summary>Phone.</summary>
    Phone,

    /// <summary>Navigation computer or receiver with map.</summary>
    NavigationComputer,

    /// <summary>Rear lamp.</summary>
    RearLamp,

    /// <summary>Drive battery of an assisted bike; never topped up from the bank.</summary>
    DriveBattery,

    /// <summary>Anything else; comfort.</summary>
    Other,
}
