using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Wind chill index of 2001 in both unit systems; wind at 10 m above ground.</summary>
internal static class WindChillKernel
{
    [Source("wind-chill-2001", "metric form")]
    public static double IndexC(double airC, double windKmh)
    {
        double p = Math.Pow(windKmh, 0.16);
        return 13.12 + (0.6215 * airC) - (11.37 * p) + (0.3965 * airC * p);
    }

    [Source("wind-chill-2001", "form in F and mph")]
    public static double IndexF(double airF, double windMph)
    {
        double p = Math.Pow(windMph, 0.16);
        return 35.74 + (0.6215 * airF) - (35.75 * p) + (0.4275 * airF * p);
    }
}
