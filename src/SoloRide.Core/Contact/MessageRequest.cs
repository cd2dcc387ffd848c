using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Contact;

/// <summary>What a message is made from.</summary>
/// <remarks>Immutable. Times are shown on the clock of <see cref="SentAt"/>'s offset, which is written once.</remarks>
public sealed record MessageRequest
{
    private readonly double _wayM = double.NaN;

    /// <summary>What it says.</summary>
    public required MessageKind Kind { get; init => field = Guard.Defined(value, nameof(Kind)); }

    /// <summary>When it is sent, with the offset of the place.</summary>
    public required DateTimeOffset SentAt { get; init; }

    /// <summary>Name of the rider; the first thing to be cut.</summary>
    public string? RiderName { get; init; }

    /// <summary>Name of the place, or of the way out that is walked to; cut after the rider's name.</summary>
    public string? PlaceName { get; init; }

    /// <summary>Position; needed for a call for help.</summary>
    public GeoPoint? Position { get; init; }

    /// <summary>When the position was taken; null: when it is sent.</summary>
    public DateTimeOffset? FixAt { get; init; }

    /// <summary>When the next message comes.</summary>
    public DateTimeOffset? Next { get; init; }

    /// <summary>Expected end of the ride or of the walk: early and late.</summary>
    public DateTimeOffset? EndEarly { get; init; }

    /// <summary>Late end.</summary>
    public DateTimeOffset? EndLate { get; init; }

    /// <summary>When the contact calls if nothing more is heard.</summary>
    public DateTimeOffset? CallBy { get; init; }

    /// <summary>Way that is left on foot; 0 to 999 km.</summary>
    public Length? WayLeft
    {
        get => Si.Length(_wayM);
        init => _wayM = value is { } v ? Guard.InRange(v.Kilometers, 0, 999, "km", nameof(WayLeft)) * 1000 : double.NaN;
    }

    /// <summary>People in need; 1 to 99.</summary>
    public int People { get; init => field = Guard.InRange(value, 1, 99, "people", nameof(People)); } = 1;

    /// <summary>What happened, such as "leg broken, cannot move"; cut after the names.</summary>
    public string? What { get; init; }

    /// <summary>What is needed or at hand, such as "2 L water, barrier bag"; cut before what happened.</summary>
    public string? Needs { get; init; }

    /// <summary>Charge of the sending device; 0 to 100 %.</summary>
    public Ratio? Battery { get; init => field = value is { } v ? Ratio.FromDecimalFractions(Guard.InRange(v.Percent, 0, 100, "%", nameof(Battery)) / 100) : null; }
}
