namespace SoloRide.Batteries;

/// <summary>What a mode of a device is used for.</summary>
public enum ModeUse
{
    /// <summary>Switched off; only self-discharge.</summary>
    Off,

    /// <summary>On and waiting, radios off or idle.</summary>
    Standby,

    /// <summary>Recording or sending positions.</summary>
    Tracking,

    /// <summary>Showing map or route.</summary>
    Navigating,

    /// <summary>Phone radio looking for a network it does not find: the hidden drain.</summary>
    Searching,

    /// <summary>Sending and awaiting messages.</summary>
    Messaging,

    /// <summary>Lamp lit.</summary>
    Lighting,

    /// <summary>Any other use.</summary>
    Other,
}
