namespace SoloRide.Kit;

/// <summary>The cautions of this module, one text in one place.</summary>
internal static class KitCautions
{
    public static IReadOnlyList<string> Sentences { get; } =
    [
        .. SoloRide.Cautions.Sentences,
        "What fails is not known, and no kit is complete: coverage holds for the failures listed, at the rates stated.",
        "A repair counts only if you have done it before.",
        "The makers' limits for tyre, rim, brake and bolts win.",
    ];
}
