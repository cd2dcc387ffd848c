using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>What the carrying of water is planned from.</summary>
/// <remarks>
/// The start is a certain supply. Sources run dry independently of each other. Immutable.
/// </remarks>
public sealed record WaterCarryRequest
{
    private readonly double _capacityL;
    private readonly double _reserveL = WaterCarryConstants.ReserveL;

    /// <summary>Water needed along the route: stretches in order, each beginning where the one before ends. Several days in one list.</summary>
    public required IReadOnlyList<WaterDemand> Demand { get; init => field = [.. Guard.NotNull(value, nameof(Demand))]; }

    /// <summary>Sources and caches; in any order.</summary>
    public IReadOnlyList<WaterSource> Sources { get; init => field = [.. Guard.NotNull(value, nameof(Sources))]; } = [];

    /// <summary>All bottles and bladders together; 0.2 to 60 L.</summary>
    public required Volume Capacity
    {
        get => Volume.FromLiters(_capacityL);
        init => _capacityL = Guard.InRange(value.Liters, 0.2, 60, "L", nameof(Capacity));
    }

    /// <summary>Margin kept in hand everywhere and never planned to be drunk; 0 to 10 L, 0.5 L unless stated. It takes room.</summary>
    public Volume Reserve
    {
        get => Volume.FromLiters(_reserveL);
        init => _reserveL = Guard.InRange(value.Liters, 0, 10, "L", nameof(Reserve));
    }

    /// <summary>Allowed probability of running dry, the reserve left alone [0 to 0.5]; 0.01 unless stated.</summary>
    public double MaxRunDryProbability { get; init => field = Guard.InRange(value, 0, 0.5, "(a share of 1)", nameof(MaxRunDryProbability)); } = WaterCarryConstants.MaxRunDryProbability;

    /// <summary>The demand is planned at this quantile [0.5 to 0.99]; 0.9 unless stated. Stretches are taken to be high together.</summary>
    public double DemandQuantileLevel { get; init => field = Guard.InRange(value, 0.5, 0.99, "(a share of 1)", nameof(DemandQuantileLevel)); } = WaterCarryConstants.DemandQuantile;

    /// <summary>From this probability on a source counts as certain in the variant in which every doubtful source is dry [0.5 to 1]; 0.99 unless stated.</summary>
    public double TrustedProbability { get; init => field = Guard.InRange(value, 0.5, 1, "(a share of 1)", nameof(TrustedProbability)); } = WaterCarryConstants.TrustedProbability;

    /// <summary>Day of the ride, against which the age of reports is judged; null: not judged.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>How the water is treated; null: no time is counted, and a finding says so where a source needs it.</summary>
    public WaterTreatment? Treatment { get; init; }

    /// <summary>Search effort: states after which the best plan so far is returned with its proven gap [1 to 50 000 000]; 25 000 unless stated (some 20 ms), and always enough for ten sources.</summary>
    public int SearchStates { get; init => field = Guard.InRange(value, 1, 50_000_000, "states", nameof(SearchStates)); } = WaterCarryConstants.SearchStates;

    internal double CapacityL => _capacityL;

    internal double ReserveL => _reserveL;
}
