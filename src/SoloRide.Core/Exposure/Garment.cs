using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>A piece of clothing with its effective insulation.</summary>
/// <remarks>Immutable. <see cref="Handbook"/> has published indoor values; technical garments differ, so give measured or maker's values where known.</remarks>
public sealed record Garment
{
    private readonly double _massKg = double.NaN;

    /// <summary>Makes a garment.</summary>
    /// <param name="name">Name.</param>
    /// <param name="insulationClo">Effective insulation [0 to 5 clo]; 1 clo = 0.155 m²K/W.</param>
    /// <exception cref="ArgumentException">Name empty.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Insulation outside its range.</exception>
    public Garment(string name, double insulationClo)
    {
        Name = Guard.NotEmpty(name);
        InsulationClo = Guard.InRange(insulationClo, 0, 5, "clo", nameof(insulationClo));
    }

    /// <summary>Published garment values: ISO 9920-type figures of a handbook table and ASHRAE 55.</summary>
    [Source("iso-9920-handbook", "garment values, second-hand")]
    [Source("ashrae-55", "garment values, second-hand")]
    public static IReadOnlyList<Garment> Handbook { get; } =
    [
        new("underpants, long legs", 0.10), new("T-shirt", 0.09), new("undershirt, long sleeves", 0.12), new("long underwear bottoms", 0.15),
        new("long underwear top", 0.20), new("shorts", 0.06), new("walking shorts", 0.11), new("light trousers", 0.20), new("normal trousers", 0.25),
        new("thick trousers", 0.24), new("flannel trousers", 0.28), new("sweatpants", 0.28), new("thin sweater", 0.20), new("thick sweater", 0.35),
        new("long-sleeve sweat shirt", 0.34), new("vest", 0.13), new("light summer jacket", 0.25), new("jacket", 0.35), new("smock", 0.30),
        new("down jacket", 0.55), new("coat", 0.60), new("parka", 0.70), new("overtrousers, several layers", 0.52),
        new("coverall, several layers with filling", 1.03), new("coverall, fibre pelt", 1.13), new("socks", 0.02), new("thick ankle socks", 0.05),
        new("thick long socks", 0.10), new("boots", 0.05), new("thick soled shoes", 0.04),
        new("T-shirt, thin", 0.08), new("coveralls", 0.49), new("boots, high", 0.10),
        new("fibre-pile liner inside a casualty bag", 1.5),
    ];

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Effective insulation, dry [clo].</summary>
    public double InsulationClo { get; }

    /// <summary>Mass; null when not known.</summary>
    public Mass? Mass
    {
        get => Si.Mass(_massKg);
        init => _massKg = value is { } v ? Guard.InRange(v.Kilograms, 0, 10, "kg", nameof(Mass)) : double.NaN;
    }

    /// <summary>Air permeability of the cloth [1 to 2 000 L/(m² s)]: 1 windproof, 8 dense workwear, 50 and more loose knit; null when not known.</summary>
    public double? AirPermeabilityPerM2 { get; init => field = value is { } v ? Guard.InRange(v, 1, 2000, "L/(m2 s)", nameof(AirPermeabilityPerM2)) : null; }
}
