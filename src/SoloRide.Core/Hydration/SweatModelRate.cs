using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>What one model gives.</summary>
/// <param name="Model">The model.</param>
/// <param name="Rate">Whole-body sweat rate.</param>
public sealed record SweatModelRate(SweatModel Model, VolumeFlow Rate);
