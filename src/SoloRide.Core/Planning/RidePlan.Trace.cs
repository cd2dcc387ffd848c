namespace SoloRide.Planning;

/// <content>Courses along the way and along the clock.</content>
public sealed partial record RidePlan
{
    /// <summary>The typical run at the start and at every end of a stretch of at most 250 m; empty when refused.</summary>
    public IReadOnlyList<PlanTracePoint> Trace { get; init; } = [];

    /// <summary>Heat and thunder hour by hour from the start to well after the finish; empty without a forecast.</summary>
    public IReadOnlyList<PlanHour> Hours { get; init; } = [];
}
