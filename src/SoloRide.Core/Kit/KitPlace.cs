namespace SoloRide.Kit;

/// <summary>Where an item rides.</summary>
public enum KitPlace
{
    /// <summary>In pockets or a belt that stay with the rider when bike and pack do not.</summary>
    Body,

    /// <summary>In the pack.</summary>
    Pack,

    /// <summary>In bags on the bike.</summary>
    Bike,
}
