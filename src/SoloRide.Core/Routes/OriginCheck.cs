namespace SoloRide.Routes;

/// <summary>What the rider must check of a borrowed track, since no line tells it.</summary>
public enum OriginCheck
{
    /// <summary>Whether access is allowed.</summary>
    Access,

    /// <summary>Whether a permit is needed.</summary>
    Permits,

    /// <summary>Whether anything is closed on the day.</summary>
    Closures,

    /// <summary>Whether the trail can be ridden in this season: snow, mud, rivers, hunting, fire.</summary>
    Season,
}
