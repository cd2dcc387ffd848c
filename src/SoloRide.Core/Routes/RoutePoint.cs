namespace SoloRide.Routes;

/// <summary>One point of a route: a place, and the instant when it was passed where a file tells it.</summary>
/// <param name="Place">Where; its height is unknown where the file gives none.</param>
/// <param name="Time">When, in UTC; null when unknown.</param>
/// <remarks><c>default</c> is 0° N 0° E at 0 m without a time. Immutable.</remarks>
public readonly record struct RoutePoint(GeoPoint Place, DateTimeOffset? Time = null);
