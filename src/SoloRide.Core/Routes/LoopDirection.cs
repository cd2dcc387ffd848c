using UnitsNet;

namespace SoloRide.Routes;

/// <summary>A loop in one direction.</summary>
/// <param name="IsClockwise">Whether the ring is ridden clockwise as seen on a map with north up.</param>
/// <param name="Route">The route, from the trailhead and back.</param>
/// <param name="Ascent">Sum of rises of its trails; null without heights.</param>
/// <param name="Descent">Sum of falls of its trails, positive; null without heights.</param>
/// <param name="Trails">The trails in the order of travel.</param>
public sealed record LoopDirection(bool IsClockwise, RideRoute Route, Length? Ascent, Length? Descent, IReadOnlyList<NetworkTrail> Trails);
