using SoloRide.Contact;
using SoloRide.Effort;
using SoloRide.Escape;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <content>Sweeps, levers, comparisons and plans made anew on the trail: each is a row of full plans with common random numbers.</content>
public static partial class RidePlanner
{
    /// <summary>Samples for each plan of a sweep or of levers unless the request asks for fewer.</summary>
    private const int StudySamples = 500;

    /// <summary>Plans every start of a span and finds the spans that fit.</summary>
    /// <param name="request">The request; its own start is replaced, and its own clocks move with the day.</param>
    /// <param name="from">First start.</param>
    /// <param name="to">Last start; not before <paramref name="from"/>.</param>
    /// <param name="step">Between starts; at least a minute, at most 10 000 starts.</param>
    /// <param name="terrain">As in <see cref="Plan"/>.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>One outcome a start and the windows.</returns>
    /// <exception cref="ArgumentException">An empty span, too small a step, or too many starts; and as <see cref="Plan"/>.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static StartSweep SweepStarts(RideRequest request, DateTimeOffset from, DateTimeOffset to, TimeSpan step, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        Guard.NotNull(request);
        if (to < from)
        {
            throw new ArgumentException($"The last start ({Text.Clock(to)}) lies before the first ({Text.Clock(from)}).", nameof(to));
        }

        if (step < TimeSpan.FromMinutes(1) || (to - from) / step > 10_000)
        {
            throw new ArgumentException($"The step is {Text.Span(step)}; it must be at least 1 min and give at most 10 000 starts.", nameof(step));
        }

        RideRequest light = Ordered(Light(request));
        Ground ground = Lay(light, terrain);
        var outcomes = new List<StartOutcome>();
        for (DateTimeOffset t = from; t <= to; t += step)
        {
            cancel.ThrowIfCancellationRequested();
            RidePlan plan = PlanOn(StartingAt(light, t), ground, cancel);
            outcomes.Add(new StartOutcome(plan.Start, plan.Verdict.Kind, plan.Finish ?? Estimate.Exact(plan.Start), plan.Margins));
        }

        var windows = new List<(DateTimeOffset From, DateTimeOffset To)>();
        for (int i = 0; i < outcomes.Count; i++)
        {
            if (outcomes[i].Kind >= PlanVerdictKind.DoesNotFit)
            {
                continue;
            }

            int j = i;
            while (j + 1 < outcomes.Count && outcomes[j + 1].Kind < PlanVerdictKind.DoesNotFit)
            {
                j++;
            }

            windows.Add((outcomes[i].Start, outcomes[j].Start));
            i = j;
        }

        return new StartSweep(outcomes, windows);
    }

    /// <summary>The plan with its levers: each change alone, then pairs of the best three, every one recomputed in full.</summary>
    /// <param name="request">The request.</param>
    /// <param name="levers">Changes to try; null for <see cref="Lever.Usual"/>.</param>
    /// <param name="terrain">As in <see cref="Plan"/>.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The plan of the request with <see cref="RidePlan.Levers"/> filled, best first.</returns>
    /// <exception cref="ArgumentException">As <see cref="Plan"/>.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static RidePlan Levers(RideRequest request, IReadOnlyList<Lever>? levers = null, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        RidePlan plan = Plan(request, terrain, cancel);
        if (plan.Verdict.Kind == PlanVerdictKind.Refused)
        {
            return plan;
        }

        RideRequest light = Light(request);
        RidePlan basis = Plan(light, terrain, cancel);
        var singles = new List<(Lever Lever, LeverEffect Effect)>();
        foreach (Lever lever in levers ?? Lever.Usual(request))
        {
            cancel.ThrowIfCancellationRequested();
            if (lever.Change(light) is { } changed)
            {
                singles.Add((lever, Effect(lever.Name, basis, Plan(changed, terrain, cancel))));
            }
        }

        singles = [.. singles.OrderBy(s => s.Effect.Kind).ThenByDescending(s => s.Effect.GainFraction).ThenBy(s => s.Lever.Name, StringComparer.Ordinal)];
        var effects = singles.Select(s => s.Effect).ToList();

        // The best of each sort: an earlier start and a start earlier still are one thing, not a pair.
        (Lever Lever, LeverEffect Effect)[] best = [.. singles.Where((s, i) => s.Effect.GainFraction > 0 && !singles.Take(i).Any(o => o.Effect.GainFraction > 0 && o.Lever.SameSort(s.Lever))).Take(3)];
        for (int i = 0; i < best.Length; i++)
        {
            for (int j = i + 1; j < best.Length; j++)
            {
                if (best[i].Lever.Change(light) is { } one && best[j].Lever.Change(one) is { } both)
                {
                    effects.Add(Effect($"{best[i].Lever.Name} and {best[j].Lever.Name}", basis, Plan(both, terrain, cancel)));
                }
            }
        }

        return plan with { Levers = effects };
    }

    /// <summary>Plans several requests side by side: routes, directions, days or kits. Seeds are made equal, so that differences are not noise.</summary>
    /// <param name="alternatives">Names and requests, at least one.</param>
    /// <param name="terrain">As in <see cref="Plan"/>.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The plans in the order given.</returns>
    /// <exception cref="ArgumentException">No alternatives; and as <see cref="Plan"/>.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static PlanComparison Compare(IReadOnlyList<(string Name, RideRequest Request)> alternatives, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        if (Guard.NotNull(alternatives).Count == 0)
        {
            throw new ArgumentException("At least one alternative is needed.", nameof(alternatives));
        }

        ulong seed = alternatives[0].Request.Options.Seed;
        return new PlanComparison([.. alternatives.Select(a => new PlanAlternative(Guard.NotEmpty(a.Name), Plan(a.Request with { Options = a.Request.Options with { Seed = seed } }, terrain, cancel)))]);
    }

    /// <summary>Plans what is left of a ride from where the rider is: the shared pace factor is updated in closed form, every deadline anew.</summary>
    /// <param name="request">The request that the ride was planned with.</param>
    /// <param name="news">Where, when, and what is left.</param>
    /// <param name="terrain">As in <see cref="Plan"/>.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The new plan, its pace factor, what changed, and a short message for home.</returns>
    /// <exception cref="ArgumentException">The place lies at or beyond the end, or the time not after the start; and as <see cref="Plan"/>.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static TrailUpdate Replan(RideRequest request, TrailNews news, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        Guard.NotNull(request);
        Guard.NotNull(news);
        if (news.At <= request.Start)
        {
            throw new ArgumentException($"News is from {Text.Clock(news.At)}; the ride starts at {Text.Clock(request.Start)}.", nameof(news));
        }

        // Measured against what was planned before the ride: an update of today that the request carries is made anew from the whole way.
        request = Ordered(request with { Today = null });
        var findings = new List<Finding>();
        Ground ground = Lay(request, terrain);
        RideCourse whole = ground.Course;
        ZoneOffsets zone = Zone(request, findings);
        double at = news.AlongRoute.Meters;
        if (at <= 0 || at >= whole.TotalM - request.Options.StepLength.Meters)
        {
            throw new ArgumentException($"News is from km {Text.F(at / 1000, 2)}; it must lie on the route, above km 0 and before km {Text.F(whole.TotalM / 1000, 2)}.", nameof(news));
        }

        TimeSpan elapsed = news.At - request.Start;
        if (news.Stopped is { } stood && stood >= elapsed)
        {
            throw new ArgumentException($"Stopped ({Text.Span(stood)}) is as long as the time since the start ({Text.Span(elapsed)}).", nameof(news));
        }

        DateTimeOffset now = zone.ToLocal(news.At);
        PaceModel model = PaceModel.For(request.Rider, request.Bike, request.Load, request.Pace);
        if (!whole.Profile.HasHeights)
        {
            return WithoutHeights(request, news, ground, zone, model, now);
        }

        var asPlanned = new PlanBuilder(request, whole, zone, [.. ground.Findings], cancel, sun: ground.Sun);
        PlanBuilder.Expected expected = asPlanned.SoFar(at);
        RidePlan before = asPlanned.Build();
        (PaceUpdate today, TimedLeg leg) = PlanBuilder.Learn(model, expected, elapsed, news.Stopped, "today");
        (WalkOutProfile? walk, _) = PlanBuilder.WalkOf(whole, model.With(today));
        if (news.WaterInHand is null)
        {
            findings.Add(new Finding(PlanningFindingCodes.WaterGuessed, FindingSeverity.Warning, "WaterInHand", $"Water in hand is not given: the {Text.F(expected.WaterL, 1)} L that the plan expected here are taken, a guess. Look, and plan again."));
        }

        RideRequest rest = Rest(request, news, whole, now) with
        {
            Today = today,
            StartWater = news.WaterInHand ?? Volume.FromLiters(Math.Clamp(expected.WaterL, 0, 60)),
            Options = request.Options with { MovedBefore = request.Options.MovedBefore + leg.Moving },
        };
        RideCourse left = RideCourse.Of(rest, terrain, findings) ?? throw new ArgumentException("Nothing of the route is left.", nameof(news));
        RidePlan plan = new PlanBuilder(rest, left, zone, findings, cancel, walk, at, SunAlong.Of(rest, left, terrain)).Build();
        return new TrailUpdate(plan, today.PaceFactor, Changed(before, plan, today), OnTrail(before, plan, now));
    }

    /// <summary>What a whole ride says about the pace, against the plan at the start that was ridden.</summary>
    internal static (PaceUpdate Update, TimedLeg Leg) Learn(RideRequest request, ITerrainHeights? terrain, TimeSpan elapsed, TimeSpan? stopped, string name)
    {
        request = Ordered(request);
        Ground ground = Lay(request, terrain);
        var builder = new PlanBuilder(request, ground.Course, Zone(request, []), [], CancellationToken.None, sun: ground.Sun);
        return PlanBuilder.Learn(PaceModel.For(request.Rider, request.Bike, request.Load, request.Pace), builder.SoFar(ground.Course.TotalM), elapsed, stopped, name);
    }

    /// <summary>What is left of a ride as a request of its own, its distances counted from the rider's place.</summary>
    private static RideRequest Rest(RideRequest request, TrailNews news, RideCourse whole, DateTimeOffset now)
    {
        double at = news.AlongRoute.Meters, near = request.Options.StepLength.Meters;
        return Ordered(request with
        {
            Route = whole.Route.Part(news.AlongRoute, Length.FromMeters(Math.Min(whole.TotalM, whole.Route.Length.Meters))),
            Title = request.Title.Length > 0 ? request.Title : request.Route.Name,
            Start = now,
            PreparedAt = now,

            // A source at the rider's feet still counts: it can be filled before going on.
            Sources = [.. request.Sources.Select(x => Place(x, whole)).Where(x => x.AlongRoute!.Value.Meters > at - near).Select(x => x with
            {
                AlongRoute = Length.FromMeters(Math.Max(0, x.AlongRoute!.Value.Meters - at)),
                WetProbability = news.SourcesNow.GetValueOrDefault(x.Name) switch { Known.Yes => 1, Known.No => 0, _ => x.WetProbability },
            })],
            Exits = [.. whole.Exits.Where(e => e.AlongRoute is { } a && a.Meters > at).Select(e => e with { AlongRoute = Length.FromMeters(e.AlongRoute!.Value.Meters - at) })],

            // The end of the route is among the ways out; where the rider is now is none.
            EndsAreExits = false,
            Deadlines = [.. request.Deadlines.Where(d => d.To.Meters > at).Select(d => new Deadline(d.Kind, d.Name, Length.FromMeters(Math.Max(0, d.From.Meters - at)), Length.FromMeters(d.To.Meters - at), d.Closes, d.Opens))],
        });
    }

    /// <summary>What is refused before the ride is refused on the way.</summary>
    private static TrailUpdate WithoutHeights(RideRequest request, TrailNews news, Ground ground, ZoneOffsets zone, PaceModel model, DateTimeOffset now)
    {
        var findings = new List<Finding>(ground.Findings);
        RideRequest rest = Rest(request, news, ground.Course, now);
        RidePlan plan = PlanBuilder.Refused(rest, RideCourse.Of(rest, null, []) ?? ground.Course, zone, findings);
        double sd = NormalKernel.Z90 * model.RideLogSd;
        return new TrailUpdate(
            plan,
            Estimate.Of(Ratio.FromDecimalFractions(1), Ratio.FromDecimalFractions(Math.Exp(-sd)), Ratio.FromDecimalFractions(Math.Exp(sd))),
            ["Not planned: the route has no heights. The pace so far tells nothing about the rest."],
            StatusMessage.Compose(new MessageRequest { Kind = MessageKind.NotAsPlanned, SentAt = now, Position = ground.Course.PlaceAt(news.AlongRoute.Meters), What = "no times known, route without heights" }).Body);
    }

    /// <summary>The message for home. It says fine only while the numbers do: in time, or late with an end that the contact's times still hold.</summary>
    private static string OnTrail(RidePlan before, RidePlan plan, DateTimeOffset now)
    {
        bool overdue = before.Home is { } home && now >= home.Overdue;
        bool stop = plan.Verdict.Kind >= PlanVerdictKind.DoesNotFit;
        bool late = before.Finish is { } was && plan.Finish is { } end && end.Typical - was.Typical >= LateFrom;
        string? what = stop
            ? $"turning or ending early: {string.Join("; ", plan.Margins.Where(m => !m.Holds && !m.AfterTrouble).OrderByDescending(NoLamp).Take(2).Select(Short))}"
            : overdue ? $"overdue since {PlanText.ClockOn(before.Zone.ToLocal(before.Home!.Overdue), now)}, going on" : null;
        return StatusMessage.Compose(new MessageRequest
        {
            Kind = stop || overdue ? MessageKind.NotAsPlanned : late ? MessageKind.LateButFine : MessageKind.OnTheWay,
            SentAt = now,
            Position = plan.Stations[0].Place,
            What = what,

            // Who turns does not come by the times of going on.
            EndEarly = stop ? null : plan.Finish?.Low,
            EndLate = stop ? null : plan.Finish?.High,
            Next = plan.Schedule?.CheckIns.Skip(1).Select(c => (DateTimeOffset?)c.Expected).FirstOrDefault(),
            CallBy = plan.Schedule?.AlarmTime,
        }).Body;

        static string Short(PlanMargin m) => m.Kind switch
        {
            MarginKind.Water => $"water {Lead(m)}",
            MarginKind.LampLight => NoLamp(m) ? $"no lamp, {Text.Span(m.Time!.Value.Duration())} dark" : $"lamp {Lead(m)}",
            MarginKind.Daylight => $"daylight {Lead(m)}",
            _ => $"{m.Name} {Lead(m)}",
        };

        // The amount without what explains it.
        static string Lead(PlanMargin m) => m.Amount.Split(',', ';')[0];
        static bool NoLamp(PlanMargin m) => m.Kind == MarginKind.LampLight && m.Amount.EndsWith("no lamp", StringComparison.Ordinal) && m.Time is not null;
    }

    /// <summary>A finish later by less is in time.</summary>
    private static readonly TimeSpan LateFrom = TimeSpan.FromMinutes(10);

    private static WaterSource Place(WaterSource s, RideCourse whole)
        => s.AlongRoute is not null ? s : s with { AlongRoute = whole.Route.Nearest(s.Place!.Value).DistanceAlong };

    private static List<string> Changed(RidePlan before, RidePlan after, PaceUpdate today)
    {
        var news = new List<string>();
        news.Add(PaceWords(today.PaceFactor.Typical.DecimalFractions));
        if (before.Finish is { } was && after.Finish is { } now)
        {
            TimeSpan shift = now.Typical - was.Typical;
            news.Add(Math.Abs(shift.TotalMinutes) < 3 ? $"Finish as planned, {PlanText.Range(now, after.Zone, after.Start)}." : $"Finish {Text.Span(shift.Duration())} {(shift > TimeSpan.Zero ? "later" : "earlier")}: {PlanText.Range(now, after.Zone, after.Start)}.");
        }

        news.AddRange(after.Margins.Where(m => !m.Holds).Select(m => $"{char.ToUpperInvariant(m.Name[0])}{m.Name[1..]}: {m.Amount}."));
        if (before.Verdict.Kind != after.Verdict.Kind)
        {
            news.Add($"Before: {PlanDifference.Words(before.Verdict.Kind)}; now: {PlanDifference.Words(after.Verdict.Kind)}.");
        }

        return news;
    }

    /// <summary>The factor holds for trail like that done so far; far from 1 it is told as a multiple.</summary>
    internal static string PaceWords(double factor)
    {
        double off = Math.Abs(factor - 1);
        string how = factor >= 1.5 ? $"{Text.F(factor, 1)} times the planned time" : $"{Text.F(off * 100, 0)} % {(factor > 1 ? "slower" : "faster")} than planned";
        return off < 0.02 ? "Pace as planned." : $"Pace so far {how}, on trail like that so far.";
    }

    private static RideRequest Light(RideRequest r) => r with { Options = r.Options with { Samples = Math.Min(r.Options.Samples, StudySamples) } };

    private static LeverEffect Effect(string name, RidePlan basis, RidePlan changed)
    {
        PlanMargin? was = basis.Binding;
        PlanMargin? now = was is null ? null : changed.Margins.FirstOrDefault(m => m.Kind == was.Kind && m.Name == was.Name)
            ?? changed.Margins.Where(m => m.Kind == was.Kind && m.AfterTrouble == was.AfterTrouble).MinBy(m => m.InHandFraction);
        double least = Least(basis), leastNow = Least(changed);
        string words = was is null ? "no limit to change" : now is null ? $"{was.Name} no longer applies" : $"{was.Name}: {was.Amount} -> {now.Amount}";
        string spare = basis.KitPlan is { } kit && changed.KitPlan is { } kitNow && Math.Abs((kit.ExpectedLoss - kitNow.ExpectedLoss).TotalMinutes) >= 0.05
            ? $"; expected loss by breakdowns {Text.F(kit.ExpectedLoss.TotalMinutes, 1)} -> {Text.F(kitNow.ExpectedLoss.TotalMinutes, 1)} min"
            : "";
        return new LeverEffect(name, changed.Verdict.Kind, changed.Binding, was, now, leastNow - least, $"{name}: {words}{spare}; {PlanDifference.Words(changed.Verdict.Kind)}");
    }

    /// <summary>The least margin of the ride itself; what matters only after trouble is told apart.</summary>
    private static double Least(RidePlan plan) => plan.Margins.Where(m => !m.AfterTrouble).Select(m => m.InHandFraction).DefaultIfEmpty(0).Min();
}
