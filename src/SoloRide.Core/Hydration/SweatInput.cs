using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>The numbers a sweat band is computed from; also what sampling over an uncertain ride fills by itself.</summary>
/// <param name="AreaM2">Body surface.</param>
/// <param name="MetabolicWpm2">Metabolic rate.</param>
/// <param name="WorkWpm2">Mechanical power that leaves the body.</param>
/// <param name="AirC">Air temperature.</param>
/// <param name="RelHumidityFraction">Relative humidity.</param>
/// <param name="AirMps">Air speed over the body.</param>
/// <param name="SunPerRadiatingWpm2">Sunlight taken up per radiating surface.</param>
/// <param name="ClothingClo">Clothing insulation.</param>
/// <param name="PermeabilityFactor">Vapour permeability index.</param>
/// <param name="Acclimatised">Heat acclimatisation.</param>
/// <param name="HeatStrainGpm2h">Rate by predicted heat strain; NaN when not computed.</param>
internal readonly record struct SweatInput(
    double AreaM2,
    double MetabolicWpm2,
    double WorkWpm2,
    double AirC,
    double RelHumidityFraction,
    double AirMps,
    double SunPerRadiatingWpm2,
    double ClothingClo,
    double PermeabilityFactor,
    Known Acclimatised,
    double HeatStrainGpm2h = double.NaN)
{
    /// <summary>Heat from the sun per body surface: the parts that face each other take none.</summary>
    public double SunWpm2 => SweatKernel.RadiatingShareFraction * SunPerRadiatingWpm2;

    public double InsulationM2KPerW => SweatKernel.DynamicInsulationM2KPerW(ClothingClo, AirMps, MetabolicWpm2);

    public double EreqWpm2 => MetabolicWpm2 - WorkWpm2 - SweatKernel.DryWpm2(AirC, InsulationM2KPerW) + SunWpm2;

    public double EmaxWpm2 => SweatKernel.EmaxWpm2(PermeabilityFactor, InsulationM2KPerW, AirC, RelHumidityFraction);

    /// <summary>The band per square metre; no allocation.</summary>
    public SweatBand Band()
    {
        double insulation = InsulationM2KPerW;
        return SweatKernel.Band(
            MetabolicWpm2 - WorkWpm2 - SweatKernel.DryWpm2(AirC, insulation),
            SunWpm2,
            SweatKernel.EmaxWpm2(PermeabilityFactor, insulation, AirC, RelHumidityFraction),
            MetabolicWpm2,
            WorkWpm2,
            HeatStrainGpm2h);
    }

    /// <summary>The band for the whole body [L/h], acclimatisation included; no allocation.</summary>
    public void Scale(in SweatBand band, out double lowLph, out double typicalLph, out double highLph)
    {
        double toLph = AreaM2 / 1000;
        lowLph = band.LowGpm2h * toLph;
        typicalLph = band.TypicalGpm2h * toLph * (Acclimatised == Known.Yes ? SweatKernel.AcclimatisedFactor : 1);
        highLph = band.HighGpm2h * toLph * (Acclimatised == Known.No ? 1 : SweatKernel.AcclimatisedFactor);
    }

    /// <summary>From the public input: priors where something is unknown, each with a finding.</summary>
    public static SweatInput From(SweatConditions c, List<Finding> findings)
    {
        double mass = Si.Kg(c.Rider.Mass), height = Si.M(c.Rider.Height);
        if (double.IsNaN(mass) || double.IsNaN(height))
        {
            findings.Add(new Finding(HydrationFindingCodes.BodyAssumed, FindingSeverity.Note, "Rider",
                $"Unknown mass counts as {Text.F(SweatConstants.PriorMassKg, 0)} kg, unknown height as {Text.F(SweatConstants.PriorHeightM, 2)} m."));
            mass = double.IsNaN(mass) ? SweatConstants.PriorMassKg : mass;
            height = double.IsNaN(height) ? SweatConstants.PriorHeightM : height;
        }

        double work = double.IsNaN(c.WorkW) ? 0 : c.WorkW;
        if (work >= c.MetabolicW)
        {
            throw new ArgumentException(
                $"WorkPower is {Text.F(work, 0)} W; it must be below the metabolic rate of {Text.F(c.MetabolicW, 0)} W.", nameof(c));
        }

        double humidity = c.Weather.RelHumidityPct, air = double.IsNaN(c.AirMps) ? c.Weather.WindMps : c.AirMps;
        if (double.IsNaN(humidity) || double.IsNaN(air))
        {
            findings.Add(new Finding(HydrationFindingCodes.WeatherAssumed, FindingSeverity.Caution, "Weather",
                $"Unknown humidity counts as {Text.F(SweatConstants.PriorHumidityPct, 0)} %, unknown air speed as {Text.F(SweatConstants.PriorAirMps, 0)} m/s."));
            humidity = double.IsNaN(humidity) ? SweatConstants.PriorHumidityPct : humidity;
            air = double.IsNaN(air) ? SweatConstants.PriorAirMps : air;
        }

        double area = SweatKernel.SurfaceM2(mass, height);
        var input = new SweatInput(
            area, c.MetabolicW / area, work / area, c.Weather.AirTempC, humidity / 100, air,
            c.SolarLoadWPerM2, c.ClothingClo, c.VapourPermeabilityFactor, c.Rider.HeatAcclimatised);
        input.CheckRange(findings);
        return input with { HeatStrainGpm2h = SweatHeatStrain.Gpm2h(in input, mass, height, c.Duration.TotalMinutes) };
    }

    private void CheckRange(List<Finding> findings)
    {
        var outside = new List<string>(6);
        double vapour = RelHumidityFraction * SweatKernel.SaturationKpa(AirC);
        // Predicted heat strain covers 15 to 50 °C, up to 3 m/s and 100 to 450 W/m²: nearly the same range.
        Check(AirC, SweatConstants.LeastAirC, SweatConstants.MostAirC, "air temperature", "°C", 0);
        Check(vapour, SweatConstants.LeastVapourKpa, SweatConstants.MostVapourKpa, "vapour pressure", "kPa", 2);
        Check(AirMps, SweatConstants.LeastAirMps, SweatConstants.MostAirMps, "air speed", "m/s", 1);
        Check(MetabolicWpm2, 0, SweatConstants.MostMetabolicWpm2, "metabolic rate", "W/m2", 0);
        Check(EreqWpm2, SweatConstants.LeastEreqWpm2, SweatConstants.MostEreqWpm2, "required evaporation", "W/m2", 0);
        Check(EmaxWpm2, SweatConstants.LeastEmaxWpm2, SweatConstants.MostEmaxWpm2, "greatest evaporation", "W/m2", 0);
        if (outside.Count > 0)
        {
            findings.Add(new Finding(HydrationFindingCodes.OutsideModel, FindingSeverity.Caution, "sweat models",
                "Outside the range the models were measured in: " + string.Join("; ", outside)
                + (AirMps > SweatKernel.LargestAirMps ? $". Air speed counts as {Text.F(SweatKernel.LargestAirMps, 0)} m/s." : ".")
                + $" No model counts below 0 or above {Text.F(SweatKernel.GreatestGpm2h * AreaM2 / 1000, 2)} L/h."
                + " The band is a guess there; weigh yourself before and after such rides."));
        }

        void Check(double value, double least, double most, string what, string unit, int decimals)
        {
            if (value < least || value > most)
            {
                outside.Add($"{what} {Text.F(value, decimals)} {unit} (range {Text.F(least, decimals)} to {Text.F(most, decimals)})");
            }
        }
    }
}
