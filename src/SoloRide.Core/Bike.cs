using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>What is known of the bicycle.</summary>
/// <remarks>Immutable. An assisted bike gives its help and battery here; its battery is also a device of the power plan.</remarks>
public sealed record Bike
{
    private readonly double _massKg = 14;
    private readonly double _assistW;
    private readonly double _batteryWh;

    /// <summary>Mass without bags; 5 to 60 kg, 14 kg unless stated.</summary>
    public Mass Mass
    {
        get => Mass.FromKilograms(_massKg);
        init => _massKg = Guard.InRange(value.Kilograms, 5, 60, "kg", nameof(Mass));
    }

    /// <summary>Mean motor power at the rear wheel while assisting; 0 (none) to 750 W.</summary>
    public Power AssistPower
    {
        get => Power.FromWatts(_assistW);
        init => _assistW = Guard.InRange((double)value.Watts, 0, 750, "W", nameof(AssistPower));
    }

    /// <summary>Usable energy of the drive battery; 0 (none) to 2 000 Wh.</summary>
    public Energy AssistBattery
    {
        get => Energy.FromWattHours(_batteryWh);
        init => _batteryWh = Guard.InRange(value.WattHours, 0, 2000, "Wh", nameof(AssistBattery));
    }

    /// <summary>Drag area C_d·A [m²] if known; 0.2 to 1.2.</summary>
    public double? DragAreaM2 { get; init => field = value is { } v ? Guard.InRange(v, 0.2, 1.2, "m2", nameof(DragAreaM2)) : null; }

    /// <summary>Multiplier on the rolling resistance of every surface (tyres, pressure); 0.5 to 2.</summary>
    public double RollingFactor { get; init => field = Guard.InRange(value, 0.5, 2, "(factor)", nameof(RollingFactor)); } = 1;
}
