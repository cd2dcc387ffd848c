using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>Sodium lost with sweat.</summary>
/// <param name="Concentration">In whole-body sweat.</param>
/// <param name="LossRate">Sodium lost per hour.</param>
/// <param name="Findings">What was assumed.</param>
public sealed record SodiumEstimate(Estimate<Molarity> Concentration, Estimate<MassFlow> LossRate, IReadOnlyList<Finding> Findings);
