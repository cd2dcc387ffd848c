using System.Text;
using SoloRide.Batteries;
using SoloRide.Contact;
using SoloRide.Escape;
using SoloRide.Internal;

namespace SoloRide.Planning;

/// <content>Short outputs for the evening before and for the trailhead: each is read in ten seconds.</content>
public sealed partial record RidePlan
{
    /// <summary>The evening before: charge, fill, pack, tell home, check.</summary>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>A few lines of 80 columns, with the cautions.</returns>
    public string ToEveningList(PlanTextOptions? options = null)
    {
        PlanUnits u = Units(options);
        IReadOnlyList<string> names = PlanUnits.Names(this);
        var b = new StringBuilder();
        Add("Tomorrow", $"{Title}: {Text.Date(Start)}, start {Text.Clock(Start)}, {PlanDifference.Words(Verdict.Kind)}{(LatestStart is { } l ? $"; latest start {PlanText.ClockOn(Zone.ToLocal(l), Start)}" : "")}.");
        if (PowerPlan is { } power)
        {
            foreach (IGrouping<EveningAction, EveningCheck> group in power.EveningChecks.GroupBy(c => c.Action).OrderBy(g => g.Key))
            {
                string label = group.Key switch
                {
                    EveningAction.Charge => "Charge",
                    EveningAction.Replace => "Replace",
                    EveningAction.Pack => "Power, pack",
                    EveningAction.Set => "Set",
                    _ => "Try out",
                };
                Add(label, string.Join(" ", group.Select(c => Sentence(c.Text))));
            }
        }

        if (Needs is { } n)
        {
            Add("Fill", $"{u.LitresUp(n.Fills[0].FillTo.Liters)} of water; {Text.Thousands((n.Food + n.FoodReserve).Kilocalories)} kcal of food.");
        }

        string[] kit = [.. Carry.Skip(Needs is null ? 0 : 3).Select(i => i.Name)];
        if (kit.Length > 0)
        {
            Add("Pack", string.Join(", ", kit) + ".");
        }

        if (Home is { } h)
        {
            Add("Sheet", $"Give it to your contact tonight: back {PlanText.Range(h.Back, Zone, Start)}, late at {PlanText.ClockOn(Zone.ToLocal(h.Overdue), Start)}, call at {PlanText.ClockOn(Zone.ToLocal(h.Alarm), Start)}.");
        }

        string[] heed = [.. Findings.Where(f => f.Severity >= FindingSeverity.Warning).Select(f => f.Message)];
        if (heed.Length > 0)
        {
            Add("Heed", string.Join(" ", heed));
        }

        if (NotChecked.Count > 0)
        {
            Add("Check still", string.Join(", ", NotChecked) + ".");
        }

        Add("Caution", Cautions.Text);
        return PlanTextOptions.Shown(options, b.ToString());

        void Add(string label, string text) => PlanText.Paragraph(b, label, u.Words(text, names));
    }

    /// <summary>At the trailhead: go or not with today's forecast, what limits, which times to keep, and what is new since the plan before.</summary>
    /// <param name="before">The plan of the evening before; null when there was none.</param>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>A few lines of 80 columns, with the cautions.</returns>
    public string ToTrailheadNote(RidePlan? before = null, PlanTextOptions? options = null)
    {
        PlanUnits u = Units(options);
        IReadOnlyList<string> names = PlanUnits.Names(this);
        var b = new StringBuilder();
        Add("Go?", (Verdict.Kind switch
        {
            PlanVerdictKind.Fits => "The numbers fit. ",
            PlanVerdictKind.FitsIf => "Only with what follows. ",
            PlanVerdictKind.DoesNotFit => "Not as planned. ",
            _ => "Not planned. ",
        }) + (Verdict.Kind == PlanVerdictKind.Fits ? Verdict.Sentence : Verdict.Reasons.Count > 0 ? string.Join(" ", Verdict.Reasons.Take(3)) : Verdict.Sentence));
        if (Binding is { } m)
        {
            Add("Limit", $"{char.ToUpperInvariant(m.Name[0])}{m.Name[1..]}: {m.Amount}.");
        }

        if (LatestStart is { } l)
        {
            PlanStation? turn = Stations.Where(s => s.Kind is not StationKind.Start and not StationKind.Finish && (s.TurnAround ?? s.LatestPass) is not null && s.Name != "-").MinBy(s => Math.Abs((s.AlongRoute - (Length / 2)).Meters));

            // The earlier of the two: later than the latest pass the way on no longer holds.
            DateTimeOffset? by = turn is null ? null : turn.LatestPass < turn.TurnAround || turn.TurnAround is null ? turn.LatestPass : turn.TurnAround;
            Add("Times", $"Leave by {PlanText.Latest(l, this)}.{(turn is not null && by is { } t ? $" At {turn.Name} ({u.At(turn.AlongRoute.Meters)}) be past, or turn back, by {PlanText.Latest(t, this)}." : "")}{(Finish is { } f ? $" Back {PlanText.Range(f, Zone, Start)}." : "")}");
        }

        if (before is not null)
        {
            IReadOnlyList<string> news = PlanDifference.Between(before, this);
            Add("New", news.Count == 0 ? "Nothing since the plan before." : string.Join("; ", news.Take(3)) + ".");
        }

        if (Home is { CheckIns.Count: > 0 } h)
        {
            Add("Send", $"Now: leaving. Next {PlanText.ClockOn(Zone.ToLocal(h.CheckIns[Math.Min(1, h.CheckIns.Count - 1)].At), Start)}.");
        }

        string[] heed = [.. Heed()];
        if (heed.Length > 0)
        {
            Add("Heed", string.Join(" ", heed));
        }

        Add("Caution", Cautions.Text);
        return PlanTextOptions.Shown(options, b.ToString());

        void Add(string label, string text) => PlanText.Paragraph(b, label, u.Words(text, names));
    }

    /// <summary>Warnings that no margin tells already: a wait too long and bottles too small are named once, where the amount stands.</summary>
    internal IEnumerable<string> Heed()
    {
        bool wait = Margins.Any(m => m is { Kind: MarginKind.Wait, Holds: false }), water = Margins.Any(m => m is { Kind: MarginKind.Water, Holds: false, AfterTrouble: false });
        return Findings
            .Where(f => f.Severity >= FindingSeverity.Warning
                && !(wait && f.Code is (EscapeFindingCodes.WaitShort or ContactFindingCodes.NoInterval))
                && !(water && f.Code == PlanningFindingCodes.CapacityShort))
            .Select(f => f.Message);
    }

    private static string Sentence(string text) => text.EndsWith('.') ? text : text + ".";
}
