using System.Text.Json;
using SoloRide.Batteries;
using SoloRide.Effort;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Internal;
using SoloRide.Kit;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Turns a request into its document and back. Numbers are written whole, so that the plan of what is read is the plan of what was written.</summary>
internal static partial class RequestJson
{
    public static string Write(RideRequest request, PersonalData personal)
        => JsonSerializer.Serialize(Document(request, Guard.Defined(personal)), RequestJsonContext.Default.RequestDocument) + "\n";

    public static RequestDocument Document(RideRequest r, PersonalData personal)
    {
        bool all = personal == PersonalData.Included;
        return new RequestDocument
        {
            Schema = RequestDocument.SchemaVersion,
            PersonalData = personal,
            Title = Empty(r.Title),
            Start = r.Start,
            PreparedAt = r.PreparedAt,
            Zone = r.Zone is { } z ? Zone(z) : null,
            Route = Route(r.Route, all),
            Rider = all ? Rider(r.Rider) : null,
            Bike = Bike(r.Bike),
            Load = new LoadDocument { OnBodyKg = r.Load.OnBody.Kilograms, OnBikeKg = r.Load.OnBike.Kilograms, WaterCapacityL = r.Load.WaterCapacity.Liters },
            Pace = Pace(r.Pace, all),
            Today = all && r.Today is { } today ? Today(today) : null,
            Weather = r.Weather is { } w ? Weather(w) : null,
            Sources = List(r.Sources, s => new SourceDocument
            {
                Name = s.Name,
                Place = Place(s.Place),
                AlongRouteM = s.AlongRoute?.Meters,
                WetProbability = s.WetProbability,
                LastReport = s.LastReport,
                NeedsTreatment = s.NeedsTreatment,
                AmountL = s.Amount?.Liters,
            }),
            StartWaterL = r.StartWater?.Liters,
            Treatment = r.Treatment is { } t
                ? new TreatmentDocument
                {
                    Method = t.Method,
                    FilterFlowLPerMin = t.FilterFlow?.LitersPerMinute,
                    FilterPoreUm = t.FilterPore?.Micrometers,
                    HeatingPerLitreS = t.HeatingPerLitre?.TotalSeconds,
                    SetUpS = t.SetUp.TotalSeconds,
                    IsCloudy = t.IsCloudy,
                    IsCold = t.IsCold,
                }
                : null,
            Sweat = all && r.Sweat is { } sweat ? Sweat(sweat) : null,
            Exits = List(r.Exits, e => new ExitDocument { Name = e.Name, Place = Place(e.Place), AlongRouteM = e.AlongRoute?.Meters, Kind = e.Kind, Phone = e.Phone, PickUp = e.PickUp }),
            EndsAreExits = r.EndsAreExits,
            Devices = List(r.Devices, Device),
            Bank = r.Bank is { } bank ? Bank(bank) : null,
            Beacon = r.Beacon is { } b
                ? new BeaconDocument { Name = b.Name, BatteryExpires = b.BatteryExpires, Registered = b.Registered, SelfTests = b.SelfTests, SelfTestsAllowed = b.SelfTestsAllowed, WorksProbability = b.WorksProbability }
                : null,
            Ways = List(r.Ways, x => new WayDocument { Name = x.Name, Purpose = x.Purpose, Needs = x.Needs, AttemptProbability = x.AttemptProbability, Attempts = x.Attempts }),
            KitItems = List(r.KitItems, Item),
            KitCaps = new CapsDocument
            {
                TotalMassKg = r.KitCaps.TotalMass?.Kilograms,
                MassOnRiderKg = r.KitCaps.MassOnRider?.Kilograms,
                BodyVolumeL = r.KitCaps.BodyVolume?.Liters,
                PackVolumeL = r.KitCaps.PackVolume?.Liters,
                BikeVolumeL = r.KitCaps.BikeVolume?.Liters,
            },
            FailureRates = List([.. r.FailureRates.OrderBy(x => x.Key)], x => Rate(x.Key, x.Value)),
            WaitingOutfit = r.WaitingOutfit is { } o ? Outfit(o) : null,
            WaitingShelter = r.WaitingShelter,
            Deadlines = List(r.Deadlines, d => new DeadlineDocument { Kind = d.Kind, Name = d.Name, FromM = d.From.Meters, ToM = d.To.Meters, Closes = d.Closes, Opens = d.Opens }),
            Skylines = List(r.Skylines, h => new SkylineDocument { Place = Place(h.Place), AltitudesDeg = h.AltitudesDeg }),
            FireAllowed = r.FireAllowed,
            Checked = r.Checked.Count == 0 ? null : new SortedDictionary<string, DateOnly>(r.Checked.ToDictionary(x => x.Key, x => x.Value), StringComparer.Ordinal),
            Options = Options(r.Options),
        };
    }

    private static OptionsDocument Options(PlanOptions o) => new()
    {
        Samples = o.Samples,
        Seed = o.Seed,
        Threads = o.Threads,
        ConfidenceLevel = o.ConfidenceLevel,
        StepLengthM = o.StepLength.Meters,
        StationSpacingM = o.StationSpacing.Meters,
        DaylightReserveS = o.DaylightReserve.TotalSeconds,
        WaterReserveL = o.WaterReserve.Liters,
        ChargeReserveFraction = o.ChargeReserveFraction,
        FoodReserveKcal = o.FoodReserve.Kilocalories,
        IntakeFraction = o.IntakeFraction,
        DryProbability = o.DryProbability,
        IncidentLengthS = o.IncidentLength.TotalSeconds,
        Response = o.Response,
        ReactionS = o.Reaction.TotalSeconds,
        MessageIntervalS = o.MessageInterval.TotalSeconds,
        ClothingClo = o.ClothingClo,
        GraceS = o.Grace.TotalSeconds,
        AccessCheckAgeS = o.AccessCheckAge.TotalSeconds,
        ClosureCheckAgeS = o.ClosureCheckAge.TotalSeconds,
    };

    private static ZoneDocument Zone(ZoneOffsets z) => new()
    {
        Id = z.Id,
        FirstOffsetMin = z.FirstOffset.TotalMinutes,
        Transitions = List(z.Transitions, t => new TransitionDocument { From = t.From, OffsetMin = t.Offset.TotalMinutes }),
    };

    private static RouteDocument Route(RideRoute r, bool times)
    {
        ReadOnlySpan<long> ticks = times ? r.RecordedTicks : [];
        long first = RouteColumns.NoTime;
        foreach (long t in ticks)
        {
            first = t == RouteColumns.NoTime ? first : first == RouteColumns.NoTime ? t : Math.Min(first, t);
        }

        double[]? recorded = null;
        if (first != RouteColumns.NoTime)
        {
            recorded = new double[ticks.Length];
            for (int i = 0; i < ticks.Length; i++)
            {
                recorded[i] = ticks[i] == RouteColumns.NoTime ? double.NaN : (ticks[i] - first) / (double)TimeSpan.TicksPerSecond;
            }
        }

        double[] sum = RouteKernel.Cumulative(r.LatDeg, r.LonDeg);
        return new RouteDocument
        {
            Name = Empty(r.Name),
            Description = Empty(r.Description),
            HeightSource = r.HeightSource,
            LatDeg = r.LatDeg.ToArray(),
            LonDeg = r.LonDeg.ToArray(),
            ElevationM = r.ElevationM.IsEmpty ? null : r.ElevationM.ToArray(),
            DistanceM = r.CumM.SequenceEqual(sum) ? null : r.CumM.ToArray(),
            RecordedFrom = recorded is null ? null : new DateTimeOffset(first, TimeSpan.Zero),
            RecordedS = recorded,
            RecordedBackward = recorded is not null && r.UtcTicks.IsEmpty ? true : null,
            Waypoints = List(r.Waypoints, w => new WaypointDocument
            {
                Place = Place(w.Place)!,
                Name = w.Name,
                Type = Empty(w.Type),
                Description = Empty(w.Description),
                Comment = Empty(w.Comment),
                Time = times ? w.Time : null,
            }),
            Gaps = List(r.Gaps, g => new GapDocument { AtM = g.AtM, LengthM = g.LengthM, PointIndex = g.PointIndex }),
            Sections = List(r.Sections, s => new SectionDocument
            {
                FromM = s.FromM,
                ToM = s.ToM,
                Surface = s.Surface,
                Difficulty = s.Difficulty,
                UphillLevel = s.UphillLevel,
                AgencyLevel = s.AgencyLevel,
                HikingLevel = s.HikingLevel,
                SmoothnessLevel = s.SmoothnessLevel,
                SurfaceTag = Empty(s.SurfaceTag),
            }),
            Findings = List(r.Findings, Finding),
        };
    }

    private static FindingDocument Finding(Finding x) => new(x.Code, x.Severity.ToString(), x.Subject, x.Message, [.. x.Values.Select(v => new FindingValueDocument(v.Name, v.Text))]);

    private static RiderDocument Rider(Rider r) => new()
    {
        MassKg = r.Mass?.Kilograms,
        HeightM = r.Height?.Meters,
        AgeYears = r.AgeYears,
        Sex = r.Sex,
        SustainedPowerW = r.SustainedPower is { } p ? (double)p.Watts : null,
        ClimbingRateMPerH = r.ClimbingRate?.MetersPerHour,
        MaxOxygenUptakeMlPerKgMin = r.MaxOxygenUptakeMlPerKgMin,
        HeatAcclimatised = r.HeatAcclimatised,
        AltitudeAcclimatised = r.AltitudeAcclimatised,
        SweatRateLPerH = r.SweatRate?.LitersPerHour,
        SweatSodiumMmolPerL = r.SweatSodiumMmolPerL,
    };

    private static BikeDocument Bike(Bike b) => new()
    {
        MassKg = b.Mass.Kilograms,
        AssistPowerW = (double)b.AssistPower.Watts,
        AssistBatteryWh = b.AssistBattery.WattHours,
        DragAreaM2 = b.DragAreaM2,
        RollingFactor = b.RollingFactor,
    };

    private static PaceDocument Pace(PaceOptions p, bool all) => new()
    {
        Reserve = new ReserveDocument { PowerFraction = p.Reserve.PowerFraction, TechnicalFraction = p.Reserve.TechnicalFraction },
        Spread = new SpreadDocument
        {
            RideGsdFactor = p.Spread.RideGsdFactor,
            SurfaceGsdFactor = p.Spread.SurfaceGsdFactor,
            DescentGsdFactor = p.Spread.DescentGsdFactor,
            HundredMetreGsdFactor = p.Spread.HundredMetreGsdFactor,
            FootGsdFactor = p.Spread.FootGsdFactor,
        },
        Stops = new StopsDocument { MinutesPerHour = p.Stops.MinutesPerHour, GsdFactor = p.Stops.GsdFactor },
        Foot = new FootDocument
        {
            WalkerPercentile = p.Foot.WalkerPercentile,
            FastestMps = p.Foot.Fastest.MetersPerSecond,
            PushLevelFactor = p.Foot.PushLevelFactor,
            PushSteepFactor = p.Foot.PushSteepFactor,
            PushDownFactor = p.Foot.PushDownFactor,
            CarryLevelFactor = p.Foot.CarryLevelFactor,
            CarrySteepFactor = p.Foot.CarrySteepFactor,
            InjuredFactor = p.Foot.InjuredFactor,
        },
        Calibration = all && p.Calibration is { } c
            ? new CalibrationDocument
            {
                SustainedPowerW = (double)c.SustainedPower.Watts,
                PowerGsdFactor = c.PowerGsdFactor,
                RideGsdFactor = c.RideGsdFactor,
                ScatterFactor = c.ScatterFactor,
                Technique = List(c.Technique, s => new SkillDocument { Difficulty = s.Difficulty, Factor = s.Factor, GsdFactor = s.GsdFactor }),
                DescentFactor = c.DescentFactor,
                CorrelationFactor = c.CorrelationFactor.Count > 0 ? [.. c.CorrelationFactor] : null,
                DescentGsdFactor = c.DescentGsdFactor,
                StopMinutesPerHour = c.StopMinutesPerHour,
                StopGsdFactor = c.StopGsdFactor,
                Rides = c.Rides,
                Legs = c.Legs,
                HeldOutErrorFraction = c.HeldOutErrorFraction,
                PriorErrorFraction = c.PriorErrorFraction,
            }
            : null,
        TimedRide = all && p.TimedRide is { } t
            ? new TimedRideDocument
            {
                RideId = t.RideId,
                Steps = [.. t.Steps.Select(s => new StepDocument
                {
                    LengthM = s.LengthM,
                    RiseM = s.RiseM,
                    ElevationM = Known(s.ElevationM),
                    BearingDeg = Known(s.BearingDeg),
                    Surface = s.Surface,
                    Difficulty = s.Difficulty,
                })],
                MovingS = t.Moving.TotalSeconds,
                StoppedS = t.Stopped.TotalSeconds,
            }
            : null,
        Habit = p.Habit,
        GrossEfficiencyFraction = p.GrossEfficiencyFraction,
        DriveEfficiencyFraction = p.DriveEfficiencyFraction,
        SlowestRideMps = p.SlowestRide.MetersPerSecond,
        FadeTenHoursFraction = p.FadeTenHoursFraction,
        HomeElevationM = p.HomeElevation.Meters,
        HeatLossPerDegreeFraction = p.HeatLossPerDegreeFraction,
        RideByLampFactor = p.RideByLampFactor,
        FootByLampFactor = p.FootByLampFactor,
        FootByLampRoughFactor = p.FootByLampRoughFactor,
        DescentMet = p.DescentMet,
        StandingMet = p.StandingMet,
        TechnicalCaps = List([.. p.TechnicalCaps.OrderBy(x => x.Key)], x => new CapDocument
        {
            Difficulty = x.Key,
            LevelMps = x.Value.Level.MetersPerSecond,
            DownTenPercentMps = x.Value.DownTenPercent.MetersPerSecond,
            RiddenUpTenPercentFraction = x.Value.RiddenUpTenPercentFraction,
            GsdFactor = x.Value.GsdFactor,
        }),
    };

    private static TodayDocument Today(PaceUpdate t) => new()
    {
        LogMean = t.State.Mean,
        LogCovariance = [.. Enumerable.Range(0, TodayState.Size).Select(i => Enumerable.Range(0, TodayState.Size).Select(j => t.State.Covariance[i, j]).ToArray())],
        LogFactor = t.LogFactor,
        LogFactorSd = t.LogSd,
        Legs = t.Legs,
    };

    private static ForecastDocument Weather(Forecast f) => new()
    {
        LapseKPerKm = f.Options.LapseKPerKm,
        WindShelterFactor = f.Options.WindShelterFactor,
        Places = [.. f.Places.Select(p => new ForecastPlaceDocument
        {
            Name = p.Name,
            ElevationM = p.Elevation?.Meters,
            Position = Place(p.Position),
            Issued = p.Issued,
            Hours = [.. p.Hours.Select(h => new HourDocument
            {
                Time = h.Time,
                AirTempC = Known(h.Weather.AirTempC),
                RelHumidityPct = Known(h.Weather.RelHumidityPct),
                WindMps = Known(h.Weather.WindMps),
                WindFromDeg = Known(h.Weather.WindFromDeg),
                GustMps = Known(h.Weather.GustMps),
                CloudPct = Known(h.Weather.CloudPct),
                PrecipMm = Known(h.Weather.PrecipMm),
                ThunderPct = Known(h.Weather.ThunderPct),
            })],
        })],
    };

    private static SweatDocument Sweat(SweatCalibration s) => new()
    {
        RateLPerH = Range(s.Rate, v => v.LitersPerHour),
        ModelFactor = s.ModelFactor is { } f ? Range(f, v => v.DecimalFractions) : null,
        RidesUsed = s.RidesUsed,
        Findings = List(s.Findings, Finding),
    };

    private static ValueRangeDocument Range<T>(Estimate<T> e, Func<T, double> value)
        where T : struct, IComparable<T>
        => new() { Low = value(e.Low), Typical = value(e.Typical), High = value(e.High), Level = e.Level };

    private static PackDocument Pack(CellPack p) => new()
    {
        Chemistry = p.Chemistry,
        RatedMah = p.RatedAh * 1000,
        NominalV = p.NominalV,
        HonestFraction = p.HonestFraction,
        HealthFraction = p.HealthFraction,
        CapacitySpreadFraction = p.CapacitySpreadFraction,
        SelfDischargePerMonthFraction = p.SelfDischargePerMonthFraction,
        CutOffV = p.CutOffV,
        ColdTable = p.ColdTable is { } cold ? [.. cold.Select(c => new ColdDocument { CellC = c.CellC, UsableFraction = c.UsableFraction })] : null,
    };

    private static PoweredDocument Device(Device d) => new()
    {
        Name = d.Name,
        Kind = d.Kind,
        Pack = Pack(d.Pack),
        Modes = [.. d.Modes.Select(m => new ModeDocument
        {
            Name = m.Name,
            Use = m.Use,
            LowW = m.LowW,
            TypicalW = m.TypicalW,
            HighW = m.HighW,
            Light = m.Light is { } l ? new LightDocument { FluxLm = l.FluxLm, PeakCd = l.PeakCd, PrintedRuntimeS = l.PrintedRuntime?.TotalSeconds, Regulation = l.Regulation } : null,
        })],
        StartChargeFraction = d.StartChargeFraction,
        IdleSinceS = d.IdleSince.TotalSeconds,
        Carried = d.Carried,
        TopUp = d.TopUp,
        IntakeW = d.IntakeW,
        ChargingEfficiencyFraction = d.ChargingEfficiencyFraction,
        SafetyOrder = d.SafetyOrder,
        WeightFactor = d.WeightFactor,
    };

    private static BankDocument Bank(PowerBank b) => new()
    {
        Name = b.Name,
        Pack = Pack(b.Pack),
        StartChargeFraction = b.StartChargeFraction,
        IdleSinceS = b.IdleSince.TotalSeconds,
        ConverterEfficiencyFraction = b.ConverterEfficiencyFraction,
        IdlePowerW = b.IdleW,
        PortPowerW = b.PortW,
        Ports = b.Ports,
        SwitchOffBelowW = b.SwitchOffW,
        Carried = b.Carried,
    };

    private static ItemDocument Item(KitItem i) => new()
    {
        Name = i.Name,
        MassKg = i.MassKg,
        VolumeL = i.VolumeL,
        Place = i.Place,
        Functions = i.Functions,
        Uses = i.Uses,
        WaterCapacityL = i.WaterL,
        HasOwnMount = i.HasOwnMount,
        HasFlame = i.HasFlame,
        MustGo = i.MustGo,
        ExpiresOn = i.ExpiresOn,
        MadeFor = i.MadeFor is { } f
            ? new FitDocument
            {
                HangerType = f.HangerType,
                PadShape = f.PadShape,
                AxleType = f.AxleType,
                Sprockets = f.Sprockets,
                BeadSeatMm = f.BeadSeatMm,
                ValveLengthMm = Known(f.ValveMm),
                RimDepthMm = Known(f.RimDepthMm),
                TyreWidthMm = Known(f.WidthLowMm),
                LargestTyreWidthMm = Known(f.WidthHighMm),
            }
            : null,
    };

    private static RateDocument Rate(FailureKind kind, FailureRate r) => new()
    {
        Kind = kind,
        ShapeFactor = double.IsNaN(r.KnownPerKm) ? r.Shape : null,
        ExposureKm = double.IsNaN(r.KnownPerKm) ? r.ExposureKm : null,
        KnownPerKm = Known(r.KnownPerKm),
        ClusterFactor = r.ClusterFactor,
    };

    private static OutfitDocument Outfit(Outfit o) => new()
    {
        Garments = [.. o.Garments.Select(g => new GarmentDocument { Name = g.Name, InsulationClo = g.InsulationClo, MassKg = g.Mass?.Kilograms, AirPermeabilityPerM2 = g.AirPermeabilityPerM2 })],
        Wetness = o.Wetness,
        DampFactor = o.Options.DampFactor,
        WetFactor = o.Options.WetFactor,
        OuterPermeabilityPerM2 = o.Options.OuterPermeabilityPerM2,
    };

    private static PlaceDocument? Place(GeoPoint? place)
        => place is { } p ? new PlaceDocument { LatDeg = p.LatDeg, LonDeg = p.LonDeg, ElevationM = Known(p.ElevationM) } : null;

    private static List<TDocument>? List<T, TDocument>(IReadOnlyList<T> items, Func<T, TDocument> document) => items.Count == 0 ? null : [.. items.Select(document)];

    private static double? Known(double v) => double.IsNaN(v) ? null : v;

    private static string? Empty(string s) => s.Length == 0 ? null : s;
}
