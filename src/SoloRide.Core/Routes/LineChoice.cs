namespace SoloRide.Routes;

/// <summary>Which line of a file with several becomes the route.</summary>
public enum LineChoice
{
    /// <summary>All lines of the first track that has points; without a track, the first planned route. What is left out is a finding.</summary>
    FirstTrack,

    /// <summary>All tracks in the file's order, one after the other; without a track, all planned routes. Each gap is a finding.</summary>
    Join,

    /// <summary>The longest single line.</summary>
    Longest,

    /// <summary>The line with the number in <see cref="RouteReadOptions.LineIndex"/>.</summary>
    Index,
}
