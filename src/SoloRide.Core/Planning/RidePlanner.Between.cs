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
}
