using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>A route with its exits and the trails beside it: what an <see cref="ExitGraph"/> is made of.</summary>
/// <remarks>Immutable.</remarks>
public sealed record EscapeRoute
{
    /// <summary>The route, from its start.</summary>
    public required IReadOnlyList<TrailStep> Steps { get; init => field = [.. Guard.NotNull(value, nameof(Steps))]; }

    /// <summary>Places where being alone ends; the start and the finish only if they are listed.</summary>
    public required IReadOnlyList<ExitPoint> Exits { get; init => field = [.. Guard.NotNull(value, nameof(Exits))]; }

    /// <summary>Places at the ends of the steps, one more than steps; empty when not known. Needed for exits given by place alone.</summary>
    public IReadOnlyList<GeoPoint> Places { get; init => field = [.. Guard.NotNull(value, nameof(Places))]; } = [];

    /// <summary>Trails beside the route; without them the only way out is along the route.</summary>
    public IReadOnlyList<EscapeTrail> Trails { get; init => field = [.. Guard.NotNull(value, nameof(Trails))]; } = [];
}
