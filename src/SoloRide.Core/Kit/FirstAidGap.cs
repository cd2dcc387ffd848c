namespace SoloRide.Kit;

/// <summary>An injury that the first-aid bag does not answer.</summary>
/// <param name="Injury">The injury.</param>
/// <param name="Missing">What would be needed.</param>
public sealed record FirstAidGap(InjuryKind Injury, IReadOnlyList<FirstAidUse> Missing);
