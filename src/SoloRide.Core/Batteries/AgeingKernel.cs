using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>Loss of capacity and rise of resistance with time and cycles, for a 2.05 Ah nickel-rich cell.</summary>
internal static class AgeingKernel
{
    [Source("schmalstieg-2014", "cell")]
    public const double CellAh = 2.05;

    /// <summary>Mean voltage of a cycle between 3.0 and 4.2 V.</summary>
    [Source("schmalstieg-2014", "anchor cases at 3.7 V")]
    public const double MeanCycleV = 3.7;

    /// <summary>P10 to P90 half-width of the loss [share of the loss].</summary>
    [Source("assumption-ageing-spread", "packs differ by half of the loss")]
    public const double LossSpread = 0.5;

    [Source("schmalstieg-2014", "calendar: a = (7.543 V - 23.75)·1e6·exp(-6976/T), loss a·t^0.75, t in days")]
    public static double CalendarLoss(double cellC, double storageV, double days)
        => ((7.543 * storageV) - 23.75) * 1e6 * Math.Exp(-6976 / (cellC + Si.ZeroCelsiusK)) * Math.Pow(days, 0.75);

    [Source("schmalstieg-2014", "cycles: b = 7.348e-3 (V - 3.667)² + 7.60e-4 + 4.081e-3 DOD, loss b·sqrt(Q)")]
    public static double CycleLoss(double meanV, double depthFraction, double throughputAh)
        => ((7.348e-3 * (meanV - 3.667) * (meanV - 3.667)) + 7.60e-4 + (4.081e-3 * depthFraction)) * Math.Sqrt(throughputAh);

    [Source("schmalstieg-2014", "resistance: a' = (5.270 V - 16.32)·1e5·exp(-5986/T), b' = 2.153e-4 (V - 3.725)² - 1.521e-5 + 2.798e-4 DOD")]
    public static double Resistance(double cellC, double storageV, double days, double meanV, double depthFraction, double throughputAh)
        => 1 + (((5.270 * storageV) - 16.32) * 1e5 * Math.Exp(-5986 / (cellC + Si.ZeroCelsiusK)) * Math.Pow(days, 0.75))
            + (((2.153e-4 * (meanV - 3.725) * (meanV - 3.725)) - 1.521e-5 + (2.798e-4 * depthFraction)) * throughputAh);

    /// <summary>Throughput, charge and discharge, of equivalent full cycles [Ah of the 2.05 Ah cell].</summary>
    public static double ThroughputAh(double equivalentFullCycles) => equivalentFullCycles * 2 * CellAh;
}
