using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>A named place that a route file carries beside its line: water, a gate, an exit.</summary>
/// <remarks>Immutable.</remarks>
public sealed record RouteWaypoint
{
    /// <summary>Makes a waypoint.</summary>
    /// <param name="place">Where.</param>
    /// <param name="name">Name; may be empty.</param>
    /// <param name="type">What is there, in the file's own words; the library writes words such as <c>water</c> or <c>exit</c>. May be empty.</param>
    /// <param name="description">More words; may be empty.</param>
    /// <param name="time">Instant, if the file gives one.</param>
    public RouteWaypoint(GeoPoint place, string name, string type = "", string description = "", DateTimeOffset? time = null)
    {
        Place = place;
        Name = Guard.NotNull(name);
        Type = Guard.NotNull(type);
        Description = Guard.NotNull(description);
        Time = time?.ToUniversalTime();
    }

    /// <summary>Where.</summary>
    public GeoPoint Place { get; }

    /// <summary>Name; may be empty.</summary>
    public string Name { get; }

    /// <summary>What is there, in the file's own words; may be empty.</summary>
    public string Type { get; }

    /// <summary>More words; may be empty.</summary>
    public string Description { get; }

    /// <summary>A remark, if the file gives one; may be empty.</summary>
    public string Comment { get; init => field = Guard.NotNull(value, nameof(Comment)); } = "";

    /// <summary>Instant in UTC, if any.</summary>
    public DateTimeOffset? Time { get; }
}
