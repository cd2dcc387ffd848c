namespace SoloRide.Routes;

/// <summary>Where the heights of a route come from; it decides how they are smoothed.</summary>
public enum HeightSource
{
    /// <summary>Found out from the data: no times means terrain model; otherwise from the noise.</summary>
    Recognised,

    /// <summary>An air-pressure sensor: small fast noise, slow drift with the weather.</summary>
    Barometric,

    /// <summary>A satellite receiver: errors of metres that wander over a minute or so.</summary>
    Satellite,

    /// <summary>Looked up in a terrain model at the places of the line.</summary>
    TerrainModel,
}
