namespace SoloRide;

/// <summary>The cautions that every rendering of a result carries: one text, in one place.</summary>
public static class Cautions
{
    /// <summary>The sentences, in order.</summary>
    public static IReadOnlyList<string> Sentences { get; } =
    [
        "Planning aid, not a guarantee.",
        "Weather, water, light and body can be worse than assumed.",
        "Local rules, closures and fire bans come first.",
        "In an emergency call or trigger the distress device.",
        "Medical questions: a doctor.",
    ];

    /// <summary>The whole text on one line.</summary>
    public static string Text { get; } = string.Join(' ', Sentences);
}
