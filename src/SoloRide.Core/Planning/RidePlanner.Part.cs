using SoloRide.Escape;

namespace SoloRide.Planning;

/// <content>A day of a longer ride as a plan of its own, with ways out on the whole route.</content>
public static partial class RidePlanner
{
    internal static (RidePlan Plan, SimulationResult? Samples) Part(RideRequest request, WalkOutProfile? wholeWalk, double offsetM, ITerrainHeights? terrain, CancellationToken cancel)
    {
        request = Ordered(request);
        var findings = new List<Finding>();
        ZoneOffsets zone = Zone(request, findings);
        Now(request, findings);
        RideCourse course = RideCourse.Of(request, terrain, findings) ?? throw new ArgumentException("A day has no length.", nameof(request));
        var builder = new PlanBuilder(request, course, zone, findings, cancel, wholeWalk, offsetM, SunAlong.Of(request, course, terrain));
        return (builder.Build(), builder.Samples);
    }
}
