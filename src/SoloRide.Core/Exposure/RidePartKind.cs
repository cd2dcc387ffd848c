namespace SoloRide.Exposure;

/// <summary>Parts of a ride as they ask for different clothing.</summary>
public enum RidePartKind
{
    /// <summary>Climbing: much heat made, little wind.</summary>
    Climb,

    /// <summary>Rolling ground.</summary>
    Rolling,

    /// <summary>Descending: little heat made, much wind.</summary>
    Descent,

    /// <summary>On foot with the bike.</summary>
    Push,

    /// <summary>A short stop: repair, food.</summary>
    Stop,

    /// <summary>Waiting for help.</summary>
    Wait,

    /// <summary>A night out.</summary>
    Night,
}
