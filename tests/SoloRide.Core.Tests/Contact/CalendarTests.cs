using System.Globalization;
using System.Text;
using FsCheck;
using FsCheck.Xunit;
using SoloRide.Contact;

namespace SoloRide.Tests.Contact;

public sealed class CalendarTests
{
    private static readonly DateTimeOffset Stamp = new(2025, 4, 18, 20, 0, 0, TimeSpan.FromHours(-6));
    private static readonly DateTimeOffset At = new(2025, 10, 26, 0, 30, 0, TimeSpan.Zero);

    private static ContactCalendar Ride(int version = 1, ContactCalendar? replaces = null, double toleratedH = 6)
        => ContactCalendar.For(
            CheckInPlanner.Plan(CheckInTests.Ride(toleratedH)), "spinel-basin-20250419", "Robin Älder; the \"rider\", \\o/", ZoneOffsets.Fixed(-6), Stamp,
            new EmergencyCall("Spinel County police", "555 0100"), version, replaces);

    /// <summary>RFC 5545: read back by a general-purpose calendar library.</summary>
    [Fact]
    [Checks(typeof(ContactCalendar), CheckKind.Outside)]
    public void File_ReadByALibrary_IsTheSame()
    {
        ContactCalendar ours = Ride();
        Ical.Net.Calendar read = Ical.Net.Calendar.Load(ours.ToText())!;
        Assert.Equal(ours.Entries.Count, read.Events.Count);
        foreach (CalendarEntry e in ours.Entries)
        {
            Ical.Net.CalendarComponents.CalendarEvent r = Assert.Single(read.Events, x => x.Uid == $"spinel-basin-20250419-{e.Key}@soloride.invalid");
            Assert.Equal(e.Summary, r.Summary);
            Assert.Equal(e.Description, r.Description);
            Assert.Equal(e.Start.UtcDateTime, r.DtStart!.AsUtc);
            Assert.Equal(e.End.UtcDateTime, r.DtEnd!.AsUtc);
            Assert.Equal(1, r.Sequence);
            Assert.Equal(Stamp.UtcDateTime, r.DtStamp!.AsUtc);
            Assert.Equal(e.RemindAtEnd ? 2 : 1, r.Alarms.Count);
        }
    }

    /// <summary>RFC 5545 sections 3.1 and 3.3.11, by a second reader written from the rules alone.</summary>
    [Fact]
    [Checks(typeof(ContactCalendar), CheckKind.Outside)]
    public void File_ReadByTheRules_IsTheSame()
    {
        ContactCalendar ours = Ride();
        List<Dictionary<string, string>> events = Read(ours.ToUtf8());
        Assert.Equal(ours.Entries.Count, events.Count);
        for (int i = 0; i < events.Count; i++)
        {
            CalendarEntry e = ours.Entries[i];
            Assert.Equal(e.Summary, events[i]["SUMMARY"]);
            Assert.Equal(e.Description, events[i]["DESCRIPTION"]);
            Assert.Equal(e.Start.UtcDateTime, DateTime.ParseExact(events[i]["DTSTART"], "yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture));
        }
    }

    [Property(MaxTest = 200)]
    [Checks(typeof(ContactCalendar), CheckKind.Property)]
    public bool AnyText_KeepsLinesShort_AndReadsBack(NonEmptyString summary, string? description)
    {
        if (string.IsNullOrWhiteSpace(summary.Get))
        {
            return true;
        }

        var entry = new CalendarEntry("note", summary.Get, At, At) { Description = description ?? "" };
        ContactCalendar ours = ContactCalendar.Of("any", [entry], Stamp);
        byte[] bytes = ours.ToUtf8();
        string text = Encoding.UTF8.GetString(bytes);
        bool shortLines = text.Split("\r\n").All(l => Encoding.UTF8.GetByteCount(l) <= 75);
        bool noBareBreaks = !text.Replace("\r\n", "", StringComparison.Ordinal).Contains('\n') && !text.Replace("\r\n", "", StringComparison.Ordinal).Contains('\r');
        return shortLines && noBareBreaks && bytes.SequenceEqual(ours.ToUtf8()) && Read(bytes)[0]["SUMMARY"] == Clean(summary.Get);
    }

    [Fact]
    public void LongLines_FoldAtSeventyFiveOctets_WithoutTearingCharacters()
    {
        var entry = new CalendarEntry("note", string.Concat(Enumerable.Repeat("äß山🚵", 40)), At, At);
        string text = ContactCalendar.Of("any", [entry], Stamp).ToText();
        Assert.Contains(text.Split("\r\n"), l => Encoding.UTF8.GetByteCount(l) is >= 72 and <= 75);
        Assert.DoesNotContain('\uFFFD', text);
        Assert.Equal(entry.Summary, Read(Encoding.UTF8.GetBytes(text))[0]["SUMMARY"]);
    }

    /// <summary>Europe's clocks go back on 26 October 2025 at 01:00 UTC; a library with the zone's rules reads the right local times on both sides.</summary>
    [Fact]
    public void SummerTimeChange_DoesNotMoveAnEvent()
    {
        ContactCalendar ours = ContactCalendar.Of("change", [new CalendarEntry("before", "before", At, At), new CalendarEntry("after", "after", At.AddHours(1), At.AddHours(1))], Stamp);
        Ical.Net.Calendar read = Ical.Net.Calendar.Load(ours.ToText())!;
        TimeZoneInfo oslo = TimeZoneInfo.FindSystemTimeZoneById("Europe/Oslo");
        DateTime[] local = [.. read.Events.OrderBy(e => e.DtStart!.AsUtc).Select(e => TimeZoneInfo.ConvertTimeFromUtc(e.DtStart!.AsUtc, oslo))];
        Assert.Equal(new DateTime(2025, 10, 26, 2, 30, 0), local[0]);
        Assert.Equal(new DateTime(2025, 10, 26, 2, 30, 0), local[1]);
        Assert.Equal(TimeSpan.FromHours(1), read.Events.Max(e => e.DtStart!.AsUtc) - read.Events.Min(e => e.DtStart!.AsUtc));
    }

    [Fact]
    public void NewVersion_KeepsUids_AndCancelsWhatIsGone()
    {
        ContactCalendar first = Ride(1, null, 6), second = Ride(2, first, 12);
        string text = second.ToText();
        CalendarEntry[] gone = [.. first.Entries.Where(e => second.Entries.All(x => x.Key != e.Key))];
        Assert.NotEmpty(gone);
        Assert.Equal(gone.Length, text.Split("STATUS:CANCELLED").Length - 1);
        Assert.Contains("SEQUENCE:2", text, StringComparison.Ordinal);
        Assert.Contains("UID:spinel-basin-20250419-alarm@soloride.invalid", text, StringComparison.Ordinal);
    }

    [Fact]
    [Checks(typeof(ContactCalendar), CheckKind.BadInput)]
    public void BadCalendars_SayWhatIsWrong()
    {
        var a = new CalendarEntry("a", "x", At, At);
        Assert.Throws<ArgumentException>(() => ContactCalendar.Of("no spaces here", [a], Stamp));
        Assert.Throws<ArgumentException>(() => ContactCalendar.Of("p", [], Stamp));
        Assert.Contains("'a'", Assert.Throws<ArgumentException>(() => ContactCalendar.Of("p", [a, a], Stamp)).Message, StringComparison.Ordinal);
        Assert.Contains("cannot replace", Assert.Throws<ArgumentException>(() => ContactCalendar.Of("p", [a], Stamp, 1, ContactCalendar.Of("p", [a], Stamp, 1))).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new CalendarEntry("Bad Key", "x", At, At));
        Assert.Throws<ArgumentException>(() => new CalendarEntry("a", "x", At, At.AddHours(-1)));
    }

    private static string Clean(string text)
        => string.Concat(text.ReplaceLineEndings("\n").EnumerateRunes().Where(r => r.Value is '\n' or '\t' || !Rune.IsControl(r)).Select(r => r.ToString()));

    // Unfold, split at the first colon outside quotes, unescape.
    private static List<Dictionary<string, string>> Read(byte[] bytes)
    {
        string[] lines = Encoding.UTF8.GetString(bytes).Replace("\r\n ", "", StringComparison.Ordinal).Split("\r\n");
        var events = new List<Dictionary<string, string>>();
        int depth = 0;
        foreach (string line in lines.Where(l => l.Length > 0))
        {
            int colon = line.IndexOf(':', StringComparison.Ordinal);
            string name = line[..colon].Split(';')[0], value = line[(colon + 1)..];
            if (name == "BEGIN")
            {
                depth++;
                if (value == "VEVENT")
                {
                    events.Add([]);
                }
            }
            else if (name == "END")
            {
                depth--;
            }
            else if (depth == 2)
            {
                events[^1][name] = Unescape(value);
            }
        }

        Assert.Equal(0, depth);
        return events;
    }

    private static string Unescape(string value)
    {
        var sb = new StringBuilder();
        for (int i = 0; i < value.Length; i++)
        {
            sb.Append(value[i] != '\\' ? value[i] : value[++i] is 'n' or 'N' ? '\n' : value[i]);
        }

        return sb.ToString();
    }
}
