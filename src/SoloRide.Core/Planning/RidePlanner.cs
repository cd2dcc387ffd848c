using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>The main job: a route and a start go in, a whole plan comes out.</summary>
/// <remarks>
/// <para>One pass over the route couples clock, carried mass, water, sodium, energy, light and heat; samples draw what is uncertain, the factor
/// that all legs of a day share first. Deadlines are counted backward from every clock at the confidence asked for. See docs/modules/planning.md.</para>
/// <para>A pure function of its request: same request, same plan, on any number of threads and in any culture. Thread-safe.</para>
/// <para>A planning aid, not a guarantee.</para>
/// </remarks>
[Entry(NoOutsideCheck = "composes the other modules, which carry the outside checks; here closed-form cases and laws are checked")]
public static partial class RidePlanner
{
    /// <summary>Plans a ride.</summary>
    /// <param name="request">Route, start, and whatever else is known.</param>
    /// <param name="terrain">Heights of the ground, for routes that carry none; null when there is no such source.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The plan. Without heights from either source its verdict is <see cref="PlanVerdictKind.Refused"/> and it holds distance, daylight and what can be told home.</returns>
    /// <exception cref="ArgumentNullException">No request.</exception>
    /// <exception cref="ArgumentException">The route has no length, or a source, way out or deadline lies beyond its end; the message names it.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static RidePlan Plan(RideRequest request, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        request = Ordered(Guard.NotNull(request));
        return PlanOn(request, Lay(request, terrain), cancel);
    }

    /// <summary>What of a plan does not depend on the start: the course, what was found on it, and its skyline.</summary>
    private sealed record Ground(RideCourse Course, IReadOnlyList<Finding> Findings, SunAlong? Sun);

    private static Ground Lay(RideRequest request, ITerrainHeights? terrain)
    {
        var findings = new List<Finding>();
        RideCourse course = RideCourse.Of(request, terrain, findings)
            ?? throw new ArgumentException($"The route '{request.Route.Name}' has no length: it needs at least two different places.", nameof(request));
        return new Ground(course, findings, SunAlong.Of(request, course, terrain));
    }

    private static RidePlan PlanOn(RideRequest request, Ground ground, CancellationToken cancel)
    {
        var findings = new List<Finding>();
        ZoneOffsets zone = Zone(request, findings);
        Now(request, findings);
        findings.AddRange(ground.Findings);
        RideCourse course = ground.Course;
        foreach (Deadline d in request.Deadlines)
        {
            if (d.To.Meters > course.TotalM + 200)
            {
                throw new ArgumentException($"Deadline '{d.Name}' ends at km {Text.F(d.To.Kilometers, 2)}; the route ends at km {Text.F(course.TotalM / 1000, 2)}.", nameof(request));
            }
        }

        return course.Profile.HasHeights
            ? new PlanBuilder(request, course, zone, findings, cancel, sun: ground.Sun).Build()
            : PlanBuilder.Refused(request, course, zone, findings);
    }

    private const int FirstYear = 1900, LastYear = 2200;

    /// <summary>The same request with everything that has no order of its own in one order: the plan does not depend on the order in which things were named.</summary>
    private static RideRequest Ordered(RideRequest request)
    {
        if (request.Start.Year is < FirstYear or > LastYear)
        {
            throw new ArgumentException($"Start is in the year {Text.F(request.Start.Year, 0)}; it must lie in {Text.F(FirstYear, 0)} to {Text.F(LastYear, 0)}.", nameof(request));
        }

        return request with
        {
            Sources = [.. request.Sources.OrderBy(s => s.AlongRoute?.Meters ?? double.PositiveInfinity).ThenBy(s => s.Place?.LatDeg ?? 0).ThenBy(s => s.Place?.LonDeg ?? 0).ThenBy(s => s.Name, StringComparer.Ordinal).ThenBy(s => s.WetProbability ?? 0)],
            Exits = [.. request.Exits.OrderBy(e => e.AlongRoute?.Meters ?? double.PositiveInfinity).ThenBy(e => e.Place?.LatDeg ?? 0).ThenBy(e => e.Place?.LonDeg ?? 0).ThenBy(e => e.Name, StringComparer.Ordinal)],
            Devices = [.. request.Devices.OrderBy(d => d.Name, StringComparer.Ordinal)],
            Deadlines = [.. request.Deadlines.OrderBy(d => d.From.Meters).ThenBy(d => d.To.Meters).ThenBy(d => d.Closes).ThenBy(d => d.Name, StringComparer.Ordinal)],
            KitItems = [.. request.KitItems.OrderBy(i => i.Name, StringComparer.Ordinal)],
        };
    }

    /// <summary>The ride's clock: its zone, or the offset of its start.</summary>
    internal static ZoneOffsets ClockOf(RideRequest request)
        => request.Zone ?? ZoneOffsets.Fixed(TimeSpan.FromMinutes(Math.Round(request.Start.Offset.TotalMinutes)));

    private static ZoneOffsets Zone(RideRequest request, List<Finding> findings)
    {
        if (request.Zone is { } zone)
        {
            return zone;
        }

        findings.Add(new Finding(
            PlanningFindingCodes.NoZone, FindingSeverity.Caution, "Zone",
            $"No zone is given: {Text.Offset(request.Start.Offset)} holds for the whole ride. A change of the clock would shift every time."));
        return ClockOf(request);
    }

    private static void Now(RideRequest request, List<Finding> findings)
    {
        if (request.PreparedAt is not { } now)
        {
            findings.Add(new Finding(PlanningFindingCodes.NoNow, FindingSeverity.Note, "PreparedAt", "No instant of preparation is given: nothing is called past, and the forecast's age is counted from its own issue."));
            return;
        }

        if (request.Start < now)
        {
            findings.Add(new Finding(PlanningFindingCodes.StartPast, FindingSeverity.Warning, "Start", $"The start ({Text.Date(request.Start)}, {Text.Clock(request.Start)}) lies before the instant of preparation ({Text.Date(now)}, {Text.Clock(now)})."));
        }
        else if (request.Start - now > TimeSpan.FromDays(FarDays))
        {
            findings.Add(new Finding(
                PlanningFindingCodes.StartFar, FindingSeverity.Caution, "Start",
                $"The start lies {Text.F((request.Start - now).TotalDays, 0)} days ahead; beyond {Text.F(FarDays, 0)} days a forecast tells little. Plan again the evening before."));
        }
    }

    [Source("forecast-error", "skill is small beyond about ten days")]
    private const double FarDays = 10;
}
