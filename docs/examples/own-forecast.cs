#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
#:property PublishAot=false

// Weather from wherever you have it, and miles and degrees Fahrenheit at the edges of an app.
// The shape of the JSON below is invented; map the members of your own in the same few lines.
using System.Text.Json;
using SoloRide;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? "docs/examples", "data");
RideRoute route = RideRoute.Read(Path.Combine(data, "s10-thorn-country.gpx"));
var start = new DateTimeOffset(2025, 4, 19, 7, 0, 0, TimeSpan.FromHours(-7));

// From a table: the columns are in the getting-started page.
Forecast table = Forecast.Read(Path.Combine(data, "s10-thorn-country.forecast.csv"));

// From JSON of any shape: one place, its hours, and the units that the sender uses.
const string Answer = """
    { "at": { "name": "Thorn Country", "altitude_ft": 4068 }, "made": "2025-04-19T01:00:00Z",
      "rows": [
        { "t": "2025-04-19T12:00:00Z", "temp_f": 48.9, "humid": 0.31, "wind_mph": 5.1, "dir": 230, "clouds": 0.10, "rain_in": 0 },
        { "t": "2025-04-19T16:00:00Z", "temp_f": 63.5, "humid": 0.24, "wind_mph": 7.4, "dir": 235, "clouds": 0.15, "rain_in": 0 },
        { "t": "2025-04-19T20:00:00Z", "temp_f": 76.1, "humid": 0.17, "wind_mph": 9.8, "dir": 240, "clouds": 0.20, "rain_in": 0 },
        { "t": "2025-04-20T00:00:00Z", "temp_f": 74.3, "humid": 0.18, "wind_mph": 8.9, "dir": 240, "clouds": 0.20, "rain_in": 0 },
        { "t": "2025-04-20T06:00:00Z", "temp_f": 57.2, "humid": 0.27, "wind_mph": 5.6, "dir": 230, "clouds": 0.10, "rain_in": 0 } ] }
    """;
Forecast mapped = FromJson(Answer);

foreach ((string name, Forecast weather) in new[] { ("table", table), ("JSON", mapped) })
{
    RidePlan plan = RidePlanner.Plan(RideRequest.For(route, start) with
    {
        Weather = weather,
        // Numbers of the app's own form, converted once, here.
        Rider = new Rider { Mass = Mass.FromPounds(161), ClimbingRate = Speed.FromFeetPerHour(1480) },
        Load = new Load { WaterCapacity = Volume.FromUsQuarts(5.5) },
    });
    Console.WriteLine($"--- weather from {name}");
    Console.WriteLine(plan.ToText(new PlanTextOptions { Units = MeasureSystem.UsCustomary, Details = false }));
}

static Forecast FromJson(string json)
{
    using JsonDocument document = JsonDocument.Parse(json);
    JsonElement root = document.RootElement, at = root.GetProperty("at");
    return new Forecast(
    [
        new ForecastPlace(
            at.GetProperty("name").GetString()!,
            Length.FromFeet(at.GetProperty("altitude_ft").GetDouble()),
            root.GetProperty("rows").EnumerateArray().Select(r => new ForecastHour(r.GetProperty("t").GetDateTimeOffset(), Weather.Unknown with
            {
                AirTempC = Temperature.FromDegreesFahrenheit(r.GetProperty("temp_f").GetDouble()).DegreesCelsius,
                RelHumidityPct = 100 * r.GetProperty("humid").GetDouble(),
                WindMps = Speed.FromMilesPerHour(r.GetProperty("wind_mph").GetDouble()).MetersPerSecond,
                WindFromDeg = r.GetProperty("dir").GetDouble(),
                CloudPct = 100 * r.GetProperty("clouds").GetDouble(),
                PrecipMm = Length.FromInches(r.GetProperty("rain_in").GetDouble()).Millimeters,
            })),
            issued: root.GetProperty("made").GetDateTimeOffset()),
    ]);
}
