using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>
/// A 406 MHz distress beacon. It is never in the shared pool, never a lamp, never charged: only its expiry, its registration and its
/// self-tests are tracked.
/// </summary>
/// <remarks>Immutable.</remarks>
public sealed record DistressBeacon
{
    /// <summary>Name in results.</summary>
    public string Name { get; init => field = Guard.NotEmpty(value, nameof(Name)); } = "distress beacon";

    /// <summary>Last day on which its battery is in date; null when unknown.</summary>
    public DateOnly? BatteryExpires { get; init; }

    /// <summary>Whether it is registered with the authority of its country.</summary>
    public Known Registered { get; init => field = Guard.Defined(value, nameof(Registered)); }

    /// <summary>Self-tests made with this battery, 0 or more.</summary>
    public int SelfTests { get; init => field = Guard.InRange(value, 0, 10_000, "tests", nameof(SelfTests)); }

    /// <summary>Self-tests that its maker allows per battery; null when unknown.</summary>
    public int? SelfTestsAllowed { get; init => field = value is { } v ? Guard.InRange(v, 1, 10_000, "tests", nameof(SelfTestsAllowed)) : null; }

    /// <summary>Chance that it works and is heard when triggered in the open [share of 1]; our assumption 0.95 unless stated.</summary>
    [Source("assumption-sky-view", "beacon")]
    public double WorksProbability { get; init => field = Guard.Fraction(value, nameof(WorksProbability)); } = 0.95;
}
