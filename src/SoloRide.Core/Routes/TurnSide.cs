namespace SoloRide.Routes;

/// <summary>To which side a way leads at a junction, as seen by a rider who comes to it.</summary>
public enum TurnSide
{
    /// <summary>Within 25° of straight on.</summary>
    StraightOn,

    /// <summary>To the left.</summary>
    Left,

    /// <summary>To the right.</summary>
    Right,

    /// <summary>Within 25° of where the rider comes from.</summary>
    Back,
}
