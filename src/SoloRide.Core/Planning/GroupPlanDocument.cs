namespace SoloRide.Planning;

/// <summary>The plan of a group as JSON: plain values, the unit in each name. Holds no names of people.</summary>
internal sealed record GroupPlanDocument
{
    public const string SchemaVersion = "soloride-group-1";

    public required string Schema { get; init; }

    public required RidingGroupDocument Group { get; init; }

    public required double SlowestFactor { get; init; }

    public required int LeadersNeeded { get; init; }

    public required bool LeadersHold { get; init; }

    public required IReadOnlyList<RegroupDocument> Regroups { get; init; }

    public required IReadOnlyList<GroupSpareDocument> Spares { get; init; }

    public required PlanDocument Plan { get; init; }

    public required IReadOnlyList<FindingDocument> Findings { get; init; }

    public required IReadOnlyList<string> Cautions { get; init; }
}

internal sealed record RegroupDocument(string Name, double AlongRouteM, string FirstThere, TimeRangeDocument LastThere, double WaitS);

internal sealed record GroupSpareDocument(string Kind, double ExpectedFactor, int Carry, double EnoughProbability, bool FromLog);
