using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Contact;

/// <summary>A place where the rider decides, and when.</summary>
/// <remarks>Immutable.</remarks>
public sealed record DecisionPoint
{
    private readonly double _alongM = double.NaN;

    /// <summary>Makes a point.</summary>
    /// <param name="kind">Why a message is sent there; not <see cref="CheckInKind.Clock"/>.</param>
    /// <param name="name">Name as rider and contact know it.</param>
    /// <param name="expected">Typical time of passing.</param>
    /// <param name="late">Late time of passing (P90 unless the caller says otherwise); not before <paramref name="expected"/>; null: as expected.</param>
    /// <exception cref="ArgumentException">The name is empty, the kind is by the clock, or late lies before expected.</exception>
    public DecisionPoint(CheckInKind kind, string name, DateTimeOffset expected, DateTimeOffset? late = null)
    {
        Kind = Guard.Defined(kind) == CheckInKind.Clock ? throw new ArgumentException("Messages by the clock are worked out, not given.", nameof(kind)) : kind;
        Name = Guard.NotEmpty(name);
        Expected = expected;
        Late = late ?? expected;
        if (Late < expected)
        {
            throw new ArgumentException($"At '{name}' the late time {Text.Clock(Late)} lies before the expected {Text.Clock(expected)}.", nameof(late));
        }
    }

    /// <summary>Why a message is sent there.</summary>
    public CheckInKind Kind { get; }

    /// <summary>Name.</summary>
    public string Name { get; }

    /// <summary>Typical time of passing.</summary>
    public DateTimeOffset Expected { get; }

    /// <summary>Late time of passing.</summary>
    public DateTimeOffset Late { get; }

    /// <summary>Where it is.</summary>
    public GeoPoint? Place { get; init; }

    /// <summary>Distance along the route.</summary>
    public Length? AlongRoute
    {
        get => Si.Length(_alongM);
        init => _alongM = value is { } v ? Guard.NotNegative(v.Meters, "m", nameof(AlongRoute)) : double.NaN;
    }
}
