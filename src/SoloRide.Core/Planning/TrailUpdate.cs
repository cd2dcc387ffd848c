using System.Text;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A plan made anew on the trail, and what changed.</summary>
/// <param name="Plan">The plan of what is left; its distances count from the rider's place.</param>
/// <param name="PaceFactor">Today's moving time over the planned one, with its range; above 1 is slower.</param>
/// <param name="News">What changed, most pressing first.</param>
/// <param name="Message">A short message for home, in the 7-bit alphabet, at most 160 characters.</param>
public sealed record TrailUpdate(RidePlan Plan, Estimate<Ratio> PaceFactor, IReadOnlyList<string> News, string Message)
{
    /// <summary>On the trail: late or not, go on or turn, the next way out, what to send.</summary>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>A few lines of 80 columns, with the cautions.</returns>
    public string ToText(PlanTextOptions? options = null)
    {
        var u = new PlanUnits((options ?? PlanTextOptions.Default).Units);
        IReadOnlyList<string> names = PlanUnits.Names(Plan);
        var b = new StringBuilder();
        Add("Now", string.Join(" ", News.Take(2)));
        if (Plan.Verdict.Kind == PlanVerdictKind.Refused)
        {
            Add("On?", Plan.Verdict.Sentence + " " + string.Join(" ", Plan.Verdict.Reasons));
            Add("Send", Message);
            Add("Caution", Cautions.Text);
            return b.ToString();
        }

        Add("On?", Plan.Verdict.Kind switch
        {
            PlanVerdictKind.Fits => Plan.Verdict.Sentence,
            PlanVerdictKind.FitsIf => "Only with what follows: " + string.Join(" ", Plan.Verdict.Reasons.Take(2)),
            _ => "Do not go on as planned: " + string.Join(" ", Plan.Verdict.Reasons.Take(2)),
        });
        if (Plan.Stations.Skip(1).FirstOrDefault(s => s.LatestPass is not null && s.Name != "-") is { LatestPass: { } last } next)
        {
            Add("Times", $"Pass {next.Name} ({u.Km(next.AlongRoute.Meters)} on) by {PlanText.Latest(last, Plan)}.{(Plan.Finish is { } f ? $" Back {PlanText.Range(f, Plan.Zone, Plan.Start)}." : "")}");
        }

        string water = Plan.Margins.FirstOrDefault(m => m is { Kind: MarginKind.Water, AfterTrouble: false }) is { } w ? $" Water: {w.Amount}." : "";
        PlanStation here = Plan.Stations[0];
        Add("Out", here.WayOut is { } way ? $"{(way < TimeSpan.FromMinutes(2) ? $"{here.WayOutTo} is here" : $"On foot {Text.Span(way)} to {here.WayOutTo}")}; next way out ridden: {NextOut()}.{water}" : $"Next way out ridden: {NextOut()}.{water}");
        if (Plan.Findings.FirstOrDefault(f => f.Code == PlanningFindingCodes.WaterGuessed) is { } guessed)
        {
            Add("Look", guessed.Message);
        }

        Add("Send", Message);
        Add("Caution", Cautions.Text);
        return PlanTextOptions.Shown(options, b.ToString());

        void Add(string label, string text) => PlanText.Paragraph(b, label, label == "Send" ? text : u.Words(text, names));
        string NextOut() => Plan.Stations.Skip(1).FirstOrDefault(s => s.Kind is StationKind.Exit or StationKind.Finish) is { } exit
            ? $"{exit.Name}, {u.Km(exit.AlongRoute.Meters)}, there {PlanText.Range(exit.Arrival, Plan.Zone, Plan.Start)}"
            : "none known";
    }
}
