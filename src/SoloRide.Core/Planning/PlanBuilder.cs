using System.Globalization;
using SoloRide.Batteries;
using SoloRide.Contact;
using SoloRide.Daylight;
using SoloRide.Effort;
using SoloRide.Escape;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Internal;
using SoloRide.Kit;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Makes a plan of a course, part by part, in the order in which the parts need one another.</summary>
internal sealed partial class PlanBuilder
{
    [Source("assumption-walk-out-effort")]
    internal const double WalkWPerKg = 5.5;

    private const double ThunderLikelyPct = 30;

    [Source("assumption-dim-light", "minutes around civil dusk or dawn that need no lamp")]
    private const double DimSec = 600;

    /// <summary>Below it the factor of height is not worth a line.</summary>
    private const double AltitudeMattersM = 1000;

    /// <summary>Room in the bottles from which it is worth a word [L].</summary>
    private const double CountedRoomL = 0.25;

    private readonly RideRequest _request;
    private readonly RideCourse _course;
    private readonly ZoneOffsets _zone;
    private readonly List<Finding> _findings;
    private readonly CancellationToken _cancel;
    private readonly List<PlanAssumption> _assumptions = [];
    private readonly RideModel _model;
    private readonly WaterPlan _water;
    private readonly SimulationResult _middle;
    private readonly SectionTrace _trace;
    private readonly SectionTrace _bareTrace;
    private readonly ArrivalSpread _spread;
    private readonly double _level;
    private DateTimeOffset?[] _turn = [];
    private KitPlan? _kit;
    private TimeSpan? _tolerated;
    private double _waitColdestC;

    private readonly WalkOutProfile? _wholeWalk;
    private readonly double _offsetM;

    public PlanBuilder(RideRequest request, RideCourse course, ZoneOffsets zone, List<Finding> findings, CancellationToken cancel, WalkOutProfile? wholeWalk = null, double offsetM = 0, SunAlong? sun = null)
    {
        _wholeWalk = wholeWalk;
        _offsetM = offsetM;
        _request = request;
        _course = course;
        _zone = zone;
        _findings = findings;
        _cancel = cancel;
        _level = request.Options.ConfidenceLevel;
        _model = new RideModel(request, course, request.Start, zone, sun, findings, cancel);
        _water = WaterPlan.Of(_model, cancel);
        findings.AddRange(_water.Carry.Findings);
        SimulationInput input = _model.WithWater(_water.StartL, _water.FillToL, _water.TreatSecPerL);
        _trace = new SectionTrace(input.Sections);
        _middle = SimulationKernel.Middle(input, s => input.WetProbability[s] >= 0.5, _trace);
        _bareTrace = new SectionTrace(input.Sections);
        SimulationKernel.Middle(_model.WithWater(_water.Bare.StartL, _water.Bare.FillToL, _water.Bare.TreatSecPerL), s => input.WetProbability[s] >= 0.5, _bareTrace);
        input = WithLamp(input);
        _spread = ArrivalSpread.Of(input, _middle, request.Options, cancel);
    }

    public static RidePlan Refused(RideRequest request, RideCourse course, ZoneOffsets zone, List<Finding> findings)
    {
        findings.Add(new Finding(PlanningFindingCodes.NoHeights, FindingSeverity.Refusal, "Route", "Neither the route nor a terrain gives heights: times, water and food cannot be planned honestly."));
        (CheckedItem[] done, string[] notChecked) = Checks(request, zone, findings);
        SolarDay day = SolarDay.On(DateOnly.FromDateTime(zone.ToLocal(request.Start).DateTime), course.Places[0], zone);
        string light = day.CivilDusk.At is { } dusk ? $"Civil dusk is at {Text.Clock(dusk)}" : $"Civil dusk: {day.CivilDusk}";
        return new RidePlan
        {
            Title = Title(request),
            Start = zone.ToLocal(request.Start),
            Zone = zone,
            Route = request.Route,
            Length = request.Route.Length,
            Verdict = new PlanVerdict(PlanVerdictKind.Refused, $"Not planned: the route has no heights. {light}.", ["Give a route with heights, or a terrain model; tell home the start, the route and a time of alarm all the same."]),
            ConfidenceLevel = request.Options.ConfidenceLevel,
            Margins = [],
            Stations = [],
            Devices = [],
            Carry = [],
            Drivers = [],
            Samples = 0,
            Assumptions = [],
            Checked = done,
            NotChecked = notChecked,
            Findings = Sorted(findings),
        };
    }

    /// <summary>Time between the stations nearest to two places, stops included: P10 to P90 over the samples of the difference.</summary>
    public Estimate<TimeSpan> Between(Length from, Length to)
    {
        int a = StationNear(from.Meters) - 1, b = StationNear(to.Meters) - 1;
        double low = _spread.RemainingQuantile(a, b, 0.1), middle = _spread.RemainingQuantile(a, b, 0.5), high = _spread.RemainingQuantile(a, b, 0.9);
        return Estimate.Of(TimeSpan.FromSeconds(middle), TimeSpan.FromSeconds(Math.Min(low, middle)), TimeSpan.FromSeconds(Math.Max(high, middle)));
    }

    public RidePlan Build()
    {
        Missing();
        int n = _course.Stations.Count;
        Estimate<DateTimeOffset>[] arrivals = [.. Enumerable.Range(0, n).Select(Arrival)];
        List<Clock> clocks = Clocks(arrivals);
        (DateTimeOffset? At, string Why)[] latest = [.. Enumerable.Range(0, n).Select(i => LatestPass(clocks, i))];
        WalkOutProfile? walk = Walk();
        BikeFails? bike = walk is null ? null : Bike(walk, arrivals);
        PowerPlan? power = Power();
        double[] home = HomeSeconds();
        PlanHeat heat = Heat();
        _turn = [.. Enumerable.Range(0, n).Select(i => Turn(clocks, home, i))];
        PlanStation[] stations = [.. Enumerable.Range(0, n).Select(i => Station(i, arrivals, latest, walk, power))];
        var margins = new List<PlanMargin>();
        ClockMargins(clocks, margins);
        OpeningMargins(margins);
        WaterMargins(bike, margins);
        LampMargin(margins);
        ChargeMargins(power, margins);
        CannotMove wait = Wait(bike, power, margins, out TimeSpan? interval);
        PlanMargin[] sorted = [.. margins.OrderBy(IsCondition).ThenBy(m => m.Holds).ThenBy(m => m.InHandFraction).ThenBy(m => m.Name, StringComparer.Ordinal)];
        HomeTimes times = Home(arrivals, interval, out CheckInSchedule schedule);
        PlanNeeds needs = Needs();
        Ice();
        Extremes();
        Rough();
        ClockChange(latest.Select(l => l.At ?? times.Alarm).Append(times.Alarm).Max());
        (CheckedItem[] done, string[] notChecked) = Checks(_request, _zone, _findings);
        List<OutcomeDrivers> drivers = DriversOfAll();
        Assume();
        return new RidePlan
        {
            Title = Title(_request),
            Start = _zone.ToLocal(_request.Start),
            Zone = _zone,
            Route = _course.Route,
            Length = _course.Route.Length,
            Ascent = _course.Profile.Ascent,
            Descent = _course.Profile.Descent,
            Verdict = Verdict(sorted, latest[0].At),
            ConfidenceLevel = _level,
            Margins = sorted,
            LatestStart = latest[0].At,
            LatestStartReason = latest[0].Why,
            Finish = arrivals[^1],
            LateFinish = At(_spread.Quantile(n - 2, 0.95)),
            Moving = _spread.Of(SpreadOf.Moving, TimeSpan.FromSeconds),
            Dark = _spread.Of(SpreadOf.Dark, TimeSpan.FromSeconds),
            Stations = stations,
            Trace = Trace(walk),
            Hours = Hours(),
            Needs = needs,
            Heat = heat,
            Sun = SunOfRide(),
            BikeFails = bike,
            CannotMove = wait,
            Devices = power is null ? [] : [.. power.Devices.Select(d => Outlook(d, power))],
            Home = times,
            Schedule = schedule,
            Means = Means(),
            PointsOfNoReturn = NoReturns(home),
            Alternates = Alternates(arrivals, latest, walk),
            Carry = Carry(needs, bike, walk, wait),
            KitPlan = _kit,
            PowerPlan = power,
            IncidentWhatIf = Incident(clocks),
            Drivers = _spread.Drivers(n - 2),
            DriversOf = drivers,
            Convergence = _spread.Convergence(),
            Missing = MissingInputs(drivers),
            Samples = _spread.Samples,
            Assumptions = _assumptions,
            Checked = done,
            NotChecked = notChecked,
            Findings = Sorted(_findings),
        };
    }

    /// <summary>The samples behind the plan; null without.</summary>
    public SimulationResult? Samples => _spread.Result;

    private static string Title(RideRequest r) => r.Title.Length > 0 ? r.Title : r.Route.Name.Length > 0 ? r.Route.Name : "Ride";

    private static Finding[] Sorted(List<Finding> findings)
        => [.. findings.Distinct().OrderByDescending(f => f.Severity).ThenBy(f => f.Code, StringComparer.Ordinal).ThenBy(f => f.Subject, StringComparer.Ordinal)];

    private DateTimeOffset At(double sec) => _zone.ToLocal(_request.Start.AddSeconds(sec));

    private Estimate<DateTimeOffset> Arrival(int station)
    {
        if (station == 0)
        {
            return Estimate.Exact(_zone.ToLocal(_request.Start));
        }

        (double low, double middle, double high) = _spread.Range(station - 1);
        return Estimate.Of(At(middle), At(low), At(high));
    }

    private void Missing()
    {
        DateTimeOffset end = _request.Start.AddSeconds(_spread.Quantile(_course.Stations.Count - 2, 0.95));
        if (!_model.Weather.HasForecast)
        {
            _findings.Add(new Finding(
                PlanningFindingCodes.NoForecast, FindingSeverity.Caution, "Weather",
                $"No forecast is given: {Text.F(WeatherAlong.AssumedAirC, 0)} C, {Text.F(WeatherAlong.AssumedHumidityPct, 0)} % and a clear sky stand in, with a wide spread. Heat, cold, wind and storms are not judged."));
        }
        else if (!_model.Weather.Covers(_request.Start, end))
        {
            _findings.Add(new Finding(
                PlanningFindingCodes.ForecastShort, FindingSeverity.Warning, "Weather",
                _model.Weather.Reaches(_request.Start, end)
                    ? $"The forecast does not cover the whole ride from {Text.Clock(_zone.ToLocal(_request.Start))} to {PlanText.ClockOn(_zone.ToLocal(end), _zone.ToLocal(_request.Start))}; beyond it the nearest hour is held."
                    : $"The forecast does not reach the ride: it ends or begins on another day, and its nearest hour is held. Heat, cold, wind and storms are not judged."));
        }

        Add(_request.Exits.Count == 0, PlanningFindingCodes.NoExits, FindingSeverity.Caution, "Exits", _request.EndsAreExits ? "No ways out are given: only start and finish count, along the route." : "No ways out are given.");
        Add(_request.Sources.Count == 0, PlanningFindingCodes.NoSources, FindingSeverity.Note, "Sources", "No sources of water are given: everything is carried from the start.");
        Add(_request.Devices.Count == 0, PlanningFindingCodes.NoDevices, FindingSeverity.Caution, "Devices", "No lamp and no device is given: light by lamp and charge are not planned.");
        Add(_request.FailureRates.Count == 0, PlanningFindingCodes.NoLog, FindingSeverity.Note, "FailureRates", "No log of breakdowns: none is sampled. One incident is shown as a what-if.");
        Add(_request.Rider.Mass is null || _model.Pace.Effort.Basis == EffortBasis.Prior,
            PlanningFindingCodes.NoRider, FindingSeverity.Caution, "Rider", $"{(_request.Rider.Mass is null ? _model.Pace.Effort.Basis == EffortBasis.Prior ? "Body mass and sustained effort are" : "Body mass is" : "Sustained effort is")} not given: a wide prior stands in. A climbing rate or one timed ride would narrow the arrival most.");
        Add(_spread.Samples == 0, PlanningFindingCodes.Typical, FindingSeverity.Note, "Options.Samples", "No samples were asked for: ranges come from a closed form, chances of shortfall are not given.");

        void Add(bool when, string code, FindingSeverity severity, string subject, string message)
        {
            if (when)
            {
                _findings.Add(new Finding(code, severity, subject, message));
            }
        }
    }

    /// <summary>A closing time at the end of a stretch, as a station that must be passed before it.</summary>
    private sealed record Clock(MarginKind Kind, string Name, int Station, DateTimeOffset Closes, double ReserveSec)
    {
        public bool OnlyTold { get; init; }

        /// <summary>Whether an earlier start would help: not when it is already so for all the time that can be looked back.</summary>
        public bool Mends { get; init; } = true;
    }

    private List<Clock> Clocks(Estimate<DateTimeOffset>[] arrivals)
    {
        var clocks = new List<Clock>();
        int finish = _course.Stations.Count - 1;
        double lampSec = LampSeconds();
        double reserve = _request.Options.DaylightReserve.TotalSeconds;
        if (LightEnds(lampSec) is { } light)
        {
            if (lampSec > 0)
            {
                clocks.Add(new Clock(MarginKind.LampLight, "end of lamp light", finish, At(light.EndSec), reserve));
            }

            // With a lamp the dusk is only told, as long as it is not passed.
            if (light.DuskSec is { } d && (lampSec <= 0 || d - reserve >= _spread.Quantile(finish - 1, _level)))
            {
                clocks.Add(new Clock(MarginKind.Daylight, "civil dusk", finish, At(d), reserve) { OnlyTold = lampSec > 0 });
            }
        }

        foreach (Deadline deadline in _request.Deadlines)
        {
            if (deadline.Closes is { } closes)
            {
                MarginKind kind = deadline.Kind switch
                {
                    DeadlineKind.Storm => MarginKind.Storm,
                    DeadlineKind.Heat => MarginKind.Heat,
                    DeadlineKind.Light => MarginKind.Daylight,
                    _ => MarginKind.Clock,
                };
                clocks.Add(new Clock(kind, deadline.Name, StationNear(deadline.To.Meters), closes, 0));
            }
        }

        if (_model.Weather.HasForecast)
        {
            int top = Top();
            if (Onset(w => w.ThunderPct >= ThunderLikelyPct, arrivals[^1].High) is { } thunder && !_request.Deadlines.Any(x => x.Kind == DeadlineKind.Storm))
            {
                clocks.Add(new Clock(MarginKind.Storm, "thunder", top, thunder.At, 0) { Mends = thunder.Mends });
            }

            for (int g = 0; g < _model.Sweat.Columns; g++)
            {
                if (_model.Sweat.Category[g] >= HeatCategory.Four)
                {
                    clocks.Add(new Clock(MarginKind.Heat, "heat category 4", finish, _request.Start.AddHours(g), 0) { Mends = g > 0 });
                    break;
                }
            }
        }

        return clocks;
    }

    private int Top()
    {
        int top = 0;
        for (int i = 1; i < _course.Stations.Count; i++)
        {
            top = PlaceOf(i).ElevationM > PlaceOf(top).ElevationM ? i : top;
        }

        return top;
    }

    /// <summary>
    /// When bad weather begins at the highest point: looked for from the start on, and back from it where it is bad already.
    /// Bad all through a day before, or as far back as the forecast reaches, an earlier start does not mend.
    /// </summary>
    private (DateTimeOffset At, bool Mends)? Onset(Func<Weather, bool> bad, DateTimeOffset until)
    {
        GeoPoint top = PlaceOf(Top());
        TimeSpan step = TimeSpan.FromMinutes(15);
        if (Bad(_request.Start))
        {
            for (DateTimeOffset t = _request.Start - step; t >= _request.Start.AddDays(-1) && _model.Weather.Covers(t, t); t -= step)
            {
                if (!Bad(t))
                {
                    return (t + step, true);
                }
            }

            return (_request.Start, false);
        }

        for (DateTimeOffset t = _request.Start; t <= until.AddHours(1); t += step)
        {
            if (Bad(t))
            {
                return (t, true);
            }
        }

        return null;

        bool Bad(DateTimeOffset t) => bad(_model.Weather.Known(t, top));
    }

    /// <summary>
    /// When light ends for this start [s]: at dusk, or as much later as the best single lamp lasts; a start in the dark uses the lamp first, and without one
    /// light has ended at the dusk before. Null when it never gets dark.
    /// </summary>
    private (double EndSec, double? DuskSec)? LightEnds(double lampSec)
    {
        double[] marks = _model.DarkSec;
        double? next = null;
        for (int i = 0; i < marks.Length && next is null; i += 2)
        {
            next = marks[i] > 0 ? marks[i] : null;
        }

        bool dark = marks.Length > 0 && marks[0] <= 0;
        double dawn = !dark ? 0 : marks.Length > 1 ? marks[1] : double.PositiveInfinity;
        if (dawn <= DimSec)
        {
            return next is { } dusk ? (dusk + lampSec, dusk) : null;
        }

        if (lampSec <= 0)
        {
            // Nearer to dawn than to dusk the night ends soon and the next dusk counts: the dark before dawn is judged by itself.
            double before = double.IsNaN(_model.DuskBeforeSec) ? 0 : _model.DuskBeforeSec;
            return dawn < -before ? next is { } evening ? (evening, evening) : null : (before, before);
        }

        return dawn > lampSec ? (lampSec, null) : next is { } d ? (d + lampSec - dawn, d) : null;
    }

    /// <summary>A way out that the route passes twice has one name for people.</summary>
    private static string PlaceName(string exit) => exit.EndsWith(RideCourse.Again, StringComparison.Ordinal) ? exit[..^RideCourse.Again.Length] : exit;

    private int StationNear(double m)
    {
        int best = 0;
        for (int i = 1; i < _course.Stations.Count; i++)
        {
            best = Math.Abs(_course.Stations[i].AlongM - m) < Math.Abs(_course.Stations[best].AlongM - m) ? i : best;
        }

        return best;
    }

    private GeoPoint PlaceOf(int station) => _course.Places[_course.StepOfStation[station] + 1];

    private (DateTimeOffset? At, string Why) LatestPass(List<Clock> clocks, int station)
    {
        DateTimeOffset? best = null;
        string why = "";
        foreach (Clock c in clocks)
        {
            if (c.Station < station || c.OnlyTold)
            {
                continue;
            }

            if (!c.Mends)
            {
                return (null, $"None: {c.Name} stands from the start on; choose another time or day.");
            }

            double remaining = _spread.RemainingQuantile(station - 1, c.Station - 1, _level);
            DateTimeOffset at = c.Closes.AddSeconds(-remaining - c.ReserveSec);
            if (best is null || at < best)
            {
                best = at;
                why = c.ReserveSec > 0 ? $"{c.Name} {Text.Clock(_zone.ToLocal(c.Closes))} less {Text.Span(TimeSpan.FromSeconds(c.ReserveSec))} reserve" : $"{c.Name} {Text.Clock(_zone.ToLocal(c.Closes))}";
            }
        }

        return (best is { } b ? _zone.ToLocal(b) : null, why);
    }

    /// <summary>Typical time from each station back to the start along the route, ridden [s].</summary>
    private double[] HomeSeconds()
    {
        int n = _course.Steps.Length;
        var reversed = new TrailStep[n];
        for (int i = 0; i < n; i++)
        {
            reversed[i] = _course.Steps[n - 1 - i].Reversed();
        }

        double stops = 1 + _model.Input.StopShare;
        IReadOnlyList<StepPace> paces = _model.Pace.Along(reversed, (i, _) => new StepConditions { Weather = _model.Weather.Known(_request.Start.AddSeconds(_middle.FinishSec[0] / 2), _course.Places[n - 1 - i]) }, _cancel).Steps;
        var toStart = new double[n + 1];
        for (int i = 0; i < n; i++)
        {
            toStart[i + 1] = toStart[i] + (paces[n - 1 - i].TypicalS * stops);
        }

        return [.. _course.StepOfStation.Select(s => toStart[s + 1])];
    }

    /// <summary>Latest turning back so that the start is reached before every clock that stands at the finish, when the finish lies at the start.</summary>
    private DateTimeOffset? Turn(List<Clock> clocks, double[] home, int station)
    {
        int finish = _course.Stations.Count - 1;
        double sigma = _model.Input.SharedSigma;
        DateTimeOffset? best = null;
        foreach (Clock c in clocks.Where(c => c.Station == finish && !c.OnlyTold && c.Mends))
        {
            DateTimeOffset at = c.Closes.AddSeconds(-c.ReserveSec - (home[station] * Math.Exp(NormalKernel.Quantile(_level) * sigma)));
            best = best is null || at < best ? at : best;
        }

        return best is { } b ? _zone.ToLocal(b) : null;
    }

    private List<NoReturn> NoReturns(double[] home)
    {
        int n = _course.Stations.Count;
        var legs = new List<ReturnLeg>();
        for (int i = 1; i < n; i++)
        {
            double length = _course.EndM[_course.StepOfStation[i]] - (_course.StepOfStation[i - 1] < 0 ? 0 : _course.EndM[_course.StepOfStation[i - 1]]);
            double before = i == 1 ? 0 : _middle.ArrivalSec[i - 2];
            legs.Add(new ReturnLeg(Length.FromMeters(length), TimeSpan.FromSeconds(_middle.ArrivalSec[i - 1] - before), TimeSpan.FromSeconds(Math.Max(0, home[i] - home[i - 1]))));
        }

        double hours = _middle.FinishSec[0] / 3600;
        double rate = _spread.Of(SpreadOf.Wanted, _level) / Math.Max(0.1, hours);
        double reserve = Math.Min(_request.Options.WaterReserve.Liters, _water.StartL);
        var accounts = new List<ResourceAccount>
        {
            new(ResourceAmount.Water(Volume.FromLiters(_water.StartL)), ResourceAmount.Water(Volume.FromLiters(reserve)))
            {
                Capacity = ResourceAmount.Water(Volume.FromLiters(Math.Max(_water.StartL, _request.Load.WaterCapacity.Liters))),
                Refills = [.. _course.Stations.Where(s => s.Source >= 0).Select(s => _request.Sources[s.Source] with { Name = $"{s.Name} {Text.F(s.AlongM, 0)}", AlongRoute = Length.FromMeters(s.AlongM) })],
            },
        };
        if (LightEnds(LampSeconds()) is { } light && light.EndSec > _request.Options.DaylightReserve.TotalSeconds)
        {
            accounts.Add(new ResourceAccount(ResourceAmount.Time(TimeSpan.FromSeconds(light.EndSec)), ResourceAmount.Time(_request.Options.DaylightReserve)));
        }

        PointsOfNoReturn points = PointOfNoReturnPlanner.Find(legs, accounts, [new ResourceRate(ResourceKind.Water, TravelMode.Ride, rate)]);
        return
        [
            .. points.Points.Where(p => p.AllDry is not null)
                .Select(p => new NoReturn(p.Kind, p.AllDry!.Value, At(ClockAt(p.AllDry.Value.Meters))))
                .OrderBy(p => p.AlongRoute.Meters).ThenBy(p => p.Resource),
        ];
    }

    private void ClockMargins(List<Clock> clocks, List<PlanMargin> margins)
    {
        foreach (Clock c in clocks)
        {
            double arrival = c.Station == 0 ? 0 : _spread.Quantile(c.Station - 1, _level);
            double inHand = (c.Closes - _request.Start).TotalSeconds - arrival - c.ReserveSec;
            double needed = Math.Max(600, arrival);
            double late = c.Station == 0 ? double.NaN : _spread.ShareAfter(c.Station - 1, (c.Closes - _request.Start).TotalSeconds);
            string place = c.Station == _course.Stations.Count - 1 ? "at the finish" : $"at {StationName(c.Station)}";
            margins.Add(new PlanMargin
            {
                Kind = c.Kind,
                Name = $"{c.Name} {place}",
                AlongRoute = Length.FromMeters(_course.Stations[c.Station].AlongM),
                Time = TimeSpan.FromSeconds(inHand),
                ShortfallProbability = late,
                InHandFraction = inHand / needed,
                Holds = inHand >= 0,
                Amount = inHand >= 0
                    ? $"{Text.Span(TimeSpan.FromSeconds(inHand))} in hand"
                    : $"{Text.Span(TimeSpan.FromSeconds(-inHand))} missing",
            });
        }
    }

    /// <summary>Stretches that are not open yet when the rider may be there.</summary>
    private void OpeningMargins(List<PlanMargin> margins)
    {
        foreach (Deadline d in _request.Deadlines)
        {
            if (d.Opens is not { } opens)
            {
                continue;
            }

            int station = StationNear(d.From.Meters);
            double early = station == 0 ? 0 : _spread.Quantile(station - 1, 1 - _level);
            double after = early - (opens - _request.Start).TotalSeconds;
            margins.Add(new PlanMargin
            {
                Kind = MarginKind.Clock,
                Name = $"{d.Name} open from {PlanText.ClockOn(_zone.ToLocal(opens), _request.Start)} at {(station == 0 ? "the start" : StationName(station))}",
                AlongRoute = Length.FromMeters(_course.Stations[station].AlongM),
                Time = TimeSpan.FromSeconds(after),
                ShortfallProbability = station == 0 ? double.NaN : 1 - _spread.ShareAfter(station - 1, (opens - _request.Start).TotalSeconds),
                InHandFraction = after / Math.Max(600, early),
                Holds = after >= 0,
                Amount = after >= 0 ? $"{Text.Span(TimeSpan.FromSeconds(after))} in hand" : $"{Text.Span(TimeSpan.FromSeconds(-after))} too early: start that much later, or wait there",
            });
        }
    }

    private string StationName(int i)
    {
        StationSeed s = _course.Stations[i];
        return s.Kind == StationKind.Mark ? $"km {Text.F(s.AlongM / 1000, 1)}" : $"{s.Name} (km {Text.F(s.AlongM / 1000, 1)})";
    }

    private void WaterMargins(BikeFails? bike, List<PlanMargin> margins)
    {
        // In hand at the least, less what was wanted and not there; the reserve must be left whole.
        double reserve = _request.Options.WaterReserve.Liters;
        double left = _spread.WaterLeftQuantile(1 - _level), lack = reserve - left;
        if (_spread.Samples == 0 && _request.StartWater is null)
        {
            // Without samples the carry planner's own answer stands.
            lack = _water.Enough ? Math.Min(0, lack) : Math.Max(lack, _water.Carry.MissingCapacity.Liters);
        }

        bool holds = lack <= WaterPlan.CountedToL;
        double room = _request.StartWater is null && _water.Enough ? Math.Max(0, _request.Load.WaterCapacity.Liters - Math.Max(_water.StartL, _water.FillToL.DefaultIfEmpty(0).Max())) : 0;
        double p = _spread.ShortWaterShare();
        int where = LeastStation();
        margins.Add(new PlanMargin
        {
            Kind = MarginKind.Water,
            Name = where < 0 ? "water" : $"water before {StationName(where)}",
            AlongRoute = where < 0 ? null : Length.FromMeters(_course.Stations[where].AlongM),
            Water = Volume.FromLiters(holds ? Math.Max(0, left) : -lack),
            ShortfallProbability = p,
            InHandFraction = (room - lack) / Math.Max(0.1, _water.NeedL),
            Holds = holds,
            Amount = holds
                ? $"{Text.F(Math.Max(0, left), 1)} L in hand{(room >= CountedRoomL ? $" and room for {Text.F(room, 1)} L more" : "")}"
                : $"{Text.F(lack, 1)} L missing{(reserve > 0 ? $", the reserve of {Text.F(reserve, 1)} L counted" : "")}",
        });
        if (!_water.Enough && _water.Carry.MissingCapacity.Liters > WaterPlan.CountedToL)
        {
            _findings.Add(new Finding(
                PlanningFindingCodes.CapacityShort, FindingSeverity.Warning, "Load.WaterCapacity",
                $"Bottles and bladders hold {Text.F(_request.Load.WaterCapacity.Liters, 1)} L; {Text.F(_water.Carry.MissingCapacity.Liters, 1)} L more are needed between trusted sources.",
                new FindingValue("missing_l", Text.F(_water.Carry.MissingCapacity.Liters, 2))));
        }

        if (bike is { } b)
        {
            // The reserve stays apart here too: it is for what nobody planned.
            double atWorst = WaterAt(b.WorstAt.Meters);
            double rest = atWorst - b.Water.Liters;
            bool enough = rest >= -WaterPlan.CountedToL;
            margins.Add(new PlanMargin
            {
                Kind = MarginKind.Water,
                Name = string.Create(CultureInfo.InvariantCulture, $"water for the walk out from km {b.WorstAt.Kilometers:F1}"),
                AlongRoute = b.WorstAt,
                AfterTrouble = true,
                Water = Volume.FromLiters(rest),
                ShortfallProbability = double.NaN,
                InHandFraction = rest / Math.Max(0.1, b.Water.Liters),
                Holds = enough,
                Amount = enough ? $"{Text.F(Math.Max(0, rest), 1)} L in hand" : $"{Text.F(-rest, 1)} L missing; walk in shade or the cool, or carry that much more",
            });
        }
    }

    private int LeastStation()
    {
        int best = -1;
        double least = double.PositiveInfinity;
        for (int i = 1; i < _course.Stations.Count; i++)
        {
            double w = _middle.Water(i - 1)[0];
            if (w < least)
            {
                least = w;
                best = i;
            }
        }

        return best;
    }

    /// <summary>Water in hand at the typical pace [L], the reserve kept apart.</summary>
    private double WaterAt(double alongM) => _bareTrace.WaterL[SectionAt(alongM)];

    private double ClockAt(double alongM) => _trace.ClockSec[SectionAt(alongM)];

    /// <summary>The section that ends at or after a distance.</summary>
    private int SectionAt(double alongM)
    {
        int low = 0, high = _trace.ClockSec.Length - 1;
        while (low < high)
        {
            int middle = (low + high) / 2;
            if (_model.SectionEndM(middle) >= alongM - 1e-6)
            {
                high = middle;
            }
            else
            {
                low = middle + 1;
            }
        }

        return low;
    }

    private WalkOutProfile? Walk()
    {
        if (_wholeWalk is not null)
        {
            return _wholeWalk;
        }

        (WalkOutProfile? profile, IReadOnlyList<Finding> findings) = WalkOf(_course, _model.Pace);
        _findings.AddRange(findings);
        return profile;
    }

    public static (WalkOutProfile? Profile, IReadOnlyList<Finding> Findings) WalkOf(RideCourse course, PaceModel pace)
    {
        if (course.Exits.Count == 0)
        {
            return (null, []);
        }

        ExitGraph graph = ExitGraph.Build(new EscapeRoute { Steps = course.Steps, Exits = course.Exits, Places = course.Places });
        WalkOutProfile profile = graph.WalkOut(EscapePace.FromModel(pace, TravelMode.Push));
        return (profile, [.. graph.Findings, .. profile.Findings]);
    }

    private Length OnWhole(WalkOutProfile walk, double alongM) => Length.FromMeters(Math.Clamp(alongM + _offsetM, 0, walk.RouteLength.Meters));

    /// <summary>The worst place from here on.</summary>
    private WalkOutPoint? WorstFrom(WalkOutProfile walk)
        => _offsetM <= 0
            ? walk.Worst
            : walk.Points.Where(p => p.AlongRoute.Meters >= _offsetM && p.Time is not null).Append(walk.At(OnWhole(walk, 0))).Where(p => p.Time is not null).MaxBy(p => p.Time!.Typical);

    private BikeFails? Bike(WalkOutProfile walk, Estimate<DateTimeOffset>[] arrivals)
    {
        if (WorstFrom(walk) is not { Time: { } time, Exit: { } exit } worst)
        {
            return null;
        }

        double worstM = Math.Max(0, worst.AlongRoute.Meters - _offsetM);

        double late = _spread.Samples > 0 ? Math.Exp(NormalKernel.Z90 * _model.Input.SharedSigma) : 1;
        double clock = ClockAt(worstM) * late;
        double hours = time.High.TotalHours;
        // One margin, not two: time and sweat are high together only as often as the level says.
        double timeSigma = Math.Log(time.High / time.Typical) / NormalKernel.Z90;
        double mass = RideModel.BodyKg(_request.Rider);
        double walkW = WalkWPerKg * mass;
        int column = Math.Clamp((int)Math.Round((clock + (time.Typical.TotalSeconds / 2)) / 3600), 0, _model.Sweat.Columns - 1);
        (double sweat, _, _, _, double above, _) = _model.Sweat.At(column, _course.PlaceAt(worstM).ElevationM, walkW);
        double sweatSigma = sweat > 0 ? Math.Log(1 + (above / sweat)) / NormalKernel.Z90 : 0;
        double litres = Math.Min(sweat * _request.Options.IntakeFraction * time.Typical.TotalHours * Math.Exp(NormalKernel.Z90 * Math.Sqrt((timeSigma * timeSigma) + (sweatSigma * sweatSigma))), HydrationLimits.HourlyMaximumL * hours);
        return new BikeFails
        {
            WorstAt = Length.FromMeters(worstM),
            WalkOut = time,
            ExitName = PlaceName(exit),
            Mode = TravelMode.Push,
            Water = Volume.FromLiters(litres),
            Food = Energy.FromKilocalories(walkW * time.High.TotalSeconds / SimulationKernel.JoulesPerKcal),
            Dark = TimeSpan.FromSeconds(DarkOverlap(clock, clock + time.High.TotalSeconds)),
            Remote = (walk.ShareAbove(TimeSpan.FromHours(1)).DecimalFractions, walk.ShareAbove(TimeSpan.FromHours(2)).DecimalFractions),
        };
    }

    private double DarkOverlap(double from, double to)
    {
        double sum = 0;
        double[] marks = _model.DarkSec;
        for (int i = 0; i < marks.Length; i += 2)
        {
            double end = i + 1 < marks.Length ? marks[i + 1] : double.PositiveInfinity;
            sum += Math.Max(0, Math.Min(to, end) - Math.Max(from, marks[i]));
        }

        return sum;
    }

    private double LampSeconds() => Lamp().LowSec;

    /// <summary>Seconds of light of the best single lamp in its usual mode, the reserve kept apart: low, typical.</summary>
    private (double LowSec, double TypicalSec) Lamp()
    {
        (double Low, double Typical) best = (0, 0);
        foreach (Device d in _request.Devices.Where(d => d.Kind is DeviceKind.HeadLamp or DeviceKind.BarLamp))
        {
            // The usual mode in the dark, the one that the charge planner lights too.
            if (d.Modes.FirstOrDefault(m => m.Use == ModeUse.Lighting) is not { } mode)
            {
                continue;
            }

            double air = _model.Weather.Filled(_request.Start.AddSeconds(_middle.FinishSec[0]), _course.Places[^1]).AirTempC;
            Estimate<Energy> usable = d.Pack.UsableEnergy(Temperature.FromDegreesCelsius(Math.Clamp(air, -40, 50)), mode.Power.Typical, d.StartChargeFraction, d.IdleSince);
            double perJoule = (1 - _request.Options.ChargeReserveFraction) / (double)mode.Power.Typical.Watts;
            if (usable.Low.Joules * perJoule > best.Low)
            {
                best = (usable.Low.Joules * perJoule, usable.Typical.Joules * perJoule);
            }
        }

        return best;
    }

    private PowerPlan? Power()
    {
        if (_request.Devices.Count == 0)
        {
            return null;
        }

        PowerPlan plan = PowerPlanner.Plan(PowerAsked(), _cancel);
        _findings.AddRange(plan.Findings);
        return plan;
    }

    /// <summary>What the charge planner is asked: the ride up to the finish at the confidence asked for, in stretches of an hour cut at dusk and dawn, and a night out after it.</summary>
    internal PowerRequest PowerAsked()
    {
        var timeline = new List<PowerInterval>();
        double slow = Math.Max(1, _spread.Quantile(_course.Stations.Count - 2, _level) / _middle.FinishSec[0]);
        double finish = slow * _middle.FinishSec[0];
        var cuts = new SortedSet<double> { 0, finish };
        for (double t = 3600; t < finish; t += 3600)
        {
            cuts.Add(t);
        }

        foreach (double mark in _model.DarkSec.Where(m => m > 0 && m < finish))
        {
            cuts.Add(mark);
        }

        double[] at = [.. cuts];
        for (int i = 1; i < at.Length; i++)
        {
            timeline.Add(Interval(at[i - 1], at[i], i == at.Length - 1 || i == 1 ? 1 : 0, true));
        }

        var night = new List<PowerInterval>();
        for (int h = 0; h < 12; h++)
        {
            night.Add(Interval(finish + (h * 3600), finish + ((h + 1) * 3600), h == 0 ? 3 : 0, false));
        }

        return new PowerRequest
        {
            Devices = _request.Devices,
            Timeline = timeline,
            UnplannedNight = night,
            Bank = _request.Bank,
            Beacon = _request.Beacon,
            Date = DateOnly.FromDateTime(_zone.ToLocal(_request.Start).DateTime),
            Ways = _request.Ways,
            ReserveFraction = _request.Options.ChargeReserveFraction,
            Samples = Math.Min(_request.Options.Samples, 2000),
            Seed = (int)(_request.Options.Seed & 0x7FFFFFFF),
        };

        PowerInterval Interval(double from, double to, int messages, bool riding)
        {
            double middle = (from + to) / 2;
            GeoPoint place = _course.Places[Math.Min(_course.Places.Length - 1, PlaceIndexAt(middle / slow))];
            Weather w = _model.Weather.Filled(_request.Start.AddSeconds(middle), place);
            return new PowerInterval
            {
                Duration = TimeSpan.FromSeconds(to - from),
                AirTemperature = Temperature.FromDegreesCelsius(Math.Clamp(w.AirTempC, -40, 60)),
                Wind = Speed.FromMetersPerSecond(Math.Clamp(w.WindMps, 0, 30)),
                IsDark = riding && DarkOverlap(middle, middle + 1) > 0,
                Messages = messages,
            };
        }
    }

    private int PlaceIndexAt(double sec)
    {
        int j = Array.BinarySearch(_trace.ClockSec, sec);
        j = j < 0 ? Math.Min(~j, _trace.ClockSec.Length - 1) : j;
        return _course.StepEndingAt(_model.SectionEndM(j)) + 1;
    }

    private void LampMargin(List<PlanMargin> margins)
    {
        double dark = _spread.Of(SpreadOf.Dark, _level);
        if (dark < DimSec)
        {
            return;
        }

        double lamp = LampSeconds();
        double inHand = lamp - dark;
        if (lamp <= 0)
        {
            margins.Add(new PlanMargin
            {
                Kind = MarginKind.LampLight,
                Name = "lamp light for the dark part",
                Time = TimeSpan.FromSeconds(-dark),
                ShortfallProbability = _spread.ShareDark(DimSec),
                InHandFraction = -1,
                Holds = false,
                Amount = $"{Text.Span(TimeSpan.FromSeconds(dark))} of dark and no lamp",
            });
            return;
        }

        margins.Add(new PlanMargin
        {
            Kind = MarginKind.LampLight,
            Name = "lamp energy of the best single lamp",
            Time = TimeSpan.FromSeconds(inHand),
            ShortfallProbability = _spread.ShareUnlit(),
            InHandFraction = inHand / dark,
            Holds = inHand >= 0,
            Amount = inHand >= 0 ? $"{Text.Span(TimeSpan.FromSeconds(inHand))} in hand after {Text.Span(TimeSpan.FromSeconds(dark))} of dark" : $"{Text.Span(TimeSpan.FromSeconds(-inHand))} missing",
        });
    }

    private static void ChargeMargins(PowerPlan? power, List<PlanMargin> margins)
    {
        foreach (DevicePower d in power?.Devices ?? [])
        {
            if (d.Device.Kind is DeviceKind.HeadLamp or DeviceKind.BarLamp or DeviceKind.RearLamp or DeviceKind.DriveBattery)
            {
                continue;
            }

            double need = d.Needed.High.WattHours;
            double left = d.Usable.Low.WattHours - need;
            margins.Add(new PlanMargin
            {
                Kind = MarginKind.Charge,
                Name = $"charge of {d.Device.Name} through a night out",
                Charge = Energy.FromWattHours(left),
                ShortfallProbability = 1 - d.LastsNightWithBankProbability,
                InHandFraction = need > 0 ? left / need : 1,
                Holds = d.LastsNightWithBankProbability >= 0.9 || left >= 0,
                Amount = left >= 0 ? $"{Text.F(left, 1)} Wh in hand" : d.LastsNightWithBankProbability >= 0.9 ? "enough with the bank" : $"{Text.F(-left, 1)} Wh missing",
            });
        }
    }

    private CannotMove Wait(BikeFails? bike, PowerPlan? power, List<PlanMargin> margins, out TimeSpan? interval)
    {
        PlanOptions o = _request.Options;
        double from = bike is null ? _middle.FinishSec[0] / 2 : ClockAt(bike.WorstAt.Meters);
        GeoPoint place = bike is null ? _course.Places[_course.Places.Length / 2] : _course.PlaceAt(bike.WorstAt.Meters);
        TimeSpan response = WaitingPlanner.ResponseTime(o.Response);
        var hours = new List<Weather>();
        for (int h = 0; h < (int)Math.Ceiling(response.TotalHours); h++)
        {
            Weather w = _model.Weather.Filled(_request.Start.AddSeconds(from + (h * 3600)), place);
            hours.Add(w);
        }

        WaitAir air = WaitAir.Of(hours);
        double coldest = _waitColdestC = air.ColdestC;

        TimeSpan? cold = null;
        if (_request.WaitingOutfit is { } outfit)
        {
            NightOut night = NightOut.Through(new NightRequest { Weather = hours, Outfit = outfit, Shelter = _request.WaitingShelter });
            cold = night.EarliestStrainLimit;
            _findings.AddRange(night.Findings);
        }

        DevicePower? messenger = power?.Devices.FirstOrDefault(d => d.Device.Kind == DeviceKind.Messenger);
        var situation = new WaitingSituation
        {
            ColdLimit = cold,
            HeatLimit = air.HeatLimit,

            // What is in hand at the place of the wait without the reserve, drunk at rest and not while riding, and then body water up to the published deficit.
            Water = Volume.FromLiters(Math.Max(0, WaterAt(bike?.WorstAt.Meters ?? _course.TotalM / 2))),
            BodyWater = WaitAir.BodyWater(_request.Rider),
            MeanAir = Temperature.FromDegreesCelsius(air.MeanC),
            BeaconLife = _request.Beacon is null ? null : TimeSpan.FromHours(24),
            Charge = messenger?.UsableAtEnd,
            ChargeDraw = messenger is null ? null : messenger.Device.Modes.Where(m => m.Use is ModeUse.Standby or ModeUse.Tracking).Select(m => (Power?)m.Power.Typical).FirstOrDefault(),
            Air = Temperature.FromDegreesCelsius(coldest),
        };
        bool canCall = messenger is not null || _request.Beacon is not null;
        WaitingPlan plan = WaitingPlanner.Plan(situation, o.Response, canCall ? null : o.MessageInterval, o.Grace, o.Reaction);
        DetectionDelay silence = WaitingPlanner.Detection(o.MessageInterval, o.Grace);
        interval = plan.LongestInterval is { } longest && longest < o.MessageInterval ? longest : o.MessageInterval;
        _tolerated = plan.Tolerable.Time;
        _findings.AddRange(plan.Findings);
        var carry = new List<string>();
        if (plan.WaterNeeded.Liters > 0)
        {
            carry.Add(string.Create(CultureInfo.InvariantCulture, $"{plan.WaterNeeded.Liters:F1} L of water or a way to make it"));
        }

        carry.Add(coldest > WaitAir.NoBagAboveC
            ? string.Create(CultureInfo.InvariantCulture, $"shade for up to {air.HottestC:F0} C")
            : string.Create(CultureInfo.InvariantCulture, $"clothing and a barrier bag for {coldest:F0} C"));
        carry.Add(canCall ? "messenger or beacon on the body" : "a light and a whistle on the body");
        if (plan.Tolerable.Time is { } t)
        {
            TimeSpan inHand = t - plan.Wait;
            margins.Add(new PlanMargin
            {
                Kind = MarginKind.Wait,
                AfterTrouble = true,
                Name = $"waiting for help ({plan.Tolerable.Binding})",
                Time = inHand,
                ShortfallProbability = double.NaN,
                InHandFraction = inHand / plan.Wait,
                Holds = inHand >= TimeSpan.Zero,
                Amount = inHand >= TimeSpan.Zero ? $"{Text.Span(inHand)} in hand" : $"{Text.Span(-inHand)} missing",
            });
        }

        return new CannotMove
        {
            Detection = canCall ? (TimeSpan.Zero, TimeSpan.Zero) : (silence.Mean, silence.Worst),
            Response = plan.Response,
            ResponseClass = $"class {o.Response}, an assumption",
            TolerableWait = plan.Tolerable.Time,
            LimitedBy = plan.Tolerable.Binding ?? "not known",
            Carry = carry,
        };
    }

    private PlanStation Station(int i, Estimate<DateTimeOffset>[] arrivals, (DateTimeOffset? At, string Why)[] latest, WalkOutProfile? walk, PowerPlan? power)
    {
        StationSeed s = _course.Stations[i];
        GeoPoint place = PlaceOf(i);
        Weather w = _model.Weather.Known(arrivals[i].Typical, place);
        Estimate<Volume> water = i == 0
            ? Estimate.Exact(Volume.FromLiters(_water.StartL))
            : _spread.Water(i - 1);
        WalkOutPoint? way = walk?.At(OnWhole(walk, s.AlongM));
        return new PlanStation
        {
            Name = s.Name,
            Kind = s.Kind,
            AlongRoute = Length.FromMeters(s.AlongM),
            Place = place,
            Arrival = arrivals[i],
            LateArrival = i == 0 ? _zone.ToLocal(_request.Start) : At(_spread.Quantile(i - 1, 0.95)),
            LatestPass = latest[i].At,
            LatestPassReason = latest[i].Why,
            TurnAround = i == 0 ? null : _turn[i],
            Light = SolarPosition.At(arrivals[i].Typical, place).Phase,
            AirTemperature = w.AirTemperature,
            InDirectSun = InSun(i),
            LastSun = LastSun(i),
            SunAbsorbed = SunAbsorbed(i),
            CoreTemperature = CoreAt(i),
            WaterInHand = water,
            EnergyUsed = Energy.FromKilocalories(i == 0 ? 0 : _trace.Joules[SectionAt(_course.EndM[_course.StepOfStation[i]])] / SimulationKernel.JoulesPerKcal),
            Charge = [.. (power?.Devices ?? []).Select(d => new DeviceCharge(d.Device.Name, Ratio.FromPercent(ChargeAt(d, i == 0 ? 0 : _middle.ArrivalSec[i - 1]))))],
            WayOut = way?.Time?.Typical,
            WayOutTo = PlaceName(way?.Exit ?? ""),
        };
    }

    private HomeTimes Home(Estimate<DateTimeOffset>[] arrivals, TimeSpan? interval, out CheckInSchedule schedule)
    {
        PlanOptions o = _request.Options;
        int finish = _course.Stations.Count - 1;
        DateTimeOffset late = At(_spread.Quantile(finish - 1, 0.95));
        var points = new List<DecisionPoint> { new(CheckInKind.Start, "leaving " + _course.Stations[0].Name, arrivals[0].Typical) { Place = PlaceOf(0) } };
        DateTimeOffset last = arrivals[0].Typical;
        for (int i = 1; i < finish; i++)
        {
            StationKind kind = _course.Stations[i].Kind;
            if (kind is StationKind.Exit or StationKind.Turn && arrivals[i].Typical - last >= TimeSpan.FromMinutes(45) && arrivals[finish].Typical - arrivals[i].Typical >= TimeSpan.FromMinutes(30))
            {
                last = arrivals[i].Typical;
                points.Add(new DecisionPoint(kind == StationKind.Exit ? CheckInKind.Exit : CheckInKind.PointOfNoReturn, _course.Stations[i].Name, arrivals[i].Typical, arrivals[i].High) { Place = PlaceOf(i) });
            }
        }

        points.Add(new DecisionPoint(CheckInKind.Finish, "back at " + _course.Stations[finish].Name, arrivals[finish].Typical, arrivals[finish].High) { Place = PlaceOf(finish) });
        List<CommunicationMeans> means = Means();
        TimeSpan response = WaitingPlanner.ResponseTime(o.Response);
        var checks = new CheckInRequest
        {
            Points = points,
            LateFinish = late > arrivals[finish].High ? late : arrivals[finish].High,
            ToleratedWait = (interval ?? o.MessageInterval) + o.Grace + o.Reaction + response,
            Response = response,
            Grace = o.Grace,
            ContactReaction = o.Reaction > TimeSpan.Zero ? o.Reaction : TimeSpan.FromMinutes(1),
            Means = means,
            PreparedAt = _request.PreparedAt,
        };
        schedule = CheckInPlanner.Plan(checks);
        if (_tolerated is { } wait && wait <= o.Grace + o.Reaction + response)
        {
            // Messages are kept at the usual interval, but none is short enough, and that is said.
            schedule = schedule with
            {
                LongestInterval = null,
                Findings = [.. schedule.Findings, .. CheckInPlanner.Plan(checks with { ToleratedWait = wait }).Findings.Where(f => f.Code == ContactFindingCodes.NoInterval)],
            };
        }

        _findings.AddRange(schedule.Findings);
        return new HomeTimes
        {
            CheckIns = [.. schedule.CheckIns.Where(c => c.Kind == CheckInKind.Finish || c.Expected < arrivals[finish].Typical).Select(c => (_zone.ToLocal(c.Expected), c.Kind switch
            {
                CheckInKind.Start => "leaving",
                CheckInKind.Finish => "back",
                CheckInKind.Clock => "by the clock",
                _ => c.Name,
            }))],
            Back = arrivals[finish],
            Overdue = _zone.ToLocal(schedule.OverdueTime),
            Alarm = _zone.ToLocal(schedule.AlarmTime),
        };
    }

    private List<CommunicationMeans> Means()
    {
        var means = new List<CommunicationMeans>();
        if (_request.Devices.Any(d => d.Kind == DeviceKind.Phone))
        {
            means.Add(new CommunicationMeans(MeansKind.Telephone));
        }

        if (_request.Devices.Any(d => d.Kind == DeviceKind.Messenger))
        {
            means.Add(new CommunicationMeans(MeansKind.SatelliteMessenger));
        }

        if (_request.Beacon is not null)
        {
            means.Add(new CommunicationMeans(MeansKind.DistressBeacon));
        }

        return means;
    }

    private PlanNeeds Needs()
    {
        var fills = new List<WaterFill> { new("start", Length.Zero, Volume.FromLiters(_water.StartL), 1) };
        var ifDry = new List<string>();
        bool everywhere = _water.Everywhere;
        if (everywhere)
        {
            for (int k = 0; k < _model.FillStations.Length; k++)
            {
                WaterSource s = _request.Sources[_model.Input.SourceOf[k]];
                fills.Add(new WaterFill(s.Name, Length.FromMeters(_course.Stations[_model.FillStations[k] + 1].AlongM), Volume.FromLiters(_water.FillToL[k]), s.WetProbability ?? 0));
            }

            if (fills.Count > 1)
            {
                ifDry.Add(_water.Enough ? "Fill wherever there is water." : "The bottles do not hold enough for dry sources: fill wherever there is water.");
            }
        }

        string[] unused = [.. _request.Sources.Where(s => !everywhere && !_water.Carry.Stops.Any(x => x.IsFill && x.Name.Contains(s.Name, StringComparison.Ordinal))).Select(s => s.WetProbability is { } p ? $"{s.Name} (wet in {Text.F(p * 100, 0)} of 100, as stated)" : $"{s.Name} (not known, taken as dry)")];
        if (unused.Length > 0)
        {
            ifDry.Add($"Not counted on: {string.Join(", ", unused)}.");
        }

        if (!everywhere)
        {
            foreach (WaterStop stop in _water.Carry.Stops.Skip(1))
            {
                if (stop.IsFill)
                {
                    fills.Add(new WaterFill(stop.Name, stop.Along, Volume.FromLiters(Math.Max(stop.FillTo.Liters, FillAt(stop.Along.Meters))), stop.WetProbability));
                    if (stop.IfDry is { } dry)
                    {
                        ifDry.Add($"If {stop.Name} is dry: {dry.Text}");
                    }
                }
            }
        }

        return new PlanNeeds
        {
            Sweat = _spread.Of(SpreadOf.Sweat, x => Volume.FromLiters(x)),
            Drink = _spread.Of(SpreadOf.Drunk, x => Volume.FromLiters(x)),
            Fills = fills,
            IfDry = ifDry,
            Sodium = _spread.Of(SpreadOf.Sodium, x => Mass.FromMilligrams(x)),
            Energy = _spread.Of(SpreadOf.Kcal, x => Energy.FromKilocalories(x)),
            Food = Energy.FromKilocalories(_model.FoodKcal),
            FoodReserve = _request.Options.FoodReserve,
            CarbohydrateGPerHour = (_model.Food.Days[0].GuidanceLowGPerHour, _model.Food.Days[0].GuidanceHighGPerHour),
        };
    }

    /// <summary>What the bottles are filled to at a place [L]; zero where the plan does not fill.</summary>
    private double FillAt(double alongM)
        => _model.FillStations.Select((station, k) => Math.Abs(_course.Stations[station + 1].AlongM - alongM) < 50 ? _water.FillToL[k] : 0).DefaultIfEmpty(0).Max();

    private List<CarryItem> Carry(PlanNeeds needs, BikeFails? bike, WalkOutProfile? walk, CannotMove wait)
    {
        double foodKg = _model.Food.Eat.Sum(p => p.Mass.Kilograms);
        string eaten = _model.Food.Eat.Count == 0 ? "eaten on the way" : "eaten on the way, such as " + string.Join(", ", _model.Food.Eat.Take(3).Select(p => $"{Text.F(p.Mass.Grams, 0)} g {p.Food.Name}"));
        var carry = new List<CarryItem>
        {
            new($"water {PlanUnits.Metric.LitresUp(needs.Fills[0].FillTo.Liters)}", Mass.FromKilograms(needs.Fills[0].FillTo.Liters), needs.Fills.Count > 1 ? $"to {needs.Fills[1].Name}" : "for the whole ride"),
            new($"food {Text.Thousands(needs.Food.Kilocalories)} kcal", Mass.FromKilograms(foodKg), eaten),
            new($"food {Text.Thousands(needs.FoodReserve.Kilocalories)} kcal more", foodKg > 0 ? Mass.FromKilograms(needs.FoodReserve.Kilocalories * foodKg / needs.Food.Kilocalories) : null, bike is null ? "kept unopened" : $"kept unopened; the walk out takes {Text.Thousands(bike.Food.Kilocalories)} kcal"),
        };
        if (_request.KitItems.Count > 0)
        {
            KitPlan kit = KitPlanner.Choose(Kit(walk, wait, needs), _cancel);
            _kit = kit;
            _findings.AddRange(kit.Findings);
            carry.AddRange(kit.Chosen.Select(c => new CarryItem(c.Item.Name, c.Item.Mass, c.Reason)));
        }

        return carry;
    }

    private KitRequest Kit(WalkOutProfile? walk, CannotMove wait, PlanNeeds needs)
    {
        var stakes = new List<FailureStake>();
        if (walk is not null)
        {
            // Stretches of about five kilometres stand for the route; the loss on each is the way out from its middle.
            int parts = Math.Max(1, (int)Math.Round(_course.TotalM / 5000));
            foreach (FailureMode mode in RepairMatrix.Standard.Modes)
            {
                var places = new List<StakeAtPlace>();
                for (int p = 0; p < parts; p++)
                {
                    double m = _course.TotalM * (p + 0.5) / parts;
                    TimeSpan? full = TimeAfter(walk, mode.Unrepaired, OnWhole(walk, m));
                    TimeSpan? partly = TimeAfter(walk, mode.PartlyRepaired, OnWhole(walk, m));
                    if (full is { } f)
                    {
                        places.Add(new StakeAtPlace($"km {Text.F(m / 1000, 0)}", Length.FromMeters(_course.TotalM / parts), f, partly is { } q && q <= f ? q : null));
                    }
                }

                if (places.Count > 0)
                {
                    stakes.Add(new FailureStake(mode.Kind, places) { Rate = _request.FailureRates.TryGetValue(mode.Kind, out FailureRate? own) ? own : null });
                }
            }
        }

        // Judged in the coldest hour of the wait, as the wait itself is.
        double coldest = _waitColdestC;
        return new KitRequest
        {
            Items = _request.KitItems,
            Distance = _course.Route.Length,
            Stakes = stakes,
            Needs =
            [
                .. KitNeed.ForWaiting(wait.Response + wait.Detection.Worst, mayBeDark: true, Temperature.FromDegreesCelsius(coldest), fireAllowed: _request.FireAllowed)
                    .Where(n => coldest <= WaitAir.NoBagAboveC || n.Function is not (KitFunction.BarrierBag or KitFunction.Insulation)),
            ],
            Caps = _request.KitCaps,
            WaterToCarry = _request.KitItems.Any(i => i.WaterCapacity > Volume.Zero) ? needs.Fills.Max(f => f.FillTo) : Volume.Zero,
            FireAllowed = _request.FireAllowed,
            RideDate = DateOnly.FromDateTime(_zone.ToLocal(_request.Start).DateTime),
        };
    }

    /// <summary>Time out after a failure over that of pushing: limping, rolling what rolls, carrying, and the effect of an injury or a wait.</summary>
    [Source("assumption-broken-bike-time", "share of the time of pushing")]
    internal const double LimpFactor = 1 / 3.0, CoastFactor = 0.7, CarryFactor = 1.3, StopFactor = 2;

    private static TimeSpan? TimeAfter(WalkOutProfile walk, FailureConsequence consequence, Length m) => consequence switch
    {
        FailureConsequence.RideOn => TimeSpan.Zero,
        FailureConsequence.Limp => walk.TimeFrom(m) * LimpFactor,
        FailureConsequence.Coast => walk.TimeFrom(m) * CoastFactor,
        FailureConsequence.Push => walk.TimeFrom(m),
        FailureConsequence.Carry => walk.TimeFrom(m) * CarryFactor,
        _ => walk.TimeFrom(m) * StopFactor,
    };

    private DeviceOutlook Outlook(DevicePower d, PowerPlan power)
    {
        double full = d.Usable.Typical.WattHours, low = d.Usable.Low.WattHours;
        double left = ChargeAt(d, _middle.FinishSec[0]);
        double spread = full > 0 ? Math.Min(left, 100 * (full - low) / full) : 0;
        // The low end is a low cell on a slow ride: late, it may be dark.
        double leftLate = Math.Min(left, ChargeAt(d, power.Ride.TotalSeconds));
        string note = power.FirstToFail == d.Device.Name && d.LastsNightWithBankProbability < 0.9
            ? power.TopUps.FirstOrDefault(t => t.Device == d.Device.Name) is { } t
                ? $"hang it on the bank from {Text.Clock(At(t.From.TotalSeconds))}"
                : "first to fail: charge it, switch it off, or take a bank"
            : "";
        return new DeviceOutlook(
            d.Device.Name,
            Estimate.Of(Ratio.FromPercent(left), Ratio.FromPercent(Math.Max(0, leftLate - spread)), Ratio.FromPercent(Math.Min(100, left + spread))),
            _spread.Samples == 0 ? double.NaN : d.LastsToEndWithBankProbability,
            _spread.Samples == 0 ? double.NaN : d.LastsNightWithBankProbability,
            note);
    }

    /// <summary>Charge of a device [%] at a time on the way; linear between the points of its course.</summary>
    private static double ChargeAt(DevicePower device, double sec)
    {
        IReadOnlyList<ChargeAt> course = device.Charge;
        int i = 0;
        while (i + 1 < course.Count && course[i + 1].At.TotalSeconds <= sec)
        {
            i++;
        }

        if (i + 1 >= course.Count)
        {
            return 100 * course[^1].ChargeFraction;
        }

        double from = course[i].At.TotalSeconds, to = course[i + 1].At.TotalSeconds;
        double f = to > from ? Math.Clamp((sec - from) / (to - from), 0, 1) : 0;
        return 100 * (course[i].ChargeFraction + ((course[i + 1].ChargeFraction - course[i].ChargeFraction) * f));
    }

    private string Incident(List<Clock> clocks)
    {
        double length = _request.Options.IncidentLength.TotalSeconds;
        Clock? tight = clocks.OrderBy(c => (c.Closes - _request.Start).TotalSeconds - (c.Station == 0 ? 0 : _spread.Quantile(c.Station - 1, _level)) - c.ReserveSec).FirstOrDefault();
        string span = Text.Span(_request.Options.IncidentLength);
        if (tight is null)
        {
            return $"One incident of {span} moves the finish to {Text.Clock(At(_middle.FinishSec[0] + length))} at the typical pace; no clock stands against it.";
        }

        double inHand = (tight.Closes - _request.Start).TotalSeconds - (tight.Station == 0 ? 0 : _spread.Quantile(tight.Station - 1, _level)) - tight.ReserveSec - length;
        return inHand >= 0
            ? $"One incident of {span} leaves {Text.Span(TimeSpan.FromSeconds(inHand))} before {tight.Name}."
            : $"One incident of {span} overruns {tight.Name} by {Text.Span(TimeSpan.FromSeconds(-inHand))}.";
    }

    /// <summary>Margins of what happens only after trouble: they make conditions, they do not forbid the ride.</summary>
    private static bool IsCondition(PlanMargin m) => m.AfterTrouble;

    private PlanVerdict Verdict(PlanMargin[] margins, DateTimeOffset? latestStart)
    {
        string often = string.Create(CultureInfo.InvariantCulture, $"In {_level * 10:0.#} of 10 such rides");
        PlanMargin[] missing = [.. margins.Where(m => !m.Holds && !IsCondition(m))];
        PlanMargin[] conditions = [.. margins.Where(m => !m.Holds).Except(missing)];
        var reasons = new List<string>();
        reasons.AddRange(missing.Select(m => $"{Capital(m.Name)}: {m.Amount}."));
        reasons.AddRange(conditions.Select(m => $"{Capital(m.Name)}: {m.Amount}."));
        bool noWayOut = _course.Exits.Count == 0;
        if (noWayOut)
        {
            reasons.Add("No way out is known.");
        }

        if (missing.Length > 0)
        {
            string start = latestStart is { } s && s < _request.Start && missing.All(m => m.Time is not null) ? $" A start by {PlanText.ClockOn(PlanText.Down(_zone.ToLocal(s)), _request.Start)} would mend the clocks." : "";
            return new PlanVerdict(PlanVerdictKind.DoesNotFit, string.Create(CultureInfo.InvariantCulture, $"Not as planned: fewer than {_level * 10:0.#} of 10 such rides keep every margin.{start}"), reasons);
        }

        string[] doubtful = [.. _water.Carry.Stops.Where(s => s.IsFill && s.IfDry is not null).Select(s => s.Name).Distinct()];
        string water = $"start with {PlanUnits.Metric.LitresUp(_water.StartL)}{(doubtful.Length > 0 ? $", carrying for a dry {string.Join(" or ", doubtful)}" : "")}";
        return conditions.Length > 0 || noWayOut
            ? new PlanVerdict(PlanVerdictKind.FitsIf, $"On conditions. {often} it fits if you {water}. What follows is not covered if trouble comes.", reasons)
            : new PlanVerdict(PlanVerdictKind.Fits, $"{often} it fits; {water}.", reasons);

        static string Capital(string s) => char.ToUpperInvariant(s[0]) + s[1..];
    }

    private void Assume()
    {
        PlanOptions o = _request.Options;
        A("confidence of verdict, latest start and latest passes", Share(o.ConfidenceLevel));
        A("reserve before civil dusk", Text.Span(o.DaylightReserve), "assumption-time-reserve");
        A("water reserve", Text.F(o.WaterReserve.Liters, 1) + " L", "assumption-water-reserve");
        A("charge never planned for", Share(o.ChargeReserveFraction), "assumption-charge-reserve");
        A("planned intake as a share of sweat", Share(o.IntakeFraction), "assumption-intake-share");
        A("sustained effort", $"{Text.F(_model.Pace.Effort.PowerW, 0)} W from {Words(_model.Pace.Effort.Basis)}");
        A("shared spread of pace (standard deviation of the logarithm)", Text.F(_model.Input.SharedSigma, 2), _request.Pace.Calibration is null ? "assumption-pace-spread" : "");
        A("error of forecast air temperature (standard deviation)", Text.F(_model.Weather.TemperatureSigmaK, 1) + " K", "forecast-error");
        (double over, double under) = _model.Input.SweatHalves();
        A("spread of sweat, P10 and P90 against the typical rate", $"{Text.F(-100 * under, 0)} and +{Text.F(100 * over, 0)} %", _request.Sweat is not null || _request.Rider.SweatRate is not null ? "assumption-own-rate-spread" : "gonzalez-2009");
        A("response to a distress call", $"class {o.Response}, {Text.Span(WaitingPlanner.ResponseTime(o.Response))}", "assumption-response");
        A("grace after a missed message", Text.Span(o.Grace), "assumption-contact-grace");
        A("scale of the ascent", Text.F(_course.Profile.Scale.Meters, 0) + " m", "routes-ascent-fit");
        if (_kit is not null)
        {
            A("time out after a failure over that of pushing", $"limping {Text.F(LimpFactor, 2)}, rolling {Text.F(CoastFactor, 1)}, carrying {Text.F(CarryFactor, 1)}, no going on {Text.F(StopFactor, 0)}", "assumption-broken-bike-time");
        }

        double top = PlaceOf(Top()).ElevationM;
        double home = _request.Pace.HomeElevation.Meters;
        if (top > Math.Max(home, AltitudeMattersM))
        {
            double up = Math.Min(top, AltitudeKernel.HighestFittedM) / 1000;
            double share = _request.Rider.MaxOxygenUptakeMlPerKgMin is { } v ? AltitudeKernel.FitPct(up, v) / AltitudeKernel.FitPct(home / 1000, v) : AltitudeKernel.FitPct(up) / AltitudeKernel.FitPct(home / 1000);
            A("sustained power at the highest point as a share of that at home", $"{Share(share)} at {Text.Thousands(Math.Round(top / 10) * 10)} m, a fit to group means", "macinnis-2015");
        }

        if (_spread.Of(SpreadOf.Dark, _level) >= DimSec)
        {
            A("speed by lamp as a share of that by day", $"{Share(_request.Pace.RideByLampFactor)} of the technical speeds ridden, {Share(_request.Pace.FootByLampFactor)} on foot on a path, {Share(_request.Pace.FootByLampRoughFactor)} on rough ground", "assumption-night");
        }

        void A(string name, string value, string source = "") => _assumptions.Add(new PlanAssumption(name, value, source));
        static string Share(double x) => Text.F(x * 100, 0) + " %";
        static string Words(EffortBasis basis) => string.Concat(basis.ToString().Select((c, i) => char.IsUpper(c) ? (i > 0 ? " " : "") + char.ToLowerInvariant(c) : c.ToString()));
    }
}
