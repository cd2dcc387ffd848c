using UnitsNet;

namespace SoloRide.Escape;

/// <summary>Waiting for help: how long it takes, how long it can be borne, what must be carried for it.</summary>
/// <param name="Class">The class of response planned for.</param>
/// <param name="Detection">Until silence is noticed; zero when the rider calls.</param>
/// <param name="Reaction">Until the contact or the call centre acts.</param>
/// <param name="Response">Until help arrives after that: an assumption.</param>
/// <param name="Wait">All together, at worst.</param>
/// <param name="Tolerable">How long it can be borne.</param>
/// <param name="WaterNeeded">Water for the wait at rest.</param>
/// <param name="ChargeNeeded">Charge for the wait; null when the draw is not known.</param>
/// <param name="InsulationNeededClo">[clo] Insulation at rest, the air layer included, wind not counted; null when the air temperature is not known.</param>
/// <param name="LongestInterval">The longest check-in interval that keeps the wait tolerable when nobody is called; null when there is none.</param>
/// <param name="Findings">What a reader should know.</param>
public sealed record WaitingPlan(
    ResponseClass Class,
    DetectionDelay Detection,
    TimeSpan Reaction,
    TimeSpan Response,
    TimeSpan Wait,
    TolerableWait Tolerable,
    Volume WaterNeeded,
    Energy? ChargeNeeded,
    double? InsulationNeededClo,
    TimeSpan? LongestInterval,
    IReadOnlyList<Finding> Findings)
{
    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;
}
