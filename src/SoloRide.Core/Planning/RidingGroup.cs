using SoloRide.Batteries;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Who rides together, how they wait for one another, and who leads.</summary>
/// <remarks>Immutable. Local rules on leaders, permits and insurance come first; the ratio here is one published rule for school groups.</remarks>
public sealed record RidingGroup
{
    /// <summary>Riders that are led, without the leaders; 1 to 500. The ride's own rider and bike stand for the middle one.</summary>
    public required int Riders { get; init => field = Guard.InRange(value, 1, 500, "riders", nameof(Riders)); }

    /// <summary>Leaders, the one behind included; 0 to 100.</summary>
    public int Leaders { get; init => field = Guard.InRange(value, 0, 100, "leaders", nameof(Leaders)); }

    /// <summary>Spread of the riders' times as a share of the middle one's [share of 1, 0 to 0.5]; 0.10 unless stated.</summary>
    [Source("assumption-group-spread")]
    public double PaceSpreadFraction { get; init => field = Guard.InRange(value, 0, 0.5, "(a share of 1)", nameof(PaceSpreadFraction)); } = 0.10;

    /// <summary>Most riders for one leader; 1 to 100, 10 unless stated.</summary>
    [Source("nsw-school-mtb", "ratio not above 1:10")]
    public int RidersPerLeader { get; init => field = Guard.InRange(value, 1, 100, "riders", nameof(RidersPerLeader)); } = 10;

    /// <summary>Leaders at least; 1 to 20, 2 unless stated.</summary>
    [Source("nsw-school-mtb", "minimum 2 adults")]
    public int LeastLeaders { get; init => field = Guard.InRange(value, 1, 20, "leaders", nameof(LeastLeaders)); } = 2;

    /// <summary>Where all wait until the last one is there.</summary>
    public IReadOnlyList<Length> RegroupAt
    {
        get;
        init => field = [.. Guard.NotNull(value, nameof(RegroupAt)).Select(x => Length.FromMeters(Guard.NotNegative(x.Meters, "m", nameof(RegroupAt)))).OrderBy(x => x.Meters)];
    } = [];

    /// <summary>Rest for the last one at each of these places; 5 min unless stated.</summary>
    [Source("assumption-regroup-stop")]
    public TimeSpan RegroupStop { get; init => field = Guard.NotNegative(value, nameof(RegroupStop)); } = TimeSpan.FromMinutes(5);

    /// <summary>Bikes that share the spares, 1 to 600; null: those of riders and leaders.</summary>
    public int? Bikes { get; init => field = value is { } v ? Guard.InRange(v, 1, 600, "bikes", nameof(Bikes)) : null; }

    /// <summary>How often the shared spares should do [share of 1, 0.5 to 0.999]; 0.95 unless stated.</summary>
    public double SparesLevel { get; init => field = Guard.InRange(value, 0.5, 0.999, "(a share of 1)", nameof(SparesLevel)); } = 0.95;

    /// <summary>Devices of the others, which draw on the ride's power bank too; names must differ from those of the ride.</summary>
    public IReadOnlyList<Device> Devices { get; init => field = [.. Guard.NotNull(value, nameof(Devices))]; } = [];

    /// <summary>The group as JSON; the ride goes beside it. Its schema is docs/schema/riding-group.schema.json.</summary>
    /// <returns>JSON text; the same group gives the same bytes everywhere.</returns>
    public string ToJson() => RequestJson.Write(this);

    /// <summary>Reads a group from its JSON. What is absent keeps its default.</summary>
    /// <param name="json">The text.</param>
    /// <param name="source">Name of the text for messages.</param>
    /// <returns>The group.</returns>
    /// <exception cref="ArgumentException">No text, or no name for it.</exception>
    /// <exception cref="InputFormatException">The text is none: says line, position, JSON path, what is wrong and what is allowed.</exception>
    public static RidingGroup FromJson(string json, string source = "group") => RequestJson.ReadGroup(json, source);
}
