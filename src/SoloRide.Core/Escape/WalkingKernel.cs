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

    /// <summary>[h] A time-control plan: distance, ascent, and a rest in each hour.</summary>
    public static double TimeControlHours(double distanceMi, double speedMph, double ascentFt)
        => ((distanceMi / speedMph) + (ascentFt / TimeControlAscentFtPerHour)) * (1 + TimeControlRestHours);
}
