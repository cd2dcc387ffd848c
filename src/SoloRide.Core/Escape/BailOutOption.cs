namespace SoloRide.Escape;

/// <summary>One way out from where the rider is.</summary>
/// <param name="Exit">The exit.</param>
/// <param name="Time">Time to it.</param>
/// <param name="Distance">Length of the way.</param>
/// <param name="Way">Where the way begins.</param>
/// <param name="Trail">First trail beside the route that the way uses; null when it stays on the route.</param>
/// <param name="UsesStraightLine">Whether part of the way is a straight line over unknown ground.</param>
/// <param name="Needs">What it takes.</param>
/// <param name="Missing">What is missing, one for each account that does not suffice.</param>
/// <param name="Dominated">Whether another exit is as near or nearer, asks no more, and offers as much (telephone, pick-up).</param>
public sealed record BailOutOption(
    ExitPoint Exit,
    Estimate<TimeSpan> Time,
    UnitsNet.Length Distance,
    WayOut Way,
    string? Trail,
    bool UsesStraightLine,
    WalkOutNeeds Needs,
    IReadOnlyList<ResourceAmount> Missing,
    bool Dominated)
{
    /// <summary>Whether every account suffices.</summary>
    public bool Suffices => Missing.Count == 0;
}
