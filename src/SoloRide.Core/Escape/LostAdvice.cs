using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>What to do when lost: our words, after the advice of a county search-and-rescue agency.</summary>
/// <remarks>Source: <c>mono-county-sar</c>. Local advice and the instructions of those who answer the emergency call come first.</remarks>
public static class LostAdvice
{
    /// <summary>The sentences, in order.</summary>
    [Source("mono-county-sar", "if lost, how to be found")]
    public static IReadOnlyList<string> Sentences { get; } =
    [
        "Stop. Eat and drink something and look at the map for some minutes before moving.",
        "Think back: when were you last sure where you were, and what have you passed since?",
        "Look around for a ridge, stream, path or road that you can find on the map.",
        "Make one plan and keep to it. If the last sure place is near, go back to it by the way you came.",
        "If going back does not show where you are, stay put near your planned line: it is searched first.",
        "Whistle, in threes, at regular times; be seen: bright cloth in the open, a lamp at night.",
        "Call early, while there is charge and daylight, and send your position if any device shows one.",
        "Get warm and dry before dark; do not wander on by night.",
    ];
}
