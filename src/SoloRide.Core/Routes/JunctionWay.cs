using UnitsNet;

namespace SoloRide.Routes;

/// <summary>One way at a junction, as seen by a rider who comes to it.</summary>
/// <param name="Trail">The trail.</param>
/// <param name="Backward">Whether it is entered at the end of its line.</param>
/// <param name="Angle">Turn from straight on, -180 to 180°, right positive; from north at the start of a route.</param>
/// <param name="Side">Side of that turn.</param>
/// <param name="IsTaken">Whether the route goes on by it.</param>
/// <param name="IsCameBy">Whether the route came by it.</param>
/// <param name="ToNextJunction">Length of the trail to its other end: how far a wrong turn leads at least before the next choice.</param>
/// <param name="Bars">What bars it in this direction, without a day.</param>
public sealed record JunctionWay(NetworkTrail Trail, bool Backward, Angle Angle, TurnSide Side, bool IsTaken, bool IsCameBy, Length ToNextJunction, TrailBars Bars)
{
    /// <summary>What going to the trail's other end and back costs, by the function of <see cref="RouteNetwork.WithCost"/>: the least price of a wrong turn that is noticed there. Null without a function, or where it lets one of the directions not be taken.</summary>
    public TimeSpan? ThereAndBack { get; init; }
}
