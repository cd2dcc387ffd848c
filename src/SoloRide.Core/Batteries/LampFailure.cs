namespace SoloRide.Batteries;

/// <summary>One lamp of head and bar fails at dusk: what the other can do.</summary>
/// <param name="Failed">Lamp that fails.</param>
/// <param name="Remaining">Lamp that is left; null when there is none.</param>
/// <param name="DarkTime">Time in the dark of the planned ride.</param>
/// <param name="RemainingTime">Time that the other lasts at the light needed, from a start with the planned charge; null when it has no such mode.</param>
/// <param name="IsCovered">Whether the lower end of that time covers the dark.</param>
public sealed record LampFailure(string Failed, string? Remaining, TimeSpan DarkTime, Estimate<TimeSpan>? RemainingTime, bool IsCovered);
