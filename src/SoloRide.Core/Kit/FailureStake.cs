using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>What one kind of failure costs along the route: hours of getting out, place by place.</summary>
/// <remarks>Immutable.</remarks>
public sealed record FailureStake
{
    /// <summary>Makes a stake.</summary>
    /// <param name="kind">What fails.</param>
    /// <param name="places">Stretches of the route, at least one.</param>
    /// <exception cref="ArgumentException">No stretch is given.</exception>
    public FailureStake(FailureKind kind, params IReadOnlyList<StakeAtPlace> places)
    {
        Kind = Guard.Defined(kind);
        Places = [.. Guard.NotNull(places)];
        if (Places.Count == 0)
        {
            throw new ArgumentException($"The failure {kind} needs at least one place with the time that it costs there.", nameof(places));
        }
    }

    /// <summary>What fails.</summary>
    public FailureKind Kind { get; }

    /// <summary>Stretches of the route.</summary>
    public IReadOnlyList<StakeAtPlace> Places { get; }

    /// <summary>The place where it costs most.</summary>
    public StakeAtPlace Worst => Places.MaxBy(p => p.Unrepaired)!;

    /// <summary>Rate of this kind; null for what the request says of the others.</summary>
    public FailureRate? Rate { get; init; }

    /// <summary>One stake for the whole route.</summary>
    /// <param name="kind">What fails.</param>
    /// <param name="unrepaired">Time lost without repair.</param>
    /// <param name="partlyRepaired">Time lost after a partial repair.</param>
    /// <returns>The stake.</returns>
    public static FailureStake Everywhere(FailureKind kind, TimeSpan unrepaired, TimeSpan? partlyRepaired = null)
        => new(kind, new StakeAtPlace("any place", Length.FromMeters(1), unrepaired, partlyRepaired));

    /// <summary>Mean hours along the route, each place's loss capped.</summary>
    internal (double Unrepaired, double Partly) MeanHours(double capHours, double partialFactor)
    {
        double sum = 0, u = 0, p = 0;
        foreach (StakeAtPlace s in Places)
        {
            double hours = Math.Min(s.Unrepaired.TotalHours, capHours);
            sum += s.OverM;
            u += s.OverM * hours;
            p += s.OverM * Math.Min(hours, s.PartlyRepaired?.TotalHours ?? (s.Unrepaired.TotalHours * partialFactor));
        }

        return (u / sum, p / sum);
    }
}
