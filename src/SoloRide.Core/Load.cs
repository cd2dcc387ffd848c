using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>What is carried besides water and food that the plan itself works out.</summary>
/// <remarks>Immutable.</remarks>
public sealed record Load
{
    private readonly double _bodyKg = 4;
    private readonly double _bikeKg;
    private readonly double _waterL = 3;

    /// <summary>Clothing and pack on the body without water and food; 0 to 60 kg, 4 kg unless stated.</summary>
    public Mass OnBody
    {
        get => Mass.FromKilograms(_bodyKg);
        init => _bodyKg = Guard.InRange(value.Kilograms, 0, 60, "kg", nameof(OnBody));
    }

    /// <summary>Bags on the bike without water and food; 0 to 60 kg.</summary>
    public Mass OnBike
    {
        get => Mass.FromKilograms(_bikeKg);
        init => _bikeKg = Guard.InRange(value.Kilograms, 0, 60, "kg", nameof(OnBike));
    }

    /// <summary>All bottles and bladders together; 0.2 to 30 L, 3 L unless stated.</summary>
    public Volume WaterCapacity
    {
        get => Volume.FromLiters(_waterL);
        init => _waterL = Guard.InRange(value.Liters, 0.2, 30, "L", nameof(WaterCapacity));
    }
}
