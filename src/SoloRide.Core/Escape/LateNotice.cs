using UnitsNet;

namespace SoloRide.Escape;

/// <summary>A wrong turn noticed after some time.</summary>
/// <param name="After">When it is noticed.</param>
/// <param name="Distance">How far along the wrong trail the rider is then.</param>
/// <param name="ExtraTime">Time lost until back at the junction; null when the trail cannot be gone back.</param>
/// <param name="WalkOut">Time out from there after trouble, to the nearest exit by any way; null when there is no way out.</param>
/// <param name="TrailEnds">Whether the known part of the trail ends before that time; the cost is that of its end.</param>
/// <param name="LeastExtraTime">
/// Time lost against having gone right, by the best known way back to the route: to the junction, or on by trails of the graph to where they meet
/// the route again. Zero when the wrong way is the quicker one; null when the route cannot be reached.
/// </param>
/// <param name="Rejoins">Where that way meets the route; null when it cannot be reached.</param>
/// <param name="Exit">Exit of the way out; null when there is none.</param>
public sealed record LateNotice(
    TimeSpan After, Length Distance, TimeSpan? ExtraTime, TimeSpan? WalkOut, bool TrailEnds, TimeSpan? LeastExtraTime, Length? Rejoins, string? Exit);
