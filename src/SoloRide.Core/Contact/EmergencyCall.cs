using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>Whom the contact calls. Always an input: the library guesses no number.</summary>
/// <remarks>Immutable.</remarks>
public sealed record EmergencyCall
{
    /// <summary>Makes the entry.</summary>
    /// <param name="agency">Who answers, such as the police of the place of the ride.</param>
    /// <param name="number">Number as it is dialled from where the contact is.</param>
    /// <exception cref="ArgumentException">Agency or number is empty.</exception>
    public EmergencyCall(string agency, string number)
    {
        Agency = Guard.NotEmpty(agency);
        Number = Guard.NotEmpty(number);
    }

    /// <summary>Who answers.</summary>
    public string Agency { get; }

    /// <summary>Number as it is dialled from where the contact is.</summary>
    public string Number { get; }

    /// <summary>Who is in charge where the ride goes: county, park, region.</summary>
    public string? Jurisdiction { get; init; }

    /// <summary>Number as the rider dials it on the trail, when it is another.</summary>
    public string? NumberOnTheTrail { get; init; }
}
