namespace SoloRide.Exposure;

/// <summary>How wet worn clothing is.</summary>
public enum Wetness
{
    /// <summary>Dry.</summary>
    Dry,

    /// <summary>Damp from sweat or drizzle.</summary>
    Damp,

    /// <summary>Wet through.</summary>
    Wet,
}
