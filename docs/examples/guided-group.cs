#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
#:property PublishAot=false

// A guide with ten clients: pace of the slowest, stops to wait, leaders, spares for all, a roster to print. And a traverse of three days.
using SoloRide;
using SoloRide.Batteries;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? "docs/examples", "data");
RideRequest Ride(string name, DateTimeOffset start) => RideRequest.For(RideRoute.Read(Path.Combine(data, name + ".gpx")), start) with
{
    PreparedAt = start.AddHours(-12),
    Zone = ZoneOffsets.Fixed(start.Offset),
    Weather = Forecast.Read(Path.Combine(data, name + ".forecast.csv")),
    Rider = new Rider { Mass = Mass.FromKilograms(75), ClimbingRate = Speed.FromMetersPerHour(450) },
    Load = new Load { WaterCapacity = Volume.FromLiters(5) },
    Devices = [Device.Messenger("messenger", 1250), Device.Phone("phone", 4000)],
};

GroupPlan group = GroupPlanner.Plan(
    Ride("s06-guided-ten", new DateTimeOffset(2025, 8, 16, 8, 0, 0, Forecast.Read(Path.Combine(data, "s06-guided-ten.forecast.csv")).From.Offset)),
    new RidingGroup { Riders = 10, Leaders = 2, RegroupAt = [Length.FromKilometers(9), Length.FromKilometers(18)] });
Console.WriteLine(group.ToText());
Console.WriteLine(group.ToRoster([new RosterEntry("Guide One") { IsLeader = true }, new RosterEntry("Guide Two") { IsLeader = true }, .. Enumerable.Range(1, 10).Select(i => new RosterEntry($"Client {i:00}"))]));

TripPlan trip = TripPlanner.Plan(new TripRequest
{
    Ride = Ride("s04-three-day-traverse", new DateTimeOffset(2025, 9, 5, 7, 30, 0, TimeSpan.FromHours(2))) with { Load = new Load { OnBody = Mass.FromKilograms(4), OnBike = Mass.FromKilograms(7), WaterCapacity = Volume.FromLiters(5) } },
    Days = 3,
    SleepingLimit = Temperature.FromDegreesCelsius(2),
    Camps =
    [
        Camp("Hut Tap Meadow", 38, 4), Camp("Oller Road Shelter", 52, 5), Camp("High Saddle", 60, -1), Camp("Second Tap Meadow", 97, 3), Camp("Pass Road Shelter", 110, 1),
    ],
});
Console.WriteLine(trip.ToText());

static Camp Camp(string name, double km, double lowC) => new() { Name = name, AlongRoute = Length.FromKilometers(km), NightLow = Temperature.FromDegreesCelsius(lowC), Water = Known.Yes };
