using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Metabolic cost of walking and running. Grades are rise over run with the sign of travel; per cent where the parameter says so.</summary>
internal static class WalkCostKernel
{
    [Source("looney-2019", "base of the inner exponent; the one most codes carry")]
    public const double LcdaBase = 1.1;

    [Source("looney-2019", "base as one worked page has it; kept because published numbers need it")]
    public const double LcdaBaseVariant = 1.11;

    [Source("looney-2019", "standing [W/kg]")]
    public const double StandingWPerKg = 1.44;

    [Source("looney-2019", "fastest walk in the data [m/s]")]
    public const double LcdaFastestMps = 1.96;

    public const double LcdaSteepestDownPercent = -40, LcdaSteepestUpPercent = 45;

    [Source("looney-2022", "largest load over body mass in the data")]
    public const double HeaviestLoadFraction = 0.66;

    /// <summary>Factor on the net cost at that load.</summary>
    public static double HeaviestLoadFactor { get; } = LoadFactor(HeaviestLoadFraction, 1);

    [Source("looney-2019", "graded equation [W/kg]")]
    public static double LcdaWPerKg(double speedMps, double gradePercent, double innerBase = LcdaBase)
        => StandingWPerKg + LcdaNetWPerKg(speedMps, gradePercent, innerBase);

    [Source("looney-2019", "without standing [W/kg]")]
    public static double LcdaNetWPerKg(double speedMps, double gradePercent, double innerBase = LcdaBase)
    {
        double s2 = speedMps * speedMps;
        return (1.94 * Math.Pow(speedMps, 0.43)) + (0.24 * s2 * s2) + (LcdaGradeSlope(gradePercent, innerBase) * speedMps);
    }

    /// <summary>The grade term per speed [W/kg per m/s].</summary>
    [Source("looney-2019", "grade term")]
    public static double LcdaGradeSlope(double gradePercent, double innerBase = LcdaBase)
        => 0.34 * gradePercent * (1 - Math.Pow(1.05, 1 - Math.Pow(innerBase, gradePercent + 32)));

    [Source("looney-2022", "factor on the net cost under a load")]
    public static double LoadFactor(double loadKg, double bodyKg) => 1 + (1.96 * Math.Pow(loadKg / bodyKg, 1.36));

    /// <summary>Whole metabolic power on foot [W per kg of body]: standing plus the walk under load and terrain.</summary>
    [Source("looney-2022", "load and terrain act on the walk alone")]
    public static double OnFootWPerKg(double speedMps, double gradePercent, double loadFactor, double terrainFactor)
        => StandingWPerKg + (loadFactor * terrainFactor * LcdaNetWPerKg(speedMps, gradePercent));

    /// <summary>
    /// Fastest speed [m/s] up to <paramref name="fastestMps"/> that costs no more than the power at hand. Bracketed; where even a
    /// creep costs more, the lowest speed of the bracket comes back.
    /// </summary>
    public static double SpeedMps(double powerWPerKg, double gradePercent, double loadFactor, double terrainFactor, double fastestMps)
    {
        double k = loadFactor * terrainFactor, slope = LcdaGradeSlope(gradePercent), net = (powerWPerKg - StandingWPerKg) / k;
        if (Net(fastestMps) <= net)
        {
            return fastestMps;
        }

        double low = SlowestMps, high = fastestMps;
        if (low >= high || Net(low) > net)
        {
            return Math.Min(low, fastestMps);
        }

        // Newton from the fast end, kept inside the bracket.
        double v = high;
        for (int i = 0; i < 60; i++)
        {
            double power = 1.94 * Math.Pow(v, 0.43), v3 = 0.24 * v * v * v, f = power + (v3 * v) + (slope * v) - net;
            if (f > 0)
            {
                high = v;
            }
            else
            {
                low = v;
            }

            double rate = (0.43 * power / v) + (4 * v3) + slope, next = v - (f / rate);
            if (!(rate > 0) || next <= low || next >= high)
            {
                next = 0.5 * (low + high);
            }

            if (Math.Abs(next - v) <= 1e-13)
            {
                return next;
            }

            v = next;
        }

        return v;

        double Net(double s)
        {
            double s2 = s * s;
            return (1.94 * Math.Pow(s, 0.43)) + (0.24 * s2 * s2) + (slope * s);
        }
    }

    [Source("assumption-foot-pace", "slowest speed on foot that a plan counts with [m/s]")]
    public const double SlowestMps = 0.15;

    [Source("pandolf-1977", "load carriage [W]")]
    public static double PandolfW(double bodyKg, double loadKg, double speedMps, double gradePercent, double terrainFactor)
    {
        double all = bodyKg + loadKg, ratio = loadKg / bodyKg;
        return (1.5 * bodyKg) + (2.0 * all * ratio * ratio) + (terrainFactor * all * ((1.5 * speedMps * speedMps) + (0.35 * speedMps * gradePercent)));
    }

    [Source("santee-2001", "downhill correction of the load carriage equation [W]; fitted to -12 %")]
    public static double PandolfSanteeW(double bodyKg, double loadKg, double speedMps, double gradePercent, double terrainFactor)
    {
        double all = bodyKg + loadKg, six = gradePercent + 6;
        return PandolfW(bodyKg, loadKg, speedMps, gradePercent, terrainFactor)
            - (terrainFactor * ((gradePercent * all * speedMps / 3.5) - (all * six * six / bodyKg) + 25 - (speedMps * speedMps)));
    }

    [Source("minetti-2002", "walking [J/(kg m)], grade within 0.45")]
    public static double MinettiWalkJPerKgM(double i) => (((((((((280.5 * i) - 58.7) * i) - 76.8) * i) + 51.9) * i) + 19.6) * i) + 2.5;

    [Source("minetti-2002", "running [J/(kg m)], grade within 0.45")]
    public static double MinettiRunJPerKgM(double i) => (((((((((155.4 * i) - 30.4) * i) - 43.3) * i) + 46.3) * i) + 19.5) * i) + 3.6;

    [Source("herzog-2016", "sixth-degree refit [J/(kg m)]")]
    public static double HerzogJPerKgM(double i)
        => (((((((((((1337.8 * i) + 278.19) * i) - 517.39) * i) - 78.199) * i) + 93.419) * i) + 19.825) * i) + 1.64;

    [Source("ardigo-2003", "walking at a chosen speed [J/(kg m)]")]
    public static double ArdigoJPerKgM(double i, double v)
        => (1.866 * Math.Exp(4.911 * i) * v * v) - (3.773 * Math.Exp(3.416 * i) * v) + (45.71 * i * i) + (18.90 * i) + 4.456;

    [Source("llobera-sluckin-2007", "cost of a whole walker in the paper's own unit; uphill only")]
    public static double LloberaSluckin(double s) => (((((((14.93 * s) - 21.43) * s) + 42.37) * s) + 17.37) * s) + 2.635;

    [Source("acsm-walk", "walking [mL/(kg min)]; 50 to 100 m/min")]
    public static double AcsmWalkMlPerKgMin(double speedMPerMin, double gradeFraction) => 3.5 + (0.1 * speedMPerMin) + (1.8 * speedMPerMin * gradeFraction);
}
