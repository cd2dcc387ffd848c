using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>What differs between two plans.</summary>
public static class PlanDifference
{
    /// <summary>Differences in words: verdict, length, finish, latest start, each margin, water at the start.</summary>
    /// <param name="before">The first plan.</param>
    /// <param name="after">The second plan.</param>
    /// <returns>One line a difference; empty when nothing that people read differs.</returns>
    public static IReadOnlyList<string> Between(RidePlan before, RidePlan after)
    {
        Guard.NotNull(before);
        Guard.NotNull(after);
        var lines = new List<string>();
        Add("verdict", Words(before.Verdict.Kind), Words(after.Verdict.Kind));
        Add("length", Text.F(before.Length.Kilometers, 1) + " km", Text.F(after.Length.Kilometers, 1) + " km");
        Add("ascent", before.Ascent is { } a ? Text.Thousands(a.Typical.Meters) + " m" : "unknown", after.Ascent is { } b ? Text.Thousands(b.Typical.Meters) + " m" : "unknown");
        Add("start", Text.Date(before.Start) + " " + Text.Clock(before.Start), Text.Date(after.Start) + " " + Text.Clock(after.Start));
        Add("finish", before.Finish is { } f ? PlanText.Range(f, before.Zone, before.Start) : "-", after.Finish is { } g ? PlanText.Range(g, after.Zone, after.Start) : "-");
        Add("latest start", Clock(before), Clock(after));
        foreach (PlanMargin m in before.Margins)
        {
            PlanMargin? n = after.Margins.FirstOrDefault(x => x.Kind == m.Kind && (x.Name == m.Name || after.Margins.Count(y => y.Kind == m.Kind) == 1));
            Add(m.Name, m.Amount, n?.Amount ?? "does not apply");
        }

        foreach (PlanMargin m in after.Margins.Where(m => before.Margins.All(x => x.Kind != m.Kind)))
        {
            Add(m.Name, "did not apply", m.Amount);
        }

        Add("water at the start", Water(before), Water(after));
        return lines;

        void Add(string what, string x, string y)
        {
            if (x != y)
            {
                lines.Add($"{what}: {x} -> {y}");
            }
        }

        static string Clock(RidePlan p) => p.LatestStart is { } t ? PlanText.ClockOn(p.Zone.ToLocal(t), p.Start) : "no clock";
        static string Water(RidePlan p) => p.Needs is { } n ? PlanUnits.Metric.LitresUp(n.Fills[0].FillTo.Liters) : "-";
    }

    internal static string Words(PlanVerdictKind kind) => kind switch
    {
        PlanVerdictKind.Fits => "it fits",
        PlanVerdictKind.FitsIf => "it fits on conditions",
        PlanVerdictKind.DoesNotFit => "it does not fit",
        _ => "not planned",
    };
}
