using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>A failure, what follows from it, and what repairs it.</summary>
/// <remarks>Immutable.</remarks>
public sealed record FailureMode
{
    /// <summary>Makes a mode.</summary>
    /// <param name="kind">What fails.</param>
    /// <param name="name">In words, such as "chain parted".</param>
    /// <param name="unrepaired">How the rider goes on without repair.</param>
    /// <param name="partlyRepaired">How the rider goes on after a partial repair; not worse than without.</param>
    /// <param name="ways">Ways to repair it; may be empty.</param>
    /// <exception cref="ArgumentException">The name is empty, or the partial repair leaves the rider worse off.</exception>
    public FailureMode(FailureKind kind, string name, FailureConsequence unrepaired, FailureConsequence partlyRepaired, IReadOnlyList<RepairWay> ways)
    {
        Kind = Guard.Defined(kind);
        Name = Guard.NotEmpty(name);
        Unrepaired = Guard.Defined(unrepaired);
        PartlyRepaired = Guard.Defined(partlyRepaired);
        Ways = [.. Guard.NotNull(ways)];
        if (partlyRepaired > unrepaired)
        {
            throw new ArgumentException($"Failure '{name}': a partial repair leads to {partlyRepaired}, which is worse than {unrepaired} without one.", nameof(partlyRepaired));
        }
    }

    /// <summary>What fails.</summary>
    public FailureKind Kind { get; }

    /// <summary>In words.</summary>
    public string Name { get; }

    /// <summary>How the rider goes on without repair.</summary>
    public FailureConsequence Unrepaired { get; }

    /// <summary>How the rider goes on after a partial repair.</summary>
    public FailureConsequence PartlyRepaired { get; }

    /// <summary>Ways to repair it.</summary>
    public IReadOnlyList<RepairWay> Ways { get; }
}
