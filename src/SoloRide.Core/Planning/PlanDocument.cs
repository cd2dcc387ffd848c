namespace SoloRide.Planning;

/// <summary>A plan as JSON: plain values, the unit in each name, rounded per quantity.</summary>
internal sealed record PlanDocument
{
    public const string SchemaVersion = "soloride-plan-1";

    public required string Schema { get; init; }

    public required string Title { get; init; }

    public required string Start { get; init; }

    public required string ZoneId { get; init; }

    public required double LengthM { get; init; }

    public RangeDocument? AscentM { get; init; }

    public RangeDocument? DescentM { get; init; }

    public required VerdictDocument Verdict { get; init; }

    public required IReadOnlyList<MarginDocument> Margins { get; init; }

    public string? LatestStart { get; init; }

    public string? LatestStartReason { get; init; }

    public TimeRangeDocument? Finish { get; init; }

    public string? LateFinishP95 { get; init; }

    public RangeDocument? MovingS { get; init; }

    public RangeDocument? DarkS { get; init; }

    public required IReadOnlyList<StationDocument> Stations { get; init; }

    public required IReadOnlyList<NoReturnDocument> PointsOfNoReturn { get; init; }

    public AlternatesDocument? Alternates { get; init; }

    public required IReadOnlyList<LeverDocument> Levers { get; init; }

    public NeedsDocument? Needs { get; init; }

    public HeatDocument? Heat { get; init; }

    public SunDocument? Sun { get; init; }

    public BikeFailsDocument? BikeFails { get; init; }

    public CannotMoveDocument? CannotMove { get; init; }

    public required IReadOnlyList<DeviceDocument> Devices { get; init; }

    public HomeDocument? Home { get; init; }

    public required IReadOnlyList<CarryDocument> Carry { get; init; }

    public string? IncidentWhatIf { get; init; }

    public required IReadOnlyList<DriverDocument> Drivers { get; init; }

    public required IReadOnlyList<OutcomeDriversDocument> DriversOf { get; init; }

    public ConvergenceDocument? Convergence { get; init; }

    public required IReadOnlyList<MissingDocument> Missing { get; init; }

    public required int Samples { get; init; }

    public required IReadOnlyList<AssumptionDocument> Assumptions { get; init; }

    public required IReadOnlyList<string> NotChecked { get; init; }

    public required IReadOnlyList<FindingDocument> Findings { get; init; }

    public required IReadOnlyList<string> Cautions { get; init; }
}

internal sealed record RangeDocument(double Low, double Typical, double High, double Level);

internal sealed record TimeRangeDocument(string Low, string Typical, string High, double Level);

internal sealed record VerdictDocument(string Kind, string Sentence, IReadOnlyList<string> Reasons, double ConfidenceLevel);

internal sealed record MarginDocument(string Kind, string Name, double? AlongRouteM, double? TimeS, double? WaterL, double? EnergyWh, double? ShortfallProbability, double InHandFraction, bool Holds, bool AfterTrouble, string Amount);

internal sealed record StationDocument(
    string Name, string Kind, double AlongRouteM, double LatDeg, double LonDeg, double? ElevationM, TimeRangeDocument Arrival, string LateArrivalP95,
    string? LatestPass, string? LatestPassReason, string? TurnAround, string? Light, double? AirTemperatureC, bool? InDirectSun, string? LastSun, double? SunAbsorbedWPerM2, double? CoreTemperatureC, RangeDocument WaterInHandL, double EnergyUsedKcal, IReadOnlyList<ChargeDocument> Charge, double? WayOutS, string? WayOutTo);

internal sealed record OutcomeDriversDocument(string Outcome, IReadOnlyList<DriverDocument> Drivers);

internal sealed record ConvergenceDocument(int Samples, double FinishTypicalS, double FinishHighS, double LateFinishS, double ShortWaterProbability);

internal sealed record MissingDocument(string Name, string StandIn, string Effect, string? Outcome, double? ShareFraction);

internal sealed record HeatDocument(RangeDocument HighestCoreC, double HighestAtM, string HighestTime, string? LimitReached, double? LimitProbability, int Samples);

internal sealed record SunDocument(double DirectSunS, double TerrainShadeS, double SkylineUnknownS, string? LastSun);

internal sealed record ChargeDocument(string Name, double LeftPct);

internal sealed record NoReturnDocument(string Resource, double AlongRouteM, string At);

internal sealed record AlternateEndDocument(string Name, double AlongRouteM, TimeRangeDocument Arrival, string? GoOnUntil);

internal sealed record BarredWayOutDocument(string Barred, double? WorstAtM, RangeDocument? WalkOutS, string? ExitName);

internal sealed record AlternatesDocument(bool Required, string Reason, IReadOnlyList<AlternateEndDocument> Ends, BarredWayOutDocument? IfBarred);

internal sealed record LeverDocument(string Name, string Verdict, string? Binding, double GainFraction, string Sentence);

internal sealed record FillDocument(string Name, double AlongRouteM, double FillToL, double WetProbability);

internal sealed record NeedsDocument(
    RangeDocument SweatL, RangeDocument DrinkL, IReadOnlyList<FillDocument> Fills, IReadOnlyList<string> IfDry, RangeDocument SodiumMg,
    RangeDocument EnergyKcal, double FoodKcal, double FoodReserveKcal, double CarbohydrateLowGPerHour, double CarbohydrateHighGPerHour);

internal sealed record BikeFailsDocument(
    double WorstAtM, RangeDocument WalkOutS, string ExitName, string Mode, double WaterL, double FoodKcal, double DarkS, double OverOneHourFraction, double OverTwoHoursFraction);

internal sealed record CannotMoveDocument(double DetectionMeanS, double DetectionWorstS, double ResponseS, string ResponseClass, double? TolerableWaitS, string LimitedBy, IReadOnlyList<string> Carry);

internal sealed record DeviceDocument(string Name, RangeDocument AtFinishPct, double? LastsProbability, double? NightOutProbability, string? Note);

internal sealed record CheckInDocument(string At, string What);

internal sealed record HomeDocument(IReadOnlyList<CheckInDocument> CheckIns, TimeRangeDocument Back, string Overdue, string Alarm);

internal sealed record CarryDocument(string Name, double? MassKg, string Reason);

internal sealed record DriverDocument(string Name, double ShareFraction);

internal sealed record AssumptionDocument(string Name, string Value, string? SourceId);

internal sealed record FindingValueDocument(string Name, string Text);

internal sealed record FindingDocument(string Code, string Severity, string Subject, string Message, IReadOnlyList<FindingValueDocument> Values);
