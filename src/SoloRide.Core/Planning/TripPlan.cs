using System.Globalization;
using System.Text;
using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>A ride of several days, day by day. A planning aid, not a guarantee.</summary>
/// <remarks>Immutable; a pure function of its request.</remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record TripPlan
{
    /// <summary>Name of the ride.</summary>
    public required string Title { get; init; }

    /// <summary>The days in order; empty when no split exists or the route has no heights, with a finding.</summary>
    public required IReadOnlyList<TripDay> Days { get; init; }

    /// <summary>Time on the way of the largest day at the typical pace, as small as the camps allow.</summary>
    public required TimeSpan LargestDay { get; init; }

    /// <summary>Moving time of all days together, P10 to P90: a slow rider is slow on every day, so the range is that of days that share their factor; null without days.</summary>
    public Estimate<TimeSpan>? Moving { get; init; }

    /// <summary>The gravest verdict of all days.</summary>
    public required PlanVerdictKind Verdict { get; init; }

    /// <summary>What concerns the trip as a whole: camps, nights, rest. Each day's plan has its own.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>The trip on a page: a line a day, then what to heed and the cautions.</summary>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>Text of 80 columns with line feeds.</returns>
    public string ToText(PlanTextOptions? options = null)
    {
        var u = new PlanUnits((options ?? PlanTextOptions.Default).Units);
        string[] names = [.. Days.SelectMany(d => PlanUnits.Names(d.Plan)).Concat(Days.Select(d => d.Stage.Camp?.Name ?? "")).Append(Title).Where(n => n.Length > 1).Distinct(StringComparer.Ordinal).OrderByDescending(n => n.Length).ThenBy(n => n, StringComparer.Ordinal)];
        var b = new StringBuilder();
        b.Append(Title.ToUpperInvariant()).Append('\n');
        if (Days.Count == 0)
        {
            Paragraph(b, "No plan: " + string.Join(" ", Findings.Where(f => f.Severity == FindingSeverity.Refusal).Select(f => u.Words(f.Message, names))));
            Paragraph(b, "Caution: " + Cautions.Text);
            return b.ToString();
        }

        Paragraph(b, $"{Days.Count} days; largest {Text.Span(LargestDay)} on the way at the typical pace. Moving in all {Text.Span(Moving!.Low)} to {Text.Span(Moving.High)}.");
        b.Append(CultureInfo.InvariantCulture, $"\nday {u.DistanceUnit,-11} start  arrive         load   food   water daylight night\n");
        foreach (TripDay d in Days)
        {
            string arrive = d.Plan.Finish is { } f ? PlanText.Range(f, d.Plan.Zone, d.Plan.Start) : "-";
            string night = d.Stage.Camp is null ? "" : d.NightLow is { } low ? u.Temperature(low.DegreesCelsius) + (d.TooCold ? " too cold" : "") : "not known";
            string line = string.Create(CultureInfo.InvariantCulture, $"{d.Number,3} {u.KmShort(d.Stage.From.Meters),5}-{u.KmShort(d.Stage.To.Meters),-5} {Text.Clock(d.Plan.Start)}  {arrive,-11} {u.Mass(d.Carried.Kilograms),7} {u.Mass(d.FoodCarried.Kilograms),6} {u.LitresUp(d.WaterAtStart.Liters),7} {(d.Daylight is { } l ? Text.Span(l) : "-"),-8} {night}");
            b.Append(line.TrimEnd()).Append('\n');
        }

        foreach (TripDay d in Days)
        {
            string camp = d.Stage.Camp is { } c ? $"to {c.Name}" : "to the finish";
            string moved = d.StartMoved > TimeSpan.Zero ? $" Starts {Text.Span(d.StartMoved)} later than asked for: the day before may end late." : "";
            string reasons = d.Plan.Verdict.Reasons.Count > 0 ? " " + u.Words(string.Join(" ", d.Plan.Verdict.Reasons), names) : "";
            string bring = d.BringToCamp is { } w ? $" Arrive with {u.LitresUp(w.Liters)}: no known water there." : "";
            string charge = d.ChargeAtStart.Count > 0 ? " Charge at the start: " + string.Join(", ", d.ChargeAtStart.Select(x => $"{x.Name} {Text.F(x.Left.Percent, 0)} %")) + "." : "";
            string limits = d.Plan.Binding is { } m ? u.Words($" Limits: {m.Name}: {m.Amount}.", names) : "";
            b.Append('\n');
            Paragraph(b, $"Day {d.Number} {camp}:{moved} {u.Words(d.Plan.Verdict.Sentence, names)}{reasons}{limits} Food {Text.Thousands(d.Food.Kilocalories)} kcal.{bring}{charge}{(d.Rest is { } r ? $" Night after a late arrival {Text.Span(r)}." : "")}");
        }

        Finding[] heed = [.. Findings.Where(f => f.Severity >= FindingSeverity.Caution)];
        if (heed.Length > 0)
        {
            b.Append('\n');
            Paragraph(b, "Heed: " + string.Join(" ", heed.Select(f => $"{f.Subject}: {u.Words(f.Message, names)}")));
        }

        b.Append('\n');
        Paragraph(b, "Caution: " + Cautions.Text);
        return b.ToString();
    }

    /// <summary>The plan as JSON, rounded per quantity so that it is the same bytes everywhere. Its schema is docs/schema/trip.schema.json.</summary>
    /// <returns>JSON text.</returns>
    public string ToJson() => PlanJson.Write(this);

    /// <summary>The text of the trip.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => ToText();

    internal static void Paragraph(StringBuilder b, string text)
    {
        const int width = 80;
        int line = 0;
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line > 0 && line + 1 + word.Length > width)
            {
                b.Append('\n');
                line = 0;
            }

            b.Append(line > 0 ? " " : "").Append(word);
            line += word.Length + (line > 0 ? 1 : 0);
        }

        b.Append('\n');
    }
}
