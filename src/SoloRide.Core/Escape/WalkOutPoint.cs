using UnitsNet;

namespace SoloRide.Escape;

/// <summary>The way out from one place of the route.</summary>
/// <param name="AlongRoute">Distance from the start of the route.</param>
/// <param name="Time">Time out; null when there is no way out.</param>
/// <param name="Distance">Length of the way out; null when there is none.</param>
/// <param name="Exit">Name of the nearest exit by time; null when there is none.</param>
/// <param name="Way">Where the way out begins.</param>
/// <param name="Trail">Name of the first trail beside the route that the way uses; null when it stays on the route.</param>
/// <param name="UsesStraightLine">Whether part of the way is a straight line over unknown ground: a lower grade of answer.</param>
public sealed record WalkOutPoint(
    Length AlongRoute, Estimate<TimeSpan>? Time, Length? Distance, string? Exit, WayOut Way, string? Trail, bool UsesStraightLine);
