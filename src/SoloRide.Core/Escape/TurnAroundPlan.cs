namespace SoloRide.Escape;

/// <summary>Turn-around times of an out-and-back part.</summary>
/// <param name="Stations">Latest time to turn at the start, the end of each leg and the beginning of each clock's stretch.</param>
/// <param name="Clocks">For the planned start, where and when each clock turns the rider back; the earliest binds. Empty without a start.</param>
/// <param name="Binding">The clock that turns the rider back first; null when all can be met to the end, or without a start.</param>
/// <param name="Findings">What a reader should know.</param>
public sealed record TurnAroundPlan(
    IReadOnlyList<TurnAround> Stations, IReadOnlyList<TurnAroundClock> Clocks, TurnAroundClock? Binding, IReadOnlyList<Finding> Findings)
{
    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;
}
