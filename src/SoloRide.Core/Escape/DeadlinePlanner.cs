using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>
/// Counts clocks backward along the route: latest times to pass, turn-around times, and the set of starts that meets every clock.
/// </summary>
/// <remarks>
/// The latest time to pass a place is the least of each clock ahead minus the time to get past its stretch, as in the backward pass of a
/// network plan (source <c>critical-path</c>). An opening time is met with the low end of the leg times. Inside a leg the time is linear.
/// Degenerate: without clocks nothing binds; where no time of passing meets all clocks the result says so.
/// </remarks>
[Entry]
public static class DeadlinePlanner
{
    /// <summary>The latest time to pass each place.</summary>
    /// <param name="legs">The route from its start; at least one leg.</param>
    /// <param name="deadlines">The clocks; a closing time must be met at the end of its stretch, an opening time at its beginning.</param>
    /// <param name="closed">Periods in which a stretch must be empty; null for none.</param>
    /// <param name="options">Where the margin lies; null for the high leg times.</param>
    /// <returns>The times.</returns>
    /// <exception cref="ArgumentException">No legs, or a clock's stretch lies beyond the route; the message names it.</exception>
    public static LatestPassPlan LatestPasses(
        IReadOnlyList<DeadlineLeg> legs, IReadOnlyList<Deadline> deadlines, IReadOnlyList<ClosedPeriod>? closed = null, DeadlineOptions? options = null)
    {
        var clocks = Clocks.Of(legs, deadlines, closed, options, out List<Finding> findings);
        var stations = new List<LatestPass>();
        foreach (double m in clocks.StationsM())
        {
            IntervalSet set = clocks.Feasible(m, IntervalSet.Of(double.NegativeInfinity, double.PositiveInfinity));
            var along = Length.FromMeters(m);
            if (set.IsEmpty)
            {
                stations.Add(new LatestPass(along, null, null, null, false));
                continue;
            }

            IntervalSet.Interval last = set.Items.MaxBy(i => i.To);
            stations.Add(double.IsPositiveInfinity(last.To)
                ? new LatestPass(along, null, null, null, true)
                : new LatestPass(along, clocks.Instant(last.To, last.ToBy), clocks.NameOf(last.ToBy), clocks.KindOf(last.ToBy), true));
        }

        if (deadlines.Count == 0 && closed is null or { Count: 0 })
        {
            findings.Add(new Finding(EscapeFindingCodes.NoClock, FindingSeverity.Caution, "deadlines", "No clock is given: nothing limits when a place is passed."));
        }

        if (!stations[0].IsPossible)
        {
            findings.Add(NoStart());
        }

        return new LatestPassPlan(stations, findings);
    }

    /// <summary>All starts within a span that meet every clock.</summary>
    /// <param name="legs">The route from its start; at least one leg.</param>
    /// <param name="deadlines">The clocks.</param>
    /// <param name="earliest">Earliest start to look at.</param>
    /// <param name="latest">Latest start to look at; not before <paramref name="earliest"/>.</param>
    /// <param name="closed">Periods in which a stretch must be empty; null for none.</param>
    /// <param name="options">Where the margin lies; null for the high leg times.</param>
    /// <returns>The spans; none when no start meets every clock.</returns>
    /// <exception cref="ArgumentException">No legs, an empty span, or a clock's stretch lies beyond the route.</exception>
    public static StartWindows StartWindows(
        IReadOnlyList<DeadlineLeg> legs,
        IReadOnlyList<Deadline> deadlines,
        DateTimeOffset earliest,
        DateTimeOffset latest,
        IReadOnlyList<ClosedPeriod>? closed = null,
        DeadlineOptions? options = null)
    {
        if (latest < earliest)
        {
            throw new ArgumentException($"The latest start ({Text.Clock(latest)}) lies before the earliest ({Text.Clock(earliest)}).", nameof(latest));
        }

        var clocks = Clocks.Of(legs, deadlines, closed, options, out List<Finding> findings);
        IntervalSet set = clocks.Feasible(0, IntervalSet.Of(clocks.Ticks(earliest), clocks.Ticks(latest)));
        StartWindow[] windows =
        [
            .. set.Items.OrderBy(i => i.From).Select(i => new StartWindow(
                i.FromBy < 0 ? earliest : clocks.Instant(i.From, i.FromBy),
                i.ToBy < 0 ? latest : clocks.Instant(i.To, i.ToBy),
                clocks.NameOf(i.FromBy),
                clocks.NameOf(i.ToBy))),
        ];
        if (windows.Length == 0)
        {
            findings.Add(NoStart());
        }

        return new StartWindows(windows, findings);
    }

    /// <summary>Latest times to turn back on an out-and-back part, and where a planned start is turned back.</summary>
    /// <param name="legs">The way out, each leg with its time back.</param>
    /// <param name="deadlines">
    /// The clocks. The rider must be back out of each stretch, at its beginning, when it closes; a clock over the whole way closes at the start.
    /// </param>
    /// <param name="start">The planned start; null for the times alone.</param>
    /// <param name="options">Where the margin lies; null for the high leg times.</param>
    /// <returns>The times.</returns>
    /// <exception cref="ArgumentException">No legs, a leg without a time back, or a stretch beyond the route; the message names it.</exception>
    public static TurnAroundPlan TurnArounds(
        IReadOnlyList<DeadlineLeg> legs, IReadOnlyList<Deadline> deadlines, DateTimeOffset? start = null, DeadlineOptions? options = null)
    {
        for (int i = 0; i < Guard.NotNull(legs).Count; i++)
        {
            if (legs[i].Back is null)
            {
                throw new ArgumentException($"legs[{Text.F(i, 0)}] has no time back.", nameof(legs));
            }
        }

        var clocks = Clocks.Of(legs, deadlines, null, options, out List<Finding> findings);
        var stations = new List<TurnAround>();
        foreach (double m in clocks.StationsM())
        {
            double limit = double.PositiveInfinity;
            int by = -1;
            for (int d = 0; d < deadlines.Count; d++)
            {
                if (clocks.TurnLimit(d, m) < limit)
                {
                    limit = clocks.TurnLimit(d, m);
                    by = d;
                }
            }

            stations.Add(new TurnAround(Length.FromMeters(m), by < 0 ? null : clocks.Instant(limit, by), clocks.NameOf(by)));
        }

        var turned = new List<TurnAroundClock>();
        TurnAroundClock? binding = null;
        if (start is { } t0)
        {
            for (int d = 0; d < deadlines.Count; d++)
            {
                if (clocks.Farthest(d, clocks.Ticks(t0)) is { } far)
                {
                    var clock = new TurnAroundClock(deadlines[d].Name, Length.FromMeters(far.AlongM), clocks.Instant(far.AtTicks, d));
                    turned.Add(clock);
                    binding = binding is null || clock.At < binding.At || (clock.At == binding.At && clock.Farthest < binding.Farthest) ? clock : binding;
                }
            }
        }

        return new TurnAroundPlan(stations, turned, binding, findings);
    }

    private static Finding NoStart()
        => new(EscapeFindingCodes.NoStart, FindingSeverity.Warning, "start", "No start meets every clock: shorten the ride, leave a stretch out, or take another day.");
}
