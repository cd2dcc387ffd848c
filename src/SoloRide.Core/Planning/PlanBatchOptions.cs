using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>How a batch of plans is worked through.</summary>
/// <remarks>Immutable.</remarks>
public sealed record PlanBatchOptions
{
    internal static PlanBatchOptions Default { get; } = new();

    /// <summary>Most plans at work at one time; 1 to 1024, null for one a processor.</summary>
    public int? MaxParallel { get; init => field = value is { } v ? Guard.InRange(v, 1, 1024, "plans", nameof(MaxParallel)) : null; }

    /// <summary>Most requests taken and not yet given back, which bounds the memory; 1 to 100 000, null for four times the plans at work.</summary>
    public int? MaxAhead { get; init => field = value is { } v ? Guard.InRange(v, 1, 100_000, "requests", nameof(MaxAhead)) : null; }
}
