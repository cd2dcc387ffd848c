using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>A clock that limits when a stretch of the route may be passed: not before it opens, not after it closes.</summary>
/// <remarks>Immutable.</remarks>
public sealed record Deadline
{
    private readonly double _fromM;
    private readonly double _toM;

    /// <summary>Makes a deadline.</summary>
    /// <param name="kind">Which clock.</param>
    /// <param name="name">In words, such as "civil dusk".</param>
    /// <param name="from">Where the stretch begins, from the start of the route.</param>
    /// <param name="to">Where it ends; not before <paramref name="from"/>.</param>
    /// <param name="closes">Not after this instant; null when it never closes.</param>
    /// <param name="opens">Not before this instant; null when it is open from the beginning.</param>
    /// <exception cref="ArgumentException">The name is empty, the stretch runs backward, or it closes before it opens.</exception>
    public Deadline(DeadlineKind kind, string name, Length from, Length to, DateTimeOffset? closes, DateTimeOffset? opens = null)
    {
        Kind = Guard.Defined(kind);
        Name = Guard.NotEmpty(name);
        _fromM = Guard.NotNegative(from.Meters, "m", nameof(from));
        _toM = Guard.NotNegative(to.Meters, "m", nameof(to));
        if (_toM < _fromM)
        {
            throw new ArgumentException($"Deadline '{name}': its stretch ends at {Text.F(_toM, 0)} m, before it begins at {Text.F(_fromM, 0)} m.", nameof(to));
        }

        if (closes is { } c && opens is { } o && c < o)
        {
            throw new ArgumentException($"Deadline '{name}' closes ({Text.Clock(c)}) before it opens ({Text.Clock(o)}).", nameof(closes));
        }

        Closes = closes;
        Opens = opens;
    }

    /// <summary>Which clock.</summary>
    public DeadlineKind Kind { get; }

    /// <summary>In words.</summary>
    public string Name { get; }

    /// <summary>Where the stretch begins, from the start of the route.</summary>
    public Length From => Length.FromMeters(_fromM);

    /// <summary>Where the stretch ends.</summary>
    public Length To => Length.FromMeters(_toM);

    /// <summary>Not after this instant.</summary>
    public DateTimeOffset? Closes { get; }

    /// <summary>Not before this instant.</summary>
    public DateTimeOffset? Opens { get; }
}
