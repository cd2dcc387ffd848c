using UnitsNet;

namespace SoloRide.Escape;

/// <summary>The ways out from one place, best first: those that all accounts suffice for, then by time.</summary>
/// <param name="AlongRoute">Where the rider is.</param>
/// <param name="Options">All exits that can be reached.</param>
/// <param name="Recommended">The fastest for which all accounts suffice; null when there is none.</param>
/// <param name="Findings">What a reader should know.</param>
public sealed record BailOutRanking(Length AlongRoute, IReadOnlyList<BailOutOption> Options, BailOutOption? Recommended, IReadOnlyList<Finding> Findings)
{
    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;
}
