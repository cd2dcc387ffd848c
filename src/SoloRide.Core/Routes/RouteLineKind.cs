namespace SoloRide.Routes;

/// <summary>What a line of a file is.</summary>
public enum RouteLineKind
{
    /// <summary>A recorded or drawn track.</summary>
    Track,

    /// <summary>A planned route: points to follow, often far apart.</summary>
    Planned,
}
