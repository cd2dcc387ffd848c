using System.Globalization;
using System.Text;
using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>A calendar file (RFC 5545) for the contact: each message, overdue and alarm, with reminders.</summary>
/// <remarks>
/// All times are UTC, so that the contact's calendar needs no knowledge of the rider's zone and no change of the clock can move an event. Stable UIDs and
/// rising sequence numbers let a new version replace the old; events that the new version lacks are cancelled. The bytes depend on the arguments alone.
/// Immutable. Source: rfc-5545.
/// </remarks>
[Entry]
public sealed record ContactCalendar
{
    private const string Product = "-//SoloRide//SoloRide.Core//EN";
    private readonly IReadOnlyList<CalendarEntry> _cancelled;
    private readonly DateTimeOffset _stamp;

    private ContactCalendar(string planId, int version, DateTimeOffset stamp, IReadOnlyList<CalendarEntry> entries, IReadOnlyList<CalendarEntry> cancelled)
    {
        PlanId = planId;
        Version = version;
        _stamp = stamp;
        Entries = entries;
        _cancelled = cancelled;
    }

    /// <summary>Stable id of the plan.</summary>
    public string PlanId { get; }

    /// <summary>Version of the plan; becomes the sequence number.</summary>
    public int Version { get; }

    /// <summary>The events.</summary>
    public IReadOnlyList<CalendarEntry> Entries { get; }

    /// <summary>Makes a calendar from any events.</summary>
    /// <param name="planId">Id of the plan that stays the same over all versions; letters, digits, hyphens, at most 60.</param>
    /// <param name="entries">Events with keys of their own.</param>
    /// <param name="stamp">When the calendar was made.</param>
    /// <param name="version">[0 to 9 999] Version of the plan.</param>
    /// <param name="replaces">The calendar of the version before; its events that are now missing are cancelled.</param>
    /// <returns>The calendar.</returns>
    /// <exception cref="ArgumentException">An id with other characters, no events, keys that occur twice, or a version not above the one replaced.</exception>
    public static ContactCalendar Of(string planId, IReadOnlyList<CalendarEntry> entries, DateTimeOffset stamp, int version = 1, ContactCalendar? replaces = null)
    {
        Guard.NotEmpty(planId);
        if (planId.Length > 60 || planId.Any(c => !char.IsAsciiLetterOrDigit(c) && c != '-'))
        {
            throw new ArgumentException($"The plan id '{planId}' may hold letters, digits and hyphens, at most 60.", nameof(planId));
        }

        Guard.InRange(version, 0, 9999, "(version)");
        if (Guard.NotNull(entries).Count == 0)
        {
            throw new ArgumentException("A calendar needs at least one event.", nameof(entries));
        }

        if (entries.GroupBy(e => e.Key, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException($"The key '{twice.Key}' occurs {twice.Count()} times; each event needs its own.", nameof(entries));
        }

        if (replaces is not null && (replaces.PlanId != planId || replaces.Version >= version))
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Version {version} of '{planId}' cannot replace version {replaces.Version} of '{replaces.PlanId}'."), nameof(replaces));
        }

        CalendarEntry[] gone = replaces is null ? [] : [.. replaces.Entries.Concat(replaces._cancelled).Where(o => entries.All(e => e.Key != o.Key))];
        return new ContactCalendar(planId, version, stamp, [.. entries], gone);
    }

    /// <summary>Makes the calendar of a schedule.</summary>
    /// <param name="schedule">The schedule.</param>
    /// <param name="planId">Id of the plan that stays the same over all versions.</param>
    /// <param name="riderName">Name as it shows in the calendar.</param>
    /// <param name="rideZone">Clock of the ride, for the words of the events.</param>
    /// <param name="stamp">When the calendar was made.</param>
    /// <param name="emergency">Whom to call at the alarm time.</param>
    /// <param name="version">[0 to 9 999] Version of the plan.</param>
    /// <param name="replaces">The calendar of the version before.</param>
    /// <param name="more">Further events, with keys of their own.</param>
    /// <returns>The calendar.</returns>
    /// <exception cref="ArgumentException">As in <see cref="Of"/>.</exception>
    public static ContactCalendar For(
        CheckInSchedule schedule, string planId, string riderName, ZoneOffsets rideZone, DateTimeOffset stamp, EmergencyCall? emergency = null, int version = 1,
        ContactCalendar? replaces = null, IReadOnlyList<CalendarEntry>? more = null)
    {
        Guard.NotNull(schedule);
        Guard.NotEmpty(riderName);
        Guard.NotNull(rideZone);
        string call = emergency is { } e ? $"{e.Agency}, {e.Number}" : "the emergency service (number not given: find it now)";
        var entries = new List<CalendarEntry>();
        foreach (CheckIn c in schedule.CheckIns)
        {
            entries.Add(new CalendarEntry(c.Key, $"Expect a message from {riderName}: {c.Name}", c.Due, c.WatchFrom)
            {
                Description = $"Usually at {Local(c.Expected)}, at the latest at {Local(c.Due)} on the clock of the ride.\nIf it is missing at the end of this event, act as the sheet says; call by {Local(c.CallBy)}.",
                RemindAtEnd = true,
                Place = c.Place,
            });
        }

        entries.Add(new CalendarEntry("overdue", $"{riderName} is overdue if nothing came", schedule.OverdueTime, schedule.AlarmTime)
        {
            Description = $"Overdue from {Local(schedule.OverdueTime)} on the clock of the ride.\nTry the rider, friends and the places on the sheet. Write down what you did.",
        });
        entries.Add(new CalendarEntry("alarm", $"ALARM TIME for {riderName}: call", schedule.AlarmTime, schedule.AlarmTime.AddMinutes(15))
        {
            Description = $"{Local(schedule.AlarmTime)} on the clock of the ride. Nothing heard? Try once more, then call {call} and read the sheet out.\n{Cautions.Text}",
        });
        entries.AddRange(more ?? []);
        return Of(planId, entries, stamp, version, replaces);

        string Local(DateTimeOffset t)
        {
            DateTimeOffset l = rideZone.ToLocal(t);
            return $"{Text.Clock(l)} {Text.Date(l)} ({Text.Offset(l.Offset)})";
        }
    }

    /// <summary>The file's text; lines end with carriage return and line feed.</summary>
    /// <returns>Text.</returns>
    public string ToText()
    {
        var sb = new StringBuilder();
        CalendarKernel.Line(sb, "BEGIN:VCALENDAR");
        CalendarKernel.Line(sb, "VERSION:2.0");
        CalendarKernel.Line(sb, "PRODID:" + Product);
        CalendarKernel.Line(sb, "CALSCALE:GREGORIAN");
        CalendarKernel.Line(sb, "METHOD:PUBLISH");
        foreach (CalendarEntry e in Entries)
        {
            Event(sb, e, false);
        }

        foreach (CalendarEntry e in _cancelled)
        {
            Event(sb, e, true);
        }

        CalendarKernel.Line(sb, "END:VCALENDAR");
        return sb.ToString();
    }

    /// <summary>The file's bytes.</summary>
    /// <returns>UTF-8 without a byte order mark.</returns>
    public byte[] ToUtf8() => new UTF8Encoding(false).GetBytes(ToText());

    private void Event(StringBuilder sb, CalendarEntry e, bool cancelled)
    {
        CalendarKernel.Line(sb, "BEGIN:VEVENT");
        CalendarKernel.Line(sb, $"UID:{PlanId}-{e.Key}@soloride.invalid");
        CalendarKernel.Line(sb, "DTSTAMP:" + CalendarKernel.Utc(_stamp));
        CalendarKernel.Line(sb, string.Create(CultureInfo.InvariantCulture, $"SEQUENCE:{Version}"));
        CalendarKernel.Line(sb, "DTSTART:" + CalendarKernel.Utc(e.Start));
        if (e.End > e.Start)
        {
            CalendarKernel.Line(sb, "DTEND:" + CalendarKernel.Utc(e.End));
        }

        CalendarKernel.Line(sb, "SUMMARY:" + CalendarKernel.Escape(e.Summary));
        if (e.Description.Length > 0)
        {
            CalendarKernel.Line(sb, "DESCRIPTION:" + CalendarKernel.Escape(e.Description));
        }

        if (e.Place is { } p)
        {
            CalendarKernel.Line(sb, $"GEO:{Text.F(p.LatDeg, 6)};{Text.F(p.LonDeg, 6)}");
        }

        CalendarKernel.Line(sb, cancelled ? "STATUS:CANCELLED" : "STATUS:CONFIRMED");
        CalendarKernel.Line(sb, "TRANSP:TRANSPARENT");
        if (e.RemindAtStart && !cancelled)
        {
            Reminder(sb, e, "TRIGGER:PT0S");
        }

        if (e.RemindAtEnd && e.End > e.Start && !cancelled)
        {
            Reminder(sb, e, "TRIGGER;RELATED=END:PT0S");
        }

        CalendarKernel.Line(sb, "END:VEVENT");
    }

    private static void Reminder(StringBuilder sb, CalendarEntry e, string trigger)
    {
        CalendarKernel.Line(sb, "BEGIN:VALARM");
        CalendarKernel.Line(sb, "ACTION:DISPLAY");
        CalendarKernel.Line(sb, "DESCRIPTION:" + CalendarKernel.Escape(e.Summary));
        CalendarKernel.Line(sb, trigger);
        CalendarKernel.Line(sb, "END:VALARM");
    }
}
