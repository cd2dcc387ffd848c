using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A ride of several days: the ride, how many days, and where nights can be spent.</summary>
/// <remarks>Immutable. Permission, fire and closures at camps are local matters: what is not known is printed as not checked.</remarks>
public sealed record TripRequest
{
    private readonly double _campL = 2;
    private readonly double _limitC = double.NaN;

    /// <summary>The whole ride; its start is that of the first day, its load is without food and water.</summary>
    public required RideRequest Ride { get; init => field = Guard.NotNull(value, nameof(Ride)); }

    /// <summary>How many days; 1 to 30.</summary>
    public required int Days { get; init => field = Guard.InRange(value, 1, 30, "days", nameof(Days)); }

    /// <summary>Where nights can be spent; the plan chooses so that the largest day is least.</summary>
    public IReadOnlyList<Camp> Camps { get; init => field = [.. Guard.NotNull(value, nameof(Camps))]; } = [];

    /// <summary>When later days start, by the clock of the place; null: as the first day.</summary>
    public TimeOnly? LaterStart { get; init; }

    /// <summary>Shortest night from a late arrival (at the plan's confidence) to the next start; 9 h unless stated. A late day before it moves the next start, with a finding.</summary>
    [Source("assumption-trip-rest")]
    public TimeSpan LeastRest { get; init => field = Guard.NotNegative(value, nameof(LeastRest)); } = TimeSpan.FromHours(9);

    /// <summary>Water for a night: supper, drinking, breakfast; 0 to 20 L, 2 L unless stated. Brought along to a camp that is not known to have water.</summary>
    [Source("assumption-camp-water")]
    public Volume CampWater
    {
        get => Volume.FromLiters(_campL);
        init => _campL = Guard.InRange(value.Liters, 0, 20, "L", nameof(CampWater));
    }

    /// <summary>Lowest night temperature that bag and clothing are good for; -60 to 30 °C. Null: nights are not judged, with a finding.</summary>
    public Temperature? SleepingLimit
    {
        get => Si.Temperature(_limitC);
        init => _limitC = value is { } v ? Guard.InRange(v.DegreesCelsius, -60, 30, "deg C", nameof(SleepingLimit)) : double.NaN;
    }

    /// <summary>The trip as JSON, whole: a plan is a pure function of this text and the terrain given beside it. Its schema is docs/schema/trip-request.schema.json.</summary>
    /// <param name="personal">Whether personal and medical data go in, as in <see cref="RideRequest.ToJson"/>; left out unless asked for.</param>
    /// <returns>JSON text; the same trip gives the same bytes everywhere.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="personal"/> is none of the enumeration.</exception>
    public string ToJson(PersonalData personal = PersonalData.LeftOut) => RequestJson.Write(this, personal);

    /// <summary>Reads a trip from its JSON. What is absent keeps its default.</summary>
    /// <param name="json">The text.</param>
    /// <param name="source">Name of the text for messages.</param>
    /// <returns>The trip.</returns>
    /// <exception cref="ArgumentException">No text, or no name for it.</exception>
    /// <exception cref="InputFormatException">The text is none: says line, position, JSON path, what is wrong and what is allowed.</exception>
    public static TripRequest FromJson(string json, string source = "trip") => RequestJson.ReadTrip(json, source);
}
