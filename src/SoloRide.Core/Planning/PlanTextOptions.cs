namespace SoloRide.Planning;

/// <summary>How a plan is written out.</summary>
public sealed record PlanTextOptions
{
    /// <summary>Defaults: metric, plain ASCII.</summary>
    public static PlanTextOptions Default { get; } = new();

    /// <summary>Units.</summary>
    public MeasureSystem Units { get; init; }

    /// <summary>Whether findings and the full list of assumptions follow the first page.</summary>
    public bool Details { get; init; } = true;
}
