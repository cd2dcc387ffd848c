using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>Room and mass that there is for the kit, without water and food.</summary>
/// <remarks>Immutable. Null means no limit.</remarks>
public sealed record KitCaps
{
    private readonly double _massKg = double.PositiveInfinity;
    private readonly double _bodyL = double.PositiveInfinity;
    private readonly double _packL = double.PositiveInfinity;
    private readonly double _bikeL = double.PositiveInfinity;
    private readonly double _bodyKg = double.PositiveInfinity;

    /// <summary>Largest mass of all items; 0 kg or more.</summary>
    public Mass? TotalMass
    {
        get => double.IsInfinity(_massKg) ? null : Mass.FromKilograms(_massKg);
        init => _massKg = value is { } v ? Guard.NotNegative(v.Kilograms, "kg", nameof(TotalMass)) : double.PositiveInfinity;
    }

    /// <summary>Largest mass on body and in the pack together; 0 kg or more.</summary>
    public Mass? MassOnRider
    {
        get => double.IsInfinity(_bodyKg) ? null : Mass.FromKilograms(_bodyKg);
        init => _bodyKg = value is { } v ? Guard.NotNegative(v.Kilograms, "kg", nameof(MassOnRider)) : double.PositiveInfinity;
    }

    /// <summary>Room in pockets and belt; 0 L or more.</summary>
    public Volume? BodyVolume
    {
        get => double.IsInfinity(_bodyL) ? null : Volume.FromLiters(_bodyL);
        init => _bodyL = value is { } v ? Guard.NotNegative(v.Liters, "L", nameof(BodyVolume)) : double.PositiveInfinity;
    }

    /// <summary>Room in the pack; 0 L or more.</summary>
    public Volume? PackVolume
    {
        get => double.IsInfinity(_packL) ? null : Volume.FromLiters(_packL);
        init => _packL = value is { } v ? Guard.NotNegative(v.Liters, "L", nameof(PackVolume)) : double.PositiveInfinity;
    }

    /// <summary>Room in bags on the bike; 0 L or more.</summary>
    public Volume? BikeVolume
    {
        get => double.IsInfinity(_bikeL) ? null : Volume.FromLiters(_bikeL);
        init => _bikeL = value is { } v ? Guard.NotNegative(v.Liters, "L", nameof(BikeVolume)) : double.PositiveInfinity;
    }

    internal double[] Limits => [_massKg, _bodyKg, _bodyL, _packL, _bikeL];
}
