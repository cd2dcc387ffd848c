namespace SoloRide.Planning;

/// <summary>What the numbers speak for after trouble; the rider decides.</summary>
public enum TroubleChoice
{
    /// <summary>Tell home and walk.</summary>
    Walk,

    /// <summary>Call, stay and wait: the wait can be borne longer than help is assumed to take.</summary>
    Wait,

    /// <summary>Call for help at once: neither the walk nor the wait is covered.</summary>
    Call,

    /// <summary>Call for help, then walk: the walk is short of water, but less short than the wait is.</summary>
    CallThenWalk,
}
