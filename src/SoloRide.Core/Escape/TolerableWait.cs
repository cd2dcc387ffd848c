namespace SoloRide.Escape;

/// <summary>How long a rider who cannot move can wait.</summary>
/// <param name="Time">The least of the limits; null when none is known.</param>
/// <param name="Binding">What sets it, in words; null when none is known.</param>
/// <param name="Limits">Each limit that is known.</param>
public sealed record TolerableWait(TimeSpan? Time, string? Binding, IReadOnlyList<WaitLimit> Limits);
