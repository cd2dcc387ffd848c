using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>Waiting when the rider cannot move: until help comes, how long it can be borne, what must be carried to wait.</summary>
/// <remarks>
/// Wait = detection + reaction + response. The response is a class with published anchors (mean response 3 h, mean mission 5 h, most searches
/// within 24 h, 99 % of those found alive within 51 h), never a promise. Insulation is the balance of heat at rest (form of Burton and
/// Edholm, from memory); it says nothing of wind and wet. Sources: <c>assumption-response</c>, <c>burton-edholm</c>,
/// <c>usaf-survival-water</c>, <c>plb-life</c>.
/// </remarks>
[Entry]
public static class WaitingPlanner
{
    /// <summary>The class to carry for by default: alone, beyond the telephone.</summary>
    public const ResponseClass DefaultClass = ResponseClass.R3;

    /// <summary>Time planned for the response of a class.</summary>
    /// <param name="response">The class.</param>
    /// <returns>The time.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No such class.</exception>
    public static TimeSpan ResponseTime(ResponseClass response) => TimeSpan.FromHours(WaitingKernel.Hours(Guard.Defined(response)));

    /// <summary>How long until silence is noticed.</summary>
    /// <param name="interval">Between two check-ins; above zero.</param>
    /// <param name="grace">How long after a missed check-in the contact takes it for missed; zero or more.</param>
    /// <returns>Mean and worst.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Interval not positive, or grace negative.</exception>
    public static DetectionDelay Detection(TimeSpan interval, TimeSpan grace)
    {
        (double mean, double worst) = WaitingKernel.DetectionMin(
            Guard.Positive(interval.TotalMinutes, "min", nameof(interval)), Guard.NotNegative(grace, nameof(grace)).TotalMinutes);
        return new DetectionDelay(TimeSpan.FromMinutes(mean), TimeSpan.FromMinutes(worst));
    }

    /// <summary>The least of what limits waiting.</summary>
    /// <param name="situation">What the rider has.</param>
    /// <returns>The limit.</returns>
    public static TolerableWait Tolerable(WaitingSituation situation)
    {
        Guard.NotNull(situation);
        var limits = new List<WaitLimit>();
        if (situation.ColdLimit is { } cold)
        {
            limits.Add(new WaitLimit("cold", cold));
        }

        if (situation.HeatLimit is { } heat)
        {
            limits.Add(new WaitLimit("heat", heat));
        }

        if (situation.Water is { } water)
        {
            limits.Add(new WaitLimit("water", Hours((water.Liters + (situation.BodyWater?.Liters ?? 0)) / RestLitresPerDay(situation) * 24)));
        }

        if (situation.BeaconLife is { } beacon)
        {
            limits.Add(new WaitLimit("beacon", beacon));
        }

        if (situation.Charge is { } charge && situation.ChargeDraw is { } draw)
        {
            limits.Add(new WaitLimit("charge", Hours(charge.WattHours / (double)draw.Watts)));
        }

        if (situation.MedicalLimit is { } medical)
        {
            limits.Add(new WaitLimit("medical", medical));
        }

        WaitLimit? least = limits.MinBy(l => l.Time);
        return new TolerableWait(least?.Time, least?.Name, limits);
    }

    /// <summary>Plans the wait.</summary>
    /// <param name="situation">What the rider has.</param>
    /// <param name="response">The class of response to plan for.</param>
    /// <param name="interval">Check-in interval when the rider cannot call; null when the rider can call and is heard.</param>
    /// <param name="grace">How long after a missed check-in the contact takes it for missed.</param>
    /// <param name="reaction">Until the contact or the call centre acts.</param>
    /// <returns>The plan.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Interval not positive, a negative time, or no such class.</exception>
    public static WaitingPlan Plan(
        WaitingSituation situation,
        ResponseClass response = DefaultClass,
        TimeSpan? interval = null,
        TimeSpan grace = default,
        TimeSpan reaction = default)
    {
        TolerableWait tolerable = Tolerable(situation);
        DetectionDelay detection = interval is { } i ? Detection(i, grace) : new DetectionDelay(TimeSpan.Zero, TimeSpan.Zero);
        Guard.NotNegative(grace);
        Guard.NotNegative(reaction);
        TimeSpan responseTime = ResponseTime(response);
        TimeSpan wait = detection.Worst + reaction + responseTime;
        var findings = new List<Finding>
        {
            new(
                EscapeFindingCodes.ResponseAssumed,
                FindingSeverity.Caution,
                response.ToString(),
                $"Help after {Text.Span(responseTime)} is a class to carry for, not a promise: weather, ground and access decide. Call early."),
        };
        if (tolerable.Time is { } t)
        {
            if (t < wait)
            {
                findings.Add(new Finding(
                    EscapeFindingCodes.WaitShort,
                    FindingSeverity.Warning,
                    tolerable.Binding!,
                    $"The wait of {Text.Span(wait)}{Parts()} is longer than {tolerable.Binding} allows ({Text.Span(t)}).",
                    new FindingValue("short_min", Text.F((wait - t).TotalMinutes, 0))));
            }
            else if (t == wait)
            {
                findings.Add(new Finding(
                    EscapeFindingCodes.WaitShort, FindingSeverity.Caution, tolerable.Binding!, $"The wait of {Text.Span(wait)} uses up all that {tolerable.Binding} allows: no reserve."));
            }
        }

        string[] unknown =
        [
            .. new[] { ("cold", situation.ColdLimit is null), ("water", situation.Water is null), ("charge or beacon", situation.BeaconLife is null && situation.Charge is null) }
                .Where(p => p.Item2).Select(p => p.Item1),
        ];
        if (unknown.Length > 0)
        {
            findings.Add(new Finding(
                EscapeFindingCodes.WaitUnknown, FindingSeverity.Caution, "wait", $"Not known, and so not counted: {string.Join(", ", unknown)}. The true limit may be shorter."));
        }

        TimeSpan? longest = tolerable.Time is { } limit && limit - grace - reaction - responseTime is var left && left > TimeSpan.Zero ? left : null;
        return new WaitingPlan(
            response, detection, reaction, responseTime, wait, tolerable,
            Volume.FromLiters(RestLitresPerDay(situation) * wait.TotalDays),
            situation.ChargeDraw is { } w ? Energy.FromWattHours((double)w.Watts * wait.TotalHours) : null,
            situation.Air is { } air ? Math.Max(0, WaitingKernel.InsulationClo(WaitingKernel.RestWPerM2, air.DegreesCelsius)) : null,
            longest,
            findings);

        // Two figures of one wait stand apart in the texts: the response alone, and all from the event on.
        string Parts() => wait == responseTime ? "" : $" ({(detection.Worst > TimeSpan.Zero ? $"silence noticed {Text.Span(detection.Worst)}, " : "")}{(reaction > TimeSpan.Zero ? $"reaction {Text.Span(reaction)}, " : "")}response {Text.Span(responseTime)})";
    }

    /// <summary>The area in which a person may be who walks straight on from a known place.</summary>
    /// <param name="since">Time since that place; zero or more.</param>
    /// <param name="speed">Zero or more.</param>
    /// <returns>The area of the circle.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A negative value.</exception>
    public static Area SearchArea(TimeSpan since, Speed speed)
        => Area.FromSquareMeters(WaitingKernel.SearchArea(Guard.NotNegative(since).TotalSeconds, Guard.NotNegative(speed.MetersPerSecond, "m/s", nameof(speed))));

    /// <summary>Insulation needed to stay warm for long.</summary>
    /// <param name="metabolicWPerM2">[W/m², 30 to 600] Heat made per area of skin; 58.2 at rest.</param>
    /// <param name="air">Air temperature.</param>
    /// <returns>[clo] The air layer included, wind not counted; zero when none is needed.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public static double InsulationClo(double metabolicWPerM2, Temperature air)
        => Math.Max(0, WaitingKernel.InsulationClo(Guard.InRange(metabolicWPerM2, 30, 600, "W/m2"), Guard.InRange(air.DegreesCelsius, -90, 60, "C", nameof(air))));

    private static double RestLitresPerDay(WaitingSituation s)
        => s.RestWaterPerDay?.Liters ?? WaitingKernel.RestWaterLPerDay((s.MeanAir ?? s.Air)?.DegreesCelsius ?? 0);

    private static TimeSpan Hours(double h) => h < TimeSpan.MaxValue.TotalHours ? TimeSpan.FromHours(h) : TimeSpan.MaxValue;
}
