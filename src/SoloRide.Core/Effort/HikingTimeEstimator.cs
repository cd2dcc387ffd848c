using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Time on foot by published rules: a cross-check of walk-out times, with the scatter between rules as model uncertainty.</summary>
/// <remarks>Rules know no load, injury, darkness or surface. Pure and thread-safe.</remarks>
[Entry]
public static class HikingTimeEstimator
{
    private static readonly HikingRule[] Walking =
    [
        HikingRule.Naismith, HikingRule.Langmuir, HikingRule.ToblerPath, HikingRule.MarquezPerez, HikingRule.CampbellFifth, HikingRule.CampbellTenth,
        HikingRule.Din33466, HikingRule.SwissSignpost, HikingRule.Munter,
    ];

    [Source("assumption-foot-pace", "slowest pace by a rule that leaves its range [m/s]")]
    private const double SlowestMps = 0.1;

    private const double GentleDeg = 5, SteepDeg = 12;

    /// <summary>Time by one rule.</summary>
    /// <param name="steps">The way, in the order of travel.</param>
    /// <param name="rule">The rule.</param>
    /// <returns>Time without rests.</returns>
    /// <exception cref="ArgumentNullException">No steps.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such rule.</exception>
    public static TimeSpan Time(IReadOnlyList<TrailStep> steps, HikingRule rule)
    {
        Guard.NotNull(steps);
        Guard.Defined(rule);
        double km = 0, up = 0, down = 0, gentle = 0, steep = 0, seconds = 0;
        foreach (TrailStep s in steps)
        {
            km += s.LengthM / 1000;
            up += Math.Max(0, s.RiseM);
            down += Math.Max(0, -s.RiseM);
            if (s.RiseM < 0 && s.LengthM > 0)
            {
                double deg = Math.Atan(-s.RiseM / s.LengthM) * 180 / Math.PI;
                gentle += deg is >= GentleDeg and <= SteepDeg ? -s.RiseM : 0;
                steep += deg > SteepDeg ? -s.RiseM : 0;
            }

            seconds += Math.Max(0, StepSeconds(s, rule));
        }

        double hours = rule switch
        {
            HikingRule.Naismith => HikingKernel.NaismithHours(km, up),
            HikingRule.NaismithEightToOne => HikingKernel.NaismithEightHours(km, up, 5),
            HikingRule.Langmuir => HikingKernel.LangmuirHours(km, up, gentle, steep),
            HikingRule.Din33466 => HikingKernel.DinHours(km, up, down),
            _ => seconds / 3600,
        };
        return TimeSpan.FromHours(hours);
    }

    /// <summary>Median and range of the walking rules; the range is the disagreement of models, not of walkers.</summary>
    /// <param name="steps">The way, in the order of travel.</param>
    /// <returns>Lowest, median and highest of nine rules.</returns>
    /// <exception cref="ArgumentNullException">No steps.</exception>
    public static Estimate<TimeSpan> Across(IReadOnlyList<TrailStep> steps)
    {
        TimeSpan[] sorted = [.. Walking.Select(r => Time(steps, r)).Order()];
        return new(sorted[sorted.Length / 2], sorted[0], sorted[^1], 1);
    }

    private static double StepSeconds(TrailStep s, HikingRule rule)
    {
        if (s.LengthM <= 0)
        {
            return 0;
        }

        double slope = s.RiseM / s.LengthM;
        return rule switch
        {
            HikingRule.ToblerPath => Kmh(HikingKernel.ToblerKmh(slope, offPath: false)),
            HikingRule.ToblerOffPath => Kmh(HikingKernel.ToblerKmh(slope, offPath: true)),
            HikingRule.MarquezPerez => Kmh(HikingKernel.MarquezPerezKmh(slope)),
            HikingRule.IrmischerClarkePath => Mps(HikingKernel.IrmischerClarkeMps(slope, false, false)),
            HikingRule.IrmischerClarkeOffPath => Mps(HikingKernel.IrmischerClarkeMps(slope, true, false)),
            HikingRule.Rees => Mps(HikingKernel.ReesMps(slope)),
            HikingRule.Davey => Mps(HikingKernel.DaveyMps(slope)),
            HikingRule.CampbellFifth => Mps(HikingKernel.CampbellMps(slope, 5)),
            HikingRule.CampbellTenth => Mps(HikingKernel.CampbellMps(slope, 10)),
            HikingRule.CampbellTwentyFifth => Mps(HikingKernel.CampbellMps(slope, 25)),
            HikingRule.SwissSignpost => HikingKernel.SwissMinPerKm(slope) * 60 * s.LengthM / 1000,
            HikingRule.Munter => 3600 * HikingKernel.MunterHours(s.LengthM / 1000, s.RiseM, s.RiseM > 0 ? 4 : 6),
            _ => 0,
        };

        double Kmh(double kmh) => Mps(kmh / 3.6);

        double Mps(double v) => s.LengthM / Math.Max(v, SlowestMps);
    }
}
