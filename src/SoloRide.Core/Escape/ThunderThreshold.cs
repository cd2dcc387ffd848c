using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>How long after a flash thunder may come before the rider must make for shelter.</summary>
/// <remarks>
/// The published rule acts at 30 s. A rider who needs long to reach shelter needs a longer lead: (danger distance + storm speed × time to
/// shelter) / speed of sound. The rule does not cover the first strike; hearing thunder on a ridge is already a reason to leave it. Sources:
/// <c>lightning-30-30</c>, <c>lightning-safety-nps</c>, <c>assumption-lightning</c>. Immutable.
/// </remarks>
[Entry]
public sealed record ThunderThreshold
{
    private ThunderThreshold(double thresholdS, double soundMps, IReadOnlyList<Finding> findings)
    {
        FlashToBang = TimeSpan.FromSeconds(thresholdS);
        StormDistance = Length.FromMeters(thresholdS * soundMps);
        IsAudible = StormDistance <= AudibleDistance;
        Findings = findings;
    }

    /// <summary>Act when the time from flash to thunder is this long or shorter.</summary>
    public TimeSpan FlashToBang { get; }

    /// <summary>Distance of the storm then.</summary>
    public Length StormDistance { get; }

    /// <summary>Whether thunder is heard at all from that far; if not, the decision must come from the forecast, not from the ear.</summary>
    public bool IsAudible { get; }

    /// <summary>How far thunder is heard, about.</summary>
    public static Length AudibleDistance => Length.FromMeters(StormKernel.HeardMiles * StormKernel.MileM);

    /// <summary>How long to stay in shelter after the last thunder.</summary>
    public static TimeSpan WaitAfterLastThunder => TimeSpan.FromMinutes(StormKernel.WaitMinutes);

    /// <summary>What a reader should know.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;

    /// <summary>The threshold of a rider; never below the published 30 s.</summary>
    /// <param name="toShelter">Time to lower, less exposed ground or shelter; zero or more. Take a high quantile.</param>
    /// <param name="stormSpeed">How fast the storm comes nearer; zero or more.</param>
    /// <param name="air">Air temperature, -60 to 60 °C; null for 10 °C.</param>
    /// <param name="danger">Distance within which a strike is dangerous; null for 10 km.</param>
    /// <returns>The threshold.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static ThunderThreshold For(TimeSpan toShelter, Speed stormSpeed, Temperature? air = null, Length? danger = null)
    {
        double airC = Guard.InRange(air?.DegreesCelsius ?? 10, -60, 60, "C", nameof(air));
        double sound = StormKernel.SoundMps(airC);
        double own = StormKernel.ThresholdS(
            Guard.Positive(danger?.Meters ?? StormKernel.DangerM, "m", nameof(danger)),
            Guard.NotNegative(stormSpeed.MetersPerSecond, "m/s", nameof(stormSpeed)),
            Guard.NotNegative(toShelter, nameof(toShelter)).TotalSeconds,
            sound);
        double threshold = Math.Max(own, StormKernel.ActSeconds);
        var findings = new List<Finding>
        {
            new(
                EscapeFindingCodes.FirstStrike,
                FindingSeverity.Caution,
                "thunder",
                "Counting from flash to thunder does not cover the first strike: leave ridges, summits and lone tall objects at the first thunder, earlier when clouds build."),
        };
        if (threshold * sound > StormKernel.HeardMiles * StormKernel.MileM)
        {
            findings.Add(new Finding(
                EscapeFindingCodes.ThunderUnheard,
                FindingSeverity.Warning,
                "thunder",
                $"Shelter is so far that the storm must be noticed at {Text.F(threshold * sound / 1000, 1)} km, farther than thunder is heard: decide by the forecast's clock, not by ear.",
                new FindingValue("distance_m", Text.F(threshold * sound, 0))));
        }

        return new ThunderThreshold(threshold, sound, findings);
    }

    /// <summary>Distance of a strike from the time between flash and thunder.</summary>
    /// <param name="flashToBang">Zero or more.</param>
    /// <param name="air">Air temperature, -60 to 60 °C; null for 10 °C.</param>
    /// <returns>The distance.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value outside its range.</exception>
    public static Length StrikeDistance(TimeSpan flashToBang, Temperature? air = null)
        => Length.FromMeters(Guard.NotNegative(flashToBang).TotalSeconds * StormKernel.SoundMps(Guard.InRange(air?.DegreesCelsius ?? 10, -60, 60, "C", nameof(air))));
}
