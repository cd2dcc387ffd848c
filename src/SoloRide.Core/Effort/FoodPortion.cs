using UnitsNet;

namespace SoloRide.Effort;

/// <summary>How much of a food is taken along.</summary>
/// <remarks>Immutable.</remarks>
public sealed record FoodPortion
{
    private readonly double _kg;

    internal FoodPortion(FoodItem food, double kg)
    {
        Food = food;
        _kg = kg;
    }

    /// <summary>The food.</summary>
    public FoodItem Food { get; }

    /// <summary>Its mass.</summary>
    public Mass Mass => Mass.FromKilograms(_kg);

    /// <summary>Its energy.</summary>
    public Energy Content => Energy.FromKilocalories(_kg * 10 * Food.EnergyKcalPer100G);

    /// <summary>Its carbohydrate.</summary>
    public Mass Carbohydrate => Mass.FromGrams(_kg * 10 * Food.CarbohydrateGPer100G);

    /// <summary>Its sodium; null when the packet's figure was not given.</summary>
    public Mass? Sodium => Food.SodiumMgPer100G is { } mg ? Mass.FromMilligrams(_kg * 10 * mg) : null;

    internal double Kg => _kg;
}
