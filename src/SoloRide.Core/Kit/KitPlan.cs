using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>The kit chosen for a ride.</summary>
/// <remarks>Immutable. A planning aid: coverage holds for the failures listed, at the rates stated.</remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
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

    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = KitCautions.Sentences;

    /// <summary>Nodes that the two searches took, for tests and benchmarks.</summary>
    internal int SearchNodes { get; init; }

    /// <summary>Room taken at a place.</summary>
    /// <param name="place">The place.</param>
    /// <returns>The volume.</returns>
    public Volume VolumeAt(KitPlace place) => VolumeByPlace[(int)Guard.Defined(place)];

    /// <summary>What goes and why, first what goes on every ride, then what is added because this one is far out; what stays; what is unmet; findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
    {
        string capacity = WaterCapacity.Liters > 0 ? $", room for {Text.F(WaterCapacity.Liters, 2)} L of water" : "";
        var lines = new List<string>
        {
            $"Kit of {Text.F(TotalMass.Kilograms, 2)} kg{capacity}; {(IsProvenBest ? "no better choice under these caps" : "a good choice, not proven best")}.",
            $"Expected time of getting out: {Text.Span(ExpectedLoss)}, with nothing {Text.Span(ExpectedLossWithoutKit)}; {(Coverage.Count == 0 ? "no failure was weighed" : $"every failure listed repaired with {Text.Chance(CoveredProbability)}")}.",
        };
        foreach (KitLevel level in new[] { KitLevel.Always, KitLevel.FarOut })
        {
            KitChoice[] goes = [.. Chosen.Where(c => c.Level == level)];
            if (goes.Length > 0)
            {
                lines.Add(level == KitLevel.Always ? "Always:" : "Added because far out:");
                lines.AddRange(goes.Select(c => $"  {c.Item.Name} ({PlaceName(c.Place)}{(c.OneHand ? ", within reach of one hand" : "")}): {c.Reason}"));
            }
        }

        if (LeftOut.Count > 0)
        {
            lines.Add("Stays:");
            lines.AddRange(LeftOut.Select(o => $"  {o.Item.Name}: {o.Reason}{(o.Risk > TimeSpan.Zero ? $" (expected loss {Text.F(o.Risk.TotalMinutes, 1)} min)" : "")}"));
        }

        lines.AddRange(Unmet.Select(n => $"Unmet: {Text.Words(n.Function)}, {n.Because}"));
        return Render.Lines(string.Join('\n', lines), Findings, Cautions);
    }

    private static string PlaceName(KitPlace place) => place switch
    {
        KitPlace.Body => "on the body",
        KitPlace.Pack => "in the pack",
        _ => "on the bike",
    };
}
