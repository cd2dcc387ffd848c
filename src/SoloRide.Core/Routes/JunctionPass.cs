using UnitsNet;

namespace SoloRide.Routes;

/// <summary>A junction that a route comes to: how the rider turns there, and what else could be taken.</summary>
/// <param name="Junction">The junction.</param>
/// <param name="Along">Distance along the route.</param>
/// <param name="TurnAngle">Turn of the route, -180 to 180°, right positive; null at the start and the end.</param>
/// <param name="Side">Side of that turn; null at the start and the end.</param>
/// <param name="Ways">All ways, by their angle from left to right; the one taken and the one come by are among them.</param>
public sealed record JunctionPass(NetworkJunction Junction, Length Along, Angle? TurnAngle, TurnSide? Side, IReadOnlyList<JunctionWay> Ways)
{
    /// <summary>The ways that are neither taken nor come by: where a wrong turn is possible.</summary>
    public IReadOnlyList<JunctionWay> WrongWays => [.. Ways.Where(w => !w.IsTaken && !w.IsCameBy)];
}
