using SoloRide.Demo;

// Writes the invented routes and forecasts of the examples anew: dotnet run --project docs/examples/data/generator -- docs/examples/data
string folder = args.Length > 0 ? args[0] : ".";
foreach (DemoRide ride in DemoGenerator.All)
{
    string name = Path.Combine(folder, DemoGenerator.FileName(ride));
    File.WriteAllText(name + ".gpx", DemoGenerator.Gpx(ride));
    File.WriteAllText(name + ".forecast.csv", DemoGenerator.ForecastCsv(ride));
}
