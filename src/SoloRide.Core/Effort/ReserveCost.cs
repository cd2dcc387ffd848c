using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>
/// What a <see cref="PaceReserve"/> costs and gains on a chain of steps: time, daylight and water against stopping distance. About
/// injuries and breakage it says only what follows from a rate ratio that the caller gives.
/// </summary>
/// <remarks>Typical times, the same weather with and without. Immutable.</remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record ReserveCost
{
    [Source("assumption-braking", "deceleration of a careful stop on a loose trail [m/s2]")]
    private const double DecelerationMps2 = 3;

    [Source("assumption-braking", "time until the brakes bite [s]")]
    private const double ReactionS = 1;

    private readonly ReserveStakes _stakes;
    private readonly double _riddenWithoutM, _riddenWithM;

    internal ReserveCost(PaceReserve reserve, RidePace without, RidePace with, ReserveStakes stakes)
    {
        _stakes = stakes;
        _riddenWithoutM = RiddenM(without);
        _riddenWithM = RiddenM(with);
        ElapsedWithout = without.Elapsed;
        ElapsedWith = with.Elapsed;
        Reserve = reserve;
        MovingWithout = without.Moving;
        MovingWith = with.Moving;
        EnergyWithout = without.MetabolicEnergy;
        EnergyWith = with.MetabolicEnergy;
        StoppingWithout = Stopping(without);
        StoppingWith = Stopping(with);
    }

    /// <summary>The reserve.</summary>
    public PaceReserve Reserve { get; }

    /// <summary>Time in motion with nothing left unused.</summary>
    public Estimate<TimeSpan> MovingWithout { get; }

    /// <summary>Time in motion with the reserve.</summary>
    public Estimate<TimeSpan> MovingWith { get; }

    /// <summary>What it costs in time.</summary>
    public TimeSpan ExtraTime => MovingWith.Typical - MovingWithout.Typical;

    /// <summary>Time from start to end, stops included, with nothing left unused.</summary>
    public Estimate<TimeSpan> ElapsedWithout { get; }

    /// <summary>Time from start to end, stops included, with the reserve.</summary>
    public Estimate<TimeSpan> ElapsedWith { get; }

    /// <summary>What it costs of the day, stops included: daylight lost where the whole way lies in it.</summary>
    public TimeSpan DaylightLost => ElapsedWith.Typical - ElapsedWithout.Typical;

    /// <summary>Left until dusk at the end with nothing left unused; below zero: after dusk; null where dusk was not given. P10 is the slow day.</summary>
    public Estimate<TimeSpan>? UntilDuskWithout => UntilDusk(ElapsedWithout);

    /// <summary>The same with the reserve.</summary>
    public Estimate<TimeSpan>? UntilDuskWith => UntilDusk(ElapsedWith);

    /// <summary>More time after dusk at the typical pace; null where dusk was not given.</summary>
    public TimeSpan? MoreAfterDusk => _stakes.UntilDusk is { } dusk ? After(ElapsedWith.Typical, dusk) - After(ElapsedWithout.Typical, dusk) : null;

    /// <summary>More water over the whole time at the rates given, below zero where the gentler ride needs less; null where no rate was given.</summary>
    public Volume? MoreWater => double.IsNaN(_stakes.WaterLPerH)
        ? null
        : Volume.FromLiters((_stakes.WaterWithLPerH * ElapsedWith.Typical.TotalHours) - (_stakes.WaterLPerH * ElapsedWithout.Typical.TotalHours));

    /// <summary>Injuries over the whole ride with the reserve, over those without [factor]: the caller's ratio for an hour times the longer time; null where none was given.</summary>
    public double? InjuryRideFactor => _stakes.InjuryRateFactor * (MovingWithout.Typical > TimeSpan.Zero ? MovingWith.Typical / MovingWithout.Typical : 1);

    /// <summary>Breakages over the whole ride with the reserve, over those without [factor]: the caller's ratio for a kilometre times the distance ridden, not walked; null where none was given.</summary>
    public double? BreakageRideFactor => _stakes.BreakageRateFactor * (_riddenWithoutM > 0 ? _riddenWithM / _riddenWithoutM : 1);

    /// <summary>Energy with nothing left unused.</summary>
    public Estimate<Energy> EnergyWithout { get; }

    /// <summary>Energy with the reserve.</summary>
    public Estimate<Energy> EnergyWith { get; }

    /// <summary>Mean stopping distance over the descents without the reserve (1 s reaction, 3 m/s², less the slope).</summary>
    public Length StoppingWithout { get; }

    /// <summary>The same with the reserve.</summary>
    public Length StoppingWith { get; }

    /// <summary>Stopping distance gained on the descents that technique limits.</summary>
    public Length StoppingGained => StoppingWithout - StoppingWith;

    /// <summary>What is left unused, and time, dusk, water, energy and stopping distance without and with; no more than was asked for.</summary>
    /// <returns>Text, a line a matter, lines ended by a line feed but the last.</returns>
    public override string ToString()
    {
        List<string> lines =
        [
            $"Left unused: {Text.F(100 * Reserve.PowerFraction, 0)} % of the sustained power, {Text.F(100 * Reserve.TechnicalFraction, 0)} % of the technical speed.",
            $"In motion {MovingWithout} without, {MovingWith} with: {More(ExtraTime)}. From start to end {More(DaylightLost)}.",
            $"Energy {EnergyWithout} without, {EnergyWith} with.",
        ];
        if (UntilDuskWithout is { } before && UntilDuskWith is { } after)
        {
            lines.Add($"Left until dusk {before} without, {after} with; {Text.Span(MoreAfterDusk!.Value)} more after dusk.");
        }

        if (MoreWater is { } water)
        {
            lines.Add($"Water: {Text.F(Math.Abs(water.Liters), 2)} L {(water.Liters < 0 ? "less" : "more")}.");
        }

        lines.Add($"Stopping distance on descents that technique limits: {Text.F(StoppingWithout.Meters, 1)} m without, {Text.F(StoppingWith.Meters, 1)} m with.");
        lines.Add(InjuryRideFactor is null && BreakageRideFactor is null
            ? "Nothing is claimed about injuries and breakages."
            : $"By the caller's own rate ratios, over the whole ride: injuries {Factor(InjuryRideFactor)}, breakages {Factor(BreakageRideFactor)}.");
        lines.Add(Cautions.Text);
        return string.Join('\n', lines);

        static string More(TimeSpan t) => $"{Text.Span(t.Duration())} {(t < TimeSpan.Zero ? "less" : "more")}";

        static string Factor(double? f) => f is { } x ? $"times {Text.F(x, 2)}" : "not asked";
    }

    private Estimate<TimeSpan>? UntilDusk(Estimate<TimeSpan> elapsed)
        => _stakes.UntilDusk is { } dusk ? new(dusk - elapsed.Typical, dusk - elapsed.High, dusk - elapsed.Low) : null;

    private static TimeSpan After(TimeSpan end, TimeSpan dusk) => end > dusk ? end - dusk : TimeSpan.Zero;

    private static double RiddenM(RidePace pace) => pace.Steps.Sum(s => s.Step.LengthM * s.Outcome.RiddenFraction);

    private static Length Stopping(RidePace pace)
    {
        double sum = 0, weight = 0;
        foreach (StepPace p in pace.Steps)
        {
            if (p.LimitedByTechnique && p.Step.RiseM < 0)
            {
                double grade = p.Step.RiseM / p.Step.LengthM, v = p.Outcome.RideSpeedMps;
                double deceleration = Math.Max(0.5, DecelerationMps2 + (Si.GravityMps2 * grade / Math.Sqrt(1 + (grade * grade))));
                sum += p.Step.LengthM * ((v * ReactionS) + (v * v / (2 * deceleration)));
                weight += p.Step.LengthM;
            }
        }

        return Length.FromMeters(weight > 0 ? sum / weight : 0);
    }
}
