using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>What a pace model assumes; every value is named and may be set. Defaults are sourced in docs/modules/effort.md.</summary>
/// <remarks>Immutable.</remarks>
public sealed record PaceOptions
{
    /// <summary>What is left unused on purpose.</summary>
    public PaceReserve Reserve { get; init => field = Guard.NotNull(value, nameof(Reserve)); } = PaceReserve.None;

    /// <summary>Spread of moving time.</summary>
    public PaceSpread Spread { get; init => field = Guard.NotNull(value, nameof(Spread)); } = new();

    /// <summary>Time standing still.</summary>
    public StopHabit Stops { get; init => field = Guard.NotNull(value, nameof(Stops)); } = new();

    /// <summary>Pace on foot.</summary>
    public FootHabit Foot { get; init => field = Guard.NotNull(value, nameof(Foot)); } = new();

    /// <summary>Own pace learned from timed legs; null: priors.</summary>
    public PaceCalibration? Calibration { get; init; }

    /// <summary>One timed ride, for a rider who knows no figures.</summary>
    public TimedLeg? TimedRide { get; init; }

    /// <summary>How much the rider rides, for the prior.</summary>
    public RidingHabit Habit { get; init => field = Guard.Defined(value, nameof(Habit)); } = RidingHabit.Regular;

    /// <summary>Pedal power over metabolic power [share of 1, 0.13 to 0.26].</summary>
    [Source("moseley-jeukendrup-2001", "mean of 17 men")]
    public double GrossEfficiencyFraction { get; init => field = Guard.InRange(value, 0.13, 0.26, "(a share of 1)", nameof(GrossEfficiencyFraction)); } = 0.198;

    /// <summary>Wheel power over pedal power [share of 1, 0.8 to 1]; a small-cog or dirty drive.</summary>
    [Source("assumption-bike-priors", "drive")]
    public double DriveEfficiencyFraction { get; init => field = Guard.InRange(value, 0.8, 1, "(a share of 1)", nameof(DriveEfficiencyFraction)); } = 0.95;

    /// <summary>Slowest speed at which a bicycle balances on a trail; slower is walked. 0.5 to 3 m/s.</summary>
    [Source("assumption-ride-floor", "1.0 m/s")]
    public Speed SlowestRide { get => Speed.FromMetersPerSecond(SlowestRideMps); init => SlowestRideMps = Guard.InRange(value.MetersPerSecond, 0.5, 3, "m/s", nameof(SlowestRide)); }

    /// <summary>Loss of sustained power over ten hours, counted from the third hour on [share of 1, 0 to 0.5].</summary>
    [Source("neumayr-2004", "heart rate about -10 % per 10 h, taken for power")]
    [Source("linderman-2003", "level for two hours, then lower")]
    public double FadeTenHoursFraction { get; init => field = Guard.InRange(value, 0, 0.5, "(a share of 1)", nameof(FadeTenHoursFraction)); } = 0.10;

    /// <summary>Height the rider lives and trains at; sustained power is taken to hold there. -500 to 5 000 m.</summary>
    public Length HomeElevation { get => Length.FromMeters(HomeM); init => HomeM = Guard.InRange(value.Meters, -500, 5000, "m", nameof(HomeElevation)); }

    /// <summary>Loss of sustained power for each degree of air temperature above 23 °C [share of 1 per degree, 0 to 0.05].</summary>
    [Source("assumption-heat-derating", "-6 % at 32 against 23 C")]
    public double HeatLossPerDegreeFraction { get; init => field = Guard.InRange(value, 0, 0.05, "(a share of 1 per degree)", nameof(HeatLossPerDegreeFraction)); } = 0.0067;

    /// <summary>Technical speed caps by lamp, on those by day [factor, 0.2 to 1].</summary>
    [Source("assumption-night", "riding 0.6 to 0.85")]
    public double RideByLampFactor { get; init => field = Guard.InRange(value, 0.2, 1, "(factor)", nameof(RideByLampFactor)); } = 0.72;

    /// <summary>Pace on foot by lamp on a path, on that by day [factor, 0.2 to 1].</summary>
    [Source("assumption-night", "army planning rates: road 3.2 against 4.0 km/h, published rule WK5")]
    public double FootByLampFactor { get; init => field = Guard.InRange(value, 0.2, 1, "(factor)", nameof(FootByLampFactor)); } = 0.8;

    /// <summary>Pace on foot by lamp on rough ground, on that by day [factor, 0.2 to 1].</summary>
    [Source("assumption-night", "army planning rates: cross-country 1.6 against 2.5 km/h, published rule WK6")]
    public double FootByLampRoughFactor { get; init => field = Guard.InRange(value, 0.2, 1, "(factor)", nameof(FootByLampRoughFactor)); } = 0.64;

    /// <summary>Metabolic power on descents at least this many MET [MET, 1 to 12]: descending is not rest.</summary>
    [Source("assumption-descent-met", "4 to 6")]
    public double DescentMet { get; init => field = Guard.InRange(value, 1, 12, "MET", nameof(DescentMet)); } = 5;

    /// <summary>Metabolic power standing still [MET, 0.8 to 4].</summary>
    [Source("assumption-descent-met", "standing")]
    public double StandingMet { get; init => field = Guard.InRange(value, 0.8, 4, "MET", nameof(StandingMet)); } = 1.5;

    /// <summary>Caps to use instead of the priors, by difficulty; difficulties left out keep theirs.</summary>
    public IReadOnlyDictionary<TrailDifficulty, TechnicalCap> TechnicalCaps { get; init => field = Guard.NotNull(value, nameof(TechnicalCaps)); }
        = new Dictionary<TrailDifficulty, TechnicalCap>();

    internal double SlowestRideMps { get; init; } = 1.0;

    internal double HomeM { get; init; }

    internal TechnicalCap Cap(TrailDifficulty difficulty) => TechnicalCaps.TryGetValue(difficulty, out TechnicalCap? own) ? own : TrailPriors.Cap(difficulty);
}
