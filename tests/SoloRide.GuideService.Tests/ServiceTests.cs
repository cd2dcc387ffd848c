using System.Globalization;
using System.Net;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Xunit;

namespace SoloRide.Tests.Service;

public sealed class ServiceTests : IAsyncLifetime
{
    private static readonly JsonObject Rider = new() { ["name"] = "Rider One", ["phone"] = "555 0101", ["medical"] = "allergy to wasps" };
    private Service _service = null!;

    public async Task InitializeAsync() => _service = await Service.StartAsync();

    public async Task DisposeAsync() => await _service.DisposeAsync();

    [Fact]
    public async Task Health_Answers()
        => Assert.Equal("up", (string?)(await _service.JsonAsync("/health"))["status"]);

    [Fact]
    public async Task OpenApi_NamesEveryPath_AndTheCaution()
    {
        JsonObject api = await _service.JsonAsync("/openapi/v1.json");
        string[] paths = [.. api["paths"]!.AsObject().Select(p => p.Key).Order(StringComparer.Ordinal)];
        Assert.Equal(["/batches", "/calendars", "/health", "/plans", "/schema/plan", "/schema/request", "/sheets", "/updates"], paths);
        Assert.Contains(Cautions.Sentences[0], (string)api["info"]!["description"]!, StringComparison.Ordinal);
    }

    [Fact]
    public async Task OpenApi_NamesMembersAsTheServiceReadsThem_AndEveryRefusal()
    {
        JsonObject api = await _service.JsonAsync("/openapi/v1.json");
        JsonObject schemas = api["components"]!["schemas"]!.AsObject();
        Assert.NotNull(schemas["CalendarBody"]!["properties"]!["plan_id"]);
        Assert.NotNull(schemas["UpdateBody"]!["properties"]!["along_route_m"]);
        Assert.Equal("number", (string?)schemas["UpdateBody"]!["properties"]!["along_route_m"]!["type"]);
        Assert.All(schemas.SelectMany(s => s.Value!["properties"]?.AsObject().Select(p => p.Key) ?? []), name => Assert.Equal(name.ToLowerInvariant(), name));
        foreach (JsonNode? post in api["paths"]!.AsObject().Select(p => p.Value!["post"]).Where(p => p is not null))
        {
            Assert.Equal(["200", "400", "413", "415", "422", "503"], post!["responses"]!.AsObject().Select(r => r.Key).Order(StringComparer.Ordinal));
        }

        foreach (string name in new[] { "request", "plan" })
        {
            Assert.NotNull((await _service.JsonAsync("/schema/" + name))["properties"]);
        }
    }

    [Fact]
    public async Task Sheet_AndUpdate_InUsUnits_SpeakOfMiles()
    {
        var sheet = new JsonObject { ["request"] = Service.Ride(), ["rider"] = new JsonObject { ["name"] = "A" }, ["contacts"] = new JsonArray(new JsonObject { ["name"] = "B", ["phone"] = "1" }) };
        using HttpResponseMessage page = await _service.PostAsync("/sheets?units=us", sheet);
        Assert.Contains(" mi ", await page.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        var update = new JsonObject { ["request"] = Service.Ride(), ["along_route_m"] = 6000, ["at"] = "2026-06-13T10:30:00-06:00" };
        using HttpResponseMessage words = await _service.PostAsync("/updates?units=us", update, "text/plain");
        string text = await words.Content.ReadAsStringAsync();
        Assert.Contains(" mi", text, StringComparison.Ordinal);
        Assert.DoesNotContain(" km", text, StringComparison.Ordinal);
    }

    [Fact]
    public async Task BodyInAnotherEncoding_OrCompressed_IsAProblem()
    {
        foreach (Encoding encoding in new[] { Encoding.Latin1, Encoding.Unicode })
        {
            using var body = new ByteArrayContent(encoding.GetBytes(Service.Ride().ToJsonString().Replace("Quill Ridge", "Quill Ridge \u00E9", StringComparison.Ordinal)));
            body.Headers.ContentType = new("application/json");
            using HttpResponseMessage reply = await _service.Client.PostAsync(new Uri("/plans", UriKind.Relative), body);
            Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
            Assert.Contains("UTF-8", await reply.Content.ReadAsStringAsync(), StringComparison.Ordinal);
        }

        using var packed = new StringContent(Service.Ride().ToJsonString(), Encoding.UTF8, "application/json");
        packed.Headers.ContentEncoding.Add("gzip");
        using HttpResponseMessage refused = await _service.Client.PostAsync(new Uri("/plans", UriKind.Relative), packed);
        Assert.Equal(HttpStatusCode.BadRequest, refused.StatusCode);
    }

    [Theory]
    [InlineData("application/json", "application/json")]
    [InlineData("text/plain", "text/plain")]
    [InlineData("text/markdown", "text/markdown")]
    [InlineData("text/html", "text/html")]
    [InlineData("*/*", "application/json")]
    public async Task Plan_ByAccept_HasTheCaution(string accept, string type)
    {
        using HttpResponseMessage reply = await _service.PostAsync("/plans", Service.Ride(), accept);
        string text = await reply.Content.ReadAsStringAsync();
        Assert.True(reply.IsSuccessStatusCode, text);
        Assert.Equal(type, reply.Content.Headers.ContentType!.MediaType);
        Assert.Contains(Cautions.Sentences[0], Regex.Replace(text.Replace("\\", "", StringComparison.Ordinal), @"\s+", " "), StringComparison.Ordinal);
        Assert.Equal("no-store", reply.Headers.CacheControl!.ToString());
    }

    [Fact]
    public async Task Plan_SameBody_SameBytes()
    {
        using HttpResponseMessage a = await _service.PostAsync("/plans", Service.Ride()), b = await _service.PostAsync("/plans", Service.Ride());
        Assert.Equal(await a.Content.ReadAsByteArrayAsync(), await b.Content.ReadAsByteArrayAsync());
    }

    [Fact]
    public async Task Plan_InUsUnits_SpeaksOfMiles()
    {
        using HttpResponseMessage reply = await _service.PostAsync("/plans?units=us", Service.Ride(), "text/plain");
        Assert.Contains(" mi", await reply.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Sheet_IsAPage_WithoutMedicalWords_UnlessTheRiderSaysSo()
    {
        var body = new JsonObject
        {
            ["request"] = Service.Ride(),
            ["rider"] = Rider.DeepClone(),
            ["contacts"] = new JsonArray(new JsonObject { ["name"] = "Contact Two", ["phone"] = "555 0102", ["offset_hours"] = 2 }),
            ["emergency"] = new JsonObject { ["agency"] = "Range rescue service", ["number"] = "555 0199" },
        };
        using HttpResponseMessage reply = await _service.PostAsync("/sheets", body);
        string page = await reply.Content.ReadAsStringAsync();
        Assert.True(reply.IsSuccessStatusCode, page);
        Assert.Equal("text/html", reply.Content.Headers.ContentType!.MediaType);
        Assert.Contains("Range rescue service at 555 0199", page, StringComparison.Ordinal);
        Assert.Contains("where you are", page, StringComparison.Ordinal);
        Assert.DoesNotContain("wasps", page, StringComparison.Ordinal);
        body["share_medical"] = true;
        using HttpResponseMessage shared = await _service.PostAsync("/sheets", body);
        Assert.Contains("wasps", await shared.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }

    // Outside reader: Ical.Net.
    [Fact]
    public async Task Calendar_IsReadByAnotherLibrary()
    {
        var body = new JsonObject { ["request"] = Service.Ride(), ["plan_id"] = "quill-1", ["rider_name"] = "Rider One" };
        using HttpResponseMessage reply = await _service.PostAsync("/calendars", body);
        Assert.Equal("text/calendar", reply.Content.Headers.ContentType!.MediaType);
        Ical.Net.Calendar? calendar = Ical.Net.Calendar.Load(await reply.Content.ReadAsStringAsync());
        Assert.NotEmpty(calendar!.Events);
    }

    [Fact]
    public async Task Update_OfALateRider_SaysSo_AndBringsTheNewPlan()
    {
        var body = new JsonObject
        {
            ["request"] = Service.Ride(),
            ["along_route_m"] = 9000,
            ["at"] = "2026-06-13T10:30:00-06:00",
            ["water_in_hand_l"] = 1.2,
            ["sources_now"] = new JsonObject { ["Quill Spring"] = "No" },
        };
        using HttpResponseMessage reply = await _service.PostAsync("/updates", body);
        string text = await reply.Content.ReadAsStringAsync();
        Assert.True(reply.IsSuccessStatusCode, text);
        JsonObject update = JsonNode.Parse(text)!.AsObject();
        Assert.InRange(((string)update["message"]!).Length, 10, 160);
        Assert.NotEmpty(update["news"]!.AsArray());
        Assert.True((double)update["pace_factor"]! > 1);
        Assert.NotEmpty(update["cautions"]!.AsArray());
        Assert.NotEmpty(update["plan"]!["margins"]!.AsArray());
    }

    [Fact]
    public async Task Batch_GivesOneLineARide_WithProgress_AndABadRideHarmsNoOther()
    {
        JsonObject bad = Service.Ride();
        bad["options"]!["samples"] = -5;
        var rides = new JsonArray();
        for (int i = 0; i < 10; i++)
        {
            rides.Add(new JsonObject { ["id"] = "client " + i.ToString(CultureInfo.InvariantCulture), ["request"] = i == 4 ? bad : Service.Ride(100, i * 10) });
        }

        using HttpResponseMessage reply = await _service.PostAsync("/batches", new JsonObject { ["rides"] = rides });
        Assert.Equal("application/x-ndjson", reply.Content.Headers.ContentType!.MediaType);
        string[] lines = (await reply.Content.ReadAsStringAsync()).Split('\n', StringSplitOptions.RemoveEmptyEntries);
        JsonObject[] read = [.. lines.Select(l => JsonNode.Parse(l)!.AsObject())];
        Assert.Equal(Enumerable.Range(1, 10), read.Select(r => (int)r["done"]!));
        Assert.Equal(10, read.Select(r => (string)r["id"]!).Distinct().Count());
        JsonObject refused = Assert.Single(read, r => r["plan"] is null);
        Assert.Equal("client 4", (string?)refused["id"]);
        Assert.Equal("$.rides[4].request.options.samples", (string?)refused["field"]);
        Assert.All(read.Where(r => r != refused), r => Assert.Equal(100, (int)r["plan"]!["samples"]!));
    }

    public static TheoryData<string, string, string> Malformed() => new()
    {
        { "/plans", "", "$" },
        { "/plans", "{", "$" },
        { "/plans", "[]", "$" },
        { "/plans", "null", "$" },
        { "/plans", "{\"schema\":\"soloride-request-1\",\"start\":\"2026-06-13T07:00:00-06:00\"}", "$.route" },
        { "/plans", Changed(r => r["start"] = "noon"), "$.start" },
        { "/plans", Changed(r => r["rider"]!["mass_kg"] = -3), "$.rider" },
        { "/plans", Changed(r => r["rider"]!["mass_kg"] = "heavy"), "$.rider.mass_kg" },
        { "/plans", Changed(r => r["options"]!["samples"] = 1_000_000), "$.options" },
        { "/plans", Changed(r => r["surprise"] = 1), "surprise" },
        { "/sheets", "{\"request\":{}}", "rider" },
        { "/sheets", "{\"request\":{},\"rider\":{\"name\":\"A\"},\"contacts\":[],\"colour\":1}", "colour" },
        { "/calendars", "{\"request\":{}}", "plan_id" },
        { "/updates", "{\"request\":{},\"along_route_m\":\"far\",\"at\":\"2026-06-13T10:30:00-06:00\"}", "$.along_route_m" },
        { "/updates", "{\"request\":{},\"along_route_m\":1}", "at" },
        { "/batches", "{\"rides\":{}}", "$.rides" },
        { "/batches", "{}", "rides" },
        { "/batches", "{\"rides\":[]}", "$.rides" },
        { "/batches", "{\"rides\":[null]}", "$.rides[0]" },
        { "/sheets", Sheet("[null]"), "$.contacts[0]" },
        { "/sheets", Sheet("[]"), "$.contacts" },
        { "/sheets", Sheet("[{\"name\":\"B\",\"phone\":\"1\",\"offset_hours\":99}]"), "$.contacts[0].offset_hours" },
        { "/sheets", Sheet("[{\"name\":\"B\",\"name\":\"C\",\"phone\":\"1\"}]"), "$.contacts[0].name" },
        { "/plans", Changed(r => r["sources"]![0]!["along_route_m"] = 9e8), "$.sources[0].along_route_m" },
        { "/plans", Changed(r => r["start"] = "0001-01-01T00:00:00+00:00"), "$.start" },
        { "/updates", Update("\"stopped_s\":1e300"), "$.stopped_s" },
        { "/updates", Update("\"sources_now\":{\"No Such Spring\":\"Yes\"}"), "$.sources_now['No Such Spring']" },
        { "/calendars", $"{{\"request\":{Service.Ride().ToJsonString()},\"plan_id\":\"\",\"rider_name\":\"A\"}}", "$.plan_id" },
    };

    private static string Sheet(string contacts) => $"{{\"request\":{Service.Ride().ToJsonString()},\"rider\":{{\"name\":\"A\"}},\"contacts\":{contacts}}}";

    private static string Update(string more) => $"{{\"request\":{Service.Ride().ToJsonString()},\"along_route_m\":6000,\"at\":\"2026-06-13T10:30:00-06:00\",{more}}}";

    private static string Changed(Action<JsonObject> change)
    {
        JsonObject ride = Service.Ride();
        change(ride);
        return ride.ToJsonString();
    }

    [Theory]
    [MemberData(nameof(Malformed))]
    public async Task MalformedBody_GetsAProblemThatNamesTheField(string path, string body, string field)
    {
        using HttpResponseMessage reply = await _service.PostAsync(path, body);
        string text = await reply.Content.ReadAsStringAsync();
        Assert.Equal(HttpStatusCode.BadRequest, reply.StatusCode);
        Assert.Equal("application/problem+json", reply.Content.Headers.ContentType!.MediaType);
        JsonObject problem = JsonNode.Parse(text)!.AsObject();
        Assert.Equal(400, (int)problem["status"]!);
        Assert.Contains(field, (string)problem["field"]!, StringComparison.Ordinal);
        string detail = (string)problem["detail"]!;
        Assert.NotEmpty(detail);
        Assert.DoesNotContain("Parameter '", detail, StringComparison.Ordinal);
        Assert.DoesNotContain("GuideService", detail, StringComparison.Ordinal);
        Assert.NotEmpty(problem["cautions"]!.AsArray());
    }

    [Fact]
    public async Task WrongType_WrongPath_WrongMethod_GetProblems()
    {
        using HttpResponseMessage type = await _service.PostAsync("/plans", "a,b", type: "text/csv");
        Assert.Equal(HttpStatusCode.UnsupportedMediaType, type.StatusCode);
        using HttpResponseMessage path = await _service.PostAsync("/plan", "{}");
        Assert.Equal(HttpStatusCode.NotFound, path.StatusCode);
        using HttpResponseMessage method = await _service.Client.GetAsync(new Uri("/plans", UriKind.Relative));
        Assert.Equal(HttpStatusCode.MethodNotAllowed, method.StatusCode);
        foreach (HttpResponseMessage reply in new[] { type, path, method })
        {
            Assert.Equal("application/problem+json", reply.Content.Headers.ContentType!.MediaType);
            Assert.NotEmpty((string)JsonNode.Parse(await reply.Content.ReadAsStringAsync())!["detail"]!);
        }
    }

    [Fact]
    public async Task NoHeights_IsARefusedPlan_AndItsCalendarAProblem()
    {
        JsonObject ride = Service.Ride();
        ride["route"]!.AsObject().Remove("elevation_m");
        using HttpResponseMessage plan = await _service.PostAsync("/plans", ride);
        string text = await plan.Content.ReadAsStringAsync();
        Assert.True(plan.IsSuccessStatusCode, text);
        Assert.Contains("efused", text, StringComparison.Ordinal);
        using HttpResponseMessage calendar = await _service.PostAsync("/calendars", new JsonObject { ["request"] = ride, ["plan_id"] = "x", ["rider_name"] = "Rider One" });
        Assert.Equal(HttpStatusCode.UnprocessableEntity, calendar.StatusCode);
    }
}

public sealed class ServiceLimitTests
{
    [Fact]
    public async Task LargeBody_Is413()
    {
        await using Service service = await Service.StartAsync(l => l.BodyBytes = 5_000);
        using HttpResponseMessage reply = await service.PostAsync("/plans", Service.Ride());
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, reply.StatusCode);
        Assert.Equal("application/problem+json", reply.Content.Headers.ContentType!.MediaType);
    }

    [Fact]
    public async Task TimeUp_Is503_AndTheServiceGoesOn()
    {
        // A million samples take many seconds on any machine: the time is up first, however late its clock is served.
        await using Service service = await Service.StartAsync(l => (l.ReplyTime, l.Samples) = (TimeSpan.FromMilliseconds(100), 1_000_000));
        using HttpResponseMessage reply = await service.PostAsync("/plans", Service.Ride(1_000_000));
        Assert.Equal(HttpStatusCode.ServiceUnavailable, reply.StatusCode);
        Assert.Equal("up", (string?)(await service.JsonAsync("/health"))["status"]);
    }

    [Fact]
    public async Task FullQueue_IsRefusedWithAWait_AndNothingElseFails()
    {
        await using Service service = await Service.StartAsync(l => (l.AtOnce, l.Queue) = (1, 1));
        string ride = Service.Ride(2_000).ToJsonString();
        HttpResponseMessage[] replies = await Task.WhenAll(Enumerable.Range(0, 12).Select(_ => service.PostAsync("/plans", ride)));
        try
        {
            Assert.All(replies, r => Assert.True(r.StatusCode is HttpStatusCode.OK or HttpStatusCode.ServiceUnavailable, r.StatusCode.ToString()));
            Assert.Contains(replies, r => r.StatusCode == HttpStatusCode.OK);
            HttpResponseMessage refused = Assert.Single(replies.Where(r => r.StatusCode == HttpStatusCode.ServiceUnavailable).Take(1));
            Assert.NotNull(refused.Headers.RetryAfter);
        }
        finally
        {
            Array.ForEach(replies, r => r.Dispose());
        }
    }

    [Fact]
    public async Task CallerWhoLeaves_EndsTheBatch_AndTheServiceGoesOn()
    {
        await using Service service = await Service.StartAsync();
        var rides = new JsonArray();
        for (int i = 0; i < 100; i++)
        {
            rides.Add(new JsonObject { ["id"] = i.ToString(CultureInfo.InvariantCulture), ["request"] = Service.Ride(2_000) });
        }

        using (HttpResponseMessage reply = await service.PostAsync("/batches", new JsonObject { ["rides"] = rides }))
        {
            using var reader = new StreamReader(await reply.Content.ReadAsStreamAsync());
            Assert.Contains("\"done\":1", await reader.ReadLineAsync(), StringComparison.Ordinal);
        }

        // The one place for batches is free again once the first was cut off.
        using HttpResponseMessage next = await service.PostAsync("/batches", new JsonObject { ["rides"] = new JsonArray(new JsonObject { ["id"] = "after", ["request"] = Service.Ride(100) }) });
        Assert.Contains("\"id\":\"after\"", await next.Content.ReadAsStringAsync(), StringComparison.Ordinal);
    }
}
