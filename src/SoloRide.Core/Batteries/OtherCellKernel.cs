using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>Cells beside the nickel-rich one: iron phosphate by a measured low-drain law, a second nickel cell for comparison, others by assumption.</summary>
internal static class OtherCellKernel
{
    /// <summary>Charge of the measured iron phosphate cell at C/27, 25 °C, down to 2.0 V [Ah].</summary>
    [Source("plett-lfp-cell", "C/27, 25 °C")]
    public const double PhosphateFullAh = 2.0602;
    public const double PhosphateRateC = 1.0 / 27;

    /// <summary>Cut-offs between which the cell was measured [V]: lower ones count as the lowest, above the highest its voltage is too flat to tell.</summary>
    [Source("plett-lfp-cell", "2.0 to 3.0 V")]
    public const double PhosphateLowestV = 2.0;
    public const double PhosphateHighestV = 3.0;

    private const double WarmC = 25;

    /// <summary>Cut-off of the nickel-rich cell that stands in for the effect of the rate [V].</summary>
    [Source("assumption-no-anchor", "iron phosphate above C/27: the loss of a nickel-rich cell down to 3.0 V")]
    private const double StandInV = 3.0;

    /// <summary>Charge = c0 + c1 h + g (c2 + c3 h), h = exp((V - 3)/0.25 V), g = exp(3 x), x = 1000/T - 1000/298.15 [Ah].</summary>
    [Source("plett-lfp-cell", "least squares on C/27 discharges, -25 to 45 °C, 2.0 to 3.0 V")]
    public static ReadOnlySpan<double> Phosphate => [2.06974, -0.0770071, -0.00634145, -0.015298];

    /// <summary>A second nickel-rich cell: charge at 25 °C and above [Ah], loss per K below; its test order confounds the temperatures.</summary>
    [Source("planden-lukow-2021", "least squares on discharges to 2.5 V; not used by plans")]
    public static ReadOnlySpan<double> SecondNickel => [2.83791, 0.00454617];

    private static ReadOnlySpan<double> PrimaryC => [-40, -20, 0, 20];

    [Source("assumption-no-anchor", "primary lithium")]
    private static ReadOnlySpan<double> PrimaryShare => [0.5, 0.8, 0.95, 1];

    private static ReadOnlySpan<double> WetC => [-20, 0, 20];

    [Source("assumption-no-anchor", "nickel-metal hydride")]
    private static ReadOnlySpan<double> NickelMetalHydrideShare => [0.4, 0.75, 1];

    [Source("assumption-no-anchor", "alkaline")]
    private static ReadOnlySpan<double> AlkalineShare => [0.15, 0.5, 1];

    public static double PhosphateAh(ReadOnlySpan<double> p, double cellC, double cutOffV)
    {
        double h = Math.Exp((cutOffV - 3) / 0.25), g = Math.Exp(3 * ((1000 / (cellC + Si.ZeroCelsiusK)) - (1000 / 298.15)));
        return p[0] + (p[1] * h) + (g * (p[2] + (p[3] * h)));
    }

    public static double SecondNickelAh(ReadOnlySpan<double> p, double cellC) => p[0] + (p[1] * Math.Min(0, cellC - 25));

    /// <summary>
    /// The lesser of two shares: the low-drain law at the cell's temperature, and its warm value times what the rate and the cold leave of a
    /// nickel-rich cell. Both fall with cold, rate and cut-off, so the lesser does.
    /// </summary>
    [Source("assumption-no-anchor", "iron phosphate above C/27")]
    public static CellShare PhosphateShare(double cellC, double rateC, double cutOffV, double resistanceFactor = 1)
    {
        double v = Math.Max(cutOffV, PhosphateLowestV);
        double low = Low(Math.Clamp(cellC, -40, 45)), warm = Low(WarmC);
        CellShare at = NickelCellKernel.Share(cellC, rateC, StandInV, resistanceFactor), gentle = NickelCellKernel.Share(WarmC, PhosphateRateC, StandInV);
        double open = Math.Min(low, warm * at.Open / gentle.Open);
        return new CellShare(open, Math.Min(open, warm * at.Delivered / gentle.Delivered));

        double Low(double tC) => Math.Clamp(PhosphateAh(Phosphate, tC, v) / PhosphateFullAh, 0, 1);
    }

    /// <summary>What is left of the rated energy by an assumed line over temperature.</summary>
    public static CellShare AssumedShare(CellChemistry chemistry, double cellC) => CellKernel.Whole(chemistry switch
    {
        CellChemistry.PrimaryLithium => CellKernel.Linear(PrimaryC, PrimaryShare, cellC),
        CellChemistry.NickelMetalHydride => CellKernel.Linear(WetC, NickelMetalHydrideShare, cellC),
        _ => CellKernel.Linear(WetC, AlkalineShare, cellC),
    });
}
