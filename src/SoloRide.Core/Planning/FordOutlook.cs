using SoloRide.Escape;

namespace SoloRide.Planning;

/// <summary>What a plan expects at one ford.</summary>
/// <param name="Ford">The ford.</param>
/// <param name="Out">The ford as it was seen.</param>
/// <param name="LatestCrossing">From when on it must not be crossed: the first time that a limit is met; null when none is met within ten days.</param>
/// <param name="DoubtfulFrom">From when on crossing alone is doubtful; null when it does not become so.</param>
/// <param name="Back">Arrival at the crossing on the way back; null when it is crossed once.</param>
/// <param name="InTime">Whether 9 rides in 10 make every crossing before the latest one.</param>
public sealed record FordOutlook(FordAhead Ford, FordLimit Out, DateTimeOffset? LatestCrossing, DateTimeOffset? DoubtfulFrom, Estimate<DateTimeOffset>? Back, bool InTime);
