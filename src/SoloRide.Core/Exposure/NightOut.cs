using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>A wait or a night out: the insulation missing, and when the limit of strain of ISO 11079 is reached.</summary>
/// <remarks>
/// <para>Weather changes through the night, so the heat debt is added up interval by interval until 40 Wh/m² (our extension of the standard's constant case; in
/// constant weather it is the standard's duration limited exposure). Warm intervals do not pay debt back.</para>
/// <para>The limit is one of strain: it is never called survival, and reaching morning before it does not make a night safe.</para>
/// <para>A bag or sheet counts as still air and a windproof layer, not as clo: measured, a plain plastic bag and a metallised one did not differ
/// (Light 1980). Ground contact is not counted. Sources: iso-11079-2007, light-1980. Immutable.</para>
/// </remarks>
[Entry]
[Source("light-1980", "abstract: bags act as barriers")]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record NightOut
{
    private readonly double _coldestC;

    private NightOut(double coldestC, double wornClo, double missing, double missingLow, double missingHigh, TimeSpan length, TimeSpan? limit, TimeSpan? earliest, IReadOnlyList<Finding> findings)
    {
        _coldestC = coldestC;
        WornClo = wornClo;
        MissingClo = missing;
        MissingLowClo = missingLow;
        MissingHighClo = missingHigh;
        Length = length;
        StrainLimit = limit;
        EarliestStrainLimit = earliest;
        Findings = findings;
    }

    /// <summary>Lowest air temperature of the time.</summary>
    public Temperature Coldest => Temperature.FromDegreesCelsius(_coldestC);

    /// <summary>Time looked at.</summary>
    public TimeSpan Length { get; }

    /// <summary>Basic insulation worn, after wetness [clo].</summary>
    public double WornClo { get; }

    /// <summary>Insulation missing in the worst interval [clo], minimal level, at the stated heat; 0 when none, infinite when no clothing is enough.</summary>
    public double MissingClo { get; }

    /// <summary>The least that may be missing: standing and moving a little (70 W/m² or the stated heat if more) [clo].</summary>
    public double MissingLowClo { get; }

    /// <summary>The most that may be missing: neutral level, lying exhausted [clo].</summary>
    public double MissingHighClo { get; }

    /// <summary>Time until the limit of strain, minimal level, at the stated heat; null when it is not reached in the time looked at.</summary>
    public TimeSpan? StrainLimit { get; }

    /// <summary>The same on the safe side: neutral level, lying exhausted.</summary>
    public TimeSpan? EarliestStrainLimit { get; }

    /// <summary>What was assumed, and what is missing.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = ExposureCautions.Cold;

    /// <summary>Computes it.</summary>
    /// <param name="request">Weather, clothing, shelter.</param>
    /// <returns>Insulation missing and limits.</returns>
    /// <exception cref="ArgumentNullException">Request is null.</exception>
    public static NightOut Through(NightRequest request)
    {
        NightRequest r = Guard.NotNull(request);
        var findings = new List<Finding>();
        Outfit outfit = r.Outfit;
        RequiredInsulation.Clothing(findings, outfit);
        double worn = outfit.InsulationClo, hours = r.Interval.TotalHours;
        double moving = Math.Max(70, r.MetabolicWm2);
        double need = 0, needLow = 0, needHigh = 0, coldest = double.PositiveInfinity;
        double debt = 0, debtEarly = 0, limit = double.NaN, early = double.NaN;
        bool windUnknown = false, humidityUnknown = false, warm = false, rain = false;
        for (int i = 0; i < r.Weather.Count; i++)
        {
            Weather w = r.Weather[i];
            coldest = Math.Min(coldest, w.AirTempC);
            warm |= w.AirTempC > InsulationKernel.HighestAirC;
            windUnknown |= double.IsNaN(w.WindMps);
            humidityUnknown |= double.IsNaN(w.RelHumidityPct);
            rain |= w.PrecipMm > 0;
            double wind = double.IsNaN(w.WindMps) ? UnknownWindMps : w.WindMps;
            wind = r.Shelter switch { Shelter.Open => wind, Shelter.Lee => wind * r.LeeWindFactor, _ => 0 };
            InsulationInput x = new()
            {
                AirC = Math.Min(w.AirTempC, HighestComputedAirC),
                RadiantC = Math.Min(w.AirTempC, HighestComputedAirC),
                AirSpeedMps = Math.Clamp(wind, InsulationKernel.LowestAirSpeedMps, InsulationKernel.HighestAirSpeedMps),
                RelHumidityPct = double.IsNaN(w.RelHumidityPct) ? 50 : w.RelHumidityPct,
                MetabolicWPerM2 = r.MetabolicWm2,
                PermeabilityLPerM2S = r.Shelter == Shelter.ClosedBag ? 1 : outfit.OuterPermeabilityPerM2,
            };
            InsulationInput exhausted = x with { MetabolicWPerM2 = r.LowMetabolicWm2 };
            InsulationRoots typical = InsulationKernel.Solve(in x, neutral: false, worn);
            InsulationRoots cold = InsulationKernel.Solve(in exhausted, neutral: true, worn);
            InsulationInput walking = x with { MetabolicWPerM2 = moving };
            InsulationRoots best = InsulationKernel.Solve(in walking, neutral: false, double.NaN);
            need = Math.Max(need, typical.ClothingClo);
            needHigh = Math.Max(needHigh, cold.ClothingClo);
            needLow = Math.Max(needLow, best.ClothingClo);
            Add(typical.StorageWm2, i, ref debt, ref limit);
            Add(cold.StorageWm2, i, ref debtEarly, ref early);
        }

        double missing = Math.Max(0, need - worn), missingHigh = Math.Max(missing, needHigh - worn), missingLow = Math.Min(missing, Math.Max(0, needLow - worn));
        if (windUnknown || humidityUnknown)
        {
            findings.Add(new Finding(ExposureFindingCodes.WeatherUnknown, windUnknown ? FindingSeverity.Caution : FindingSeverity.Note, "weather",
                (windUnknown ? string.Create(CultureInfo.InvariantCulture, $"Wind is unknown in part; {UnknownWindMps} m/s is used. ") : "") + (humidityUnknown ? "Humidity is unknown in part; 50 % is used." : "")));
        }

        if (warm)
        {
            findings.Add(new Finding(ExposureFindingCodes.OutsideRange, FindingSeverity.Note, "weather", "Part of the time is above 10 C, outside the standard's range."));
        }

        if (rain && outfit.Wetness == Wetness.Dry && r.Shelter != Shelter.ClosedBag)
        {
            findings.Add(new Finding(ExposureFindingCodes.WetClothing, FindingSeverity.Warning, "weather", "Rain is forecast and the clothing is counted as dry: wet clothing holds far less."));
        }

        if (r.Shelter == Shelter.ClosedBag)
        {
            findings.Add(new Finding(ExposureFindingCodes.ShelterAssumption, FindingSeverity.Note, "shelter", "The bag counts as still air and a windproof layer, not as insulation; damp gathers inside."));
        }
        else if (r.Shelter == Shelter.Lee)
        {
            findings.Add(new Finding(ExposureFindingCodes.ShelterAssumption, FindingSeverity.Note, "shelter", string.Create(CultureInfo.InvariantCulture, $"The lee lets {r.LeeWindFactor:0.##} of the wind through, an assumption.")));
        }

        findings.Add(new Finding(ExposureFindingCodes.RestMetabolism, FindingSeverity.Caution, "heat made",
            string.Create(CultureInfo.InvariantCulture, $"Computed for {r.MetabolicWm2:0.#} W/m2 and, on the safe side, {r.LowMetabolicWm2:0.#} W/m2 lying exhausted; ground contact is not counted.")));
        if (Math.Max(need, needHigh) > InsulationKernel.ThickClo)
        {
            findings.Add(new Finding(ExposureFindingCodes.ThickClothing, FindingSeverity.Caution, "insulation", "Above 2 clo the standard's clothing area reads too high: thick clothing holds less than computed."));
        }

        if (double.IsInfinity(needHigh))
        {
            findings.Add(new Finding(ExposureFindingCodes.NoClothingEnough, FindingSeverity.Warning, "heat made", "Lying exhausted the heat made does not cover breathing and evaporation: no clothing is enough."));
        }

        TimeSpan? limitSpan = RequiredInsulation.Span(limit), earlySpan = RequiredInsulation.Span(early);
        if (missing > 0)
        {
            findings.Add(new Finding(ExposureFindingCodes.InsulationMissing, FindingSeverity.Warning, "insulation",
                $"About {Text.F(missing, 1)} clo are missing ({Text.F(missingLow, 1)} to {Text.F(missingHigh, 1)})" + (limitSpan is { } l ? $"; the limit of strain is reached after {Text.Span(l)} resting{(earlySpan is { } e ? $", after {Text.Span(e)} lying exhausted" : "")}." : ".")));
        }

        return new NightOut(coldest, worn, missing, missingLow, missingHigh, r.Interval * r.Weather.Count, limitSpan, earlySpan, findings.AsReadOnly());

        void Add(double storageWm2, int index, ref double debtWh, ref double reachedHours)
        {
            double loss = Math.Max(0, -storageWm2);
            if (double.IsNaN(reachedHours) && debtWh + (loss * hours) >= InsulationKernel.DebtWhPerM2)
            {
                reachedHours = (index * hours) + ((InsulationKernel.DebtWhPerM2 - debtWh) / loss);
            }

            debtWh += loss * hours;
        }
    }

    /// <summary>One line, then findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
        => Render.Lines(
            $"{Text.Span(Length)} out, coldest {Text.F(_coldestC, 0)} C, worn {Text.F(WornClo, 1)} clo: missing {Text.F(MissingClo, 1)} clo ({Text.F(MissingLowClo, 1)} to {Text.F(MissingHighClo, 1)}); limit of strain "
            + (StrainLimit is { } l ? $"after {Text.Span(l)}" : "not reached in this time") + (EarliestStrainLimit is { } e ? $", lying exhausted after {Text.Span(e)}." : "."),
            Findings, Cautions);

    /// <summary>Wind used where none is known.</summary>
    [Source("assumption-unknown-wind")]
    private const double UnknownWindMps = 5;

    // Above this no insulation is asked for at rest; the form stays regular.
    private const double HighestComputedAirC = 30;
}
