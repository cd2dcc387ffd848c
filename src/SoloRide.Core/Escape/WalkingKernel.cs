using SoloRide.Effort;
using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Rules of thumb for speed on foot; the laws that riders on foot share live with effort.</summary>
internal static class WalkingKernel
{
    /// <summary>Share of the speed on a path that is left off the path.</summary>
    [Source("tobler-1993", "off-path factor, published rule WK4")]
    public const double ToblerOffPathFactor = 0.6;

    [Source("curtis-time-control", "1 h for 1 000 ft of ascent, published rule WK7")]
    private const double TimeControlAscentFtPerHour = 1000;

    [Source("curtis-time-control", "5 min of rest an hour, published rule WK7")]
    private const double TimeControlRestHours = 5.0 / 60;

    /// <summary>[km/h] Speed on a path.</summary>
    [Source("tobler-1993", "hiking function, published rule WK4")]
    public static double ToblerKmh(double gradeFraction) => HikingKernel.ToblerKmh(gradeFraction, offPath: false);

    /// <summary>[degrees] Steepest slope that the curves were made for.</summary>
    [Source("campbell-2019", "published rule WK9: curves over -30 to 30 degrees")]
    public const double RateCurveSlopeDeg = 30;

    /// <summary>[m/s] Walking rate at a slope by a family of curves; NaN outside their slopes.</summary>
    /// <exception cref="NotSupportedException">The family contradicts itself.</exception>
    [Source("sullivan-2020", "published rule WK10: labels reversed, one curve negative at 20 degrees; refused")]
    public static double RateMps(RateCurves curves, double slopeDeg, double percentile)
        => curves != RateCurves.Campbell2019
            ? throw new NotSupportedException("The walking rates sullivan2020 are refused: their percentiles run backward and one of them is negative at 20 degrees; the paper was not read.")
            : Math.Abs(slopeDeg) <= RateCurveSlopeDeg ? HikingKernel.CampbellMps(Math.Tan(slopeDeg * Math.PI / 180), percentile) : double.NaN;

    /// <summary>[h] A time-control plan: distance, ascent, and a rest in each hour.</summary>
    public static double TimeControlHours(double distanceMi, double speedMph, double ascentFt)
        => ((distanceMi / speedMph) + (ascentFt / TimeControlAscentFtPerHour)) * (1 + TimeControlRestHours);
}
