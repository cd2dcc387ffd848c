#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Charts/SoloRide.Charts.csproj
#:property PublishAot=false

// Draws every picture of the bundled demo ride, metric and in US units:
//   dotnet run docs/examples/pictures.cs
//   dotnet run docs/examples/pictures.cs -- folder
using SoloRide;
using SoloRide.Batteries;
using SoloRide.Charts;
using SoloRide.Effort;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? Path.Combine("docs", "examples"), "data");
string folder = args.Length > 0 ? args[0] : Path.Combine(".out", "pictures");

// An invented loop on an invented mesa, begun so late that slow rides end by lamp light.
RideRoute route = RideRoute.Read(Path.Combine(data, "s01-dry-creek-loop.gpx"));
var rider = new Rider { Mass = Mass.FromKilograms(82), Height = Length.FromCentimeters(181), AgeYears = 41, SustainedPower = Power.FromWatts(165) };
RideRequest request = RideRequest.For(route, new DateTimeOffset(2025, 6, 14, 14, 30, 0, TimeSpan.FromHours(-6))) with
{
    PreparedAt = new DateTimeOffset(2025, 6, 13, 19, 0, 0, TimeSpan.FromHours(-6)),
    Zone = ZoneOffsets.Fixed(-6),
    Weather = Forecast.Read(Path.Combine(data, "s01-dry-creek-loop.forecast.csv")),
    Rider = rider,
    Load = new Load { OnBody = Mass.FromKilograms(3.5), WaterCapacity = Volume.FromLiters(8) },
    Sources = [new WaterSource { Name = "Dry Creek", AlongRoute = Length.FromKilometers(31), WetProbability = 0.95, LastReport = new DateOnly(2025, 6, 12) }],
    Devices =
    [
        new Device("head lamp", DeviceKind.HeadLamp, CellPack.LithiumIon(3200), DeviceMode.Lit("trail", new LampOutput(400, 6000), 4.5)),
        new Device("messenger", DeviceKind.Messenger, CellPack.LithiumIon(1250), DeviceMode.Of("tracking", ModeUse.Tracking, 0.02, 0.03, 0.05), DeviceMode.Of("sending", ModeUse.Messaging, 0.5, 0.9, 1.5)),
        new Device("phone", DeviceKind.Phone, CellPack.LithiumIon(4000, 3.85), DeviceMode.Of("flight mode", ModeUse.Standby, 0.015, 0.03, 0.05), DeviceMode.Of("map", ModeUse.Navigating, 0.8, 1.5, 2.5)) { StartChargeFraction = 0.9 },
    ],
};

// picture sample
RidePlan plan = RidePlanner.Plan(request);
var extras = new PictureExtras
{
    Terrain = InventedTerrain(route),
    Starts = RidePlanner.SweepStarts(request with { Options = request.Options with { Samples = 200 } }, request.Start.AddHours(-10), request.Start.AddHours(2), TimeSpan.FromMinutes(30)),
    Rides = OwnRides(request),
};
PictureSet pictures = RidePictures.Of(plan, extras);
pictures.Save(folder);
Console.WriteLine(pictures.Find("profile")!.TextAlternative);
// end of picture sample

var us = new PictureOptions { Units = MeasureSystem.UsCustomary };
RidePictures.Of(plan, extras, us).Save(Path.Combine(folder, "us"));
RidePictures.Map(plan, new PictureOptions { WidthPx = 1000, HeightPx = 1000, DensityFactor = 2 }).Save(Path.Combine(folder, "map-for-print.png"));
foreach (Picture p in pictures.Pictures)
{
    Console.WriteLine($"{p.Name}: {p.Title}");
}

return pictures.LeftOut.Count;

// Ground from the heights of the route, with an invented wall four kilometres beyond it to the west.
static TerrainModel InventedTerrain(RideRoute route)
{
    const int columns = 120, rows = 120;
    double south = route.Points.Min(p => p.Place.LatDeg) - 0.05, west = route.Points.Min(p => p.Place.LonDeg) - 0.12;
    double north = route.Points.Max(p => p.Place.LatDeg) + 0.05, east = route.Points.Max(p => p.Place.LonDeg) + 0.05;
    double cell = Math.Max((north - south) / (rows - 1), (east - west) / (columns - 1));
    GeoPoint[] known = [.. route.Points.Where((_, i) => i % 12 == 0).Select(p => p.Place)];
    var heights = new double[columns * rows];
    for (int r = 0; r < rows; r++)
    {
        for (int c = 0; c < columns; c++)
        {
            double lat = south + (r * cell), lon = west + (c * cell), sum = 0, weights = 0;
            foreach (GeoPoint k in known)
            {
                double dLat = k.LatDeg - lat, dLon = (k.LonDeg - lon) * 0.79;
                double w = 1 / Math.Pow((dLat * dLat) + (dLon * dLon) + 1e-7, 2);
                sum += w * k.ElevationM;
                weights += w;
            }

            double wall = Math.Exp(-Math.Pow((lon - (west + 0.075)) / 0.012, 2));
            heights[(r * columns) + c] = (sum / weights) + (900 * wall);
        }
    }

    return TerrainModel.FromGrid(new GeoPoint(south, west), cell, columns, heights);
}

// Nine invented rides of a rider somewhat slower than the tables, drawn from a fixed seed.
static RideHistory OwnRides(RideRequest request)
{
    PaceModel before = PaceModel.For(request.Rider, request.Bike, request.Load, request.Pace);
    TrailStep[] steps = [.. ElevationProfile.Of(request.Route).Steps(Length.FromMeters(100))];
    var random = new Random(7);
    var legs = new List<TimedLeg>();
    for (int ride = 0; ride < 9; ride++)
    {
        double day = 1.18 + (0.08 * (random.NextDouble() - 0.5));
        int from = random.Next(steps.Length / 2);
        for (int leg = 0; leg < 5; leg++)
        {
            TrailStep[] part = [.. steps.Skip((from + (leg * 40)) % (steps.Length - 60)).Take(20 + random.Next(40))];
            double factor = day * (1 + (0.12 * (random.NextDouble() - 0.5)));
            legs.Add(new TimedLeg($"ride {ride + 1}", part, before.Along(part).Moving.Typical * factor));
        }
    }

    PaceModel after = PaceModel.For(request.Rider, request.Bike, request.Load, request.Pace with { Calibration = PaceCalibration.From(before, legs) });
    return new RideHistory(before, after, legs);
}
