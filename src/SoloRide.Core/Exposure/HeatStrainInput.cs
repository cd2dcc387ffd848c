namespace SoloRide.Exposure;

/// <summary>What the heat strain kernel needs for one stretch of constant conditions; SI doubles. Used by the modules that advance it along a ride.</summary>
/// <remarks><c>default</c> is not meaningful; start from <see cref="Standard"/> and <c>with</c>.</remarks>
internal readonly record struct HeatStrainInput
{
    /// <summary>75 kg, 1.80 m, not acclimatised, sitting, 0.5 clo, 2004 edition, converged solver.</summary>
    public static HeatStrainInput Standard { get; } = new()
    {
        MassKg = HeatStrainConstants.StandardMassKg,
        HeightM = HeatStrainConstants.StandardHeightM,
        ClothingClo = 0.5,
        StaticPermeabilityFactor = HeatStrainConstants.StaticPermeability,
        ReflectiveFactor = HeatStrainConstants.PlainEmissivity,
        Posture = BodyPosture.Sitting,
        Edition = HeatStrainEdition.Iso7933Of2004,
        WaterIsFree = true,
        LimitAirSpeed = true,
    };

    public HeatStrainEdition Edition { get; init; }

    public double AirC { get; init; }

    /// <summary>Mean radiant temperature, not globe temperature.</summary>
    public double RadiantC { get; init; }

    /// <summary>Air speed over the body, riding included.</summary>
    public double AirSpeedMps { get; init; }

    public double VapourKpa { get; init; }

    /// <summary>Metabolic rate per body surface.</summary>
    public double MetabolicWPerM2 { get; init; }

    /// <summary>Mechanical power that leaves the body, per body surface.</summary>
    public double WorkWPerM2 { get; init; }

    public double ClothingClo { get; init; }

    public BodyPosture Posture { get; init; }

    /// <summary>On foot; 0 = unknown, as on the bike: then body movement follows from the metabolic rate.</summary>
    public double WalkMps { get; init; }

    /// <summary>Between walking and wind; 0 = unknown.</summary>
    public double WalkToWindDeg { get; init; }

    /// <summary>Share of the body under reflective clothing.</summary>
    public double ReflectiveShareFraction { get; init; }

    /// <summary>2004: emissivity of the reflective clothing; 2023: its reflectivity.</summary>
    public double ReflectiveFactor { get; init; }

    public double StaticPermeabilityFactor { get; init; }

    public double MassKg { get; init; }

    public double HeightM { get; init; }

    public bool Acclimatised { get; init; }

    /// <summary>Whether the person drinks as wanted; if not, the allowed loss is smaller.</summary>
    public bool WaterIsFree { get; init; }

    /// <summary>Whether air speed above the standard's range counts as its upper end (its corrections turn round beyond).</summary>
    public bool LimitAirSpeed { get; init; }

    /// <summary>The step loops as the 2004 listing prints them (0.001 K), for its examples only.</summary>
    public bool ListingLoops { get; init; }

    /// <summary>Vapour pressure from relative humidity, as every figure of this module does unless said.</summary>
    public static double VapourFromHumidityKpa(double airC, double relHumidityPct) => relHumidityPct / 100 * HumidityKernel.TetensKpa(airC);

    /// <summary>Body surface by Du Bois.</summary>
    public double AreaM2 => HeatStrainKernel.BodyAreaM2(MassKg, HeightM);
}
