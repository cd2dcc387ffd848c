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
        (Lever Lever, LeverEffect Effect)[] best = [.. singles.Where(s => s.Effect.GainFraction > 0).Take(3)];
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

        var ignored = new List<Finding>();
        RideCourse whole = RideCourse.Of(request, terrain, ignored) ?? throw new ArgumentException("The route has no length.", nameof(request));
        double at = news.AlongRoute.Meters;
        if (at <= 0 || at >= whole.TotalM - request.Options.StepLength.Meters)
        {
            throw new ArgumentException($"News is from km {Text.F(at / 1000, 2)}; it must lie on the route, above km 0 and before km {Text.F(whole.TotalM / 1000, 2)}.", nameof(news));
        }

        RidePlan before = Plan(request, terrain, cancel);
        TimeSpan elapsed = news.At - request.Start;
        double stops = request.Pace.Calibration?.StopMinutesPerHour / 60 ?? request.Pace.Stops.MinutesPerHour / 60;
        TimeSpan moving = news.Stopped is { } s ? elapsed - s : elapsed / (1 + stops);
        if (moving <= TimeSpan.Zero)
        {
            throw new ArgumentException($"Stopped ({Text.Span(news.Stopped ?? TimeSpan.Zero)}) is as long as the time since the start ({Text.Span(elapsed)}).", nameof(news));
        }

        PaceModel model = PaceModel.For(request.Rider, request.Bike, request.Load, request.Pace);
        int steps = whole.StepEndingAt(at) + 1;
        PaceUpdate today = PaceUpdate.From(model, [new TimedLeg("today", whole.Steps[..Math.Max(1, steps)], moving)]);
        (WalkOutProfile? walk, _) = PlanBuilder.WalkOf(whole, model.With(today));
        RideRequest rest = request with
        {
            Route = whole.Route.Part(news.AlongRoute, Length.FromMeters(Math.Min(whole.TotalM, whole.Route.Length.Meters))),
            Title = request.Title.Length > 0 ? request.Title : request.Route.Name,
            Start = news.At,
            PreparedAt = news.At,
            Today = today,
            StartWater = news.WaterInHand ?? Planned(before, at),
            Sources = [.. request.Sources.Select(x => Place(x, whole)).Where(x => x.AlongRoute!.Value.Meters > at).Select(x => x with
            {
                AlongRoute = Length.FromMeters(x.AlongRoute!.Value.Meters - at),
                WetProbability = news.SourcesNow.GetValueOrDefault(x.Name) switch { Known.Yes => 1, Known.No => 0, _ => x.WetProbability },
            })],
            Exits = [.. whole.Exits.Where(e => e.AlongRoute is { } a && a.Meters > at).Select(e => e with { AlongRoute = Length.FromMeters(e.AlongRoute!.Value.Meters - at) })],
            Deadlines = [.. request.Deadlines.Where(d => d.To.Meters > at).Select(d => new Deadline(d.Kind, d.Name, Length.FromMeters(Math.Max(0, d.From.Meters - at)), Length.FromMeters(d.To.Meters - at), d.Closes, d.Opens))],
        };
        rest = Ordered(rest);
        var findings = new List<Finding>();
        ZoneOffsets zone = Zone(rest, findings);
        RideCourse left = RideCourse.Of(rest, terrain, findings) ?? throw new ArgumentException("Nothing of the route is left.", nameof(news));
        if (news.WaterInHand is null)
        {
            findings.Add(new Finding(PlanningFindingCodes.WaterGuessed, FindingSeverity.Warning, "WaterInHand", "Water in hand is not given: what the plan expected here is taken. Look, and plan again."));
        }

        RidePlan plan = new PlanBuilder(rest, left, zone, findings, cancel, walk, at, SunAlong.Of(rest, left, terrain)).Build();
        return new TrailUpdate(plan, today.PaceFactor, Changed(before, plan, today), OnTrail(plan, today));
    }

    private static string OnTrail(RidePlan plan, PaceUpdate today) => StatusMessage.Compose(new MessageRequest
    {
        Kind = today.PaceFactor.Low.DecimalFractions > 1 ? MessageKind.LateButFine : MessageKind.OnTheWay,
        SentAt = plan.Start,
        Position = plan.Stations[0].Place,
        EndEarly = plan.Finish?.Low,
        EndLate = plan.Finish?.High,
        Next = plan.Schedule?.CheckIns.Skip(1).Select(c => (DateTimeOffset?)c.Expected).FirstOrDefault(),
        CallBy = plan.Schedule?.AlarmTime,
    }).Body;

    private static Volume Planned(RidePlan before, double alongM)
        => before.Stations.LastOrDefault(s => s.AlongRoute.Meters <= alongM)?.WaterInHand.Low ?? Volume.Zero;

    private static WaterSource Place(WaterSource s, RideCourse whole)
        => s.AlongRoute is not null ? s : s with { AlongRoute = whole.Route.Nearest(s.Place!.Value).DistanceAlong };

    private static List<string> Changed(RidePlan before, RidePlan after, PaceUpdate today)
    {
        var news = new List<string>();
        double f = today.PaceFactor.Typical.DecimalFractions;
        news.Add(Math.Abs(f - 1) < 0.02 ? "Pace as planned." : $"Pace {Text.F(Math.Abs(f - 1) * 100, 0)} % {(f > 1 ? "slower" : "faster")} than planned.");
        if (before.Finish is { } was && after.Finish is { } now)
        {
            TimeSpan shift = now.Typical - was.Typical;
            news.Add(Math.Abs(shift.TotalMinutes) < 3 ? $"Finish as planned, {PlanText.Range(now, after.Zone, after.Start)}." : $"Finish {Text.Span(shift.Duration())} {(shift > TimeSpan.Zero ? "later" : "earlier")}: {PlanText.Range(now, after.Zone, after.Start)}.");
        }

        news.AddRange(after.Margins.Where(m => !m.Holds).Select(m => $"{char.ToUpperInvariant(m.Name[0])}{m.Name[1..]}: {m.Amount}."));
        if (after.Verdict.Kind != before.Verdict.Kind)
        {
            news.Add($"Before: {PlanDifference.Words(before.Verdict.Kind)}; now: {PlanDifference.Words(after.Verdict.Kind)}.");
        }

        return news;
    }

    private static RideRequest Light(RideRequest r) => r with { Options = r.Options with { Samples = Math.Min(r.Options.Samples, StudySamples) } };

    private static LeverEffect Effect(string name, RidePlan basis, RidePlan changed)
    {
        PlanMargin? was = basis.Binding;
        PlanMargin? now = was is null ? null : changed.Margins.FirstOrDefault(m => m.Kind == was.Kind && m.Name == was.Name)
            ?? changed.Margins.Where(m => m.Kind == was.Kind && m.AfterTrouble == was.AfterTrouble).MinBy(m => m.InHandFraction);
        double least = Least(basis), leastNow = Least(changed);
        string words = was is null ? "no limit to change" : now is null ? $"{was.Name} no longer applies" : $"{was.Name}: {was.Amount} -> {now.Amount}";
        return new LeverEffect(name, changed.Verdict.Kind, changed.Binding, was, now, leastNow - least, $"{name}: {words}; {PlanDifference.Words(changed.Verdict.Kind)}");
    }

    /// <summary>The least margin of the ride itself; what matters only after trouble is told apart.</summary>
    private static double Least(RidePlan plan) => plan.Margins.Where(m => !m.AfterTrouble).Select(m => m.InHandFraction).DefaultIfEmpty(0).Min();
}
