namespace SoloRide.Kit;

/// <summary>An item that stays at home, why, and what is risked.</summary>
/// <param name="Item">The item.</param>
/// <param name="Reason">Why it is left out.</param>
/// <param name="Risk">Expected time lost because of that; zero when it would save nothing.</param>
public sealed record KitOmission(KitItem Item, string Reason, TimeSpan Risk);
