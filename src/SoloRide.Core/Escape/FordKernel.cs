using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Limits of wading.</summary>
internal static class FordKernel
{
    [Source("cox-2010", "published rule XR2: design value 0.4 m2/s, which still does not protect every child or frail person")]
    public const double ProductM2PerS = 0.4;

    [Source("assumption-ford", "doubtful from half the design value on: alone, with a bike, on an unknown bed")]
    public const double DoubtfulM2PerS = 0.2;

    [Source("cox-2010", "published rule XR3: difficult and dangerous above 1.2 m of still water")]
    public const double DepthM = 1.2;

    [Source("cox-2010", "published rule XR3: or above 0.8 m/s in shallow water")]
    public const double SpeedMps = 0.8;

    [Source("assumption-ford", "in water up to the ankles (0.1 m) speed alone makes it doubtful, no more")]
    public const double AnkleM = 0.1;

    public static FordVerdict Judge(double depthM, double speedMps)
    {
        double product = depthM * speedMps;
        if (product > ProductM2PerS || depthM > DepthM || (speedMps > SpeedMps && depthM > AnkleM))
        {
            return FordVerdict.DoNotCross;
        }

        return product >= DoubtfulM2PerS || speedMps > SpeedMps ? FordVerdict.Doubtful : FordVerdict.BelowLimit;
    }

    /// <summary>[h] When depth × speed reaches a limit while both change linearly; +infinity when never, 0 when already.</summary>
    public static double WhenProductH(double depthM, double speedMps, double depthRiseMPerH, double speedRiseMpsPerH, double limit)
    {
        double c = (depthM * speedMps) - limit;
        if (c >= 0)
        {
            return 0;
        }

        double a = depthRiseMPerH * speedRiseMpsPerH;
        double b = (depthM * speedRiseMpsPerH) + (speedMps * depthRiseMPerH);
        if (a == 0)
        {
            return b > 0 ? -c / b : double.PositiveInfinity;
        }

        double d = (b * b) - (4 * a * c);
        if (d < 0)
        {
            return double.PositiveInfinity;
        }

        // Both roots in the stable form; the earliest that is not negative.
        double q = -(b + (b >= 0 ? Math.Sqrt(d) : -Math.Sqrt(d))) / 2;
        double t1 = q / a, t2 = q != 0 ? c / q : double.PositiveInfinity;
        double best = double.PositiveInfinity;
        best = t1 >= 0 ? Math.Min(best, t1) : best;
        return t2 >= 0 ? Math.Min(best, t2) : best;
    }

    /// <summary>[h] When a value that changes linearly passes a limit; +infinity when never, 0 when already.</summary>
    public static double WhenH(double value, double risePerH, double limit)
        => value > limit ? 0 : risePerH > 0 ? (limit - value) / risePerH : double.PositiveInfinity;
}
