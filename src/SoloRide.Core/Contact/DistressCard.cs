using System.Globalization;
using System.Text;
using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>The card for the worst hour: what to have ready, which means to use in which order, what follows, and signals that need no battery.</summary>
/// <remarks>
/// Common practice, no source: after a call for help the centre asks back, a mistaken alarm is cancelled by saying so, silence counts as need and sends help. The
/// emergency number is an input and never guessed. Immutable. Sources: alpine-signal, icao-annex-12, practice-distress.
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record DistressCard
{
    private DistressCard(IReadOnlyList<string> ready, IReadOnlyList<string> order, IReadOnlyList<string> follows, IReadOnlyList<Finding> findings)
    {
        HaveReady = ready;
        OrderOfMeans = order;
        WhatFollows = follows;
        Findings = findings;
    }

    /// <summary>Signals of sound, light, ground and body.</summary>
    [Source("alpine-signal", "six a minute; reply three a minute")]
    [Source("icao-annex-12", "appendix, ground to air")]
    public static IReadOnlyList<DistressSignal> Signals { get; } =
    [
        new(SignalKind.SoundOrLight, "alpine distress", "help needed", "6 signals in 1 minute (every 10 s), pause 1 minute, repeat"),
        new(SignalKind.SoundOrLight, "alpine reply", "signal seen", "3 signals in 1 minute (every 20 s), pause 1 minute, repeat"),
        new(SignalKind.SoundOrLight, "North American distress", "help needed", "groups of 3, pause 1 minute, repeat"),
        new(SignalKind.GroundToAir, "V", "require assistance", "letters at least 2.5 m, high contrast"),
        new(SignalKind.GroundToAir, "X", "require medical assistance", "letters at least 2.5 m, high contrast"),
        new(SignalKind.GroundToAir, "N", "no or negative", "letters at least 2.5 m, high contrast"),
        new(SignalKind.GroundToAir, "Y", "yes or affirmative", "letters at least 2.5 m, high contrast"),
        new(SignalKind.GroundToAir, "arrow", "proceeding in this direction", "letters at least 2.5 m, high contrast"),
        new(SignalKind.AirToGround, "rock wings (day)", "message understood", ""),
        new(SignalKind.AirToGround, "flash landing or navigation lights (night)", "message understood", ""),
        new(SignalKind.Body, "both arms raised (Y)", "yes / need help", ""),
        new(SignalKind.Body, "one arm up one arm down (N)", "no / no help needed", ""),
    ];

    /// <summary>What to have ready before calling.</summary>
    public IReadOnlyList<string> HaveReady { get; }

    /// <summary>Means in the order of use, each with what it needs.</summary>
    public IReadOnlyList<string> OrderOfMeans { get; }

    /// <summary>What happens after the call.</summary>
    public IReadOnlyList<string> WhatFollows { get; }

    /// <summary>What is missing.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Makes the card.</summary>
    /// <param name="means">What there is to call with; at least one.</param>
    /// <param name="emergency">Number; null leaves a gap that is said.</param>
    /// <returns>The card.</returns>
    /// <exception cref="ArgumentException">No means at all.</exception>
    [Source("practice-distress", "the centre asks back; cancel by saying so; silence counts as need")]
    public static DistressCard Make(IReadOnlyList<CommunicationMeans> means, EmergencyCall? emergency)
    {
        if (Guard.NotNull(means).Count == 0)
        {
            throw new ArgumentException("A distress card needs at least one means of calling.", nameof(means));
        }

        var findings = new List<Finding>();
        string number = emergency is { } e ? $"{e.NumberOnTheTrail ?? e.Number} ({e.Agency})" : "THE EMERGENCY NUMBER: NOT GIVEN, WRITE IT HERE BEFORE YOU RIDE ______";
        if (emergency is null)
        {
            findings.Add(new Finding(ContactFindingCodes.NoEmergencyNumber, FindingSeverity.Warning, "emergency number", "The number to call is not given: the card has a gap. Find it for the place of the ride."));
        }

        string[] ready =
        [
            "Where: grid at 10 m and degrees with minutes, WGS 84; time of the fix.",
            "Who: how many people, names, ages.",
            "What: what happened and when; can you move; bleeding, breathing, head, cold.",
            "Around: ground, canopy, weather, wind; where a helicopter could land.",
            "At hand: water, food, warmth, shelter, light, charge.",
            "Next: when you will call or look again.",
        ];
        List<string> order = [];
        foreach (CommunicationMeans m in means.OrderBy(m => m.Kind switch { MeansKind.Telephone => 0, MeansKind.SatelliteMessenger => 1, MeansKind.DistressBeacon => 2, _ => 3 }))
        {
            string charge = m.BatteryLasts is { } b ? $" Charge lasts {Text.Span(b)}." : "";
            order.Add(m.Kind switch
            {
                MeansKind.Telephone => $"Telephone, when it has signal: call {number}. No signal: try once from higher ground if you can move safely; then spare its charge.{charge}",
                MeansKind.SatelliteMessenger => $"Satellite messenger: open sky, lay it flat, wait for the answer; answer every question. Needs its subscription.{charge}",
                MeansKind.DistressBeacon => $"Distress beacon, when life is in danger: works alone, no subscription, nobody answers. Open sky, antenna up; leave it on until you are found.{charge}",
                _ => $"Radio{(m.Address is { Length: > 0 } a ? $", {a}" : "")}: works only when somebody listens in reach.{charge}",
            });
        }

        order.Add("Always: whistle, light, mirror, bright colour; they need nobody's network.");
        string[] follows =
        [
            "The centre asks back. Answer, even with one word: it decides what is sent.",
            "Sent by mistake? Say so at once and stay reachable; do not just switch off.",
            "Silence after a call for help counts as need: help is sent.",
            "Stay where you are, make yourself seen, keep warm, keep the device in the open.",
            "When help is coming is not known. Be ready for the night.",
        ];
        return new DistressCard(ready, order, follows, findings);
    }

    /// <summary>The card as plain text.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => ToPlainText();

    /// <summary>The card as plain text.</summary>
    /// <returns>Text, lines ended by a line feed.</returns>
    public string ToPlainText()
    {
        var sb = new StringBuilder();
        List("HAVE READY", HaveReady);
        List("CALL, IN THIS ORDER", OrderOfMeans);
        List("WHAT FOLLOWS", WhatFollows);
        List("SIGNALS", [.. Signals.Select(s => $"{s.Name}: {s.Meaning}{(s.Pattern.Length > 0 ? $" ({s.Pattern})" : "")}")]);
        sb.Append(Cautions.Text).Append('\n');
        return sb.ToString();

        void List(string title, IReadOnlyList<string> lines)
        {
            sb.Append(title).Append('\n');
            for (int i = 0; i < lines.Count; i++)
            {
                sb.Append(CultureInfo.InvariantCulture, $"{i + 1}. {lines[i]}\n");
            }

            sb.Append('\n');
        }
    }
}
