namespace SoloRide;

/// <summary>Which clock sets a deadline.</summary>
public enum DeadlineKind
{
    /// <summary>End of usable daylight, or of lamp energy.</summary>
    Light,

    /// <summary>Direct sun leaves the place.</summary>
    Shade,

    /// <summary>Onset of a thunderstorm or other bad weather.</summary>
    Storm,

    /// <summary>Heat reaches a category that forbids hard work.</summary>
    Heat,

    /// <summary>Water in hand reaches the reserve.</summary>
    Water,

    /// <summary>A gate, road, ferry or shop closes.</summary>
    Gate,

    /// <summary>A river rises past what can be crossed.</summary>
    Ford,

    /// <summary>The time promised to the person at home.</summary>
    Contact,

    /// <summary>The rider's own limit of hours.</summary>
    Body,

    /// <summary>Another clock, named by the caller.</summary>
    Other,
}
