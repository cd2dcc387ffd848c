namespace SoloRide.Exposure;

/// <summary>Sentences that every result of this module carries beside <see cref="SoloRide.Cautions"/>.</summary>
internal static class ExposureCautions
{
    private const string Average = "The models describe healthy average adults at rest or steady work; a person can differ much.";

    public static IReadOnlyList<string> Heat { get; } =
    [
        Average,
        "Confusion, collapse, sweating that stops, or vomiting in the heat is an emergency: stop, cool, trigger the distress device.",
        "Drink to thirst and never more than is lost; drinking too much harms too.",
        "Illness, drugs, poor sleep, altitude and wet or heavy clothing are not in the model.",
        .. SoloRide.Cautions.Sentences,
    ];

    public static IReadOnlyList<string> Cold { get; } =
    [
        Average,
        "A duration limit is a limit of strain for a body that keeps making the stated heat; it does not say that a night is safe, nor how long a person lives.",
        "An exhausted person at rest makes less heat than assumed; wet clothing and lying on the ground take insulation away.",
        "Shivering that stops, confusion or stumbling is an emergency: shelter, insulate, trigger the distress device.",
        .. SoloRide.Cautions.Sentences,
    ];

    public static IReadOnlyList<string> WindChill { get; } =
    [
        "Wind chill is for a bare, dry face without sun; wet skin and metal cool faster.",
        "Published frostbite bands are for most people; some freeze earlier.",
        .. SoloRide.Cautions.Sentences,
    ];
}
