// A stranger's program: it knows the package only.
using SoloRide;
using SoloRide.Charts;
using SoloRide.Planning;
using SoloRide.Routes;

string data = args[0];
RideRoute route = RideRoute.Read(Path.Combine(data, "s01-dry-creek-loop.gpx"));
RidePlan plan = RidePlanner.Plan(RideRequest.For(route, new DateTimeOffset(2025, 6, 14, 5, 20, 0, TimeSpan.FromHours(-6))) with
{
    Weather = Forecast.Read(Path.Combine(data, "s01-dry-creek-loop.forecast.csv")),
});
Console.WriteLine(plan.ToText());
Picture profile = RidePictures.Profile(plan);
Console.WriteLine(profile.TextAlternative);
return plan.Stations.Count > 2 && plan.ToJson().Contains("soloride-plan-1", StringComparison.Ordinal) && profile.ToPng().Length > 10_000 && profile.ToSvg().Contains("<desc", StringComparison.Ordinal) ? 0 : 1;
