using System.Globalization;
using System.Text;
using SoloRide.Internal;

namespace SoloRide.Planning;

public sealed partial record GroupPlan
{
    private const int LeastNameWidth = 24;
    private const int Width = 80;

    /// <summary>The roster to print: who rides, a box to tick for each at the start, at every stop and at the finish, and the times.</summary>
    /// <param name="people">Leaders and riders.</param>
    /// <param name="personal">Whether telephones, contacts and medical notes are printed; left out unless asked for. A sheet that holds them says how to treat it.</param>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>Text of 80 columns with line feeds, with the cautions.</returns>
    /// <exception cref="ArgumentException">Nobody, a name twice, or not as many people as the group has.</exception>
    public string ToRoster(IReadOnlyList<RosterEntry> people, PersonalData personal = PersonalData.LeftOut, PlanTextOptions? options = null)
    {
        Guard.Defined(personal);
        int leaders = Guard.NotNull(people).Count(p => p.IsLeader), riders = people.Count - leaders;
        if (leaders != Group.Leaders || riders != Group.Riders)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"people holds {riders} riders and {leaders} leaders; the group has {Group.Riders} riders and {Group.Leaders} leaders."), nameof(people));
        }

        if (people.GroupBy(p => p.Name, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException($"Two people are named '{twice.Key}': tell them apart.", nameof(people));
        }

        var u = new PlanUnits((options ?? PlanTextOptions.Default).Units);
        var b = new StringBuilder();
        b.Append("ROSTER  ").Append(Plan.Title).Append('\n').Append(Text.Date(Plan.Start)).Append(", start ").Append(Text.Clock(Plan.Start)).Append(" (").Append(Text.Offset(Plan.Start.Offset)).Append(")\n");
        TripPlan.Paragraph(b, $"{riders} riders, {leaders} leaders; count heads at every stop before riding on.");
        string[] stops = ["start", .. Regroups.Select((_, i) => string.Create(CultureInfo.InvariantCulture, $"stop {i + 1}")), "finish"];
        int boxes = stops.Length * 7;
        int nameWidth = Math.Clamp(people.Max(p => p.Name.Length) + 3, LeastNameWidth, Math.Max(LeastNameWidth, Width - boxes));
        b.Append('\n').Append("".PadRight(nameWidth)).AppendJoin(' ', stops.Select(s => s.PadRight(6))).Append('\n');
        foreach (RosterEntry p in people.OrderByDescending(p => p.IsLeader).ThenBy(p => p.Name, StringComparer.Ordinal))
        {
            // A name longer than its column stands on a line of its own: names are never cut.
            string name = (p.IsLeader ? "* " : "  ") + p.Name;
            b.Append(name.Length >= nameWidth ? name + "\n" + "".PadRight(nameWidth) : name.PadRight(nameWidth)).AppendJoin(' ', stops.Select(_ => "[ ]   "));
            if (p.Bike.Length > 0)
            {
                b.Append(nameWidth + boxes + p.Bike.Length <= Width ? " " : "\n    bike ").Append(p.Bike);
            }

            b.Append('\n');
            if (personal == PersonalData.Included)
            {
                string more = string.Join("; ", new[] { ("phone", p.Phone), ("call", p.Contact), ("medical", p.Medical) }.Where(x => x.Item2.Length > 0).Select(x => $"{x.Item1} {x.Item2}"));
                if (more.Length > 0)
                {
                    b.Append("    ").Append(more).Append('\n');
                }
            }
        }

        b.Append("* leads\n\n");
        for (int i = 0; i < Regroups.Count; i++)
        {
            TripPlan.Paragraph(b, string.Create(CultureInfo.InvariantCulture, $"Stop {i + 1}: {Regroups[i].Name}, {u.At(Regroups[i].AlongRoute.Meters)}, all there {PlanText.Range(Regroups[i].LastThere, Plan.Zone, Plan.Start)}."));
        }

        if (Plan.Finish is { } f)
        {
            TripPlan.Paragraph(b, $"Finish {PlanText.Range(f, Plan.Zone, Plan.Start)}.{(Plan.Home is { } h ? $" Call for help at {PlanText.ClockOn(Plan.Zone.ToLocal(h.Alarm), Plan.Start)} if nobody has heard." : "")}");
        }

        TripPlan.Paragraph(b, "Someone missing: stop, count, two go back along the line to the last stop, the others wait together in one place.");
        if (personal == PersonalData.Included)
        {
            TripPlan.Paragraph(b, "Holds personal and medical data: leaders only; destroy it when all are home.");
        }

        TripPlan.Paragraph(b, "Caution: " + Cautions.Text);
        return b.ToString();
    }
}
