using UnitsNet;

namespace SoloRide.Planning;

/// <summary>One day of a ride of several days.</summary>
/// <param name="From">Where the day begins.</param>
/// <param name="To">Where it ends.</param>
/// <param name="Camp">The camp at its end; null on the last day.</param>
/// <param name="Effort">Time on the way at the typical pace.</param>
public sealed record Stage(Length From, Length To, Camp? Camp, TimeSpan Effort);
