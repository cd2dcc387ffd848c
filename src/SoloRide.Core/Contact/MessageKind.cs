namespace SoloRide.Contact;

/// <summary>What a message says.</summary>
public enum MessageKind
{
    /// <summary>Leaving now.</summary>
    Start,

    /// <summary>Under way as planned.</summary>
    OnTheWay,

    /// <summary>Late but fine.</summary>
    LateButFine,

    /// <summary>In camp for the night.</summary>
    Camp,

    /// <summary>Back.</summary>
    Back,

    /// <summary>On foot to a way out; not in need.</summary>
    WalkingOut,

    /// <summary>Help needed.</summary>
    Distress,

    /// <summary>Going on as planned is not covered, or the end is overdue; not a call for help.</summary>
    NotAsPlanned,
}
