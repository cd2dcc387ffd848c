using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>
/// The factors behind <see cref="EscapePace.For"/>. No published speed for pushing or carrying a bicycle was found: these are assumptions,
/// shown so that the rider's own log can replace them.
/// </summary>
/// <remarks>Each factor multiplies the speed on foot on the same ground. Immutable.</remarks>
public sealed record EscapePaceOptions
{
    private readonly double _coastMps = DefaultCoastMps;

    [Source("assumption-escape-pace", "pushing on level ground")]
    private const double DefaultPush = 0.85;

    [Source("assumption-escape-pace", "pushing uphill steeper than 15 %")]
    private const double DefaultPushSteep = 0.6;

    [Source("assumption-escape-pace", "pushing downhill")]
    private const double DefaultPushDown = 0.95;

    [Source("assumption-escape-pace", "carrying")]
    private const double DefaultCarry = 0.7;

    [Source("assumption-escape-pace", "carrying uphill steeper than 15 %")]
    private const double DefaultCarrySteep = 0.5;

    [Source("assumption-escape-pace", "hurt in a leg: 0.35 to 0.5, the lower end is used")]
    private const double DefaultInjured = 0.35;

    [Source("fm-21-18", "road by night 3.2 km/h against 4.0 by day, published rule WK5")]
    private const double DefaultLampFirm = 3.2 / 4.0;

    [Source("fm-21-18", "cross-country by night 1.6 km/h against 2.5 by day, published rule WK6")]
    private const double DefaultLampRough = 1.6 / 2.5;

    [Source("assumption-escape-pace", "riding gently, as a multiple of walking, where the trail can be ridden")]
    private const double DefaultRide = 2.0;

    [Source("assumption-escape-pace", "rolling downhill with a dead drivetrain: 10 km/h")]
    private const double DefaultCoastMps = 10 / 3.6;

    [Source("assumption-escape-pace", "standard deviation of the logarithm of time: 0.20 to 0.25 without an own log")]
    private const double DefaultSpread = 0.25;

    /// <summary>Pushing on level ground and gentle climbs.</summary>
    public double PushFactor { get; init => field = Check(value, nameof(PushFactor)); } = DefaultPush;

    /// <summary>Pushing uphill on more than 15 %.</summary>
    public double PushSteepFactor { get; init => field = Check(value, nameof(PushSteepFactor)); } = DefaultPushSteep;

    /// <summary>Pushing downhill.</summary>
    public double PushDownFactor { get; init => field = Check(value, nameof(PushDownFactor)); } = DefaultPushDown;

    /// <summary>Carrying the bike.</summary>
    public double CarryFactor { get; init => field = Check(value, nameof(CarryFactor)); } = DefaultCarry;

    /// <summary>Carrying the bike uphill on more than 15 %.</summary>
    public double CarrySteepFactor { get; init => field = Check(value, nameof(CarrySteepFactor)); } = DefaultCarrySteep;

    /// <summary>Walking hurt in a leg.</summary>
    public double InjuredFactor { get; init => field = Check(value, nameof(InjuredFactor)); } = DefaultInjured;

    /// <summary>By lamp on paved, gravelled or firm ground.</summary>
    public double LampFirmFactor { get; init => field = Check(value, nameof(LampFirmFactor)); } = DefaultLampFirm;

    /// <summary>By lamp on all other ground, or where the ground is not known.</summary>
    public double LampRoughFactor { get; init => field = Check(value, nameof(LampRoughFactor)); } = DefaultLampRough;

    /// <summary>On rock, sand, mud and snow, and off the path.</summary>
    public double OffPathFactor { get; init => field = Check(value, nameof(OffPathFactor)); } = WalkingKernel.ToblerOffPathFactor;

    /// <summary>Riding gently, as a multiple of walking (above 1 is allowed here).</summary>
    public double RideFactor { get; init => field = Guard.InRange(value, 0.05, 10, "times walking", nameof(RideFactor)); } = DefaultRide;

    /// <summary>Multiplies every speed on foot: the rider against the walking law.</summary>
    public double WalkerFactor { get; init => field = Guard.InRange(value, 0.05, 10, "times", nameof(WalkerFactor)); } = 1;

    /// <summary>Rolling downhill without drive.</summary>
    public Speed CoastSpeed
    {
        get => Speed.FromMetersPerSecond(_coastMps);
        init => _coastMps = Guard.InRange(value.MetersPerSecond, 0.1, 30, "m/s", nameof(CoastSpeed));
    }

    /// <summary>[1, 0 to 2] Standard deviation of the logarithm of the time out, one for the whole way.</summary>
    public double SpreadFactor { get; init => field = Guard.InRange(value, 0, 2, "(sd of the logarithm)", nameof(SpreadFactor)); } = DefaultSpread;

    private static double Check(double value, string name) => Guard.InRange(value, 0.05, 2, "times walking", name);
}
