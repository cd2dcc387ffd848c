using UnitsNet;

namespace SoloRide.Escape;

/// <summary>Where one resource no longer suffices for the way home.</summary>
/// <param name="Kind">Which resource.</param>
/// <param name="AllDry">The place when no uncertain source holds water; null when the resource suffices from everywhere.</param>
/// <param name="AtConfidence">The place when sources count by their chance, at the confidence asked for; null when it suffices from everywhere. Never before <paramref name="AllDry"/>.</param>
/// <param name="TimeAfterStart">Time from the start of the route to <paramref name="AllDry"/>; null when there is no such place.</param>
public sealed record PointOfNoReturn(ResourceKind Kind, Length? AllDry, Length? AtConfidence, TimeSpan? TimeAfterStart);
