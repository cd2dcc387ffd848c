using System.Text;
using SoloRide.Escape;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Walk, wait or call: what the numbers say after trouble.</summary>
/// <remarks>It weighs hours, water, light and cold. It does not know the injury: in doubt call. Immutable.</remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record TroubleAdvice
{
    /// <summary>What happened, where and when.</summary>
    public required TroubleNews News { get; init; }

    /// <summary>The clock of the ride.</summary>
    public required ZoneOffsets Zone { get; init; }

    /// <summary>What the numbers speak for.</summary>
    public required TroubleChoice Choice { get; init; }

    /// <summary>Why, in one sentence.</summary>
    public required string Reason { get; init; }

    /// <summary>Ways out on foot, fastest first; empty when the rider cannot move or no way is known.</summary>
    public required IReadOnlyList<TroubleWay> Ways { get; init; }

    /// <summary>The wait, with its class.</summary>
    public required WaitingPlan Wait { get; init; }

    /// <summary>Whether there is a means to call that needs nobody near.</summary>
    public required Known CanCall { get; init; }

    /// <summary>Messages in the order in which to send them, each in the 7-bit alphabet, at most 160 characters.</summary>
    public required IReadOnlyList<string> Messages { get; init; }

    /// <summary>Darkness begins; null when it does not within a day.</summary>
    public DateTimeOffset? DarkFrom { get; init; }

    /// <summary>The advice in a few lines of 80 columns.</summary>
    /// <param name="options">Units; defaults when null.</param>
    /// <returns>Text with line feeds, with the cautions.</returns>
    public string ToText(PlanTextOptions? options = null)
    {
        var u = new PlanUnits((options ?? PlanTextOptions.Default).Units);
        var b = new StringBuilder();
        string what = News.Kind switch
        {
            TroubleKind.BikeDead => "bike dead, rider sound",
            TroubleKind.Injured => "hurt, can walk",
            _ => "cannot move",
        };
        PlanText.Paragraph(b, "Now", $"{Text.Clock(Zone.ToLocal(News.At))} at {u.At(News.AlongRoute.Meters)}: {what}.{(DarkFrom is { } d ? $" Dark from {PlanText.ClockOn(Zone.ToLocal(d), Zone.ToLocal(News.At))}." : "")}");
        PlanText.Paragraph(b, "Do", (Choice switch
        {
            TroubleChoice.Walk => "Tell home, then walk. ",
            TroubleChoice.Wait => "Call, stay and wait. ",
            TroubleChoice.CallThenWalk => "Call for help now, then walk. ",
            _ => "Call for help now. ",
        }) + u.Words(Reason, [.. Ways.Select(w => w.ExitName)]));
        foreach (TroubleWay w in Ways.Take(2))
        {
            string dark = w.Dark > TimeSpan.FromMinutes(5) ? $", {Text.Span(w.Dark)} of it in the dark" : " in daylight";
            string water = w.Water is { } l ? $"; takes {u.LitresUp(l.Liters)}{(w.Missing is { Liters: >= WaterPlan.CountedToL } s ? $", {u.Litres(s.Liters)} short" : "")}{(w.Lit ? "" : ", and no lamp for the dark")}" : "";
            PlanText.Paragraph(b, "Walk", $"{w.ExitName}: {u.Km(w.Distance.Meters)}, {Text.Span(w.Time.Typical)}{(w.Time.IsExact ? "" : $" (up to {Text.Span(w.Time.High)})")}, there {PlanText.ClockOn(Zone.ToLocal(w.Arrives), Zone.ToLocal(News.At))}{dark}{water}.");
        }

        string borne = Wait.Tolerable.Time is { } t ? $"can be borne {Text.Span(t)} ({LimitWords(Wait.Tolerable.Binding!)})" : "how long it can be borne is not known";
        PlanText.Paragraph(b, "Wait", $"Help assumed {Text.Span(Wait.Wait)} after a call: {Text.Span(Wait.Reaction)} until somebody acts, {Text.Span(Wait.Response)} response (class {Wait.Class}, no promise); {borne}; takes {u.LitresUp(Wait.WaterNeeded.Liters)} of water at rest{(Wait.Tolerable.Limits.Any(l => l.Name == "heat") ? ". Too hot to lose heat even in the shade: cool yourself, wet the clothes" : "")}.");
        PlanText.Paragraph(b, "Call", CanCall == Known.Yes ? "Messenger or beacon works from here if it sees the sky. Call for bleeding, a blow to the head, cold, heat illness, or when in doubt." : "Nothing is carried that reaches anybody from here: silence at home starts the help. Be seen and heard.");
        foreach (string m in Messages)
        {
            PlanText.Paragraph(b, "Send", m);
        }

        PlanText.Paragraph(b, "Caution", Cautions.Text);
        return PlanTextOptions.Shown(options, b.ToString());
    }

    /// <summary>What a limit of waiting stands for.</summary>
    internal static string LimitWords(string limit) => limit switch
    {
        "cold" => "cold, lying exhausted",
        "water" => "water in hand, then thirst up to 2 % of body mass",
        "heat" => "heat, even in the shade",
        _ => limit,
    };

    /// <summary>The advice as plain text.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => ToText();
}
