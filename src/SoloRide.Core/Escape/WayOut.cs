namespace SoloRide.Escape;

/// <summary>Where the way out begins.</summary>
public enum WayOut
{
    /// <summary>No way out is known.</summary>
    None,

    /// <summary>At the exit already.</summary>
    Here,

    /// <summary>On, in the direction of the route.</summary>
    On,

    /// <summary>Back, against the direction of the route.</summary>
    Back,

    /// <summary>Over a trail beside the route.</summary>
    SideTrail,

    /// <summary>Over unknown ground, by a straight line and a detour factor.</summary>
    StraightLine,

    /// <summary>Along another part of the route that passes here.</summary>
    OtherPass,
}
