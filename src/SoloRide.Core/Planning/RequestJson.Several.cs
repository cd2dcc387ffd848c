using System.Text.Json;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <content>Trips and groups.</content>
internal static partial class RequestJson
{
    public static string Write(TripRequest trip, PersonalData personal)
        => JsonSerializer.Serialize(Document(trip, Guard.Defined(personal)), RequestJsonContext.Default.TripRequestDocument) + "\n";

    public static string Write(RidingGroup group) => JsonSerializer.Serialize(Document(group), RequestJsonContext.Default.RidingGroupDocument) + "\n";

    public static RidingGroupDocument Document(RidingGroup g) => new()
    {
        Schema = RidingGroupDocument.SchemaVersion,
        Riders = g.Riders,
        Leaders = g.Leaders,
        PaceSpreadFraction = g.PaceSpreadFraction,
        RidersPerLeader = g.RidersPerLeader,
        LeastLeaders = g.LeastLeaders,
        RegroupAtM = g.RegroupAt.Count == 0 ? null : [.. g.RegroupAt.Select(x => x.Meters)],
        RegroupStopS = g.RegroupStop.TotalSeconds,
        Bikes = g.Bikes,
        SparesLevelProbability = g.SparesLevel,
        Devices = List(g.Devices, Device),
    };

    public static TripRequest ReadTrip(string json, string source)
    {
        var reader = new RequestReader(Guard.NotEmpty(source), Guard.NotNull(json));
        TripRequestDocument d = reader.Parse(RequestJsonContext.Default.TripRequestDocument, RequestSchema.Trip, TripRequestDocument.SchemaVersion);
        if (d.Ride.Schema != RequestDocument.SchemaVersion)
        {
            throw reader.Error("$.ride.schema", $"'{d.Ride.Schema}' is not known; '{RequestDocument.SchemaVersion}' is read.");
        }

        RideRequest ride = Ride(reader.Under("ride"), d.Ride);
        Camp[] camps = reader.Each("$.camps", d.Camps, (_, c) => new Camp
        {
            Name = c.Name,
            AlongRoute = Length.FromMeters(c.AlongRouteM),
            Water = c.Water ?? default,
            Allowed = c.Allowed ?? default,
            Food = c.Food ?? default,
            Mains = c.Mains ?? default,
            NightLow = Celsius(c.NightLowC),
        });
        TimeSpan? rest = Span(reader, "$.least_rest_s", d.LeastRestS);
        return reader.At("$", () =>
        {
            var trip = new TripRequest { Ride = ride, Days = d.Days, Camps = camps, LaterStart = d.LaterStart, SleepingLimit = Celsius(d.SleepingLimitC) };
            return trip with { LeastRest = rest ?? trip.LeastRest, CampWater = d.CampWaterL is { } l ? Volume.FromLiters(l) : trip.CampWater };
        });
    }

    public static RidingGroup ReadGroup(string json, string source)
    {
        var reader = new RequestReader(Guard.NotEmpty(source), Guard.NotNull(json));
        RidingGroupDocument d = reader.Parse(RequestJsonContext.Default.RidingGroupDocument, RequestSchema.Group, RidingGroupDocument.SchemaVersion);
        Batteries.Device[] devices = reader.Each("$.devices", d.Devices, (at, x) => Device(reader, at, x));
        TimeSpan? stop = Span(reader, "$.regroup_stop_s", d.RegroupStopS);
        return reader.At("$", () =>
        {
            var group = new RidingGroup { Riders = d.Riders, Leaders = d.Leaders ?? 0, RegroupAt = [.. (d.RegroupAtM ?? []).Select(m => Length.FromMeters(m))], Bikes = d.Bikes, Devices = devices };
            return group with
            {
                PaceSpreadFraction = d.PaceSpreadFraction ?? group.PaceSpreadFraction,
                RidersPerLeader = d.RidersPerLeader ?? group.RidersPerLeader,
                LeastLeaders = d.LeastLeaders ?? group.LeastLeaders,
                RegroupStop = stop ?? group.RegroupStop,
                SparesLevel = d.SparesLevelProbability ?? group.SparesLevel,
            };
        });
    }

    private static TripRequestDocument Document(TripRequest t, PersonalData personal) => new()
    {
        Schema = TripRequestDocument.SchemaVersion,
        Ride = Document(t.Ride, personal),
        Days = t.Days,
        Camps = List(t.Camps, c => new CampDocument
        {
            Name = c.Name,
            AlongRouteM = c.AlongRoute.Meters,
            Water = c.Water,
            Allowed = c.Allowed,
            Food = c.Food,
            Mains = c.Mains,
            NightLowC = c.NightLow?.DegreesCelsius,
        }),
        LaterStart = t.LaterStart,
        LeastRestS = t.LeastRest.TotalSeconds,
        CampWaterL = t.CampWater.Liters,
        SleepingLimitC = t.SleepingLimit?.DegreesCelsius,
    };

    private static Temperature? Celsius(double? c) => c is { } v ? Temperature.FromDegreesCelsius(v) : null;
}
