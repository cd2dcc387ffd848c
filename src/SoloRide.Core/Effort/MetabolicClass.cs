namespace SoloRide.Effort;

/// <summary>Classes of metabolic rate of ISO 8996 (2004 edition, from memory).</summary>
public enum MetabolicClass
{
    /// <summary>Resting, 65 W/m².</summary>
    Resting,

    /// <summary>Low, 100 W/m².</summary>
    Low,

    /// <summary>Moderate, 165 W/m².</summary>
    Moderate,

    /// <summary>High, 230 W/m².</summary>
    High,

    /// <summary>Very high, 290 W/m².</summary>
    VeryHigh,
}
