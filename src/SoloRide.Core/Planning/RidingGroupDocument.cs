namespace SoloRide.Planning;

/// <summary>A group as JSON; the ride goes beside it. What is absent keeps its default.</summary>
internal sealed record RidingGroupDocument
{
    public const string SchemaVersion = "soloride-riding-group-1";

    public required string Schema { get; init; }

    public required int Riders { get; init; }

    public int? Leaders { get; init; }

    public double? PaceSpreadFraction { get; init; }

    public int? RidersPerLeader { get; init; }

    public int? LeastLeaders { get; init; }

    public double[]? RegroupAtM { get; init; }

    public double? RegroupStopS { get; init; }

    public int? Bikes { get; init; }

    public double? SparesLevelProbability { get; init; }

    public IReadOnlyList<PoweredDocument>? Devices { get; init; }
}
