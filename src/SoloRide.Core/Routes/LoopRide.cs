using UnitsNet;

namespace SoloRide.Routes;

/// <summary>A loop from a trailhead: a ring, reached out and back where it does not pass the trailhead.</summary>
/// <param name="Length">Length of the ride.</param>
/// <param name="RepeatedFraction">Share of the length that is ridden out and back.</param>
/// <param name="OverlapFraction">Largest share with a loop listed before it; 0 for the first.</param>
/// <param name="OffWish">How far the length is from the one wished for.</param>
/// <param name="Directions">The directions that are open and keep to the range of ascent: one or two.</param>
public sealed record LoopRide(Length Length, double RepeatedFraction, double OverlapFraction, Length OffWish, IReadOnlyList<LoopDirection> Directions);
