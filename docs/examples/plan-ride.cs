#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
#:property PublishAot=false

// Plans the bundled demo ride, or any route file:
//   dotnet run docs/examples/plan-ride.cs
//   dotnet run docs/examples/plan-ride.cs -- my-route.gpx 2027-06-14T05:20:00-06:00
// With --request as the last word it prints the request as JSON instead, for a service:
//   dotnet run docs/examples/plan-ride.cs -- --request > request.json
using System.Globalization;
using SoloRide;
using SoloRide.Batteries;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Kit;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

try
{
    bool asRequest = args is [.., "--request"];
    string[] words = asRequest ? args[..^1] : args;
    RideRequest request = words.Length == 0 ? DemoRide() : OwnRide(words);
    if (asRequest)
    {
        Console.WriteLine(request.ToJson(PersonalData.Included));
        return 0;
    }

    Console.Write(RidePlanner.Levers(request).ToText());
    return 0;
}
catch (Exception e) when (e is InputFormatException or ArgumentException or IOException)
{
    Console.Error.WriteLine(e.Message);
    return 1;
}

static RideRequest OwnRide(string[] args)
{
    if (args.Length < 2 || !DateTimeOffset.TryParse(args[1], CultureInfo.InvariantCulture, DateTimeStyles.None, out DateTimeOffset start))
    {
        throw new ArgumentException("Give a route file and a start with its offset, such as: my-route.gpx 2027-06-14T05:20:00-06:00");
    }

    // Named places of type "water" and "exit: road" in the file become sources and ways out.
    return RideRequest.For(RideRoute.Read(args[0]), start);
}

static RideRequest DemoRide()
{
    // An invented loop on an invented mesa; its data lie beside this program.
    string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? Path.Combine("docs", "examples"), "data");
    RideRoute route = RideRoute.Read(Path.Combine(data, "s01-dry-creek-loop.gpx"));
    var start = new DateTimeOffset(2025, 6, 14, 5, 20, 0, TimeSpan.FromHours(-6));

    return RideRequest.For(route, start) with
    {
        PreparedAt = new DateTimeOffset(2025, 6, 13, 19, 0, 0, TimeSpan.FromHours(-6)),
        Zone = ZoneOffsets.Fixed(-6),
        Weather = Forecast.Read(Path.Combine(data, "s01-dry-creek-loop.forecast.csv")),
        Rider = new Rider
        {
            Mass = Mass.FromKilograms(82),
            Height = Length.FromCentimeters(181),
            AgeYears = 41,
            SustainedPower = Power.FromWatts(165),
        },
        Bike = new Bike { Mass = Mass.FromKilograms(13.5) },
        Load = new Load { OnBody = Mass.FromKilograms(3.5), WaterCapacity = Volume.FromLiters(6.5) },
        Sources =
        [
            new WaterSource { Name = "Dry Creek", AlongRoute = Length.FromKilometers(31), WetProbability = 0.55, LastReport = new DateOnly(2025, 6, 5) },
        ],
        // Four rides weighed before and after, in weather that was noted: the level of sweat is the rider's own.
        Sweat = SweatCalibration.From(
        [
            Weighed(82.4, 81.6, 1.1, 3.0, 24, 35), Weighed(82.0, 81.0, 0.9, 2.5, 29, 25), Weighed(82.6, 82.2, 0.5, 2.0, 19, 50), Weighed(81.9, 80.9, 1.4, 3.5, 27, 30),
        ]),
        Treatment = new WaterTreatment(WaterTreatmentMethod.Filter) { FilterFlow = VolumeFlow.FromLitersPerMinute(0.7), SetUp = TimeSpan.FromMinutes(3) },
        Devices =
        [
            new Device("head lamp", DeviceKind.HeadLamp, CellPack.LithiumIon(3200),
                DeviceMode.Lit("trail", new LampOutput(400, 6000), 4.5)),
            new Device("messenger", DeviceKind.Messenger, CellPack.LithiumIon(1250),
                DeviceMode.Of("tracking", ModeUse.Tracking, 0.02, 0.03, 0.05), DeviceMode.Of("sending", ModeUse.Messaging, 0.5, 0.9, 1.5)),
            new Device("phone", DeviceKind.Phone, CellPack.LithiumIon(4000, 3.85),
                DeviceMode.Of("flight mode", ModeUse.Standby, 0.015, 0.03, 0.05), DeviceMode.Of("map", ModeUse.Navigating, 0.8, 1.5, 2.5)) { StartChargeFraction = 0.9 },
        ],
        Beacon = new DistressBeacon { BatteryExpires = new DateOnly(2028, 1, 1), Registered = Known.Yes },
        KitItems =
        [
            new KitItem("spare tube", Mass.FromGrams(140), Volume.FromLiters(0.3), KitPlace.Bike, KitFunction.Tube),
            new KitItem("patches", Mass.FromGrams(15), Volume.FromLiters(0.05), KitPlace.Bike, KitFunction.TubePatch) { Uses = 6 },
            new KitItem("levers", Mass.FromGrams(30), Volume.FromLiters(0.05), KitPlace.Bike, KitFunction.TyreLever),
            new KitItem("pump", Mass.FromGrams(120), Volume.FromLiters(0.2), KitPlace.Bike, KitFunction.Air),
            new KitItem("plugs", Mass.FromGrams(25), Volume.FromLiters(0.05), KitPlace.Body, KitFunction.Plug) { Uses = 5 },
            new KitItem("multi-tool", Mass.FromGrams(150), Volume.FromLiters(0.1), KitPlace.Body, KitFunction.BoltKeys, KitFunction.ChainTool, KitFunction.SpokeKey),
            new KitItem("chain links", Mass.FromGrams(8), Volume.FromLiters(0.02), KitPlace.Body, KitFunction.ChainLink) { Uses = 2 },
            new KitItem("spare hanger", Mass.FromGrams(20), Volume.FromLiters(0.03), KitPlace.Pack, KitFunction.Hanger),
            new KitItem("tape and ties", Mass.FromGrams(25), Volume.FromLiters(0.05), KitPlace.Pack, KitFunction.Tape, KitFunction.CableTie),
            new KitItem("first aid", Mass.FromGrams(180), Volume.FromLiters(0.6), KitPlace.Body, KitFunction.FirstAid),
            new KitItem("whistle", Mass.FromGrams(10), Volume.FromLiters(0.01), KitPlace.Body, KitFunction.Whistle),
            new KitItem("small light", Mass.FromGrams(35), Volume.FromLiters(0.03), KitPlace.Body, KitFunction.Light),
            new KitItem("barrier bag", Mass.FromGrams(110), Volume.FromLiters(0.4), KitPlace.Body, KitFunction.BarrierBag),
            new KitItem("orange panel", Mass.FromGrams(40), Volume.FromLiters(0.05), KitPlace.Body, KitFunction.SignalMark),
            new KitItem("light jacket", Mass.FromGrams(250), Volume.FromLiters(0.9), KitPlace.Pack, KitFunction.Insulation),
            new KitItem("messenger", Mass.FromGrams(100), Volume.FromLiters(0.1), KitPlace.Body, KitFunction.Messenger),
        ],
        WaitingOutfit = new Outfit([new Garment("jersey and shorts", 0.35), new Garment("wind shell", 0.25), new Garment("light insulated jacket", 0.5)]),
        WaitingShelter = Shelter.ClosedBag,
        FireAllowed = Known.No,
        Checked = new Dictionary<string, DateOnly> { ["access"] = new(2025, 6, 10) },
    };
}

static WeighedRide Weighed(double beforeKg, double afterKg, double drunkL, double hours, double airC, double humidityPct)
    => new(Mass.FromKilograms(beforeKg), Mass.FromKilograms(afterKg), Volume.FromLiters(drunkL), TimeSpan.FromHours(hours))
    {
        Conditions = new SweatConditions
        {
            Rider = new Rider { Mass = Mass.FromKilograms(82), Height = Length.FromCentimeters(181) },
            Weather = Weather.Unknown with { AirTempC = airC, RelHumidityPct = humidityPct, WindMps = 1.5 },
            MetabolicRate = Power.FromWatts(620),
            WorkPower = Power.FromWatts(110),
            SolarLoadWPerM2 = 60,
        },
    };
