#!/usr/bin/env dotnet
#:project scenarios/scenarios.csproj
#:property PublishAot=false

// The moments of a ride, each with its own short output: days before, evening before, trailhead, on the trail, after trouble, afterwards.
//   dotnet run docs/examples/moments.cs
//   dotnet run docs/examples/moments.cs -- us        in miles, feet, quarts, pounds, Fahrenheit
using SoloRide;
using SoloRide.Demo;
using SoloRide.Kit;
using SoloRide.Planning;
using UnitsNet;

string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? Path.Combine("docs", "examples"), "data");
var options = new PlanTextOptions { Units = args is ["us"] ? MeasureSystem.UsCustomary : MeasureSystem.Metric, Details = false };
var ride = new S12(data);
RideRequest request = ride.Request;

Title("Days before: which day, which way round, which change");
PlanComparison days = RidePlanner.CompareDays(request, [new DateOnly(2025, 5, 24), new DateOnly(2025, 5, 25)]);
Console.Write(days.ToText(options));
RideRequest morning = request with { Start = request.Start.AddHours(-4.25) };
Console.Write(new PlanComparison([new PlanAlternative("At 12:15", ride.Plan), new PlanAlternative("At 08:00", RidePlanner.Levers(morning))]).ToText(options));

Title("Evening before: charge, fill, pack, tell");
RidePlan evening = RidePlanner.Plan(morning);
Console.Write(evening.ToEveningList(options));
Console.Write(evening.ToPackingList(options));

Title("Trailhead: go or not with the forecast of the morning");
RidePlan now = RidePlanner.Plan(morning with { PreparedAt = morning.Start.AddMinutes(-15), Start = morning.Start.AddMinutes(30) });
Console.Write(now.ToTrailheadNote(evening, options));
Console.Write(now.ToCueSheet(options));
Console.Write(now.ToStrip(options));

Title("On the trail: late, turn, out, what to send");
var news = new TrailNews { AlongRoute = Length.FromKilometers(13), At = morning.Start.AddHours(3.5), WaterInHand = Volume.FromLiters(2) };
Console.Write(RidePlanner.Replan(morning, news).ToText(options));

Title("After trouble: walk, wait, call");
var trouble = new TroubleNews { Kind = TroubleKind.BikeDead, AlongRoute = Length.FromKilometers(19), At = morning.Start.AddHours(5), WaterInHand = Volume.FromLiters(1.5) };
Console.Write(RidePlanner.AfterTrouble(morning, trouble).ToText(options));

Title("Afterwards: all clear, planned against actual, what the log learns, what to replace");
var record = new RideRecord
{
    Finished = morning.Start.AddHours(6.8),
    Passed = [("Forest Road B", morning.Start.AddHours(3.1))],
    Stopped = TimeSpan.FromMinutes(45),
    Failures = new Dictionary<FailureKind, int> { [FailureKind.TubePuncture] = 1 },
    Used = ["spare tube"],
    Drunk = Volume.FromLiters(3.1),
    Weighed = (Mass.FromKilograms(80.2), Mass.FromKilograms(79.0)),
    ChargeLeftFraction = new Dictionary<string, double> { ["phone"] = 0.25 },
};
Console.Write(RideReview.Of(morning, evening, record).ToText(options));

static void Title(string text)
{
    Console.WriteLine();
    Console.WriteLine("== " + text);
}
