using System.Text.Json;
using System.Text.Json.Serialization;
using SoloRide;
using SoloRide.Contact;
using SoloRide.Planning;
using UnitsNet;

namespace GuideService;

/// <summary>A person to be found. Medical words go onto a sheet only when <see cref="SheetBody.ShareMedical"/> says so.</summary>
public sealed record RiderBody
{
    public required string Name { get; init; }

    public string? Phone { get; init; }

    public int? AgeYears { get; init; }

    public string? Description { get; init; }

    public string? Clothing { get; init; }

    public string? HelmetAndPack { get; init; }

    public string? Bike { get; init; }

    public string? Experience { get; init; }

    public string? Medical { get; init; }

    public string? Medicines { get; init; }

    public RiderIdentity ToRider() => new(Name)
    {
        Phone = Phone,
        AgeYears = AgeYears,
        Description = Description,
        Clothing = Clothing,
        HelmetAndPack = HelmetAndPack,
        BikeDescription = Bike,
        Experience = Experience,
        Medical = Medical,
        Medicines = Medicines,
    };
}

/// <summary>Who waits for word; the offset of that person's clock, hours east of UTC, where it differs.</summary>
public sealed record ContactBody
{
    public required string Name { get; init; }

    public required string Phone { get; init; }

    public double? OffsetHours { get; init; }

    public TrustedContact ToContact() => new(Name, Phone) { Zone = OffsetHours is { } h ? ZoneOffsets.Fixed(h) : null };
}

/// <summary>Whom to call.</summary>
public sealed record EmergencyBody
{
    public required string Agency { get; init; }

    public required string Number { get; init; }

    public string? Jurisdiction { get; init; }

    public EmergencyCall ToCall() => new(Agency, Number) { Jurisdiction = Jurisdiction };
}

/// <summary>The sheet that stays at home.</summary>
public sealed record SheetBody
{
    public required JsonElement Request { get; init; }

    public required RiderBody Rider { get; init; }

    public required IReadOnlyList<ContactBody> Contacts { get; init; }

    public EmergencyBody? Emergency { get; init; }

    public int? Version { get; init; }

    public bool ShareMedical { get; init; }
}

/// <summary>Check-ins, overdue and alarm time as a calendar.</summary>
public sealed record CalendarBody
{
    public required JsonElement Request { get; init; }

    public required string PlanId { get; init; }

    public required string RiderName { get; init; }

    public EmergencyBody? Emergency { get; init; }

    public int? Version { get; init; }
}

/// <summary>Where the rider is now, and what is left.</summary>
public sealed record UpdateBody
{
    public required JsonElement Request { get; init; }

    public required double AlongRouteM { get; init; }

    public required DateTimeOffset At { get; init; }

    public double? WaterInHandL { get; init; }

    public double? StoppedS { get; init; }

    public IReadOnlyDictionary<string, Known>? SourcesNow { get; init; }

    /// <summary>The news, checked against the ride it is from.</summary>
    public TrailNews ToNews(RideRequest ride)
    {
        double lengthM = ride.Route.Length.Meters;
        Check(AlongRouteM > 0 && AlongRouteM < lengthM, "along_route_m", $"{AlongRouteM} m is not on the route; above 0 m and below {lengthM:F0} m.");
        Check(At >= ride.Start, "at", $"{At:yyyy-MM-ddTHH:mm:sszzz} is before the start, {ride.Start:yyyy-MM-ddTHH:mm:sszzz}.");
        Check(WaterInHandL is null or (>= 0 and <= 60), "water_in_hand_l", $"{WaterInHandL} L; allowed are 0 to 60 L.");
        Check(StoppedS is not { } s || (s >= 0 && s <= (At - ride.Start).TotalSeconds), "stopped_s", $"{StoppedS} s; allowed are 0 s to the {(At - ride.Start).TotalSeconds:F0} s since the start.");
        foreach (string name in SourcesNow?.Keys ?? [])
        {
            Check(ride.Sources.Any(w => w.Name == name), $"sources_now['{name}']", $"'{name}' is none of the sources of water in the request.");
        }

        return new TrailNews
        {
            AlongRoute = Length.FromMeters(AlongRouteM),
            At = At,
            WaterInHand = WaterInHandL is { } l ? Volume.FromLiters(l) : null,
            Stopped = StoppedS is { } stopped ? TimeSpan.FromSeconds(stopped) : null,
            SourcesNow = SourcesNow ?? new Dictionary<string, Known>(),
        };

        static void Check(bool good, string field, FormattableString why)
        {
            if (!good)
            {
                throw new FieldException("$." + field, FormattableString.Invariant(why));
            }
        }
    }
}

/// <summary>Many rides in one call.</summary>
public sealed record BatchBody
{
    public required IReadOnlyList<BatchRide> Rides { get; init; }
}

/// <summary>One ride of a batch; <see cref="Id"/> comes back with its plan.</summary>
public sealed record BatchRide
{
    public required string Id { get; init; }

    public required JsonElement Request { get; init; }
}

/// <summary>What changed for a rider on the trail.</summary>
public sealed record UpdateReply(string Message, IReadOnlyList<string> News, double PaceFactor, JsonElement Plan, IReadOnlyList<string> Cautions);

/// <summary>One line of a batch's reply, written as soon as that ride is done.</summary>
public sealed record BatchLine(string Id, int Done, int Of, IReadOnlyList<string> Cautions, JsonElement? Plan = null, string? Problem = null, string? Field = null);

/// <summary>A refusal (RFC 9457), as the OpenAPI document describes it: what is wrong, and in which field.</summary>
public sealed record Problem(string Title, int Status, string Detail, IReadOnlyList<string> Cautions, string? Type = null, string? Field = null);

/// <summary>The service is up.</summary>
public sealed record HealthReply(string Status, int AtOnce);

/// <summary>Bodies are read strictly: an unknown or missing member is named.</summary>
[JsonSourceGenerationOptions(
    JsonSerializerDefaults.Web, PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower, UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow, RespectNullableAnnotations = true, UseStringEnumConverter = true,
    NumberHandling = JsonNumberHandling.Strict, AllowDuplicateProperties = false, DefaultIgnoreCondition = JsonIgnoreCondition.WhenWritingNull)]
[JsonSerializable(typeof(SheetBody))]
[JsonSerializable(typeof(CalendarBody))]
[JsonSerializable(typeof(UpdateBody))]
[JsonSerializable(typeof(BatchBody))]
[JsonSerializable(typeof(UpdateReply))]
[JsonSerializable(typeof(BatchLine))]
[JsonSerializable(typeof(HealthReply))]
[JsonSerializable(typeof(Problem))]
[JsonSerializable(typeof(string))]
[JsonSerializable(typeof(JsonElement))]
internal sealed partial class BodyJson : JsonSerializerContext;
