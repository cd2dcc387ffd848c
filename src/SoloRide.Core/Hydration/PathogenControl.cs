namespace SoloRide.Hydration;

/// <summary>How well a method deals with a kind of pathogen.</summary>
public enum PathogenControl
{
    /// <summary>Nothing published that may be relied on.</summary>
    Unknown,

    /// <summary>Not effective.</summary>
    None,

    /// <summary>Low to moderate.</summary>
    LowToModerate,

    /// <summary>Moderate.</summary>
    Moderate,

    /// <summary>Effective when done as described.</summary>
    High,
}
