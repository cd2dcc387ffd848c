#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
#:property PublishAot=false

// What goes home and onto the handlebar: sheet, calendar, strip, packing list. The contact lives nine hours west.
using SoloRide;
using SoloRide.Batteries;
using SoloRide.Contact;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? "docs/examples", "data");
RideRoute route = RideRoute.Read(Path.Combine(data, "s13-contact-abroad.gpx"));
var start = new DateTimeOffset(2025, 11, 29, 6, 30, 0, TimeSpan.FromHours(11));
RidePlan plan = RidePlanner.Plan(RideRequest.For(route, start) with
{
    PreparedAt = start.AddHours(-14),
    Zone = ZoneOffsets.Fixed(11),
    Weather = Forecast.Read(Path.Combine(data, "s13-contact-abroad.forecast.csv")),
    Rider = new Rider { Mass = Mass.FromKilograms(72), ClimbingRate = Speed.FromMetersPerHour(500) },
    Load = new Load { WaterCapacity = Volume.FromLiters(6) },
    Sources = [new WaterSource { Name = "Kestrow Creek", AlongRoute = Length.FromKilometers(12), WetProbability = 0.8 }],
    Devices = [Device.Messenger("messenger", 1250), Device.Phone("phone", 4000)],
    FireAllowed = Known.No,
});

var rider = new RiderIdentity("Rider One") { Phone = "555 0101", Clothing = "yellow jersey, dark shorts", BikeDescription = "green hardtail" };
var contact = new TrustedContact("Contact Two", "555 0102") { Zone = ZoneOffsets.Fixed(2) };
Console.WriteLine(plan.ToSheet(rider, [contact], new EmergencyCall("Range rescue service", "555 0199")).ToPlainText());
Console.WriteLine(plan.ToCalendar("kestrow-2025-11-29", rider.Name, start.AddHours(-14)).ToText());
Console.WriteLine(plan.ToStrip());
Console.WriteLine(plan.ToPackingList());
