using UnitsNet;

namespace SoloRide.Routes;

/// <summary>One line of a cue sheet.</summary>
/// <param name="Along">Distance from the start of the route.</param>
/// <param name="ToNext">Distance to the next cue; 0 for the last.</param>
/// <param name="Words">What to do: "left", "bear right", "straight on", "start north-east".</param>
/// <param name="Onto">Name of the trail to take; empty when it has none, and at the finish.</param>
/// <param name="Pass">The junction with all its ways; null at the finish, and at the start where it is no junction.</param>
public sealed record RouteCue(Length Along, Length ToNext, string Words, string Onto, JunctionPass? Pass)
{
    /// <summary>Ways to choose from at the junction, the one come by among them; 0 where there is no junction.</summary>
    public int Ways => Pass?.Ways.Count ?? 0;

    /// <summary>
    /// The wrong way that costs the most before the next junction: there and back by the cost of the network, by length where there is none.
    /// Null where no wrong way leads off.
    /// </summary>
    public JunctionWay? DearestWrongWay => Pass?.WrongWays.MaxBy(w => (w.ThereAndBack ?? TimeSpan.Zero, w.ToNextJunction.Meters));
}
