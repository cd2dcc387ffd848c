using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>
/// Pulse resistance of a nickel-rich cell against temperature, charge removed and pulse rate:
/// ln R = p0 + p1 x + (p2 + p3 x) e + p10 q + x (p5 x + p11 e) ln c + ln(1 + exp((q - p6 - p7 x)/(p8 + p9 x))), e = exp(-q/p4), x = 1000/T - 1000/298.15.
/// </summary>
/// <remarks>
/// Twelve numbers for each of the two times. The first exponential is the rise of the full cell, the last term that of the empty one, which comes
/// earlier in the cold; the rate lowers resistance in the cold (charge transfer). Whole charge levels left out: rms(ln) 0.053 at 0.3 s, 0.087 at 10 s.
/// Valid 25 to -20 °C, 0.5C to 2C.
/// </remarks>
internal static class ResistanceKernel
{
    /// <summary>Fall of ln R per ln(rate) and x² [K²·1e-6], 10 s.</summary>
    public const double RateSlope = 0.715866;

    [Source("kollmeyer-2018", "least squares on pulses, 0.3 s")]
    public static ReadOnlySpan<double> At0p3s => [-3.47202, 2.68859, 0.240824, -0.047957, 0.276899, -0.366468, 2.64326, 0.376301, 0.36091, 0.261207, -0.0822864, -0.101664];

    [Source("kollmeyer-2018", "least squares on pulses, 10 s")]
    public static ReadOnlySpan<double> At10s => [-3.16349, 2.72766, 0.16922, 0.463478, 0.24077, -0.715866, 2.51076, -0.717113, 0.163525, 0.0500922, -0.0726158, -0.492556];

    /// <summary>Resistance of the measured 2.9 Ah cell [ohm, natural logarithm].</summary>
    public static double LnOhm(ReadOnlySpan<double> p, double cellC, double removedAh, double rateC)
    {
        double x = (1000 / (cellC + Si.ZeroCelsiusK)) - (1000 / 298.15);
        double full = Math.Exp(-removedAh / Math.Max(0.02, p[4]));
        double width = Math.Max(0.02, p[8] + (p[9] * x));
        double u = (removedAh - p[6] - (p[7] * x)) / width;
        double empty = u > 30 ? u : Math.Log(1 + Math.Exp(u));
        return p[0] + (p[1] * x) + ((p[2] + (p[3] * x)) * full) + (p[10] * removedAh) + (x * ((p[5] * x) + (p[11] * full)) * Math.Log(rateC)) + empty;
    }

    /// <summary>Ten-second resistance of a cell of another size [ohm]: depth and rate kept, resistance over size.</summary>
    [Source("assumption-cell-scaling", "depth, rate in C and R·Ah kept")]
    public static double Ohm(double cellC, double depthFraction, double rateC, double ratedAh)
        => Math.Exp(LnOhm(At10s, cellC, depthFraction * NickelCellKernel.RatedAh, Math.Clamp(rateC, 0.5, 2))) * NickelCellKernel.RatedAh / ratedAh;
}
