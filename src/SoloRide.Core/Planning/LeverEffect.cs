namespace SoloRide.Planning;

/// <summary>One change, or two together, and what a full recomputation says of it.</summary>
/// <param name="Name">The change, in words.</param>
/// <param name="Kind">Verdict with it.</param>
/// <param name="Binding">What limits the ride with it; null when nothing does.</param>
/// <param name="BaseMargin">The margin that limited the ride before, as it was.</param>
/// <param name="NewMargin">The same margin with the change; null when it no longer exists.</param>
/// <param name="GainFraction">How much the least margin grows, as a share of what is needed.</param>
/// <param name="Sentence">The effect on what limited the ride, in words.</param>
public sealed record LeverEffect(string Name, PlanVerdictKind Kind, PlanMargin? Binding, PlanMargin? BaseMargin, PlanMargin? NewMargin, double GainFraction, string Sentence);
