using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>A period in which the rider must not be on a stretch: the heat of the day, an afternoon of storms, a river in flood.</summary>
/// <remarks>The stretch may be passed before it begins or after it ends. Immutable.</remarks>
public sealed record ClosedPeriod
{
    private readonly double _fromM;
    private readonly double _toM;

    /// <summary>Makes a period.</summary>
    /// <param name="kind">Which clock.</param>
    /// <param name="name">In words.</param>
    /// <param name="from">Where the stretch begins.</param>
    /// <param name="to">Where it ends; not before <paramref name="from"/>.</param>
    /// <param name="begins">From this instant on.</param>
    /// <param name="ends">Until this instant; not before <paramref name="begins"/>.</param>
    /// <exception cref="ArgumentException">No name, the stretch runs backward, or it ends before it begins.</exception>
    public ClosedPeriod(DeadlineKind kind, string name, Length from, Length to, DateTimeOffset begins, DateTimeOffset ends)
    {
        Kind = Guard.Defined(kind);
        Name = Guard.NotEmpty(name);
        _fromM = Guard.NotNegative(from.Meters, "m", nameof(from));
        _toM = Guard.NotNegative(to.Meters, "m", nameof(to));
        if (_toM < _fromM || ends < begins)
        {
            throw new ArgumentException($"Closed period '{name}' ends before it begins.", nameof(to));
        }

        Begins = begins;
        Ends = ends;
    }

    /// <summary>Which clock.</summary>
    public DeadlineKind Kind { get; }

    /// <summary>In words.</summary>
    public string Name { get; }

    /// <summary>Where the stretch begins.</summary>
    public Length From => Length.FromMeters(_fromM);

    /// <summary>Where it ends.</summary>
    public Length To => Length.FromMeters(_toM);

    /// <summary>From this instant on.</summary>
    public DateTimeOffset Begins { get; }

    /// <summary>Until this instant.</summary>
    public DateTimeOffset Ends { get; }
}
