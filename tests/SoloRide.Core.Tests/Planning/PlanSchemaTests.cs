using System.Text.Json;
using System.Text.Json.Nodes;
using Json.Schema;
using SoloRide.Demo;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>What the library writes meets the schemas that it publishes, by a kept validator of JSON Schema 2020-12; what is broken does not.</summary>
public sealed class PlanSchemaTests
{
    private static readonly EvaluationOptions Options = new() { OutputFormat = OutputFormat.List, RequireFormatValidation = true };

    private static readonly Dictionary<string, Lazy<JsonSchema>> Published = new[] { "plan", "trip", "group", "request", "trip-request", "riding-group" }
        .ToDictionary(n => n, n => new Lazy<JsonSchema>(() => JsonSchema.FromText(File.ReadAllText(Repo.File("docs", "schema", n + ".schema.json")))));

    public static TheoryData<string> Ids => [.. Scenarios.Ids];

    public static TheoryData<string> Names => [.. Published.Keys];

    private static string[] Errors(string schema, string json)
    {
        using JsonDocument document = JsonDocument.Parse(json);
        EvaluationResults results = Published[schema].Value.Evaluate(document.RootElement, Options);
        return results.IsValid ? [] : [.. (results.Details ?? []).Where(d => d.Errors is not null).SelectMany(d => d.Errors!.Select(e => $"{d.InstanceLocation}: {e.Value}")).DefaultIfEmpty("not valid")];
    }

    private static string Changed(string json, Action<JsonObject> change)
    {
        JsonObject o = JsonNode.Parse(json)!.AsObject();
        change(o);
        return o.ToJsonString();
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void PublishedSchema_IsASchema_WithDialectAndName(string name)
    {
        using JsonDocument schema = JsonDocument.Parse(File.ReadAllText(Repo.File("docs", "schema", name + ".schema.json")));
        Assert.Equal("https://json-schema.org/draft/2020-12/schema", schema.RootElement.GetProperty("$schema").GetString());
        Assert.StartsWith("urn:soloride:", schema.RootElement.GetProperty("$id").GetString(), StringComparison.Ordinal);
        Assert.True(MetaSchemas.Draft202012.Evaluate(schema.RootElement).IsValid);
    }

    [Theory]
    [MemberData(nameof(Ids))]
    public void EveryScenario_RequestAndPlan_MeetTheirSchemas(string id)
    {
        RideRequest r = Scenarios.Of(id, Repo.File("docs", "examples", "data")).Request;
        r = r with { Options = r.Options with { Samples = 64 } };
        Assert.Empty(Errors("request", r.ToJson(PersonalData.Included)));
        Assert.Empty(Errors("request", r.ToJson()));
        Assert.Empty(Errors("plan", RidePlanner.Plan(r).ToJson()));
        Assert.Empty(Errors("plan", RidePlanner.Plan(r with { Options = r.Options with { Samples = 0 } }).ToJson()));
    }

    [Fact]
    public void PlanWithLevers_RefusedPlan_AndBarePlan_MeetTheSchema()
    {
        Assert.Empty(Errors("plan", RidePlanner.Levers(Rides.Request(samples: 64)).ToJson()));
        Assert.Empty(Errors("plan", RidePlanner.Plan(Rides.Request(Rides.Line(heights: false))).ToJson()));
        Assert.Empty(Errors("plan", RidePlanner.Plan(new RideRequest { Route = Rides.Line(), Start = Rides.Start, Options = new PlanOptions { Samples = 64 } }).ToJson()));
    }

    [Fact]
    public void TripAndGroup_RequestsAndPlans_MeetTheirSchemas()
    {
        var trip = new TripRequest
        {
            Ride = Rides.Request(Rides.Line(60, 120, 7), 30), Days = 2,
            Camps = [new Camp { Name = "Camp A", AlongRoute = Length.FromKilometers(28.25), Water = Known.Yes, NightLow = Temperature.FromDegreesCelsius(-1.5) }, new Camp { Name = "Camp B", AlongRoute = Length.FromKilometers(34) }],
            SleepingLimit = Temperature.FromDegreesCelsius(3.5),
        };
        Assert.Empty(Errors("trip-request", trip.ToJson(PersonalData.Included)));
        Assert.Empty(Errors("trip", TripPlanner.Plan(trip).ToJson()));
        var group = new RidingGroup { Riders = 7, Leaders = 1, RegroupAt = [Length.FromKilometers(4)] };
        Assert.Empty(Errors("riding-group", group.ToJson()));
        Assert.Empty(Errors("group", GroupPlanner.Plan(Rides.Request(samples: 64), group).ToJson()));
    }

    [Fact]
    public void BrokenInstances_AreRefused()
    {
        string plan = RidePlanner.Plan(Rides.Request(samples: 64)).ToJson();
        Assert.NotEmpty(Errors("plan", Changed(plan, o => o.Remove("verdict"))));
        Assert.NotEmpty(Errors("plan", Changed(plan, o => o["nonsense"] = 1)));
        Assert.NotEmpty(Errors("plan", Changed(plan, o => o["stations"]![0]!["nonsense"] = 1)));
        Assert.NotEmpty(Errors("plan", Changed(plan, o => o["finish"] = "rubbish")));
        Assert.NotEmpty(Errors("plan", Changed(plan, o => o["start"] = "Monday")));
        Assert.NotEmpty(Errors("plan", Changed(plan, o => o["schema"] = "soloride-plan-9")));
        Assert.NotEmpty(Errors("plan", Changed(plan, o => o["stations"]![0]!.AsObject().Remove("arrival"))));
        Assert.NotEmpty(Errors("request", Changed(Rides.Request().ToJson(), o => o.Remove("start"))));
        Assert.NotEmpty(Errors("riding-group", Changed(new RidingGroup { Riders = 3 }.ToJson(), o => o["riders"] = "three")));
    }
}
