namespace SoloRide.Routes;

/// <summary>What becomes of recorded heights when a route is laid over a terrain model.</summary>
public enum DrapeMode
{
    /// <summary>Recorded heights stay; only missing ones come from the model.</summary>
    FillMissing,

    /// <summary>All heights come from the model; where it knows none, none remains.</summary>
    Replace,

    /// <summary>
    /// Recorded shape on the model's level: the slow difference between the two (over a kilometre) is taken out of the recording,
    /// as for a barometer that drifts with the weather. Missing heights come from the model.
    /// </summary>
    Merge,
}
