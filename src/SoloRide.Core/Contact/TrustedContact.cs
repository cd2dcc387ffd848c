using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>A person at home who knows the plan and acts when silence means trouble. Not on the ride.</summary>
/// <remarks>Immutable. Nothing here is stored or sent anywhere.</remarks>
public sealed record TrustedContact
{
    /// <summary>Makes a contact.</summary>
    /// <param name="name">Name.</param>
    /// <param name="phone">Telephone number as the rider dials it.</param>
    /// <exception cref="ArgumentException">Name or number is empty.</exception>
    public TrustedContact(string name, string phone)
    {
        Name = Guard.NotEmpty(name);
        Phone = Guard.NotEmpty(phone);
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Telephone number.</summary>
    public string Phone { get; }

    /// <summary>The clock that the contact lives by; null when it is that of the ride.</summary>
    public ZoneOffsets? Zone { get; init; }
}
