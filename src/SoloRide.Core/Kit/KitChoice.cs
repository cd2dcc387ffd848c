namespace SoloRide.Kit;

/// <summary>An item of the kit and why it is there.</summary>
/// <param name="Item">The item.</param>
/// <param name="Place">Where it rides.</param>
/// <param name="Level">Whether it goes on every ride or was added because this one is far out.</param>
/// <param name="OneHand">Whether it must be reachable with one hand, lying down.</param>
/// <param name="Saves">Expected time that it saves on this ride; zero for what answers a need only.</param>
/// <param name="Reason">One line: what it answers, where, and how much it saves there.</param>
public sealed record KitChoice(KitItem Item, KitPlace Place, KitLevel Level, bool OneHand, TimeSpan Saves, string Reason);
