#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
#:property PublishAot=false

using SoloRide;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? "docs/examples", "data");

// sample
RideRoute route = RideRoute.Read(Path.Combine(data, "s10-thorn-country.gpx"));
var start = new DateTimeOffset(2025, 4, 19, 7, 0, 0, TimeSpan.FromHours(-7));
RidePlan plan = RidePlanner.Plan(RideRequest.For(route, start) with
{
    Rider = new Rider { Mass = Mass.FromKilograms(73), ClimbingRate = Speed.FromMetersPerHour(450) },
    Weather = Forecast.Read(Path.Combine(data, "s10-thorn-country.forecast.csv")),
    Load = new Load { WaterCapacity = Volume.FromLiters(5) },
});

Console.WriteLine(plan.Binding?.Name);    // what limits this ride, and where
Console.WriteLine(plan.Binding?.Amount);  // by how much
Console.WriteLine(plan.LatestStart);      // for the confidence asked for
Console.WriteLine(plan.ToText());
// end of sample
