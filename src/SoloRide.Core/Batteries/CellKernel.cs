using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>Cells: what temperature, rate, cut-off, time and use leave of the printed energy.</summary>
internal static class CellKernel
{
    /// <summary>Charge that a lithium-ion cell gives at very low drain, against cell temperature: knots of the low-drain line [°C, share].</summary>
    private static ReadOnlySpan<double> LowDrainC => [-25, -15, -5, 5, 15, 25];

    [Source("plett-lfp-cell", "C/27 discharges to 2.0 V, share of the 25 °C charge")]
    private static ReadOnlySpan<double> LowDrainShare => [0.9819, 0.9886, 0.9871, 0.9905, 0.9981, 1];

    private static ReadOnlySpan<double> ColdC => [-20, -10, 0, 10, 25];

    [Source("kollmeyer-2018", "0.3C discharges of a 2.9 Ah NCA cell, share of the 25 °C charge at the same cut-off of 3.0 V")]
    private static ReadOnlySpan<double> Cold30 => [0.7223956, 0.8222142, 0.8712160, 0.9242105, 1];

    [Source("kollmeyer-2018", "as above, 3.3 V")]
    private static ReadOnlySpan<double> Cold33 => [0.5470734, 0.7592280, 0.8789654, 0.9389127, 1];

    [Source("assumption-cut-off", "lithium-ion 3.0 V, iron phosphate 2.5 V, single-use and nickel cells 0.9 to 1.0 V")]
    public static double DefaultCutOffV(CellChemistry chemistry) => chemistry switch
    {
        CellChemistry.LithiumNickel => 3.0,
        CellChemistry.LithiumIronPhosphate => 2.5,
        CellChemistry.PrimaryLithium => 1.0,
        CellChemistry.NickelMetalHydride => 1.0,
        _ => 0.9,
    };

    public static double SelfDischargePerMonth(CellChemistry chemistry) => chemistry switch
    {
        CellChemistry.NickelMetalHydride => BatteriesConstants.SelfDischargeNickelMetalHydridePerMonth,
        CellChemistry.PrimaryLithium => BatteriesConstants.SelfDischargePrimaryLithiumPerMonth,
        CellChemistry.Alkaline => BatteriesConstants.SelfDischargeAlkalinePerMonth,
        _ => BatteriesConstants.SelfDischargeLithiumPerMonth,
    };

    public static double SelfDischargeLeft(double perMonth, double days) => Math.Pow(1 - perMonth, days / BatteriesConstants.DaysPerMonth);

    /// <summary>The two-line rule: a low-drain line and a 0.3C line, joined linearly in the rate; cut-offs of 3.0 and 3.3 V only.</summary>
    [Source("assumption-two-line-rule", "k = k_lo + (k_03 - k_lo) min(1, c/0.3)")]
    public static double TwoLineFraction(double cellC, double rateC, double cutOffV)
    {
        double low = Linear(LowDrainC, LowDrainShare, cellC);
        double high = Linear(ColdC, cutOffV >= 3.15 ? Cold33 : Cold30, cellC);
        return low + ((high - low) * Math.Min(1, rateC / 0.3));
    }

    /// <summary>What a pack holds back and loses; the rate is its load over its full energy.</summary>
    public static CellShare Share(CellChemistry chemistry, double cellC, double rateC, double cutOffV, double resistanceFactor = 1) => chemistry switch
    {
        CellChemistry.LithiumNickel => NickelCellKernel.Share(cellC, rateC, cutOffV, resistanceFactor),
        CellChemistry.LithiumIronPhosphate => OtherCellKernel.PhosphateShare(cellC, rateC, cutOffV, resistanceFactor),
        _ => OtherCellKernel.AssumedShare(chemistry, cellC),
    };

    /// <summary>A share of the energy that comes out without further loss.</summary>
    public static CellShare Whole(double fraction) => new(fraction, fraction);

    public static double FromTable(IReadOnlyList<ColdPoint> table, double cellC)
    {
        if (cellC <= table[0].CellC)
        {
            return table[0].UsableFraction;
        }

        for (int i = 1; i < table.Count; i++)
        {
            if (cellC <= table[i].CellC)
            {
                double t = (cellC - table[i - 1].CellC) / (table[i].CellC - table[i - 1].CellC);
                return table[i - 1].UsableFraction + (t * (table[i].UsableFraction - table[i - 1].UsableFraction));
            }
        }

        return table[^1].UsableFraction;
    }

    /// <summary>Share of the way from air to body temperature that a place keeps.</summary>
    [Source("assumption-cell-temperature")]
    public static double WarmShare(CarryPlace place) => place switch
    {
        CarryPlace.Pocket => BatteriesConstants.PocketShare,
        CarryPlace.Pack => BatteriesConstants.PackShare,
        _ => 0,
    };

    [Source("assumption-cell-temperature", "wind lowers the share")]
    public static double WindShare(double windMps) => 1 / (1 + (BatteriesConstants.WindPerMps * windMps));

    /// <summary>Cell temperature from air, wind and place; self-heating is left out, on the safe side in the cold.</summary>
    [Source("assumption-cell-temperature", "T = air + share(place, wind) (32 - air)")]
    public static double CellC(double airC, double warmShare) => airC + (warmShare * (BatteriesConstants.BodySideC - airC));

    /// <summary>Linear between knots, held outside.</summary>
    internal static double Linear(ReadOnlySpan<double> x, ReadOnlySpan<double> y, double at)
    {
        if (at <= x[0])
        {
            return y[0];
        }

        for (int i = 1; i < x.Length; i++)
        {
            if (at <= x[i])
            {
                return y[i - 1] + ((at - x[i - 1]) / (x[i] - x[i - 1]) * (y[i] - y[i - 1]));
            }
        }

        return y[^1];
    }
}
