namespace SoloRide.Batteries;

/// <summary>What a printed runtime is worth.</summary>
public enum RuntimeVerdict
{
    /// <summary>None is printed.</summary>
    NonePrinted,

    /// <summary>It fits the pack at the printed output.</summary>
    Plausible,

    /// <summary>Longer than the pack can hold the printed output: the lamp steps down, and most of that time is dimmer.</summary>
    OnlyDimmer,

    /// <summary>Stated as constant output, and more than the pack holds even at 200 lm/W: do not plan on it.</summary>
    Refused,
}
