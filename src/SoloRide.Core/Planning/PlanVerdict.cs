namespace SoloRide.Planning;

/// <summary>The answer to "will it work", in words. No score and no colour.</summary>
/// <param name="Kind">In one word.</param>
/// <param name="Sentence">In one or two sentences.</param>
/// <param name="Reasons">What speaks against it, or what must be met, most pressing first; empty when nothing does.</param>
public sealed record PlanVerdict(PlanVerdictKind Kind, string Sentence, IReadOnlyList<string> Reasons);
