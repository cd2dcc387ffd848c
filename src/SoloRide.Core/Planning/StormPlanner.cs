using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Ridge or not: exposed ground against the early onset of a storm.</summary>
/// <remarks>Thread-safe; a pure function of its arguments.</remarks>
[Entry(NoOutsideCheck = "quantile of a time taken from an instant; the times are those of the planner")]
public static class StormPlanner
{
    /// <summary>Last times to enter a ridge, the start that keeps them, and the advice.</summary>
    /// <param name="request">The ride.</param>
    /// <param name="ridge">The exposed ground, on the route.</param>
    /// <param name="terrain">As in <see cref="RidePlanner.Plan"/>.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The plan of the ridge.</returns>
    /// <exception cref="ArgumentException">The ridge runs backward or beyond the route, or a way down leaves outside it.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static StormPlan Plan(RideRequest request, StormRidge ridge, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        Guard.NotNull(request);
        Guard.NotNull(ridge);
        double total = request.Route.Length.Meters;
        if (ridge.To <= ridge.From || ridge.To.Meters > total + 200)
        {
            throw new ArgumentException($"The ridge '{ridge.Name}' runs from km {Text.F(ridge.From.Kilometers, 1)} to km {Text.F(ridge.To.Kilometers, 1)}; it must run forward and lie within {Text.F(total / 1000, 1)} km.", nameof(ridge));
        }

        if (ridge.Escapes.FirstOrDefault(e => e.LeavesAt < ridge.From || e.LeavesAt > ridge.To) is { } off)
        {
            throw new ArgumentException($"The way down '{off.Name}' leaves at km {Text.F(off.LeavesAt.Kilometers, 1)}, outside the ridge.", nameof(ridge));
        }

        ZoneOffsets zone = RidePlanner.ClockOf(request);
        Estimate<TimeSpan> whole = RidePlanner.TimeBetween(request, ridge.From, ridge.To, terrain, cancel);
        var exits = new List<StormExit> { Exit($"over {ridge.Name}", ridge.To, whole) };
        foreach (StormEscape e in ridge.Escapes)
        {
            Estimate<TimeSpan> time = e.LeavesAt - ridge.From <= Length.FromMeters(1)
                ? e.Time
                : Sum(RidePlanner.TimeBetween(request, ridge.From, e.LeavesAt, terrain, cancel), e.Time);
            exits.Add(Exit(e.Name, e.LeavesAt, time));
        }

        exits = [.. exits.OrderByDescending(e => e.LatestEntry).ThenBy(e => e.Name, StringComparer.Ordinal)];
        StormExit best = exits[0];
        RidePlan plan = RidePlanner.Plan(
            request with { Deadlines = [.. request.Deadlines, new Deadline(DeadlineKind.Storm, $"latest entry of {ridge.Name}", ridge.From, ridge.From, best.LatestEntry)] }, terrain, cancel);
        Estimate<DateTimeOffset> entry = plan.Stations.MinBy(s => Math.Abs(s.AlongRoute.Meters - ridge.From.Meters))!.Arrival;
        TimeSpan late = entry.High - best.LatestEntry;
        bool inTime = late <= TimeSpan.Zero;
        DateTimeOffset start = zone.ToLocal(request.Start - (late > TimeSpan.Zero ? late : TimeSpan.Zero)), latest = zone.ToLocal(request.Start - late);
        DateTimeOffset latestForWhole = zone.ToLocal(ridge.Onset.Low - whole.High);
        string advice = inTime
            ? entry.High <= latestForWhole
                ? $"Enter {ridge.Name} by {Text.Clock(best.LatestEntry)}; leave by {Text.Clock(latest)} at the latest. Turn at the first thunder."
                : $"Over all of {ridge.Name} in time only if you enter by {Text.Clock(latestForWhole)}; later go down by {best.Name} at km {Text.F(best.LeavesAt.Kilometers, 1)}."
            : request.PreparedAt is { } now && start < now
                ? $"Drop {ridge.Name}: 9 rides in 10 come there by {Text.Clock(zone.ToLocal(entry.High))}, {Text.Span(late)} after the latest entry at {Text.Clock(best.LatestEntry)}, and there is no earlier start left."
                : $"Start by {PlanText.ClockOn(start, zone.ToLocal(request.Start))}, or drop {ridge.Name}: with the start as planned 9 rides in 10 come there by {Text.Clock(zone.ToLocal(entry.High))}, {Text.Span(late)} after the latest entry at {Text.Clock(best.LatestEntry)}.";
        return new StormPlan
        {
            Exits = exits,
            LatestForWhole = latestForWhole,
            Entry = entry,
            LatestStart = latest,
            InTime = inTime,
            Advice = advice,
            Plan = plan,
        };

        StormExit Exit(string name, Length at, Estimate<TimeSpan> time) => new(name, at, time, zone.ToLocal(ridge.Onset.Low - time.High));
    }

    private static Estimate<TimeSpan> Sum(Estimate<TimeSpan> a, Estimate<TimeSpan> b) => Estimate.Of(a.Typical + b.Typical, a.Low + b.Low, a.High + b.High);
}
