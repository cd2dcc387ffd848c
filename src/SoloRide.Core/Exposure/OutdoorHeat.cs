using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>Outdoor heat at a place and time: WBGT, heat index, universal index, heat category, work and rest.</summary>
/// <remarks>
/// <para>WBGT by the heat balances of globe and wick (Liljegren 2008), both roots bracketed; <see cref="RootErrorK"/> bounds how far off they are.
/// The wind is that of the place, without riding: what a meter at the trail would show.</para>
/// <para>Converges for air -40 to 60 °C, any humidity, wind 0 to 30 m/s, 500 to 1 050 hPa. Sources: liljegren-2008, nws-heat-index,
/// utci-2012, army-work-rest. Immutable; safe to share between threads.</para>
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record OutdoorHeat
{
    private readonly double _wbgtC;
    private readonly double _globeC;
    private readonly double _wetC;
    private readonly double _indexC;
    private readonly double _utciC;

    private OutdoorHeat(double wbgtC, double globeC, double wetC, double indexC, double utciC, double rootErrorK, IReadOnlyList<Finding> findings)
    {
        _wbgtC = wbgtC;
        _globeC = globeC;
        _wetC = wetC;
        _indexC = indexC;
        _utciC = utciC;
        RootErrorK = rootErrorK;
        Category = (HeatCategory)HeatTableKernel.Category((wbgtC * 1.8) + 32);
        Findings = findings;
    }

    /// <summary>Wet-bulb globe temperature outdoors.</summary>
    public Temperature WetBulbGlobe => Temperature.FromDegreesCelsius(_wbgtC);

    /// <summary>Temperature of the black globe of 50 mm.</summary>
    public Temperature Globe => Temperature.FromDegreesCelsius(_globeC);

    /// <summary>Natural wet bulb: a wick in sun and wind.</summary>
    public Temperature NaturalWetBulb => Temperature.FromDegreesCelsius(_wetC);

    /// <summary>Heat index of the US National Weather Service; for shade and light wind.</summary>
    public Temperature HeatIndex => Temperature.FromDegreesCelsius(_indexC);

    /// <summary>
    /// Universal thermal climate index: the air temperature of a mild reference that strains a walker alike. Null without a mean radiant temperature, or
    /// outside its range (air -50 to 50 °C, radiant 30 K below to 70 K above air, wind 0.5 to 17 m/s at 10 m), with a finding then.
    /// </summary>
    public Temperature? UniversalIndex => Si.Temperature(_utciC);

    /// <summary>Certificate: the heat balances change sign within this distance of globe and wick temperature [K].</summary>
    public double RootErrorK { get; }

    /// <summary>Heat category of the army table.</summary>
    public HeatCategory Category { get; }

    /// <summary>What was assumed, and the heat category when there is one.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = ExposureCautions.Heat;

    /// <summary>Computes it.</summary>
    /// <param name="conditions">Air, wind and sun.</param>
    /// <returns>The heat.</returns>
    /// <exception cref="ArgumentNullException">Conditions are null.</exception>
    public static OutdoorHeat At(OutdoorConditions conditions)
    {
        OutdoorConditions x = Guard.NotNull(conditions);
        var findings = new List<Finding>();
        double pressureHpa = x.PressureHpa;
        if (double.IsNaN(pressureHpa))
        {
            pressureHpa = StandardAtmosphere.PressureHpa(x.ElevationM);
            findings.Add(new Finding(ExposureFindingCodes.Assumed, FindingSeverity.Note, "pressure",
                string.Create(CultureInfo.InvariantCulture, $"No pressure given; {pressureHpa:0} hPa from the standard atmosphere.")));
        }

        double cosZenith = Math.Sin(x.SunAltitudeDeg * Math.PI / 180);
        (double solar, double direct) = WbgtKernel.Solar(x.GlobalWm2, cosZenith, x.Date is { } day ? WbgtKernel.SunDistanceAu(day) : 1);
        if (solar < x.GlobalWm2 - 1e-9)
        {
            findings.Add(new Finding(ExposureFindingCodes.Assumed, FindingSeverity.Note, "irradiance",
                string.Create(CultureInfo.InvariantCulture, $"The model counts at most 0.85 of the sun's strength above the air: {solar:0} of {x.GlobalWm2:0} W/m2.")));
        }

        if (x.SunAltitudeDeg < 0.5 && x.GlobalWm2 > 50)
        {
            findings.Add(new Finding(ExposureFindingCodes.LowSun, FindingSeverity.Caution, "irradiance", "Strong irradiance with the sun at or below the horizon: counted as diffuse; check the inputs."));
        }

        double wind = x.WindMps;
        if (x.WindHeightM != 2)
        {
            int cls = WbgtKernel.StabilityClass(cosZenith > 0, wind, solar, -1);
            wind = WbgtKernel.WindAt2mMps(wind, x.WindHeightM, cls, urban: false);
        }

        double rh = x.RelHumidityPct / 100;
        WbgtRoots roots = WbgtKernel.Solve(x.AirC, rh, wind, pressureHpa, solar, cosZenith, direct);
        double within = WbgtKernel.CertifyK(in roots, x.AirC, rh, wind, pressureHpa, solar, cosZenith, direct);
        double indexC = (HeatIndexKernel.IndexF((x.AirC * 1.8) + 32, x.RelHumidityPct) - 32) / 1.8;
        double utciC = Universal(x, findings);
        var heat = new OutdoorHeat(roots.WbgtC, roots.GlobeC, roots.NaturalWetC, indexC, utciC, within, findings.AsReadOnly());
        if (heat.Category != HeatCategory.None)
        {
            findings.Add(new Finding(ExposureFindingCodes.HeatCategory, heat.Category >= HeatCategory.Three ? FindingSeverity.Warning : FindingSeverity.Caution, "heat",
                string.Create(CultureInfo.InvariantCulture, $"WBGT {Text.F(roots.WbgtC, 1)} C: heat category {(int)heat.Category} of 5.")));
        }

        return heat;
    }

    /// <summary>Work, rest and water of the army table at this heat.</summary>
    /// <param name="intensity">How hard.</param>
    /// <returns>The cell; null below category one, where the table says nothing.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No such intensity.</exception>
    public WorkRestWater? WorkRest(WorkIntensity intensity)
    {
        Guard.Defined(intensity);
        if (Category == HeatCategory.None)
        {
            return null;
        }

        (int minutes, double qt) = HeatTableKernel.Cell((int)Category, (int)intensity);
        return new WorkRestWater(Category, intensity, minutes, qt);
    }

    /// <summary>One line, then findings and cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
        => Render.Lines($"WBGT {Text.F(_wbgtC, 1)} C (globe {Text.F(_globeC, 1)} C, natural wet bulb {Text.F(_wetC, 1)} C), heat index {Text.F(_indexC, 1)} C.", Findings, Cautions);

    private static double Universal(OutdoorConditions x, List<Finding> findings)
    {
        if (double.IsNaN(x.RadiantC))
        {
            return double.NaN;
        }

        double wind = UtciKernel.WindAt10mMps(x.WindMps, x.WindHeightM), above = x.RadiantC - x.AirC;
        if (x.AirC is < UtciKernel.LowestAirC or > UtciKernel.HighestAirC || above is < UtciKernel.LowestRadiantAboveAirK or > UtciKernel.HighestRadiantAboveAirK
            || wind is < UtciKernel.LowestWindMps or > UtciKernel.HighestWindMps)
        {
            findings.Add(new Finding(ExposureFindingCodes.OutsideRange, FindingSeverity.Note, "universal index", "Outside the range the universal thermal climate index was fitted for; not given."));
            return double.NaN;
        }

        return UtciKernel.IndexC(x.AirC, x.RadiantC, wind, x.RelHumidityPct / 100 * UtciKernel.SaturationKpa(x.AirC));
    }
}
