#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
// Heat on a climb, wind on the way down, layers for each part, and a night out: places and figures are invented.
using SoloRide;
using SoloRide.Exposure;
using UnitsNet;

static Temperature C(double c) => Temperature.FromDegreesCelsius(c);
static Speed Mps(double v) => Speed.FromMetersPerSecond(v);

var rider = new Rider { Mass = Mass.FromKilograms(74), Height = Length.FromMeters(1.77), HeatAcclimatised = Known.No };
Area skin = HeatStrain.BodyArea(rider.Mass!.Value, rider.Height!.Value);

// 1. The long climb to Ember Saddle at noon, then half an hour in the shade of a rock.
SunOnRider sun = SunOnRider.At(new SunInput { SunAltitudeDeg = 61, AirTemperature = C(32), RelHumidityPct = 30, CloudPct = 10 });
OutdoorHeat heat = OutdoorHeat.At(new OutdoorConditions
{
    AirTemperature = C(32),
    RelHumidityPct = 30,
    Wind = Mps(1.5),
    Elevation = Length.FromMeters(1400),
    SunAltitudeDeg = 61,
    GlobalIrradiance = sun.Global,
    MeanRadiantTemperature = sun.MeanRadiantTemperature,
    Date = new DateOnly(2027, 7, 3),
});
Console.WriteLine(heat);
if (heat.WorkRest(WorkIntensity.Hard) is { } cell)
{
    Console.WriteLine($"Table for hard work: {cell.WorkPerHour.TotalMinutes} min work, {cell.RestPerHour.TotalMinutes} min rest, water {cell.Water.Typical.LitersPerHour:F2} L/h: an upper guide, drink to thirst.");
}

HeatStrain climb = HeatStrain.Over(rider,
[
    new HeatStep
    {
        Duration = TimeSpan.FromMinutes(95),
        AirTemperature = C(32),
        MeanRadiantTemperature = sun.MeanRadiantTemperature,
        RelHumidityPct = 30,
        AirSpeed = Mps(1.5 + 2),
        MetabolicRate = HeatFlux.FromWattsPerSquareMeter(620 / skin.SquareMeters),
        ExternalWork = HeatFlux.FromWattsPerSquareMeter(145 / skin.SquareMeters),
    },
]);
HeatStrain rest = HeatStrain.Over(rider,
[
    new HeatStep { Duration = TimeSpan.FromMinutes(30), AirTemperature = C(32), RelHumidityPct = 30, AirSpeed = Mps(1), MetabolicRate = HeatFlux.FromWattsPerSquareMeter(65) },
],
from: climb.End);
Console.WriteLine();
Console.WriteLine(climb);
Console.WriteLine($"After the rest: rectal {rest.RectalTemperature}, water lost since the start {rest.WaterLoss.Kilograms:F2} kg.");

// 2. The descent at dusk: wind chill, then layers for every part.
Console.WriteLine();
Console.WriteLine(WindChill.At(C(-4), Speed.FromKilometersPerHour(20), Speed.FromKilometersPerHour(28)));

Garment[] worn = [new("jersey, long sleeves", 0.22), new("trousers, light", 0.20), new("thick ankle socks", 0.05)];
Garment shell = new("wind jacket", 0.25) { AirPermeabilityPerM2 = 5, Mass = Mass.FromKilograms(0.21) };
Garment warm = new("insulated jacket", 0.60) { Mass = Mass.FromKilograms(0.38) };
var helmet = new ProtectiveWear { Name = "full-face helmet", Mass = Mass.FromKilograms(0.95) };
LayerPlan layers = LayerPlan.For(
[
    new RidePart { Name = "climb", Kind = RidePartKind.Climb, Duration = TimeSpan.FromMinutes(80), AirTemperature = C(6), Wind = Mps(2) },
    new RidePart { Name = "repair stop", Kind = RidePartKind.Stop, Duration = TimeSpan.FromMinutes(20), AirTemperature = C(3), Wind = Mps(3), Wetness = Wetness.Damp },
    new RidePart { Name = "descent", Kind = RidePartKind.Descent, Duration = TimeSpan.FromMinutes(25), AirTemperature = C(2), Wind = Mps(3), Wetness = Wetness.Damp, ProtectiveWorn = [helmet] },
    new RidePart { Name = "waiting for help", Kind = RidePartKind.Wait, Duration = TimeSpan.FromHours(4), AirTemperature = C(0), Wind = Mps(2) },
],
worn, [shell, warm], [helmet]);
Console.WriteLine();
Console.WriteLine(layers);
RequiredInsulation still = RequiredInsulation.For(
    new ColdConditions { AirTemperature = C(0), AirSpeed = Mps(2), MetabolicRate = HeatFlux.FromWattsPerSquareMeter(70) }, new Outfit([.. worn, shell, warm]));
Console.WriteLine($"Standing about at 0 C in everything: {still.MissingMinimalClo:F1} clo missing, limit of strain after {still.LimitMinimal?.TotalMinutes:F0} min.");

// 3. The night, if it comes to that: everything on, in a closed bag.
Weather[] night = [.. new double[] { 2, 1, 0, -1, -2, -2, -3, -3, -2, 0 }.Select(t => Weather.Unknown with { AirTempC = t, WindMps = 4, RelHumidityPct = 80 })];
Console.WriteLine();
Console.WriteLine(NightOut.Through(new NightRequest { Weather = night, Outfit = new Outfit([.. worn, shell, warm]), Shelter = Shelter.ClosedBag }));
