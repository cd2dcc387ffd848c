using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Choices of <see cref="HeatStrain"/>.</summary>
public sealed record HeatStrainOptions
{
    /// <summary>2004 edition, water free, air speed above range counted as 3 m/s.</summary>
    public static HeatStrainOptions Default { get; } = new();

    /// <summary>Edition of the standard.</summary>
    public HeatStrainEdition Edition { get; init => field = Guard.Defined(value, nameof(Edition)); }

    /// <summary>Whether there is enough to drink; if not, the allowed loss is smaller (2004: the limit times 0.6; 2023: 3 % of mass instead of 5 %).</summary>
    public bool WaterIsFree { get; init; } = true;

    /// <summary>What to do with air speed above 3 m/s.</summary>
    public AirSpeedBeyondRange AirSpeedBeyondRange { get; init => field = Guard.Defined(value, nameof(AirSpeedBeyondRange)); }
}
