namespace SoloRide.Batteries;

/// <summary>Where a device is carried; it sets the temperature of its cells.</summary>
public enum CarryPlace
{
    /// <summary>On the handlebar, helmet or outside of a bag: as cold as the air.</summary>
    Exposed,

    /// <summary>Inside a bag on the back: a little warmer than the air.</summary>
    Pack,

    /// <summary>In an inner pocket or sleeping bag, against the body.</summary>
    Pocket,
}
