namespace SoloRide.Escape;

/// <summary>The cautions of this module, one text in one place.</summary>
internal static class EscapeCautions
{
    public static IReadOnlyList<string> Sentences { get; } =
    [
        .. SoloRide.Cautions.Sentences,
        "When in doubt call early: help takes hours.",
        "Local rules, the emergency number, licensed guides and medical people come before any figure here.",
        "Times until help arrives are assumptions, not promises.",
        "The counting rule for thunder does not cover the first strike.",
    ];
}
