using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A way out that the route passes: where the ride can end instead.</summary>
/// <param name="Name">The way out.</param>
/// <param name="AlongRoute">Where the route passes it.</param>
/// <param name="Arrival">When the rider is there, P10 to P90.</param>
/// <param name="GoOnUntil">Past this time there the ride ends here: its latest pass; null when no clock stands ahead.</param>
public sealed record AlternateEnd(string Name, Length AlongRoute, Estimate<DateTimeOffset> Arrival, DateTimeOffset? GoOnUntil);
