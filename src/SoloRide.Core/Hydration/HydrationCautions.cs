namespace SoloRide.Hydration;

/// <summary>Sentences that every result of this module carries beside <see cref="SoloRide.Cautions"/>.</summary>
internal static class HydrationCautions
{
    /// <summary>Of this module alone.</summary>
    public static IReadOnlyList<string> Own { get; } =
    [
        "The models describe healthy average adults; a person can differ much, and illness, drugs, altitude and wet clothing are not in them.",
        "Carry by the upper figure and drink to thirst: what is carried is not a dose to be drunk.",
        "Never drink more than is lost: drinking too much harms too, and salt does not make up for less water.",
        "Confusion, collapse, sweating that stops, vomiting or a gain in weight is an emergency: stop, get medical help, trigger the distress device.",
    ];

    /// <summary>With the general ones.</summary>
    public static IReadOnlyList<string> All { get; } = [.. Own, .. SoloRide.Cautions.Sentences];
}
