namespace SoloRide.Batteries;

/// <summary>The cautions of this module, one text in one place.</summary>
internal static class BatteriesCautions
{
    public static IReadOnlyList<string> Sentences { get; } =
    [
        .. SoloRide.Cautions.Sentences,
        "A charge that lasts is a probability, never a promise.",
        "Never charge cells below 0 C, nor a damaged, swollen or wet cell.",
        "The carrier's rules decide what may fly.",
        "A distress beacon must be registered and its battery in date.",
    ];
}
