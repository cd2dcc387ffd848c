using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>One unbroken line of a route file. A track that was interrupted has several.</summary>
/// <remarks>Immutable.</remarks>
public sealed class RouteLine
{
    internal RouteLine(RouteLineKind kind, int group, string name, string description, RouteColumns columns, int start, int count, int badPoints, IReadOnlyList<RouteSection> sections)
    {
        Kind = kind;
        Group = group;
        Name = name;
        Description = description;
        Columns = columns;
        Start = start;
        Count = count;
        BadPointCount = badPoints;
        Sections = sections;
        Points = new RoutePointList(columns, start, count);
    }

    /// <summary>Track or planned route.</summary>
    public RouteLineKind Kind { get; }

    /// <summary>Lines of one track share this number, counted from 0 in the file.</summary>
    public int Group { get; }

    /// <summary>Name of the track or route; may be empty.</summary>
    public string Name { get; }

    /// <summary>Words about the track or route; may be empty.</summary>
    public string Description { get; }

    /// <summary>The good points in the file's order; may be empty.</summary>
    public IReadOnlyList<RoutePoint> Points { get; }

    /// <summary>Points left out because their place was missing, not a number or out of range.</summary>
    public int BadPointCount { get; }

    /// <summary>What the file says of surface and difficulty, by distance along this line.</summary>
    public IReadOnlyList<RouteSection> Sections { get; }

    internal RouteColumns Columns { get; }

    internal int Start { get; }

    internal int Count { get; }

    internal TrailTags Tags { get; init; }
}
