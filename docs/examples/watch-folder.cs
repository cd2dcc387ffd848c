#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
#:package Microsoft.Extensions.Hosting
#:property PublishAot=false

// A worker that plans every route file put into a folder:
//   dotnet run docs/examples/watch-folder.cs                               the bundled routes, once
//   dotnet run docs/examples/watch-folder.cs -- inbox plans                 watch until stopped
// For each route it writes NAME.plan.txt and NAME.plan.json, or NAME.problem.txt with the line that is wrong.
using Microsoft.Extensions.DependencyInjection;
using Microsoft.Extensions.Hosting;
using Microsoft.Extensions.Logging;
using SoloRide;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

string data = Path.Combine(AppContext.GetData("EntryPointFileDirectoryPath") as string ?? "docs/examples", "data");
bool watch = args.Length >= 2;
string scratch = Path.Combine(Path.GetTempPath(), "soloride-plans-" + Path.GetRandomFileName());
var folders = new Folders(watch ? args[0] : data, watch ? args[1] : scratch, watch);

HostApplicationBuilder builder = Host.CreateApplicationBuilder();
builder.Logging.AddFilter("Microsoft", LogLevel.Warning);
builder.Services.AddSingleton(folders);
builder.Services.AddSingleton<IRidePlans>(new RidePlans(new Rider { Mass = Mass.FromKilograms(75), ClimbingRate = Speed.FromMetersPerHour(450) }));
builder.Services.AddHostedService<RouteWorker>();
using IHost host = builder.Build();
await host.RunAsync();

int plans = Directory.GetFiles(folders.Out, "*.plan.txt").Length, routes = Directory.GetFiles(folders.In, "*.gpx").Length;
Console.WriteLine($"{plans} plans of {routes} routes.");
if (!watch)
{
    Directory.Delete(scratch, recursive: true);
}

return plans == routes ? 0 : 1;

/// <summary>Where routes come in and plans go out.</summary>
internal sealed record Folders(string In, string Out, bool Watch);

/// <summary>What the rest of an app asks for: easy to replace in its own tests.</summary>
internal interface IRidePlans
{
    /// <summary>Plans a route file.</summary>
    RidePlan Of(string file, CancellationToken cancel);
}

/// <summary>The library behind the app's own interface.</summary>
internal sealed class RidePlans(Rider rider) : IRidePlans
{
    public RidePlan Of(string file, CancellationToken cancel)
    {
        RideRoute route = RideRoute.Read(file);
        string forecast = Path.ChangeExtension(file, ".forecast.csv");
        Forecast? weather = File.Exists(forecast) ? Forecast.Read(forecast) : null;
        // Seven in the morning of the forecast's first day, else of an invented one.
        DateTimeOffset first = weather?.From ?? new DateTimeOffset(2026, 6, 13, 0, 0, 0, TimeSpan.Zero);
        var start = new DateTimeOffset(first.Date.AddHours(7), first.Offset);
        return RidePlanner.Plan(RideRequest.For(route, start) with { Rider = rider, Weather = weather }, cancel: cancel);
    }
}

/// <summary>Looks every second; a file is taken once it has kept its size for a look.</summary>
internal sealed class RouteWorker(Folders folders, IRidePlans plans, IHostApplicationLifetime life, ILogger<RouteWorker> log) : BackgroundService
{
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        Directory.CreateDirectory(folders.Out);
        var sizes = new Dictionary<string, long>();
        do
        {
            foreach (string file in Directory.GetFiles(folders.In, "*.gpx").Order(StringComparer.Ordinal))
            {
                long size = new FileInfo(file).Length;
                bool whole = !folders.Watch || (sizes.TryGetValue(file, out long before) && before == size);
                sizes[file] = size;
                string name = Path.Combine(folders.Out, Path.GetFileNameWithoutExtension(file));
                if (whole && !File.Exists(name + ".plan.txt") && !File.Exists(name + ".problem.txt"))
                {
                    await Task.Run(() => One(file, name, stoppingToken), stoppingToken);
                }
            }

            if (folders.Watch)
            {
                await Task.Delay(TimeSpan.FromSeconds(1), stoppingToken);
            }
        }
        while (folders.Watch && !stoppingToken.IsCancellationRequested);
        life.StopApplication();
    }

    private void One(string file, string name, CancellationToken cancel)
    {
        try
        {
            RidePlan plan = plans.Of(file, cancel);
            Write(name + ".plan.json", plan.ToJson());
            Write(name + ".plan.txt", plan.ToText());
            Log.Planned(log, file, plan.Verdict.Sentence);
        }
        catch (Exception e) when (e is InputFormatException or ArgumentException or IOException)
        {
            Write(name + ".problem.txt", e.Message + "\n" + Cautions.Text + "\n");
            Log.Refused(log, e.Message);
        }
    }

    // Written beside and moved into place, so that nobody reads half a plan.
    private static void Write(string path, string text)
    {
        File.WriteAllText(path + ".part", text);
        File.Move(path + ".part", path, overwrite: true);
    }
}

internal static partial class Log
{
    [LoggerMessage(Level = LogLevel.Information, Message = "{File}: {Verdict}")]
    public static partial void Planned(ILogger log, string file, string verdict);

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Problem}")]
    public static partial void Refused(ILogger log, string problem);
}
