using System.Globalization;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using System.Text.Json.Serialization.Metadata;

namespace SoloRide.Planning;

/// <summary>The published schema of a request, and the check of a document against it: types, names, words and required members, each with its path.</summary>
/// <remarks>Reads the part of JSON Schema that the exporter writes: type, enum, properties, required, additionalProperties, items, format and $ref.</remarks>
internal sealed class RequestSchema
{
    private static readonly JsonSchemaExporterOptions Exporter = new()
    {
        TreatNullObliviousAsNonNullable = true,
        TransformSchemaNode = (context, node) => context.TypeInfo.Type == typeof(double[])
            ? new JsonObject { ["type"] = new JsonArray("array", "null"), ["items"] = new JsonObject { ["type"] = new JsonArray("number", "null") } }
            : node,
    };

    /// <summary>Of one ride.</summary>
    public static readonly RequestSchema Ride = new(RequestJsonContext.Default.RequestDocument, RequestDocument.SchemaVersion);

    /// <summary>Of a trip.</summary>
    public static readonly RequestSchema Trip = new(RequestJsonContext.Default.TripRequestDocument, TripRequestDocument.SchemaVersion);

    /// <summary>Of a group.</summary>
    public static readonly RequestSchema Group = new(RequestJsonContext.Default.RidingGroupDocument, RidingGroupDocument.SchemaVersion);

    private readonly JsonElement _root;

    private RequestSchema(JsonTypeInfo type, string version)
    {
        Text = PublishedSchema.Named(JsonSchemaExporter.GetJsonSchemaAsNode(type, Exporter), version);
        _root = JsonDocument.Parse(Text).RootElement;
    }

    /// <summary>The schema as it is published.</summary>
    public string Text { get; }

    /// <summary>First place where a document differs from the schema; null when it meets it.</summary>
    public (string Path, string Reason)? Differs(JsonElement document) => Check(document, _root, "$");

    private (string, string)? Check(JsonElement e, JsonElement schema, string path)
    {
        if (schema.ValueKind != JsonValueKind.Object)
        {
            return null;
        }

        if (schema.TryGetProperty("$ref", out JsonElement reference))
        {
            return Check(e, Resolve(reference.GetString()!), path);
        }

        if (schema.TryGetProperty("enum", out JsonElement words))
        {
            JsonElement[] allowed = [.. words.EnumerateArray()];
            return allowed.Any(w => w.ValueKind == e.ValueKind && (w.ValueKind == JsonValueKind.Null || w.GetString() == e.GetString()))
                ? null
                : (path, $"{Shown(e)} is none of {string.Join(", ", allowed.Where(w => w.ValueKind == JsonValueKind.String).Select(w => w.GetString()))}.");
        }

        if (schema.TryGetProperty("type", out JsonElement type))
        {
            string[] types = type.ValueKind == JsonValueKind.Array ? [.. type.EnumerateArray().Select(t => t.GetString()!)] : [type.GetString()!];
            if (!types.Any(t => Is(e, t)))
            {
                return (path, $"{Shown(e)} is found; {string.Join(" or ", types.Select(Words))} is expected.");
            }
        }

        return e.ValueKind switch
        {
            JsonValueKind.Object => Object(e, schema, path),
            JsonValueKind.Array => Array(e, schema, path),
            JsonValueKind.String => Format(e, schema, path),
            _ => null,
        };
    }

    private (string, string)? Object(JsonElement e, JsonElement schema, string path)
    {
        bool has = schema.TryGetProperty("properties", out JsonElement properties);
        schema.TryGetProperty("additionalProperties", out JsonElement more);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        foreach (JsonProperty p in e.EnumerateObject())
        {
            string at = $"{path}.{p.Name}";
            if (!seen.Add(p.Name))
            {
                return (at, "the name is given twice.");
            }

            if (has && properties.TryGetProperty(p.Name, out JsonElement own))
            {
                if (Check(p.Value, own, at) is { } bad)
                {
                    return bad;
                }
            }
            else if (more.ValueKind == JsonValueKind.False)
            {
                return (at, $"unknown name '{p.Name}'; known here are {string.Join(", ", properties.EnumerateObject().Select(x => x.Name))}.");
            }
            else if (more.ValueKind == JsonValueKind.Object && Check(p.Value, more, at) is { } bad)
            {
                return bad;
            }
        }

        if (schema.TryGetProperty("required", out JsonElement required))
        {
            string[] missing = [.. required.EnumerateArray().Select(r => r.GetString()!).Where(r => !seen.Contains(r))];
            if (missing.Length > 0)
            {
                return (path, $"missing: {string.Join(", ", missing)}.");
            }
        }

        return null;
    }

    private (string, string)? Array(JsonElement e, JsonElement schema, string path)
    {
        if (!schema.TryGetProperty("items", out JsonElement items))
        {
            return null;
        }

        int i = 0;
        foreach (JsonElement x in e.EnumerateArray())
        {
            if (Check(x, items, string.Create(CultureInfo.InvariantCulture, $"{path}[{i}]")) is { } bad)
            {
                return bad;
            }

            i++;
        }

        return null;
    }

    private static (string, string)? Format(JsonElement e, JsonElement schema, string path)
    {
        if (!schema.TryGetProperty("format", out JsonElement format))
        {
            return null;
        }

        string text = e.GetString()!;
        return format.GetString() switch
        {
            // Without an offset the instant would depend on the machine's own clock.
            "date-time" => text.Length > 10 && (text.EndsWith('Z') || text.LastIndexOfAny(['+', '-']) > 10) && e.TryGetDateTimeOffset(out _)
                ? null
                : (path, $"'{text}' is no RFC 3339 time with an offset, such as 2027-06-14T05:20:00-06:00."),
            "date" => DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out _)
                ? null
                : (path, $"'{text}' is no date such as 2027-06-14."),
            _ => null,
        };
    }

    private JsonElement Resolve(string pointer)
    {
        JsonElement at = _root;
        foreach (string part in pointer.TrimStart('#').Split('/', StringSplitOptions.RemoveEmptyEntries))
        {
            at = at.ValueKind == JsonValueKind.Array ? at[int.Parse(part, CultureInfo.InvariantCulture)] : at.GetProperty(part.Replace("~1", "/", StringComparison.Ordinal).Replace("~0", "~", StringComparison.Ordinal));
        }

        return at;
    }

    private static bool Is(JsonElement e, string type) => type switch
    {
        "object" => e.ValueKind == JsonValueKind.Object,
        "array" => e.ValueKind == JsonValueKind.Array,
        "string" => e.ValueKind == JsonValueKind.String,
        "number" => e.ValueKind == JsonValueKind.Number && e.TryGetDouble(out double v) && double.IsFinite(v),
        "integer" => e.ValueKind == JsonValueKind.Number && (e.TryGetInt64(out _) || e.TryGetUInt64(out _)),
        "boolean" => e.ValueKind is JsonValueKind.True or JsonValueKind.False,
        "null" => e.ValueKind == JsonValueKind.Null,
        _ => true,
    };

    private static string Words(string type) => type switch
    {
        "object" => "an object",
        "array" => "a list",
        "string" => "text",
        "number" => "a finite number",
        "integer" => "a whole number",
        "boolean" => "true or false",
        _ => type,
    };

    private static string Shown(JsonElement e) => e.ValueKind switch
    {
        JsonValueKind.Object => "an object",
        JsonValueKind.Array => "a list",
        JsonValueKind.String => $"'{e.GetString()}'",
        JsonValueKind.Number => e.GetRawText(),
        JsonValueKind.True => "true",
        JsonValueKind.False => "false",
        _ => "null",
    };
}
