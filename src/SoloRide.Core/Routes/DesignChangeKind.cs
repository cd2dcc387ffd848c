namespace SoloRide.Routes;

/// <summary>What was done to a route.</summary>
public enum DesignChangeKind
{
    /// <summary>Turned round.</summary>
    Reversed,

    /// <summary>Started elsewhere on the loop.</summary>
    StartedElsewhere,

    /// <summary>Cut at a point.</summary>
    Cut,

    /// <summary>Led by another point.</summary>
    LedByPoint,

    /// <summary>A stretch exchanged for another way.</summary>
    Swapped,

    /// <summary>Another route added at the end.</summary>
    Appended,

    /// <summary>Ridden several times.</summary>
    Repeated,

    /// <summary>Ended at an exit.</summary>
    ShortenedAtExit,
}
