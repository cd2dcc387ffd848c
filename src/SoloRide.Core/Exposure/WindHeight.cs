namespace SoloRide.Exposure;

/// <summary>Where a wind speed holds.</summary>
public enum WindHeight
{
    /// <summary>10 m above ground, as in forecasts.</summary>
    TenMetres,

    /// <summary>At the face of a person.</summary>
    Face,
}
