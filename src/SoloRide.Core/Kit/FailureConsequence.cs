namespace SoloRide.Kit;

/// <summary>How the rider goes on after a failure, from best to worst.</summary>
public enum FailureConsequence
{
    /// <summary>The ride goes on.</summary>
    RideOn,

    /// <summary>Riding slowly, or walking parts of it.</summary>
    Limp,

    /// <summary>Rolling downhill, pushing the rest.</summary>
    Coast,

    /// <summary>On foot, the bike rolling beside.</summary>
    Push,

    /// <summary>On foot, the bike on the shoulder or left behind.</summary>
    Carry,

    /// <summary>No going on: wait and call.</summary>
    Stop,
}
