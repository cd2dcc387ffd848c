namespace SoloRide.Planning;

/// <summary>A ridge against a storm: last times to enter it, and whether to start earlier or to drop it.</summary>
/// <remarks>A storm can come before the early end of any range: turn at the first thunder. Immutable.</remarks>
public sealed record StormPlan
{
    /// <summary>Ways off the ridge, the one that allows the latest entry first.</summary>
    public required IReadOnlyList<StormExit> Exits { get; init; }

    /// <summary>Last time to enter the ridge so that 9 rides in 10 reach the nearer way off before the early onset.</summary>
    public DateTimeOffset LatestEntry => Exits[0].LatestEntry;

    /// <summary>Last time to enter it so that 9 rides in 10 get over the whole of it.</summary>
    public required DateTimeOffset LatestForWhole { get; init; }

    /// <summary>When the rider comes to the ridge with the start as planned.</summary>
    public required Estimate<DateTimeOffset> Entry { get; init; }

    /// <summary>Latest start that keeps the latest entry in 9 rides of 10.</summary>
    public required DateTimeOffset LatestStart { get; init; }

    /// <summary>Whether 9 rides in 10 enter by the latest entry with the start as planned.</summary>
    public required bool InTime { get; init; }

    /// <summary>What to do, in words.</summary>
    public required string Advice { get; init; }

    /// <summary>The plan with the storm as a clock.</summary>
    public required RidePlan Plan { get; init; }
}
