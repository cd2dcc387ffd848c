using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>Time that a failure costs on one stretch of the route.</summary>
/// <remarks>Immutable.</remarks>
public sealed record StakeAtPlace
{
    private readonly double _overM;

    /// <summary>Makes a stake.</summary>
    /// <param name="place">Where, as the rider knows it, such as "km 37".</param>
    /// <param name="over">Length of the stretch that it stands for; above 0 m.</param>
    /// <param name="unrepaired">Time lost when nothing is repaired.</param>
    /// <param name="partlyRepaired">Time lost after a partial repair, at most <paramref name="unrepaired"/>; null when not worked out.</param>
    /// <exception cref="ArgumentOutOfRangeException">Length not positive, or a time negative or in the wrong order.</exception>
    public StakeAtPlace(string place, Length over, TimeSpan unrepaired, TimeSpan? partlyRepaired = null)
    {
        Place = Guard.NotEmpty(place);
        _overM = Guard.Positive(over.Meters, "m", nameof(over));
        Unrepaired = Guard.NotNegative(unrepaired);
        if (partlyRepaired is { } p)
        {
            Guard.NotNegative(p, nameof(partlyRepaired));
            if (p > unrepaired)
            {
                throw new ArgumentOutOfRangeException(nameof(partlyRepaired), partlyRepaired, $"At '{place}' a partial repair costs {Text.Span(p)}, more than no repair ({Text.Span(unrepaired)}).");
            }
        }

        PartlyRepaired = partlyRepaired;
    }

    /// <summary>Where.</summary>
    public string Place { get; }

    /// <summary>Length of the stretch.</summary>
    public Length Over => Length.FromMeters(_overM);

    /// <summary>Time lost when nothing is repaired.</summary>
    public TimeSpan Unrepaired { get; }

    /// <summary>Time lost after a partial repair.</summary>
    public TimeSpan? PartlyRepaired { get; }

    internal double OverM => _overM;
}
