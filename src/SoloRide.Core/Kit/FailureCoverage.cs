namespace SoloRide.Kit;

/// <summary>How well the kit covers one kind of failure.</summary>
/// <param name="Kind">What fails.</param>
/// <param name="RepairableEvents">Failures of this kind that can be repaired in full, if no other kind uses up the spares; <see cref="int.MaxValue"/> when nothing is used up.</param>
/// <param name="NoEventProbability">[share of 1] Chance that no such failure comes on this ride.</param>
/// <param name="CoveredProbability">[share of 1] Chance that all failures of this kind are repaired in full, if no other kind uses up the spares.</param>
/// <param name="Otherwise">How the rider goes on when the spares are gone.</param>
public sealed record FailureCoverage(FailureKind Kind, int RepairableEvents, double NoEventProbability, double CoveredProbability, FailureConsequence Otherwise);
