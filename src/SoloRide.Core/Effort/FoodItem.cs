using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>A food by its packet: energy and carbohydrate in 100 g, and how much of it is at hand.</summary>
/// <remarks>Immutable.</remarks>
public sealed record FoodItem
{
    private readonly double _availableKg = double.NaN;

    /// <summary>Makes a food.</summary>
    /// <param name="name">Any name.</param>
    /// <param name="energyKcalPer100G">[kcal in 100 g, 1 to 900] Energy.</param>
    /// <param name="carbohydrateGPer100G">[g in 100 g, 0 to 100] Carbohydrate.</param>
    /// <param name="fatGPer100G">[g in 100 g, 0 to 100] Fat.</param>
    /// <param name="proteinGPer100G">[g in 100 g, 0 to 100] Protein.</param>
    /// <exception cref="ArgumentException">No name.</exception>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public FoodItem(string name, double energyKcalPer100G, double carbohydrateGPer100G, double fatGPer100G = 0, double proteinGPer100G = 0)
    {
        Name = Guard.NotEmpty(name);
        EnergyKcalPer100G = Guard.InRange(energyKcalPer100G, 1, 900, "kcal");
        CarbohydrateGPer100G = Guard.InRange(carbohydrateGPer100G, 0, 100, "g");
        FatGPer100G = Guard.InRange(fatGPer100G, 0, 100, "g");
        ProteinGPer100G = Guard.InRange(proteinGPer100G, 0, 100, "g");
    }

    /// <summary>The name.</summary>
    public string Name { get; }

    /// <summary>Energy [kcal in 100 g].</summary>
    public double EnergyKcalPer100G { get; }

    /// <summary>Carbohydrate [g in 100 g].</summary>
    public double CarbohydrateGPer100G { get; }

    /// <summary>Fat [g in 100 g].</summary>
    public double FatGPer100G { get; }

    /// <summary>Protein [g in 100 g].</summary>
    public double ProteinGPer100G { get; }

    /// <summary>Sodium [mg in 100 g, 0 to 40 000] from the packet; null: unknown, and counted as unknown.</summary>
    public double? SodiumMgPer100G { get; init => field = value is { } v ? Guard.InRange(v, 0, 40_000, "mg", nameof(SodiumMgPer100G)) : null; }

    /// <summary>How much is at hand, 0 to 50 kg; null: as much as wanted.</summary>
    public Mass? Available
    {
        get => Si.Mass(_availableKg);
        init => _availableKg = value is { } v ? Guard.InRange(v.Kilograms, 0, 50, "kg", nameof(Available)) : double.NaN;
    }

    /// <summary>Eaten on the ride, or kept unopened.</summary>
    public FoodUse Use { get; init => field = Guard.Defined(value, nameof(Use)); }

    internal double AvailableKg => double.IsNaN(_availableKg) ? double.PositiveInfinity : _availableKg;
}
