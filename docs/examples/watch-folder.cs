#!/usr/bin/env dotnet
#:project ../../src/SoloRide.Core/SoloRide.Core.csproj
#:package Microsoft.Extensions.Hosting
#:property PublishAot=false

// A worker that plans every route file put into a folder:
//   dotnet run docs/examples/watch-folder.cs                               the bundled routes, once
//   dotnet run docs/examples/watch-folder.cs -- inbox plans                 watch until stopped
// For each route it writes FILE.plan.txt and FILE.plan.json, or FILE.problem.txt with the line that is wrong.
// A file that is written anew is planned anew; one that another program still holds is left for the next look.
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
if (!Directory.Exists(folders.In))
{
    Console.Error.WriteLine($"There is no folder '{folders.In}' to watch.");
    return 1;
}

using IHost host = builder.Build();
await host.RunAsync();

int plans = Directory.GetFiles(folders.Out, "*.plan.txt").Length, routes = folders.Routes().Count;
Console.WriteLine($"{plans} plans of {routes} routes.");
if (!watch)
{
    Directory.Delete(scratch, recursive: true);
}

return plans == routes ? 0 : 1;

/// <summary>Where routes come in and plans go out.</summary>
internal sealed record Folders(string In, string Out, bool Watch)
{
    /// <summary>The route files that lie there now.</summary>
    public IReadOnlyList<FileInfo> Routes()
        => [.. new DirectoryInfo(In).GetFiles().Where(f => f.Extension.ToUpperInvariant() is ".GPX" or ".KML" or ".GEOJSON").OrderBy(f => f.Name, StringComparer.Ordinal)];
}

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

/// <summary>Looks every second; a file is taken once it has kept its size and time for a look, and again when it has changed.</summary>
internal sealed class RouteWorker(Folders folders, IRidePlans plans, IHostApplicationLifetime life, ILogger<RouteWorker> log) : BackgroundService
{
    protected override async Task ExecuteAsync(CancellationToken stoppingToken)
    {
        Directory.CreateDirectory(folders.Out);
        var seen = new Dictionary<string, (long Size, DateTime At)>();
        do
        {
            foreach (FileInfo file in folders.Routes())
            {
                // Gone since the folder was listed, or still growing: the next look sees it.
                (long Size, DateTime At) now = file.Exists ? (file.Length, Newest(file)) : default;
                bool whole = file.Exists && (!folders.Watch || (seen.TryGetValue(file.Name, out var before) && before == now));
                seen[file.Name] = now;
                string name = Path.Combine(folders.Out, file.Name);
                if (whole && !Done(name, now.At))
                {
                    await Task.Run(() => One(file.FullName, name, now.At, stoppingToken), stoppingToken);
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

    // The route or its forecast, whichever was written last.
    private static DateTime Newest(FileInfo route)
    {
        var forecast = new FileInfo(Path.ChangeExtension(route.FullName, ".forecast.csv"));
        return forecast.Exists && forecast.LastWriteTimeUtc > route.LastWriteTimeUtc ? forecast.LastWriteTimeUtc : route.LastWriteTimeUtc;
    }

    // A result bears the time of what it was made from.
    private static bool Done(string name, DateTime routeAt)
        => Of(name + ".plan.txt", routeAt) || Of(name + ".problem.txt", routeAt);

    private static bool Of(string result, DateTime routeAt) => File.Exists(result) && File.GetLastWriteTimeUtc(result) == routeAt;

    private void One(string file, string name, DateTime routeAt, CancellationToken cancel)
    {
        try
        {
            RidePlan plan = plans.Of(file, cancel);
            File.Delete(name + ".problem.txt");
            Write(name + ".plan.json", plan.ToJson(), routeAt);
            Write(name + ".plan.txt", plan.ToText(), routeAt);
            Log.Planned(log, file, plan.Verdict.Sentence);
        }
        catch (Exception e) when (e is InputFormatException or ArgumentException)
        {
            // A plan of what the file held before would mislead.
            File.Delete(name + ".plan.json");
            File.Delete(name + ".plan.txt");
            Write(name + ".problem.txt", e.Message + "\n" + Cautions.Text + "\n", routeAt);
            Log.Refused(log, e.Message);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Log.Later(log, e.Message);
        }
    }

    // Written beside and moved into place, so that nobody reads half a plan.
    private static void Write(string path, string text, DateTime at)
    {
        File.WriteAllText(path + ".part", text);
        File.SetLastWriteTimeUtc(path + ".part", at);
        File.Move(path + ".part", path, overwrite: true);
    }
}

internal static partial class Log
{
    [LoggerMessage(Level = LogLevel.Information, Message = "{File}: {Verdict}")]
    public static partial void Planned(ILogger log, string file, string verdict);

    [LoggerMessage(Level = LogLevel.Warning, Message = "{Problem}")]
    public static partial void Refused(ILogger log, string problem);

    [LoggerMessage(Level = LogLevel.Information, Message = "Not yet: {Why}")]
    public static partial void Later(ILogger log, string why);
}
