using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Heat index of the US National Weather Service.</summary>
internal static class HeatIndexKernel
{
    [Source("nws-heat-index", "regression with both adjustments")]
    public static double IndexF(double tF, double rhPct)
    {
        double simple = 0.5 * (tF + 61 + (1.2 * (tF - 68)) + (0.094 * rhPct));
        if ((simple + tF) / 2 < 80)
        {
            return simple;
        }

        double t2 = tF * tF, r2 = rhPct * rhPct;
        double hi = -42.379 + (2.04901523 * tF) + (10.14333127 * rhPct) - (0.22475541 * tF * rhPct) - (6.83783e-3 * t2) - (5.481717e-2 * r2)
            + (1.22874e-3 * t2 * rhPct) + (8.5282e-4 * tF * r2) - (1.99e-6 * t2 * r2);
        if (rhPct < 13 && tF is >= 80 and <= 112)
        {
            hi -= (13 - rhPct) / 4 * Math.Sqrt((17 - Math.Abs(tF - 95)) / 17);
        }
        else if (rhPct > 85 && tF is >= 80 and <= 87)
        {
            hi += (rhPct - 85) / 10 * ((87 - tF) / 5);
        }

        return hi;
    }
}
