using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>How a pack was kept and used.</summary>
/// <remarks>Immutable.</remarks>
public sealed record PackHistory
{
    private readonly double _storageC = 20;

    /// <summary>Time since it was made; 0 to 20 years.</summary>
    public required TimeSpan Age
    {
        get;
        init => field = value >= TimeSpan.Zero && value <= TimeSpan.FromDays(7305) ? value : throw new ArgumentOutOfRangeException(nameof(Age), value, "Age must be 0 to 20 years.");
    }

    /// <summary>Mean temperature of storage; -10 to 60 °C, 20 °C unless stated.</summary>
    public Temperature Storage
    {
        get => Temperature.FromDegreesCelsius(_storageC);
        init => _storageC = Guard.InRange(value.DegreesCelsius, -10, 60, "C", nameof(Storage));
    }

    /// <summary>Mean state of charge in storage [share of 1]; 0.7 unless stated. A full pack ages faster.</summary>
    public double StorageChargeFraction { get; init => field = Guard.Fraction(value, nameof(StorageChargeFraction)); } = 0.7;

    /// <summary>Equivalent full cycles so far; 0 to 5 000.</summary>
    public int FullCycles { get; init => field = Guard.InRange(value, 0, 5000, "cycles", nameof(FullCycles)); }

    /// <summary>Usual depth of a discharge [share of 1]; 0.8 unless stated.</summary>
    public double DepthFraction { get; init => field = Guard.Fraction(value, nameof(DepthFraction)); } = 0.8;

    internal double StorageC => _storageC;
}
