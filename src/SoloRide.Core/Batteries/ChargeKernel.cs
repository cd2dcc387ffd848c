using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>Constant current, then constant voltage with exponentially falling current.</summary>
internal static class ChargeKernel
{
    /// <summary>Taper constant of a nickel-rich cell against temperature: minutes at 22 °C, minutes per K.</summary>
    [Source("kollmeyer-2018", "least squares on total times of 31 charges at 1C to 4.2 V, 15 to 28 °C")]
    public static ReadOnlySpan<double> Taper => [16.2378, -0.392072];

    private const double TaperReferenceC = 22;

    /// <summary>Shortest taper constant believed [min]; below 15 °C and above 28 °C nothing was measured.</summary>
    private const double TaperFloorMin = 5;

    public static double TaperMin(ReadOnlySpan<double> p, double cellC) => Math.Max(TaperFloorMin, p[0] + (p[1] * (cellC - TaperReferenceC)));

    /// <summary>Most charging rate at a cell temperature [C].</summary>
    [Source("cell-sheet-charging", "0 to 5 °C 0.1C, 5 to 15 °C 0.2C, above 1C")]
    public static double MostRateC(double cellC) => cellC < BatteriesConstants.ChargeFloorC ? 0 : cellC < 5 ? 0.1 : cellC < 15 ? 0.2 : 1;

    [Source("cc-cv-charging", "I = min(P·eta/V, C_max·Q)")]
    public static double CurrentA(double usbW, double efficiency, double meanV, double maxRateC, double fullAh) => Math.Min(usbW * efficiency / meanV, maxRateC * fullAh);

    /// <summary>Hours of constant current and to the end of the taper, for a charge still to go in.</summary>
    [Source("cc-cv-charging", "Q_cv = tau (I - I_cut), t_cv = tau ln(I/I_cut)")]
    public static (double ConstantCurrentH, double FullH) Times(double toGoAh, double currentA, double cutA, double tauH)
    {
        double taperAh = tauH * (currentA - cutA);
        if (toGoAh > taperAh)
        {
            double constant = (toGoAh - taperAh) / currentA;
            return (constant, constant + (tauH * Math.Log(currentA / cutA)));
        }

        return (0, tauH * Math.Log((cutA + (toGoAh / tauH)) / cutA));
    }

    /// <summary>Hours until a wanted charge is in; infinite when the taper ends before.</summary>
    [Source("cc-cv-charging", "inverse of the charge put in")]
    public static double TimeTo(double wantedAh, double toGoAh, double currentA, double cutA, double tauH)
    {
        if (wantedAh <= 0)
        {
            return 0;
        }

        double taperAh = tauH * (currentA - cutA), constantAh = toGoAh - taperAh;
        if (wantedAh <= constantAh)
        {
            return wantedAh / currentA;
        }

        double startA = constantAh > 0 ? currentA : cutA + (toGoAh / tauH);
        double constantH = constantAh > 0 ? constantAh / currentA : 0;
        double share = (wantedAh - Math.Max(0, constantAh)) / (tauH * startA);
        return share >= 1 ? double.PositiveInfinity : constantH - (tauH * Math.Log(1 - share));
    }
}
