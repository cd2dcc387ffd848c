using UnitsNet;

namespace SoloRide.Kit;

/// <summary>The kit chosen for a ride.</summary>
/// <remarks>Immutable. A planning aid: coverage holds for the failures listed, at the rates stated.</remarks>
public sealed record KitPlan
{
    internal KitPlan()
    {
    }

    /// <summary>What goes, most useful first.</summary>
    public required IReadOnlyList<KitChoice> Chosen { get; init; }

    /// <summary>What stays, with the risk.</summary>
    public required IReadOnlyList<KitOmission> LeftOut { get; init; }

    /// <summary>Needs that nothing in the kit answers.</summary>
    public required IReadOnlyList<KitNeed> Unmet { get; init; }

    /// <summary>Failure by failure.</summary>
    public required IReadOnlyList<FailureCoverage> Coverage { get; init; }

    /// <summary>Chance [share of 1] that every failure of the kinds listed is repaired in full, shared spares counted once.</summary>
    public required double CoveredProbability { get; init; }

    /// <summary>Expected time of getting out on one's own, with this kit.</summary>
    public required TimeSpan ExpectedLoss { get; init; }

    /// <summary>Expected time of getting out on one's own, with nothing.</summary>
    public required TimeSpan ExpectedLossWithoutKit { get; init; }

    /// <summary>Mass of the kit.</summary>
    public required Mass TotalMass { get; init; }

    /// <summary>Water that the chosen containers hold.</summary>
    public required Volume WaterCapacity { get; init; }

    /// <summary>Room taken in pockets and belt, pack, and bags on the bike.</summary>
    public required IReadOnlyList<Volume> VolumeByPlace { get; init; }

    /// <summary>Whether no better choice exists under these caps. When the search was cut short, the choice is good and its best is not proven.</summary>
    public required bool IsProvenBest { get; init; }

    /// <summary>What the reader should know.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>Nodes that the two searches took, for tests and benchmarks.</summary>
    internal int SearchNodes { get; init; }

    /// <summary>Room taken at a place.</summary>
    /// <param name="place">The place.</param>
    /// <returns>The volume.</returns>
    public Volume VolumeAt(KitPlace place) => VolumeByPlace[(int)Internal.Guard.Defined(place)];
}
