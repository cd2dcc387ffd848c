using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>How deadlines are counted backward.</summary>
/// <remarks>Immutable.</remarks>
public sealed record DeadlineOptions
{
    /// <summary>Where the margin lies.</summary>
    public LegMargin Margin { get; init => field = Guard.Defined(value, nameof(Margin)); } = LegMargin.HighTimes;

    /// <summary>The fixed reserve: every clock is taken to close this much earlier. Zero unless asked for; with <see cref="LegMargin.HighTimes"/> it is a second margin, and a finding says so.</summary>
    public TimeSpan Reserve { get; init => field = Guard.NotNegative(value, nameof(Reserve)); }
}
