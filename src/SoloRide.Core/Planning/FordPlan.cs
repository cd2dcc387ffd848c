namespace SoloRide.Planning;

/// <summary>Fords of a ride against a rising river.</summary>
/// <remarks>Look at the river itself: a forecast of its level is a guess, and a rider with a bike stands less firmly than the limits assume. Immutable.</remarks>
public sealed record FordPlan
{
    /// <summary>The fords in order.</summary>
    public required IReadOnlyList<FordOutlook> Fords { get; init; }

    /// <summary>Whether every crossing is made in time in 9 rides of 10.</summary>
    public required bool InTime { get; init; }

    /// <summary>Camps that need no crossing, offered when a crossing on the way back comes too late; empty otherwise.</summary>
    public required IReadOnlyList<Camp> Camps { get; init; }

    /// <summary>What to do, in words.</summary>
    public required string Advice { get; init; }

    /// <summary>The plan with each ford as a clock.</summary>
    public required RidePlan Plan { get; init; }
}
