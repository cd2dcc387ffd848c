using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>A loop from a trailhead: a ring, reached out and back where it does not pass the trailhead.</summary>
/// <param name="Length">Length of the ride.</param>
/// <param name="RepeatedFraction">Share of the length that is ridden out and back.</param>
/// <param name="OverlapFraction">Largest share with a loop listed before it; 0 for the first.</param>
/// <param name="OffWish">How far the length is from the one wished for.</param>
/// <param name="Directions">The directions that are open and keep to the range of ascent: one or two.</param>
public sealed record LoopRide(Length Length, double RepeatedFraction, double OverlapFraction, Length OffWish, IReadOnlyList<LoopDirection> Directions)
{
    /// <summary>Length, share ridden twice, ascent in each direction, and the trails.</summary>
    /// <returns>One line of text.</returns>
    public override string ToString()
    {
        string twice = RepeatedFraction > 0 ? $", {Text.F(100 * RepeatedFraction, 0)} % out and back" : "";
        string ways = string.Join(", ", Directions.Select(d => $"{(d.IsClockwise ? "clockwise" : "counter-clockwise")} {(d.Ascent is { } a ? $"{Text.F(a.Meters, 0)} m up" : "ascent unknown")}"));
        string trails = Directions.Count > 0 ? string.Join(", ", Directions[0].Trails.Select(t => t.Called).Distinct()) : "";
        return $"{Text.F(Length.Kilometers, 1)} km{twice}, {ways}{(trails.Length > 0 ? ": " + trails : "")}";
    }
}
