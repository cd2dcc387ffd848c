namespace SoloRide.Contact;

/// <summary>What the rider has to wait with, in words; what is not said stays null.</summary>
/// <remarks>Immutable.</remarks>
public sealed record CarriedForWaiting
{
    /// <summary>Shelter.</summary>
    public string? Shelter { get; init; }

    /// <summary>Warm layers.</summary>
    public string? Warmth { get; init; }

    /// <summary>Lamps and how long they last.</summary>
    public string? Light { get; init; }

    /// <summary>Water.</summary>
    public string? Water { get; init; }

    /// <summary>Food and for how many days.</summary>
    public string? Food { get; init; }

    /// <summary>First aid.</summary>
    public string? FirstAid { get; init; }

    /// <summary>Fire, or that none is carried.</summary>
    public string? Fire { get; init; }
}
