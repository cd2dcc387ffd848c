using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>Chooses what to carry: needs first, then the repairs that save most hours of getting out on one's own, under caps of mass, room, place and water.</summary>
/// <remarks>
/// The choice is proven best under the model (see <see cref="KitPlan.IsProvenBest"/>): failures of kinds that share a spare are weighed together, the first that
/// cannot be repaired in full ends the ride, and kinds that share nothing add up. Immutable and without state; safe on any number of threads.
/// A planning aid: what fails is not known, and no kit is complete.
/// </remarks>
[Entry(NoOutsideCheck = "a decision under the caller's own figures; proven against exhaustive search")]
public static class KitPlanner
{
    private const int MostItems = 64;

    // Functions that must stay with the rider when bike and rider part.
    private static readonly KitFunction[] StaysWithRider =
        [KitFunction.Messenger, KitFunction.Whistle, KitFunction.Light, KitFunction.BarrierBag, KitFunction.Insulation, KitFunction.FirstAid];

    // Of those, what a hurt rider must reach with one hand.
    private static readonly KitFunction[] OneHanded = [KitFunction.Messenger, KitFunction.Whistle, KitFunction.Light];

    /// <summary>Chooses the kit.</summary>
    /// <param name="request">What there is, what is at stake, and the caps.</param>
    /// <param name="cancellation">Ends a long search.</param>
    /// <returns>The kit, what stays, and the risk.</returns>
    /// <exception cref="ArgumentException">More than 64 items, two items of one name, or two stakes of one kind.</exception>
    /// <exception cref="OperationCanceledException">The search was cancelled.</exception>
    [Source("practice-emergency-items", "messenger, whistle, light, insulation and first aid ride on the body")]
    public static KitPlan Choose(KitRequest request, CancellationToken cancellation = default)
    {
        Check(Guard.NotNull(request));
        var findings = new List<Finding>();
        var leftOut = new Dictionary<int, string>();
        IReadOnlyList<KitItem> items = request.Items;
        ulong[] functions = new ulong[items.Count];
        KitPlace[] places = new KitPlace[items.Count];
        for (int i = 0; i < items.Count; i++)
        {
            functions[i] = KitEvaluator.Mask(items[i].Functions);
            places[i] = PlaceOf(request, items[i], findings);
            if (WhyUnfit(request, items[i], findings) is { } why)
            {
                leftOut[i] = why;
            }
        }

        FireFinding(request, findings);
        FailureStake[] known = [.. request.Stakes.Where(s => request.Matrix.Of(s.Kind) is not null)];
        NotWeighed(request, findings);

        ulong needs = Needs(request, KitLevel.FarOut);
        KitEvaluator full = Evaluator(request, known, double.PositiveInfinity, items, functions);
        (int[] chosen, bool proven, int nodes) = Search(request, full, items, functions, places, leftOut, needs, cancellation);

        // What would be worth carrying with no more at stake than near home goes on every ride.
        KitEvaluator local = Evaluator(request, known, request.LocalWayOut.TotalHours, items, functions);
        (int[] always, bool provenLocal, int nodesLocal) = Search(request, local, items, functions, places, leftOut, Needs(request, KitLevel.Always), cancellation);
        if (!proven || !provenLocal)
        {
            findings.Add(new Finding(KitFindingCodes.NotProven, FindingSeverity.Caution, "kit", string.Create(CultureInfo.InvariantCulture, $"The search ended after {KitSearch.StepLimit} nodes: the choice is good, that none is better is not proven.")));
        }

        Bag bag = Bag.Of(full, items, functions, chosen);
        double loss = bag.Loss();
        double empty = Bag.Of(full, items, functions, []).Loss();
        var choices = new List<KitChoice>();
        foreach (int i in chosen)
        {
            double saves = Math.Max(0, Bag.Of(full, items, functions, [.. chosen.Where(j => j != i)]).Loss() - loss);
            choices.Add(new KitChoice(
                items[i], places[i], always.Contains(i) || items[i].MustGo ? KitLevel.Always : KitLevel.FarOut,
                OneHanded.Any(f => items[i].Functions.Contains(f)), TimeSpan.FromHours(saves), Reason(request, known, full, items, functions, chosen, i, saves)));
        }

        choices.Sort((a, b) =>
        {
            int c = Rank(request, b.Item).CompareTo(Rank(request, a.Item));
            c = c != 0 ? c : b.Saves.CompareTo(a.Saves);
            return c != 0 ? c : string.CompareOrdinal(a.Item.Name, b.Item.Name);
        });
        var omissions = new List<KitOmission>();
        for (int i = 0; i < items.Count; i++)
        {
            if (!chosen.Contains(i))
            {
                double risk = leftOut.ContainsKey(i) ? 0 : Math.Max(0, loss - Bag.Of(full, items, functions, [.. chosen, i]).Loss());
                omissions.Add(new KitOmission(items[i], leftOut.GetValueOrDefault(i) ?? WhyLeft(request, items, places, chosen, i, risk), TimeSpan.FromHours(risk)));
            }
        }

        omissions.Sort((a, b) => a.Risk != b.Risk ? b.Risk.CompareTo(a.Risk) : string.CompareOrdinal(a.Item.Name, b.Item.Name));
        KitNeed[] unmet = [.. request.Needs.Where(n => (bag.Tools & KitEvaluator.Bit(n.Function)) == 0)];
        foreach (KitNeed n in unmet)
        {
            findings.Add(new Finding(KitFindingCodes.NeedUnmet, FindingSeverity.Warning, n.Function.ToString(), $"Nothing in the kit answers: {n.Because}."));
        }

        double waterL = chosen.Sum(i => items[i].WaterL);
        if (waterL < request.WaterL - 1e-9)
        {
            findings.Add(new Finding(
                KitFindingCodes.WaterShort, FindingSeverity.Warning, "water",
                $"The containers hold {Text.F(waterL, 2)} L; {Text.F(request.WaterL, 2)} L must be carried at once.",
                new FindingValue("short_L", Text.F(request.WaterL - waterL, 2))));
        }

        double[] load = new double[5];
        foreach (int i in chosen)
        {
            double[] w = Weights(items[i], places[i]);
            for (int d = 0; d < load.Length; d++)
            {
                load[d] += w[d];
            }
        }

        OverCap(request, load, findings);
        return new KitPlan
        {
            Chosen = choices,
            LeftOut = omissions,
            Unmet = unmet,
            Coverage = [.. known.Select(s => CoverageOf(request, s, bag))],
            CoveredProbability = Evaluator(request, known, double.NaN, items, functions).Covered(bag.Tools, bag.Uses),
            ExpectedLoss = TimeSpan.FromHours(loss),
            ExpectedLossWithoutKit = TimeSpan.FromHours(empty),
            TotalMass = Mass.FromKilograms(load[0]),
            WaterCapacity = Volume.FromLiters(waterL),
            VolumeByPlace = [Volume.FromLiters(load[2]), Volume.FromLiters(load[3]), Volume.FromLiters(load[4])],
            IsProvenBest = proven && provenLocal,
            SearchNodes = nodes + nodesLocal,
            Findings = findings,
        };
    }

    /// <summary>Objective of a set of items under the model, for tests: expected hours lost, price of mass, and what is unmet.</summary>
    internal static double Objective(KitRequest request, IReadOnlyList<int> set)
    {
        ulong[] functions = [.. request.Items.Select(i => KitEvaluator.Mask(i.Functions))];
        FailureStake[] known = [.. request.Stakes.Where(s => request.Matrix.Of(s.Kind) is not null)];
        KitEvaluator full = Evaluator(request, known, double.PositiveInfinity, request.Items, functions);
        Bag bag = Bag.Of(full, request.Items, functions, set);
        double water = set.Sum(i => request.Items[i].WaterL);
        return bag.Loss() + (request.TimePerKilogram.TotalHours * set.Sum(i => request.Items[i].MassKg))
            + (KitSearch.UnmetNeedH * System.Numerics.BitOperations.PopCount(Needs(request, KitLevel.FarOut) & ~bag.Tools))
            + (KitSearch.MissingWaterHPerL * Math.Max(0, request.WaterL - water - 1e-9));
    }

    /// <summary>Whether a set of items keeps the caps.</summary>
    internal static bool Fits(KitRequest request, IReadOnlyList<int> set)
    {
        double[] load = new double[5];
        foreach (int i in set)
        {
            double[] w = Weights(request.Items[i], PlaceOf(request, request.Items[i], []));
            for (int d = 0; d < load.Length; d++)
            {
                load[d] += w[d];
            }
        }

        return !load.Where((l, d) => l > request.Caps.Limits[d] + 1e-9).Any();
    }

    private static void Check(KitRequest request)
    {
        if (request.Items.Count > MostItems)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"{request.Items.Count} items are given; at most {MostItems} are allowed."), nameof(request));
        }

        if (request.Items.GroupBy(i => i.Name, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"{twice.Count()} items are named '{twice.Key}'; each needs a name of its own."), nameof(request));
        }

        if (request.Stakes.GroupBy(s => s.Kind).FirstOrDefault(g => g.Count() > 1) is { } stake)
        {
            throw new ArgumentException($"The failure {stake.Key} has {stake.Count()} stakes; one is allowed, with all its places.", nameof(request));
        }
    }

    private static KitPlace PlaceOf(KitRequest request, KitItem item, List<Finding> findings)
    {
        bool stays = item.Place == KitPlace.Body || (item.Place == KitPlace.Pack && request.PackStaysOn);
        if (stays || !item.Functions.Any(f => StaysWithRider.Contains(f) && request.Needs.Any(n => n.Function == f)))
        {
            return item.Place;
        }

        findings.Add(new Finding(
            KitFindingCodes.MovedToBody, FindingSeverity.Note, item.Name,
            $"'{item.Name}' is needed when bike and rider part: it rides on the body, not {(item.Place == KitPlace.Bike ? "on the bike" : "in the pack")}."));
        return KitPlace.Body;
    }

    private static string? WhyUnfit(KitRequest request, KitItem item, List<Finding> findings)
    {
        if (item.HasFlame && request.FireAllowed != Known.Yes)
        {
            return request.FireAllowed == Known.No ? "fire ban" : "whether fire is allowed is not known";
        }

        if (item.ExpiresOn is { } last)
        {
            if (request.RideDate is not { } day)
            {
                findings.Add(new Finding(KitFindingCodes.ExpiryUnknown, FindingSeverity.Note, item.Name, $"'{item.Name}' can be used to {Text.Day(last)}; the day of the ride is not given."));
            }
            else if (last < day)
            {
                findings.Add(new Finding(KitFindingCodes.Expired, FindingSeverity.Warning, item.Name, $"'{item.Name}' expired on {Text.Day(last)}, before the ride on {Text.Day(day)}."));
                return $"expired on {Text.Day(last)}";
            }
        }

        if (item.MadeFor is { } part)
        {
            if (request.Bike is not { } bike)
            {
                findings.Add(new Finding(KitFindingCodes.FitUnknown, FindingSeverity.Caution, item.Name, $"Whether '{item.Name}' fits was not checked: the bike's sizes are not given."));
            }
            else if (PartFitKernel.Misfit(part, bike) is { } misfit)
            {
                findings.Add(new Finding(KitFindingCodes.DoesNotFit, FindingSeverity.Warning, item.Name, $"'{item.Name}' does not fit this bike: {misfit}."));
                return $"does not fit: {misfit}";
            }
        }

        return null;
    }

    private static void FireFinding(KitRequest request, List<Finding> findings)
    {
        string[] flames = [.. request.Items.Where(i => i.HasFlame).Select(i => i.Name)];
        if (flames.Length > 0 && request.FireAllowed == Known.No)
        {
            findings.Add(new Finding(KitFindingCodes.FireBan, FindingSeverity.Warning, string.Join(", ", flames), $"A fire ban holds: {string.Join(", ", flames)} stay at home."));
        }
        else if (flames.Length > 0 && request.FireAllowed == Known.Unknown)
        {
            findings.Add(new Finding(KitFindingCodes.FireUnknown, FindingSeverity.Caution, string.Join(", ", flames), $"Whether open fire is allowed is not known: {string.Join(", ", flames)} stay at home. Ask the land manager."));
        }
    }

    private static void NotWeighed(KitRequest request, List<Finding> findings)
    {
        string[] none = [.. request.Matrix.Modes.Where(m => request.Stakes.All(s => s.Kind != m.Kind)).Select(m => m.Name)
            .Concat(request.Stakes.Where(s => request.Matrix.Of(s.Kind) is null).Select(s => s.Kind.ToString()))];
        if (none.Length > 0)
        {
            findings.Add(new Finding(KitFindingCodes.NotWeighed, FindingSeverity.Note, "failures", $"Not weighed, since the time lost or the repair is not given: {string.Join(", ", none)}."));
        }

        if (request.Stakes.Any(s => (s.Rate ?? request.OtherRate) == FailureRate.WidePrior))
        {
            findings.Add(new Finding(
                KitFindingCodes.PriorOnly, FindingSeverity.Caution, "failure rates",
                "No log of own failures for some kinds: a wide, equal prior stands in, so that the hours at stake decide, not how often things break."));
        }
    }

    private static ulong Needs(KitRequest request, KitLevel level)
        => KitEvaluator.Mask([.. request.Needs.Where(n => n.Level <= level).Select(n => n.Function)]);

    // A cap of NaN asks for coverage: every unrepaired failure weighs one.
    private static KitEvaluator Evaluator(KitRequest request, FailureStake[] known, double capHours, IReadOnlyList<KitItem> items, ulong[] functions)
    {
        var stakes = new List<KitEvaluator.Stake>(known.Length);
        foreach (FailureStake s in known)
        {
            FailureRate rate = s.Rate ?? request.OtherRate;
            (double unrepaired, double partly) = double.IsNaN(capHours) ? (1, 1) : s.MeanHours(capHours, request.PartialRepairFactor);
            stakes.Add(new KitEvaluator.Stake(request.Matrix.Of(s.Kind)!, rate.MeanOn(request.DistanceKm), rate.ShapeOn(request.DistanceKm), unrepaired, partly));
        }

        int[] perFunction = new int[KitEvaluator.FunctionCount];
        for (int i = 0; i < items.Count; i++)
        {
            for (int f = 0; f < perFunction.Length; f++)
            {
                perFunction[f] += (functions[i] >> f & 1) != 0 ? items[i].Uses : 0;
            }
        }

        // The evaluator numbers what is used up in the order of the functions.
        ulong consumed = 0;
        foreach (KitEvaluator.Stake s in stakes)
        {
            foreach (RepairWay w in s.Mode.Ways)
            {
                consumed |= KitEvaluator.Mask(w.UsesUp);
            }
        }

        int[] offered = [.. Enumerable.Range(0, perFunction.Length).Where(f => (consumed >> f & 1) != 0).Select(f => perFunction[f])];
        return new KitEvaluator(stakes, offered);
    }

    private static (int[] Chosen, bool Proven, int Nodes) Search(
        KitRequest request, KitEvaluator evaluator, IReadOnlyList<KitItem> items, ulong[] functions, KitPlace[] places, Dictionary<int, string> leftOut, ulong needs, CancellationToken cancellation)
    {
        KitSearch.Candidate[] candidates = [.. Enumerable.Range(0, items.Count).Where(i => !leftOut.ContainsKey(i))
            .Select(i => new KitSearch.Candidate(i, functions[i], items[i].Uses, items[i].WaterL, Weights(items[i], places[i]), items[i].MassKg, items[i].MustGo))];
        var search = new KitSearch(evaluator, candidates, request.Caps.Limits, needs, request.WaterL, request.TimePerKilogram.TotalHours);
        int[] best = search.Run(cancellation);
        return (best, search.Proven, search.Nodes);
    }

    // Total mass, mass on the rider, room on body, in pack, on bike.
    private static double[] Weights(KitItem item, KitPlace place)
    {
        double litres = item.HasOwnMount ? 0 : item.VolumeL;
        return
        [
            item.MassKg,
            place == KitPlace.Bike ? 0 : item.MassKg,
            place == KitPlace.Body ? litres : 0,
            place == KitPlace.Pack ? litres : 0,
            place == KitPlace.Bike ? litres : 0,
        ];
    }

    private static int Rank(KitRequest request, KitItem item)
        => request.Needs.Any(n => item.Functions.Contains(n.Function)) ? 2 : item.WaterL > 0 ? 1 : 0;

    private static string Reason(KitRequest request, FailureStake[] known, KitEvaluator full, IReadOnlyList<KitItem> items, ulong[] functions, int[] chosen, int i, double saves)
    {
        KitItem item = items[i];
        var parts = new List<string>();
        foreach (KitNeed n in request.Needs.Where(n => item.Functions.Contains(n.Function)))
        {
            parts.Add(n.Because);
        }

        if (item.WaterL > 0 && request.WaterL > 0)
        {
            parts.Add($"holds {Text.F(item.WaterL, 2)} L of the {Text.F(request.WaterL, 2)} L to carry");
        }

        // Without this item: which failure becomes worse, where does that cost most?
        KitItem[] with = [.. chosen.Select(j => items[j])], without = [.. with.Where(x => x != item)];
        FailureStake? worst = known
            .Where(s => KitEffect(request.Matrix.BestRepair(s.Kind, with)) < KitEffect(request.Matrix.BestRepair(s.Kind, without)))
            .MaxBy(s => s.Worst.Unrepaired);
        if (worst is not null)
        {
            parts.Add($"{Text.Span(worst.Worst.Unrepaired)} saved at {worst.Worst.Place} after a {request.Matrix.Of(worst.Kind)!.Name}");
        }
        else if (saves > 0)
        {
            FailureStake? more = known.Where(s => (KitEvaluator.Mask(request.Matrix.Of(s.Kind)!) & functions[i]) != 0).MaxBy(s => s.Worst.Unrepaired);
            if (more is not null)
            {
                parts.Add($"a further repair of a {request.Matrix.Of(more.Kind)!.Name}: {Text.Span(more.Worst.Unrepaired)} saved at {more.Worst.Place}");
            }
        }

        if (parts.Count == 0)
        {
            parts.Add(item.MustGo ? "the rider takes it in any case" : "answers no need of this ride");
        }

        return string.Join("; ", parts.Distinct(StringComparer.Ordinal));
    }

    private static int KitEffect(RepairEffect? effect) => effect is { } e ? (int)e : 2;

    private static string WhyLeft(KitRequest request, IReadOnlyList<KitItem> items, KitPlace[] places, int[] chosen, int i, double riskHours)
    {
        bool useful = riskHours > request.TimePerKilogram.TotalHours * items[i].MassKg;
        if (useful)
        {
            double[] load = new double[5], w = Weights(items[i], places[i]);
            foreach (int j in chosen)
            {
                double[] wj = Weights(items[j], places[j]);
                for (int d = 0; d < load.Length; d++)
                {
                    load[d] += wj[d];
                }
            }

            string[] names = ["the mass", "the mass on the rider", "the room on the body", "the room in the pack", "the room on the bike"];
            for (int d = 0; d < load.Length; d++)
            {
                if (w[d] > 0 && load[d] + w[d] > request.Caps.Limits[d] + 1e-9)
                {
                    return $"{names[d]} is better used by what goes";
                }
            }
        }

        return riskHours > 0 ? "saves less than its mass costs" : "answers no need that the kit does not answer already";
    }

    private static FailureCoverage CoverageOf(KitRequest request, FailureStake stake, Bag bag)
    {
        FailureMode mode = request.Matrix.Of(stake.Kind)!;
        FailureRate rate = stake.Rate ?? request.OtherRate;
        int repairs = 0;
        int[] uses = (int[])bag.Uses.Clone();
        foreach (RepairWay w in mode.Ways.Where(w => w.Effect == RepairEffect.Full && (KitEvaluator.Mask(w.Needs) & ~bag.Tools) == 0))
        {
            if (w.UsesUp.Count == 0)
            {
                repairs = int.MaxValue;
                break;
            }

            int n = w.UsesUp.Min(f => uses[bag.Evaluator.ConsumableOf(f)]);
            foreach (KitFunction f in w.UsesUp)
            {
                uses[bag.Evaluator.ConsumableOf(f)] -= n;
            }

            repairs += n;
        }

        double mean = rate.MeanOn(request.DistanceKm), shape = rate.ShapeOn(request.DistanceKm);
        FailureConsequence otherwise = mode.Ways.Any(w => w.Effect == RepairEffect.Partial && (KitEvaluator.Mask(w.Needs) & ~bag.Tools) == 0) ? mode.PartlyRepaired : mode.Unrepaired;
        return new FailureCoverage(
            stake.Kind, repairs, CountKernel.AtMost(mean, shape, 0), repairs == int.MaxValue ? 1 : CountKernel.AtMost(mean, shape, Math.Min(repairs, 1000)), otherwise);
    }

    private static void OverCap(KitRequest request, double[] load, List<Finding> findings)
    {
        string[] names = ["total mass", "mass on the rider", "room on the body", "room in the pack", "room on the bike"];
        for (int d = 0; d < load.Length; d++)
        {
            double cap = request.Caps.Limits[d];
            if (load[d] > cap + 1e-9)
            {
                string unit = d < 2 ? "kg" : "L";
                findings.Add(new Finding(
                    KitFindingCodes.OverCap, FindingSeverity.Warning, names[d],
                    $"What must go takes {Text.F(load[d], 2)} {unit} of the {names[d]}; there are {Text.F(cap, 2)} {unit}.",
                    new FindingValue("over_" + unit, Text.F(load[d] - cap, 2))));
            }
        }
    }

    /// <summary>Functions and uses of a set of items.</summary>
    private sealed record Bag(KitEvaluator Evaluator, ulong Tools, int[] Uses)
    {
        public static Bag Of(KitEvaluator evaluator, IReadOnlyList<KitItem> items, ulong[] functions, IReadOnlyList<int> set)
        {
            ulong tools = 0;
            int[] uses = new int[evaluator.ConsumableCount];
            foreach (int i in set)
            {
                tools |= functions[i];
                foreach (KitFunction f in items[i].Functions)
                {
                    if (evaluator.ConsumableOf(f) is >= 0 and var k)
                    {
                        uses[k] += items[i].Uses;
                    }
                }
            }

            return new Bag(evaluator, tools, uses);
        }

        public double Loss() => Evaluator.Loss(Tools, Uses);
    }
}
