using UnitsNet;

namespace SoloRide.Escape;

/// <summary>A stretch of the route in one class of remoteness.</summary>
/// <param name="From">Where it begins.</param>
/// <param name="To">Where it ends.</param>
/// <param name="Class">The class.</param>
public sealed record CommitmentZone(Length From, Length To, RemotenessClass Class);
