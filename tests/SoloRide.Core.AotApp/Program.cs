using SoloRide;
using SoloRide.Planning;
using SoloRide.Routes;

// Runs one plan as text and JSON in a trimmed or ahead-of-time build.
string data = args.Length > 0 ? args[0] : ".";
RideRoute route = RideRoute.Read(Path.Combine(data, "s01-dry-creek-loop.gpx"));
RidePlan plan = RidePlanner.Plan(RideRequest.For(route, new DateTimeOffset(2025, 6, 14, 5, 20, 0, TimeSpan.FromHours(-6))) with
{
    Weather = Forecast.Read(Path.Combine(data, "s01-dry-creek-loop.forecast.csv")),
});
string json = plan.ToJson();
Console.WriteLine($"{plan.Title}: {plan.Stations.Count} stations, {json.Length} characters of JSON, {plan.Verdict.Kind}");
return plan.Stations.Count > 2 && json.Contains("soloride-plan-1", StringComparison.Ordinal) ? 0 : 1;
