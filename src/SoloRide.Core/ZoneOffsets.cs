using System.Globalization;
using SoloRide.Internal;

namespace SoloRide;

/// <summary>One change of the clock: from this instant on, this offset holds.</summary>
/// <param name="From">The instant, in UTC.</param>
/// <param name="Offset">Local time minus UTC from then on.</param>
public readonly record struct ZoneTransition(DateTimeOffset From, TimeSpan Offset);

/// <summary>
/// The clock of a place as plain data: a first offset and the instants at which it changes. Serialises, and needs no zone database.
/// </summary>
/// <remarks>Immutable; safe to share between threads. Two zones are equal when id and all transitions are.</remarks>
[Entry(NoOutsideCheck = "plain data taken over from the caller's zone")]
public sealed record ZoneOffsets
{
    private static readonly TimeSpan MaxOffset = TimeSpan.FromHours(14);

    /// <summary>Makes a clock from its parts.</summary>
    /// <param name="id">Name of the zone, such as an IANA id; only for display.</param>
    /// <param name="first">Offset before the first transition; within 14 h of UTC, whole minutes.</param>
    /// <param name="transitions">Changes in ascending order.</param>
    /// <exception cref="ArgumentException">Empty id, or transitions out of order.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An offset beyond 14 h or not of whole minutes.</exception>
    public ZoneOffsets(string id, TimeSpan first, IEnumerable<ZoneTransition> transitions)
    {
        Id = Guard.NotEmpty(id);
        FirstOffset = Check(first, nameof(first));
        Transitions = [.. Guard.NotNull(transitions).Select(t => new ZoneTransition(t.From.ToUniversalTime(), Check(t.Offset, nameof(transitions))))];
        for (int i = 1; i < Transitions.Count; i++)
        {
            if (Transitions[i].From <= Transitions[i - 1].From)
            {
                throw new ArgumentException($"Transitions of zone '{id}' must be in ascending order.", nameof(transitions));
            }
        }
    }

    /// <summary>Name of the zone.</summary>
    public string Id { get; }

    /// <summary>Offset before the first transition.</summary>
    public TimeSpan FirstOffset { get; }

    /// <summary>Changes in ascending order.</summary>
    public IReadOnlyList<ZoneTransition> Transitions { get; }

    /// <summary>UTC itself.</summary>
    public static ZoneOffsets Utc { get; } = new("UTC", TimeSpan.Zero, []);

    /// <summary>A clock that never changes.</summary>
    /// <param name="offsetHours">[h, -14 to 14, whole minutes] Local time minus UTC.</param>
    /// <returns>The clock.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public static ZoneOffsets Fixed(double offsetHours)
        => Fixed(TimeSpan.FromMinutes(Math.Round(Guard.InRange(offsetHours, -14, 14, "h") * 60)));

    /// <summary>A clock that never changes.</summary>
    /// <param name="offset">Local time minus UTC; within 14 h, whole minutes.</param>
    /// <returns>The clock.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public static ZoneOffsets Fixed(TimeSpan offset) => new(Text.Offset(offset), offset, []);

    /// <summary>Takes the transitions of a zone of the caller's system within a span of time.</summary>
    /// <param name="zone">The zone.</param>
    /// <param name="from">First instant of interest.</param>
    /// <param name="to">Last instant of interest; after <paramref name="from"/>, at most 200 years later.</param>
    /// <returns>The clock, right within the span.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The span is empty or too long.</exception>
    public static ZoneOffsets From(TimeZoneInfo zone, DateTimeOffset from, DateTimeOffset to)
    {
        Guard.NotNull(zone);
        if (to <= from || to - from > TimeSpan.FromDays(200 * 366))
        {
            throw new ArgumentOutOfRangeException(nameof(to), to, "to must lie after from, at most 200 years.");
        }

        var transitions = new List<ZoneTransition>();
        DateTimeOffset t = from.ToUniversalTime();
        TimeSpan first = Minutes(zone.GetUtcOffset(t));
        TimeSpan current = first;
        DateTimeOffset end = to.ToUniversalTime();
        while (t < end)
        {
            DateTimeOffset next = t.AddHours(6) < end ? t.AddHours(6) : end;
            TimeSpan offset = Minutes(zone.GetUtcOffset(next));
            if (offset != current)
            {
                long lo = t.UtcTicks / TimeSpan.TicksPerSecond;
                long hi = next.UtcTicks / TimeSpan.TicksPerSecond;
                while (hi - lo > 1)
                {
                    long mid = (lo + hi) / 2;
                    if (Minutes(zone.GetUtcOffset(new DateTimeOffset(mid * TimeSpan.TicksPerSecond, TimeSpan.Zero))) == current)
                    {
                        lo = mid;
                    }
                    else
                    {
                        hi = mid;
                    }
                }

                transitions.Add(new ZoneTransition(new DateTimeOffset(hi * TimeSpan.TicksPerSecond, TimeSpan.Zero), offset));
                current = offset;
            }

            t = next;
        }

        return new ZoneOffsets(zone.Id, first, transitions);
    }

    /// <summary>Takes the transitions of a zone by its id, from the zone data of the caller's system.</summary>
    /// <param name="id">IANA id, such as <c>Europe/Oslo</c>.</param>
    /// <param name="from">First instant of interest.</param>
    /// <param name="to">Last instant of interest; after <paramref name="from"/>, at most 200 years later.</param>
    /// <returns>The clock, right within the span.</returns>
    /// <exception cref="ArgumentException">The system knows no zone of that id.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The span is empty or too long.</exception>
    public static ZoneOffsets OfId(string id, DateTimeOffset from, DateTimeOffset to)
        => TimeZoneInfo.TryFindSystemTimeZoneById(Guard.NotEmpty(id), out TimeZoneInfo? zone)
            ? From(zone, from, to)
            : throw new ArgumentException($"The time zone '{id}' is not known to this system; an IANA id such as 'Europe/Oslo' is expected, or give a fixed offset.", nameof(id));

    /// <summary>Local time minus UTC at an instant.</summary>
    /// <param name="instant">The instant.</param>
    /// <returns>The offset.</returns>
    public TimeSpan OffsetAt(DateTimeOffset instant)
    {
        TimeSpan offset = FirstOffset;
        foreach (ZoneTransition t in Transitions)
        {
            if (t.From > instant)
            {
                break;
            }

            offset = t.Offset;
        }

        return offset;
    }

    /// <summary>The same instant on this clock.</summary>
    /// <param name="instant">The instant.</param>
    /// <returns>The instant with this zone's offset.</returns>
    public DateTimeOffset ToLocal(DateTimeOffset instant) => instant.ToOffset(OffsetAt(instant));

    /// <summary>The instant at which a local civil day begins: the earliest instant whose local date is that day.</summary>
    /// <param name="date">The local date.</param>
    /// <returns>The instant, with this zone's offset.</returns>
    public DateTimeOffset StartOfDay(DateOnly date)
    {
        DateTime wall = date.ToDateTime(TimeOnly.MinValue);
        DateTimeOffset? best = null;
        foreach (TimeSpan offset in Transitions.Select(t => t.Offset).Prepend(FirstOffset).Distinct())
        {
            var candidate = new DateTimeOffset(wall, offset);
            if (OffsetAt(candidate) == offset && (best is null || candidate < best))
            {
                best = candidate;
            }
        }

        // Midnight itself is skipped by a change of the clock: the day begins at that change.
        if (best is null)
        {
            foreach (ZoneTransition t in Transitions)
            {
                DateTimeOffset local = t.From.ToOffset(t.Offset);
                if (DateOnly.FromDateTime(local.DateTime) == date)
                {
                    best = local;
                    break;
                }
            }
        }

        return best ?? new DateTimeOffset(wall, FirstOffset);
    }

    /// <summary>Same id and transitions.</summary>
    /// <param name="other">The other clock.</param>
    /// <returns>Whether all are equal.</returns>
    public bool Equals(ZoneOffsets? other)
        => other is not null && Id == other.Id && FirstOffset == other.FirstOffset && Transitions.SequenceEqual(other.Transitions);

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Id, FirstOffset, Transitions.Count);

    /// <summary>The id.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Id;

    private static TimeSpan Minutes(TimeSpan offset) => TimeSpan.FromMinutes(Math.Round(offset.TotalMinutes));

    private static TimeSpan Check(TimeSpan offset, string name)
        => offset.Duration() <= MaxOffset && offset.Ticks % TimeSpan.TicksPerMinute == 0
            ? offset
            : throw new ArgumentOutOfRangeException(name, string.Create(CultureInfo.InvariantCulture, $"{offset}"), "Offsets are whole minutes within 14 h of UTC.");
}
