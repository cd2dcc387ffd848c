using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>When a position counts as off the route, and what to point at.</summary>
/// <remarks>Immutable.</remarks>
public sealed record OffRouteOptions
{
    private readonly double _corridorM = DefaultCorridorM;

    [Source("assumption-escape-graph", "half width of the route: mapped trails lie some metres beside the real ones")]
    private const double DefaultCorridorM = 30;

    /// <summary>Half width of the corridor that counts as the route.</summary>
    public Length Corridor
    {
        get => Length.FromMeters(_corridorM);
        init => _corridorM = Guard.NotNegative(value.Meters, "m", nameof(Corridor));
    }

    /// <summary>Where the rider was last sure to be, along the route: among places of the route that are equally near, the one next to it is taken. Null when not known.</summary>
    public Length? LastAlongRoute { get; init; }

    /// <summary>Lines on the ground to walk to when the route cannot be found.</summary>
    public IReadOnlyList<LineFeature> Lines { get; init => field = [.. Guard.NotNull(value, nameof(Lines))]; } = [];

    /// <summary>Exits; those with a place are looked at.</summary>
    public IReadOnlyList<ExitPoint> Exits { get; init => field = [.. Guard.NotNull(value, nameof(Exits))]; } = [];
}
