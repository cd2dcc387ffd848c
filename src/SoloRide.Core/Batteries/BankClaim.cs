using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>What one device would take from the bank.</summary>
/// <remarks>Immutable.</remarks>
public sealed record BankClaim
{
    private readonly double _needWh;
    private readonly double _minimumWh;
    private readonly double _portW;

    /// <summary>Makes a claim.</summary>
    /// <param name="name">Device.</param>
    /// <param name="need">Energy wanted in its cell, 0 to 100 kWh.</param>
    /// <param name="efficiencyFraction">[share of 1, above 0] Of the energy at the port that reaches the cell.</param>
    /// <param name="portPower">Power it takes at the bank's port, above 0.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public BankClaim(string name, Energy need, double efficiencyFraction, Power portPower)
    {
        Name = Guard.NotEmpty(name);
        _needWh = Guard.InRange(need.WattHours, 0, 100_000, "Wh", nameof(need));
        EfficiencyFraction = Guard.InRange(efficiencyFraction, 0.01, 1, "(a share of 1)");
        _portW = Guard.Positive((double)portPower.Watts, "W", nameof(portPower));
    }

    /// <summary>Device.</summary>
    public string Name { get; }

    /// <summary>Energy wanted in its cell.</summary>
    public Energy Need => Energy.FromWattHours(_needWh);

    /// <summary>Share of the port's energy that reaches the cell.</summary>
    public double EfficiencyFraction { get; }

    /// <summary>Power at the bank's port.</summary>
    public Power PortPower => Power.FromWatts(_portW);

    /// <summary>Energy that it must get whatever the order; 0 unless stated.</summary>
    public Energy Minimum
    {
        get => Energy.FromWattHours(_minimumWh);
        init => _minimumWh = Guard.InRange(value.WattHours, 0, 100_000, "Wh", nameof(Minimum));
    }

    /// <summary>Place in the order of safety, 1 first: a later place never takes from an earlier one.</summary>
    public int SafetyOrder { get; init => field = Guard.InRange(value, 1, 99, "", nameof(SafetyOrder)); } = 1;

    /// <summary>Worth of a watt-hour against claims of the same place; above 0.</summary>
    public double WeightFactor { get; init => field = Guard.InRange(value, 0.001, 1000, "(factor)", nameof(WeightFactor)); } = 1;

    internal double NeedWh => _needWh;

    internal double MinimumWh => _minimumWh;

    internal double PortW => _portW;
}
