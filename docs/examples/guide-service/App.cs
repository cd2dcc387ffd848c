using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization;
using System.Text.Json.Serialization.Metadata;
using System.Threading.Channels;
using System.Threading.RateLimiting;
using Microsoft.AspNetCore.Diagnostics;
using Microsoft.AspNetCore.Http.Timeouts;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.RateLimiting;
using Microsoft.Extensions.Options;
using SoloRide;
using SoloRide.Contact;
using SoloRide.Planning;

namespace GuideService;

/// <summary>The service: each call is a pure function of its body.</summary>
public static class App
{
    private const string Reply = "reply";
    private const string Batch = "batch";

    /// <summary>Builds the service; configuration and command line as usual for a web host.</summary>
    public static WebApplication Build(string[] args, Action<Limits>? limits = null)
    {
        WebApplicationBuilder builder = WebApplication.CreateSlimBuilder(args);
        if (string.IsNullOrEmpty(builder.Configuration["urls"]))
        {
            builder.WebHost.UseUrls("http://127.0.0.1:5080");
        }

        // Requests are not logged: they say where somebody will be alone.
        builder.Logging.AddFilter("Microsoft.AspNetCore", LogLevel.Error);
        builder.Logging.AddFilter("Microsoft.AspNetCore.Diagnostics", LogLevel.None);
        builder.Services.Configure<Limits>(builder.Configuration.GetSection("Limits"));
        if (limits is not null)
        {
            builder.Services.Configure(limits);
        }

        Limits set = new();
        builder.Configuration.GetSection("Limits").Bind(set);
        limits?.Invoke(set);
        builder.WebHost.ConfigureKestrel(k =>
        {
            k.AddServerHeader = false;
            k.Limits.MaxRequestBodySize = set.BodyBytes;
            k.Limits.RequestHeadersTimeout = TimeSpan.FromSeconds(10);
        });
        builder.Services.AddSingleton(TimeProvider.System);
        builder.Services.ConfigureHttpJsonOptions(o =>
        {
            // The same names and strictness as bodies are read with, so that the OpenAPI document tells the truth.
            o.SerializerOptions.TypeInfoResolverChain.Insert(0, BodyJson.Default);
            o.SerializerOptions.PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower;
            o.SerializerOptions.NumberHandling = JsonNumberHandling.Strict;
            o.SerializerOptions.UnmappedMemberHandling = JsonUnmappedMemberHandling.Disallow;
            o.SerializerOptions.Converters.Add(new JsonStringEnumConverter<Known>());
        });
        builder.Services.AddProblemDetails(o => o.CustomizeProblemDetails = c =>
        {
            c.ProblemDetails.Detail ??= Problems.OfStatus(c.HttpContext.Response.StatusCode, c.HttpContext.Request);
            if (c.HttpContext.Response.StatusCode == StatusCodes.Status415UnsupportedMediaType)
            {
                c.ProblemDetails.Extensions.TryAdd("field", "Content-Type");
            }

            c.ProblemDetails.Extensions["cautions"] = Cautions.Sentences;
        });
        builder.Services.AddRequestTimeouts(o =>
        {
            o.AddPolicy(Reply, new RequestTimeoutPolicy { Timeout = set.ReplyTime, WriteTimeoutResponse = Problems.TimeUpAsync });
            o.AddPolicy(Batch, new RequestTimeoutPolicy { Timeout = set.BatchTime, WriteTimeoutResponse = Problems.TimeUpAsync });
        });
        builder.Services.AddRateLimiter(o =>
        {
            o.RejectionStatusCode = StatusCodes.Status503ServiceUnavailable;
            o.OnRejected = (context, cancel) => new ValueTask(Problems.WriteAsync(context.HttpContext, StatusCodes.Status503ServiceUnavailable, "The service is full.", "As many calls wait as may wait. Try again in a few seconds.", null, 5));
            o.AddConcurrencyLimiter(Reply, c => (c.PermitLimit, c.QueueLimit, c.QueueProcessingOrder) = (set.AtOnce, set.Queue, QueueProcessingOrder.OldestFirst));
            o.AddConcurrencyLimiter(Batch, c => (c.PermitLimit, c.QueueLimit, c.QueueProcessingOrder) = (1, 4, QueueProcessingOrder.OldestFirst));
        });
        builder.Services.AddOpenApi("v1", ApiDocument.Describe);

        WebApplication app = builder.Build();
        app.UseExceptionHandler(e => e.Run(Problems.OfExceptionAsync));
        app.UseStatusCodePages();
        app.Use(Headers);
        app.UseRequestTimeouts();
        app.UseRateLimiter();
        Map(app);
        return app;
    }

    private static Task Headers(HttpContext http, RequestDelegate next)
    {
        IHeaderDictionary h = http.Response.Headers;
        h.CacheControl = "no-store";
        h.XContentTypeOptions = "nosniff";
        h.ContentSecurityPolicy = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'";
        h["Referrer-Policy"] = "no-referrer";
        return next(http);
    }

    private static void Map(WebApplication app)
    {
        app.MapOpenApi("/openapi/{documentName}.json");
        app.MapGet("/health", (IOptions<Limits> limits) => new HealthReply("up", limits.Value.AtOnce))
            .WithSummary("Whether the service answers").WithTags("Service");
        foreach (string name in new[] { "request", "plan" })
        {
            app.MapGet("/schema/" + name, () => Results.Text(Requests.Schema(name), "application/schema+json")).Produces<JsonElement>(200, "application/schema+json")
                .WithSummary($"JSON schema of a {name}").WithTags("Service");
        }

        RouteGroupBuilder one = app.MapGroup("");
        one.RequireRateLimiting(Reply).WithRequestTimeout(Reply).WithTags("Rides");
        one.MapPost("/plans", PlanAsync).Accepts<JsonElement>("application/json").Produces<JsonElement>(200, "application/json", "text/plain", "text/markdown", "text/html")
            .WithSummary("A plan; the header Accept chooses JSON, text, Markdown or a page");
        one.MapPost("/sheets", SheetAsync).Accepts<SheetBody>("application/json").Produces<string>(200, "text/html", "text/plain", "text/markdown")
            .WithSummary("The sheet that stays at home, as a page that prints");
        one.MapPost("/calendars", CalendarAsync).Accepts<CalendarBody>("application/json").Produces<string>(200, "text/calendar")
            .WithSummary("Check-ins, overdue and alarm time as a calendar");
        one.MapPost("/updates", UpdateAsync).Accepts<UpdateBody>("application/json").Produces<UpdateReply>(200, "application/json", "text/plain")
            .WithSummary("Plans what is left of a ride from where the rider is; the header Accept chooses JSON or text");
        app.MapPost("/batches", BatchAsync).Accepts<BatchBody>("application/json").Produces<BatchLine>(200, "application/x-ndjson")
            .WithSummary("Many rides; one line of JSON for each, written when it is done")
            .RequireRateLimiting(Batch).WithRequestTimeout(Batch).WithTags("Rides");
    }

    private static async Task<IResult> PlanAsync(HttpContext http, IOptions<Limits> limits, string? units)
    {
        PlanTextOptions text = Text(units);
        RideRequest request = Requests.Parse(await Requests.ReadBodyAsync(http), "$", limits.Value);
        RidePlan plan = await ComputeAsync(() => RidePlanner.Plan(request, cancel: http.RequestAborted), http.RequestAborted);
        return Kind(http, "application/json") switch
        {
            "text/plain" => Results.Text(plan.ToText(text), "text/plain", Encoding.UTF8),
            "text/markdown" => Results.Text(plan.ToMarkdown(text), "text/markdown", Encoding.UTF8),
            "text/html" => Results.Text(plan.ToHtml(text), "text/html", Encoding.UTF8),
            _ => Results.Text(plan.ToJson(), "application/json", Encoding.UTF8),
        };
    }

    private static async Task<IResult> SheetAsync(HttpContext http, IOptions<Limits> limits, string? units)
    {
        PlanTextOptions text = Text(units);
        SheetBody body = await Requests.BodyAsync(http, BodyJson.Default.SheetBody);
        RideRequest request = Requests.Parse(body.Request, "$.request", limits.Value);
        RidePlan plan = await ComputeAsync(() => RidePlanner.Plan(request, cancel: http.RequestAborted), http.RequestAborted);
        var rider = Requests.At("$.rider", body.Rider.ToRider);
        TrustedContact[] contacts = [.. body.Contacts.Select((c, i) => Requests.At(string.Create(CultureInfo.InvariantCulture, $"$.contacts[{i}]"), () => Requests.Given(c).ToContact()))];
        EmergencyCall? emergency = body.Emergency is { } e ? Requests.At("$.emergency", e.ToCall) : null;
        var sheet = Requests.At("$", () => plan.ToSheet(rider, contacts, emergency, body.Version ?? 1, body.ShareMedical, text));
        return Kind(http, "text/html") switch
        {
            "text/plain" => Results.Text(sheet.ToPlainText(), "text/plain", Encoding.UTF8),
            "text/markdown" => Results.Text(sheet.ToMarkdown(), "text/markdown", Encoding.UTF8),
            _ => Results.Text(sheet.ToHtml(), "text/html", Encoding.UTF8),
        };
    }

    private static async Task<IResult> CalendarAsync(HttpContext http, IOptions<Limits> limits, TimeProvider clock)
    {
        CalendarBody body = await Requests.BodyAsync(http, BodyJson.Default.CalendarBody);
        RideRequest request = Requests.Parse(body.Request, "$.request", limits.Value);
        RidePlan plan = await ComputeAsync(() => RidePlanner.Plan(request, cancel: http.RequestAborted), http.RequestAborted);
        DateTimeOffset stamp = request.PreparedAt ?? clock.GetUtcNow();
        EmergencyCall? emergency = body.Emergency is { } e ? Requests.At("$.emergency", e.ToCall) : null;
        return Results.Text(Requests.At("$", () => plan.ToCalendar(body.PlanId, body.RiderName, stamp, emergency, body.Version ?? 1)).ToText(), "text/calendar", Encoding.UTF8);
    }

    private static async Task<IResult> UpdateAsync(HttpContext http, IOptions<Limits> limits, string? units)
    {
        PlanTextOptions text = Text(units);
        UpdateBody body = await Requests.BodyAsync(http, BodyJson.Default.UpdateBody);
        RideRequest request = Requests.Parse(body.Request, "$.request", limits.Value);
        TrailNews news = body.ToNews(request);
        TrailUpdate update = await ComputeAsync(() => RidePlanner.Replan(request, news, cancel: http.RequestAborted), http.RequestAborted);
        if (Kind(http, "application/json") == "text/plain")
        {
            return Results.Text(update.ToText(text), "text/plain", Encoding.UTF8);
        }

        return Results.Json(
            new UpdateReply(update.Message, update.News, Math.Round(update.PaceFactor.Typical.DecimalFractions, 3), Element(update.Plan), Cautions.Sentences),
            BodyJson.Default.UpdateReply);
    }

    /// <summary>Rides are planned side by side; each line leaves as soon as its ride is done, so that the caller sees progress. A ride that cannot be read is a line with its problem, and the others go on.</summary>
    private static async Task BatchAsync(HttpContext http, IOptions<Limits> options)
    {
        BatchBody body = await Requests.BodyAsync(http, BodyJson.Default.BatchBody);
        Limits limits = options.Value;
        if (body.Rides.Count == 0)
        {
            throw new FieldException("$.rides", "No ride is given; at least one is needed.");
        }

        for (int i = 0; i < body.Rides.Count; i++)
        {
            Requests.At(string.Create(CultureInfo.InvariantCulture, $"$.rides[{i}]"), () => Requests.Given(body.Rides[i]));
        }

        if (body.Rides.Count > limits.BatchRides)
        {
            throw new FieldException("$.rides", string.Create(CultureInfo.InvariantCulture, $"{body.Rides.Count} rides; a batch holds at most {limits.BatchRides}."));
        }

        http.Response.ContentType = "application/x-ndjson; charset=utf-8";
        CancellationToken cancel = http.RequestAborted;
        // One more line than workers in memory, however slow the reader.
        var lines = Channel.CreateBounded<BatchLine>(limits.AtOnce);
        Task work = Task.Run(
            async () =>
            {
                try
                {
                    var each = new ParallelOptions { MaxDegreeOfParallelism = limits.AtOnce, CancellationToken = cancel };
                    await Parallel.ForEachAsync(Enumerable.Range(0, body.Rides.Count), each, async (i, stop) => await lines.Writer.WriteAsync(await ComputeAsync(() => Line(body.Rides[i], i, limits, stop), stop), stop));
                    lines.Writer.Complete();
                }
                catch (Exception e)
                {
                    lines.Writer.Complete(e);
                    throw;
                }
            },
            cancel);
        int done = 0;
        await foreach (BatchLine line in lines.Reader.ReadAllAsync(cancel))
        {
            await JsonSerializer.SerializeAsync(http.Response.Body, line with { Done = ++done, Of = body.Rides.Count }, BodyJson.Default.BatchLine, cancel);
            await http.Response.WriteAsync("\n", cancel);
            await http.Response.Body.FlushAsync(cancel);
        }

        await work;
    }

    private static BatchLine Line(BatchRide ride, int index, Limits limits, CancellationToken cancel)
    {
        try
        {
            RideRequest request = Requests.Parse(ride.Request, string.Create(CultureInfo.InvariantCulture, $"$.rides[{index}].request"), limits);
            return new BatchLine(ride.Id, 0, 0, Cautions.Sentences, Element(RidePlanner.Plan(request, cancel: cancel)));
        }
        catch (FieldException e)
        {
            return new BatchLine(ride.Id, 0, 0, Cautions.Sentences, null, e.Message, e.Field);
        }
        catch (ArgumentException e)
        {
            return new BatchLine(ride.Id, 0, 0, Cautions.Sentences, null, Problems.Plain(e), string.Create(CultureInfo.InvariantCulture, $"$.rides[{index}].request"));
        }
    }

    private static JsonElement Element(RidePlan plan)
    {
        using var document = JsonDocument.Parse(plan.ToJson());
        return document.RootElement.Clone();
    }

    // The planner computes and never waits, so it gets a thread of its own: the pool stays free for calls and clocks. The call ends when its caller leaves or its time is up.
    private static Task<T> ComputeAsync<T>(Func<T> plan, CancellationToken cancel)
        => Task.Factory.StartNew(plan, cancel, TaskCreationOptions.LongRunning, TaskScheduler.Default).WaitAsync(cancel);

       private static PlanTextOptions Text(string? units) => units switch
    {
        null or "" or "metric" => PlanTextOptions.Default,
        "us" => PlanTextOptions.Default with { Units = MeasureSystem.UsCustomary },
        var other => throw new FieldException("units", $"'{other}' is not a unit system; 'metric' or 'us'."),
    };

    private static string Kind(HttpContext http, string usual)
        => http.Request.GetTypedHeaders().Accept.OrderByDescending(a => a.Quality ?? 1).Select(a => a.MediaType.Value)
            .FirstOrDefault(m => m is "application/json" or "text/plain" or "text/markdown" or "text/html") ?? usual;
}
