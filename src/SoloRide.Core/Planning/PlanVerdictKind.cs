namespace SoloRide.Planning;

/// <summary>Whether the ride fits, in one word; the sentence beside it says why.</summary>
public enum PlanVerdictKind
{
    /// <summary>Every margin holds with the confidence asked for.</summary>
    Fits,

    /// <summary>It holds if the named conditions are met.</summary>
    FitsIf,

    /// <summary>At least one margin is missing.</summary>
    DoesNotFit,

    /// <summary>Inputs are missing without which nothing honest can be said.</summary>
    Refused,
}
