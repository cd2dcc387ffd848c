using System.Globalization;
using System.Text;
using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>A message of one burst: at most 160 septets of the 7-bit alphabet.</summary>
/// <remarks>
/// Characters outside the alphabet are decomposed or become '?'. When there is not room for all, the rider's name is cut first, then the place, then what is
/// needed, then what happened; times, coordinates and numbers never. A call for help carries the grid at 10 m and degrees with decimal minutes, both WGS 84.
/// Immutable. Sources: 3gpp-23.038, us-nsarc-2007.
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record StatusMessage
{
    private StatusMessage(MessageKind kind, string text, bool cut, IReadOnlyList<Finding> findings)
    {
        Kind = kind;
        Body = text;
        WasCut = cut;
        Findings = findings;
    }

    /// <summary>What it says.</summary>
    public MessageKind Kind { get; }

    /// <summary>The text, in the 7-bit alphabet.</summary>
    public string Body { get; }

    /// <summary>Septets that it takes; at most 160.</summary>
    public int Septets => GsmKernel.Septets(Body);

    /// <summary>Whether a name or a text was cut.</summary>
    public bool WasCut { get; }

    /// <summary>What the reader should know.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Writes a message.</summary>
    /// <param name="request">What it says.</param>
    /// <returns>The message.</returns>
    /// <exception cref="ArgumentException">A call for help without a position.</exception>
    public static StatusMessage Compose(MessageRequest request)
    {
        Guard.NotNull(request);
        if (request.Kind == MessageKind.Distress && request.Position is null)
        {
            throw new ArgumentException("A call for help needs a position.", nameof(request));
        }

        List<Part> parts = Parts(request);
        bool replaced = false;
        for (int i = 0; i < parts.Count; i++)
        {
            string folded = Collapse(GsmKernel.Fold(parts[i].Text, out bool r));
            replaced |= r;
            parts[i] = parts[i] with { Text = folded };
        }

        bool cut = Fit(parts);
        var findings = new List<Finding>();
        if (cut)
        {
            findings.Add(new Finding(ContactFindingCodes.MessageCut, FindingSeverity.Caution, request.Kind.ToString(), "Names or words were cut to fit the message into one burst of 160 characters."));
        }

        if (replaced)
        {
            findings.Add(new Finding(ContactFindingCodes.MessageReplaced, FindingSeverity.Note, request.Kind.ToString(), "Characters that the 7-bit alphabet lacks were written as '?'."));
        }

        return new StatusMessage(request.Kind, Join(parts), cut, findings);
    }

    /// <summary>Same kind and text.</summary>
    /// <param name="other">The other message.</param>
    /// <returns>Whether they are equal.</returns>
    public bool Equals(StatusMessage? other) => other is not null && Kind == other.Kind && Body == other.Body;

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Kind, Body);

    /// <summary>The text.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Body;

    private static List<Part> Parts(MessageRequest r)
    {
        string time = $"{Text.Clock(r.SentAt)} {Text.Offset(r.SentAt.Offset)}";
        var p = new List<Part>();
        switch (r.Kind)
        {
            case MessageKind.Start: Fixed($"START {time}"); break;
            case MessageKind.OnTheWay: Fixed($"OK {time}"); break;
            case MessageKind.LateButFine: Fixed($"LATE BUT FINE {time}"); break;
            case MessageKind.Camp: Fixed($"CAMP OK {time}"); break;
            case MessageKind.Back: Fixed($"BACK OK {time}"); break;
            case MessageKind.WalkingOut: Fixed($"WALKING OUT OK {time}"); break;
            case MessageKind.NotAsPlanned: Fixed($"NOT AS PLANNED {time}"); break;
            default: Fixed($"HELP {time}"); break;
        }

        Cuttable(r.RiderName, 0);
        if (r.Kind == MessageKind.Distress)
        {
            Fixed(string.Create(CultureInfo.InvariantCulture, $"{r.People} person{(r.People == 1 ? "" : "s")}"));
            Cuttable(r.What, 3);
            Fixed($"{GridReference.Of(r.Position!.Value)} {Minutes(r.Position.Value)} WGS84 fix {Clock(r.FixAt ?? r.SentAt, r)}");
            Cuttable(r.PlaceName, 1);
            Cuttable(r.Needs, 2);
        }
        else
        {
            Cuttable(r.What, 3);
            if (r.Kind == MessageKind.WalkingOut)
            {
                Cuttable(r.PlaceName is { Length: > 0 } exit ? "to " + exit : null, 1);
            }
            else
            {
                Cuttable(r.PlaceName is { Length: > 0 } place ? "at " + place : null, 1);
            }

            if (r.WayLeft is { } way)
            {
                Fixed($"{Text.F(way.Kilometers, 1)} km left");
            }

            if (r.Position is { } position)
            {
                Fixed(Minutes(position) + (r.FixAt is { } fix ? $" fix {Clock(fix, r)}" : ""));
            }

            Cuttable(r.Needs, 2);
        }

        if (r.EndEarly is { } early)
        {
            string word = r.Kind == MessageKind.WalkingOut ? "out" : "back";
            Fixed(r.EndLate is { } late && late != early ? $"{word} {Clock(early, r)}-{Clock(late, r)}" : $"{word} {Clock(early, r)}");
        }
        else if (r.EndLate is { } late)
        {
            Fixed($"{(r.Kind == MessageKind.WalkingOut ? "out" : "back")} by {Clock(late, r)}");
        }

        if (r.Next is { } next)
        {
            Fixed($"next {Clock(next, r)}");
        }

        if (r.CallBy is { } call && r.Kind != MessageKind.Distress)
        {
            Fixed($"call by {Clock(call, r)}");
        }

        if (r.Battery is { } battery)
        {
            Fixed($"bat {Text.F(battery.Percent, 0)}%");
        }

        return p;

        void Fixed(string text) => p.Add(new Part(text, -1));

        void Cuttable(string? text, int order)
        {
            if (!string.IsNullOrWhiteSpace(text))
            {
                p.Add(new Part(text.Trim(), order));
            }
        }
    }

    // HH:mm, with day and month when it is not the day of sending.
    private static string Clock(DateTimeOffset t, MessageRequest r)
    {
        DateTimeOffset local = t.ToOffset(r.SentAt.Offset);
        DateTimeOffset rounded = local.AddSeconds(30), sent = r.SentAt.AddSeconds(30);
        return rounded.Date == sent.Date ? Text.Clock(local) : $"{rounded.ToString("dMMM", CultureInfo.InvariantCulture)} {Text.Clock(local)}";
    }

    private static string Minutes(GeoPoint p) => DegreesMinutes.Format(p).Replace(", ", " ", StringComparison.Ordinal).Replace(" N", "N", StringComparison.Ordinal)
        .Replace(" S", "S", StringComparison.Ordinal).Replace(" E", "E", StringComparison.Ordinal).Replace(" W", "W", StringComparison.Ordinal);

    private static bool Fit(List<Part> parts)
    {
        bool cut = false;
        for (int order = 0; order <= 3; order++)
        {
            int over = Length(parts) - GsmKernel.BurstSeptets;
            if (over <= 0)
            {
                break;
            }

            int i = parts.FindIndex(x => x.Order == order && x.Text.Length > 0);
            if (i < 0)
            {
                continue;
            }

            cut = true;
            int left = GsmKernel.Septets(parts[i].Text) - over;
            string shorter = left > 0 ? GsmKernel.Cut(parts[i].Text, left) : "";

            // One or two letters of a name say nothing.
            parts[i] = parts[i] with { Text = shorter.Length < 3 ? "" : shorter };
        }

        return cut;
    }

    private static int Length(List<Part> parts) => GsmKernel.Septets(Join(parts));

    private static string Join(List<Part> parts)
    {
        var sb = new StringBuilder();
        Part? before = null;
        foreach (Part p in parts.Where(x => x.Text.Length > 0))
        {
            sb.Append(before is null ? "" : before.Order < 0 && p.Order < 0 ? " " : ", ").Append(p.Text);
            before = p;
        }

        return sb.ToString();
    }

    private static string Collapse(string text) => string.Join(' ', text.Split(' ', StringSplitOptions.RemoveEmptyEntries));

    private sealed record Part(string Text, int Order);
}
