using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>How aerobic capacity falls with height: per cent of the sea-level value.</summary>
internal static class AltitudeKernel
{
    /// <summary>[m] Highest group in the data of the fit.</summary>
    public const double HighestFittedM = 6000;

    [Source("macinnis-2015", "scatter of left-out groups, standard deviation as a share: 4.9 points, 4.2 with the sea-level uptake")]
    public const double ScatterSdFraction = 0.049, ScatterWithUptakeSdFraction = 0.042;

    [Source("macinnis-2015", "typical height of the groups (median 3 000 m), from which on the scatter is taken whole [m]")]
    public const double ScatterFullM = 3000;

    [Source("bassett-1999", "acute")]
    public static double BassettAcutePct(double km) => (((((0.178 * km) - 1.43) * km) - 4.07) * km) + 100;

    [Source("bassett-1999", "acclimatised")]
    public static double BassettAcclimatisedPct(double km) => (((-1.12 * km) - 1.90) * km) + 99.9;

    [Source("peronnet-1991-altitude", "cubic, as a share of 1; times 100 here")]
    public static double PeronnetPct(double km) => 100 * ((((((-0.003 * km) + 0.0081) * km) - 0.0381) * km) + 1);

    [Source("wehrlin-hallen-2006", "6.3 % per km above 0.3 km")]
    public static double WehrlinPct(double km) => 100 - (6.3 * Math.Max(0, km - 0.3));

    [Source("macinnis-2015", "quadratic fitted to 105 groups by study-held-out least squares")]
    public static double FitPct(double km) => 100 - (3.237 * km) - (0.684 * km * km);

    [Source("macinnis-2015", "with sea-level oxygen uptake [mL/(kg min)]")]
    public static double FitPct(double km, double seaLevelMlPerKgMin)
        => 100 - (2.642 * km) - (0.797 * km * km) - (0.0961 * km * (seaLevelMlPerKgMin - 50));
}
