namespace SoloRide.Planning;

/// <summary>A row of starts, each planned in full, and the spans of starts that fit.</summary>
/// <param name="Outcomes">One for each start, in order.</param>
/// <param name="Windows">Spans of consecutive starts whose verdict is not against the ride; may be empty, may be several.</param>
public sealed record StartSweep(IReadOnlyList<StartOutcome> Outcomes, IReadOnlyList<(DateTimeOffset From, DateTimeOffset To)> Windows)
{
    /// <summary>The start whose least margin is largest; null when none was planned.</summary>
    public StartOutcome? Best => Outcomes.OrderBy(o => o.Kind).ThenByDescending(o => o.Margins.Count > 0 ? o.Margins.Min(m => m.InHandFraction) : double.NegativeInfinity).FirstOrDefault();
}
