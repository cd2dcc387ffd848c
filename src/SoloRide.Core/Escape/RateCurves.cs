namespace SoloRide.Escape;

/// <summary>Published families of walking rate over slope.</summary>
internal enum RateCurves
{
    /// <summary>Recorded users of trails, 1st to 99th percentile.</summary>
    Campbell2019,

    /// <summary>Loaded crews. Refused: the coefficients at hand contradict themselves.</summary>
    Sullivan2020,
}
