using SoloRide.Batteries;
using SoloRide.Effort;
using SoloRide.Escape;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Kit;
using SoloRide.Routes;

namespace SoloRide.Planning;

/// <summary>A request as JSON: plain values, the unit in each name. What is absent keeps its default.</summary>
internal sealed record RequestDocument
{
    public const string SchemaVersion = "soloride-request-1";

    public required string Schema { get; init; }

    public PersonalData? PersonalData { get; init; }

    public string? Title { get; init; }

    public required DateTimeOffset Start { get; init; }

    public DateTimeOffset? PreparedAt { get; init; }

    public ZoneDocument? Zone { get; init; }

    public required RouteDocument Route { get; init; }

    public RiderDocument? Rider { get; init; }

    public BikeDocument? Bike { get; init; }

    public LoadDocument? Load { get; init; }

    public PaceDocument? Pace { get; init; }

    public TodayDocument? Today { get; init; }

    public ForecastDocument? Weather { get; init; }

    public IReadOnlyList<SourceDocument>? Sources { get; init; }

    public double? StartWaterL { get; init; }

    public TreatmentDocument? Treatment { get; init; }

    public SweatDocument? Sweat { get; init; }

    public IReadOnlyList<ExitDocument>? Exits { get; init; }

    public bool? EndsAreExits { get; init; }

    public IReadOnlyList<PoweredDocument>? Devices { get; init; }

    public BankDocument? Bank { get; init; }

    public BeaconDocument? Beacon { get; init; }

    public IReadOnlyList<WayDocument>? Ways { get; init; }

    public IReadOnlyList<ItemDocument>? KitItems { get; init; }

    public CapsDocument? KitCaps { get; init; }

    public IReadOnlyList<RateDocument>? FailureRates { get; init; }

    public OutfitDocument? WaitingOutfit { get; init; }

    public Shelter? WaitingShelter { get; init; }

    public IReadOnlyList<DeadlineDocument>? Deadlines { get; init; }

    public IReadOnlyList<SkylineDocument>? Skylines { get; init; }

    public Known? FireAllowed { get; init; }

    public IReadOnlyDictionary<string, DateOnly>? Checked { get; init; }

    public OptionsDocument? Options { get; init; }
}

internal sealed record ZoneDocument
{
    public required string Id { get; init; }

    public required double FirstOffsetMin { get; init; }

    public IReadOnlyList<TransitionDocument>? Transitions { get; init; }
}

internal sealed record TransitionDocument
{
    public required DateTimeOffset From { get; init; }

    public required double OffsetMin { get; init; }
}

internal sealed record SkylineDocument
{
    public PlaceDocument? Place { get; init; }

    public required IReadOnlyList<double> AltitudesDeg { get; init; }
}

internal sealed record PlaceDocument
{
    public required double LatDeg { get; init; }

    public required double LonDeg { get; init; }

    public double? ElevationM { get; init; }
}

internal sealed record RouteDocument
{
    public string? Name { get; init; }

    public string? Description { get; init; }

    public HeightSource? HeightSource { get; init; }

    public required double[] LatDeg { get; init; }

    public required double[] LonDeg { get; init; }

    public double[]? ElevationM { get; init; }

    /// <summary>Distance of each point from the start, where it is not the sum of the lines between the points, as in a part of a longer route.</summary>
    public double[]? DistanceM { get; init; }

    /// <summary>Times of a recording, as seconds after <see cref="RecordedFrom"/>.</summary>
    public DateTimeOffset? RecordedFrom { get; init; }

    public double[]? RecordedS { get; init; }

    public bool? RecordedBackward { get; init; }

    public IReadOnlyList<WaypointDocument>? Waypoints { get; init; }

    public IReadOnlyList<GapDocument>? Gaps { get; init; }

    public IReadOnlyList<SectionDocument>? Sections { get; init; }

    public IReadOnlyList<FindingDocument>? Findings { get; init; }
}

internal sealed record WaypointDocument
{
    public required PlaceDocument Place { get; init; }

    public required string Name { get; init; }

    public string? Type { get; init; }

    public string? Description { get; init; }

    public string? Comment { get; init; }

    public DateTimeOffset? Time { get; init; }
}

internal sealed record GapDocument
{
    public required double AtM { get; init; }

    public required double LengthM { get; init; }

    public required int PointIndex { get; init; }
}

internal sealed record SectionDocument
{
    public required double FromM { get; init; }

    public required double ToM { get; init; }

    public TrailSurface? Surface { get; init; }

    public TrailDifficulty? Difficulty { get; init; }

    public int? UphillLevel { get; init; }

    public int? AgencyLevel { get; init; }

    public int? HikingLevel { get; init; }

    public int? SmoothnessLevel { get; init; }

    public string? SurfaceTag { get; init; }
}

internal sealed record RiderDocument
{
    public double? MassKg { get; init; }

    public double? HeightM { get; init; }

    public int? AgeYears { get; init; }

    public Sex? Sex { get; init; }

    public double? SustainedPowerW { get; init; }

    public double? ClimbingRateMPerH { get; init; }

    public double? MaxOxygenUptakeMlPerKgMin { get; init; }

    public Known? HeatAcclimatised { get; init; }

    public Known? AltitudeAcclimatised { get; init; }

    public double? SweatRateLPerH { get; init; }

    public double? SweatSodiumMmolPerL { get; init; }
}

internal sealed record BikeDocument
{
    public double? MassKg { get; init; }

    public double? AssistPowerW { get; init; }

    public double? AssistBatteryWh { get; init; }

    public double? DragAreaM2 { get; init; }

    public double? RollingFactor { get; init; }
}

internal sealed record LoadDocument
{
    public double? OnBodyKg { get; init; }

    public double? OnBikeKg { get; init; }

    public double? WaterCapacityL { get; init; }
}

internal sealed record PaceDocument
{
    public ReserveDocument? Reserve { get; init; }

    public SpreadDocument? Spread { get; init; }

    public StopsDocument? Stops { get; init; }

    public FootDocument? Foot { get; init; }

    public CalibrationDocument? Calibration { get; init; }

    public TimedRideDocument? TimedRide { get; init; }

    public RidingHabit? Habit { get; init; }

    public double? GrossEfficiencyFraction { get; init; }

    public double? DriveEfficiencyFraction { get; init; }

    public double? SlowestRideMps { get; init; }

    public double? FadeTenHoursFraction { get; init; }

    public double? HomeElevationM { get; init; }

    public double? HeatLossPerDegreeFraction { get; init; }

    public double? RideByLampFactor { get; init; }

    public double? FootByLampFactor { get; init; }

    public double? FootByLampRoughFactor { get; init; }

    public double? DescentMet { get; init; }

    public double? StandingMet { get; init; }

    public IReadOnlyList<CapDocument>? TechnicalCaps { get; init; }
}

internal sealed record ReserveDocument
{
    public double? PowerFraction { get; init; }

    public double? TechnicalFraction { get; init; }
}

internal sealed record SpreadDocument
{
    public double? RideGsdFactor { get; init; }

    public double? SurfaceGsdFactor { get; init; }

    public double? DescentGsdFactor { get; init; }

    public double? HundredMetreGsdFactor { get; init; }

    public double? FootGsdFactor { get; init; }
}

internal sealed record StopsDocument
{
    public double? MinutesPerHour { get; init; }

    public double? GsdFactor { get; init; }
}

internal sealed record FootDocument
{
    public int? WalkerPercentile { get; init; }

    public double? FastestMps { get; init; }

    public double? PushLevelFactor { get; init; }

    public double? PushSteepFactor { get; init; }

    public double? PushDownFactor { get; init; }

    public double? CarryLevelFactor { get; init; }

    public double? CarrySteepFactor { get; init; }

    public double? InjuredFactor { get; init; }
}

internal sealed record CalibrationDocument
{
    public required double SustainedPowerW { get; init; }

    public required double PowerGsdFactor { get; init; }

    public required double RideGsdFactor { get; init; }

    public double? ScatterFactor { get; init; }

    public IReadOnlyList<SkillDocument>? Technique { get; init; }

    public double? DescentFactor { get; init; }

    public double[]? CorrelationFactor { get; init; }

    public double? DescentGsdFactor { get; init; }

    public double? StopMinutesPerHour { get; init; }

    public double? StopGsdFactor { get; init; }

    public int? Rides { get; init; }

    public int? Legs { get; init; }

    public double? HeldOutErrorFraction { get; init; }

    public double? PriorErrorFraction { get; init; }
}

internal sealed record SkillDocument
{
    public required TrailDifficulty Difficulty { get; init; }

    public required double Factor { get; init; }

    public required double GsdFactor { get; init; }
}

internal sealed record CapDocument
{
    public required TrailDifficulty Difficulty { get; init; }

    public required double LevelMps { get; init; }

    public required double DownTenPercentMps { get; init; }

    public required double RiddenUpTenPercentFraction { get; init; }

    public required double GsdFactor { get; init; }
}

internal sealed record TimedRideDocument
{
    public required string RideId { get; init; }

    public required IReadOnlyList<StepDocument> Steps { get; init; }

    public required double MovingS { get; init; }

    public double? StoppedS { get; init; }
}

internal sealed record StepDocument
{
    public required double LengthM { get; init; }

    public required double RiseM { get; init; }

    public double? ElevationM { get; init; }

    public double? BearingDeg { get; init; }

    public TrailSurface? Surface { get; init; }

    public TrailDifficulty? Difficulty { get; init; }
}

/// <summary>What today's legs have shown: the joint normal state of the logarithms of the factors, the shared one first.</summary>
internal sealed record TodayDocument
{
    public required double[] LogMean { get; init; }

    public required IReadOnlyList<double[]> LogCovariance { get; init; }

    public required double LogFactor { get; init; }

    public required double LogFactorSd { get; init; }

    public required int Legs { get; init; }
}

internal sealed record ForecastDocument
{
    public double? LapseKPerKm { get; init; }

    public double? WindShelterFactor { get; init; }

    public required IReadOnlyList<ForecastPlaceDocument> Places { get; init; }
}

internal sealed record ForecastPlaceDocument
{
    public required string Name { get; init; }

    public double? ElevationM { get; init; }

    public PlaceDocument? Position { get; init; }

    public DateTimeOffset? Issued { get; init; }

    public required IReadOnlyList<HourDocument> Hours { get; init; }
}

internal sealed record HourDocument
{
    public required DateTimeOffset Time { get; init; }

    public double? AirTempC { get; init; }

    public double? RelHumidityPct { get; init; }

    public double? WindMps { get; init; }

    public double? WindFromDeg { get; init; }

    public double? GustMps { get; init; }

    public double? CloudPct { get; init; }

    public double? PrecipMm { get; init; }

    public double? ThunderPct { get; init; }
}

internal sealed record SourceDocument
{
    public required string Name { get; init; }

    public PlaceDocument? Place { get; init; }

    public double? AlongRouteM { get; init; }

    public double? WetProbability { get; init; }

    public DateOnly? LastReport { get; init; }

    public bool? NeedsTreatment { get; init; }

    public double? AmountL { get; init; }
}

internal sealed record TreatmentDocument
{
    public required WaterTreatmentMethod Method { get; init; }

    public double? FilterFlowLPerMin { get; init; }

    public double? FilterPoreUm { get; init; }

    public double? HeatingPerLitreS { get; init; }

    public double? SetUpS { get; init; }

    public bool? IsCloudy { get; init; }

    public bool? IsCold { get; init; }
}

internal sealed record SweatDocument
{
    public required ValueRangeDocument RateLPerH { get; init; }

    public ValueRangeDocument? ModelFactor { get; init; }

    public required int RidesUsed { get; init; }

    public IReadOnlyList<FindingDocument>? Findings { get; init; }
}

internal sealed record ValueRangeDocument
{
    public required double Low { get; init; }

    public required double Typical { get; init; }

    public required double High { get; init; }

    public required double Level { get; init; }
}

internal sealed record ExitDocument
{
    public required string Name { get; init; }

    public PlaceDocument? Place { get; init; }

    public double? AlongRouteM { get; init; }

    public ExitKind? Kind { get; init; }

    public Known? Phone { get; init; }

    public Known? PickUp { get; init; }
}

internal sealed record PackDocument
{
    public required CellChemistry Chemistry { get; init; }

    public required double RatedMah { get; init; }

    public required double NominalV { get; init; }

    public double? HonestFraction { get; init; }

    public double? HealthFraction { get; init; }

    public double? CapacitySpreadFraction { get; init; }

    public double? SelfDischargePerMonthFraction { get; init; }

    public double? CutOffV { get; init; }

    public IReadOnlyList<ColdDocument>? ColdTable { get; init; }
}

internal sealed record ColdDocument
{
    public required double CellC { get; init; }

    public required double UsableFraction { get; init; }
}

internal sealed record PoweredDocument
{
    public required string Name { get; init; }

    public required DeviceKind Kind { get; init; }

    public required PackDocument Pack { get; init; }

    public required IReadOnlyList<ModeDocument> Modes { get; init; }

    public double? StartChargeFraction { get; init; }

    public double? IdleSinceS { get; init; }

    public CarryPlace? Carried { get; init; }

    public TopUpRule? TopUp { get; init; }

    public double? IntakeW { get; init; }

    public double? ChargingEfficiencyFraction { get; init; }

    public int? SafetyOrder { get; init; }

    public double? WeightFactor { get; init; }
}

internal sealed record ModeDocument
{
    public required string Name { get; init; }

    public required ModeUse Use { get; init; }

    public required double LowW { get; init; }

    public required double TypicalW { get; init; }

    public required double HighW { get; init; }

    public LightDocument? Light { get; init; }
}

internal sealed record LightDocument
{
    public required double FluxLm { get; init; }

    public required double PeakCd { get; init; }

    public double? PrintedRuntimeS { get; init; }

    public LampRegulation? Regulation { get; init; }
}

internal sealed record BankDocument
{
    public string? Name { get; init; }

    public required PackDocument Pack { get; init; }

    public double? StartChargeFraction { get; init; }

    public double? IdleSinceS { get; init; }

    public double? ConverterEfficiencyFraction { get; init; }

    public double? IdlePowerW { get; init; }

    public double? PortPowerW { get; init; }

    public int? Ports { get; init; }

    public double? SwitchOffBelowW { get; init; }

    public CarryPlace? Carried { get; init; }
}

internal sealed record BeaconDocument
{
    public string? Name { get; init; }

    public DateOnly? BatteryExpires { get; init; }

    public Known? Registered { get; init; }

    public int? SelfTests { get; init; }

    public int? SelfTestsAllowed { get; init; }

    public double? WorksProbability { get; init; }
}

internal sealed record WayDocument
{
    public required string Name { get; init; }

    public required MessagePurpose Purpose { get; init; }

    public required IReadOnlyList<string> Needs { get; init; }

    public double? AttemptProbability { get; init; }

    public int? Attempts { get; init; }
}

internal sealed record ItemDocument
{
    public required string Name { get; init; }

    public required double MassKg { get; init; }

    public required double VolumeL { get; init; }

    public required KitPlace Place { get; init; }

    public required IReadOnlyList<KitFunction> Functions { get; init; }

    public int? Uses { get; init; }

    public double? WaterCapacityL { get; init; }

    public bool? HasOwnMount { get; init; }

    public bool? HasFlame { get; init; }

    public bool? MustGo { get; init; }

    public DateOnly? ExpiresOn { get; init; }

    public FitDocument? MadeFor { get; init; }
}

internal sealed record FitDocument
{
    public string? HangerType { get; init; }

    public string? PadShape { get; init; }

    public string? AxleType { get; init; }

    public int? Sprockets { get; init; }

    public int? BeadSeatMm { get; init; }

    public double? ValveLengthMm { get; init; }

    public double? RimDepthMm { get; init; }

    public double? TyreWidthMm { get; init; }

    public double? LargestTyreWidthMm { get; init; }
}

internal sealed record CapsDocument
{
    public double? TotalMassKg { get; init; }

    public double? MassOnRiderKg { get; init; }

    public double? BodyVolumeL { get; init; }

    public double? PackVolumeL { get; init; }

    public double? BikeVolumeL { get; init; }
}

/// <summary>A rate of failure: either known, or as shape (events) over exposure.</summary>
internal sealed record RateDocument
{
    public required FailureKind Kind { get; init; }

    public double? ShapeFactor { get; init; }

    public double? ExposureKm { get; init; }

    public double? KnownPerKm { get; init; }

    public double? ClusterFactor { get; init; }
}

internal sealed record OutfitDocument
{
    public required IReadOnlyList<GarmentDocument> Garments { get; init; }

    public Wetness? Wetness { get; init; }

    public double? DampFactor { get; init; }

    public double? WetFactor { get; init; }

    public double? OuterPermeabilityPerM2 { get; init; }
}

internal sealed record GarmentDocument
{
    public required string Name { get; init; }

    public required double InsulationClo { get; init; }

    public double? MassKg { get; init; }

    public double? AirPermeabilityPerM2 { get; init; }
}

internal sealed record DeadlineDocument
{
    public required DeadlineKind Kind { get; init; }

    public required string Name { get; init; }

    public required double FromM { get; init; }

    public required double ToM { get; init; }

    public DateTimeOffset? Closes { get; init; }

    public DateTimeOffset? Opens { get; init; }
}

internal sealed record OptionsDocument
{
    public int? Samples { get; init; }

    public ulong? Seed { get; init; }

    public int? Threads { get; init; }

    public double? ConfidenceLevel { get; init; }

    public double? StepLengthM { get; init; }

    public double? StationSpacingM { get; init; }

    public double? DaylightReserveS { get; init; }

    public double? WaterReserveL { get; init; }

    public double? ChargeReserveFraction { get; init; }

    public double? FoodReserveKcal { get; init; }

    public double? IntakeFraction { get; init; }

    public double? DryProbability { get; init; }

    public double? IncidentLengthS { get; init; }

    public ResponseClass? Response { get; init; }

    public double? ReactionS { get; init; }

    public double? MessageIntervalS { get; init; }

    public double? ClothingClo { get; init; }

    public double? GraceS { get; init; }

    public double? AccessCheckAgeS { get; init; }

    public double? ClosureCheckAgeS { get; init; }
}
