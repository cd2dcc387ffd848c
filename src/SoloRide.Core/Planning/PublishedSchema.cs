using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Json.Schema;
using System.Text.Json.Serialization.Metadata;

namespace SoloRide.Planning;

/// <summary>Schemas as they are published: named, versioned, closed, and asking only for members that are always written.</summary>
internal static class PublishedSchema
{
    private const string Dialect = "https://json-schema.org/draft/2020-12/schema";

    /// <summary>Members that hold an instant when they hold text: RFC 3339 with an offset.</summary>
    private static readonly HashSet<string> Instants = new(StringComparer.Ordinal)
    {
        "alarm", "at", "first_there", "go_on_until", "high", "highest_time", "last_sun", "late_arrival_p95", "late_finish_p95", "latest_pass", "latest_start", "limit_reached", "low", "overdue", "start", "turn_around", "typical",
    };

    /// <summary>The schema of a document that is written without the members that are null.</summary>
    public static string Of(JsonTypeInfo type, string version)
        => Named(JsonSchemaExporter.GetJsonSchemaAsNode(type, new JsonSchemaExporterOptions { TreatNullObliviousAsNonNullable = true, TransformSchemaNode = (_, node) => Closed(node) }), version);

    /// <summary>Adds dialect, name and the version that a document must bear.</summary>
    public static string Named(JsonNode schema, string version)
    {
        var root = new JsonObject { ["$schema"] = Dialect, ["$id"] = "urn:soloride:" + version };
        foreach ((string name, JsonNode? value) in schema.AsObject())
        {
            root[name] = value?.DeepClone();
        }

        ((JsonObject)root["properties"]!)["schema"] = new JsonObject { ["type"] = "string", ["const"] = version };
        return root.ToString() + "\n";
    }

    /// <summary>No other members; a member that may be null is left out when it is, so it is not asked for.</summary>
    private static JsonNode Closed(JsonNode node)
    {
        if (node is not JsonObject o || o["properties"] is not JsonObject properties)
        {
            return node;
        }

        if (o["required"] is JsonArray required)
        {
            string[] always = [.. required.Select(r => r!.GetValue<string>()).Where(r => !MayBeNull(properties[r]))];
            if (always.Length == 0)
            {
                o.Remove("required");
            }
            else
            {
                o["required"] = new JsonArray([.. always.Select(r => (JsonNode)JsonValue.Create(r))]);
            }
        }

        foreach ((string name, JsonNode? value) in properties)
        {
            if (Instants.Contains(name) && value is JsonObject member && IsText(member))
            {
                member["format"] = "date-time";
            }
        }

        o["additionalProperties"] = false;
        return o;
    }

    private static bool MayBeNull(JsonNode? member) => member is JsonObject o && o["type"] is JsonArray types && types.Any(t => t!.GetValue<string>() == "null");

    private static bool IsText(JsonObject member) => member["type"] switch
    {
        JsonArray types => types.Any(t => t!.GetValue<string>() == "string"),
        JsonValue one => one.GetValueKind() == JsonValueKind.String && one.GetValue<string>() == "string",
        _ => false,
    };
}
