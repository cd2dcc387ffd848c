namespace SoloRide.Planning;

/// <summary>Something taken for granted because nobody said otherwise.</summary>
/// <param name="Name">What.</param>
/// <param name="Value">The value used, with unit.</param>
/// <param name="SourceId">Row of docs/sources.md; empty when it is ours alone.</param>
public sealed record PlanAssumption(string Name, string Value, string SourceId = "");
