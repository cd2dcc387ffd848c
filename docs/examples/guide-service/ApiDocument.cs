using System.Text.Json;
using Microsoft.AspNetCore.OpenApi;
using Microsoft.OpenApi;
using SoloRide;

namespace GuideService;

/// <summary>What the OpenAPI document says beyond what the calls themselves tell.</summary>
internal static class ApiDocument
{
    public static void Describe(OpenApiOptions options)
    {
        options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info.Title = "Guide service";
            document.Info.Description = $"Plans for rides alone on remote trails. {Cautions.Text}";
            return Task.CompletedTask;
        });
        options.AddSchemaTransformer((schema, context, _) =>
        {
            if (context.JsonTypeInfo.Type == typeof(JsonElement))
            {
                schema.Type = JsonSchemaType.Object;
                schema.Description = "A document of the library. A request has its JSON schema at /schema/request, a plan at /schema/plan.";
            }

            return Task.CompletedTask;
        });
        options.AddOperationTransformer(OperationAsync);
    }

    private static async Task OperationAsync(OpenApiOperation operation, OpenApiOperationTransformerContext context, CancellationToken cancel)
    {
        foreach (IOpenApiResponse reply in operation.Responses?.Values ?? Enumerable.Empty<IOpenApiResponse>())
        {
            foreach ((string kind, OpenApiMediaType media) in reply.Content ?? new Dictionary<string, OpenApiMediaType>())
            {
                if (kind.StartsWith("text/", StringComparison.Ordinal))
                {
                    media.Schema = new OpenApiSchema { Type = JsonSchemaType.String };
                }
            }
        }

        foreach (IOpenApiParameter parameter in operation.Parameters ?? [])
        {
            if (parameter.Name == "units")
            {
                parameter.Description = "Units of text and pages: metric (the default) or us. Numbers in JSON bear their unit in their name.";
            }
        }

        if (operation.RequestBody is null)
        {
            return;
        }

        OpenApiSchema problem = await context.GetOrCreateSchemaAsync(typeof(Problem), null, cancel);
        problem.AdditionalPropertiesAllowed = true;
        foreach ((string status, string why) in new[]
        {
            ("400", "The body cannot be used: the field is named."), ("413", "The body is too large."), ("415", "The body is not application/json."),
            ("422", "The plan is made and holds no such output."), ("503", "The service is full or the time is up: wait as Retry-After says."),
        })
        {
            (operation.Responses ??= []).TryAdd(status, new OpenApiResponse
            {
                Description = why,
                Content = new Dictionary<string, OpenApiMediaType> { ["application/problem+json"] = new() { Schema = problem } },
            });
        }
    }
}
