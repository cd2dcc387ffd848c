namespace SoloRide.Planning;

/// <summary>What one start gives.</summary>
/// <param name="Start">The start.</param>
/// <param name="Kind">Verdict.</param>
/// <param name="Finish">Finish, P10 to P90.</param>
/// <param name="Margins">Every margin, least first.</param>
public sealed record StartOutcome(DateTimeOffset Start, PlanVerdictKind Kind, Estimate<DateTimeOffset> Finish, IReadOnlyList<PlanMargin> Margins);
