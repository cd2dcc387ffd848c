namespace SoloRide;

/// <summary>How much a <see cref="Finding"/> matters.</summary>
public enum FindingSeverity
{
    /// <summary>For the record: what was assumed, chosen or left out.</summary>
    Note,

    /// <summary>The result is usable but weaker than it looks: outside a model's validity, a leniency in a file, a wide prior.</summary>
    Caution,

    /// <summary>Act on it before riding.</summary>
    Warning,

    /// <summary>Something could not be computed at all, and why.</summary>
    Refusal,
}
