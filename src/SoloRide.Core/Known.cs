namespace SoloRide;

/// <summary>Whether something is so; nothing is assumed when it is not known.</summary>
public enum Known
{
    /// <summary>Not known.</summary>
    Unknown,

    /// <summary>Known to be so.</summary>
    Yes,

    /// <summary>Known not to be so.</summary>
    No,
}
