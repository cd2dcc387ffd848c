using System.Globalization;
using System.Text;
using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>The plan of a group: the ride at the pace of its slowest, where all wait, who leads, what all share. A planning aid, not a guarantee.</summary>
/// <remarks>Immutable; a pure function of its inputs.</remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed partial record GroupPlan
{
    /// <summary>The group.</summary>
    public required RidingGroup Group { get; init; }

    /// <summary>The ride at the pace of the slowest, with the stops; water, food and salt are for each rider.</summary>
    public required RidePlan Plan { get; init; }

    /// <summary>Mean time of the slowest over that of the middle rider [factor].</summary>
    public required double SlowestFactor { get; init; }

    /// <summary>Where all wait, in order.</summary>
    public required IReadOnlyList<RegroupOutlook> Regroups { get; init; }

    /// <summary>Leaders that the ratio asks for.</summary>
    public required int LeadersNeeded { get; init; }

    /// <summary>Whether there are as many.</summary>
    public bool LeadersHold => Group.Leaders >= LeadersNeeded;

    /// <summary>Spares that all bikes share.</summary>
    public required IReadOnlyList<GroupSpare> Spares { get; init; }

    /// <summary>What concerns the group; the plan of the ride has its own.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>The group on a page, then the plan of the ride with the cautions.</summary>
    /// <param name="options">Units and length of the ride's plan; defaults when null.</param>
    /// <returns>Text of 80 columns with line feeds.</returns>
    public string ToText(PlanTextOptions? options = null)
    {
        var u = new PlanUnits((options ?? PlanTextOptions.Default).Units);
        IReadOnlyList<string> names = PlanUnits.Names(Plan);
        var b = new StringBuilder();
        Add("Group", $"{Group.Riders} riders, {Group.Leaders} {(Group.Leaders == 1 ? "leader" : "leaders")}; {Plan.Title}, {Text.Date(Plan.Start)}, start {Text.Clock(Plan.Start)}.");
        Add("Does it fit?", (LeadersHold ? "" : $"Too few leaders: {Group.Leaders} of {LeadersNeeded}. ") + Plan.Verdict.Sentence + (Plan.Verdict.Reasons.Count > 0 ? " " + string.Join(" ", Plan.Verdict.Reasons) : ""));
        Add("Leaders", $"{LeadersNeeded} asked for (one for {Group.RidersPerLeader}, at least {Group.LeastLeaders}), {Group.Leaders} there: {(LeadersHold ? "enough" : "too few")}.");
        Add("Pace", $"The group takes {Text.F((SlowestFactor - 1) * 100, 0)} % longer than its middle rider. Times below are those of the slowest; water, food and salt are for each rider.");
        foreach (RegroupOutlook r in Regroups)
        {
            Add("Wait", $"{r.Name} ({u.At(r.AlongRoute.Meters)}): the first about {PlanText.ClockOn(Plan.Zone.ToLocal(r.FirstThere), Plan.Start)}, the last about {PlanText.ClockOn(Plan.Zone.ToLocal(r.LastThere.Typical), Plan.Start)} ({PlanText.Range(r.LastThere, Plan.Zone, Plan.Start)}); the first wait {Text.Span(r.Wait)}: put something on.");
        }

        if (Spares.Count > 0)
        {
            Add("Spares for all", string.Join(", ", Spares.Select(s => string.Create(CultureInfo.InvariantCulture, $"{Words(s.Kind.ToString())} {s.Carry} ({s.ExpectedFactor:F1} expected, enough in {s.EnoughProbability * 100:F0} of 100{(s.FromLog ? "" : ", rate not from a log")})"))) + ".");
        }

        foreach (Finding f in Findings.Where(f => f.Severity >= FindingSeverity.Caution))
        {
            Add("Heed", f.Message);
        }

        return b.Append('\n').Append(Plan.ToText(options)).ToString();

        void Add(string label, string text) => PlanText.Paragraph(b, label, u.Words(text, names));
    }

    /// <summary>The plan as JSON, rounded per quantity so that it is the same bytes everywhere. Its schema is docs/schema/group.schema.json.</summary>
    /// <returns>JSON text.</returns>
    public string ToJson() => PlanJson.Write(this);

    /// <summary>The text of the group.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => ToText();

    private static string Words(string name) => string.Concat(name.Select((c, i) => char.IsUpper(c) ? (i > 0 ? " " : "") + char.ToLowerInvariant(c) : c.ToString()));
}
