namespace SoloRide.Contact;

/// <summary>How a signal is given.</summary>
public enum SignalKind
{
    /// <summary>Whistle, voice, lamp, mirror.</summary>
    SoundOrLight,

    /// <summary>Laid out or stamped on the ground.</summary>
    GroundToAir,

    /// <summary>By an aircraft.</summary>
    AirToGround,

    /// <summary>With the arms.</summary>
    Body,
}
