using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Assumptions about clothing, each with its name. No published value covers riding clothes; replace them where you know better.</summary>
public sealed record ClothingOptions
{
    /// <summary>Damp keeps 0.8, wet keeps 0.5 of the insulation; cloth of unknown permeability counts as 50 L/(m² s).</summary>
    public static ClothingOptions Default { get; } = new();

    /// <summary>Share of dry insulation that damp clothing keeps [0 to 1].</summary>
    [Source("assumption-wet-clothing", "damp")]
    public double DampFactor { get; init => field = Guard.Fraction(value, nameof(DampFactor)); } = 0.8;

    /// <summary>Share of dry insulation that wet clothing keeps [0 to 1]. Drying takes heat beside that, which is not counted.</summary>
    [Source("assumption-wet-clothing", "wet")]
    public double WetFactor { get; init => field = Guard.Fraction(value, nameof(WetFactor)); } = 0.5;

    /// <summary>Air permeability of the outer layer when no garment says [1 to 2 000 L/(m² s)]; loose cloth unless stated, so that wind counts.</summary>
    [Source("assumption-outer-permeability")]
    public double OuterPermeabilityPerM2 { get; init => field = Guard.InRange(value, 1, 2000, "L/(m2 s)", nameof(OuterPermeabilityPerM2)); } = 50;

    internal double Keeps(Wetness wetness) => wetness switch { Wetness.Dry => 1, Wetness.Damp => DampFactor, _ => WetFactor };
}
