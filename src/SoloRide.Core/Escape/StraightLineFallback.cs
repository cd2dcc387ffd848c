namespace SoloRide.Escape;

/// <summary>What is done with an exit beside the route to which no trail leads.</summary>
public enum StraightLineFallback
{
    /// <summary>Left out, with a finding.</summary>
    None,

    /// <summary>Joined to the nearest point of the route by a straight line times the detour factor, off the path, with a finding.</summary>
    FromNearestPoint,
}
