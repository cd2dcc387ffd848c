using System.Collections.Immutable;
using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>
/// The pace of one rider with one bike and load: time, mode, power and energy of any step of trail, with the spread kept in parts.
/// </summary>
/// <remarks>
/// Riding follows the equation of motion of a bicycle at the sustained power, below technical speed caps; where pushing or carrying is
/// faster, or the bike would be too slow to balance, the rider walks. Group means: not a test of fitness, no training or medical
/// advice. Immutable; safe to share between threads. See docs/modules/effort.md for models, priors and validity.
/// </remarks>
[Entry]
public sealed class PaceModel
{
    [Source("assumption-rider-mass", "75 kg where no mass is given")]
    private const double AssumedMassKg = 75;

    [Source("compendium-met", "1 kcal/(kg h) in W/kg")]
    internal const double MetWPerKg = 4184.0 / 3600;

    [Source("assumption-energy-spread", "log standard deviation of the energy of one rider on one ride")]
    private const double EnergyLogSd = 0.13;

    private const double AssistEmptyJ = 1;

    private readonly Rider _rider;
    private readonly Bike _bike;
    private readonly Load _load;
    private readonly PaceOptions _options;
    private readonly double _massKg;
    private readonly TodayState? _today;
    private readonly double _rideLogSd;
    private readonly ImmutableArray<Finding> _findings;

    private PaceModel(Rider rider, Bike bike, Load load, PaceOptions options, double massKg, SustainedEffort effort, ImmutableArray<Finding> findings, TodayState? today, double rideLogSd)
    {
        _rider = rider;
        _bike = bike;
        _load = load;
        _options = options;
        _massKg = massKg;
        Effort = effort;
        _findings = findings;
        _today = today;
        _rideLogSd = rideLogSd;
    }

    /// <summary>What the rider can hold, and what that was taken from.</summary>
    public SustainedEffort Effort { get; }

    /// <summary>What was assumed about rider and bike.</summary>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>The options in use.</summary>
    public PaceOptions Options => _options;

    internal double BodyKg => _massKg;

    internal double RideLogSd => _rideLogSd;

    /// <summary>Makes the model of a rider.</summary>
    /// <param name="rider">The rider; what is missing takes a prior and gives a finding.</param>
    /// <param name="bike">The bike; null: an unassisted bike of 14 kg.</param>
    /// <param name="load">What is carried besides water and food; null: the defaults of <see cref="Load"/>.</param>
    /// <param name="options">Assumptions; null: the defaults.</param>
    /// <returns>The model.</returns>
    /// <exception cref="ArgumentNullException">No rider.</exception>
    public static PaceModel For(Rider rider, Bike? bike = null, Load? load = null, PaceOptions? options = null)
    {
        Guard.NotNull(rider);
        bike ??= new Bike();
        load ??= new Load();
        options ??= new PaceOptions();
        var findings = ImmutableArray.CreateBuilder<Finding>();
        double mass = Si.Kg(rider.Mass);
        if (double.IsNaN(mass))
        {
            mass = AssumedMassKg;
            findings.Add(new Finding(EffortFindingCodes.MassAssumed, FindingSeverity.Caution, "rider", "No body mass is given; 75 kg is assumed.", new FindingValue("mass_kg", Text.F(mass, 0))));
        }

        double ride = Math.Log(options.Calibration?.RideGsdFactor ?? options.Spread.RideGsdFactor);
        SustainedEffort effort = EffortResolver.Resolve(rider, bike, load, options, mass, p => new PaceModel(rider, bike, load, options, mass, p, [], null, ride));
        findings.Add(EffortResolver.Describe(effort, mass));
        if (options.Calibration is null)
        {
            findings.Add(new Finding(
                EffortFindingCodes.PriorsUsed, FindingSeverity.Note, "pace",
                "Technical speed, pace on foot, stops and spread are assumptions; timed legs of own rides replace them."));
        }

        return new PaceModel(rider, bike, load, options, mass, effort, findings.ToImmutable(), null, ride);
    }

    /// <summary>The same rider after what today's legs have shown.</summary>
    /// <param name="update">From <see cref="PaceUpdate.From"/>.</param>
    /// <returns>A model whose times carry today's factor, with the narrower spread.</returns>
    /// <exception cref="ArgumentNullException">No update.</exception>
    public PaceModel With(PaceUpdate update)
    {
        Guard.NotNull(update);
        return new PaceModel(
            _rider, _bike, _load, _options, _massKg, new SustainedEffort(Effort.Basis, Effort.PowerW, 0, Effort.GrossEfficiencyFraction), _findings,
            update.State, _rideLogSd);
    }

    /// <summary>The same rider with another reserve.</summary>
    /// <param name="reserve">What is left unused.</param>
    /// <returns>A model that leaves that much unused.</returns>
    /// <exception cref="ArgumentNullException">No reserve.</exception>
    public PaceModel With(PaceReserve reserve)
        => new(_rider, _bike, _load, _options with { Reserve = reserve }, _massKg, Effort, _findings, _today, _rideLogSd);

    /// <summary>One step in the mode of least time.</summary>
    /// <param name="step">The step.</param>
    /// <param name="conditions">Weather, carried water and food, hours before, light; null: <see cref="StepConditions.Default"/>.</param>
    /// <returns>Mode, time, power and energy.</returns>
    public StepPace At(TrailStep step, StepConditions? conditions = null)
    {
        conditions ??= StepConditions.Default;
        StepPhysics s = Physics(step, conditions);
        return Finish(step, s, StepKernel.Choose(s, 1, 1));
    }

    /// <summary>One step in a given mode: riding, rolling with a dead drive, pushing, carrying, or walking with the bike left behind.</summary>
    /// <param name="mode">The mode.</param>
    /// <param name="step">The step.</param>
    /// <param name="conditions">Weather, carried water and food, light, injury; null: <see cref="StepConditions.Default"/>.</param>
    /// <returns>Time, power and energy; null where the mode cannot be had: a bike that does not roll by itself, a step nobody rides.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The mode is none of the five.</exception>
    public StepPace? By(TravelMode mode, TrailStep step, StepConditions? conditions = null)
    {
        Guard.Defined(mode);
        conditions ??= StepConditions.Default;
        StepPhysics s = Physics(step, conditions);
        StepOutcome o = mode switch
        {
            TravelMode.Ride => StepKernel.Ride(s, 1, 1),
            TravelMode.Coast => StepKernel.Coast(s, 1),
            _ => StepKernel.OnFoot(s, mode, 1),
        };
        bool wheels = mode is TravelMode.Ride or TravelMode.Coast;
        return wheels && (s.RiddenFraction <= 0 || o.SpeedMps < s.SlowestRideMps || (mode == TravelMode.Coast && s.RiddenFraction < 1)) ? null : Finish(step, s, o);
    }

    /// <summary>All steps in order; fatigue, assist battery and time standing still are followed on the way.</summary>
    /// <param name="steps">The steps in the order of travel.</param>
    /// <param name="conditions">
    /// Conditions of each step from its number and the typical time since the start, stops included; null: mild still air by day.
    /// <see cref="StepConditions.MovingBefore"/> then means hours before the first step.
    /// </param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>Times, energy, ledger and findings.</returns>
    /// <exception cref="ArgumentNullException">No steps.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public RidePace Along(IReadOnlyList<TrailStep> steps, Func<int, TimeSpan, StepConditions>? conditions = null, CancellationToken cancel = default)
    {
        Guard.NotNull(steps);
        var paces = ImmutableArray.CreateBuilder<StepPace>(steps.Count);
        var physics = new StepPhysics[steps.Count];
        var notes = new AlongNotes();
        double moving = 0, stopRate = StopPerMoving, assistLeftJ = _bike.AssistBattery.Joules, assistJ = 0, energyJ = 0;
        var sums = new SpreadSums();
        double powerSd = 0;
        var ledger = default(LedgerSums);
        bool motor = _bike.AssistPower.Watts > 0;
        for (int i = 0; i < steps.Count; i++)
        {
            if ((i & 1023) == 0)
            {
                cancel.ThrowIfCancellationRequested();
            }

            StepConditions c = conditions?.Invoke(i, TimeSpan.FromSeconds(moving * (1 + stopRate))) ?? StepConditions.Default;
            bool off = c.AssistOff || (motor && assistLeftJ <= AssistEmptyJ);
            StepConditions at = c with { MovingBefore = c.MovingBefore + TimeSpan.FromSeconds(moving), AssistOff = off };
            StepPhysics s = Physics(steps[i], at);
            StepPace p = Finish(steps[i], s, StepKernel.Choose(s, 1, 1));
            physics[i] = s;
            paces.Add(p);
            notes.See(p, c, motor && off && !c.AssistOff);
            double t = p.TimeS, assist = p.Outcome.AssistW * t;
            moving += t;
            assistLeftJ -= assist;
            assistJ += assist;
            energyJ += p.Outcome.MetabolicW * t;
            sums.Add(p);
            powerSd += t * s.PowerLogSd;
            ledger.Add(s, p.Outcome);
        }

        (double median, double movingSd) = sums.Sum(_today);
        double standing = median * stopRate, standingW = _options.StandingMet * MetWPerKg * _massKg;
        double stopSd = Math.Log(_options.Calibration?.StopGsdFactor ?? _options.Stops.GsdFactor), stopShare = stopRate / (1 + stopRate) * stopSd;
        double energy = (moving > 0 ? energyJ * median / moving : 0) + (standing * standingW);
        var terms = new SpreadTerms(
            moving > 0 ? powerSd / moving : 0, _today ?? TodayState.Prior(_rideLogSd, GroupLogSds()), Math.Max(0, Math.Log(_options.Spread.FootGsdFactor) - _rideLogSd), stopRate, stopSd);
        return new RidePace(
            paces.ToImmutable(), physics, Times(median, movingSd), Times(standing, Math.Sqrt((stopSd * stopSd) + (movingSd * movingSd))),
            Times(median * (1 + stopRate), Math.Sqrt((movingSd * movingSd) + (stopShare * stopShare))),
            Spread(energy, EnergyLogSd, j => Energy.FromJoules(j)), assistJ, ledger.Close(), [.. _findings, .. notes.Findings()], sums, terms);
    }

    /// <summary>Log standard deviation of each spread group's own factor.</summary>
    internal double[] GroupLogSds()
    {
        double[] sd = new double[StepPace.SpreadGroups];
        Array.Fill(sd, Math.Log(_options.Spread.SurfaceGsdFactor), 0, TrailPriors.Surfaces);
        for (int d = 0; d < TrailPriors.Difficulties; d++)
        {
            sd[TrailPriors.Surfaces + d] = Math.Log(TechnicalGsdFactor((TrailDifficulty)(d - 1)));
        }

        return sd;
    }

    /// <summary>What a reserve costs and gains on a chain of steps, against none.</summary>
    /// <param name="reserve">The reserve.</param>
    /// <param name="steps">The steps in the order of travel.</param>
    /// <param name="conditions">As in <see cref="Along"/>.</param>
    /// <returns>Time, energy and stopping distance with and without.</returns>
    /// <exception cref="ArgumentNullException">No reserve or no steps.</exception>
    public ReserveCost CostOf(PaceReserve reserve, IReadOnlyList<TrailStep> steps, Func<int, TimeSpan, StepConditions>? conditions = null)
    {
        Guard.NotNull(reserve);
        RidePace without = With(PaceReserve.None).Along(steps, conditions), with = With(reserve).Along(steps, conditions);
        return new ReserveCost(reserve, without, with);
    }

    internal double StopPerMoving => (_options.Calibration?.StopMinutesPerHour ?? _options.Stops.MinutesPerHour) / 60;

    internal StepPhysics Physics(TrailStep step, StepConditions c)
    {
        double grade = step.LengthM > 0 ? step.RiseM / step.LengthM : 0, secant = Math.Sqrt(1 + (grade * grade)), cos = 1 / secant, sin = grade * cos;
        Weather w = c.Weather;
        double height = double.IsNaN(step.ElevationM) ? 0 : step.ElevationM;
        double temperature = double.IsNaN(w.AirTempC) ? AirKernel.TemperatureK(height) : w.AirTempC + Si.ZeroCelsiusK;
        double density = AirKernel.DensityKgPerM3(height, temperature);
        double head = double.IsNaN(w.WindMps) || double.IsNaN(w.WindFromDeg) || double.IsNaN(step.BearingDeg) ? 0 : RidePowerKernel.HeadWindMps(w.WindMps, w.WindFromDeg, step.BearingDeg);
        double onBody = _load.OnBody.Kilograms + c.CarriedKg, bike = _bike.Mass.Kilograms + _load.OnBike.Kilograms;
        double all = _massKg + onBody + bike;
        TechnicalCap cap = TrailPriors.IsRoad(step.Surface, step.Difficulty) && !_options.TechnicalCaps.ContainsKey(TrailDifficulty.Unknown) ? TrailPriors.Road : _options.Cap(step.Difficulty);
        double rolling = TrailPriors.Rolling(step.Surface) * _bike.RollingFactor;
        PaceReserve reserve = _options.Reserve;
        double power = Effort.PowerW * (1 - reserve.PowerFraction) * Derating(step, c);
        double technical = (_options.Calibration?.TechnicalFactor(step.Difficulty) ?? 1) * (1 - reserve.TechnicalFraction) * (c.ByLamp ? _options.RideByLampFactor : 1);
        double walk = WalkMps(step, grade, c), share = cap.RiddenUpTenPercentFraction;
        FootHabit foot = _options.Foot;
        return new StepPhysics
        {
            TravelM = step.LengthM * secant,
            GradeFraction = grade,
            A = 0.5 * density * ((_bike.DragAreaM2 ?? TrailPriors.DragAreaM2) + RidePowerKernel.SpokeDragM2),
            B = RidePowerKernel.BearingNsPerM,
            C = (all * Si.GravityMps2 * (sin + (rolling * cos))) + RidePowerKernel.BearingN,
            HeadWindMps = head,
            CapMps = CapMps(cap, grade) * technical,
            RiddenFraction = share <= 0 ? 0 : grade <= 0 ? 1 : Math.Pow(share, grade / 0.10),
            PedalW = power,
            PowerLogSd = PowerLogSd(step, c),
            AssistW = c.AssistOff ? 0 : (double)_bike.AssistPower.Watts,
            DriveEfficiency = _options.DriveEfficiencyFraction,
            GrossEfficiency = Effort.GrossEfficiencyFraction,
            SlowestRideMps = _options.SlowestRideMps,
            RideFloorW = _options.DescentMet * MetWPerKg * _massKg,
            BodyKg = _massKg,
            GradePercent = grade * 100,
            BikeLoadFactor = WalkCostKernel.LoadFactor(onBody + bike, _massKg),
            OwnLoadFactor = WalkCostKernel.LoadFactor(onBody, _massKg),
            TerrainFactor = TrailPriors.Energy(step.Surface),
            PushMps = walk * TrailPriors.Push(step.Difficulty) * PushFactor(foot, grade),
            CarryMps = walk * Between(foot.CarryLevelFactor, foot.CarrySteepFactor, grade / 0.15),
            WalkMps = walk,
            MassKg = all,
            Surface = step.Surface,
            Difficulty = step.Difficulty,
        };
    }

    [Source("assumption-technical-caps", "linear to ten per cent down, then with the square root of steepness")]
    private static double CapMps(TechnicalCap cap, double grade)
        => grade >= 0 ? cap.LevelMps
            : grade >= -0.10 ? Between(cap.LevelMps, cap.DownMps, -grade / 0.10)
            : cap.DownMps * Math.Sqrt(0.10 / -grade);

    private static double PushFactor(FootHabit foot, double grade)
        => grade >= 0 ? Between(foot.PushLevelFactor, foot.PushSteepFactor, grade / 0.15) : Between(foot.PushLevelFactor, foot.PushDownFactor, -grade / 0.05);

    private static double Between(double from, double to, double t) => from + ((to - from) * Math.Clamp(t, 0, 1));

    private static Estimate<TimeSpan> Times(double seconds, double logSd) => Spread(seconds, logSd, TimeSpan.FromSeconds);

    private static Estimate<T> Spread<T>(double typical, double logSd, Func<double, T> make)
        where T : struct, IComparable<T>
    {
        double k = Math.Exp(SpreadKernel.Z90 * logSd);
        return new(make(typical), make(typical / k), make(typical * k));
    }

    private double TechnicalGsdFactor(TrailDifficulty d) => _options.Calibration?.TechnicalGsdFactor(d) ?? _options.Cap(d).GsdFactor;

    private double WalkMps(TrailStep step, double grade, StepConditions c)
    {
        double v = Math.Clamp(HikingKernel.CampbellBetweenMps(grade, _options.Foot.WalkerPercentile), WalkCostKernel.SlowestMps, _options.Foot.FastestMps);
        v /= TrailPriors.FootTime(step.Surface);
        if (c.ByLamp)
        {
            v *= TrailPriors.IsRough(step.Surface) ? _options.FootByLampRoughFactor : _options.FootByLampFactor;
        }

        return Math.Max(c.Injured ? v * _options.Foot.InjuredFactor : v, WalkCostKernel.SlowestMps);
    }

    /// <summary>Height, heat and hours: what is left of the sustained power.</summary>
    private double Derating(TrailStep step, StepConditions c)
    {
        double factor = 1;
        if (!double.IsNaN(step.ElevationM) && step.ElevationM > _options.HomeM)
        {
            double up = Math.Min(step.ElevationM, AltitudeKernel.HighestFittedM) / 1000, home = _options.HomeM / 1000;
            factor *= _rider.MaxOxygenUptakeMlPerKgMin is { } v
                ? AltitudeKernel.FitPct(up, v) / AltitudeKernel.FitPct(home, v)
                : AltitudeKernel.FitPct(up) / AltitudeKernel.FitPct(home);
        }

        if (c.Weather.AirTempC > HeatFromC)
        {
            factor *= Math.Max(SmallestShare, 1 - (_options.HeatLossPerDegreeFraction * (c.Weather.AirTempC - HeatFromC)));
        }

        double hours = c.MovingBefore.TotalHours - FreshHours;
        return hours > 0 ? factor * Math.Max(SmallestShare, 1 - (_options.FadeTenHoursFraction * hours / 10)) : factor;
    }

    /// <summary>Spread of the power: the rider's own, and that of height and heat on the group mean.</summary>
    private double PowerLogSd(TrailStep step, StepConditions c)
    {
        double sum = Effort.LogSd * Effort.LogSd;
        if (!double.IsNaN(step.ElevationM) && step.ElevationM > _options.HomeM)
        {
            double share = Math.Min(1, (step.ElevationM - _options.HomeM) / AltitudeKernel.ScatterFullM);
            double sd = share * (_rider.MaxOxygenUptakeMlPerKgMin is null ? AltitudeKernel.ScatterSdFraction : AltitudeKernel.ScatterWithUptakeSdFraction);
            sum += sd * sd;
        }

        if (c.Weather.AirTempC > HeatFromC)
        {
            double sd = HeatScatterShare * _options.HeatLossPerDegreeFraction * (c.Weather.AirTempC - HeatFromC);
            sum += sd * sd;
        }

        return Math.Sqrt(sum);
    }

    [Source("assumption-heat-derating", "the loss itself is uncertain by half")]
    private const double HeatScatterShare = 0.5;

    [Source("assumption-heat-derating", "mild air [C]")]
    internal const double HeatFromC = 23;

    [Source("linderman-2003", "level heart rate for the first two hours")]
    private const double FreshHours = 2;

    private const double SmallestShare = 0.3;

    /// <summary>
    /// Today's factor stretches the time. Mechanical power falls with it, so that the work stays; metabolic power is kept, so that a slow
    /// day costs more food and water, not less.
    /// </summary>
    private static StepOutcome Stretch(StepOutcome o, double factor)
    {
        o.TimeS *= factor;
        o.SpeedMps /= factor;
        o.PedalW /= factor;
        o.AssistW /= factor;
        o.BrakeW /= factor;
        return o;
    }

    private StepPace Finish(TrailStep step, in StepPhysics s, in StepOutcome today)
    {
        int group = today.CapLimited ? TrailPriors.Surfaces + 1 + (int)step.Difficulty : (int)step.Surface;
        StepOutcome o = _today is null ? today : Stretch(today, Math.Exp(_today.LogFactor(group)));
        bool foot = o.Mode is TravelMode.Push or TravelMode.Carry or TravelMode.Walk;
        double elasticity = 0;
        if (s.PowerLogSd > 0)
        {
            // Over one standard deviation each way: more power helps only up to the technical cap.
            double h = Math.Max(0.02, s.PowerLogSd);
            StepOutcome up, down;
            if (foot)
            {
                up = StepKernel.OnFoot(s, o.Mode, Math.Exp(h));
                down = StepKernel.OnFoot(s, o.Mode, Math.Exp(-h));
            }
            else
            {
                up = StepKernel.Ride(s, Math.Exp(h), 1);
                down = StepKernel.Ride(s, Math.Exp(-h), 1);
            }

            elasticity = today.TimeS > 0 && up.TimeS > 0 && double.IsFinite(down.TimeS) ? Math.Log(down.TimeS / up.TimeS) / (2 * h) : 0;
        }

        double shared = foot ? Math.Max(Math.Log(_options.Spread.FootGsdFactor), _rideLogSd) : _rideLogSd;
        double power = elasticity * s.PowerLogSd, rideSd = Math.Sqrt((shared * shared) + (power * power)), groupSd = Math.Log(_options.Spread.SurfaceGsdFactor);
        if (_today is not null)
        {
            rideSd = Math.Sqrt(Math.Max(0, _today.Covariance[0, 0]));
            groupSd = Math.Sqrt(Math.Max(0, _today.Covariance[group + 1, group + 1]));
        }
        else if (today.CapLimited)
        {
            // Over one standard deviation each way: a better technique helps only until power sets the pace.
            double sd = Math.Log(TechnicalGsdFactor(step.Difficulty));
            groupSd = 0.5 * Math.Log(StepKernel.Choose(s, 1, Math.Exp(-sd)).TimeS / StepKernel.Choose(s, 1, Math.Exp(sd)).TimeS);
            groupSd = double.IsFinite(groupSd) ? Math.Max(0, groupSd) : sd;
        }

        double stepSd = s.TravelM > 0 ? Math.Log(_options.Spread.HundredMetreGsdFactor) * Math.Min(1, Math.Sqrt(100 / s.TravelM)) : 0;
        return new StepPace(step, o, rideSd, groupSd, stepSd, group, _massKg, FindingOf(step, s, o));
    }

    private static Finding? FindingOf(TrailStep step, in StepPhysics s, in StepOutcome o)
    {
        if (o.Mode is not (TravelMode.Push or TravelMode.Carry or TravelMode.Walk))
        {
            return null;
        }

        string grade = Text.F(s.GradePercent, 0);
        if (o.Creeping)
        {
            return new Finding(EffortFindingCodes.SlowFoot, FindingSeverity.Warning, "on foot",
                string.Create(CultureInfo.InvariantCulture, $"At {grade} % with this load the rider's power gives no walking pace; a creep of 0.15 m/s is counted."), new FindingValue("grade_pct", grade));
        }

        if (s.GradePercent is < WalkCostKernel.LcdaSteepestDownPercent or > WalkCostKernel.LcdaSteepestUpPercent)
        {
            return new Finding(EffortFindingCodes.SteepFoot, FindingSeverity.Caution, "on foot",
                string.Create(CultureInfo.InvariantCulture, $"A grade of {grade} % lies outside the data of the walking cost (-40 to 45 %)."), new FindingValue("grade_pct", grade));
        }

        return null;
    }
}
