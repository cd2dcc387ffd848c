using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>A stretch of the ride, by typical time, on which it is known whether a message can pass.</summary>
/// <remarks>Immutable. Outside the stretches given nothing is known.</remarks>
public sealed record ContactStretch
{
    /// <summary>Makes a stretch.</summary>
    /// <param name="name">Name, such as "slot canyon".</param>
    /// <param name="from">Typical time of entering.</param>
    /// <param name="to">Typical time of leaving; after <paramref name="from"/>.</param>
    /// <param name="phoneSignal">Whether a telephone has signal.</param>
    /// <param name="openSky">Whether satellites are in view.</param>
    /// <exception cref="ArgumentException">The name is empty or the stretch has no length.</exception>
    public ContactStretch(string name, DateTimeOffset from, DateTimeOffset to, Known phoneSignal, Known openSky)
    {
        Name = Guard.NotEmpty(name);
        if (to <= from)
        {
            throw new ArgumentException($"The stretch '{name}' ends at {Text.Clock(to)}, not after it begins at {Text.Clock(from)}.", nameof(to));
        }

        From = from;
        To = to;
        PhoneSignal = Guard.Defined(phoneSignal);
        OpenSky = Guard.Defined(openSky);
    }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Typical time of entering.</summary>
    public DateTimeOffset From { get; }

    /// <summary>Typical time of leaving.</summary>
    public DateTimeOffset To { get; }

    /// <summary>Whether a telephone has signal.</summary>
    public Known PhoneSignal { get; }

    /// <summary>Whether satellites are in view.</summary>
    public Known OpenSky { get; }
}
