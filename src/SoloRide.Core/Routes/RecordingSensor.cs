namespace SoloRide.Routes;

/// <summary>What a track was recorded with, as far as it is known.</summary>
public enum RecordingSensor
{
    /// <summary>Not known: no times to judge by, or nothing stated.</summary>
    Unknown,

    /// <summary>A satellite receiver: heights are noisy.</summary>
    Satellite,

    /// <summary>A satellite receiver with a pressure sensor: heights are smooth and drift with the weather.</summary>
    SatelliteAndBarometer,

    /// <summary>Drawn on a map; nobody may have been there.</summary>
    Drawn,
}
