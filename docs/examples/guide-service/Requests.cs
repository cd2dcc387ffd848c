using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using SoloRide;
using SoloRide.Planning;

namespace GuideService;

/// <summary>Reads bodies and requests; whatever is wrong is said with the path of its field.</summary>
internal static class Requests
{
    /// <summary>The published schema of a request.</summary>
    public static string Schema()
    {
        using Stream schema = typeof(Requests).Assembly.GetManifestResourceStream("request.schema.json")!;
        using var reader = new StreamReader(schema);
        return reader.ReadToEnd();
    }

    /// <summary>The body as JSON.</summary>
    public static async Task<JsonElement> ReadBodyAsync(HttpContext http)
    {
        if (!http.Request.HasJsonContentType())
        {
            throw new BadHttpRequestException("The body must be application/json.", StatusCodes.Status415UnsupportedMediaType);
        }

        try
        {
            using JsonDocument document = await JsonDocument.ParseAsync(http.Request.Body, new JsonDocumentOptions { MaxDepth = 32 }, http.RequestAborted);
            return document.RootElement.Clone();
        }
        catch (JsonException e)
        {
            throw new FieldException(e.Path ?? "$", string.Create(CultureInfo.InvariantCulture, $"Not JSON: line {(e.LineNumber ?? 0) + 1}, byte {(e.BytePositionInLine ?? 0) + 1}."), e);
        }
    }

    /// <summary>The body as one of the service's own shapes.</summary>
    public static async Task<T> BodyAsync<T>(HttpContext http, JsonTypeInfo<T> shape)
    {
        JsonElement body = await ReadBodyAsync(http);
        try
        {
            return body.Deserialize(shape) ?? throw new FieldException("$", "The body is null.");
        }
        catch (JsonException e)
        {
            throw new FieldException(Field(e), e.Message, e);
        }
    }

    /// <summary>A request of the library, with the place of the request in the body put before the path of its fields.</summary>
    public static RideRequest Parse(JsonElement json, string at, Limits limits)
    {
        try
        {
            RideRequest request = RideRequest.FromJson(json.GetRawText());
            return request.Options.Samples <= limits.Samples
                ? request
                : throw new FieldException(at + ".options.samples", string.Create(CultureInfo.InvariantCulture, $"{request.Options.Samples} samples; this service computes at most {limits.Samples}."));
        }
        catch (InputFormatException e)
        {
            // The reason begins with the path inside the request: "$.rider.massKg: …".
            int end = e.Reason.StartsWith('$') ? e.Reason.IndexOf(": ", StringComparison.Ordinal) : -1;
            if (end < 0)
            {
                throw new FieldException(at, e.Reason, e);
            }

            const string Missing = "missing: ";
            string field = at + e.Reason[1..end], reason = e.Reason[(end + 2)..];
            throw new FieldException(reason.StartsWith(Missing, StringComparison.Ordinal) ? field + "." + reason[Missing.Length..].Split(',', '.')[0] : field, reason, e);
        }
    }

    // A missing member is named in the message and not in the path.
    private static string Field(JsonException e)
    {
        string path = e.Path ?? "$";
        int from = e.Message.IndexOf("required properties", StringComparison.Ordinal);
        int quote = from < 0 ? -1 : e.Message.IndexOf('\'', from), end = quote < 0 ? -1 : e.Message.IndexOf('\'', quote + 1);
        return end < 0 ? path : $"{path}.{e.Message[(quote + 1)..end]}";
    }
}
