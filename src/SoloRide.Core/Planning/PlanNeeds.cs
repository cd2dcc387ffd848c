using UnitsNet;

namespace SoloRide.Planning;

/// <summary>What the ride takes out of the rider, and what is carried against it.</summary>
/// <remarks>Ranges are P10 to P90. Carry by the upper end, drink by thirst.</remarks>
public sealed record PlanNeeds
{
    /// <summary>Sweat loss over the ride.</summary>
    public required Estimate<Volume> Sweat { get; init; }

    /// <summary>Water to carry or fill along the way, planned intake.</summary>
    public required Estimate<Volume> Drink { get; init; }

    /// <summary>Where to fill and up to how much, the start first.</summary>
    public required IReadOnlyList<WaterFill> Fills { get; init; }

    /// <summary>What to do at each doubtful source when it is dry.</summary>
    public required IReadOnlyList<string> IfDry { get; init; }

    /// <summary>Sodium lost with sweat.</summary>
    public required Estimate<Mass> Sodium { get; init; }

    /// <summary>Energy used (metabolic).</summary>
    public required Estimate<Energy> Energy { get; init; }

    /// <summary>Food energy to eat on the way.</summary>
    public required Energy Food { get; init; }

    /// <summary>Food energy kept unopened.</summary>
    public required Energy FoodReserve { get; init; }

    /// <summary>Carbohydrate to eat each hour [g/h], lower and upper end of the published advice.</summary>
    public required (double LowGPerHour, double HighGPerHour) CarbohydrateGPerHour { get; init; }
}
