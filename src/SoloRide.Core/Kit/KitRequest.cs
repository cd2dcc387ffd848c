using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>What the choice of kit is made from.</summary>
/// <remarks>Immutable.</remarks>
public sealed record KitRequest
{
    private readonly double _distanceM;
    private readonly double _waterL;

    /// <summary>Everything that could be carried; at most 64 items, each with a name of its own.</summary>
    public required IReadOnlyList<KitItem> Items { get; init => field = [.. Guard.NotNull(value, nameof(Items))]; }

    /// <summary>Distance of the ride; above 0 m.</summary>
    public required Length Distance
    {
        get => Length.FromMeters(_distanceM);
        init => _distanceM = Guard.Positive(value.Meters, "m", nameof(Distance));
    }

    /// <summary>What each kind of failure costs, place by place. A kind that is not listed is not weighed.</summary>
    public IReadOnlyList<FailureStake> Stakes { get; init => field = [.. Guard.NotNull(value, nameof(Stakes))]; } = [];

    /// <summary>Rate of the kinds whose stake has none of its own; the wide prior unless stated.</summary>
    public FailureRate OtherRate { get; init => field = Guard.NotNull(value, nameof(OtherRate)); } = FailureRate.WidePrior;

    /// <summary>What must be at hand besides repairs.</summary>
    public IReadOnlyList<KitNeed> Needs { get; init => field = [.. Guard.NotNull(value, nameof(Needs))]; } = [];

    /// <summary>Room and mass.</summary>
    public KitCaps Caps { get; init => field = Guard.NotNull(value, nameof(Caps)); } = new();

    /// <summary>Largest amount of water that must be carried at once; 0 to 30 L.</summary>
    public Volume WaterToCarry
    {
        get => Volume.FromLiters(_waterL);
        init => _waterL = Guard.InRange(value.Liters, 0, 30, "L", nameof(WaterToCarry));
    }

    /// <summary>Sizes of the bike, to sort out spares that do not fit.</summary>
    public PartFit? Bike { get; init; }

    /// <summary>What local rules say of open fire; unknown counts as a ban.</summary>
    public Known FireAllowed { get; init; }

    /// <summary>Day of the ride, to sort out what has expired.</summary>
    public DateOnly? RideDate { get; init; }

    /// <summary>What repairs what.</summary>
    public RepairMatrix Matrix { get; init => field = Guard.NotNull(value, nameof(Matrix)); } = RepairMatrix.Standard;

    /// <summary>Time lost by a failure near home: what is worth carrying with no more than this at stake belongs to the kit of every ride. 30 min unless stated.</summary>
    [Source("assumption-kit", "near home: 30 min on foot, from the first limit of a leader award")]
    public TimeSpan LocalWayOut { get; init => field = Guard.NotNegative(value, nameof(LocalWayOut)); } = TimeSpan.FromMinutes(30);

    /// <summary>Time that each kilogram costs on the ride: an item must save more than it costs. 3 min unless stated.</summary>
    [Source("assumption-kit", "one percent of the mass, one percent of five hours")]
    public TimeSpan TimePerKilogram { get; init => field = Guard.NotNegative(value, nameof(TimePerKilogram)); } = TimeSpan.FromMinutes(3);

    /// <summary>Share of the loss that remains after a partial repair where a stake does not say; 0.5 unless stated.</summary>
    [Source("assumption-kit", "a partial repair halves the loss")]
    public double PartialRepairFactor { get; init => field = Guard.Fraction(value, nameof(PartialRepairFactor)); } = 0.5;

    /// <summary>Whether the pack is never taken off and so counts as the body for what must stay with the rider.</summary>
    public bool PackStaysOn { get; init; }

    internal double DistanceKm => _distanceM / 1000;

    internal double WaterL => _waterL;
}
