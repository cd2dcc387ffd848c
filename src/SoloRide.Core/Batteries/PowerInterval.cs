using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>A stretch of time in which air, darkness and the modes of all devices stay the same.</summary>
/// <remarks>Immutable.</remarks>
public sealed record PowerInterval
{
    private readonly double _airC = 15;
    private readonly double _windMps;

    /// <summary>How long it lasts; above 0, at most 31 days.</summary>
    public required TimeSpan Duration
    {
        get;
        init => field = value > TimeSpan.Zero && value <= TimeSpan.FromDays(31)
            ? value
            : throw new ArgumentOutOfRangeException(nameof(Duration), value, "Duration must be above 0 and at most 31 days.");
    }

    /// <summary>Air temperature, -60 to 60 °C; 15 °C unless stated.</summary>
    public Temperature AirTemperature
    {
        get => Temperature.FromDegreesCelsius(_airC);
        init => _airC = Guard.InRange(value.DegreesCelsius, -60, 60, "C", nameof(AirTemperature));
    }

    /// <summary>Wind at the rider, 0 to 60 m/s; it takes the warmth out of pockets.</summary>
    public Speed Wind
    {
        get => Speed.FromMetersPerSecond(_windMps);
        init => _windMps = Guard.InRange(value.MetersPerSecond, 0, 60, "m/s", nameof(Wind));
    }

    /// <summary>Whether a lamp is needed. Lamps that no mode is named for are lit in their first mode when it is dark, else off.</summary>
    public bool IsDark { get; init; }

    /// <summary>Whether devices can hang on the power bank.</summary>
    public bool CanCharge { get; init; } = true;

    /// <summary>Mode of each device by name; devices left out run in their first mode, lamps by <see cref="IsDark"/>. The text <c>off</c> switches off.</summary>
    public IReadOnlyDictionary<string, string> Modes { get; init => field = Guard.NotNull(value, nameof(Modes)); } = new Dictionary<string, string>();

    /// <summary>Messages sent with the messenger in this stretch, 0 to 1 000; retries under canopy count.</summary>
    public int Messages { get; init => field = Guard.InRange(value, 0, 1000, "messages", nameof(Messages)); }

    /// <summary>What the messenger sees of the sky.</summary>
    public SkyView Sky { get; init => field = Guard.Defined(value, nameof(Sky)); }

    internal double AirC => _airC;

    internal double WindMps => _windMps;
}
