using SoloRide.Effort;
using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>
/// How fast a way out is covered after one kind of trouble: mode, condition of the rider, light. The time of each step depends on its own
/// direction, so that back is not on.
/// </summary>
/// <remarks>
/// The standard one (<see cref="For"/>) multiplies a published law for walking on paths with named factors; beyond a grade of 50 % it holds the
/// speed of climbing, and the profile says so. Immutable; safe to share when the caller's function is.
/// </remarks>
[Entry]
public sealed class EscapePace
{
    [Source("assumption-escape-pace", "steep: above 15 %")]
    private const double SteepGradeFraction = 0.15;

    [Source("assumption-escape-pace", "downhill: below -2 %")]
    private const double DownGradeFraction = -0.02;

    [Source("assumption-escape-pace", "a bike rolls by itself below -4 %")]
    private const double CoastGradeFraction = -0.04;

    [Source("assumption-escape-pace", "ridden gently up to 10 % uphill")]
    private const double RideUpGradeFraction = 0.10;

    [Source("assumption-escape-pace", "ridden gently down to -20 %")]
    private const double RideDownGradeFraction = -0.20;

    [Source("assumption-escape-pace", "beyond a grade of 50 % the speed of climbing or descending is held")]
    private const double LawGradeFraction = 0.5;

    private readonly Func<TrailStep, TimeSpan?>? _time;
    private readonly double[]? _onS;
    private readonly double[]? _backS;
    private readonly EscapePaceOptions _options;

    private EscapePace(
        string name,
        TravelMode mode,
        RiderCondition condition,
        TravelLight light,
        EscapePaceOptions options,
        Func<TrailStep, TimeSpan?>? time = null,
        double[]? onS = null,
        double[]? backS = null)
    {
        Name = Guard.NotEmpty(name);
        Mode = Guard.Defined(mode);
        Condition = Guard.Defined(condition);
        Light = Guard.Defined(light);
        _options = options;
        _time = time;
        _onS = onS;
        _backS = backS;
    }

    /// <summary>In words.</summary>
    public string Name { get; }

    /// <summary>How the rider moves.</summary>
    public TravelMode Mode { get; }

    /// <summary>Whether the rider is hurt.</summary>
    public RiderCondition Condition { get; }

    /// <summary>By what light.</summary>
    public TravelLight Light { get; }

    /// <summary>The factors used.</summary>
    public EscapePaceOptions Options => _options;

    /// <summary>[1] Standard deviation of the logarithm of the time out.</summary>
    public double SpreadFactor => _options.SpreadFactor;

    /// <summary>The standard pace of a mode.</summary>
    /// <param name="mode">How the rider moves.</param>
    /// <param name="condition">Whether hurt.</param>
    /// <param name="light">By what light.</param>
    /// <param name="options">Factors; null for the named assumptions.</param>
    /// <returns>The pace.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An enum value that does not exist.</exception>
    public static EscapePace For(
        TravelMode mode,
        RiderCondition condition = RiderCondition.Sound,
        TravelLight light = TravelLight.Day,
        EscapePaceOptions? options = null)
    {
        string name = Guard.Defined(mode) switch
        {
            TravelMode.Ride => "riding gently",
            TravelMode.Coast => "coasting downhill, pushing elsewhere",
            TravelMode.Push => "on foot, pushing the bike",
            TravelMode.Carry => "on foot, carrying the bike",
            _ => "on foot without the bike",
        };
        name += Guard.Defined(condition) == RiderCondition.InjuredLeg ? ", hurt in a leg" : "";
        name += Guard.Defined(light) == TravelLight.Lamp ? ", by lamp" : "";
        return new EscapePace(name, mode, condition, light, options ?? new EscapePaceOptions());
    }

    /// <summary>A pace given by a function of the step, in the step's own direction.</summary>
    /// <param name="name">In words.</param>
    /// <param name="mode">How the rider moves.</param>
    /// <param name="time">Time for one step; zero or more, null when it cannot be passed in that direction. Must be pure.</param>
    /// <param name="spreadFactor">[1, 0 to 2] Standard deviation of the logarithm of the time out.</param>
    /// <returns>The pace.</returns>
    /// <exception cref="ArgumentException">No name or function.</exception>
    public static EscapePace FromFunction(string name, TravelMode mode, Func<TrailStep, TimeSpan?> time, double spreadFactor = 0)
        => new(name, mode, RiderCondition.Sound, TravelLight.Day, new EscapePaceOptions { SpreadFactor = spreadFactor }, Guard.NotNull(time));

    /// <summary>The pace of a rider's own model: what Effort knows of rider, bike, load, ground, lamp and injury.</summary>
    /// <param name="model">The rider's model; give it a reserve (<see cref="PaceModel.With(PaceReserve)"/>) to ride gently.</param>
    /// <param name="mode">How the rider moves. Where a wheeled mode cannot be had the bike is pushed, or carried if that is faster.</param>
    /// <param name="condition">Whether hurt; a hurt rider does not ride.</param>
    /// <param name="light">By what light.</param>
    /// <param name="conditions">Weather, what is carried, hours before; null for the defaults.</param>
    /// <returns>The pace; its spread is that of the model's pace on foot.</returns>
    /// <exception cref="ArgumentNullException">No model.</exception>
    public static EscapePace FromModel(
        PaceModel model,
        TravelMode mode,
        RiderCondition condition = RiderCondition.Sound,
        TravelLight light = TravelLight.Day,
        StepConditions? conditions = null)
    {
        Guard.NotNull(model);
        StepConditions at = (conditions ?? StepConditions.Default) with
        {
            ByLamp = Guard.Defined(light) == TravelLight.Lamp,
            Injured = Guard.Defined(condition) == RiderCondition.InjuredLeg,
        };
        TravelMode first = at.Injured && Guard.Defined(mode) is TravelMode.Ride or TravelMode.Coast ? TravelMode.Push : mode;
        var options = new EscapePaceOptions { SpreadFactor = Math.Log(model.Options.Spread.FootGsdFactor) };
        return new EscapePace(For(mode, condition, light).Name, mode, condition, light, options, Time);

        TimeSpan? Time(TrailStep step)
        {
            double? s = step.LengthM > 0 ? Least(model.By(first, step, at)) : 0;
            if (s is null && first is TravelMode.Ride or TravelMode.Coast or TravelMode.Push)
            {
                double? push = Least(model.By(TravelMode.Push, step, at)), carry = Least(model.By(TravelMode.Carry, step, at));
                s = push is null ? carry : carry is null ? push : Math.Min(push.Value, carry.Value);
            }

            return s is { } seconds && seconds < TimeSpan.MaxValue.TotalSeconds / 2 ? TimeSpan.FromSeconds(seconds) : null;
        }

        static double? Least(StepPace? pace) => pace is { } p && double.IsFinite(p.TypicalS) ? p.TypicalS : null;
    }

    /// <summary>A pace given by the time of each step of the route in both directions; other trails use <paramref name="elsewhere"/>.</summary>
    /// <param name="name">In words.</param>
    /// <param name="mode">How the rider moves.</param>
    /// <param name="on">Time of each step in the direction of the route.</param>
    /// <param name="back">Time of each step against it.</param>
    /// <param name="elsewhere">Pace off the route; null for the standard one of the mode.</param>
    /// <param name="spreadFactor">[1, 0 to 2] Standard deviation of the logarithm of the time out.</param>
    /// <returns>The pace.</returns>
    /// <exception cref="ArgumentException">Lists of different length, or a negative time; the message names the step.</exception>
    public static EscapePace FromStepTimes(
        string name,
        TravelMode mode,
        IReadOnlyList<TimeSpan> on,
        IReadOnlyList<TimeSpan> back,
        EscapePace? elsewhere = null,
        double spreadFactor = 0)
    {
        Guard.SameLength(Guard.NotNull(on).Count, Guard.NotNull(back).Count, nameof(back));
        var rest = elsewhere ?? For(mode);
        return new EscapePace(
            name, mode, rest.Condition, rest.Light, rest._options with { SpreadFactor = spreadFactor }, rest._time, Checked(on, nameof(on)), Checked(back, nameof(back)));
    }

    /// <summary>Time for one step in its own direction; null when it cannot be passed.</summary>
    /// <param name="step">The step.</param>
    /// <returns>The time.</returns>
    /// <exception cref="ArgumentException">The caller's function gave a negative time.</exception>
    public TimeSpan? Time(TrailStep step)
    {
        double s = Seconds(step, GraphKernel.None, true, false);
        return double.IsPositiveInfinity(s) ? null : TimeSpan.FromSeconds(s);
    }

    /// <summary>The pace's name.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => Name;

    internal int? RouteSteps => _onS?.Length;

    /// <summary>Whether the walking law is asked at all.</summary>
    internal bool UsesLaw => _time is null;

    /// <summary>Whether a step is steeper than the walking law was fitted to.</summary>
    internal static bool IsBeyondLaw(in TrailStep step) => step.LengthM > 0 && Math.Abs(step.RiseM / step.LengthM) > LawGradeFraction;

    /// <summary>[s] Time of a step; +infinity when it cannot be passed.</summary>
    /// <param name="step">In the direction of travel.</param>
    /// <param name="routeStep">Which step of the route it belongs to, or -1.</param>
    /// <param name="on">Whether travelled in the route's direction.</param>
    /// <param name="offPath">Whether it is no path at all.</param>
    /// <param name="share">Share of the route's step that the piece covers.</param>
    internal double Seconds(in TrailStep step, int routeStep, bool on, bool offPath, double share = 1)
    {
        if (routeStep >= 0 && _onS is not null)
        {
            return share * (on ? _onS[routeStep] : _backS![routeStep]);
        }

        if (_time is not null)
        {
            double own = _time(step) is { } t ? t.TotalSeconds / (offPath ? _options.OffPathFactor : 1) : double.PositiveInfinity;
            return own >= 0
                ? own
                : throw new ArgumentException($"The pace '{Name}' gives {Text.F(own, 3)} s for a step of {Text.F(step.LengthM, 1)} m; times must be 0 s or more.", nameof(step));
        }

        return step.LengthM <= 0 ? 0 : step.LengthM / SpeedMps(step, offPath);
    }

    private double SpeedMps(in TrailStep step, bool offPath)
    {
        double g = step.RiseM / step.LengthM;
        bool rough = offPath || step.Surface is TrailSurface.Rock or TrailSurface.Sand or TrailSurface.Mud or TrailSurface.Snow;
        double law = Math.Abs(g) <= LawGradeFraction
            ? WalkingKernel.ToblerKmh(g)
            : WalkingKernel.ToblerKmh(Math.CopySign(LawGradeFraction, g)) * LawGradeFraction / Math.Abs(g);
        double foot = law / 3.6 * _options.WalkerFactor * (rough ? _options.OffPathFactor : 1);
        double light = Light == TravelLight.Day
            ? 1
            : !offPath && step.Surface is TrailSurface.Paved or TrailSurface.Gravel or TrailSurface.Firm ? _options.LampFirmFactor : _options.LampRoughFactor;
        double hurt = Condition == RiderCondition.InjuredLeg ? _options.InjuredFactor : 1;
        bool ridable = !rough && step.Difficulty <= TrailDifficulty.Level2;
        double push = foot * hurt * light * (g > SteepGradeFraction ? _options.PushSteepFactor : g < DownGradeFraction ? _options.PushDownFactor : _options.PushFactor);
        return Mode switch
        {
            TravelMode.Walk => foot * hurt * light,
            TravelMode.Push => push,
            TravelMode.Carry => foot * hurt * light * (g > SteepGradeFraction ? _options.CarrySteepFactor : _options.CarryFactor),
            TravelMode.Coast => ridable && g <= CoastGradeFraction ? Math.Max(push, _options.CoastSpeed.MetersPerSecond * light) : push,
            _ => ridable && g is >= RideDownGradeFraction and <= RideUpGradeFraction ? Math.Max(push, foot * _options.RideFactor * light * hurt) : push,
        };
    }

    private static double[] Checked(IReadOnlyList<TimeSpan> times, string name)
    {
        var seconds = new double[times.Count];
        for (int i = 0; i < seconds.Length; i++)
        {
            seconds[i] = times[i] >= TimeSpan.Zero
                ? times[i].TotalSeconds
                : throw new ArgumentException($"{name}[{i}] is {Text.F(times[i].TotalSeconds, 3)} s; times must be 0 s or more.", name);
        }

        return seconds;
    }
}
