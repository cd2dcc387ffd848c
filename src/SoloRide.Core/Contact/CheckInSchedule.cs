using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>Which messages the contact expects, when silence means trouble, and what to do then.</summary>
/// <remarks>Immutable.</remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record CheckInSchedule
{
    internal CheckInSchedule()
    {
    }

    /// <summary>Longest time between messages after which help still comes within what the rider can stand; null when there is none.</summary>
    public required TimeSpan? LongestInterval { get; init; }

    /// <summary>The longest time between two messages that can pass, as planned.</summary>
    public required TimeSpan LongestSilence { get; init; }

    /// <summary>Time from a mishap until silence is noticed: mean over the longest silence.</summary>
    public required TimeSpan MeanDetection { get; init; }

    /// <summary>Time from a mishap until silence is noticed: at worst.</summary>
    public required TimeSpan WorstDetection { get; init; }

    /// <summary>Messages in order of time.</summary>
    public required IReadOnlyList<CheckIn> CheckIns { get; init; }

    /// <summary>Late finish plus grace: from here the rider is overdue.</summary>
    public required DateTimeOffset OverdueTime { get; init; }

    /// <summary>When nothing has come by then, the contact calls; always after <see cref="OverdueTime"/>.</summary>
    public required DateTimeOffset AlarmTime { get; init; }

    /// <summary>Grace that the times were worked out with.</summary>
    public required TimeSpan Grace { get; init; }

    /// <summary>What the contact does, phase by phase.</summary>
    public required IReadOnlyList<EscalationStep> Phases { get; init; }

    /// <summary>Stretches on which no message passes: silence there is normal; in order of time.</summary>
    public required IReadOnlyList<ContactStretch> NormalSilence { get; init; }

    /// <summary>Sentences for the contact: which silence is normal, which is not.</summary>
    public required IReadOnlyList<string> WhatSilenceMeans { get; init; }

    /// <summary>What the reader should know.</summary>
    public required IReadOnlyList<Finding> Findings { get; init; }

    /// <summary>First message.</summary>
    public CheckIn First => CheckIns[0];

    /// <summary>The message that says "back".</summary>
    public CheckIn Last => CheckIns[^1];

    /// <summary>The next message expected after an instant; null when none is left.</summary>
    /// <param name="instant">The instant.</param>
    /// <returns>The message.</returns>
    public CheckIn? NextAfter(DateTimeOffset instant) => CheckIns.FirstOrDefault(c => c.Expected > instant);

    /// <summary>Overdue and alarm time, the messages, what silence means, findings and cautions; times with their offset from UTC.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
    {
        List<string> lines =
        [
            $"Overdue at {At(OverdueTime)}; alarm time {At(AlarmTime)}.",
            $"Silence lasts at most {Text.Span(LongestSilence)}{(LongestInterval is { } most ? $"; help comes in time after at most {Text.Span(most)}" : "; no interval is short enough")}.",
            .. CheckIns.Select(c => $"{At(c.Expected)}: {c.Name}; at the latest {At(c.Due)}, call by {At(c.CallBy)}{(c.CanPass == Known.No ? " (no message passes there; it comes later)" : "")}"),
            .. WhatSilenceMeans,
        ];
        return Render.Lines(string.Join('\n', lines), Findings, Cautions.Sentences);
    }

    private static string At(DateTimeOffset t) => $"{Text.Clock(t)} on {Text.Date(t)} ({Text.Offset(t.Offset)})";
}
