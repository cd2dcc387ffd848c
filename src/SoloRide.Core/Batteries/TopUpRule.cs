namespace SoloRide.Batteries;

/// <summary>When a device can take charge from the bank.</summary>
public enum TopUpRule
{
    /// <summary>Whenever the bank may be used, also while the device runs.</summary>
    WhileInUse,

    /// <summary>Only in stretches in which the device is off or waiting: most lamps.</summary>
    OnlyWhenOff,

    /// <summary>Never: single-use cells, drive batteries, no matching cable.</summary>
    Never,
}
