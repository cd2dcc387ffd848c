namespace SoloRide.Routes;

/// <summary>A node of a <see cref="RouteNetwork"/>: where trails meet or end.</summary>
/// <param name="Index">Its number, from 0 in the order of latitude and longitude.</param>
/// <param name="Place">Where.</param>
/// <param name="Ways">Ends of trails here: 1 at a dead end, 3 or more where the way must be chosen.</param>
public sealed record NetworkJunction(int Index, GeoPoint Place, int Ways);
