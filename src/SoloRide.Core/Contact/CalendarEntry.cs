using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>One event of a calendar file.</summary>
/// <remarks>Immutable.</remarks>
public sealed record CalendarEntry
{
    /// <summary>Makes an event.</summary>
    /// <param name="key">Stable name of the event within the plan, such as <c>alarm</c>; letters a to z, digits, hyphens.</param>
    /// <param name="summary">One line.</param>
    /// <param name="start">Start.</param>
    /// <param name="end">End; not before <paramref name="start"/>.</param>
    /// <exception cref="ArgumentException">A text is empty, the key holds other characters, or the end lies before the start.</exception>
    public CalendarEntry(string key, string summary, DateTimeOffset start, DateTimeOffset end)
    {
        Key = Guard.NotEmpty(key);
        if (key.Any(c => !char.IsAsciiLetterLower(c) && !char.IsAsciiDigit(c) && c != '-'))
        {
            throw new ArgumentException($"The key '{key}' may hold a to z, digits and hyphens only.", nameof(key));
        }

        Summary = Guard.NotEmpty(summary);
        Start = start;
        End = end >= start ? end : throw new ArgumentException($"The event '{key}' ends at {Text.Clock(end)}, before it starts at {Text.Clock(start)}.", nameof(end));
    }

    /// <summary>Stable name of the event within the plan.</summary>
    public string Key { get; }

    /// <summary>One line.</summary>
    public string Summary { get; }

    /// <summary>Start.</summary>
    public DateTimeOffset Start { get; }

    /// <summary>End.</summary>
    public DateTimeOffset End { get; }

    /// <summary>Text of the event; may hold line ends.</summary>
    public string Description { get; init => field = Guard.NotNull(value, nameof(Description)); } = "";

    /// <summary>Whether a reminder sounds at the start.</summary>
    public bool RemindAtStart { get; init; } = true;

    /// <summary>Whether a reminder sounds at the end.</summary>
    public bool RemindAtEnd { get; init; }

    /// <summary>Position for the calendar's map.</summary>
    public GeoPoint? Place { get; init; }
}
