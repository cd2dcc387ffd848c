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
    /// <returns>Text of 80 columns with line feeds.</returns>
    public string ToText()
    {
        var b = new StringBuilder();
        b.Append(Title.ToUpperInvariant()).Append('\n');
        if (Days.Count == 0)
        {
            Paragraph(b, "No plan: " + string.Join(" ", Findings.Where(f => f.Severity == FindingSeverity.Refusal).Select(f => f.Message)));
            Paragraph(b, "Caution: " + Cautions.Text);
            return b.ToString();
        }

        Paragraph(b, $"{Days.Count} days; largest {Text.Span(LargestDay)} on the way at the typical pace. Moving in all {Text.Span(Moving!.Low)} to {Text.Span(Moving.High)}.");
        b.Append("\nday  km           start  arrive        load  food   water daylight night\n");
        foreach (TripDay d in Days)
        {
            string arrive = d.Plan.Finish is { } f ? PlanText.Range(f, d.Plan.Zone, d.Plan.Start) : "-";
            string night = d.Stage.Camp is null ? "" : d.NightLow is { } low ? Text.F(low.DegreesCelsius, 0) + " C" + (d.TooCold ? " too cold" : "") : "not known";
            b.Append(CultureInfo.InvariantCulture, $"{d.Number,3}  {Text.F(d.Stage.From.Kilometers, 1),5}-{Text.F(d.Stage.To.Kilometers, 1),-5}  {Text.Clock(d.Plan.Start)}  {arrive,-12} {Text.F(d.Carried.Kilograms, 1),4} kg {Text.F(d.FoodCarried.Kilograms, 1),3} kg {Text.F(d.WaterAtStart.Liters, 1),4} L {(d.Daylight is { } l ? Text.Span(l) : "-"),-8} {night}\n");
        }

        foreach (TripDay d in Days)
        {
            string camp = d.Stage.Camp is { } c ? $"to {c.Name}" : "to the finish";
            string bring = d.BringToCamp is { } w ? $" Arrive with {Text.F(w.Liters, 1)} L: no known water there." : "";
            string charge = d.ChargeAtStart.Count > 0 ? " Charge at the start: " + string.Join(", ", d.ChargeAtStart.Select(x => $"{x.Name} {Text.F(x.Left.Percent, 0)} %")) + "." : "";
            string limits = d.Plan.Binding is { } m ? $" Limits: {m.Name}: {m.Amount}." : "";
            b.Append('\n');
            Paragraph(b, $"Day {d.Number} {camp}: {d.Plan.Verdict.Sentence}{limits} Food {Text.Thousands(d.Food.Kilocalories)} kcal.{bring}{charge}{(d.Rest is { } r ? $" Night after a late arrival {Text.Span(r)}." : "")}");
        }

        Finding[] heed = [.. Findings.Where(f => f.Severity >= FindingSeverity.Caution)];
        if (heed.Length > 0)
        {
            b.Append('\n');
            Paragraph(b, "Heed: " + string.Join(" ", heed.Select(f => $"{f.Subject}: {f.Message}")));
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
