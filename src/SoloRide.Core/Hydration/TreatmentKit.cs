using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>What is carried to treat found water, and what stands in when it fails.</summary>
/// <remarks>Immutable.</remarks>
public sealed record TreatmentKit
{
    private readonly double _kg;
    private readonly double _vesselKg;
    private readonly double _vesselL = double.NaN;
    private readonly double _secondKg;

    /// <summary>The method: its flow, pore size or heating are the rider's input.</summary>
    public required WaterTreatment Method { get; init => field = Guard.NotNull(value, nameof(Method)); }

    /// <summary>Its mass, fuel and spares included; 0 to 5 kg.</summary>
    public required Mass Mass
    {
        get => Mass.FromKilograms(_kg);
        init => _kg = Guard.InRange(value.Kilograms, 0, 5, "kg", nameof(Mass));
    }

    /// <summary>Mass of the vessel that collects raw water; 0 to 2 kg.</summary>
    public Mass VesselMass
    {
        get => Mass.FromKilograms(_vesselKg);
        init => _vesselKg = Guard.InRange(value.Kilograms, 0, 2, "kg", nameof(VesselMass));
    }

    /// <summary>Raw water that the vessel holds; each fill of it costs the set-up time. 0.2 to 20 L; null: one fill is enough.</summary>
    public Volume? VesselVolume
    {
        get => Si.Volume(_vesselL);
        init => _vesselL = value is { } v ? Guard.InRange(v.Liters, 0.2, 20, "L", nameof(VesselVolume)) : double.NaN;
    }

    /// <summary>The second method, for when the first is lost; null: none.</summary>
    public WaterTreatment? Second { get; init; }

    /// <summary>Mass of the second method; 0 to 2 kg.</summary>
    public Mass SecondMass
    {
        get => Mass.FromKilograms(_secondKg);
        init => _secondKg = Guard.InRange(value.Kilograms, 0, 2, "kg", nameof(SecondMass));
    }

    /// <summary>Whether the first method is lost: clogged, or a wet filter that may have frozen. Yes and unknown both count as lost for a filter in frost.</summary>
    public Known Lost { get; init; } = Known.No;

    internal double TotalKg => _kg + _vesselKg + (Second is null ? 0 : _secondKg);

    internal double VesselL => _vesselL;
}
