using UnitsNet;

namespace SoloRide.Planning;

/// <summary>What is in hand against one limit, at the confidence asked for; negative when it is missing.</summary>
/// <remarks>Exactly one of the amounts is set. Immutable.</remarks>
public sealed record PlanMargin
{
    /// <summary>What it is about.</summary>
    public required MarginKind Kind { get; init; }

    /// <summary>In words, such as "water at km 41".</summary>
    public required string Name { get; init; }

    /// <summary>Whether it matters only after trouble (the walk out, the wait): it makes a condition, it does not forbid the ride.</summary>
    public bool AfterTrouble { get; init; }

    /// <summary>Where it is least; null when it holds for the whole ride.</summary>
    public Length? AlongRoute { get; init; }

    /// <summary>Time in hand.</summary>
    public TimeSpan? Time { get; init; }

    /// <summary>Water in hand.</summary>
    public Volume? Water { get; init; }

    /// <summary>Energy in hand (lamp, device or food).</summary>
    public Energy? Charge { get; init; }

    /// <summary>Chance that the limit is overrun [share of 1]; NaN when it was not sampled.</summary>
    public required double ShortfallProbability { get; init; }

    /// <summary>What is in hand as a share of what is needed; the least of all margins binds.</summary>
    public required double InHandFraction { get; init; }

    /// <summary>Whether it holds with the confidence asked for.</summary>
    public required bool Holds { get; init; }

    /// <summary>What is in hand, in words with unit.</summary>
    public required string Amount { get; init; }
}
