namespace SoloRide.Escape;

/// <summary>How far a place is from being in company again, by time out.</summary>
/// <remarks>The first limit is that of a published leader award (30 minutes' walk, rule GR2); the second is an assumption.</remarks>
public enum RemotenessClass
{
    /// <summary>Not more than the first limit.</summary>
    Near,

    /// <summary>Between the limits.</summary>
    Remote,

    /// <summary>More than the second limit.</summary>
    Far,

    /// <summary>No way out is known.</summary>
    NoWayOut,
}
