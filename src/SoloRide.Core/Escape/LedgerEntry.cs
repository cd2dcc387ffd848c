using UnitsNet;

namespace SoloRide.Escape;

/// <summary>One place of a <see cref="ResourceLedger"/>.</summary>
/// <param name="AlongRoute">Distance from the start of the route.</param>
/// <param name="Used">What is used from the start to here.</param>
/// <param name="NeededHome">What the way home takes from here; null when there is none.</param>
public readonly record struct LedgerEntry(Length AlongRoute, ResourceAmount Used, ResourceAmount? NeededHome);
