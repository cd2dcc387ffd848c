namespace SoloRide.Batteries;

/// <summary>How long charging takes.</summary>
/// <param name="To80">To 80 % of the pack; null when it must not be charged. Stop here: about half the time, and the pack stays younger.</param>
/// <param name="ToFull">To the end of the taper; null when it must not be charged.</param>
/// <param name="Findings">Limits by temperature, assumptions.</param>
public sealed record ChargeTimes(Estimate<TimeSpan>? To80, Estimate<TimeSpan>? ToFull, IReadOnlyList<Finding> Findings)
{
    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = BatteriesCautions.Sentences;
}
