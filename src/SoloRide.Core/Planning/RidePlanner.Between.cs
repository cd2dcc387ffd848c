using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <content>Time between two places of a ride.</content>
public static partial class RidePlanner
{
    /// <summary>Time from one place of the route to another one ahead, stops and fillings included.</summary>
    /// <param name="request">The request.</param>
    /// <param name="from">[0 km or more] First place, from the start of the route.</param>
    /// <param name="to">[km] Second place; beyond the first, not beyond the end of the route.</param>
    /// <param name="terrain">As in <see cref="Plan"/>.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>P10 to P90 over the samples of the difference, so that what both places share counts once.</returns>
    /// <exception cref="ArgumentException">The places are in the wrong order or off the route, or the route has no length or no heights.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static Estimate<TimeSpan> TimeBetween(RideRequest request, Length from, Length to, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        Guard.NotNull(request);
        double length = request.Route.Length.Meters;
        Guard.InRange(from.Meters, 0, length, "m", nameof(from));
        Guard.InRange(to.Meters, 0, length + 200, "m", nameof(to));
        if (to <= from)
        {
            throw new ArgumentException($"The second place (km {Text.F(to.Kilometers, 2)}) does not lie beyond the first (km {Text.F(from.Kilometers, 2)}).", nameof(to));
        }

        // A clock that never closes puts a station at each place and limits nothing.
        RideRequest marked = request with { Deadlines = [.. request.Deadlines, new Deadline(DeadlineKind.Other, "between", from, Length.FromMeters(Math.Min(to.Meters, length)), closes: null)] };
        var findings = new List<Finding>();
        RideCourse course = RideCourse.Of(marked, terrain, findings) is { Profile.HasHeights: true } c
            ? c
            : throw new ArgumentException($"The route '{request.Route.Name}' has no length or no heights: times cannot be told.", nameof(request));
        return new PlanBuilder(marked, course, Zone(marked, findings), findings, cancel).Between(from, to);
    }

    /// <summary>Days before: the same ride on several days at the same clock time, side by side.</summary>
    /// <param name="request">The ride; its own clocks move with the day.</param>
    /// <param name="days">Dates, at least one.</param>
    /// <param name="terrain">As in <see cref="Plan"/>.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The days in the order given, named by their dates.</returns>
    /// <exception cref="ArgumentException">No days; and as <see cref="Plan"/>.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static PlanComparison CompareDays(RideRequest request, IReadOnlyList<DateOnly> days, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        Guard.NotNull(request);
        if (Guard.NotNull(days).Count == 0)
        {
            throw new ArgumentException("At least one day is needed.", nameof(days));
        }

        ZoneOffsets zone = ClockOf(request);
        DateTimeOffset start = zone.ToLocal(request.Start);
        return Compare([.. days.Select(d =>
        {
            // The same time on the place's clock, whatever its offset on that day.
            DateTime wall = d.ToDateTime(TimeOnly.FromDateTime(start.DateTime));
            DateTimeOffset first = new DateTimeOffset(wall, start.Offset), then = new DateTimeOffset(wall, zone.OffsetAt(first));
            int by = d.DayNumber - DateOnly.FromDateTime(start.DateTime).DayNumber;
            return (Text.Date(then), request with
            {
                Start = then,
                Deadlines = [.. request.Deadlines.Select(x => OnDay(x, by, zone))],
            });
        })], terrain, cancel);
    }

    /// <summary>A deadline so many days later, at the same time on the place's clock.</summary>
    internal static Deadline OnDay(Deadline d, int days, ZoneOffsets zone)
    {
        return days == 0 ? d : new Deadline(d.Kind, d.Name, d.From, d.To, Later(d.Closes), Later(d.Opens));

        DateTimeOffset? Later(DateTimeOffset? at)
        {
            if (at is not { } t)
            {
                return null;
            }

            DateTimeOffset local = zone.ToLocal(t), first = local.AddDays(days);
            return new DateTimeOffset(first.DateTime, zone.OffsetAt(first));
        }
    }

    /// <summary>The request at another start: its own clocks move with the day.</summary>
    internal static RideRequest StartingAt(RideRequest request, DateTimeOffset start)
    {
        ZoneOffsets zone = ClockOf(request);
        int days = (zone.ToLocal(start).Date - zone.ToLocal(request.Start).Date).Days;
        return request with { Start = start, Deadlines = [.. request.Deadlines.Select(d => OnDay(d, days, zone))] };
    }
}
