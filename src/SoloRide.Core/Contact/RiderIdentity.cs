using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>Who is out there, as searchers and the agency need to know it.</summary>
/// <remarks>Immutable. Medical data go on a sheet only when the rider says so. Nothing here is stored or sent anywhere.</remarks>
public sealed record RiderIdentity
{
    /// <summary>Makes the entry.</summary>
    /// <param name="name">Name.</param>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    public RiderIdentity(string name)
    {
        Name = Guard.NotEmpty(name);
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Telephone number.</summary>
    public string? Phone { get; init; }

    /// <summary>Age [years]; 1 to 110.</summary>
    public int? AgeYears { get; init => field = value is { } v ? Guard.InRange(v, 1, 110, "years", nameof(AgeYears)) : null; }

    /// <summary>Height, build, hair, other marks.</summary>
    public string? Description { get; init; }

    /// <summary>Clothing and its colours.</summary>
    public string? Clothing { get; init; }

    /// <summary>Helmet and pack, with colours.</summary>
    public string? HelmetAndPack { get; init; }

    /// <summary>Bike and its colours.</summary>
    public string? BikeDescription { get; init; }

    /// <summary>Experience, and whether the area is known.</summary>
    public string? Experience { get; init; }

    /// <summary>Illnesses, allergies. On the sheet only with <see cref="SheetRequest.ShareMedical"/>.</summary>
    public string? Medical { get; init; }

    /// <summary>Medicines. On the sheet only with <see cref="SheetRequest.ShareMedical"/>.</summary>
    public string? Medicines { get; init; }
}
