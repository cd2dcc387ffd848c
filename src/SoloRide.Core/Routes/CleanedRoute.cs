using System.Collections.Immutable;

namespace SoloRide.Routes;

/// <summary>A mended route, the original, and what lies between them.</summary>
/// <remarks>Immutable.</remarks>
public sealed class CleanedRoute
{
    internal CleanedRoute(RideRoute route, RideRoute original, ImmutableArray<RouteChange> changes) => (Route, Original, Changes) = (route, original, changes);

    /// <summary>The mended route; the original itself when nothing was to be done.</summary>
    public RideRoute Route { get; }

    /// <summary>The route as it was.</summary>
    public RideRoute Original { get; }

    /// <summary>Every change, in the order of the original's points.</summary>
    public ImmutableArray<RouteChange> Changes { get; }
}
