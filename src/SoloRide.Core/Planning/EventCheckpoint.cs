using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A place where an event is staffed.</summary>
/// <param name="Name">Name.</param>
/// <param name="AlongRoute">From the start of the route.</param>
public sealed record EventCheckpoint(string Name, Length AlongRoute);
