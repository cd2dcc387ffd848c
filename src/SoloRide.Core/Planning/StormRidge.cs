using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Exposed ground that must be left before a storm, and the ways down from it.</summary>
/// <remarks>Immutable.</remarks>
public sealed record StormRidge
{
    private readonly double _fromM;
    private readonly double _toM;

    /// <summary>Name.</summary>
    public string Name { get; init => field = Guard.NotEmpty(value, nameof(Name)); } = "ridge";

    /// <summary>Where it begins, from the start of the route.</summary>
    public required Length From { get => Length.FromMeters(_fromM); init => _fromM = Guard.NotNegative(value.Meters, "m", nameof(From)); }

    /// <summary>Where it ends.</summary>
    public required Length To { get => Length.FromMeters(_toM); init => _toM = Guard.NotNegative(value.Meters, "m", nameof(To)); }

    /// <summary>Onset of the storm; the early end of the range counts.</summary>
    public required Estimate<DateTimeOffset> Onset { get; init => field = Guard.NotNull(value, nameof(Onset)); }

    /// <summary>Ways down besides the far end.</summary>
    public IReadOnlyList<StormEscape> Escapes { get; init => field = [.. Guard.NotNull(value, nameof(Escapes))]; } = [];

    /// <summary>The whole ridge as a clock of a plan: left before the early onset.</summary>
    /// <returns>The clock.</returns>
    /// <exception cref="ArgumentException">The ridge runs backward.</exception>
    public Deadline ToDeadline() => new(DeadlineKind.Storm, $"storm on {Name}", From, To, Onset.Low);
}
