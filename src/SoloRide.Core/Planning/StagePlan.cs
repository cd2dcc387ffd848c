namespace SoloRide.Planning;

/// <summary>A ride split into days.</summary>
/// <param name="Stages">The days; empty when no split meets the conditions.</param>
/// <param name="Largest">Effort of the largest day.</param>
/// <param name="Findings">Why no split exists, or which camps were left out and why.</param>
public sealed record StagePlan(IReadOnlyList<Stage> Stages, TimeSpan Largest, IReadOnlyList<Finding> Findings);
