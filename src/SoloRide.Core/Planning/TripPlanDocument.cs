namespace SoloRide.Planning;

/// <summary>The plan of a trip as JSON: plain values, the unit in each name. Distances of a day's plan count from the start of that day.</summary>
internal sealed record TripPlanDocument
{
    public const string SchemaVersion = "soloride-trip-1";

    public required string Schema { get; init; }

    public required string Title { get; init; }

    public required string Verdict { get; init; }

    public required double LargestDayS { get; init; }

    public RangeDocument? MovingS { get; init; }

    public required IReadOnlyList<TripDayDocument> Days { get; init; }

    public required IReadOnlyList<FindingDocument> Findings { get; init; }

    public required IReadOnlyList<string> Cautions { get; init; }
}

internal sealed record TripDayDocument
{
    public required int Day { get; init; }

    public required double FromM { get; init; }

    public required double ToM { get; init; }

    public required double EffortS { get; init; }

    public string? Camp { get; init; }

    public double? DaylightS { get; init; }

    public required double CarriedKg { get; init; }

    public required double FoodCarriedKg { get; init; }

    public required double FoodKcal { get; init; }

    public required double WaterAtStartL { get; init; }

    public double? BringToCampL { get; init; }

    public required IReadOnlyList<ChargeDocument> ChargeAtStart { get; init; }

    public required double StartMovedS { get; init; }

    public double? RestS { get; init; }

    public double? NightLowC { get; init; }

    public required bool TooCold { get; init; }

    public required PlanDocument Plan { get; init; }
}
