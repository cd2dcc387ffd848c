using SoloRide.Daylight;
using SoloRide.Effort;
using SoloRide.Hydration;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>One request at one start, brought to the numbers that samples run on. Built anew for another start; the course is shared.</summary>
internal sealed class RideModel
{
    private const double SectionM = 250;
    private const double GridStepS = 3600;
    private const double WaterKgPerL = 1;
    private const double LongestDayHours = 20;

    // Heat after this multiple of the typical time is no finding of this ride.
    private const double LateFactor = 1.3;

    [Source("assumption-rest-sweat", "sweat while standing as a share of that in motion")]
    private const double RestSweatShare = 0.4;

    // The sun behind the skyline is looked at from this share of the typical time at a place up to this multiple.
    private const double EarlyFactor = 0.4, LateLook = 2;

    /// <summary>Sweat when body mass is not known: a sixth of mass, and half of it in sweat.</summary>
    [Source("assumption-body-spread")]
    public const double BodySweatSigma = 0.08;

    /// <summary>Body mass, or what stands in for one that is not given; its spread is <see cref="BodySweatSigma"/> [kg].</summary>
    public static double BodyKg(Rider rider) => rider.Mass?.Kilograms ?? StandInKg;

    private const double StandInKg = 75;

    private readonly int[] _firstStep;
    private readonly int _columns;
    private readonly double[] _sunShare;

    public RideModel(RideRequest request, RideCourse course, DateTimeOffset start, ZoneOffsets zone, SunAlong? sun, List<Finding> findings, CancellationToken cancel)
    {
        Request = request;
        Sun = sun;
        Course = course;
        Start = start;
        Zone = zone;
        Weather = new WeatherAlong(request);
        PaceModel pace = PaceModel.For(request.Rider, request.Bike, request.Load, request.Pace);
        Pace = request.Today is { } today ? pace.With(today) : pace;
        TrailStep[] steps = course.Steps;
        var carried = Mass.FromKilograms(Math.Min(60, request.Load.WaterCapacity.Liters * WaterKgPerL + 1));
        ReferenceKg = carried.Kilograms;
        Weather[]? along = null;
        RidePace light = Pace.Along(steps, (i, t) => Conditions(i, t, default, false), cancel);
        along = new Weather[steps.Length];
        double clock = 0, stopShare = request.Pace.Calibration?.StopMinutesPerHour / 60 ?? request.Pace.Stops.MinutesPerHour / 60;
        for (int i = 0; i < steps.Length; i++)
        {
            along[i] = Weather.Known(start.AddSeconds(clock), course.Places[i]);
            clock += light.Steps[i].TypicalS * (1 + stopShare);
        }

        RidePace laden = Pace.Along(steps, (i, t) => Conditions(i, t, carried, false), cancel);

        // Where somebody stated wind and heading, one standard deviation stronger and weaker.
        bool windKnown = Weather.HasForecast && along.Where((w, i) => !double.IsNaN(w.WindMps) && !double.IsNaN(w.WindFromDeg) && !double.IsNaN(steps[i].BearingDeg)).Any();
        RidePace? windier = windKnown ? Windy(1) : null, calmer = windKnown ? Windy(-1) : null;
        findings.AddRange(light.Findings);

        double typicalS = Math.Max(clock, laden.Elapsed.Typical.TotalSeconds);
        (DarkSec, DuskBeforeSec) = DarkTimes(start, zone, course.Places[0], course.Places[^1], TimeSpan.FromSeconds((3 * typicalS) + 86_400), findings);
        bool mayBeDark = DarkSec.Length > 0 && DarkSec[0] < 3 * typicalS;
        RidePace? byLamp = mayBeDark ? Pace.Along(steps, (i, t) => Conditions(i, t, default, true), cancel) : null;

        // Sections: runs of steps of one spread group between stations, at most 250 m.
        var first = new List<int>();
        var groups = new List<int>();
        int station = 1;
        double lengthM = 0;
        for (int i = 0; i < steps.Length; i++)
        {
            bool open = first.Count == 0 || lengthM + steps[i].LengthM > SectionM || groups[^1] != light.Steps[i].SpreadGroup || i - 1 == course.StepOfStation[station - 1] || light.Steps[i].Mode != light.Steps[i - 1].Mode;
            if (open)
            {
                first.Add(i);
                groups.Add(light.Steps[i].SpreadGroup);
                lengthM = 0;
            }

            lengthM += steps[i].LengthM;
            if (station < course.Stations.Count && i == course.StepOfStation[station])
            {
                station++;
            }
        }

        int n = first.Count;
        var endSec = new double[n];
        first.Add(steps.Length);
        _firstStep = [.. first];
        int[] classes = [.. groups.Distinct().Order()];
        int stations = course.Stations.Count - 1;
        var lightSec = new double[n];
        var ladenSec = new double[n];
        var klass = new byte[n];
        var leg = new int[n];
        var metabolic = new double[n];
        var dark = new double[n];
        double[] windMore = windKnown ? new double[n] : [], windLess = windKnown ? new double[n] : [];
        var stationAt = new int[n];
        Array.Fill(stationAt, -1);
        var legVariance = new double[stations];
        var legMean = new double[stations];
        var classSd = new double[classes.Length];
        var classTime = new double[classes.Length];
        double sharedVariance = 0, allTime = 0;
        int current = 0;
        for (int j = 0; j < n; j++)
        {
            klass[j] = (byte)Array.IndexOf(classes, groups[j]);
            leg[j] = Math.Min(current, stations - 1);
            double joules = 0, lampSec = 0, moreSec = 0, lessSec = 0;
            for (int i = first[j]; i < first[j + 1]; i++)
            {
                StepPace p = light.Steps[i];
                double t = p.TypicalS;
                lightSec[j] += t;
                ladenSec[j] += laden.Steps[i].TypicalS;
                joules += (double)p.MetabolicPower.Watts * t;
                lampSec += byLamp?.Steps[i].TypicalS ?? t;
                moreSec += windier?.Steps[i].TypicalS ?? t;
                lessSec += calmer?.Steps[i].TypicalS ?? t;
                double own = t * Math.Log(p.StepGsdFactor);
                legVariance[leg[j]] += own * own;
                legMean[leg[j]] += t;
                classSd[klass[j]] += t * Math.Log(p.GroupGsdFactor);
                classTime[klass[j]] += t;
                sharedVariance += t * Math.Log(p.RideGsdFactor);
                allTime += t;
            }

            endSec[j] = allTime * (1 + stopShare);
            metabolic[j] = lightSec[j] > 0 ? joules / lightSec[j] : 0;
            if (windKnown && lightSec[j] > 0)
            {
                windMore[j] = Math.Log(moreSec / lightSec[j]);
                windLess[j] = Math.Log(lessSec / lightSec[j]);
            }

            dark[j] = lightSec[j] > 0 ? Math.Max(1, lampSec / lightSec[j]) : 1;
            if (current < stations && first[j + 1] - 1 == course.StepOfStation[current + 1])
            {
                stationAt[j] = current;
                current++;
            }
        }

        double massKg = BodyKg(request.Rider);
        double restW = request.Pace.StandingMet * PaceModel.MetWPerKg * massKg;
        double meanMps = allTime > 0 ? course.TotalM / allTime : 0;
        int columns = Math.Clamp((int)Math.Ceiling(2.2 * typicalS / GridStepS) + 3, 2, 400);
        double low = double.NaN, high = double.NaN;
        if (course.Profile.HasHeights)
        {
            low = course.Profile.Lowest!.Value.Meters;
            high = course.Profile.Highest!.Value.Meters;
        }

        Sweat = new SweatTable(request, Weather, course.Places[course.Places.Length / 2], low, high, Math.Min(restW, metabolic.Min()), Math.Max(restW + 1, metabolic.Max()), meanMps, start, columns, (int)(LateFactor * typicalS / GridStepS), sun is not null, findings);
        var sweat = new double[n * columns];
        var warm = new double[n * columns];
        var cloudy = new double[n * columns];
        var above = new double[n * columns];
        var below = new double[n * columns];
        double body = request.Rider.Mass is null ? NormalKernel.Z90 * BodySweatSigma : 0;
        _columns = columns;
        _sunShare = sun is null ? [] : new double[n * columns];
        for (int j = 0; j < n; j++)
        {
            double height = course.Places[first[j]].ElevationM;
            for (int g = 0; g < columns; g++)
            {
                int at = (j * columns) + g;
                (double open, double warmer, double cloud, double shade, double up, double down) = Sweat.At(g, height, metabolic[j]);
                double share = 1, inOpen = open;
                if (sun is not null)
                {
                    // The sun's way behind the skyline is looked at while the rider can be here: not long before the typical time, and up to twice it.
                    double here = endSec[j];
                    bool may = (g + 1) * GridStepS >= EarlyFactor * here && (g - 1) * GridStepS <= LateLook * here;
                    (bool inSun, bool risen) = may ? sun.At(SectionMiddleM(j), start.AddSeconds(g * GridStepS)) : (true, true);
                    share = inSun || !risen ? 1 : 0;
                    _sunShare[at] = share;
                    warmer += (shade - open) * (1 - share);
                    open += (shade - open) * (1 - share);
                }

                sweat[at] = open;
                warm[at] = warmer;
                cloudy[at] = cloud * share;
                double narrower = inOpen > 0 ? Math.Min(1, open / inOpen) : 1;
                above[at] = double.Hypot(up * narrower, body * open);
                below[at] = double.Hypot(down * narrower, body * open);
            }
        }

        Estimate<VolumeFlow> oneLitre = Estimate.Exact(VolumeFlow.FromLitersPerHour(0.8));
        SodiumEstimate sodium = SodiumEstimator.Estimate(request.Rider, oneLitre);
        findings.AddRange(sodium.Findings);
        double sodiumMg = sodium.Concentration.Typical.MillimolesPerLiter * SodiumMgPerMmol;
        double sodiumSigma = sodium.Concentration.Low.MillimolesPerLiter > 0
            ? Math.Log(sodium.Concentration.High.MillimolesPerLiter / sodium.Concentration.Low.MillimolesPerLiter) / (2 * NormalKernel.Z90)
            : 0.3;

        var sourceAt = new int[stations];
        var fills = new List<int>();
        for (int k = 0; k < stations; k++)
        {
            sourceAt[k] = -1;
            if (course.Stations[k + 1].Source >= 0)
            {
                sourceAt[k] = fills.Count;
                fills.Add(course.Stations[k + 1].Source);
            }
        }

        FillStations = [.. Enumerable.Range(0, stations).Where(k => sourceAt[k] >= 0)];
        double km = course.TotalM / 1000;
        double incidents = request.FailureRates.Values.Sum(r => r.PerDistance.Typical.InverseMeters * 1000 * km);
        double incidentVariance = request.FailureRates.Values.Sum(r => r.ExcessVarianceOn(km));
        Food = FoodOf(request, light);
        FoodKcal = Food.EatEnergy.Kilocalories;
        Input = new SimulationInput
        {
            Sections = n,
            LightSec = lightSec,
            LadenSec = ladenSec,
            ReferenceKg = ReferenceKg,
            Class = klass,
            Leg = leg,
            Legs = stations,
            Day = request.Options.Day,
            SharedShift = Math.Log(request.Options.PaceFactor),
            MetabolicW = metabolic,
            DarkFactor = dark,
            SweatLph = sweat,
            SweatWarmLph = warm,
            WarmerK = SweatTable.WarmerK,
            GridFromSec = 0,
            GridStepSec = GridStepS,
            GridCount = columns,
            StationAt = stationAt,
            Stations = stations,
            StationStopSec = Stops(request.Options, course),
            SourceAt = sourceAt,
            SourceOf = [.. fills],
            WetProbability = [.. request.Sources.Select(s => s.WetProbability ?? 0)],
            FillToL = new double[fills.Count],
            TreatSecPerL = new double[fills.Count],
            MostTakenL = [.. fills.Select(s => request.Sources[s].Amount?.Liters ?? double.PositiveInfinity)],
            StartWaterL = 0,
            IntakeShare = request.Options.IntakeFraction,
            IntakeCapLph = HydrationLimits.HourlyMaximumL,
            FoodKg = Food.Eat.Sum(p => p.Mass.Kilograms),
            FoodKcal = FoodKcal,
            EatKcalPerHour = FoodKcal / Math.Max(0.1, typicalS / 3600),
            StopShare = stopShare,
            RestW = restW,
            RestSweatShare = RestSweatShare,
            DarkSec = DarkSec,
            SodiumMgPerL = sodiumMg,
            SharedSigma = allTime > 0 ? sharedVariance / allTime : 0,
            ClassSigma = [.. classes.Select((_, c) => classTime[c] > 0 ? classSd[c] / classTime[c] : 0)],
            LegSigma = [.. legVariance.Select((v, l) => legMean[l] > 0 ? Math.Sqrt(v) / legMean[l] : 0)],
            StopSigma = Math.Log(request.Pace.Calibration?.StopGsdFactor ?? request.Pace.Stops.GsdFactor),
            SweatAboveLph = above,
            SweatBelowLph = below,
            SodiumSigma = sodiumSigma,
            TemperatureSigmaK = Weather.TemperatureSigmaAtK(start.AddSeconds(typicalS / 2)),
            TemperatureSigmaGridK = [.. Enumerable.Range(0, columns).Select(g => Weather.TemperatureSigmaAtK(start.AddSeconds(g * GridStepS)))],
            WindMoreLog = windMore,
            WindLessLog = windLess,
            SweatCloudLph = cloudy,
            CloudFraction = Sweat.CloudFraction,
            CloudSigma = [.. Enumerable.Range(0, columns).Select(g => Weather.CloudSigmaAt(start.AddSeconds(g * GridStepS)))],
            LegEndShare = [.. Enumerable.Range(1, stations).Select(k => course.EndM[course.StepOfStation[k]] / course.TotalM)],
            Incidents = incidents,
            IncidentShape = incidents > 0 && incidentVariance > 0 ? incidents * incidents / incidentVariance : 0,
            IncidentMeanSec = request.Options.IncidentLength.TotalSeconds,
        };

        RidePace Windy(double deviations) => Pace.Along(
            steps, (i, t) => new StepConditions { Weather = Weather.Windier(Weather.Known(start + t, course.Places[i]), start + t, deviations), MovingBefore = request.Options.MovedBefore }, cancel);

        StepConditions Conditions(int i, TimeSpan t, Mass load, bool lamp)
            => new() { Weather = along is null ? Weather.Known(start + t, course.Places[i]) : along[i], Carried = load, ByLamp = lamp, MovingBefore = request.Options.MovedBefore };
    }

    [Source("iupac-2021", "molar mass of sodium 22.990 g/mol")]
    private const double SodiumMgPerMmol = 22.98977;

    /// <summary>The skyline along the route; null when none is known.</summary>
    public SunAlong? Sun { get; }

    public RideRequest Request { get; }

    public RideCourse Course { get; }

    public DateTimeOffset Start { get; }

    public ZoneOffsets Zone { get; }

    public WeatherAlong Weather { get; }

    public PaceModel Pace { get; }

    public SweatTable Sweat { get; }

    /// <summary>What is eaten on the way; the reserve is the plan's own.</summary>
    public FoodPlan Food { get; }

    public SimulationInput Input { get; }

    public double ReferenceKg { get; }

    public double FoodKcal { get; }

    /// <summary>Dark intervals [s after start].</summary>
    public double[] DarkSec { get; }

    /// <summary>The last civil dusk before the start [s, zero or negative]; NaN in a polar summer or winter.</summary>
    public double DuskBeforeSec { get; }

    /// <summary>Stations (of the input) where water can be filled.</summary>
    public int[] FillStations { get; }

    /// <summary>Distance at the end of a section [m].</summary>
    public double SectionEndM(int section) => Course.EndM[_firstStep[section + 1] - 1];

    /// <summary>Distance at the middle of a section [m].</summary>
    public double SectionMiddleM(int section)
        => ((_firstStep[section] == 0 ? 0 : Course.EndM[_firstStep[section] - 1]) + SectionEndM(section)) / 2;

    /// <summary>The section that a step belongs to.</summary>
    public int SectionOfStep(int step)
    {
        int i = Array.BinarySearch(_firstStep, step);
        return Math.Min(i >= 0 ? i : ~i - 1, _firstStep.Length - 2);
    }

    /// <summary>Height at the beginning of a section [m]; NaN without heights.</summary>
    public double SectionHeightM(int section) => Course.Places[_firstStep[section]].ElevationM;

    /// <summary>Share of direct sun that terrain lets through at a section and clock, between the hours; 1 where no skyline is known.</summary>
    public double SunShare(int section, double clockSec)
    {
        if (_sunShare.Length == 0)
        {
            return 1;
        }

        double x = Math.Clamp(clockSec / GridStepS, 0, _columns - 1);
        int g = Math.Min((int)x, Math.Max(0, _columns - 2)), at = (section * _columns) + g;
        return _columns == 1 ? _sunShare[at] : _sunShare[at] + ((_sunShare[at + 1] - _sunShare[at]) * (x - g));
    }

    public DateTimeOffset At(double sec) => Start.AddSeconds(sec);

    /// <summary>The same input with other water.</summary>
    public SimulationInput WithWater(double startL, double[] fillToL, double[] treatSecPerL)
        => Input with { StartWaterL = startL, FillToL = fillToL, TreatSecPerL = treatSecPerL };

    /// <summary>Stops where all wait for one another, each at the station nearest to it.</summary>
    private static double[] Stops(PlanOptions options, RideCourse course)
    {
        var stop = new double[course.Stations.Count - 1];
        foreach (double m in options.StopAtM)
        {
            int nearest = Enumerable.Range(0, stop.Length).MinBy(k => Math.Abs(course.Stations[k + 1].AlongM - m));
            stop[nearest] = options.StopSec;
        }

        return stop;
    }

    private static FoodPlan FoodOf(RideRequest request, RidePace pace)
    {
        // The day's food counts at most a day; a longer pass is fed as equal days.
        double hours = Math.Max(0.1, pace.Elapsed.Typical.TotalHours);
        int days = Math.Max(1, (int)Math.Ceiling(hours / LongestDayHours));
        TimeSpan elapsed = TimeSpan.FromHours(hours / days), moving = pace.Moving.Typical / days;
        var day = new FoodDay(elapsed, moving < elapsed ? moving : elapsed, Energy.FromJoules(Math.Min(1e8, pace.MetabolicEnergy.Typical.Joules / days)));
        return FoodPlanner.Plan(new FoodRequest { Rider = request.Rider, Days = [.. Enumerable.Repeat(day, days)], WholeDays = false, ReserveFor = TimeSpan.Zero });
    }

    /// <summary>Dark from the earlier civil dusk of the two ends to the later civil dawn, day by day; a polar night is dark throughout.</summary>
    private static (double[] Marks, double DuskBefore) DarkTimes(DateTimeOffset start, ZoneOffsets zone, GeoPoint a, GeoPoint b, TimeSpan span, List<Finding> findings)
    {
        DateOnly day = DateOnly.FromDateTime(zone.ToLocal(start).DateTime);
        findings.AddRange(SolarDay.On(day, a, zone).Findings);
        var marks = new List<double>();
        bool dark = SolarPosition.At(start, a).Phase >= LightPhase.NauticalTwilight;
        if (dark)
        {
            marks.Add(double.NegativeInfinity);
        }

        int days = (int)Math.Ceiling(span.TotalDays) + 1;
        var events = new List<(double Sec, bool Dusk)>();
        for (int d = -1; d <= days; d++)
        {
            SolarDay at = SolarDay.On(day.AddDays(d), a, zone), bt = SolarDay.On(day.AddDays(d), b, zone);
            if (Earlier(at.CivilDusk.At, bt.CivilDusk.At) is { } dusk)
            {
                events.Add(((dusk - start).TotalSeconds, true));
            }

            if (Later(at.CivilDawn.At, bt.CivilDawn.At) is { } dawn)
            {
                events.Add(((dawn - start).TotalSeconds, false));
            }
        }

        foreach ((double sec, bool dusk) in events.OrderBy(e => e.Sec))
        {
            if (sec > 0 && dusk != dark)
            {
                marks.Add(sec);
                dark = dusk;
            }
        }

        double before = events.Where(e => e.Dusk && e.Sec <= 0).Select(e => e.Sec).DefaultIfEmpty(double.NaN).Max();
        return ([.. marks], before);

        static DateTimeOffset? Earlier(DateTimeOffset? x, DateTimeOffset? y) => x is null ? y : y is null ? x : x < y ? x : y;
        static DateTimeOffset? Later(DateTimeOffset? x, DateTimeOffset? y) => x is null ? y : y is null ? x : x > y ? x : y;
    }
}
