using System.Globalization;
using System.Text;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Cut-offs, releases and counts of a small event.</summary>
/// <remarks>Planning figures for an organiser; permits, insurance and medical cover are the organiser's own. Immutable.</remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record EventPlan
{
    /// <summary>Name of the ride.</summary>
    public required string Title { get; init; }

    /// <summary>The clock of the place.</summary>
    public required ZoneOffsets Zone { get; init; }

    /// <summary>Number of riders.</summary>
    public required int Riders { get; init; }

    /// <summary>Checkpoints in order, the finish last.</summary>
    public required IReadOnlyList<EventCutOff> Checkpoints { get; init; }

    /// <summary>Punctures to expect in the whole field: riders times distance times rate.</summary>
    public required double ExpectedPuncturesFactor { get; init; }

    /// <summary>Time of a middle rider to the finish.</summary>
    public required TimeSpan MiddleTime { get; init; }

    /// <summary>What must be settled; listed, not judged.</summary>
    public required IReadOnlyList<string> Papers { get; init; }

    /// <summary>The plan of a middle rider of the first wave.</summary>
    public required RidePlan Plan { get; init; }

    /// <summary>One page for the organiser, 80 columns.</summary>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>Text with line feeds, with the cautions.</returns>
    public string ToText(PlanTextOptions? options = null)
    {
        var u = new PlanUnits((options ?? PlanTextOptions.Default).Units);
        var b = new StringBuilder();
        PlanText.Wrap(b, string.Create(CultureInfo.InvariantCulture, $"{Title.ToUpperInvariant()}: {Riders} riders; a middle rider takes {Text.Span(MiddleTime)}"), 80);
        b.Append('\n');
        int name = Math.Clamp(Checkpoints.Max(c => c.Name.Length), 10, 26);
        b.Append(CultureInfo.InvariantCulture, $"{u.DistanceUnit,6}  {"checkpoint".PadRight(name)}  first  cut-off by wave           release\n");
        foreach (EventCutOff c in Checkpoints)
        {
            string waves = string.Join(" ", c.ByWave.Select(w => Text.Clock(w.CutOff)));
            b.Append(CultureInfo.InvariantCulture, $"{u.KmShort(c.AlongRoute.Meters),6}  {(c.Name.Length > name ? c.Name[..name] : c.Name.PadRight(name))}  {Text.Clock(c.FirstRider)}  {waves,-24}  {Text.Clock(c.Release)}\n");
        }

        b.Append('\n');
        PlanText.Paragraph(b, "Punctures", $"about {Text.F(ExpectedPuncturesFactor, 0)} in the whole field.");
        PlanText.Paragraph(b, "Release", "People at a checkpoint go when the last cut-off is past and every rider is counted through, back, or fetched.");
        PlanText.Paragraph(b, "Settle", string.Join("; ", Papers) + ".");
        PlanText.Paragraph(b, "Caution", Cautions.Text);
        return PlanTextOptions.Shown(options, b.ToString());
    }

    /// <summary>The page as text.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => ToText();
}
