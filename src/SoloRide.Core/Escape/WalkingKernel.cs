using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Rules of thumb and fitted laws for speed on foot.</summary>
internal static class WalkingKernel
{
    [Source("tobler-1993", "hiking function, published rule WK4: 6 km/h at a grade of -5 %")]
    private const double ToblerPeakKmh = 6;

    [Source("tobler-1993", "hiking function: decay with the grade's distance from the best grade")]
    private const double ToblerDecay = 3.5;

    [Source("tobler-1993", "hiking function: the best grade is -5 %")]
    private const double ToblerBestGradeFraction = -0.05;

    /// <summary>Share of the speed on a path that is left off the path.</summary>
    [Source("tobler-1993", "off-path factor, published rule WK4")]
    public const double ToblerOffPathFactor = 0.6;

    [Source("naismith-1892", "1 h for 5 km, published rule WK1")]
    private const double NaismithKmh = 5;

    [Source("naismith-1892", "and 1 h for 600 m of ascent, published rule WK1")]
    private const double NaismithAscentMPerHour = 600;

    [Source("scarf-8to1", "8 km on the flat for 1 km of ascent, published rule WK1, worked example 28 km")]
    private const double FlatPerAscent = 8;

    [Source("langmuir", "10 min for 300 m of descent, published rule WK3")]
    private const double LangmuirDescentM = 300;

    [Source("langmuir", "10 min for 300 m of descent, published rule WK3")]
    private const double LangmuirHours = 1.0 / 6;

    [Source("langmuir", "less on 5 to 12 degrees, published rule WK3")]
    private const double LangmuirGentleFromDeg = 5;

    [Source("langmuir", "more when steeper than 12 degrees, published rule WK3")]
    private const double LangmuirSteepFromDeg = 12;

    [Source("curtis-time-control", "1 h for 1 000 ft of ascent, published rule WK7")]
    private const double TimeControlAscentFtPerHour = 1000;

    [Source("curtis-time-control", "5 min of rest an hour, published rule WK7")]
    private const double TimeControlRestHours = 5.0 / 60;

    /// <summary>Slopes that the quantile curves were fitted to.</summary>
    [Source("campbell-2019", "valid from -30 to 30 degrees, published rule WK9")]
    public const double QuantileCurveMaxDeg = 30;

    public static double ToblerKmh(double gradeFraction)
        => ToblerPeakKmh * Math.Exp(-ToblerDecay * Math.Abs(gradeFraction - ToblerBestGradeFraction));

    public static double NaismithHours(double distanceKm, double ascentM)
        => (distanceKm / NaismithKmh) + (ascentM / NaismithAscentMPerHour);

    public static double FlatEquivalentKm(double distanceKm, double ascentM)
        => distanceKm + (FlatPerAscent * ascentM / 1000);

    public static double LangmuirHoursFor(double distanceKm, double ascentM, double gentleDescentM, double steepDescentM)
        => NaismithHours(distanceKm, ascentM)
            + ((steepDescentM - gentleDescentM) / LangmuirDescentM * LangmuirHours);

    /// <summary>+1 adds time, -1 saves it, 0 leaves it.</summary>
    public static int LangmuirDescentSign(double slopeDownDeg)
        => slopeDownDeg > LangmuirSteepFromDeg ? 1 : slopeDownDeg >= LangmuirGentleFromDeg ? -1 : 0;

    public static double TimeControlHours(double distanceMi, double speedMph, double ascentFt)
        => ((distanceMi / speedMph) + (ascentFt / TimeControlAscentFtPerHour)) * (1 + TimeControlRestHours);

    /// <summary>Travel rate of one percentile of walkers and runners; NaN outside the fitted slopes.</summary>
    /// <param name="slopeDeg">[deg, -30 to 30] Uphill positive.</param>
    /// <param name="aDeg">Place of the peak.</param>
    /// <param name="bDeg">Half width.</param>
    /// <param name="c">Height of the peak.</param>
    /// <param name="d">Level.</param>
    /// <param name="e">Tilt.</param>
    /// <returns>[m/s]</returns>
    [Source("campbell-2019", "Lorentz curve with tilt, published rule WK9")]
    public static double QuantileRateMps(double slopeDeg, double aDeg, double bDeg, double c, double d, double e)
    {
        if (!(Math.Abs(slopeDeg) <= QuantileCurveMaxDeg))
        {
            return double.NaN;
        }

        double z = (slopeDeg - aDeg) / bDeg;
        return (c / (Math.PI * bDeg * (1 + (z * z)))) + d + (e * slopeDeg);
    }

    /// <summary>Coefficient sets whose published rows contradict themselves are not evaluated.</summary>
    /// <param name="model">Name of the set.</param>
    /// <returns>Whether the set may be used.</returns>
    [Source("sullivan-2020", "coefficients in circulation look reversed, one curve is negative; published rule WK10: not used unread")]
    public static bool IsUsable(string model) => model.StartsWith("campbell", StringComparison.OrdinalIgnoreCase);
}
