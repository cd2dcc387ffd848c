using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>
/// Lithium-ion with nickel-rich cathode: where the loaded voltage meets the cut-off. OCV(q) - I·R(T) - b(T)·q/(q_l(T) - q) = cut-off, with an
/// effective resistance and a limit of the charge that the cold lets move.
/// </summary>
/// <remarks>
/// Fitted to 0.3C discharges at 25, 0 and -20 °C chamber temperature and to two printed figures each at 10 and -10 °C; each row left out in turn:
/// mean 1.3 %, worst 3.2 % of the rated charge. Other rates rest on stated assumptions: at low drain the cold costs little, above 0.3C the drop
/// grows as the pulse resistance says and the limit with the square root of the rate. Held constant above 25 °C and below -40 °C.
/// </remarks>
internal static class NickelCellKernel
{
    /// <summary>Charge of the measured cell at C/20, 25 °C [Ah].</summary>
    [Source("kollmeyer-2018", "C/20 discharge")]
    public const double FullAh = 2.9949;

    [Source("kollmeyer-2018", "rated charge of the measured cell")]
    public const double RatedAh = 2.9;

    /// <summary>Voltage that the capacity of one cell is printed with [V].</summary>
    [Source("assumption-cut-off", "3.6 to 3.85 V are printed")]
    public const double NominalV = 3.7;

    public const double RatedRateC = 0.3;

    /// <summary>Low-drain loss in the cold [share per K below 25 °C].</summary>
    [Source("plett-lfp-cell", "0.982 of the charge at -25 °C, C/27")]
    private const double LowDrainLossPerK = 0.0004;

    [Source("assumption-standard-discharge", "rated energy: 25 °C, 0.2C, down to 2.5 V")]
    private const double ReferenceRateC = 0.2;
    private const double ReferenceCutOffV = 2.5;
    private const double WarmestC = 25;
    private const double ColdestC = -40;

    /// <summary>Highest logarithm of the rate over 0.3C that lowers the resistance of a cold cell; keeps the law falling with cold at any rate.</summary>
    [Source("assumption-cell-scaling", "rate effect measured to 2C")]
    private const double RateEffectCeiling = 3;

    /// <summary>Charge, open-circuit and delivered energy of the rated discharge.</summary>
    private static readonly (double ChargeAh, double OpenWh, double DeliveredWh) Rated = RatedDischarge();

    /// <summary>Fitted numbers: ln R [ohm], its slope, q_l at 25 °C [Ah], its slope [Ah/K], ln b [V], its slope; slopes over 1000/T - 1000/298.15.</summary>
    [Source("kollmeyer-2018", "least squares on 0.3C discharges to 2.5 to 3.4 V")]
    public static ReadOnlySpan<double> Fitted => [-3.18026, 3.89415, 2.83986, 0.0121012, -4.91972, 2.23282];

    private static ReadOnlySpan<double> KnotDepth => [0, .02, .1, .2, .3, .4, .45, .5, .6, .7, .75, .8, .85, .9, .93, .95, .97, .985, 1.0];

    [Source("kollmeyer-2018", "C/20 discharge at 25 °C, open-circuit voltage condensed to 19 knots")]
    private static ReadOnlySpan<double> KnotV => [4.176, 4.133, 4.059, 3.952, 3.865, 3.775, 3.718, 3.671, 3.607, 3.55, 3.515, 3.467, 3.408, 3.337, 3.299, 3.262, 3.163, 2.99, 2.505];

    /// <summary>
    /// Shares of the rated discharge that come out. The charge that the rated discharge takes counts as all there is: what a gentler one would
    /// find below that is left out, on the safe side.
    /// </summary>
    /// <remarks>
    /// Never more when colder, at a higher rate, at a higher cut-off or with a higher resistance, by construction: each of these lowers the
    /// loaded voltage at every charge or raises the voltage it is stopped at, so the charge taken is not more; and the energies are integrals of
    /// positive voltages over that charge.
    /// </remarks>
    public static CellShare Share(double cellC, double rateC, double cutOffV, double resistanceFactor = 1)
    {
        Terms(Fitted, Math.Clamp(cellC, ColdestC, WarmestC), rateC, resistanceFactor, out double dropV, out double limitAh, out double b);
        double q = Math.Min(ChargeAh(dropV, limitAh, b, cutOffV), Rated.ChargeAh);
        return q <= 0 ? default : new CellShare(OpenWh(q) / Rated.OpenWh, DeliveredWh(q, dropV, limitAh, b) / Rated.DeliveredWh);
    }

    /// <summary>Charge removed when the loaded cell first meets the cut-off [Ah of the measured cell], with given numbers.</summary>
    public static double ChargeAh(ReadOnlySpan<double> p, double cellC, double rateC, double cutOffV)
    {
        Terms(p, cellC, rateC, 1, out double dropV, out double limitAh, out double b);
        return ChargeAh(dropV, limitAh, b, cutOffV);
    }

    private static (double ChargeAh, double OpenWh, double DeliveredWh) RatedDischarge()
    {
        Terms(Fitted, WarmestC, ReferenceRateC, 1, out double dropV, out double limitAh, out double b);
        double q = ChargeAh(dropV, limitAh, b, ReferenceCutOffV);
        return (q, OpenWh(q), DeliveredWh(q, dropV, limitAh, b));
    }

    private static double OpenWh(double q) => OpenVAh(q / FullAh) * FullAh;

    private static double DeliveredWh(double q, double dropV, double limitAh, double b)
        => OpenWh(q) - (dropV * q) - (b * (-q - (limitAh * Math.Log(1 - (q / limitAh)))));

    private static void Terms(ReadOnlySpan<double> p, double cellC, double rateC, double resistanceFactor, out double dropV, out double limitAh, out double b)
    {
        double x = (1000 / (cellC + Si.ZeroCelsiusK)) - (1000 / 298.15);
        double r = Math.Exp(p[0] + (p[1] * x)) * resistanceFactor;
        double ratio = rateC / RatedRateC;
        double atRatedAh = p[2] + (p[3] * (cellC - WarmestC));
        double lowAh = FullAh * (1 - (LowDrainLossPerK * Math.Max(0, WarmestC - cellC)));
        double b03 = Math.Exp(p[4] + (p[5] * x));
        double limitShare;
        dropV = RatedRateC * RatedAh * r * ratio;
        if (ratio <= 1)
        {
            limitShare = ratio;
        }
        else
        {
            double relief = Math.Min(0.5, ResistanceKernel.RateSlope * Math.Max(0, x) * x);
            dropV *= Math.Exp(-relief * Math.Min(RateEffectCeiling, Math.Log(ratio)));
            limitShare = Math.Sqrt(ratio);
        }

        b = Math.Max(1e-9, b03 * limitShare);
        limitAh = Math.Max(0.05, lowAh - ((lowAh - atRatedAh) * limitShare));
    }

    /// <summary>Exact on each piece of the open-circuit curve: a quadratic.</summary>
    private static double ChargeAh(double dropV, double limitAh, double b, double cutOffV)
    {
        ReadOnlySpan<double> depth = KnotDepth, volt = KnotV;
        if (volt[0] - dropV - cutOffV <= 0)
        {
            return 0;
        }

        for (int i = 1; i < depth.Length; i++)
        {
            double q1 = depth[i] * FullAh;
            bool last = i == depth.Length - 1;
            bool crosses = q1 >= limitAh || volt[i] - dropV - (b * q1 / (limitAh - q1)) - cutOffV <= 0;
            if (!crosses && !last)
            {
                continue;
            }

            double q0 = depth[i - 1] * FullAh;
            double slope = (volt[i] - volt[i - 1]) / (q1 - q0);
            double u = volt[i - 1] - (slope * q0) - dropV - cutOffV;
            double bb = (slope * limitAh) - u - b, c = u * limitAh;
            double root = 2 * c / (-bb + Math.Sqrt(Math.Max(0, (bb * bb) + (4 * slope * c))));
            return Math.Clamp(root, q0, Math.Min(limitAh * (1 - 1e-9), crosses ? q1 : root));
        }

        return limitAh;
    }

    /// <summary>Open-circuit voltage at a depth of discharge.</summary>
    public static double OpenV(double depthFraction) => CellKernel.Linear(KnotDepth, KnotV, depthFraction);

    /// <summary>Integral of the open-circuit voltage over depth [V].</summary>
    private static double OpenVAh(double toDepth)
    {
        ReadOnlySpan<double> depth = KnotDepth, volt = KnotV;
        double sum = 0;
        for (int i = 1; i < depth.Length; i++)
        {
            if (toDepth <= depth[i])
            {
                double part = toDepth - depth[i - 1];
                double v = volt[i - 1] + (part / (depth[i] - depth[i - 1]) * (volt[i] - volt[i - 1]));
                return sum + (part * 0.5 * (volt[i - 1] + v));
            }

            sum += (depth[i] - depth[i - 1]) * 0.5 * (volt[i] + volt[i - 1]);
        }

        return sum + ((toDepth - 1) * volt[^1]);
    }
}
