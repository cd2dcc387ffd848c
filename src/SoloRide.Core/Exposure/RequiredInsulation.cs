using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>Clothing insulation that cold asks for, and how long worn clothing holds as a limit of strain (ISO 11079).</summary>
/// <remarks>
/// <para>Two levels: <i>minimal</i>, where the body is a little cool in balance, and <i>neutral</i>, where it is comfortable. The duration limit is the time
/// until a heat debt of 40 Wh/m² while the stated heat is made; it is a limit of strain, never a statement about survival.</para>
/// <para>For dry, evenly worn clothing. Range: air up to 10 °C, 58 to 400 W/m², 0.4 to 18 m/s. Source: iso-11079-2007. Immutable.</para>
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record RequiredInsulation
{
    private readonly InsulationRoots _min;
    private readonly InsulationRoots _neu;

    private RequiredInsulation(InsulationRoots min, InsulationRoots neu, double wornClo, IReadOnlyList<Finding> findings)
    {
        _min = min;
        _neu = neu;
        WornClo = wornClo;
        Findings = findings;
    }

    /// <summary>Required insulation in wind and movement, minimal level [clo]; infinite when no clothing is enough.</summary>
    public double MinimalClo => _min.RequiredClo;

    /// <summary>Required insulation in wind and movement, neutral level [clo].</summary>
    public double NeutralClo => _neu.RequiredClo;

    /// <summary>Basic (still-air, dry) clothing insulation to wear for the minimal level [clo]: compare with <see cref="Outfit.InsulationClo"/>.</summary>
    public double ClothingMinimalClo => Math.Max(0, _min.ClothingClo);

    /// <summary>Basic clothing insulation to wear for the neutral level [clo].</summary>
    public double ClothingNeutralClo => Math.Max(0, _neu.ClothingClo);

    /// <summary>Basic insulation worn [clo].</summary>
    public double WornClo { get; }

    /// <summary>Missing for the minimal level [clo]; 0 when enough is worn.</summary>
    public double MissingMinimalClo => Math.Max(0, ClothingMinimalClo - WornClo);

    /// <summary>Missing for the neutral level [clo].</summary>
    public double MissingNeutralClo => Math.Max(0, ClothingNeutralClo - WornClo);

    /// <summary>Duration limited exposure at the minimal level; null when the body does not cool.</summary>
    public TimeSpan? LimitMinimal => Span(_min.LimitHours);

    /// <summary>Duration limited exposure at the neutral level, the earlier one; null when the body does not cool.</summary>
    public TimeSpan? LimitNeutral => Span(_neu.LimitHours);

    /// <summary>What was assumed or outside the range.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = ExposureCautions.Cold;

    /// <summary>Computes it.</summary>
    /// <param name="conditions">Air and activity.</param>
    /// <param name="worn">What is worn.</param>
    /// <returns>Required insulation and limits.</returns>
    /// <exception cref="ArgumentNullException">An argument is null.</exception>
    public static RequiredInsulation For(ColdConditions conditions, Outfit worn)
    {
        Guard.NotNull(conditions);
        Guard.NotNull(worn);
        var findings = new List<Finding>();
        Ranges(findings, "conditions", conditions.AirC, conditions.AirSpeedMps, conditions.MetabolicWm2);
        Clothing(findings, worn);
        InsulationInput x = conditions.Input(worn.OuterPermeabilityPerM2);
        InsulationRoots min = InsulationKernel.Solve(in x, neutral: false, worn.InsulationClo);
        InsulationRoots neu = InsulationKernel.Solve(in x, neutral: true, worn.InsulationClo);
        if (double.IsInfinity(min.RequiredClo) || double.IsInfinity(neu.RequiredClo))
        {
            findings.Add(new Finding(ExposureFindingCodes.NoClothingEnough, FindingSeverity.Warning, "conditions", "The heat made does not cover what breathing and evaporation take: no clothing is enough at this activity."));
        }
        else if (neu.ClothingClo > InsulationKernel.ThickClo)
        {
            findings.Add(new Finding(ExposureFindingCodes.ThickClothing, FindingSeverity.Caution, "insulation", "Above 2 clo the standard's clothing area reads too high: thick clothing holds less than computed."));
        }

        return new RequiredInsulation(min, neu, worn.InsulationClo, findings.AsReadOnly());
    }

    /// <summary>One line, then findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
        => Render.Lines(
            $"Clothing needed {Text.F(ClothingMinimalClo, 1)} to {Text.F(ClothingNeutralClo, 1)} clo, worn {Text.F(WornClo, 1)} clo; "
            + (LimitNeutral is { } n ? $"limit of strain after {Text.Span(n)} to {(LimitMinimal is { } m ? Text.Span(m) : "no limit")}." : "the body does not cool at this activity."),
            Findings, Cautions);

    internal static void Ranges(List<Finding> findings, string subject, double airC, double airMps, double metabolicWm2)
    {
        var outside = new List<string>();
        if (airC > InsulationKernel.HighestAirC)
        {
            outside.Add(string.Create(CultureInfo.InvariantCulture, $"air {airC:0.#} C (up to {InsulationKernel.HighestAirC})"));
        }

        if (airMps > InsulationKernel.HighestAirSpeedMps)
        {
            outside.Add(string.Create(CultureInfo.InvariantCulture, $"air speed {airMps:0.#} m/s (counted as {InsulationKernel.HighestAirSpeedMps})"));
        }

        if (metabolicWm2 is < InsulationKernel.LowestMetabolicWPerM2 or > InsulationKernel.HighestMetabolicWPerM2)
        {
            outside.Add(string.Create(CultureInfo.InvariantCulture, $"metabolic rate {metabolicWm2:0} W/m2 ({InsulationKernel.LowestMetabolicWPerM2} to {InsulationKernel.HighestMetabolicWPerM2})"));
        }

        if (outside.Count > 0)
        {
            findings.Add(new Finding(ExposureFindingCodes.OutsideRange, FindingSeverity.Caution, subject, "Outside the standard's range: " + string.Join("; ", outside) + "."));
        }
    }

    internal static void Clothing(List<Finding> findings, Outfit worn)
    {
        if (worn.Wetness != Wetness.Dry)
        {
            findings.Add(new Finding(ExposureFindingCodes.WetClothing, FindingSeverity.Warning, "clothing",
                string.Create(CultureInfo.InvariantCulture, $"{worn.Wetness} clothing is counted with {worn.Options.Keeps(worn.Wetness):0.##} of its dry insulation, an assumption; the standard is for dry clothing, and drying takes heat that is not counted.")));
        }

        if (worn.Garments.All(g => g.AirPermeabilityPerM2 is null))
        {
            findings.Add(new Finding(ExposureFindingCodes.Assumed, FindingSeverity.Note, "clothing",
                string.Create(CultureInfo.InvariantCulture, $"No air permeability given; the outer layer counts as {worn.Options.OuterPermeabilityPerM2:0} L/(m2 s).")));
        }
    }

    internal static TimeSpan? Span(double hours) => double.IsFinite(hours) && hours < 24 * 365 ? TimeSpan.FromHours(hours) : null;
}
