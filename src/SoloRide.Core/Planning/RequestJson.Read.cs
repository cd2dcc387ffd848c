using SoloRide.Batteries;
using SoloRide.Daylight;
using SoloRide.Effort;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Internal;
using SoloRide.Kit;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Planning;

internal static partial class RequestJson
{
    // Distances of a part differ from the sum of its lines only by what was cut at its ends.
    private const double DistanceToleranceM = 1;

    private const double LongestSec = 1e9;

    public static RideRequest Read(string json, string source)
    {
        var reader = new RequestReader(Guard.NotEmpty(source), Guard.NotNull(json));
        return Ride(reader, reader.Parse(RequestJsonContext.Default.RequestDocument, RequestSchema.Ride, RequestDocument.SchemaVersion));
    }

    private static RideRequest Ride(RequestReader reader, RequestDocument d)
        => reader.At("$", () => new RideRequest
        {
            Route = reader.At("$.route", () => Route(reader, d.Route)),
            Start = d.Start,
            Title = d.Title ?? "",
            PreparedAt = d.PreparedAt,
            Zone = d.Zone is { } z ? reader.At("$.zone", () => Zone(reader, z)) : null,
            Rider = d.Rider is { } rider ? reader.At("$.rider", () => Rider(rider)) : new Rider(),
            Bike = d.Bike is { } bike ? reader.At("$.bike", () => Bike(bike)) : new Bike(),
            Load = d.Load is { } load ? reader.At("$.load", () => LoadOf(load)) : new Load(),
            Pace = d.Pace is { } pace ? reader.At("$.pace", () => Pace(reader, pace)) : new PaceOptions(),
            Today = d.Today is { } today ? reader.At("$.today", () => Today(reader, today)) : null,
            Weather = d.Weather is { } w ? reader.At("$.weather", () => Weather(reader, w)) : null,
            Sources = reader.Each("$.sources", d.Sources, (at, s) => new WaterSource
            {
                Name = s.Name,
                Place = Place(reader, at + ".place", s.Place),
                AlongRoute = Si.Length(s.AlongRouteM ?? double.NaN),
                WetProbability = s.WetProbability,
                LastReport = s.LastReport,
                NeedsTreatment = s.NeedsTreatment ?? true,
                Amount = Si.Volume(s.AmountL ?? double.NaN),
            }),
            StartWater = Si.Volume(d.StartWaterL ?? double.NaN),
            Treatment = d.Treatment is { } t ? reader.At("$.treatment", () => Treatment(t)) : null,
            Sweat = d.Sweat is { } sweat ? reader.At("$.sweat", () => Sweat(reader, sweat)) : null,
            Exits = reader.Each("$.exits", d.Exits, (at, e) => new ExitPoint
            {
                Name = e.Name,
                Place = Place(reader, at + ".place", e.Place),
                AlongRoute = Si.Length(e.AlongRouteM ?? double.NaN),
                Kind = e.Kind ?? ExitKind.Road,
                Phone = e.Phone ?? default,
                PickUp = e.PickUp ?? default,
            }),
            EndsAreExits = d.EndsAreExits ?? true,
            Devices = reader.Each("$.devices", d.Devices, (at, x) => Device(reader, at, x)),
            Bank = d.Bank is { } bank ? reader.At("$.bank", () => Bank(reader, bank)) : null,
            Beacon = d.Beacon is { } beacon ? reader.At("$.beacon", () => Beacon(beacon)) : null,
            Ways = reader.Each("$.ways", d.Ways, (_, x) => new MessageWay
            {
                Name = x.Name,
                Purpose = x.Purpose,
                Needs = x.Needs,
                AttemptProbability = x.AttemptProbability,
                Attempts = x.Attempts ?? DefaultWay.Attempts,
            }),
            KitItems = reader.Each("$.kit_items", d.KitItems, (at, i) => Item(reader, at, i)),
            KitCaps = d.KitCaps is { } caps ? reader.At("$.kit_caps", () => Caps(caps)) : new KitCaps(),
            FailureRates = Rates(reader, d.FailureRates),
            WaitingOutfit = d.WaitingOutfit is { } o ? reader.At("$.waiting_outfit", () => Outfit(reader, o)) : null,
            WaitingShelter = d.WaitingShelter ?? default,
            Deadlines = reader.Each("$.deadlines", d.Deadlines, (_, x) => new Deadline(x.Kind, x.Name, Length.FromMeters(x.FromM), Length.FromMeters(x.ToM), x.Closes, x.Opens)),
            Skylines = reader.Each("$.skylines", d.Skylines, (at, h) => HorizonProfile.FromAngles([.. h.AltitudesDeg], Place(reader, at + ".place", h.Place))),
            FireAllowed = d.FireAllowed ?? default,
            Checked = d.Checked is { } done ? done.ToDictionary(x => x.Key, x => x.Value) : new Dictionary<string, DateOnly>(),
            Options = d.Options is { } options ? reader.At("$.options", () => Options(reader, options)) : PlanOptions.Default,
        });

    private static readonly MessageWay DefaultWay = new() { Name = "-", Purpose = default, Needs = [] };

    private static PlanOptions Options(RequestReader reader, OptionsDocument d)
    {
        PlanOptions z = PlanOptions.Default;
        return new PlanOptions
        {
            Samples = d.Samples ?? z.Samples,
            Seed = d.Seed ?? z.Seed,
            Threads = d.Threads ?? z.Threads,
            ConfidenceLevel = d.ConfidenceLevel ?? z.ConfidenceLevel,
            StepLength = Length.FromMeters(d.StepLengthM ?? z.StepLength.Meters),
            StationSpacing = Length.FromMeters(d.StationSpacingM ?? z.StationSpacing.Meters),
            DaylightReserve = Span(reader, "$.options.daylight_reserve_s", d.DaylightReserveS) ?? z.DaylightReserve,
            WaterReserve = Volume.FromLiters(d.WaterReserveL ?? z.WaterReserve.Liters),
            ChargeReserveFraction = d.ChargeReserveFraction ?? z.ChargeReserveFraction,
            FoodReserve = Energy.FromKilocalories(d.FoodReserveKcal ?? z.FoodReserve.Kilocalories),
            IntakeFraction = d.IntakeFraction ?? z.IntakeFraction,
            DryProbability = d.DryProbability ?? z.DryProbability,
            IncidentLength = Span(reader, "$.options.incident_length_s", d.IncidentLengthS) ?? z.IncidentLength,
            Response = d.Response ?? z.Response,
            Reaction = Span(reader, "$.options.reaction_s", d.ReactionS) ?? z.Reaction,
            MessageInterval = Span(reader, "$.options.message_interval_s", d.MessageIntervalS) ?? z.MessageInterval,
            ClothingClo = d.ClothingClo ?? z.ClothingClo,
            Grace = Span(reader, "$.options.grace_s", d.GraceS) ?? z.Grace,
            AccessCheckAge = Span(reader, "$.options.access_check_age_s", d.AccessCheckAgeS) ?? z.AccessCheckAge,
            ClosureCheckAge = Span(reader, "$.options.closure_check_age_s", d.ClosureCheckAgeS) ?? z.ClosureCheckAge,
        };
    }

    private static ZoneOffsets Zone(RequestReader reader, ZoneDocument z) => new(
        z.Id,
        Minutes(reader, "$.zone.first_offset_min", z.FirstOffsetMin),
        reader.Each("$.zone.transitions", z.Transitions, (at, t) => new ZoneTransition(t.From, Minutes(reader, at + ".offset_min", t.OffsetMin))));

    private static TimeSpan Minutes(RequestReader reader, string path, double minutes)
        => reader.At(path, () => TimeSpan.FromTicks((long)Math.Round(Guard.InRange(minutes, -840, 840, "min", "offset") * TimeSpan.TicksPerMinute)));

    private static TimeSpan? Span(RequestReader reader, string path, double? seconds)
        => seconds is { } s ? reader.At(path, () => TimeSpan.FromTicks((long)Math.Round(Guard.InRange(s, -LongestSec, LongestSec, "s", "value") * TimeSpan.TicksPerSecond))) : null;

    private static RideRoute Route(RequestReader reader, RouteDocument d)
    {
        int n = d.LatDeg.Length;
        if (n == 0)
        {
            throw reader.Error("$.route.lat_deg", "a route needs at least one point.");
        }

        Column(d.LonDeg, "lon_deg");
        Column(d.ElevationM, "elevation_m");
        Column(d.DistanceM, "distance_m");
        Column(d.RecordedS, "recorded_s");
        var builder = new RouteColumnsBuilder();
        for (int i = 0; i < n; i++)
        {
            double ele = d.ElevationM is { } e ? e[i] : double.NaN;
            Value(d.LatDeg[i], -90, 90, "deg", "lat_deg", i);
            Value(d.LonDeg[i], -180, 180, "deg", "lon_deg", i);
            long ticks = d.RecordedS is { } s && d.RecordedFrom is { } from && !double.IsNaN(s[i])
                ? from.UtcTicks + (long)Math.Round(Value(s[i], 0, LongestSec, "s", "recorded_s", i) * TimeSpan.TicksPerSecond)
                : RouteColumns.NoTime;
            builder.Add(d.LatDeg[i], d.LonDeg[i], ele, ticks);
        }

        if (d.RecordedS is not null && d.RecordedFrom is null)
        {
            throw reader.Error("$.route.recorded_s", "recorded_s needs recorded_from beside it.");
        }

        RouteColumns columns = builder.Build();
        if (d.RecordedBackward == true)
        {
            columns = new RouteColumns(columns.LatDeg, columns.LonDeg, columns.ElevationM, columns.UtcTicks, timesBackward: true);
        }

        double[]? cum = d.DistanceM;
        if (cum is not null)
        {
            double[] sum = RouteKernel.Cumulative(d.LatDeg, d.LonDeg);
            for (int i = 0; i < n; i++)
            {
                double least = i == 0 ? 0 : cum[i - 1];
                if (!(cum[i] >= least && Math.Abs(cum[i] - sum[i]) <= DistanceToleranceM))
                {
                    throw reader.Error($"$.route.distance_m[{i}]", FormattableString.Invariant($"{cum[i]} m is found; the distance along the points is {sum[i]} m, within {DistanceToleranceM} m of it and ascending is expected."));
                }
            }
        }

        double lengthM = cum is not null ? cum[^1] : RouteKernel.Cumulative(columns.LatDeg, columns.LonDeg)[^1];
        RouteWaypoint[] waypoints = reader.Each("$.route.waypoints", d.Waypoints, (at, w) => new RouteWaypoint(Place(reader, at + ".place", w.Place)!.Value, w.Name, w.Type ?? "", w.Description ?? "", w.Time) { Comment = w.Comment ?? "" });
        RouteGap[] gaps = reader.Each("$.route.gaps", d.Gaps, (_, g) => new RouteGap(
            Guard.InRange(g.AtM, 0, lengthM + 1, "m", "AtM"), Guard.InRange(g.LengthM, 0, lengthM + 1, "m", "LengthM"), Guard.InRange(g.PointIndex, 0, n - 1, "(index)", "PointIndex")));
        RouteSection[] sections = reader.Each("$.route.sections", d.Sections, (_, s) => new RouteSection(Length.FromMeters(s.FromM), Length.FromMeters(s.ToM))
        {
            Surface = s.Surface ?? TrailSurface.Unknown,
            Difficulty = s.Difficulty ?? TrailDifficulty.Unknown,
            UphillLevel = s.UphillLevel,
            AgencyLevel = s.AgencyLevel,
            HikingLevel = s.HikingLevel,
            SmoothnessLevel = s.SmoothnessLevel,
            SurfaceTag = s.SurfaceTag ?? "",
        });
        Finding[] findings = Findings(reader, "$.route.findings", d.Findings);
        var route = new RideRoute(columns, 0, n, d.Name ?? "", d.Description ?? "", waypoints, gaps, [], findings, cum) { HeightSource = d.HeightSource ?? HeightSource.Recognised };
        return sections.Length == 0 ? route : reader.At("$.route.sections", () => route.WithSections(sections));

        void Column(double[]? values, string name)
        {
            if (values is not null && values.Length != n)
            {
                throw reader.Error($"$.route.{name}", FormattableString.Invariant($"{values.Length} values are found; {n} are expected, as in lat_deg."));
            }
        }

        double Value(double v, double low, double high, string unit, string name, int i)
            => reader.At(FormattableString.Invariant($"$.route.{name}[{i}]"), () => Guard.InRange(v, low, high, unit, "value"));
    }

    private static Finding[] Findings(RequestReader reader, string path, IReadOnlyList<FindingDocument>? findings)
        => reader.Each(path, findings, (at, f) => new Finding(
            f.Code,
            Enum.TryParse(f.Severity, out FindingSeverity severity) && Enum.IsDefined(severity)
                ? severity
                : throw reader.Error(at + ".severity", $"'{f.Severity}' is none of {string.Join(", ", Enum.GetNames<FindingSeverity>())}."),
            f.Subject,
            f.Message,
            [.. f.Values.Select(v => new FindingValue(v.Name, v.Text))]));

    private static Rider Rider(RiderDocument d) => new()
    {
        Mass = Si.Mass(d.MassKg ?? double.NaN),
        Height = Si.Length(d.HeightM ?? double.NaN),
        AgeYears = d.AgeYears,
        Sex = d.Sex ?? default,
        SustainedPower = Si.Power(d.SustainedPowerW ?? double.NaN),
        ClimbingRate = d.ClimbingRateMPerH is { } c ? Speed.FromMetersPerHour(c) : null,
        MaxOxygenUptakeMlPerKgMin = d.MaxOxygenUptakeMlPerKgMin,
        HeatAcclimatised = d.HeatAcclimatised ?? default,
        AltitudeAcclimatised = d.AltitudeAcclimatised ?? default,
        SweatRate = d.SweatRateLPerH is { } s ? VolumeFlow.FromLitersPerHour(s) : null,
        SweatSodiumMmolPerL = d.SweatSodiumMmolPerL,
    };

    private static Bike Bike(BikeDocument d)
    {
        var z = new Bike();
        return new Bike
        {
            Mass = Mass.FromKilograms(d.MassKg ?? z.Mass.Kilograms),
            AssistPower = Power.FromWatts(d.AssistPowerW ?? 0),
            AssistBattery = Energy.FromWattHours(d.AssistBatteryWh ?? 0),
            DragAreaM2 = d.DragAreaM2,
            RollingFactor = d.RollingFactor ?? z.RollingFactor,
        };
    }

    private static Load LoadOf(LoadDocument d)
    {
        var z = new Load();
        return new Load
        {
            OnBody = Mass.FromKilograms(d.OnBodyKg ?? z.OnBody.Kilograms),
            OnBike = Mass.FromKilograms(d.OnBikeKg ?? z.OnBike.Kilograms),
            WaterCapacity = Volume.FromLiters(d.WaterCapacityL ?? z.WaterCapacity.Liters),
        };
    }

    private static PaceOptions Pace(RequestReader reader, PaceDocument d)
    {
        var z = new PaceOptions();
        return new PaceOptions
        {
            Reserve = d.Reserve is { } r ? reader.At("$.pace.reserve", () => new PaceReserve { PowerFraction = r.PowerFraction ?? 0, TechnicalFraction = r.TechnicalFraction ?? 0 }) : z.Reserve,
            Spread = d.Spread is { } s
                ? reader.At("$.pace.spread", () => new PaceSpread
                {
                    RideGsdFactor = s.RideGsdFactor ?? z.Spread.RideGsdFactor,
                    SurfaceGsdFactor = s.SurfaceGsdFactor ?? z.Spread.SurfaceGsdFactor,
                    DescentGsdFactor = s.DescentGsdFactor ?? z.Spread.DescentGsdFactor,
                    HundredMetreGsdFactor = s.HundredMetreGsdFactor ?? z.Spread.HundredMetreGsdFactor,
                    FootGsdFactor = s.FootGsdFactor ?? z.Spread.FootGsdFactor,
                })
                : z.Spread,
            Stops = d.Stops is { } stop ? reader.At("$.pace.stops", () => new StopHabit { MinutesPerHour = stop.MinutesPerHour ?? z.Stops.MinutesPerHour, GsdFactor = stop.GsdFactor ?? z.Stops.GsdFactor }) : z.Stops,
            Foot = d.Foot is { } f
                ? reader.At("$.pace.foot", () => new FootHabit
                {
                    WalkerPercentile = f.WalkerPercentile ?? z.Foot.WalkerPercentile,
                    Fastest = Speed.FromMetersPerSecond(f.FastestMps ?? z.Foot.Fastest.MetersPerSecond),
                    PushLevelFactor = f.PushLevelFactor ?? z.Foot.PushLevelFactor,
                    PushSteepFactor = f.PushSteepFactor ?? z.Foot.PushSteepFactor,
                    PushDownFactor = f.PushDownFactor ?? z.Foot.PushDownFactor,
                    CarryLevelFactor = f.CarryLevelFactor ?? z.Foot.CarryLevelFactor,
                    CarrySteepFactor = f.CarrySteepFactor ?? z.Foot.CarrySteepFactor,
                    InjuredFactor = f.InjuredFactor ?? z.Foot.InjuredFactor,
                })
                : z.Foot,
            Calibration = d.Calibration is { } c
                ? reader.At("$.pace.calibration", () => new PaceCalibration
                {
                    SustainedPower = Power.FromWatts(c.SustainedPowerW),
                    PowerGsdFactor = c.PowerGsdFactor,
                    RideGsdFactor = c.RideGsdFactor,
                    ScatterFactor = c.ScatterFactor ?? 1,
                    Technique = reader.Each("$.pace.calibration.technique", c.Technique, (_, t) => new TechnicalSkill(t.Difficulty, t.Factor, t.GsdFactor)),
                    DescentFactor = c.DescentFactor ?? 1,
                    CorrelationFactor = c.CorrelationFactor ?? [],
                    DescentGsdFactor = c.DescentGsdFactor,
                    StopMinutesPerHour = c.StopMinutesPerHour,
                    StopGsdFactor = c.StopGsdFactor,
                    Rides = c.Rides ?? 0,
                    Legs = c.Legs ?? 0,
                    HeldOutErrorFraction = c.HeldOutErrorFraction,
                    PriorErrorFraction = c.PriorErrorFraction,
                })
                : null,
            TimedRide = d.TimedRide is { } timed
                ? reader.At("$.pace.timed_ride", () => new TimedLeg(
                    timed.RideId,
                    reader.Each("$.pace.timed_ride.steps", timed.Steps, (_, x) => new TrailStep(x.LengthM, x.RiseM, x.ElevationM ?? double.NaN, x.BearingDeg ?? double.NaN, x.Surface ?? default, x.Difficulty ?? default)),
                    Span(reader, "$.pace.timed_ride.moving_s", timed.MovingS)!.Value,
                    Span(reader, "$.pace.timed_ride.stopped_s", timed.StoppedS) ?? TimeSpan.Zero))
                : null,
            Habit = d.Habit ?? z.Habit,
            GrossEfficiencyFraction = d.GrossEfficiencyFraction ?? z.GrossEfficiencyFraction,
            DriveEfficiencyFraction = d.DriveEfficiencyFraction ?? z.DriveEfficiencyFraction,
            SlowestRide = Speed.FromMetersPerSecond(d.SlowestRideMps ?? z.SlowestRide.MetersPerSecond),
            FadeTenHoursFraction = d.FadeTenHoursFraction ?? z.FadeTenHoursFraction,
            HomeElevation = Length.FromMeters(d.HomeElevationM ?? 0),
            HeatLossPerDegreeFraction = d.HeatLossPerDegreeFraction ?? z.HeatLossPerDegreeFraction,
            RideByLampFactor = d.RideByLampFactor ?? z.RideByLampFactor,
            FootByLampFactor = d.FootByLampFactor ?? z.FootByLampFactor,
            FootByLampRoughFactor = d.FootByLampRoughFactor ?? z.FootByLampRoughFactor,
            DescentMet = d.DescentMet ?? z.DescentMet,
            StandingMet = d.StandingMet ?? z.StandingMet,
            TechnicalCaps = ByKey(reader, "$.pace.technical_caps", d.TechnicalCaps, c => c.Difficulty, (_, c) => new TechnicalCap(
                Speed.FromMetersPerSecond(c.LevelMps), Speed.FromMetersPerSecond(c.DownTenPercentMps), c.RiddenUpTenPercentFraction, c.GsdFactor)),
        };
    }

    private static PaceUpdate Today(RequestReader reader, TodayDocument d)
    {
        const int size = TodayState.Size;
        if (d.LogMean.Length != size || d.LogCovariance.Count != size || d.LogCovariance.Any(r => r.Length != size))
        {
            throw reader.Error("$.today", FormattableString.Invariant($"log_mean needs {size} values and log_covariance {size} rows of {size}."));
        }

        double[,] c = new double[size, size];
        for (int i = 0; i < size; i++)
        {
            Guard.Finite(d.LogMean[i], "1", "LogMean");
            for (int j = 0; j < size; j++)
            {
                c[i, j] = Guard.Finite(d.LogCovariance[i][j], "1", "LogCovariance");
            }
        }

        return PaceUpdate.Restored(TodayState.Restored(d.LogMean, c), d.LogFactor, Guard.NotNegative(d.LogFactorSd, "1", "LogFactorSd"), Guard.InRange(d.Legs, 1, 100_000, "legs", "Legs"));
    }

    private static Forecast Weather(RequestReader reader, ForecastDocument d)
    {
        ForecastOptions z = ForecastOptions.Default;
        var options = new ForecastOptions { LapseKPerKm = d.LapseKPerKm ?? z.LapseKPerKm, WindShelterFactor = d.WindShelterFactor ?? z.WindShelterFactor };
        return new Forecast(
            reader.Each("$.weather.places", d.Places, (at, p) => new ForecastPlace(
                p.Name,
                Si.Length(Guarded(p.ElevationM, "ElevationM", -500, 9000, "m")),
                reader.Each(at + ".hours", p.Hours, (_, h) => new ForecastHour(h.Time, new Weather
                {
                    AirTempC = Guarded(h.AirTempC, "AirTempC", -80, 60, "deg C"),
                    RelHumidityPct = Guarded(h.RelHumidityPct, "RelHumidityPct", 0, 100, "%"),
                    WindMps = Guarded(h.WindMps, "WindMps", 0, 120, "m/s"),
                    WindFromDeg = Guarded(h.WindFromDeg, "WindFromDeg", 0, 360, "deg"),
                    GustMps = Guarded(h.GustMps, "GustMps", 0, 150, "m/s"),
                    CloudPct = Guarded(h.CloudPct, "CloudPct", 0, 100, "%"),
                    PrecipMm = Guarded(h.PrecipMm, "PrecipMm", 0, 500, "mm"),
                    ThunderPct = Guarded(h.ThunderPct, "ThunderPct", 0, 100, "%"),
                })),
                Place(reader, at + ".position", p.Position),
                p.Issued)),
            options);

        static double Guarded(double? v, string name, double low, double high, string unit) => v is { } x ? Guard.InRange(x, low, high, unit, name) : double.NaN;
    }

    private static WaterTreatment Treatment(TreatmentDocument d) => new(d.Method)
    {
        FilterFlow = d.FilterFlowLPerMin is { } f ? VolumeFlow.FromLitersPerMinute(f) : null,
        FilterPore = d.FilterPoreUm is { } p ? Length.FromMicrometers(p) : null,
        HeatingPerLitre = d.HeatingPerLitreS is { } h ? TimeSpan.FromTicks((long)Math.Round(Guard.InRange(h, 0, LongestSec, "s", "HeatingPerLitre") * TimeSpan.TicksPerSecond)) : null,
        SetUp = TimeSpan.FromTicks((long)Math.Round(Guard.InRange(d.SetUpS ?? 0, 0, LongestSec, "s", "SetUp") * TimeSpan.TicksPerSecond)),
        IsCloudy = d.IsCloudy ?? false,
        IsCold = d.IsCold ?? false,
    };

    private static SweatCalibration Sweat(RequestReader reader, SweatDocument d) => SweatCalibration.Restored(
        reader.At("$.sweat.rate_l_per_h", () => Range(d.RateLPerH, 0.001, 10, "L/h", v => VolumeFlow.FromLitersPerHour(v))),
        d.ModelFactor is { } f ? reader.At("$.sweat.model_factor", () => Range(f, 0.001, 1000, "(factor)", v => Ratio.FromDecimalFractions(v))) : null,
        Guard.InRange(d.RidesUsed, 1, 100_000, "rides", "RidesUsed"),
        Findings(reader, "$.sweat.findings", d.Findings));

    private static Estimate<T> Range<T>(ValueRangeDocument d, double low, double high, string unit, Func<double, T> value)
        where T : struct, IComparable<T>
        => Estimate.Of(
            value(Guard.InRange(d.Typical, low, high, unit, "typical")), value(Guard.InRange(d.Low, low, high, unit, "low")), value(Guard.InRange(d.High, low, high, unit, "high")), d.Level);

    private static CellPack Pack(RequestReader reader, string path, PackDocument d) => reader.At(path, () =>
    {
        var bare = new CellPack(d.Chemistry, d.RatedMah, d.NominalV);
        return bare with
        {
            HonestFraction = d.HonestFraction ?? bare.HonestFraction,
            HealthFraction = d.HealthFraction ?? bare.HealthFraction,
            CapacitySpreadFraction = d.CapacitySpreadFraction ?? bare.CapacitySpreadFraction,
            SelfDischargePerMonthFraction = d.SelfDischargePerMonthFraction ?? bare.SelfDischargePerMonthFraction,
            CutOffVoltage = ElectricPotential.FromVolts(d.CutOffV ?? bare.CutOffV),
            ColdTable = d.ColdTable is { } cold ? reader.Each(path + ".cold_table", cold, (_, c) => new ColdPoint(Temperature.FromDegreesCelsius(c.CellC), c.UsableFraction)) : null,
        };
    });

    private static Device Device(RequestReader reader, string path, PoweredDocument d)
    {
        var bare = new Device(d.Name, d.Kind, Pack(reader, path + ".pack", d.Pack), reader.Each(path + ".modes", d.Modes, (at, m) => DeviceMode.Of(m.Name, m.Use, m.LowW, m.TypicalW, m.HighW) with
        {
            Light = m.Light is { } l
                ? reader.At(at + ".light", () => new LampOutput(l.FluxLm, l.PeakCd) { PrintedRuntime = Span(reader, at + ".light.printed_runtime_s", l.PrintedRuntimeS), Regulation = l.Regulation ?? LampRegulation.Unknown })
                : null,
        }));
        return bare with
        {
            StartChargeFraction = d.StartChargeFraction ?? bare.StartChargeFraction,
            IdleSince = Span(reader, path + ".idle_since_s", d.IdleSinceS) ?? bare.IdleSince,
            Carried = d.Carried ?? bare.Carried,
            TopUp = d.TopUp ?? bare.TopUp,
            Intake = Power.FromWatts(d.IntakeW ?? bare.IntakeW),
            ChargingEfficiencyFraction = d.ChargingEfficiencyFraction ?? bare.ChargingEfficiencyFraction,
            SafetyOrder = d.SafetyOrder,
            WeightFactor = d.WeightFactor ?? bare.WeightFactor,
        };
    }

    private static PowerBank Bank(RequestReader reader, BankDocument d)
    {
        CellPack pack = Pack(reader, "$.bank.pack", d.Pack);
        var bare = new PowerBank(5000);
        return bare with
        {
            Name = d.Name ?? bare.Name,
            Pack = d.Pack.HonestFraction is null ? pack with { HonestFraction = bare.Pack.HonestFraction } : pack,
            StartChargeFraction = d.StartChargeFraction ?? bare.StartChargeFraction,
            IdleSince = Span(reader, "$.bank.idle_since_s", d.IdleSinceS) ?? bare.IdleSince,
            ConverterEfficiencyFraction = d.ConverterEfficiencyFraction ?? bare.ConverterEfficiencyFraction,
            IdlePower = Power.FromWatts(d.IdlePowerW ?? bare.IdleW),
            PortPower = Power.FromWatts(d.PortPowerW ?? bare.PortW),
            Ports = d.Ports ?? bare.Ports,
            SwitchOffBelow = Power.FromWatts(d.SwitchOffBelowW ?? bare.SwitchOffW),
            Carried = d.Carried ?? bare.Carried,
        };
    }

    private static DistressBeacon Beacon(BeaconDocument d)
    {
        var z = new DistressBeacon();
        return new DistressBeacon
        {
            Name = d.Name ?? z.Name,
            BatteryExpires = d.BatteryExpires,
            Registered = d.Registered ?? default,
            SelfTests = d.SelfTests ?? 0,
            SelfTestsAllowed = d.SelfTestsAllowed,
            WorksProbability = d.WorksProbability ?? z.WorksProbability,
        };
    }

    private static KitItem Item(RequestReader reader, string path, ItemDocument d) => new(d.Name, Mass.FromKilograms(d.MassKg), Volume.FromLiters(d.VolumeL), d.Place, d.Functions)
    {
        Uses = d.Uses ?? 1,
        WaterCapacity = Volume.FromLiters(d.WaterCapacityL ?? 0),
        HasOwnMount = d.HasOwnMount ?? false,
        HasFlame = d.HasFlame ?? false,
        MustGo = d.MustGo ?? false,
        ExpiresOn = d.ExpiresOn,
        MadeFor = d.MadeFor is { } f
            ? reader.At(path + ".made_for", () => new PartFit
            {
                HangerType = f.HangerType,
                PadShape = f.PadShape,
                AxleType = f.AxleType,
                Sprockets = f.Sprockets,
                BeadSeatMm = f.BeadSeatMm,
                ValveLength = Mm(f.ValveLengthMm),
                RimDepth = Mm(f.RimDepthMm),
                TyreWidth = Mm(f.TyreWidthMm),
                LargestTyreWidth = Mm(f.LargestTyreWidthMm),
            })
            : null,
    };

    private static KitCaps Caps(CapsDocument d) => new()
    {
        TotalMass = Si.Mass(d.TotalMassKg ?? double.NaN),
        MassOnRider = Si.Mass(d.MassOnRiderKg ?? double.NaN),
        BodyVolume = Si.Volume(d.BodyVolumeL ?? double.NaN),
        PackVolume = Si.Volume(d.PackVolumeL ?? double.NaN),
        BikeVolume = Si.Volume(d.BikeVolumeL ?? double.NaN),
    };

    private static Dictionary<FailureKind, FailureRate> Rates(RequestReader reader, IReadOnlyList<RateDocument>? rates)
        => ByKey(reader, "$.failure_rates", rates, r => r.Kind, (at, r) =>
        {
            FailureRate rate = (r.KnownPerKm, r.ShapeFactor, r.ExposureKm) switch
            {
                ({ } known, null, null) => FailureRate.Known(Guard.NotNegative(known, "per km", "KnownPerKm")),
                (null, { } shape, { } km) => new FailureRate(shape, Length.FromKilometers(km)),
                _ => throw reader.Error(at, "either known_per_km, or shape_factor and exposure_km, is expected."),
            };
            return rate.Clustered(Guard.InRange(r.ClusterFactor ?? 1, 1, 20, "(factor)", "ClusterFactor"));
        });

    private static Outfit Outfit(RequestReader reader, OutfitDocument d)
    {
        ClothingOptions z = ClothingOptions.Default;
        return new Outfit(
            reader.Each("$.waiting_outfit.garments", d.Garments, (_, g) => new Garment(g.Name, g.InsulationClo) { Mass = Si.Mass(g.MassKg ?? double.NaN), AirPermeabilityPerM2 = g.AirPermeabilityPerM2 }),
            d.Wetness ?? Wetness.Dry,
            new ClothingOptions { DampFactor = d.DampFactor ?? z.DampFactor, WetFactor = d.WetFactor ?? z.WetFactor, OuterPermeabilityPerM2 = d.OuterPermeabilityPerM2 ?? z.OuterPermeabilityPerM2 });
    }

    private static Dictionary<TKey, T> ByKey<TDocument, TKey, T>(RequestReader reader, string path, IReadOnlyList<TDocument>? documents, Func<TDocument, TKey> key, Func<string, TDocument, T> make)
        where TKey : notnull
    {
        var all = new Dictionary<TKey, T>();
        reader.Each(path, documents, (at, d) => all.TryAdd(key(d), make(at, d)) ? true : throw reader.Error(at, $"{key(d)} is given twice."));
        return all;
    }

    private static GeoPoint? Place(RequestReader reader, string path, PlaceDocument? d)
        => d is null ? null : reader.At<GeoPoint?>(path, () => new GeoPoint(d.LatDeg, d.LonDeg, d.ElevationM ?? double.NaN));

    private static Length? Mm(double? v) => v is { } x ? Length.FromMillimeters(x) : null;
}
