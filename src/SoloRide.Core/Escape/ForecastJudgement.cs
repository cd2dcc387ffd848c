namespace SoloRide.Escape;

/// <summary>Whether the weather of a period is good enough for the last part of the ride, in the rider's own judgement or by own limits.</summary>
/// <param name="From">It begins.</param>
/// <param name="To">It ends.</param>
/// <param name="Good">Whether it is good; unknown counts as not good.</param>
public sealed record ForecastJudgement(DateTimeOffset From, DateTimeOffset To, Known Good);
