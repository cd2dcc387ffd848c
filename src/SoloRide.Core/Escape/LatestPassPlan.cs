namespace SoloRide.Escape;

/// <summary>Latest times to pass along the whole route.</summary>
/// <param name="Stations">At the start, the end of each leg and the ends of each clock's stretch, in order.</param>
/// <param name="Findings">What a reader should know.</param>
public sealed record LatestPassPlan(IReadOnlyList<LatestPass> Stations, IReadOnlyList<Finding> Findings)
{
    /// <summary>The latest start.</summary>
    public LatestPass Start => Stations[0];

    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;
}
