using System.Net.Http.Headers;
using System.Net.Http.Json;
using System.Text;
using System.Text.Json.Nodes;
using GuideService;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Service;

/// <summary>The real service on a free port of loopback, asked over real HTTP.</summary>
public sealed class Service : IAsyncDisposable
{
    private readonly WebApplication _app;

    private Service(WebApplication app, HttpClient client) => (_app, Client) = (app, client);

    public HttpClient Client { get; }

    public static async Task<Service> StartAsync(Action<Limits>? limits = null)
    {
        WebApplication app = App.Build(["--urls", "http://127.0.0.1:0"], limits);
        await app.StartAsync();
        string address = app.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First();
        return new Service(app, new HttpClient { BaseAddress = new Uri(address), Timeout = TimeSpan.FromMinutes(2) });
    }

    public async ValueTask DisposeAsync()
    {
        Client.Dispose();
        await _app.DisposeAsync();
    }

    /// <summary>An invented ride of 24 km over a ridge.</summary>
    public static JsonObject Ride(int samples = 200, double heightM = 0)
    {
        var start = new DateTimeOffset(2026, 6, 13, 7, 0, 0, TimeSpan.FromHours(-6));
        IEnumerable<RoutePoint> points = Enumerable.Range(0, 481).Select(i =>
            new RoutePoint(new GeoPoint(44.0 + (i * 0.00045), -110.0, 1500 + heightM + (500 * Math.Sin(i * Math.PI / 480)))));
        RideRequest request = RideRequest.For(RideRoute.FromPoints(points), start) with
        {
            Title = "Quill Ridge",
            PreparedAt = start.AddHours(-12),
            Zone = ZoneOffsets.Fixed(-6),
            Rider = new Rider { Mass = Mass.FromKilograms(74), SustainedPower = Power.FromWatts(150) },
            Load = new Load { WaterCapacity = Volume.FromLiters(5) },
            Sources = [new WaterSource { Name = "Quill Spring", AlongRoute = Length.FromKilometers(9), WetProbability = 0.7 }],
            Options = PlanOptions.Default with { Samples = samples },
        };
        return JsonNode.Parse(request.ToJson(PersonalData.Included))!.AsObject();
    }

    public Task<HttpResponseMessage> PostAsync(string path, JsonNode body, string accept = "*/*") => PostAsync(path, body.ToJsonString(), accept);

    public async Task<HttpResponseMessage> PostAsync(string path, string body, string accept = "*/*", string type = "application/json")
    {
        using var call = new HttpRequestMessage(HttpMethod.Post, path) { Content = new StringContent(body, Encoding.UTF8, type) };
        call.Headers.Accept.Add(MediaTypeWithQualityHeaderValue.Parse(accept));
        return await Client.SendAsync(call, HttpCompletionOption.ResponseHeadersRead);
    }

    public async Task<JsonObject> JsonAsync(string path) => (await Client.GetFromJsonAsync<JsonObject>(path))!;
}
