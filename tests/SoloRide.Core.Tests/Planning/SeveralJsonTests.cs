using System.Reflection;
using System.Text.Json;
using SoloRide.Batteries;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Trips and groups go into JSON and come back whole.</summary>
public sealed class SeveralJsonTests
{
    private static TripRequest FullTrip() => new()
    {
        Ride = Rides.Request(Rides.Line(60, 120, 7), 30) with { Devices = [Device.Phone("phone", 4000)] },
        Days = 2,
        Camps = [new Camp { Name = "Camp A", AlongRoute = Length.FromKilometers(28.25), Water = Known.Yes, Allowed = Known.Yes, Food = Known.No, Mains = Known.Yes, NightLow = Temperature.FromDegreesCelsius(-1.5) }, new Camp { Name = "Camp B", AlongRoute = Length.FromKilometers(34) }],
        LaterStart = new TimeOnly(8, 15, 30),
        LeastRest = TimeSpan.FromMinutes(500.5),
        CampWater = Volume.FromLiters(2.75),
        SleepingLimit = Temperature.FromDegreesCelsius(3.5),
    };

    private static RidingGroup FullGroup() => new()
    {
        Riders = 7,
        Leaders = 1,
        PaceSpreadFraction = 0.125,
        RidersPerLeader = 6,
        LeastLeaders = 1,
        RegroupAt = [Length.FromKilometers(4), Length.FromKilometers(9.5)],
        RegroupStop = TimeSpan.FromMinutes(7.5),
        Bikes = 9,
        SparesLevel = 0.9,
        Devices = [Device.Phone("second phone", 3000)],
    };

    [Fact]
    public void Schemas_AreThePublishedOnes()
    {
        Approved.Check(RequestSchema.Trip.Text, "docs", "schema", "trip-request.schema.json");
        Approved.Check(RequestSchema.Group.Text, "docs", "schema", "riding-group.schema.json");
        Approved.Check(PlanJson.TripSchema(), "docs", "schema", "trip.schema.json");
        Approved.Check(PlanJson.GroupSchema(), "docs", "schema", "group.schema.json");
    }

    // Holds new members: each must be set in the example, and its text must change when the member does.
    [Fact]
    public void FullExamples_SetEveryMember()
    {
        Assert.Empty(Unset(FullTrip(), new TripRequest { Ride = Rides.Request(), Days = 1 }));
        Assert.Empty(Unset(FullTrip().Camps[0], new Camp { Name = "x", AlongRoute = Length.Zero }));
        Assert.Empty(Unset(FullGroup(), new RidingGroup { Riders = 1 }));

        static IEnumerable<string> Unset<T>(T full, T bare)
            => typeof(T).GetProperties(BindingFlags.Public | BindingFlags.Instance).Where(p => p.SetMethod is not null && Equals(p.GetValue(full), p.GetValue(bare))).Select(p => p.Name);
    }

    [Fact]
    public void TripRequest_ComesBackTheSame_AndSoDoesItsPlan()
    {
        TripRequest trip = FullTrip();
        TripRequest back = TripRequest.FromJson(trip.ToJson(PersonalData.Included));
        Assert.Equal(trip.ToJson(PersonalData.Included), back.ToJson(PersonalData.Included));
        Assert.Equal(trip.Camps, back.Camps);
        Assert.Equal((trip.Days, trip.LaterStart, trip.LeastRest, trip.CampWater, trip.SleepingLimit), (back.Days, back.LaterStart, back.LeastRest, back.CampWater, back.SleepingLimit));
        string plan = TripPlanner.Plan(trip).ToJson();
        Assert.Equal(plan, TripPlanner.Plan(back).ToJson());
        Assert.Equal(plan, JsonSerializer.Serialize(JsonSerializer.Deserialize(plan, PlanJsonContext.Default.TripPlanDocument), PlanJsonContext.Default.TripPlanDocument) + "\n");
    }

    [Fact]
    public void TripRequest_UnlessAskedFor_HoldsNothingPersonal()
        => Assert.DoesNotContain("\"rider\"", FullTrip().ToJson(), StringComparison.Ordinal);

    [Fact]
    public void Group_ComesBackTheSame_AndSoDoesItsPlan()
    {
        RidingGroup group = FullGroup();
        RidingGroup back = RidingGroup.FromJson(group.ToJson());
        Assert.Equal(group.ToJson(), back.ToJson());
        Assert.Equal(group.RegroupAt, back.RegroupAt);
        Assert.Equal((group.Riders, group.Leaders, group.PaceSpreadFraction, group.RidersPerLeader, group.LeastLeaders, group.RegroupStop, group.Bikes, group.SparesLevel),
            (back.Riders, back.Leaders, back.PaceSpreadFraction, back.RidersPerLeader, back.LeastLeaders, back.RegroupStop, back.Bikes, back.SparesLevel));
        RideRequest ride = Rides.Request(samples: 30);
        string plan = GroupPlanner.Plan(ride, group).ToJson();
        Assert.Equal(plan, GroupPlanner.Plan(ride, back).ToJson());
        Assert.Equal(plan, JsonSerializer.Serialize(JsonSerializer.Deserialize(plan, PlanJsonContext.Default.GroupPlanDocument), PlanJsonContext.Default.GroupPlanDocument) + "\n");
    }

    [Theory]
    [InlineData("\"days\": 2", "\"days\": 0", "$.days", "1 to 30")]
    [InlineData("\"along_route_m\": 28250", "\"along_route_m\": -1", "$.camps[0].along_route_m", "m")]
    [InlineData("\"ends_are_exits\": true", "\"ends_are_exits\": 3", "$.ride.ends_are_exits", "3 is found")]
    [InlineData("\"confidence_level\": 0.9", "\"confidence_level\": 7", "$.ride.options.confidence_level", "7")]
    [InlineData("\"camp_water_l\": 2.75", "\"camp_water_l\": 99", "$.camp_water_l", "20")]
    [InlineData("soloride-request-1", "soloride-request-9", "$.ride.schema", "soloride-request-1")]
    [InlineData("soloride-trip-request-1", "soloride-request-1", "$.schema", "soloride-trip-request-1")]
    public void TripRequest_BadText_SaysWhereAndWhatIsAllowed(string good, string bad, string path, string told)
    {
        string json = FullTrip().ToJson(PersonalData.Included);
        Assert.Contains(good, json, StringComparison.Ordinal);
        InputFormatException e = Assert.Throws<InputFormatException>(() => TripRequest.FromJson(json.Replace(good, bad, StringComparison.Ordinal)));
        Assert.Contains(path, e.Message, StringComparison.Ordinal);
        Assert.Contains(told, e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Group_BadText_SaysWhere()
    {
        string json = FullGroup().ToJson().Replace("\"riders\": 7", "\"riders\": 900", StringComparison.Ordinal);
        Assert.Contains("$.riders", Assert.Throws<InputFormatException>(() => RidingGroup.FromJson(json)).Message, StringComparison.Ordinal);
    }
}
