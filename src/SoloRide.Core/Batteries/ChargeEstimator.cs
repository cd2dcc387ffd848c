using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>Charging time of a lithium-ion pack by constant current and constant voltage, with the limits of the cold.</summary>
/// <remarks>
/// Never charge below 0 °C, and never a damaged, swollen or wet cell. Measured on one nickel-rich cell at 1C, 15 to 28 °C: mean error 5 %, worst 14 %
/// in blocks left out. Static and pure; safe to call from any thread.
/// </remarks>
[Entry]
public static class ChargeEstimator
{
    /// <summary>Works the times out.</summary>
    /// <param name="pack">Lithium-ion pack.</param>
    /// <param name="fromFraction">[share of 1] State of charge at the beginning.</param>
    /// <param name="atDevice">Power that the device takes from its cable; 0.1 to 240 W.</param>
    /// <param name="cellTemperature">Of the cells, -40 to 60 °C.</param>
    /// <returns>Times, or none with a finding when the cells are too cold or must not be charged.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public static ChargeTimes Estimate(CellPack pack, double fromFraction, Power atDevice, Temperature cellTemperature)
    {
        Guard.NotNull(pack);
        double soc = Guard.Fraction(fromFraction);
        double w = Guard.InRange((double)atDevice.Watts, 0.1, 240, "W", nameof(atDevice));
        double tC = Guard.InRange(cellTemperature.DegreesCelsius, -40, 60, "C", nameof(cellTemperature));
        var findings = new List<Finding>();
        if (pack.Chemistry is CellChemistry.PrimaryLithium or CellChemistry.Alkaline or CellChemistry.NickelMetalHydride)
        {
            findings.Add(new Finding(
                BatteriesFindingCodes.NotChargeable, FindingSeverity.Refusal, "pack",
                pack.Chemistry == CellChemistry.NickelMetalHydride ? "These cells are charged in another way; the model holds for lithium-ion." : "Single-use cells must never be charged."));
            return new ChargeTimes(null, null, findings);
        }

        if (tC < BatteriesConstants.ChargeFloorC)
        {
            findings.Add(new Finding(BatteriesFindingCodes.ColdCharge, FindingSeverity.Refusal, "pack", "Below 0 C the cells must not be charged: warm them against the body first."));
            return new ChargeTimes(null, null, findings);
        }

        double rate = ChargeKernel.MostRateC(tC);
        if (rate < 1)
        {
            findings.Add(new Finding(BatteriesFindingCodes.SlowCharge, FindingSeverity.Caution, "pack", $"At {Text.F(tC, 0)} C cell temperature charging is held to {Text.F(rate, 1)}C; warm cells charge faster."));
        }

        if (tC is < 15 or > 28)
        {
            findings.Add(new Finding(BatteriesFindingCodes.OutsideCharge, FindingSeverity.Note, "pack", "The taper was measured at 15 to 28 C only."));
        }

        double fullAh = pack.FullWh / pack.NominalV;
        double current = ChargeKernel.CurrentA(w, BatteriesConstants.ChargerEfficiency, pack.NominalV * BatteriesConstants.ChargeOverNominalV, rate, fullAh);
        double cut = Math.Min(BatteriesConstants.ChargeCutRate * fullAh, current * 0.999);
        double tau = ChargeKernel.TaperMin(ChargeKernel.Taper, tC) / 60;
        (_, double full) = ChargeKernel.Times(fullAh * (1 - soc), current, cut, tau);
        double to80 = ChargeKernel.TimeTo(fullAh * (0.8 - soc), fullAh * (1 - soc), current, cut, tau);
        return new ChargeTimes(Around(to80), Around(full), findings);
    }

    private static Estimate<TimeSpan> Around(double hours) => SoloRide.Estimate.Of(
        Sampled.Span(hours), Sampled.Span(hours * (1 - BatteriesConstants.ChargeTimeSpread)), Sampled.Span(hours * (1 + BatteriesConstants.ChargeTimeSpread)));
}
