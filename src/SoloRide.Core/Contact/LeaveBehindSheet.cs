using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>
/// The sheet that is left at home: who, where, when, which silence means trouble, whom to call and what to say. Readable by somebody who has never been on a bicycle.
/// </summary>
/// <remarks>
/// Every time stands on the clock of the ride and, where it differs, on that of the contact, with the date, so that a change of day cannot be misread. Medical data
/// stay out unless the rider says so. Plain text fits 80 columns. Immutable. A planning aid: doubt means call early. Sources: nps-trip-plan, nz-intentions, landsar-list.
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(ShownFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record LeaveBehindSheet : IShown
{
    private const int Columns = 80;

    private readonly IReadOnlyList<Block> _blocks;

    private LeaveBehindSheet(SheetRequest request, IReadOnlyList<Block> blocks, IReadOnlyList<Finding> findings)
    {
        _blocks = blocks;
        Title = request.Title;
        Version = request.Version;
        OverdueTime = request.Schedule.OverdueTime;
        AlarmTime = request.Schedule.AlarmTime;
        Findings = findings;
        Checksum = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(Render(false, null))))[..8];
    }

    /// <summary>Name of the ride.</summary>
    public string Title { get; }

    /// <summary>Version of the plan.</summary>
    public int Version { get; }

    /// <summary>First eight hexadecimal digits of the SHA-256 of the text: two sheets with the same digits say the same.</summary>
    public string Checksum { get; }

    /// <summary>From here the rider is overdue.</summary>
    public DateTimeOffset OverdueTime { get; }

    /// <summary>When nothing has come by then, the contact calls.</summary>
    public DateTimeOffset AlarmTime { get; }

    /// <summary>What is missing or assumed.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Makes the sheet.</summary>
    /// <param name="request">What goes on it.</param>
    /// <returns>The sheet.</returns>
    [Source("nps-trip-plan", "fields; if not back by a time on a date, call an agency at a number: published rule TP1")]
    [Source("nz-intentions", "what the contact does")]
    [Source("landsar-list", "what to say when calling, published rule TP4")]
    public static LeaveBehindSheet Make(SheetRequest request)
    {
        Guard.NotNull(request);
        var findings = new List<Finding>();
        var clock = new Clocks(request);
        foreach (TrustedContact c in request.Contacts.Where(c => c.Zone is null))
        {
            findings.Add(new Finding(ContactFindingCodes.ZoneAssumed, FindingSeverity.Note, c.Name, "The contact's clock is not given: that of the ride is taken."));
        }

        if (clock.Differs(request.Schedule.First.Expected) || clock.Differs(request.Schedule.AlarmTime))
        {
            findings.Add(new Finding(ContactFindingCodes.OtherZone, FindingSeverity.Note, "contact", "A contact lives by another clock than the ride: times stand on both."));
        }

        if (request.PreparedAt is { } now && request.Schedule.AlarmTime < now)
        {
            findings.Add(new Finding(ContactFindingCodes.InThePast, FindingSeverity.Warning, "alarm time", $"The alarm time {clock.Of(request.Schedule.AlarmTime)} lies before the sheet was made."));
        }

        List<Block> blocks =
        [
            Summary(request, clock, findings),
            Messages(request, clock),
            Actions(request, clock),
            Script(request, clock),
            Who(request, findings),
            Route(request),
            Equipment(request, findings),
            Footer(request, clock),
        ];
        return new LeaveBehindSheet(request, blocks, findings);
    }

    /// <summary>The sheet as plain text.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => ToPlainText();

    /// <summary>Plain text of at most 80 columns.</summary>
    /// <param name="ascii">Whether letters outside ASCII are decomposed or become '?'.</param>
    /// <returns>The text, lines ended by a line feed.</returns>
    public string ToPlainText(bool ascii = false)
    {
        string text = Render(false, Checksum);
        return ascii ? Ascii(text) : text;
    }

    /// <summary>The same as Markdown.</summary>
    /// <returns>The text, lines ended by a line feed.</returns>
    public string ToMarkdown() => Render(true, Checksum);

    /// <summary>The same as one HTML page that prints in black and white: no script and no outside file.</summary>
    /// <returns>The document, lines ended by a line feed.</returns>
    public string ToHtml() => Html.Page(Title, ((IShown)this).ToHtmlPart(), onePage: true);

    /// <inheritdoc/>
    string IShown.ToHtmlPart()
    {
        var sb = new StringBuilder();
        for (int i = 0; i < _blocks.Count; i++)
        {
            Block block = _blocks[i];
            string tag = i == 0 ? "h1" : "h2";
            sb.Append('<').Append(tag).Append('>').Append(Html.Escape(block.Title)).Append("</").Append(tag).Append(">\n");
            bool terms = false, items = false;
            foreach (Line l in block.Lines)
            {
                bool term = l.Name.Length > 0;
                sb.Append(terms && !term ? "</dl>\n" : items && term ? "</ul>\n" : "");
                sb.Append(term && !terms ? "<dl>\n" : !term && !items ? "<ul>\n" : "");
                (terms, items) = (term, !term);
                if (term)
                {
                    Html.Term(sb, l.Name, l.Value);
                }
                else
                {
                    sb.Append("<li>").Append(Html.Escape(l.Value)).Append("</li>\n");
                }
            }

            sb.Append(terms ? "</dl>\n" : items ? "</ul>\n" : "");
        }

        return sb.Append("<p>Checksum ").Append(Checksum).Append("</p>\n").ToString();
    }

    /// <summary>Same content.</summary>
    /// <param name="other">The other sheet.</param>
    /// <returns>Whether they are equal.</returns>
    public bool Equals(LeaveBehindSheet? other) => other is not null && Checksum == other.Checksum && ToPlainText() == other.ToPlainText();

    /// <inheritdoc/>
    public override int GetHashCode() => Checksum.GetHashCode(StringComparison.Ordinal);

    private static Block Summary(SheetRequest r, Clocks clock, List<Finding> findings)
    {
        CheckInSchedule s = r.Schedule;
        var lines = new List<Line>
        {
            new("Rider", r.Rider.Name),
            new("Ride", r.Title),
            new("Leaves", clock.Of(s.First.Expected)),
            new("Back", $"usually by {clock.Of(s.Last.Expected)}"),
            new("OVERDUE AT", clock.Of(s.OverdueTime)),
            new("ALARM TIME", clock.Of(s.AlarmTime)),
        };
        string agency = "AN EMERGENCY SERVICE: NUMBER NOT GIVEN, FIND IT NOW";
        if (r.Emergency is { } e)
        {
            agency = $"{e.Agency} at {e.Number}" + (e.Jurisdiction is { Length: > 0 } j ? $" (in charge: {j})" : "");
        }
        else
        {
            findings.Add(new Finding(ContactFindingCodes.NoEmergencyNumber, FindingSeverity.Warning, "emergency number", "Agency and number to call are not given: the sheet has a gap. Find them for the place of the ride."));
        }

        lines.Add(new("If silent", $"nothing heard from {r.Rider.Name} by {clock.Of(s.AlarmTime)}: call {agency}, and read this sheet out."));
        return new("LEFT AT HOME: WHERE I AM AND WHEN TO CALL", lines);
    }

    private static Block Messages(SheetRequest r, Clocks clock)
    {
        List<Line> lines = [.. r.Schedule.CheckIns.Select(c => new Line(
            "",
            $"{clock.Short(c.Expected)}{(c.Due > c.Expected ? $", at the latest {clock.Short(c.Due)}" : "")}: {c.Name}{(c.CanPass == Known.No ? " (no message passes there; it comes later)" : "")}. If missing, act from {clock.Short(c.WatchFrom)}, call by {clock.Short(c.CallBy)}."))];
        return new("MESSAGES TO EXPECT", lines);
    }

    private static Block Actions(SheetRequest r, Clocks clock)
    {
        var lines = new List<Line>();
        lines.AddRange(r.Schedule.NormalSilence.Select(s => new Line("", $"Silence from {clock.Short(s.From)} to {clock.Short(s.To)} is normal: no message passes on '{s.Name}'.")));

        // The first sentences say the same on the clock of the ride alone.
        foreach (string s in r.Schedule.WhatSilenceMeans.Skip(r.Schedule.NormalSilence.Count))
        {
            lines.Add(new("", s));
        }

        foreach (EscalationStep step in r.Schedule.Phases)
        {
            string when = step.From is { } from ? $"from {clock.Of(from)}. " : "";
            string actions = string.Join(' ', step.Actions.Select((a, i) => string.Create(CultureInfo.InvariantCulture, $"({i + 1}) {a}")));
            lines.Add(new(step.Phase.ToString(), $"{when}{step.Trigger} {actions}"));
        }

        lines.Add(new("", "In doubt call early. The rider can correct every time by a message."));
        return new("WHAT SILENCE MEANS AND WHAT TO DO", lines);
    }

    private static Block Script(SheetRequest r, Clocks clock)
    {
        CheckInSchedule s = r.Schedule;
        List<Line> lines =
        [
            new("1", $"\"I report a lone mountain biker overdue: {r.Rider.Name}{(r.Rider.AgeYears is { } a ? string.Create(CultureInfo.InvariantCulture, $", {a} years old") : "")}.\""),
            new("2", $"Where: {r.Title}{(r.RouteText is { Length: > 0 } route ? $"; {route}" : "")}{(r.StartPlace is { } p ? $"; start at {Position(p)}" : "")}."),
            new("3", $"Left {clock.Of(s.First.Expected)}; overdue since {clock.Of(s.OverdueTime)}."),
            new("4", "Last message: read its time, its position and its words from your telephone."),
            new("5", $"Looks: {Or(Joined(r.Rider.Description, r.Rider.Clothing, r.Rider.HelmetAndPack, r.Rider.BikeDescription))}. Vehicle: {(r.Vehicle is { } v ? $"{v.Description}, {v.ParkedAt}" : "not given")}."),
            new("6", "What you have done so far to reach the rider, and when."),
            new("7", "Your own name and number. Ask for a reference and when they call back."),
        ];
        return new("WHEN YOU CALL, SAY", lines);
    }

    private static Block Who(SheetRequest r, List<Finding> findings)
    {
        RiderIdentity i = r.Rider;
        var lines = new List<Line>
        {
            Field("Phone", i.Phone, findings),
            Field("Age", i.AgeYears?.ToString(CultureInfo.InvariantCulture), findings),
            Field("Looks", i.Description, findings),
            Field("Clothing", i.Clothing, findings),
            Field("Helmet, pack", i.HelmetAndPack, findings),
            Field("Bike", i.BikeDescription, findings),
            Field("Experience", i.Experience, findings),
        };
        bool has = !string.IsNullOrWhiteSpace(i.Medical) || !string.IsNullOrWhiteSpace(i.Medicines);
        if (r.ShareMedical)
        {
            lines.Add(Field("Medical", i.Medical, findings));
            lines.Add(Field("Medicines", i.Medicines, findings));
        }
        else
        {
            lines.Add(new("Medical", "not on this sheet, at the rider's wish"));
            if (has)
            {
                findings.Add(new Finding(ContactFindingCodes.MedicalWithheld, FindingSeverity.Note, "medical", "Medical data are given and kept off the sheet; the rider did not say that they may be shared."));
            }
        }

        for (int n = 0; n < r.Contacts.Count; n++)
        {
            TrustedContact c = r.Contacts[n];
            lines.Add(new(string.Create(CultureInfo.InvariantCulture, $"Contact {n + 1}"), $"{c.Name}, {c.Phone}{(c.Zone is { } z ? $", clock {z.Id}" : "")}"));
        }

        lines.Add(new("Vehicle", r.Vehicle is { } v ? $"{v.Description}; parked at {v.ParkedAt}{(v.Place is { } p ? $", {Position(p)}" : "")}" : Missing("Vehicle", findings)));
        return new("WHO", lines);
    }

    private static Block Route(SheetRequest r)
    {
        var lines = new List<Line> { new("Planned", Or(r.RouteText)) };
        if (r.StartPlace is { } start)
        {
            lines.Add(new("Start", Position(start)));
        }

        lines.AddRange(r.Alternates.Select(a => new Line("Or", a)));
        lines.AddRange(r.Camps.Select(c => new Line("Camp", c)));
        foreach (ExitPoint e in r.Exits)
        {
            string along = e.AlongRoute is { } m ? $", km {Text.F(m.Kilometers, 1)}" : "";
            string phone = e.Phone switch { Known.Yes => ", telephone works", Known.No => ", no telephone", _ => "" };
            string car = e.PickUp switch { Known.Yes => ", a car can come", Known.No => ", no car can come", _ => "" };
            lines.Add(new("Way out", $"{e.Name} ({e.Kind.ToString().ToLowerInvariant()}){along}{(e.Place is { } p ? $", {Position(p)}" : "")}{phone}{car}"));
        }

        foreach (CheckIn c in r.Schedule.CheckIns.Where(c => c.Place is not null && c.Kind != CheckInKind.Clock))
        {
            lines.Add(new("Point", $"{c.Name}: {Position(c.Place!.Value)}"));
        }

        return new("WHERE", lines);
    }

    private static Block Equipment(SheetRequest r, List<Finding> findings)
    {
        CarriedForWaiting k = r.Carried;
        List<Line> lines =
        [
            .. r.Means.Select(m => new Line("Calls by", $"{CheckInPlanner.Means(m.Kind)}{(m.Address is { Length: > 0 } a ? $", {a}" : "")}{(m.BatteryLasts is { } b ? $", charge lasts {Text.Span(b)}" : ", charge not known")}{(m.AnswersBack ? "" : ", cannot answer")}")),
        ];
        if (lines.Count == 0)
        {
            lines.Add(new("Calls by", Missing("Means of calling", findings)));
        }

        lines.AddRange(
        [
            Field("Shelter", k.Shelter, findings), Field("Warmth", k.Warmth, findings), Field("Light", k.Light, findings), Field("Water", k.Water, findings),
            Field("Food", k.Food, findings), Field("First aid", k.FirstAid, findings), Field("Fire", k.Fire, findings),
        ]);
        return new("WITH THE RIDER", lines);
    }

    private static Block Footer(SheetRequest r, Clocks clock)
    {
        List<Line> lines =
        [
            new("Sharing", r.MayPassOn ? "You may pass this sheet on to rescuers." : "Ask the rider before you pass this sheet on; in an emergency tell rescuers what they need."),
            new("Version", string.Create(CultureInfo.InvariantCulture, $"{r.Version}{(r.PreparedAt is { } at ? $", made {clock.Of(at)}" : "")}. Throw away older versions.")),
            new("Caution", Cautions.Text),
        ];
        return new("ABOUT THIS SHEET", lines);
    }

    private static Line Field(string name, string? value, List<Finding> findings)
        => new(name, string.IsNullOrWhiteSpace(value) ? Missing(name, findings) : value.Trim());

    private static string Missing(string name, List<Finding> findings)
    {
        findings.Add(new Finding(ContactFindingCodes.FieldMissing, FindingSeverity.Note, name, $"'{name}' is not given; the sheet says so."));
        return "not given";
    }

    private static string Or(string? value) => string.IsNullOrWhiteSpace(value) ? "not given" : value.Trim();

    private static string Joined(params string?[] parts) => string.Join("; ", parts.Where(p => !string.IsNullOrWhiteSpace(p)).Select(p => p!.Trim()));

    private static string Position(GeoPoint p) => $"{DegreesMinutes.Format(p)} = {GridReference.Of(p).ToSpacedString()} (WGS 84)";

    private static string Ascii(string text)
    {
        var sb = new StringBuilder(text.Length);
        foreach (Rune rune in text.Normalize(NormalizationForm.FormKD).EnumerateRunes())
        {
            UnicodeCategory c = Rune.GetUnicodeCategory(rune);
            if (c is not (UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.Format))
            {
                sb.Append(rune.IsAscii ? (char)rune.Value : '?');
            }
        }

        return sb.ToString();
    }

    private static void Wrap(StringBuilder sb, string first, string rest, string text)
    {
        string line = first;
        bool empty = true;
        foreach (string w in text.Split((char[])[' ', '\n', '\r', '\t'], StringSplitOptions.RemoveEmptyEntries))
        {
            string word = w;
            if (!empty && line.Length + 1 + word.Length > Columns)
            {
                sb.Append(line.TrimEnd()).Append('\n');
                line = rest;
                empty = true;
            }

            while (line.Length + word.Length > Columns)
            {
                int room = Columns - line.Length;
                sb.Append(line).Append(word.AsSpan(0, room)).Append('\n');
                word = word[room..];
                line = rest;
            }

            line += (empty ? "" : " ") + word;
            empty = false;
        }

        sb.Append(line.TrimEnd()).Append('\n');
    }

    private string Render(bool markdown, string? checksum)
    {
        var sb = new StringBuilder();
        foreach (Block b in _blocks)
        {
            if (markdown)
            {
                sb.Append(sb.Length == 0 ? "# " : "## ").Append(b.Title).Append("\n\n");
                foreach (Line l in b.Lines)
                {
                    sb.Append("- ").Append(l.Name.Length == 0 ? "" : $"**{Escape(l.Name)}:** ").Append(Escape(l.Value)).Append('\n');
                }
            }
            else
            {
                sb.Append(b.Title).Append('\n');
                foreach (Line l in b.Lines)
                {
                    string head = l.Name.Length == 0 ? "- " : l.Name.Length < 14 ? (l.Name + ":").PadRight(15) : l.Name + ": ";
                    Wrap(sb, head, l.Name.Length == 0 ? "  " : new string(' ', 15), l.Value);
                }
            }

            sb.Append('\n');
        }

        if (checksum is not null)
        {
            sb.Append(markdown ? $"Checksum `{checksum}`\n" : $"Checksum {checksum}\n");
        }

        return sb.ToString();
    }

    private static string Escape(string text)
    {
        var sb = new StringBuilder();
        foreach (char c in text.ReplaceLineEndings(" "))
        {
            if (c is '*' or '_' or '`' or '<' or '>' or '[' or ']' or '\\' or '#' or '|')
            {
                sb.Append('\\');
            }

            sb.Append(c);
        }

        return sb.ToString();
    }

    private sealed record Line(string Name, string Value);

    private sealed record Block(string Title, IReadOnlyList<Line> Lines);

    /// <summary>A time on the ride's clock and, where they differ, on the contacts'; with two contacts of different clocks each is named.</summary>
    private sealed class Clocks(SheetRequest request)
    {
        public bool Differs(DateTimeOffset t) => Others(t).Any();

        public string Of(DateTimeOffset t)
            => Full(request.RideZone.ToLocal(t)) + string.Concat(Others(t).Select(o => $" = {Full(o.At)} where {(o.Names.Length > 0 ? o.Names + " is" : "you are")}"));

        public string Short(DateTimeOffset t)
        {
            DateTimeOffset a = request.RideZone.ToLocal(t);
            return $"{Text.Clock(a)} {Day(a)}" + string.Concat(Others(t).Select(o => $" [{(o.Names.Length > 0 ? o.Names : "yours")} {Text.Clock(o.At)} {Day(o.At)}]"));
        }

        // Clocks other than the ride's; no names where one clock holds for all contacts.
        private IEnumerable<(DateTimeOffset At, string Names)> Others(DateTimeOffset t)
        {
            TimeSpan ride = request.RideZone.OffsetAt(t);
            foreach (IGrouping<TimeSpan, TrustedContact> clock in request.Contacts.GroupBy(c => (c.Zone ?? request.RideZone).OffsetAt(t)))
            {
                if (clock.Key != ride)
                {
                    yield return (t.ToOffset(clock.Key), clock.Count() == request.Contacts.Count ? "" : clock.First().Name);
                }
            }
        }

        private static string Full(DateTimeOffset t) => $"{Text.Clock(t)} on {Text.Date(t)} ({Text.Offset(t.Offset)})";

        private static string Day(DateTimeOffset t) => t.AddSeconds(30).ToString("ddd d MMM", CultureInfo.InvariantCulture);
    }
}
