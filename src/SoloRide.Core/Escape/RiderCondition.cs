namespace SoloRide.Escape;

/// <summary>Whether the rider can use both legs.</summary>
public enum RiderCondition
{
    /// <summary>Not hurt.</summary>
    Sound,

    /// <summary>Hurt in a leg, still able to walk slowly.</summary>
    InjuredLeg,
}
