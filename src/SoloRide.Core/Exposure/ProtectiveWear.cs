using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>Full-face helmet, pads, gloves: an item with mass, worn or stowed.</summary>
/// <remarks>No published insulation of such items was found: the heat load is the user's own figure, and without one it is counted as nothing, with a finding. Immutable.</remarks>
public sealed record ProtectiveWear
{
    private readonly double _massKg;

    /// <summary>Name.</summary>
    public required string Name { get; init => field = Guard.NotEmpty(value, nameof(Name)); }

    /// <summary>Mass [0 to 10 kg].</summary>
    public required Mass Mass
    {
        get => Mass.FromKilograms(_massKg);
        init => _massKg = Guard.InRange(value.Kilograms, 0, 10, "kg", nameof(Mass));
    }

    /// <summary>Insulation it adds when worn, set by the user [0 to 2 clo]; null when not known.</summary>
    public double? HeatLoadClo { get; init => field = value is { } v ? Guard.InRange(v, 0, 2, "clo", nameof(HeatLoadClo)) : null; }
}
