using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Detection, search and waiting.</summary>
internal static class WaitingKernel
{
    [Source("assumption-response", "R1 3 h: mean response of published rule SR2, 45 min at best SR10")]
    public const double R1Hours = 3;

    [Source("assumption-response", "R2 6 h: mean mission of 5 h of published rule SR1, and the carry")]
    public const double R2Hours = 6;

    [Source("assumption-response", "R3 24 h: most searches end within 24 h, published rules SR6 and SR7; least beacon life SR14")]
    public const double R3Hours = 24;

    [Source("assumption-response", "R4 48 h: 51 h of published rule SR3")]
    public const double R4Hours = 48;

    [Source("plb-life", "least operating life of a distress beacon, published rule SR14")]
    public const double BeaconHours = 24;

    [Source("clo-unit", "0.155 m2 K/W")]
    private const double CloM2KPerW = 0.155;

    [Source("burton-edholm", "share of heat not lost by evaporation")]
    private const double DryShare = 0.76;

    [Source("burton-edholm", "skin at 33 C")]
    private const double SkinC = 33;

    [Source("burton-edholm", "one met: sitting at rest")]
    public const double RestWPerM2 = 58.2;

    [Source("usaf-survival-water", "resting need 2 to 3 quarts a day at about 20 C, published rule WT1: the upper end")]
    public const double RestWaterQuartPerDay = 3;

    [Source("usaf-survival-water", "about 20 C")]
    private const double MildC = 20;

    [Source("dri-2005", "rest in the shade at a daily mean of 30 C: about 5 quarts (Brown 1947, figure 4-16, page 129)")]
    private const double WarmC = 30, WarmQuartPerDay = 5;

    [Source("derived-rest-heat", "heat of evaporation of sweat, 2.426 MJ/L, and a body surface of 1.8 m2")]
    private const double EvaporationJPerL = 2.426e6, SkinM2 = 1.8;

    [Source("derived-rest-heat", "one clo in all, air layer and light clothing")]
    private const double LightClo = 1;

    [Source("iau-quart", "0.946353 L")]
    public const double QuartL = 0.946353;

    /// <summary>
    /// [L/day] Need of water at rest in the shade by the mean air temperature: published at about 20 and 30 C, linear between; above that each kelvin lets
    /// in more heat through light clothing, and all of it must go by sweat.
    /// </summary>
    [Source("derived-rest-heat", "above 30 C: 1.8 m2 / (1 clo) of dry heat a kelvin, evaporated")]
    public static double RestWaterLPerDay(double meanAirC)
    {
        double quart = RestWaterQuartPerDay + ((WarmQuartPerDay - RestWaterQuartPerDay) * Math.Clamp((meanAirC - MildC) / (WarmC - MildC), 0, 1));
        double hot = Math.Max(0, meanAirC - WarmC) * SkinM2 / (CloM2KPerW * LightClo) * 86_400 / EvaporationJPerL;
        return (quart * QuartL) + hot;
    }

    /// <summary>[min] Mean and worst time until silence is noticed.</summary>
    [Source("detection-uniform", "event uniform in the interval, noticed g after the missed time")]
    public static (double MeanMin, double WorstMin) DetectionMin(double intervalMin, double graceMin) => ((intervalMin / 2) + graceMin, intervalMin + graceMin);

    /// <summary>Area that a person moving straight on may have reached: unit of speed times hours, squared.</summary>
    [Source("search-area", "published rule TP10")]
    public static double SearchArea(double hours, double speedPerHour) => Math.PI * hours * speedPerHour * hours * speedPerHour;

    /// <summary>[clo] Insulation needed at balance, the air layer included.</summary>
    [Source("burton-edholm", "(33 - Ta) / (0.155 x 0.76 x M)")]
    public static double InsulationClo(double metabolicWPerM2, double airC) => (SkinC - airC) / (CloM2KPerW * DryShare * metabolicWPerM2);

    /// <summary>[deg] Height of a rim above the horizontal.</summary>
    [Source("horizon-angle", "atan(rise / distance), no curvature, no refraction")]
    public static double HorizonDeg(double rimM, double distanceM) => Math.Atan2(rimM, distanceM) * 180 / Math.PI;

    public static double Hours(ResponseClass c) => c switch
    {
        ResponseClass.R1 => R1Hours,
        ResponseClass.R2 => R2Hours,
        ResponseClass.R3 => R3Hours,
        _ => R4Hours,
    };
}
