using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>Capacity that time and cycles have left in a nickel-rich lithium-ion pack.</summary>
/// <remarks>
/// Published for one 2.05 Ah NMC cell; calendar part from tests at 35 to 50 °C, cycles near 35 °C and 1C; no knee, no cold plating. Packs differ: the range
/// is wide, and a discharge log of your own pack beats it. Static and pure; safe to call from any thread.
/// </remarks>
[Entry]
public static class AgeingEstimator
{
    /// <summary>Works the health out.</summary>
    /// <param name="history">How the pack was kept and used.</param>
    /// <returns>What is left; held to 0.05 to 1 with a finding.</returns>
    /// <exception cref="ArgumentNullException">No history.</exception>
    public static PackAge Health(PackHistory history)
    {
        Guard.NotNull(history);
        double storageV = NickelCellKernel.OpenV(1 - history.StorageChargeFraction);
        double throughput = AgeingKernel.ThroughputAh(history.FullCycles);
        double calendar = Math.Max(0, AgeingKernel.CalendarLoss(history.StorageC, storageV, history.Age.TotalDays));
        double cycle = AgeingKernel.CycleLoss(AgeingKernel.MeanCycleV, history.DepthFraction, throughput);
        double resistance = AgeingKernel.Resistance(history.StorageC, storageV, history.Age.TotalDays, AgeingKernel.MeanCycleV, history.DepthFraction, throughput);
        double raw = 1 - calendar - cycle, health = Math.Clamp(raw, 0.05, 1);
        var findings = new List<Finding>();
        if (raw < 0.6)
        {
            findings.Add(new Finding(BatteriesFindingCodes.OldPack, FindingSeverity.Caution, "pack", "Less than 60 % is left by the model, which knows no sudden end of life: test the pack or replace it."));
        }

        double spread = AgeingKernel.LossSpread * (1 - health);
        return new PackAge(
            SoloRide.Estimate.Of(Share(health), Share(Math.Max(0.05, health - spread)), Share(Math.Min(1, health + spread))), health, calendar, cycle, Math.Max(1, resistance), findings);
    }

    private static Ratio Share(double fraction) => Ratio.FromDecimalFractions(fraction);
}
