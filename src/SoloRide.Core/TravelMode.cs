namespace SoloRide;

/// <summary>How the rider moves.</summary>
public enum TravelMode
{
    /// <summary>Pedalling.</summary>
    Ride,

    /// <summary>Rolling without drive; possible with a dead drivetrain on the way down.</summary>
    Coast,

    /// <summary>On foot, the bike rolling beside.</summary>
    Push,

    /// <summary>On foot, the bike on the shoulder.</summary>
    Carry,

    /// <summary>On foot, the bike left behind.</summary>
    Walk,
}
