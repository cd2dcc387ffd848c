using UnitsNet;

namespace SoloRide.Escape;

/// <summary>What a way out takes.</summary>
/// <param name="AlongRoute">From where.</param>
/// <param name="Time">Time out at the quantile asked for; null when there is no way out, and nothing suffices.</param>
/// <param name="InTheDark">The part of it without usable daylight.</param>
/// <param name="Amounts">What is used, one for each kind that has a rate.</param>
/// <param name="WalkingInsulationClo">[clo] Insulation to stay warm while walking slowly, the air layer included, wind and wet not counted; null without a temperature.</param>
/// <param name="StandingInsulationClo">[clo] Insulation to stay warm while standing still; null without a temperature.</param>
public sealed record WalkOutNeeds(
    Length AlongRoute, TimeSpan? Time, TimeSpan InTheDark, IReadOnlyList<ResourceAmount> Amounts, double? WalkingInsulationClo, double? StandingInsulationClo)
{
    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;
}
