using UnitsNet;

namespace SoloRide.Escape;

/// <summary>The latest time to turn back at a place on an out-and-back part.</summary>
/// <param name="AlongRoute">Distance from the start.</param>
/// <param name="At">The latest time to turn; null when no clock applies.</param>
/// <param name="Binding">Name of the clock that sets it.</param>
public sealed record TurnAround(Length AlongRoute, DateTimeOffset? At, string? Binding);
