using UnitsNet;

namespace SoloRide.Escape;

/// <summary>Where a position lies against the route.</summary>
/// <param name="Verdict">On the route, off it, or not to be told.</param>
/// <param name="OffBy">Distance from the nearest point of the route.</param>
/// <param name="Error">Error of the position.</param>
/// <param name="AlongRoute">That nearest point, from the start of the route.</param>
/// <param name="BackToRoute">The way back to it.</param>
/// <param name="NearestLine">The nearest line feature; null when none is given.</param>
/// <param name="NearestExit">The nearest exit with a place, in a straight line; null when none is given.</param>
public sealed record RoutePosition(
    OffRouteVerdict Verdict, Length OffBy, Length Error, Length AlongRoute, StraightWay BackToRoute, StraightWay? NearestLine, StraightWay? NearestExit)
{
    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;
}
