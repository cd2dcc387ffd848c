using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>The vehicle that stands at the start: the first thing that searchers look for.</summary>
/// <remarks>Immutable.</remarks>
public sealed record VehicleAtTrailhead
{
    /// <summary>Makes the entry.</summary>
    /// <param name="description">Make, colour, plate.</param>
    /// <param name="parkedAt">Where, in words.</param>
    /// <exception cref="ArgumentException">A text is empty.</exception>
    public VehicleAtTrailhead(string description, string parkedAt)
    {
        Description = Guard.NotEmpty(description);
        ParkedAt = Guard.NotEmpty(parkedAt);
    }

    /// <summary>Make, colour, plate.</summary>
    public string Description { get; }

    /// <summary>Where, in words.</summary>
    public string ParkedAt { get; }

    /// <summary>Where, as a position.</summary>
    public GeoPoint? Place { get; init; }
}
