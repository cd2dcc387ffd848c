using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Layers for each part of the ride: insulation needed against worn and carried, wet or dry.</summary>
/// <remarks>
/// Needs by ISO 11079 at the heat made and the air speed of the part, riding included. Wetness touches what is worn, not what is carried dry. Sources:
/// iso-11079-2007, assumption-ride-parts, assumption-wet-clothing. Immutable.
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record LayerPlan
{
    /// <summary>How much more than the neutral need is worn before taking off is worth a word.</summary>
    [Source("assumption-take-off-margin")]
    private const double TakeOffMarginClo = 0.3;

    private const int MostTried = 12;

    private LayerPlan(IReadOnlyList<PartLayers> parts, IReadOnlyList<Finding> findings)
    {
        Parts = parts;
        Findings = findings;
    }

    /// <summary>The parts in order.</summary>
    public IReadOnlyList<PartLayers> Parts { get; }

    /// <summary>What is short, assumed or outside the range.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = ExposureCautions.Cold;

    /// <summary>The part with the most insulation missing; null when none is short.</summary>
    public PartLayers? Worst => Parts.Where(p => p.MissingClo > 0).MaxBy(p => p.MissingClo);

    /// <summary>Makes the plan.</summary>
    /// <param name="parts">Parts of the ride; at least one.</param>
    /// <param name="worn">Worn all the way.</param>
    /// <param name="carried">Carried dry in the pack.</param>
    /// <param name="protective">Protective wear that comes along; stowed in parts that do not name it.</param>
    /// <param name="options">Assumptions about clothing; defaults when null.</param>
    /// <returns>Layers for each part.</returns>
    /// <exception cref="ArgumentNullException">An argument is null.</exception>
    /// <exception cref="ArgumentException">No parts; a null among them; or a part wears protection that does not come along.</exception>
    public static LayerPlan For(
        IEnumerable<RidePart> parts, IEnumerable<Garment> worn, IEnumerable<Garment> carried, IEnumerable<ProtectiveWear>? protective = null, ClothingOptions? options = null)
    {
        RidePart[] all = [.. Guard.NotNull(parts)];
        Garment[] on = [.. Guard.NotNull(worn)], pack = [.. Guard.NotNull(carried)];
        ProtectiveWear[] shields = [.. protective ?? []];
        options ??= ClothingOptions.Default;
        if (all.Length == 0 || all.Contains(null))
        {
            throw new ArgumentException("At least one part is needed, and none may be null.", nameof(parts));
        }

        if (on.Contains(null) || pack.Contains(null) || shields.Contains(null))
        {
            throw new ArgumentException("A garment or protective item is null.", nameof(worn));
        }

        var findings = new List<Finding>();
        var result = new List<PartLayers>();
        foreach (ProtectiveWear p in shields.Where(p => p.HeatLoadClo is null && all.Any(a => a.ProtectiveWorn.Contains(p))))
        {
            findings.Add(new Finding(ExposureFindingCodes.ProtectiveHeatUnknown, FindingSeverity.Note, p.Name, "No heat load given and no published insulation found: counted as none. In heat, expect more strain when it is worn."));
        }

        foreach (RidePart part in all)
        {
            if (part.ProtectiveWorn.FirstOrDefault(p => !shields.Contains(p)) is { } stranger)
            {
                throw new ArgumentException($"Part {part.Name} wears {stranger.Name}, which is not among the protective wear that comes along.", nameof(parts));
            }

            result.Add(One(part, on, pack, shields, options, findings));
        }

        return new LayerPlan(result.AsReadOnly(), findings.AsReadOnly());
    }

    /// <summary>One line a part, then findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
        => Render.Lines(string.Join('\n', Parts.Select(Line)), Findings, Cautions);

    private static string Line(PartLayers p)
        => $"{p.Part.Name}: needs {Text.F(p.NeededMinimalClo, 1)} to {Text.F(p.NeededNeutralClo, 1)} clo, worn {Text.F(p.WornClo, 1)}"
            + (p.PutOn.Count > 0 ? $", put on {string.Join(", ", p.PutOn.Select(g => g.Name))}: {Text.F(p.WithPutOnClo, 1)}" : "")
            + (p.MissingClo > 0 ? $", missing {Text.F(p.MissingClo, 1)} clo" : "") + ".";

    private static PartLayers One(RidePart part, Garment[] worn, Garment[] carried, ProtectiveWear[] shields, ClothingOptions options, List<Finding> findings)
    {
        double keep = options.Keeps(part.Wetness);
        double have = (worn.Sum(g => g.InsulationClo) * keep) + part.ProtectiveWorn.Sum(p => p.HeatLoadClo ?? 0);
        ProtectiveWear[] stowed = [.. shields.Where(p => !part.ProtectiveWorn.Contains(p))];
        RequiredInsulation.Ranges(findings, part.Name, part.AirC, part.AirSpeedMps, part.HeatMadeWm2);
        if (part.Assumed)
        {
            findings.Add(new Finding(ExposureFindingCodes.Assumed, FindingSeverity.Note, part.Name, $"Heat made {Text.F(part.HeatMadeWm2, 0)} W/m2 and speed {Text.F(part.RidingMps, 1)} m/s are assumed where not given."));
        }

        if (part.Wetness != Wetness.Dry)
        {
            findings.Add(new Finding(ExposureFindingCodes.WetClothing, FindingSeverity.Caution, part.Name, $"{part.Wetness} clothing is counted with {Text.F(keep, 2)} of its dry insulation, an assumption; drying takes heat that is not counted."));
        }

        (IReadOnlyList<Garment> putOn, double needMin, double needNeu) = Choose(part, worn, carried, have, options);
        double total = have + putOn.Sum(g => g.InsulationClo);
        double missing = Math.Max(0, needMin - total);
        InsulationInput x = Input(part, worn.Concat(putOn), options);
        double storage = InsulationKernel.StorageWm2(in x, neutral: false, total);
        TimeSpan? limit = storage < 0 ? RequiredInsulation.Span(InsulationKernel.DebtWhPerM2 / -storage) : null;
        LayerVerdict verdict;
        if (missing > 0)
        {
            verdict = limit is { } l && l < part.Duration ? LayerVerdict.TooLittle : LayerVerdict.TooLittleButBrief;
            findings.Add(new Finding(ExposureFindingCodes.CarriedShort, verdict == LayerVerdict.TooLittle ? FindingSeverity.Warning : FindingSeverity.Caution, part.Name,
                $"With all that is carried {Text.F(missing, 1)} clo are missing" + (limit is { } t ? $"; limit of strain after {Text.Span(t)}, the part lasts {Text.Span(part.Duration)}." : ".")));
        }
        else if (putOn.Count > 0)
        {
            verdict = LayerVerdict.PutOn;
        }
        else if (have > needNeu + TakeOffMarginClo)
        {
            verdict = LayerVerdict.TakeOff;
        }
        else
        {
            verdict = LayerVerdict.AsWorn;
        }

        return new PartLayers(part, needMin, needNeu, have, putOn, total, missing, limit, verdict, Array.AsReadOnly(stowed));
    }

    /// <summary>
    /// The fewest garments that reach the minimal level, and among those the least warm; all when none do. Every set is tried up to
    /// <see cref="MostTried"/> garments, since a windproof layer also lowers the need; beyond, the warmest go first.
    /// </summary>
    private static (IReadOnlyList<Garment> PutOn, double Minimal, double Neutral) Choose(RidePart part, Garment[] worn, Garment[] carried, double have, ClothingOptions options)
    {
        (double minimal, double neutral) = Need(part, worn, options);
        if (have >= minimal || carried.Length == 0)
        {
            return ([], minimal, neutral);
        }

        // The need depends on what is put on only through the tightest layer: few values, computed once each.
        var needs = new Dictionary<double, (double Minimal, double Neutral)>();
        if (carried.Length <= MostTried)
        {
            int best = -1;
            double bestClo = 0;
            for (int set = 1; set < 1 << carried.Length; set++)
            {
                int count = System.Numerics.BitOperations.PopCount((uint)set);
                if (best >= 0 && count > System.Numerics.BitOperations.PopCount((uint)best))
                {
                    continue;
                }

                double clo = Members(carried, set).Sum(g => g.InsulationClo);
                if (have + clo >= NeedWith(Members(carried, set)).Minimal
                    && (best < 0 || count < System.Numerics.BitOperations.PopCount((uint)best) || clo < bestClo))
                {
                    best = set;
                    bestClo = clo;
                }
            }

            Garment[] chosen = best < 0 ? carried : [.. Members(carried, best)];
            (minimal, neutral) = NeedWith(chosen);
            return (Array.AsReadOnly(chosen), minimal, neutral);
        }

        var putOn = new List<Garment>();
        foreach (Garment g in carried.OrderByDescending(g => g.InsulationClo).ThenBy(g => g.AirPermeabilityPerM2 ?? double.MaxValue).ThenBy(g => g.Name, StringComparer.Ordinal))
        {
            putOn.Add(g);
            (minimal, neutral) = NeedWith(putOn);
            if (have + putOn.Sum(p => p.InsulationClo) >= minimal)
            {
                break;
            }
        }

        return (putOn.AsReadOnly(), minimal, neutral);

        (double Minimal, double Neutral) NeedWith(IEnumerable<Garment> extra)
        {
            Garment[] all = [.. worn, .. extra];
            double permeability = all.Min(g => g.AirPermeabilityPerM2) ?? options.OuterPermeabilityPerM2;
            if (!needs.TryGetValue(permeability, out (double Minimal, double Neutral) need))
            {
                needs.Add(permeability, need = Need(part, all, options));
            }

            return need;
        }
    }

    private static IEnumerable<Garment> Members(Garment[] carried, int set)
    {
        for (int i = 0; i < carried.Length; i++)
        {
            if ((set & (1 << i)) != 0)
            {
                yield return carried[i];
            }
        }
    }

    private static (double Minimal, double Neutral) Need(RidePart part, IEnumerable<Garment> garments, ClothingOptions options)
    {
        InsulationInput x = Input(part, garments, options);
        return (Math.Max(0, InsulationKernel.Solve(in x, neutral: false, double.NaN).ClothingClo), Math.Max(0, InsulationKernel.Solve(in x, neutral: true, double.NaN).ClothingClo));
    }

    private static InsulationInput Input(RidePart part, IEnumerable<Garment> garments, ClothingOptions options) => new()
    {
        AirC = Math.Min(part.AirC, 30),
        RadiantC = Math.Min(part.AirC, 30),
        AirSpeedMps = Math.Clamp(part.AirSpeedMps, InsulationKernel.LowestAirSpeedMps, InsulationKernel.HighestAirSpeedMps),
        RelHumidityPct = part.RelHumidityPct,
        MetabolicWPerM2 = part.HeatMadeWm2,
        PermeabilityLPerM2S = garments.Select(g => g.AirPermeabilityPerM2).Where(p => p is not null).Min() ?? options.OuterPermeabilityPerM2,
    };
}
