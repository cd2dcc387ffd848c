namespace SoloRide.Routes;

/// <summary>Which side of a cut stays.</summary>
public enum KeptPart
{
    /// <summary>What comes before the cut.</summary>
    Before,

    /// <summary>What comes after the cut.</summary>
    After,
}
