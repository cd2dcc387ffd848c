#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
#:property PublishAot=false

// From a wish to a loop, to a plan, to a cue sheet. The trails of Larkmoor are invented.
using SoloRide;
using SoloRide.Effort;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

GeoPoint At(double northKm, double eastKm, double heightM)
    => new(45.2 + (northKm / 111.13), 7.3 + (eastKm / 78.4), heightM);

GeoPoint trailhead = At(0, 0, 620), saddle = At(4.2, 1.1, 910), tarn = At(5.6, 4.3, 870);
GeoPoint mill = At(1.8, 6.2, 560), gate = At(-0.6, 3.4, 600), fold = At(2.4, 3.1, 760);

TrailLine Trail(string name, TrailDifficulty difficulty, params GeoPoint[] places)
    => new(RideRoute.FromPoints(places, name)) { Difficulty = difficulty };

var forestry = new TrailClosure
{
    Reason = "forestry work",
    InformationDate = new DateOnly(2027, 5, 20),
    OpensOn = new DateOnly(2027, 7, 1),
};

RouteNetwork larkmoor = RouteNetwork.Of(
[
    Trail("Peat road", TrailDifficulty.Level0, trailhead, At(1.9, -0.3, 700), saddle),
    Trail("Tarn traverse", TrailDifficulty.Level2, saddle, At(5.4, 2.6, 960), tarn),
    Trail("Mill drop", TrailDifficulty.Level2, tarn, At(3.9, 5.9, 720), mill)
        with { OneWay = OneWayRule.Forward },
    Trail("Beck track", TrailDifficulty.Level1, mill, At(0.2, 5.1, 570), gate),
    Trail("Gate lane", TrailDifficulty.Level0, gate, At(-0.5, 1.6, 610), trailhead),
    Trail("Fold path", TrailDifficulty.Level1, saddle, At(3.2, 2.3, 830), fold),
    Trail("Fold path", TrailDifficulty.Level1, fold, At(1.2, 3.4, 680), gate),
    Trail("Long cut", TrailDifficulty.Level1, fold, mill) with { Closure = forestry },
]);
var day = new DateOnly(2027, 6, 12);

LoopChoice wish = larkmoor.Loops(new LoopRequest
{
    Trailhead = trailhead,
    Shortest = Length.FromKilometers(12),
    Longest = Length.FromKilometers(24),
    Wished = Length.FromKilometers(20),
    MostAscent = Length.FromMeters(700),
    Options = new WayOptions { Day = day },
});
Console.WriteLine(wish);

// What a closure costs, and what would open it.
RouteWay toMill = larkmoor.Way([trailhead, fold, mill], new WayOptions { Day = day });
foreach (WayRefusal no in toMill.Refusals)
{
    Console.WriteLine($"Refused: {no.Trail}. {no.OpenedBy}");
    Console.WriteLine($"Longer by {toMill.Detour?.Kilometers:F1} km.");
}

// No loop of this length: which trail would have to open, or which limit give.
LoopChoice none = larkmoor.Loops(new LoopRequest
{
    Trailhead = trailhead,
    Shortest = Length.FromKilometers(15),
    Longest = Length.FromKilometers(17),
    Options = new WayOptions { Day = day },
});
foreach (Finding f in none.Findings.Where(f => f.Severity == FindingSeverity.Refusal))
{
    Console.WriteLine(f.Message);
}

// The loop, altered: begun at the mill, where the bus stops.
RouteDesign design = RouteDesign.Of(wish.Loops[0].Directions[0].Route).StartAt(mill);
foreach (DesignChange change in design.Changes)
{
    Console.WriteLine(change);
}

// What to do at each junction, and what a wrong turn costs this rider: to the next junction and back.
PaceModel pace = PaceModel.For(new Rider { Mass = Mass.FromKilograms(74), SustainedPower = Power.FromWatts(160) });
RouteNetwork timed = larkmoor.WithCost(p => pace.At(p.Step).Moving.Typical);
Console.WriteLine(timed.CueSheet(design.Route.WithName("Larkmoor round")));

var start = new DateTimeOffset(2027, 6, 12, 9, 0, 0, TimeSpan.FromHours(2));
RidePlan plan = RidePlanner.Plan(RideRequest.For(design.Route.WithName("Larkmoor round"), start));
Console.WriteLine(plan.ToCueSheet());
foreach (Finding f in design.Origin.FindingsOn(day))
{
    Console.WriteLine($"{f.Severity}: {f.Message}");
}
