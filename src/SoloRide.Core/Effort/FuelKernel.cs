using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Energy and fuel from oxygen and carbon dioxide (L/min). Results are not clamped at zero.</summary>
internal static class FuelKernel
{
    [Source("peronnet-massicotte-1991", "non-protein quotient of fat alone")]
    public const double FatQuotient = 0.7036;

    [Source("peronnet-massicotte-1991", "quotient of carbohydrate alone less that of fat alone, as the table's closed form")]
    private const double QuotientSpan = 0.2925;

    [Source("peronnet-massicotte-1991", "kcal per litre of oxygen from fat and from carbohydrate")]
    private const double FatKcalPerL = 4.851, CarbohydrateKcalPerL = 5.189;

    [Source("peronnet-massicotte-1991", "largest quotient of the table")]
    public const double HighestQuotient = 0.996;

    /// <summary>Energy in a gram of carbohydrate as food labels count it [kcal/g].</summary>
    [Source("atwater-factors", "carbohydrate")]
    public const double KcalPerGramCarbohydrate = 4;

    [Source("peronnet-massicotte-1991", "closed form of the table")]
    public static double KcalPerL(double quotient)
    {
        double f = (quotient - FatQuotient) / QuotientSpan;
        return (FatKcalPerL * (1 - f)) + (CarbohydrateKcalPerL * f);
    }

    [Source("peronnet-massicotte-1991", "closed form of the table [% of energy]")]
    public static double CarbohydratePct(double quotient)
    {
        double f = (quotient - FatQuotient) / QuotientSpan;
        return 100 * CarbohydrateKcalPerL * f / ((FatKcalPerL * (1 - f)) + (CarbohydrateKcalPerL * f));
    }

    /// <summary>The classic table, which pages round to two decimals of the quotient; kept for its published examples only.</summary>
    [Source("lusk-1924", "as a line through the classic table [kcal/L]")]
    public static double LuskKcalPerL(double quotient) => 3.815 + (1.232 * quotient);

    [Source("weir-1949", "without nitrogen [kcal/min]")]
    public static double WeirKcalPerMin(double vo2, double vco2) => (3.9 * vo2) + (1.1 * vco2);

    [Source("brockway-1987", "without nitrogen [kJ/min]")]
    public static double BrockwayKjPerMin(double vo2, double vco2) => (16.58 * vo2) + (4.51 * vco2);

    [Source("frayn-1983", "carbohydrate, without nitrogen [g/min]")]
    public static double FraynCarbohydrate(double vo2, double vco2) => (4.55 * vco2) - (3.21 * vo2);

    [Source("frayn-1983", "fat, without nitrogen [g/min]")]
    public static double FraynFat(double vo2, double vco2) => (1.67 * vo2) - (1.67 * vco2);

    [Source("jeukendrup-wallis-2005", "carbohydrate at low intensity [g/min]")]
    public static double JeukendrupLowCarbohydrate(double vo2, double vco2) => (4.344 * vco2) - (3.061 * vo2);

    [Source("jeukendrup-wallis-2005", "carbohydrate at moderate to high intensity [g/min]")]
    public static double JeukendrupHighCarbohydrate(double vo2, double vco2) => (4.210 * vco2) - (2.962 * vo2);

    [Source("jeukendrup-wallis-2005", "fat at any intensity [g/min]")]
    public static double JeukendrupFat(double vo2, double vco2) => (1.695 * vo2) - (1.701 * vco2);

    [Source("telmosse-2022", "carbohydrate [g/min]")]
    public static double TelmosseCarbohydrate(double vo2, double vco2) => (4.618 * vco2) - (3.279 * vo2);

    [Source("telmosse-2022", "fat [g/min]")]
    public static double TelmosseFat(double vo2, double vco2) => 1.712 * (vo2 - vco2);

    /// <summary>Share of energy from carbohydrate at a share of maximal oxygen uptake.</summary>
    [Source("rapoport-2010", "fit of the share by intensity")]
    public static double CarbohydrateShare(double uptakeShare) => (0.565973 * uptakeShare * uptakeShare) + (0.376443 * uptakeShare) - 0.000295601;

    [Source("acsm-leg", "by load: 1.8 kgm/min per kg and 7")]
    public static double AcsmLegMlPerKgMin(double kgmPerMin, double massKg) => (1.8 * kgmPerMin / massKg) + 7;

    [Source("acsm-leg", "by watts: 10.8 W per kg and 7")]
    public static double AcsmLegWattsMlPerKgMin(double watts, double massKg) => (10.8 * watts / massKg) + 7;

    [Source("hill-critical-power", "time to exhaustion [s]; infinite at or below the critical power")]
    public static double CriticalPowerS(double powerW, double criticalW, double reserveJ)
        => powerW > criticalW ? reserveJ / (powerW - criticalW) : double.PositiveInfinity;

    [Source("keytel-2005", "[kJ/min]")]
    public static double KeytelKjPerMin(Sex sex, double bpm, double kg, double years) => sex == Sex.Male
        ? -55.0969 + (0.6309 * bpm) + (0.1988 * kg) + (0.2017 * years)
        : -20.4022 + (0.4472 * bpm) - (0.1263 * kg) + (0.074 * years);

    [Source("keytel-2005", "with maximal oxygen uptake [kJ/min]")]
    public static double KeytelKjPerMin(Sex sex, double bpm, double kg, double years, double uptake) => sex == Sex.Male
        ? -95.7735 + (0.634 * bpm) + (0.404 * uptake) + (0.394 * kg) + (0.271 * years)
        : -59.3954 + (0.450 * bpm) + (0.380 * uptake) + (0.103 * kg) + (0.274 * years);
}
