using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>Published sweat equations [g/(m² h)] and the heat balance that feeds them [W/m² of body surface].</summary>
internal static class SweatKernel
{
    [Source("shapiro-1982", "skin temperature of the heat balance")]
    public const double SkinC = 36;

    [Source("shapiro-1982", "evaporative coefficient, 2.2 K/mmHg")]
    public const double LewisKPerKpa = 16.5;

    [Source("iso-9920", "1 clo in m² K/W")]
    public const double CloM2KPerW = 0.155;

    /// <summary>Original equation; overpredicts outside its range. NaN where no heat has to be lost by sweat.</summary>
    [Source("shapiro-1982", "original equation")]
    public static double OriginalGpm2h(double ereqWpm2, double emaxWpm2)
        => ereqWpm2 > 0 ? 27.9 * ereqWpm2 * Math.Pow(emaxWpm2, -0.455) : double.NaN;

    [Source("gonzalez-2009", "corrected equation")]
    public static double CorrectedGpm2h(double originalGpm2h) => 147 * Math.Exp(0.0012 * originalGpm2h);

    /// <summary>Not clamped: below zero where the evaporative power is large.</summary>
    [Source("gonzalez-2009", "piecewise equation")]
    public static double PiecewiseGpm2h(double ereqWpm2, double emaxWpm2) => 147 + (1.527 * ereqWpm2) - (0.87 * emaxWpm2);

    [Source("gonzalez-2009", "piecewise equation, cool weather")]
    public static double PiecewiseCoolGpm2h(double ereqWpm2, double emaxWpm2) => 350 + (1.527 * ereqWpm2) - (0.87 * emaxWpm2);

    /// <summary>Observed rate in sun from the piecewise equation with the sun in the heat balance.</summary>
    [Source("gonzalez-2012", "regression on 33 sunny cases")]
    public static double SunnyGpm2h(double piecewiseWithSunGpm2h) => (0.72 * piecewiseWithSunGpm2h) + 135;

    /// <summary>Dry heat loss.</summary>
    [Source("shapiro-1982", "heat balance")]
    public static double DryWpm2(double operativeC, double insulationM2KPerW) => (SkinC - operativeC) / insulationM2KPerW;

    /// <summary>Greatest evaporative heat loss.</summary>
    [Source("shapiro-1982", "heat balance")]
    public static double EmaxWpm2(double permeabilityIndex, double insulationM2KPerW, double airC, double relHumidityFraction)
        => LewisKPerKpa * permeabilityIndex * (SaturationKpa(SkinC) - (relHumidityFraction * SaturationKpa(airC))) / insulationM2KPerW;

    [Source("tetens", "0.6105 exp(17.27 t / (t + 237.3)) kPa")]
    public static double SaturationKpa(double tempC) => 0.6105 * Math.Exp(17.27 * tempC / (tempC + 237.3));

    /// <summary>Body surface.</summary>
    [Source("dubois-1916", "0.202 m^0.425 h^0.725")]
    public static double SurfaceM2(double massKg, double heightM) => 0.202 * Math.Pow(massKg, 0.425) * Math.Pow(heightM, 0.725);

    [Source("iso-7933-2004", "clothing area factor")]
    public const double ClothingAreaPerClo = 0.30;

    [Source("iso-7933-2004", "static insulation of the air layer, m² K/W")]
    public const double StillAirM2KPerW = 0.111;

    [Source("iso-7933-2004", "radiating share of the body's surface, sitting")]
    public const double RadiatingShareFraction = 0.70;

    [Source("iso-7933-2004", "largest speeds of the dynamic corrections, m/s")]
    public const double LargestAirMps = 3, LargestWalkMps = 1.5;

    [Source("iso-7933-2004", "walking speed from metabolic rate, largest 0.7 m/s")]
    public static double BodyMotionMps(double metabolicWpm2) => Math.Clamp(0.0052 * (metabolicWpm2 - 58), 0, 0.7);

    /// <summary>Total insulation of clothing and air layer with air movement and body motion.</summary>
    [Source("iso-7933-2004", "dynamic clothing insulation")]
    public static double DynamicInsulationM2KPerW(double clothingClo, double airMps, double metabolicWpm2)
    {
        double v = Math.Min(airMps, LargestAirMps), w = BodyMotionMps(metabolicWpm2);
        double still = (CloM2KPerW * clothingClo) + (StillAirM2KPerW / (1 + (ClothingAreaPerClo * clothingClo)));
        double clothed = Math.Min(1, 1.044 * Math.Exp((((0.066 * v) - 0.398) * v) + (((0.094 * w) - 0.378) * w)));
        double air = Math.Min(1, Math.Exp((((0.047 * v) - 0.472) * v) + (((0.117 * w) - 0.342) * w)));
        double total = clothingClo >= 0.6 ? clothed : (((0.6 - clothingClo) * air) + (clothingClo * clothed)) / 0.6;
        return still * total;
    }

    /// <summary>Absorbed sun at which the sunny regression has fully replaced the shade equation; below it both are mixed.</summary>
    [Source("assumption-sun-blend", "linear from shade to full sun")]
    public const double FullSunWpm2 = 120;

    [Source("gonzalez-2009", "standard error of estimate, upper bound")]
    public const double ResidualGpm2h = 100;

    [Source("barnes-2019", "spread of endurance athletes, 0.57 of 1.28 L/h")]
    public const double AthleteSpreadFraction = 0.57 / 1.28;

    [Source("assumption-hard-riding", "metabolic rates between which the athletes' spread comes in")]
    public const double SteadyWpm2 = 165, HardWpm2 = 290;

    [Source("assumption-acclimatised-sweat", "after pilot figures of +36 to +58 % local rates")]
    public const double AcclimatisedFactor = 1.15;

    /// <summary>No model gives more than the greatest sweat rate of an acclimatised person, 500 W/m²: the equations explode where nothing evaporates.</summary>
    [Source("iso-7933-2023", "greatest sweat rate, acclimatised; 2.67 g for each 1.8 Wh")]
    public const double GreatestGpm2h = 500 * GramsPerWattHour, GramsPerWattHour = 2.67 / 1.8;

    [Source("shapiro-1982", "range of the greatest evaporative loss")]
    public const double LeastEmaxWpm2 = 20;

    [Source("fanger-1970", "sweating of people who feel comfortable: 0.42 (heat made - 58.15) W/m2")]
    public const double ComfortSlope = 0.42, ComfortOffsetWpm2 = 58.15;

    /// <summary>How far real sweating lies from the comfort line when people dress as they please.</summary>
    [Source("assumption-comfort-spread", "P10 to P90 as a factor each way")]
    public const double ComfortSpreadFactor = 2;

    /// <summary>
    /// Sweat of somebody who dresses so as to feel comfortable. The equations for heat know no cool air: they take a skin of 35 degrees and fixed clothes,
    /// and give nothing; a rider in the cold puts on a layer and sweats under it.
    /// </summary>
    /// <param name="heatWpm2">Metabolic rate less mechanical power.</param>
    public static double ComfortGpm2h(double heatWpm2) => Math.Min(GreatestGpm2h, Math.Max(0, ComfortSlope * (heatWpm2 - ComfortOffsetWpm2)) * GramsPerWattHour);

    /// <summary>The band over models, per square metre.</summary>
    /// <param name="ereqShadeWpm2">Heat to be lost by sweat without the sun's share.</param>
    /// <param name="sunWpm2">Heat absorbed from the sun.</param>
    /// <param name="emaxWpm2">Greatest evaporative loss.</param>
    /// <param name="metabolicWpm2">Metabolic rate, for the spread.</param>
    /// <param name="workWpm2">Mechanical power that leaves the body.</param>
    /// <param name="heatStrainGpm2h">Rate by predicted heat strain; NaN when not computed.</param>
    public static SweatBand Band(double ereqShadeWpm2, double sunWpm2, double emaxWpm2, double metabolicWpm2, double workWpm2, double heatStrainGpm2h)
    {
        double ereq = ereqShadeWpm2 + sunWpm2;
        double emax = Math.Max(emaxWpm2, LeastEmaxWpm2);
        double corrected = Math.Min(GreatestGpm2h, CorrectedGpm2h(ereq > 0 ? OriginalGpm2h(ereq, emax) : 0));
        double shade = PiecewiseGpm2h(ereq, emax);
        double sunny = Math.Clamp(sunWpm2 / FullSunWpm2, 0, 1);
        double piecewise = Math.Clamp(((1 - sunny) * shade) + (sunny * SunnyGpm2h(shade)), 0, GreatestGpm2h);
        double cool = Math.Clamp(PiecewiseCoolGpm2h(ereq, emax), 0, GreatestGpm2h);
        double low = Math.Min(corrected, Math.Min(piecewise, cool)), high = Math.Max(corrected, Math.Max(piecewise, cool)), typical;
        if (double.IsNaN(heatStrainGpm2h))
        {
            typical = corrected + piecewise + cool - low - high;
        }
        else
        {
            double all = corrected + piecewise + cool + heatStrainGpm2h;
            low = Math.Min(low, heatStrainGpm2h);
            high = Math.Max(high, heatStrainGpm2h);
            typical = 0.5 * (all - low - high);
        }

        double hard = Math.Clamp((metabolicWpm2 - SteadyWpm2) / (HardWpm2 - SteadyWpm2), 0, 1);
        double above = NormalKernel.Z90 * Math.Max(ResidualGpm2h, hard * AthleteSpreadFraction * high);
        double comfort = ComfortGpm2h(metabolicWpm2 - workWpm2);
        return new SweatBand(
            Math.Max(comfort / ComfortSpreadFactor, low - (NormalKernel.Z90 * ResidualGpm2h)), Math.Max(comfort, Math.Clamp(typical, low, high)),
            Math.Max(comfort * ComfortSpreadFactor, high + above), corrected, piecewise, cool, heatStrainGpm2h, comfort);
    }

    /// <summary>A value of the band at a standard normal deviate: two half-normals that meet at the typical value, never below zero.</summary>
    public static double AtDeviate(double low, double typical, double high, double deviate)
        => Math.Max(0, typical + (deviate / NormalKernel.Z90 * (deviate > 0 ? high - typical : typical - low)));
}
