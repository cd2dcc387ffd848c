namespace SoloRide.Contact;

/// <summary>Why a message is sent there.</summary>
public enum CheckInKind
{
    /// <summary>Leaving.</summary>
    Start,

    /// <summary>By the clock, so that silence is noticed in time.</summary>
    Clock,

    /// <summary>Past here going back is no longer possible with what is carried.</summary>
    PointOfNoReturn,

    /// <summary>A way out is passed.</summary>
    Exit,

    /// <summary>Before or after a ford, a ridge or another hazard.</summary>
    Hazard,

    /// <summary>Camp.</summary>
    Camp,

    /// <summary>Back.</summary>
    Finish,
}
