using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>One way of reaching others, with the devices it needs all of.</summary>
/// <remarks>Immutable.</remarks>
public sealed record MessageWay
{
    /// <summary>In words, such as <c>free text by messenger and phone</c>.</summary>
    public required string Name { get; init => field = Guard.NotEmpty(value, nameof(Name)); }

    /// <summary>What it is good for.</summary>
    public required MessagePurpose Purpose { get; init => field = Guard.Defined(value, nameof(Purpose)); }

    /// <summary>Names of the devices that must all have charge.</summary>
    public required IReadOnlyList<string> Needs { get; init => field = [.. Guard.NotNull(value, nameof(Needs))]; }

    /// <summary>Chance that one attempt gets through [share of 1]; null: by the sky view of the last stretch.</summary>
    public double? AttemptProbability { get; init => field = value is { } v ? Guard.Fraction(v, nameof(AttemptProbability)) : null; }

    /// <summary>Attempts that one would make, 1 to 1 000. Attempts are taken as independent: wait and move between them.</summary>
    public int Attempts { get; init => field = Guard.InRange(value, 1, 1000, "attempts", nameof(Attempts)); } = 5;
}
