using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>How a rider moves on foot: habitual pace, and the factors for pushing, carrying, injury and lamp light.</summary>
/// <remarks>
/// Pace on foot is the lower of the habitual pace for the grade (a percentile of recorded walkers) and what the sustained metabolic
/// power gives. No measured pace of pushing or carrying a bicycle was found: those factors are assumptions. Immutable.
/// </remarks>
[Source("assumption-foot-pace", "defaults of this type")]
public sealed record FootHabit
{
    /// <summary>Percentile of recorded users of trails on foot [1 to 25]; above about 15 they jog. 10 unless stated.</summary>
    public int WalkerPercentile { get; init => field = Guard.InRange(value, 1, 25, "(percentile)", nameof(WalkerPercentile)); } = 10;

    /// <summary>Fastest habitual walking speed whatever the percentile gives; 0.3 to 2.5 m/s.</summary>
    public Speed Fastest { get => Speed.FromMetersPerSecond(FastestMps); init => FastestMps = Guard.InRange(value.MetersPerSecond, 0.3, 2.5, "m/s", nameof(Fastest)); }

    /// <summary>Pushing on the level, on habitual walking speed [factor].</summary>
    public double PushLevelFactor { get; init => field = Guard.InRange(value, 0.05, 1, "(factor)", nameof(PushLevelFactor)); } = 0.85;

    /// <summary>Pushing at 15 % uphill and steeper [factor].</summary>
    public double PushSteepFactor { get; init => field = Guard.InRange(value, 0.05, 1, "(factor)", nameof(PushSteepFactor)); } = 0.6;

    /// <summary>Pushing at 5 % downhill and steeper [factor].</summary>
    public double PushDownFactor { get; init => field = Guard.InRange(value, 0.05, 1, "(factor)", nameof(PushDownFactor)); } = 0.95;

    /// <summary>Carrying on the level and downhill [factor].</summary>
    public double CarryLevelFactor { get; init => field = Guard.InRange(value, 0.05, 1, "(factor)", nameof(CarryLevelFactor)); } = 0.7;

    /// <summary>Carrying at 15 % uphill and steeper [factor].</summary>
    public double CarrySteepFactor { get; init => field = Guard.InRange(value, 0.05, 1, "(factor)", nameof(CarrySteepFactor)); } = 0.5;

    /// <summary>On foot with a hurt leg [factor].</summary>
    public double InjuredFactor { get; init => field = Guard.InRange(value, 0.05, 1, "(factor)", nameof(InjuredFactor)); } = 0.4;

    internal double FastestMps { get; init; } = 1.6;
}
