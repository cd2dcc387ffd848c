using UnitsNet;

namespace SoloRide.Planning;

/// <summary>One of several plans side by side.</summary>
/// <param name="Name">Its name.</param>
/// <param name="Plan">The plan.</param>
public sealed record PlanAlternative(string Name, RidePlan Plan);

/// <summary>Plans side by side, drawn with common random numbers, so that differences are not noise.</summary>
/// <param name="Alternatives">In the order given.</param>
public sealed record PlanComparison(IReadOnlyList<PlanAlternative> Alternatives)
{
    /// <summary>The alternative with the best verdict, then the largest least margin. One that its forecast does not cover is taken only when none is covered.</summary>
    public PlanAlternative Best => Alternatives.OrderBy(a => Uncovered(a.Plan)).ThenBy(a => a.Plan.Verdict.Kind).ThenByDescending(a => Least(a.Plan)).First();

    /// <summary>What differs between two alternatives, in words, one line a difference.</summary>
    /// <param name="first">Index of the first.</param>
    /// <param name="second">Index of the second.</param>
    /// <returns>Lines.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No such alternative.</exception>
    public IReadOnlyList<string> Difference(int first, int second)
    {
        Internal.Guard.InRange(first, 0, Alternatives.Count - 1, "(index)");
        Internal.Guard.InRange(second, 0, Alternatives.Count - 1, "(index)");
        return PlanDifference.Between(Alternatives[first].Plan, Alternatives[second].Plan);
    }

    /// <summary>Days before: which route, day or direction, in a line each, and the change that helps most where levers were asked for.</summary>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>A few lines of 80 columns, with the cautions.</returns>
    public string ToText(PlanTextOptions? options = null)
    {
        var u = new PlanUnits((options ?? PlanTextOptions.Default).Units);
        var b = new System.Text.StringBuilder();
        PlanAlternative best = Best;
        foreach (PlanAlternative a in Alternatives)
        {
            RidePlan p = a.Plan;
            PlanText.Paragraph(b, a.Name, u.Words(Line(p), PlanUnits.Names(p)));
        }

        string bestLine = Line(best.Plan);
        PlanAlternative[] equal = [.. Alternatives.Where(a => Line(a.Plan) == bestLine)];
        bool[] bare = [.. Alternatives.Select(a => Uncovered(a.Plan))];
        string why = best.Plan.Verdict.Kind == PlanVerdictKind.DoesNotFit ? "the least bad; none fits as planned" : "the best verdict, then the most in hand";
        string note = bare.All(x => x) && bare.Length > 0 ? " No forecast reaches it: compare again when one does." : bare.Any(x => x) ? " What no forecast covers is not compared." : "";
        PlanText.Paragraph(b, "Take", Alternatives.Count == 1 ? best.Name + "."
            : equal.Length > 1 ? $"{string.Join(" or ", equal.Select(a => a.Name))}: equal in all that is told here{(equal.Length < Alternatives.Count ? ", and better than the rest" : "")}.{note}"
            : $"{best.Name}: {why}.{note}");
        if (best.Plan.Levers.FirstOrDefault(l => l.GainFraction > 0) is { } lever)
        {
            PlanText.Paragraph(b, "Change", u.Words($"{char.ToUpperInvariant(lever.Sentence[0])}{lever.Sentence[1..]}.", PlanUnits.Names(best.Plan)));
        }

        if (best.Plan.NotChecked.Count > 0)
        {
            PlanText.Paragraph(b, "Check still", string.Join(", ", best.Plan.NotChecked) + ".");
        }

        PlanText.Paragraph(b, "Caution", Cautions.Text);
        return PlanTextOptions.Shown(options, b.ToString());
    }

    private static string Line(RidePlan p)
    {
        string limit = p.Binding is { } m ? $" Least in hand: {m.Name}: {m.Amount}." : "";
        string times = p.Finish is { } f ? $" Back {PlanText.Range(f, p.Zone, p.Start)}{(p.LatestStart is { } l ? $", latest start {PlanText.ClockOn(p.Zone.ToLocal(l), p.Start)}" : "")}." : "";
        string words = PlanDifference.Words(p.Verdict.Kind);
        string forecast = Finding(p, PlanningFindingCodes.ForecastShort) is { } f2 ? " " + f2.Message : Finding(p, PlanningFindingCodes.NoForecast) is null ? "" : " No forecast is given.";
        return $"{char.ToUpperInvariant(words[0])}{words[1..]}.{limit}{times}{forecast}";
    }

    private static Finding? Finding(RidePlan p, string code) => p.Findings.FirstOrDefault(f => f.Code == code);

    private static bool Uncovered(RidePlan p) => p.Findings.Any(f => f.Code is PlanningFindingCodes.ForecastShort or PlanningFindingCodes.NoForecast);

    private static double Least(RidePlan plan) => plan.Margins.Count > 0 ? plan.Margins.Min(m => m.InHandFraction) : double.NegativeInfinity;
}
