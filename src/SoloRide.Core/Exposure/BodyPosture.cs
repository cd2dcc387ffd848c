namespace SoloRide.Exposure;

/// <summary>Posture; it sets which share of the body's surface radiates.</summary>
public enum BodyPosture
{
    /// <summary>Sitting, in the saddle (share 0.70).</summary>
    Sitting,

    /// <summary>Standing, on foot (share 0.77).</summary>
    Standing,

    /// <summary>Crouching, low over the bike (share 0.67).</summary>
    Crouching,
}
