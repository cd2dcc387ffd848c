namespace SoloRide.Daylight;

/// <summary>Which clear-sky model gives the irradiance.</summary>
public enum ClearSkyModel
{
    /// <summary>Ineichen and Perez (2002): Linke turbidity and height; the default.</summary>
    IneichenPerez,

    /// <summary>Simplified Solis (Ineichen 2008): aerosol, water vapour and pressure.</summary>
    SimplifiedSolis,

    /// <summary>Hottel (1976) with Liu and Jordan's diffuse part: 23 km visibility, fitted to 2.5 km of height.</summary>
    Hottel,

    /// <summary>Haurwitz (1945): global only; its direct and diffuse parts are split as Ineichen and Perez split theirs.</summary>
    Haurwitz,
}
