using System.Globalization;
using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Time on foot by published rules: a cross-check of walk-out times, with the scatter between rules as model uncertainty.</summary>
/// <remarks>Rules know no load, injury, darkness or surface; <see cref="Check"/> says where a way leaves their range. Pure and thread-safe.</remarks>
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

    /// <summary>Where a way leaves the range of a rule.</summary>
    /// <param name="steps">The way, in the order of travel.</param>
    /// <param name="rule">The rule.</param>
    /// <returns>Findings; none where the rule was made for such a way.</returns>
    /// <exception cref="ArgumentNullException">No steps.</exception>
    /// <exception cref="ArgumentOutOfRangeException">No such rule.</exception>
    public static IReadOnlyList<Finding> Check(IReadOnlyList<TrailStep> steps, HikingRule rule)
    {
        Guard.NotNull(steps);
        Guard.Defined(rule);
        double steepest = rule == HikingRule.SwissSignpost ? SwissSteepest : Steepest, worst = 0, descentM = 0;
        int outside = 0, creeping = 0;
        foreach (TrailStep s in steps)
        {
            double slope = s.LengthM > 0 ? s.RiseM / s.LengthM : 0;
            outside += Math.Abs(slope) > steepest ? 1 : 0;
            worst = Math.Abs(slope) > Math.Abs(worst) ? slope : worst;
            creeping += s.LengthM > 0 && StepSeconds(s, rule) >= s.LengthM / SlowestMps ? 1 : 0;
            descentM += Math.Max(0, -s.RiseM);
        }

        var findings = new List<Finding>();
        if (outside > 0)
        {
            findings.Add(new Finding(EffortFindingCodes.RuleRange, FindingSeverity.Caution, "on foot",
                string.Create(CultureInfo.InvariantCulture, $"{outside} steps are steeper than {100 * steepest:F0} % ({100 * worst:F0} % at most): {rule} is not made for them."), new FindingValue("grade_pct", Text.F(100 * worst, 0))));
        }

        if (creeping > 0)
        {
            findings.Add(new Finding(EffortFindingCodes.RuleRange, FindingSeverity.Caution, "on foot",
                string.Create(CultureInfo.InvariantCulture, $"On {creeping} steps {rule} gives no walking pace; {SlowestMps} m/s is counted."), new FindingValue("steps", Text.F(creeping, 0))));
        }

        if (descentM > 0 && rule is HikingRule.Naismith or HikingRule.NaismithEightToOne)
        {
            findings.Add(new Finding(EffortFindingCodes.RuleRange, FindingSeverity.Note, "on foot",
                string.Create(CultureInfo.InvariantCulture, $"{rule} counts no descents ({descentM:F0} m here)."), new FindingValue("descent_m", Text.F(descentM, 0))));
        }

        return findings;
    }

    [Source("assumption-rule-range", "no rule states a steepest slope but the signpost formula; 45 %, the steepest ground in the walking-cost data, stands in")]
    private const double Steepest = 0.45;

    [Source("swiss-hiking-time", "polynomial within 0.4")]
    private const double SwissSteepest = 0.40;

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
