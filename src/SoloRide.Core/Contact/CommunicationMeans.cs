using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>One thing to call with, and what another must know of it.</summary>
/// <remarks>Immutable.</remarks>
public sealed record CommunicationMeans
{
    /// <summary>Makes the entry.</summary>
    /// <param name="kind">Which way to call.</param>
    public CommunicationMeans(MeansKind kind)
    {
        Kind = Guard.Defined(kind);
    }

    /// <summary>Which way to call.</summary>
    public MeansKind Kind { get; }

    /// <summary>Number, address, channel or registration code.</summary>
    public string? Address { get; init; }

    /// <summary>How long its charge lasts as it is used on the ride; null when not known.</summary>
    public TimeSpan? BatteryLasts { get; init => field = value is { } v ? Guard.NotNegative(v, nameof(BatteryLasts)) : null; }

    /// <summary>Whether the rider gets an answer.</summary>
    public bool AnswersBack => Kind != MeansKind.DistressBeacon;

    /// <summary>Whether it works with nothing but itself and open sky: no subscription, no network on the ground, nobody in reach.</summary>
    public bool WorksAlone => Kind == MeansKind.DistressBeacon;
}
