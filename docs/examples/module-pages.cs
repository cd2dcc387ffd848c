#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
#:property PublishAot=false

// The blocks of code in the pages of the modules, each run with what it needs around it:
//   dotnet run docs/examples/module-pages.cs
using System.Collections.Immutable;
using System.Globalization;
using SoloRide;
using SoloRide.Contact;
using SoloRide.Daylight;
using SoloRide.Effort;
using SoloRide.Escape;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Kit;
using SoloRide.Routes;
using UnitsNet;

CultureInfo.CurrentCulture = CultureInfo.InvariantCulture;
RoutesPage();
DaylightPage();
EscapePage();
ExposurePage();
HydrationPage();
EffortPage();
KitPage();
ContactPage();

static void RoutesPage()
{
    RideRoute route = RideRoute.Read("docs/examples/data/s01-dry-creek-loop.gpx");
    ElevationProfile profile = ElevationProfile.Of(route);
    Console.WriteLine(profile.Ascent);                       // 1 150 m (1 090 to 1 220)
    foreach (Climb climb in profile.Climbs())
    {
        Console.WriteLine($"{climb.From} {climb.Gain} {climb.MeanGrade}");
    }

    ImmutableArray<TrailStep> steps = profile.Steps(Length.FromMeters(50));
}

static void DaylightPage()
{
    var start = new GeoPoint(38.2, -109.4, 1500);
    DateTimeOffset[] instants = [.. Enumerable.Range(0, 13).Select(h => new DateTimeOffset(2027, 6, 14, 11 + h, 0, 0, TimeSpan.FromHours(-6)))];
    GeoPoint[] places = [.. instants.Select(_ => start)];
    var terrain = new Slope();
    DateTimeOffset[] arrivals = [.. Enumerable.Range(0, 10).Select(i => instants[9].AddMinutes(20 * i))];

    SolarDay day = SolarDay.On(new DateOnly(2027, 6, 14), start, ZoneOffsets.Fixed(-6.0));
    Console.WriteLine(day.CivilDusk);     // 21:18, or "always above", "always below", "not in this day"
    RideLight light = RideLight.Along(instants, places);    // light.NeedingLights, light.Darkest
    SunOnRoute sun = SunOnRoute.Along(instants, places, terrain);
    DaylightMargin margin = DaylightMargin.To(day.CivilDusk.At!.Value, arrivals);
    Console.WriteLine(margin.LateProbability);
    Console.WriteLine($"{light.NeedingLights} {sun.DirectSun} {margin.LateProbability:F2}");
}

static void EscapePage()
{
    ElevationProfile profile = ElevationProfile.Of(RideRoute.Read("docs/examples/data/s01-dry-creek-loop.gpx"));
    ExitPoint[] exits = [new() { Name = "Lower Gate", AlongRoute = Length.Zero }, new() { Name = "Graded Road", AlongRoute = Length.FromKilometers(44) }];
    EscapeTrail[] sideTrails = [];
    PaceModel model = PaceModel.For(new Rider { Mass = Mass.FromKilograms(82) });

    EscapeRoute route = EscapeRoute.Of(profile, exits, sideTrails);
    ExitGraph graph = ExitGraph.Build(route);
    WalkOutProfile push = graph.WalkOut(EscapePace.FromModel(model, TravelMode.Push));
    Console.WriteLine(push.Worst);        // place, time with range, exit, way
    // Share of the route more than an hour out at P90:
    Console.WriteLine(push.ShareAbove(TimeSpan.FromHours(1), 0.9));
}

static void ExposurePage()
{
    var rider = new Rider { Mass = Mass.FromKilograms(76), Height = Length.FromMeters(1.80) };
    var stop = new HeatStep
    {
        Duration = TimeSpan.FromMinutes(20), AirTemperature = Temperature.FromDegreesCelsius(30), MeanRadiantTemperature = Temperature.FromDegreesCelsius(32),
        RelHumidityPct = 35, AirSpeed = Speed.FromMetersPerSecond(1), MetabolicRate = HeatFlux.FromWattsPerSquareMeter(70),
    };

    HeatStrain climb = HeatStrain.Over(rider, [new HeatStep
    {
        Duration = TimeSpan.FromMinutes(70),
        AirTemperature = Temperature.FromDegreesCelsius(31),
        MeanRadiantTemperature = SunOnRider.At(new SunInput
        {
            SunAltitudeDeg = 55, AirTemperature = Temperature.FromDegreesCelsius(31), CloudPct = 10,
        }).MeanRadiantTemperature,
        RelHumidityPct = 35,
        AirSpeed = Speed.FromMetersPerSecond(2.5),              // wind at the rider plus riding speed
        MetabolicRate = HeatFlux.FromWattsPerSquareMeter(310),
        ExternalWork = HeatFlux.FromWattsPerSquareMeter(75),
    }]);
    // Goes on exactly where the climb ended:
    HeatStrain rest = HeatStrain.Over(rider, [stop], from: climb.End);
    Console.WriteLine(rest);
}

static void HydrationPage()
{
    var rider = new Rider { Mass = Mass.FromKilograms(76), Height = Length.FromMeters(1.80) };

    SweatEstimate sweat = SweatRateEstimator.Estimate(new SweatConditions
    {
        Rider = new Rider { Mass = Mass.FromKilograms(76), Height = Length.FromMeters(1.80) },
        Weather = Weather.Unknown with { AirTempC = 29, RelHumidityPct = 35, WindMps = 2 },
        MetabolicRate = Power.FromWatts(560),
        WorkPower = Power.FromWatts(110),
        SolarLoadWPerM2 = 60,                                    // SunOnRider.Absorbed
    });
    SodiumEstimate sodium = SodiumEstimator.Estimate(rider, sweat.Rate);

    WaterCarryPlan plan = WaterCarryPlanner.Plan(new WaterCarryRequest
    {
        Demand =
        [
            WaterDemand.FromSweat(
                Length.Zero, Length.FromKilometers(49), sweat.Rate, TimeSpan.FromHours(5)),
        ],
        Sources =
        [
            new WaterSource
            {
                Name = "Alder Spring", AlongRoute = Length.FromKilometers(26), WetProbability = 0.6,
            },
        ],
        Capacity = Volume.FromLiters(6),
    });
    Console.WriteLine(plan);                                     // with cautions
    Console.WriteLine(plan.IfDoubtfulSourcesDry!.CarryFromStart);
    Console.WriteLine(sodium);
}

static void EffortPage()
{
    PaceModel model = PaceModel.For(new Rider { Mass = Mass.FromKilograms(76), SustainedPower = Power.FromWatts(165) });
    ImmutableArray<TrailStep> steps = ElevationProfile
        .Of(RideRoute.Read("docs/examples/data/s01-dry-creek-loop.gpx"))
        .Steps(Length.FromMeters(50));

    ReserveCost cost = model.CostOf(
        new PaceReserve { PowerFraction = 0.15, TechnicalFraction = 0.2 },
        steps,
        stakes: new ReserveStakes
        {
            UntilDusk = TimeSpan.FromHours(9),
            WaterRate = VolumeFlow.FromLitersPerHour(0.6),
        });
    Console.WriteLine(cost);    // time, dusk, water and stopping distance with and without
}

static void KitPage()
{
    KitItem[] items =
    [
        new("chain links", Mass.FromGrams(12), Volume.FromLiters(0.02), KitPlace.Bike, KitFunction.ChainLink),
        new("chain tool", Mass.FromGrams(60), Volume.FromLiters(0.05), KitPlace.Bike, KitFunction.ChainTool),
        new("whistle", Mass.FromGrams(10), Volume.FromLiters(0.01), KitPlace.Body, KitFunction.Whistle),
    ];

    KitPlan kit = KitPlanner.Choose(new KitRequest
    {
        Items = items, Distance = Length.FromKilometers(49),
        Stakes = [FailureStake.Everywhere(FailureKind.Chain, TimeSpan.FromHours(3))],
        Needs = KitNeed.ForWaiting(TimeSpan.FromHours(24), mayBeDark: true),
        Caps = new KitCaps { TotalMass = Mass.FromKilograms(2.5), PackVolume = Volume.FromLiters(6) },
    });
    Console.WriteLine(kit);
}

static void ContactPage()
{
    var start = new DateTimeOffset(2027, 6, 14, 5, 20, 0, TimeSpan.FromHours(-6));
    DateTimeOffset stamp = start.AddHours(-10);

    CheckInSchedule schedule = CheckInPlanner.Plan(new CheckInRequest
    {
        Points =
        [
            new(CheckInKind.Start, "Lower Gate", start),
            new(CheckInKind.Finish, "Lower Gate", start.AddHours(6)),
        ],
        LateFinish = start.AddHours(8),
        ToleratedWait = TimeSpan.FromHours(7),
        Response = TimeSpan.FromHours(3),
    });
    string calendar = ContactCalendar
        .For(schedule, "spinel-basin", "Robin", ZoneOffsets.Fixed(-6), stamp)
        .ToText();
    Console.WriteLine(calendar.Length);
}

/// <summary>A slope that rises to the west.</summary>
internal sealed class Slope : ITerrainHeights
{
    public double HeightM(double latDeg, double lonDeg) => 1500 + Math.Max(0, (-109.4 - lonDeg) * 30_000);

    public void HeightsM(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg, Span<double> heightsM)
    {
        for (int i = 0; i < heightsM.Length; i++)
        {
            heightsM[i] = HeightM(latDeg[i], lonDeg[i]);
        }
    }
}
