namespace SoloRide.Escape;

/// <summary>The points of no return of a route, one a resource.</summary>
/// <param name="Points">One for each account, in the order given.</param>
/// <param name="Binding">The one that comes first along the route with all uncertain sources dry; null when every resource suffices everywhere.</param>
/// <param name="Findings">What a reader should know.</param>
public sealed record PointsOfNoReturn(IReadOnlyList<PointOfNoReturn> Points, PointOfNoReturn? Binding, IReadOnlyList<Finding> Findings)
{
    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;
}
