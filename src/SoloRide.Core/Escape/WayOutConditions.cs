using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>Under what conditions a way out is taken: what its needs follow from.</summary>
/// <remarks>Immutable.</remarks>
public sealed record WayOutConditions
{
    /// <summary>Use per hour; those of the pace's mode are taken. Time needs none.</summary>
    public IReadOnlyList<ResourceRate> Rates { get; init => field = [.. Guard.NotNull(value, nameof(Rates))]; } = [];

    /// <summary>When the way out begins; null when not known: all of it is then taken to be dark.</summary>
    public DateTimeOffset? Leaves { get; init; }

    /// <summary>Periods without usable daylight; several days may be listed.</summary>
    public IReadOnlyList<DarkPeriod> Dark { get; init => field = [.. Guard.NotNull(value, nameof(Dark))]; } = [];

    /// <summary>Air temperature on the way, at its lowest; null when not known.</summary>
    public Temperature? Air { get; init; }

    /// <summary>[share of 1, above 0 and below 1] Quantile of the time out that the needs are counted for.</summary>
    public double QuantileProbability { get; init; } = DefaultQuantile;

    [Source("assumption-escape-classes", "carry for the time not exceeded in 90 of 100 ways out")]
    private const double DefaultQuantile = 0.9;
}
