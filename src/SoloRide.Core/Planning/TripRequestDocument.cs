namespace SoloRide.Planning;

/// <summary>A trip as JSON: the ride's own document, and what makes days of it. What is absent keeps its default.</summary>
internal sealed record TripRequestDocument
{
    public const string SchemaVersion = "soloride-trip-request-1";

    public required string Schema { get; init; }

    public required RequestDocument Ride { get; init; }

    public required int Days { get; init; }

    public IReadOnlyList<CampDocument>? Camps { get; init; }

    public TimeOnly? LaterStart { get; init; }

    public double? LeastRestS { get; init; }

    public double? CampWaterL { get; init; }

    public double? SleepingLimitC { get; init; }
}

internal sealed record CampDocument
{
    public required string Name { get; init; }

    public required double AlongRouteM { get; init; }

    public Known? Water { get; init; }

    public Known? Allowed { get; init; }

    public Known? Food { get; init; }

    public Known? Mains { get; init; }

    public double? NightLowC { get; init; }
}
