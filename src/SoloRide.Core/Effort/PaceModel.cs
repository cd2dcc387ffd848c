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
    private readonly double[] _technique;
    private readonly double _descent;
    private readonly double _rideLogSd;
    private readonly ImmutableArray<Finding> _findings;

    private PaceModel(Rider rider, Bike bike, Load load, PaceOptions options, double massKg, SustainedEffort effort, ImmutableArray<Finding> findings, double rideLogSd, TodayState? today = null, double[]? technique = null, double descent = 0)
    {
        _rider = rider;
        _bike = bike;
        _load = load;
        _options = options;
        _massKg = massKg;
        Effort = effort;
        _findings = findings;
        _today = today;
        _technique = technique ?? new double[TrailPriors.Difficulties];
        _descent = descent;
        _rideLogSd = rideLogSd;
        double foot = Math.Log(options.Spread.FootGsdFactor);
        State = today ?? TodayState.Prior(rideLogSd, effort.LogSd, Math.Sqrt(Math.Max(0, (foot * foot) - (rideLogSd * rideLogSd))), GroupLogSds(), Math.Log(DescentGsdFactor));
        if (today is null && options.Calibration is { CorrelationFactor.Count: > 0 } own)
        {
            State = Correlated(State, own);
        }
    }

    /// <summary>Power, techniques and descending as the calibration left them: known better together than one by one.</summary>
    private static TodayState Correlated(TodayState state, PaceCalibration own)
    {
        int n = own.Uncertain;
        if (own.CorrelationFactor.Count != n * (n - 1) / 2)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"CorrelationFactor holds {own.CorrelationFactor.Count} values; {n} uncertain values need {n * (n - 1) / 2}."), nameof(own));
        }

        double[,] c = (double[,])state.Covariance.Clone();
        for (int row = 1; row < n; row++)
        {
            for (int column = 0; column < row; column++)
            {
                // A technique's factor is one on time: more speed is less of it.
                int i = Place(row), j = Place(column);
                double sign = column == 0 ? -1 : 1;
                c[i, j] = c[j, i] = sign * own.Correlation(row, column) * Math.Sqrt(c[i, i] * c[j, j]);
            }
        }

        return TodayState.Restored(state.Mean, c);

        int Place(int k) => k == 0 ? TodayState.Power : k > own.Technique.Count ? TodayState.Descent : TodayState.Groups + TechniqueGroup(own.Technique[k - 1].Difficulty);
    }

    /// <summary>What the rider can hold, and what that was taken from.</summary>
    public SustainedEffort Effort { get; }

    /// <summary>What was assumed about rider and bike.</summary>
    public IReadOnlyList<Finding> Findings => _findings;

    /// <summary>The options in use.</summary>
    public PaceOptions Options => _options;

    /// <summary>Log factors that the times scatter by; after an update of today as narrow as its legs allow.</summary>
    internal TodayState State { get; }

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
        SustainedEffort effort = EffortResolver.Resolve(rider, bike, load, options, mass, p => new PaceModel(rider, bike, load, options, mass, p, [], ride));
        findings.Add(EffortResolver.Describe(effort, mass));
        if (options.Calibration is null)
        {
            findings.Add(new Finding(
                EffortFindingCodes.PriorsUsed, FindingSeverity.Note, "pace",
                "Technical speed, pace on foot, stops and spread are assumptions; timed legs of own rides replace them."));
        }

        return new PaceModel(rider, bike, load, options, mass, effort, findings.ToImmutable(), ride);
    }

    /// <summary>The same rider after what today's legs have shown.</summary>
    /// <param name="update">From <see cref="PaceUpdate.From"/>.</param>
    /// <returns>A model whose times carry today's factor, with the narrower spread.</returns>
    /// <exception cref="ArgumentNullException">No update.</exception>
    public PaceModel With(PaceUpdate update)
    {
        Guard.NotNull(update);

        // Power and techniques go into the model itself, so that modes and times follow; the rest stays a factor on time.
        double[] mean = [.. update.State.Mean], technique = [.. _technique];
        double power = Effort.PowerW * Math.Exp(mean[TodayState.Power]);
        mean[TodayState.Power] = 0;
        for (int d = 0; d < technique.Length; d++)
        {
            int at = TodayState.Groups + TrailPriors.Surfaces + d;
            technique[d] += mean[at];
            mean[at] = 0;
        }

        double descent = _descent + mean[TodayState.Descent];
        mean[TodayState.Descent] = 0;
        TodayState state = update.State.About(mean);
        var effort = new SustainedEffort(Effort.Basis, power, state.LogSd(TodayState.Power), Effort.GrossEfficiencyFraction);
        return new PaceModel(_rider, _bike, _load, _options, _massKg, effort, _findings, _rideLogSd, state, technique, descent);
    }

    /// <summary>The same rider with another reserve.</summary>
    /// <param name="reserve">What is left unused.</param>
    /// <returns>A model that leaves that much unused.</returns>
    /// <exception cref="ArgumentNullException">No reserve.</exception>
    public PaceModel With(PaceReserve reserve)
        => new(_rider, _bike, _load, _options with { Reserve = reserve }, _massKg, Effort, _findings, _rideLogSd, _today, _technique, _descent);

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

    /// <summary>One step in a given mode: riding, rolling with a dead drive, pushing, carrying, or walking with the bike left behind. Riding pushes or carries the share of a climb that the difficulty does not let be ridden.</summary>
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
            TravelMode.Ride => StepKernel.Ridden(s, 1, 1),
            TravelMode.Coast => StepKernel.Coast(s, 1),
            _ => StepKernel.OnFoot(s, mode, 1),
        };
        bool wheels = mode is TravelMode.Ride or TravelMode.Coast;
        return wheels && (s.RiddenFraction <= 0 || o.RideSpeedMps < s.SlowestRideMps || (mode == TravelMode.Coast && s.RiddenFraction < 1)) ? null : Finish(step, s, o, mode);
    }

    /// <summary>Power that riding a step at a given speed takes: the inverse of the speed from a power, with the ledger of where the work goes.</summary>
    /// <param name="speed">Speed along the slope, above 0 to 30 m/s; steady over the step.</param>
    /// <param name="step">The step.</param>
    /// <param name="conditions">Weather, carried water and food; null: <see cref="StepConditions.Default"/>.</param>
    /// <returns>Power at the pedals, of the motor and of the brakes, ledger, and findings where this rider would not ride so.</returns>
    /// <remarks>A motor gives its share as far as it goes, the pedals what is missing; too little resistance is braked away.</remarks>
    /// <exception cref="ArgumentOutOfRangeException">The speed is outside its range.</exception>
    public RidingDemand PowerFor(Speed speed, TrailStep step, StepConditions? conditions = null)
    {
        double v = Guard.InRange(speed.MetersPerSecond, 1e-3, 30, "m/s", nameof(speed));
        conditions ??= StepConditions.Default;
        StepPhysics s = Physics(step, conditions);
        double air = v + s.HeadWindMps, need = ((s.A * air * Math.Abs(air)) + (s.B * v) + s.C) * v;
        double atHand = (s.PedalW * s.DriveEfficiency) + s.AssistW, motor = need <= 0 ? 0 : need >= atHand ? s.AssistW : s.AssistW * need / atHand;
        double pedal = Math.Max(0, need - motor) / s.DriveEfficiency;
        var o = new StepOutcome
        {
            Mode = pedal > 0 ? TravelMode.Ride : TravelMode.Coast,
            TimeS = s.TravelM / v,
            SpeedMps = v,
            RideSpeedMps = v,
            PedalW = pedal,
            AssistW = motor,
            BrakeW = Math.Max(0, -need),
            MetabolicW = Math.Max(pedal / s.GrossEfficiency, Math.Min(s.RideFloorW, s.PedalW / s.GrossEfficiency)),
            RiddenFraction = 1,
        };
        var ledger = default(LedgerSums);
        ledger.Add(s, o);
        return new RidingDemand(o, s.PedalW, ledger.Close(), DemandFindings(s, o));
    }

    /// <summary>The speed that a given power at the pedals gives on a step, brakes off and without technical caps; balance and skill are not asked.</summary>
    /// <param name="pedals">Power at the pedals, 0 to 2 000 W.</param>
    /// <param name="step">The step.</param>
    /// <param name="conditions">Weather, carried water and food; null: <see cref="StepConditions.Default"/>.</param>
    /// <returns>Steady speed along the slope; 0 where the bike does not roll by itself.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The power is outside its range.</exception>
    public Speed SpeedFor(Power pedals, TrailStep step, StepConditions? conditions = null)
    {
        double watts = Guard.InRange((double)pedals.Watts, 0, 2000, "W", nameof(pedals));
        StepPhysics s = Physics(step, conditions ?? StepConditions.Default);
        return Speed.FromMetersPerSecond(RidePowerKernel.SpeedMps(s.A, s.B, s.C, (watts * s.DriveEfficiency) + s.AssistW, s.HeadWindMps));
    }

    private static List<Finding> DemandFindings(in StepPhysics s, in StepOutcome o)
    {
        var findings = new List<Finding>();
        if (o.PedalW > s.PedalW)
        {
            findings.Add(new Finding(EffortFindingCodes.AboveSustained, FindingSeverity.Caution, "power",
                string.Create(CultureInfo.InvariantCulture, $"{o.PedalW:F0} W is more than the {s.PedalW:F0} W that the rider holds for hours here."), new FindingValue("pedal_w", Text.F(o.PedalW, 0)), new FindingValue("sustained_w", Text.F(s.PedalW, 0))));
        }

        if (o.RideSpeedMps > s.CapMps || s.RiddenFraction <= 0)
        {
            findings.Add(new Finding(EffortFindingCodes.AboveCap, FindingSeverity.Caution, "speed",
                s.RiddenFraction <= 0 ? "The difficulty is one that is not ridden." : string.Create(CultureInfo.InvariantCulture, $"{o.RideSpeedMps:F1} m/s is faster than the technical cap of {s.CapMps:F1} m/s."), new FindingValue("speed_mps", Text.F(o.RideSpeedMps, 1))));
        }

        if (o.RideSpeedMps < s.SlowestRideMps)
        {
            findings.Add(new Finding(EffortFindingCodes.BelowBalance, FindingSeverity.Caution, "speed",
                string.Create(CultureInfo.InvariantCulture, $"{o.RideSpeedMps:F1} m/s is slower than a bicycle balances on a trail ({s.SlowestRideMps:F1} m/s)."), new FindingValue("speed_mps", Text.F(o.RideSpeedMps, 1))));
        }

        return findings;
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
        double conditionsSd = 0;
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
            notes.See(p, c, at.MovingBefore, motor && off && !c.AssistOff);
            double t = p.TimeS, assist = p.Outcome.AssistW * t;
            moving += t;
            assistLeftJ -= assist;
            assistJ += assist;
            energyJ += p.Outcome.MetabolicW * t;
            sums.Add(p);
            conditionsSd += t * s.ConditionsLogSd;
            ledger.Add(s, p.Outcome);
        }

        (double median, double movingSd) = sums.Sum(State);
        (double faster, double slower) = Sides(physics, sums, movingSd);
        double standing = median * stopRate, standingW = _options.StandingMet * MetWPerKg * _massKg;
        double stopSd = Math.Log(_options.Calibration?.StopGsdFactor ?? _options.Stops.GsdFactor), stopShare = stopRate / (1 + stopRate) * stopSd;
        double energy = (moving > 0 ? energyJ * median / moving : 0) + (standing * standingW);
        var terms = new SpreadTerms(State, moving > 0 ? conditionsSd / moving : 0, stopRate, stopSd);
        return new RidePace(
            paces.ToImmutable(), physics, Times(median, faster, slower, 0), Times(standing, faster, slower, stopSd), Times(median * (1 + stopRate), faster, slower, stopShare),
            Spread(energy, EnergyLogSd, j => Energy.FromJoules(j)), assistJ, ledger.Close(), [.. _findings, .. notes.Findings()], sums, terms);
    }

    /// <summary>
    /// P10 and P90 of the whole time over its median, as logs: the time at the likeliest point of the shared factors that far out, the steps'
    /// own scatter added. Slow rides lie farther out than fast ones, because power helps only up to the speed caps.
    /// </summary>
    [Source("derived-likeliest-point", "time at the likeliest point of a quantile")]
    private (double Faster, double Slower) Sides(StepPhysics[] physics, SpreadSums sums, double logSd)
    {
        if (!(sums.TotalS > 0) || !(logSd > 0))
        {
            return (0, 0);
        }

        double[] a = sums.Weights(), x = new double[TodayState.Size], at = new double[TodayState.Size];
        double shared = 0;
        for (int i = 0; i < x.Length; i++)
        {
            for (int j = 0; j < x.Length; j++)
            {
                x[i] += State.Covariance[i, j] * a[j];
            }

            shared += a[i] * x[i];
        }

        double across = (_today is null && _options.Calibration is not { CorrelationFactor.Count: > 0 }) || !(shared > 0) ? 0 : Across(physics, x, shared, sums.TotalS);
        double own = Math.Sqrt(Math.Max(0, (logSd * logSd) - shared) + across), all = Math.Sqrt(shared + (own * own)), rest = NormalKernel.Z90 * own * own / all;
        return (Side(-1), Side(1));

        double Side(double sign)
        {
            for (int i = 0; i < x.Length; i++)
            {
                at[i] = State.Mean[i] + (sign * NormalKernel.Z90 * x[i] / all);
            }

            return Math.Max(0, (sign * Math.Log(TimeAt(physics, at) / sums.TotalS)) + rest);
        }
    }

    /// <summary>
    /// Log variance of the whole time across the likeliest direction. Timed legs leave factors that go against each other (more power,
    /// less technique), each widely open; slopes taken one factor at a time do not see what such a pair does to the time.
    /// </summary>
    [Source("derived-likeliest-point", "variance across the direction, by first and second differences")]
    private double Across(StepPhysics[] physics, double[] direction, double shared, double totalS)
    {
        double[,] left = new double[TodayState.Size, TodayState.Size];
        for (int i = 0; i < TodayState.Size; i++)
        {
            for (int j = 0; j < TodayState.Size; j++)
            {
                left[i, j] = State.Covariance[i, j] - (direction[i] * direction[j] / shared);
            }
        }

        double[] root = TodayState.Restored(State.Mean, left).Root(), at = new double[TodayState.Size];
        double variance = 0;
        for (int j = 0; j < TodayState.Size; j++)
        {
            if (!(root[(j * TodayState.Size) + j] > SmallestSide))
            {
                continue;
            }

            double up = Log(j, 1), down = Log(j, -1), first = 0.5 * (up - down), second = up + down;
            variance += (first * first) + (0.5 * second * second);
        }

        return variance;

        double Log(int column, double sign)
        {
            for (int i = 0; i < at.Length; i++)
            {
                at[i] = State.Mean[i] + (sign * root[(i * TodayState.Size) + column]);
            }

            return Math.Log(TimeAt(physics, at) / totalS);
        }
    }

    private const double SmallestSide = 1e-3;

    /// <summary>Whole time [s] at one point of the factors; modes chosen anew.</summary>
    private double TimeAt(StepPhysics[] physics, double[] x)
    {
        double sum = 0, scatter = x[TodayState.Conditions] - State.Mean[TodayState.Conditions];
        for (int i = 0; i < physics.Length; i++)
        {
            StepPhysics s = physics[i];
            if (s.TravelM > 0)
            {
                StepOutcome o = StepKernel.Choose(s, Math.Exp(x[TodayState.Power] + (s.ConditionsLogSd * scatter)), s.CapFactor(Math.Exp(-x[TodayState.Groups + TechniqueGroup(s.Difficulty)]), Math.Exp(-x[TodayState.Descent])));
                sum += o.TimeS * Math.Exp(x[TodayState.Ride] + (o.FootShare * x[TodayState.Foot]) + (SurfaceShare(o) * x[TodayState.Groups + (int)s.Surface]));
            }
        }

        return sum;
    }

    private static int TechniqueGroup(TrailDifficulty difficulty) => TrailPriors.Surfaces + 1 + (int)difficulty;

    /// <summary>Share of the time that the surface's factor stretches: what a speed cap holds is not.</summary>
    private static double SurfaceShare(in StepOutcome o) => o.FootShare + (o.CapLimited ? 0 : 1 - o.FootShare);

    /// <summary>Log standard deviation of each spread group's own factor.</summary>
    internal double[] GroupLogSds()
    {
        double[] sd = new double[StepPace.SpreadGroups];
        Array.Fill(sd, Scatter * Math.Log(_options.Spread.SurfaceGsdFactor), 0, TrailPriors.Surfaces);
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
    /// <param name="stakes">Dusk, water and the caller's own rate ratios; null: time, energy and stopping distance only.</param>
    /// <returns>Time, energy, daylight, water and stopping distance with and without.</returns>
    /// <exception cref="ArgumentNullException">No reserve or no steps.</exception>
    public ReserveCost CostOf(PaceReserve reserve, IReadOnlyList<TrailStep> steps, Func<int, TimeSpan, StepConditions>? conditions = null, ReserveStakes? stakes = null)
    {
        Guard.NotNull(reserve);
        RidePace without = With(PaceReserve.None).Along(steps, conditions), with = With(reserve).Along(steps, conditions);
        return new ReserveCost(reserve, without, with, stakes ?? new ReserveStakes());
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
        double scatter = ConditionsLogSd(step, c);
        double power = Effort.PowerW * (1 - reserve.PowerFraction) * Derating(step, c) * Math.Exp(scatter * State.Mean[TodayState.Conditions]);
        double technical = (_options.Calibration?.TechnicalFactor(step.Difficulty) ?? 1) * Math.Exp(-_technique[(int)step.Difficulty + 1]) * (1 - reserve.TechnicalFraction) * (c.ByLamp ? _options.RideByLampFactor : 1);
        (double capMps, double downShare) = CapMps(cap, grade, (_options.Calibration?.DescentFactor ?? 1) * Math.Exp(-_descent));
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
            CapMps = capMps * technical,
            DownShare = downShare,
            RiddenFraction = share <= 0 ? 0 : grade <= 0 ? 1 : Math.Pow(share, grade / 0.10),
            PedalW = power,
            ConditionsLogSd = scatter,
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
    private static (double Mps, double DownShare) CapMps(TechnicalCap cap, double grade, double descent)
    {
        if (grade >= 0)
        {
            return (cap.LevelMps, 0);
        }

        double share = Math.Min(1, -grade / 0.10), down = share * cap.DownMps * descent, all = ((1 - share) * cap.LevelMps) + down;
        return (share < 1 ? all : down * Math.Sqrt(0.10 / -grade), down / all);
    }

    private static double PushFactor(FootHabit foot, double grade)
        => grade >= 0 ? Between(foot.PushLevelFactor, foot.PushSteepFactor, grade / 0.15) : Between(foot.PushLevelFactor, foot.PushDownFactor, -grade / 0.05);

    private static double Between(double from, double to, double t) => from + ((to - from) * Math.Clamp(t, 0, 1));

    /// <summary>P10 to P90 from the logs of both sides and one more independent log standard deviation.</summary>
    private static Estimate<TimeSpan> Times(double seconds, double faster, double slower, double moreLogSd)
    {
        double more = NormalKernel.Z90 * moreLogSd;
        return new(
            TimeSpan.FromSeconds(seconds), TimeSpan.FromSeconds(seconds * Math.Exp(-Math.Sqrt((faster * faster) + (more * more)))), TimeSpan.FromSeconds(seconds * Math.Exp(Math.Sqrt((slower * slower) + (more * more)))));
    }

    private static Estimate<T> Spread<T>(double typical, double logSd, Func<double, T> make)
        where T : struct, IComparable<T>
    {
        double k = Math.Exp(NormalKernel.Z90 * logSd);
        return new(make(typical), make(typical / k), make(typical * k));
    }

    private double Scatter => _options.Calibration?.ScatterFactor ?? 1;

    private double DescentGsdFactor => _options.Calibration?.DescentGsdFactor ?? _options.Spread.DescentGsdFactor;

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

    /// <summary>Spread of the power by height and heat about the group mean.</summary>
    private double ConditionsLogSd(TrailStep step, StepConditions c)
    {
        double sum = 0;
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

    private StepPace Finish(TrailStep step, in StepPhysics s, in StepOutcome plain, TravelMode? only = null)
    {
        int surface = (int)step.Surface, technique = TechniqueGroup(step.Difficulty), group = plain.CapLimited ? technique : surface;
        double power = 0, skill = 0;
        double powerSd = Math.Sqrt(Math.Pow(State.LogSd(TodayState.Power), 2) + (s.ConditionsLogSd * s.ConditionsLogSd)), descentSd = s.DownShare * State.LogSd(TodayState.Descent);
        double skillSd = Math.Sqrt(Math.Pow(State.LogSd(TodayState.Groups + technique), 2) + (descentSd * descentSd));
        if (plain.TimeS > 0 && powerSd > 0)
        {
            // Over one standard deviation each way: more power helps only up to the technical cap.
            double h = Math.Max(0.02, powerSd);
            power = Slope(Time(s, only, Math.Exp(-h), 1), Time(s, only, Math.Exp(h), 1), h);
        }

        if (plain.TimeS > 0 && skillSd > 0 && s.RiddenFraction > 0 && plain.RideSpeedMps >= s.CapMps * Math.Exp(-skillSd))
        {
            // Likewise: a better technique helps only until power sets the pace.
            skill = Slope(Time(s, only, 1, Math.Exp(-skillSd)), Time(s, only, 1, Math.Exp(skillSd)), skillSd);
        }

        var spread = new StepSpread(-power, -power * s.ConditionsLogSd, plain.FootShare, SurfaceShare(plain), skill, skill * s.DownShare, surface, technique);
        StepOutcome o = plain;
        if (_today is not null)
        {
            double[] m = _today.Mean;
            o = Stretch(plain, Math.Exp(m[TodayState.Ride] + (spread.Foot * m[TodayState.Foot]) + (spread.Surface * m[TodayState.Groups + surface])));
        }

        // The part of the step's group, and all other shared factors together with what they have in common with it.
        Span<int> factor = stackalloc int[StepSpread.Factors];
        Span<double> weight = stackalloc double[StepSpread.Factors];
        spread.Fill(factor, weight);
        double shared = 0;
        for (int i = 0; i < factor.Length; i++)
        {
            for (int j = 0; j < factor.Length; j++)
            {
                shared += weight[i] * weight[j] * State.Covariance[factor[i], factor[j]];
            }
        }

        shared = Math.Max(0, shared);
        double groupSd = Math.Min(Math.Sqrt(shared), (plain.CapLimited ? skill : spread.Surface) * State.LogSd(TodayState.Groups + group));
        double rideSd = Math.Sqrt(Math.Max(0, shared - (groupSd * groupSd)));
        double stepSd = s.TravelM > 0 ? Scatter * Math.Log(_options.Spread.HundredMetreGsdFactor) * Math.Min(1, Math.Sqrt(100 / s.TravelM)) : 0;
        return new StepPace(step, o, rideSd, groupSd, stepSd, group, spread, _massKg, FindingOf(s, o));
    }

    private static double Time(in StepPhysics s, TravelMode? only, double powerFactor, double capFactor) => only switch
    {
        null => StepKernel.Choose(s, powerFactor, capFactor).TimeS,
        TravelMode.Ride => StepKernel.Ridden(s, powerFactor, capFactor).TimeS,
        TravelMode.Coast => StepKernel.Coast(s, capFactor).TimeS,
        { } mode => StepKernel.OnFoot(s, mode, powerFactor).TimeS,
    };

    private static double Slope(double slow, double fast, double logStep)
    {
        double slope = Math.Log(slow / fast) / (2 * logStep);
        return double.IsFinite(slope) ? Math.Max(0, slope) : 0;
    }

    private static Finding? FindingOf(in StepPhysics s, in StepOutcome o)
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

        if ((o.Mode == TravelMode.Walk ? s.OwnLoadFactor : s.BikeLoadFactor) > WalkCostKernel.HeaviestLoadFactor)
        {
            return new Finding(EffortFindingCodes.HeavyFoot, FindingSeverity.Caution, "on foot",
                "What is carried, pushed or worn is more than 0.66 of the body, the largest load in the data of the walking cost.", new FindingValue("load_share", "0.66"));
        }

        if (o.SpeedMps > WalkCostKernel.LcdaFastestMps)
        {
            return new Finding(EffortFindingCodes.FastFoot, FindingSeverity.Caution, "on foot",
                string.Create(CultureInfo.InvariantCulture, $"{o.SpeedMps:F2} m/s is faster than the walks in the data of the walking cost (1.96 m/s)."), new FindingValue("speed_mps", Text.F(o.SpeedMps, 2)));
        }

        return null;
    }
}
