#:sdk Microsoft.NET.Sdk.Web
#:project ../docs/examples/guide-service/guide-service.csproj
#:property PublishAot=false

// The guide service under parallel clients on loopback, bounded in time; by hand, not part of .ci/run:
//   dotnet run -c Release .ci/service-load.cs -- CLIENTS SECONDS
using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Text;
using GuideService;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using SoloRide;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

int clients = args.Length > 0 ? int.Parse(args[0], CultureInfo.InvariantCulture) : 200;
double seconds = args.Length > 1 ? double.Parse(args[1], CultureInfo.InvariantCulture) : 60;
await using WebApplication app = App.Build(["--urls", "http://127.0.0.1:0", "--Logging:LogLevel:Default=Error"]);
await app.StartAsync();
string address = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();

// An invented ride of 24 km over a ridge.
var start = new DateTimeOffset(2026, 6, 13, 7, 0, 0, TimeSpan.FromHours(-6));
RideRoute route = RideRoute.FromPoints(Enumerable.Range(0, 481).Select(i => new RoutePoint(new GeoPoint(44.0 + (i * 0.00045), -110.0, 1500 + (500 * Math.Sin(i * Math.PI / 480))))));
string body = (RideRequest.For(route, start) with
{
    Title = "Quill Ridge",
    PreparedAt = start.AddHours(-12),
    Zone = ZoneOffsets.Fixed(-6),
    Rider = new Rider { Mass = Mass.FromKilograms(74), SustainedPower = Power.FromWatts(150) },
    Load = new Load { WaterCapacity = Volume.FromLiters(5) },
    Options = PlanOptions.Default with { Samples = 200 },
}).ToJson(PersonalData.Included);
string[] broken = ["", "{", "[]", "{\"start\":\"noon\"}", body.Replace("\"start\":", "\"begin\":", StringComparison.Ordinal), body.Replace("44.", "444.", StringComparison.Ordinal)];

var took = new ConcurrentBag<double>();
var replies = new ConcurrentDictionary<string, int>();
var clock = Stopwatch.StartNew();
long most = 0;
using var stop = new CancellationTokenSource(TimeSpan.FromSeconds(seconds));
Task memory = Task.Run(async () =>
{
    while (!stop.IsCancellationRequested)
    {
        most = Math.Max(most, Environment.WorkingSet);
        await Task.Delay(200);
    }
});
await Task.WhenAll(Enumerable.Range(0, clients).Select(async c =>
{
    using var client = new HttpClient { BaseAddress = new Uri(address), Timeout = TimeSpan.FromMinutes(2) };
    for (int i = c; !stop.IsCancellationRequested; i++)
    {
        bool bad = i % 20 == 19;
        long at = Stopwatch.GetTimestamp();
        try
        {
            using HttpResponseMessage reply = await client.PostAsync("/plans", new StringContent(bad ? broken[i / 20 % broken.Length] : body, Encoding.UTF8, "application/json"));
            string text = await reply.Content.ReadAsStringAsync();
            bool problem = reply.Content.Headers.ContentType?.MediaType == "application/problem+json" && text.Contains("\"cautions\"", StringComparison.Ordinal);
            string kind = (bad, reply.StatusCode) switch
            {
                (false, HttpStatusCode.OK) => "plans",
                (true, HttpStatusCode.BadRequest) when problem => "malformed bodies refused with a problem document",
                (_, HttpStatusCode.ServiceUnavailable) when problem => "deliberate refusals",
                _ => $"errors: {(int)reply.StatusCode} for {(bad ? "a malformed body" : "a ride")}",
            };
            replies.AddOrUpdate(kind, 1, (_, n) => n + 1);
            if (kind == "plans")
            {
                took.Add(Stopwatch.GetElapsedTime(at).TotalSeconds);
            }
        }
        catch (HttpRequestException e)
        {
            replies.AddOrUpdate("errors: " + e.Message, 1, (_, n) => n + 1);
        }
    }
}));
double lasted = clock.Elapsed.TotalSeconds;
await stop.CancelAsync();
await memory;
double[] sorted = [.. took.Order()];
Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{clients} clients, {lasted:F0} s"));
foreach ((string kind, int n) in replies.OrderBy(r => r.Key, StringComparer.Ordinal))
{
    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kind}: {n}"));
}

Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"plans: half within {At(0.5):F2} s, 95 of 100 within {At(0.95):F2} s, 99 of 100 within {At(0.99):F2} s; memory at most {most / 1e6:F0} MB (clients included)"));
return replies.Keys.Any(k => k.StartsWith("errors", StringComparison.Ordinal)) ? 1 : 0;

double At(double p) => sorted.Length == 0 ? double.NaN : sorted[Math.Min(sorted.Length - 1, (int)(p * sorted.Length))];
