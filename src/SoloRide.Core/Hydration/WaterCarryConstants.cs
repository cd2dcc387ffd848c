using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>Defaults of the carry plan; each is a stated choice that the caller can replace.</summary>
internal static class WaterCarryConstants
{
    [Source("assumption-water-margin", "kept in hand everywhere")]
    public const double ReserveL = 0.5;

    [Source("assumption-run-dry", "allowed probability of running dry")]
    public const double MaxRunDryProbability = 0.01;

    [Source("assumption-run-dry", "quantile of the demand")]
    public const double DemandQuantile = 0.9;

    [Source("assumption-run-dry", "certain in the cautious variant")]
    public const double TrustedProbability = 0.99;

    public const int SearchStates = 25_000;

    /// <summary>Up to this many places the search runs to its end whatever the effort asked for.</summary>
    public const int AlwaysExactPlaces = 10;

    [Source("assumption-report-age", "days after which a report of a source is called old")]
    public const int OldReportDays = 14;
}
