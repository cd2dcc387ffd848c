using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>Which functions repair which failure, and what follows when nothing does.</summary>
/// <remarks>Immutable. The standard matrix is common practice of the trade, no published source; replace or extend it for another bike.</remarks>
[Entry(NoOutsideCheck = "common practice of the trade; no published matrix was found")]
public sealed record RepairMatrix
{
    /// <summary>Makes a matrix.</summary>
    /// <param name="modes">One mode for each kind of failure.</param>
    /// <exception cref="ArgumentException">No mode, or a kind occurs twice.</exception>
    public RepairMatrix(IReadOnlyList<FailureMode> modes)
    {
        Modes = [.. Guard.NotNull(modes)];
        if (Modes.Count == 0)
        {
            throw new ArgumentException("A repair matrix needs at least one failure mode.", nameof(modes));
        }

        if (Modes.GroupBy(m => m.Kind).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException($"The failure {twice.Key} occurs {twice.Count()} times in the matrix; once is allowed.", nameof(modes));
        }
    }

    /// <summary>The matrix of common practice.</summary>
    [Source("practice-repairs", "failure, repair, makeshift, what follows")]
    public static RepairMatrix Standard { get; } = new(
    [
        new(FailureKind.TubelessHole, "hole in a tubeless tyre", FailureConsequence.Push, FailureConsequence.Limp,
        [
            Full([KitFunction.Plug, KitFunction.Air], KitFunction.Plug),
            Full([KitFunction.Tube, KitFunction.TyreLever, KitFunction.Air], KitFunction.Tube),
        ]),
        new(FailureKind.TubePuncture, "punctured tube", FailureConsequence.Push, FailureConsequence.Limp,
        [
            Full([KitFunction.TubePatch, KitFunction.TyreLever, KitFunction.Air], KitFunction.TubePatch),
            Full([KitFunction.Tube, KitFunction.TyreLever, KitFunction.Air], KitFunction.Tube),
        ]),
        new(FailureKind.SidewallCut, "cut tyre wall", FailureConsequence.Push, FailureConsequence.Limp,
        [
            Full([KitFunction.TyreBoot, KitFunction.Tube, KitFunction.TyreLever, KitFunction.Air], KitFunction.TyreBoot, KitFunction.Tube),
            Part([KitFunction.Tape, KitFunction.Tube, KitFunction.TyreLever, KitFunction.Air]),
        ]),
        new(FailureKind.Valve, "valve that loses air", FailureConsequence.Push, FailureConsequence.Limp,
        [
            Full([KitFunction.ValveCore, KitFunction.Air], KitFunction.ValveCore),
            Full([KitFunction.Tube, KitFunction.TyreLever, KitFunction.Air], KitFunction.Tube),
        ]),
        new(FailureKind.Chain, "parted chain", FailureConsequence.Coast, FailureConsequence.Limp,
        [
            Full([KitFunction.ChainLink, KitFunction.ChainTool], KitFunction.ChainLink),
            Part([KitFunction.ChainTool]),
        ]),
        new(FailureKind.DerailleurHanger, "broken derailleur hanger", FailureConsequence.Coast, FailureConsequence.Limp,
        [
            Full([KitFunction.Hanger, KitFunction.BoltKeys], KitFunction.Hanger),
            Part([KitFunction.ChainTool]),
        ]),
        new(FailureKind.Shifting, "gears that no longer shift", FailureConsequence.Limp, FailureConsequence.Limp,
        [
            Full([KitFunction.ShiftCable, KitFunction.BoltKeys], KitFunction.ShiftCable),
            Part([KitFunction.BoltKeys]),
        ]),
        new(FailureKind.Brake, "brake that does not hold", FailureConsequence.Limp, FailureConsequence.Limp,
        [
            Full([KitFunction.BrakePads, KitFunction.BoltKeys], KitFunction.BrakePads),
        ]),
        new(FailureKind.Wheel, "broken spoke or buckled wheel", FailureConsequence.Carry, FailureConsequence.Limp,
        [
            Full([KitFunction.Spoke, KitFunction.SpokeKey], KitFunction.Spoke),
            Part([KitFunction.SpokeKey]),
        ]),
        new(FailureKind.AxleOrBearing, "failed axle or bearing", FailureConsequence.Push, FailureConsequence.Coast,
        [
            Part([KitFunction.CableTie]),
        ]),
        new(FailureKind.Seat, "loose or broken saddle", FailureConsequence.Limp, FailureConsequence.Limp,
        [
            Full([KitFunction.Strap, KitFunction.BoltKeys]),
            Part([KitFunction.BoltKeys]),
            Part([KitFunction.Strap]),
        ]),
        new(FailureKind.FrameOrFork, "broken bar, stem, fork or frame", FailureConsequence.Carry, FailureConsequence.Push,
        [
            Part([KitFunction.Tape, KitFunction.Strap]),
        ]),
        new(FailureKind.PedalOrShoe, "broken pedal, cleat or sole", FailureConsequence.Limp, FailureConsequence.Limp,
        [
            Full([KitFunction.CleatBolt, KitFunction.BoltKeys], KitFunction.CleatBolt),
            Part([KitFunction.CableTie]),
            Part([KitFunction.Tape]),
        ]),
        new(FailureKind.Lamp, "dead lamp", FailureConsequence.Push, FailureConsequence.Limp,
        [
            Full([KitFunction.SpareLamp]),
            Part([KitFunction.Light]),
        ]),
        new(FailureKind.Navigation, "dead instrument", FailureConsequence.Limp, FailureConsequence.Limp,
        [
            Full([KitFunction.SecondNavigation]),
        ]),
        new(FailureKind.WaterCarrier, "leaking bottle, bladder or pack", FailureConsequence.Limp, FailureConsequence.Limp,
        [
            Part([KitFunction.Tape]),
        ]),
        new(FailureKind.WaterTreatment, "failed water filter", FailureConsequence.Limp, FailureConsequence.Limp,
        [
            Full([KitFunction.WaterTreatment]),
        ]),
        new(FailureKind.Body, "cut, sprain or blister", FailureConsequence.Stop, FailureConsequence.Limp,
        [
            Part([KitFunction.FirstAid]),
        ]),
    ]);

    /// <summary>The modes.</summary>
    public IReadOnlyList<FailureMode> Modes { get; }

    /// <summary>The mode of a kind; null when the matrix does not know it.</summary>
    /// <param name="kind">The kind.</param>
    /// <returns>The mode.</returns>
    public FailureMode? Of(FailureKind kind)
    {
        Guard.Defined(kind);
        return Modes.FirstOrDefault(m => m.Kind == kind);
    }

    /// <summary>What a set of items makes of one failure: the best repair that is possible with it.</summary>
    /// <param name="kind">The failure.</param>
    /// <param name="items">What is at hand.</param>
    /// <returns>The effect; null when nothing repairs it.</returns>
    public RepairEffect? BestRepair(FailureKind kind, IReadOnlyList<KitItem> items)
    {
        HashSet<KitFunction> have = [.. Guard.NotNull(items).SelectMany(i => i.Functions)];
        return Of(kind)?.Ways.Where(w => w.Needs.All(have.Contains)).Select(w => (RepairEffect?)w.Effect).Min();
    }

    /// <summary>How the rider goes on after one failure with a set of items.</summary>
    /// <param name="kind">The failure.</param>
    /// <param name="items">What is at hand.</param>
    /// <returns>The consequence; the ride goes on when the matrix does not know the failure.</returns>
    public FailureConsequence ConsequenceOf(FailureKind kind, IReadOnlyList<KitItem> items)
        => Of(kind) is not { } mode ? FailureConsequence.RideOn : BestRepair(kind, items) switch
        {
            RepairEffect.Full => FailureConsequence.RideOn,
            RepairEffect.Partial => mode.PartlyRepaired,
            _ => mode.Unrepaired,
        };

    /// <summary>Same modes.</summary>
    /// <param name="other">The other matrix.</param>
    /// <returns>Whether they are equal.</returns>
    public bool Equals(RepairMatrix? other) => other is not null && Modes.SequenceEqual(other.Modes);

    /// <inheritdoc/>
    public override int GetHashCode() => Modes.Count;

    private static RepairWay Full(KitFunction[] needs, params KitFunction[] uses) => new(RepairEffect.Full, needs, uses);

    private static RepairWay Part(KitFunction[] needs) => new(RepairEffect.Partial, needs, []);
}
