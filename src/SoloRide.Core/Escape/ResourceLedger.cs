using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>
/// The caller's own account of one resource along the route, in place of constant rates: what is used up to each place, and what the way home
/// takes from it. Between two places both are taken as linear.
/// </summary>
/// <remarks>
/// Where the way home changes inside a step (<see cref="WalkOutProfile.EqualTimePoints"/>) add a place of its own: the need is highest there.
/// Immutable.
/// </remarks>
public sealed record ResourceLedger
{
    private ResourceLedger(ResourceKind kind, LedgerEntry[] entries)
    {
        Kind = kind;
        Entries = entries;
        AlongM = [.. entries.Select(e => e.AlongRoute.Meters)];
        Used = [.. entries.Select(e => e.Used.Value)];
        Home = [.. entries.Select(e => e.NeededHome?.Value ?? double.PositiveInfinity)];
    }

    /// <summary>What it is an account of.</summary>
    public ResourceKind Kind { get; }

    /// <summary>The places, in order along the route.</summary>
    public IReadOnlyList<LedgerEntry> Entries { get; }

    internal double[] AlongM { get; }

    internal double[] Used { get; }

    internal double[] Home { get; }

    /// <summary>Makes a ledger of places.</summary>
    /// <param name="entries">At least two, ascending along the route; they must reach from the start to the end of what is asked.</param>
    /// <returns>The ledger.</returns>
    /// <exception cref="ArgumentException">Fewer than two entries, distances that do not ascend, use that falls, or different kinds; the message names the entry.</exception>
    public static ResourceLedger Of(IReadOnlyList<LedgerEntry> entries)
    {
        if (Guard.NotNull(entries).Count < 2)
        {
            throw new ArgumentException("A ledger needs at least two entries.", nameof(entries));
        }

        ResourceKind kind = entries[0].Used.Kind;
        for (int i = 0; i < entries.Count; i++)
        {
            LedgerEntry e = entries[i];
            string where = $"entries[{Text.F(i, 0)}]";
            Guard.NotNegative(e.AlongRoute.Meters, "m", where);
            if (e.Used.Kind != kind || (e.NeededHome is { } home && home.Kind != kind))
            {
                throw new ArgumentException($"{where} is not {kind} as the first; a ledger holds one kind.", nameof(entries));
            }

            if (i > 0 && e.AlongRoute.Meters <= entries[i - 1].AlongRoute.Meters)
            {
                throw new ArgumentException($"{where} is at {Text.F(e.AlongRoute.Meters, 1)} m, not past the one before at {Text.F(entries[i - 1].AlongRoute.Meters, 1)} m.", nameof(entries));
            }

            if (i > 0 && e.Used.Value < entries[i - 1].Used.Value)
            {
                throw new ArgumentException($"{where} has used {e.Used}, less than the {entries[i - 1].Used} before: use never falls. Refills belong to the account.", nameof(entries));
            }
        }

        return new ResourceLedger(kind, [.. entries]);
    }

    /// <summary>Makes a ledger of legs that are gone home backward.</summary>
    /// <param name="legs">The legs from the start; at least one.</param>
    /// <param name="usedOut">Used over each leg on the way out; one a leg.</param>
    /// <param name="usedHome">Used over each leg on the way home; one a leg.</param>
    /// <returns>The ledger.</returns>
    /// <exception cref="ArgumentException">No legs, or amounts that differ in number or kind.</exception>
    public static ResourceLedger PerLeg(IReadOnlyList<ReturnLeg> legs, IReadOnlyList<ResourceAmount> usedOut, IReadOnlyList<ResourceAmount> usedHome)
    {
        if (Guard.NotNull(legs).Count == 0)
        {
            throw new ArgumentException("At least one leg is needed.", nameof(legs));
        }

        Guard.SameLength(legs.Count, Guard.NotNull(usedOut).Count, nameof(usedOut));
        Guard.SameLength(legs.Count, Guard.NotNull(usedHome).Count, nameof(usedHome));
        ResourceKind kind = usedOut[0].Kind;
        var entries = new List<LedgerEntry> { new(Length.Zero, ResourceAmount.Of(kind, 0), ResourceAmount.Of(kind, 0)) };
        double m = 0, used = 0, home = 0;
        for (int i = 0; i < legs.Count; i++)
        {
            if (usedOut[i].Kind != kind || usedHome[i].Kind != kind)
            {
                throw new ArgumentException($"Leg {Text.F(i, 0)} is not {kind} as the first; a ledger holds one kind.", nameof(usedOut));
            }

            m += legs[i].Length.Meters;
            used += usedOut[i].Value;
            home += usedHome[i].Value;
            entries.Add(new LedgerEntry(Length.FromMeters(m), ResourceAmount.Of(kind, used), ResourceAmount.Of(kind, home)));
        }

        return Of(entries);
    }
}
