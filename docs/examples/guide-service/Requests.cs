using System.Globalization;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;
using SoloRide;
using SoloRide.Planning;

namespace GuideService;

/// <summary>Reads bodies and requests; whatever is wrong is said with the path of its field.</summary>
internal static class Requests
{
    /// <summary>The published schema of a request or a plan.</summary>
    public static string Schema(string name)
    {
        using Stream schema = typeof(Requests).Assembly.GetManifestResourceStream(name + ".schema.json")!;
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

        if (http.Request.Headers.ContentEncoding.Count > 0)
        {
            throw new FieldException("Content-Encoding", "The body must come as it is, not compressed.");
        }

        using var bytes = new MemoryStream();
        await http.Request.Body.CopyToAsync(bytes, http.RequestAborted);
        ReadOnlyMemory<byte> body = bytes.GetBuffer().AsMemory(0, (int)bytes.Length);
        body = body.Span.StartsWith("\uFEFF"u8) ? body[3..] : body;
        int bad = NotUtf8At(body.Span);
        if (bad >= 0)
        {
            throw new FieldException("$", string.Create(CultureInfo.InvariantCulture, $"The body is not UTF-8: byte {bad + 1} begins no letter."));
        }

        try
        {
            using JsonDocument document = JsonDocument.Parse(body, new JsonDocumentOptions { MaxDepth = 32 });
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
            throw new FieldException(Field(e), Reason(e), e);
        }
        catch (InvalidOperationException e)
        {
            // Half of a pair of escapes: JSON, and no text.
            throw new FieldException("$", "A name or a text in the body holds half of a pair of \\u escapes.", e);
        }
    }

    /// <summary>What a list holds, or the problem that it holds null.</summary>
    public static T Given<T>(T? value)
        where T : class => value ?? throw new ArgumentException("null is found; an object is expected.");

    /// <summary>Makes one of the library's values from a part of the body; what is wrong is said with the path of its field.</summary>
    public static T At<T>(string path, Func<T> make)
    {
        try
        {
            return make();
        }
        catch (ArgumentException e)
        {
            throw new FieldException(string.IsNullOrEmpty(e.ParamName) ? path : $"{path}.{JsonNamingPolicy.SnakeCaseLower.ConvertName(e.ParamName)}", Problems.Plain(e), e);
        }
    }

    private static int NotUtf8At(ReadOnlySpan<byte> bytes)
    {
        int at = 0;
        while (at < bytes.Length)
        {
            if (System.Text.Rune.DecodeFromUtf8(bytes[at..], out _, out int used) != System.Buffers.OperationStatus.Done)
            {
                return at;
            }

            at += used;
        }

        return -1;
    }

    /// <summary>A request of the library, with the place of the request in the body put before the path of its fields.</summary>
    public static RideRequest Parse(JsonElement json, string at, Limits limits)
    {
        try
        {
            RideRequest request = RideRequest.FromJson(json.GetRawText());
            Check(at, request);
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

    // What only the request as a whole can tell.
    private static void Check(string at, RideRequest request)
    {
        if (request.Start.Year is < 1900 or > 2200)
        {
            throw new FieldException(at + ".start", string.Create(CultureInfo.InvariantCulture, $"The year {request.Start.Year:0000}; this service plans 1900 to 2200."));
        }

        double lengthM = request.Route.Length.Meters;
        On("sources", request.Sources.Select(s => (s.Name, s.AlongRoute?.Meters)));
        On("exits", request.Exits.Select(x => (x.Name, x.AlongRoute?.Meters)));

        void On(string list, IEnumerable<(string Name, double? AlongM)> places)
        {
            foreach ((int i, (string name, double? alongM)) in places.Index())
            {
                if (alongM > lengthM)
                {
                    throw new FieldException(
                        string.Create(CultureInfo.InvariantCulture, $"{at}.{list}[{i}].along_route_m"), string.Create(CultureInfo.InvariantCulture, $"'{name}' is given at {alongM:F0} m; the route ends at {lengthM:F0} m."));
                }
            }
        }
    }

    // The serializer speaks of types of this program; the caller knows names and values.
    private static string Reason(JsonException e)
    {
        string m = e.Message;
        string[] quoted = m.Split('\'');
        int missing = m.IndexOf("required properties including:", StringComparison.Ordinal);
        if (missing >= 0)
        {
            return "missing: " + m[(missing + "required properties including:".Length)..].Replace("'", "", StringComparison.Ordinal).Trim().TrimEnd('.') + ".";
        }

        return m.Contains("doesn't allow null", StringComparison.Ordinal) ? "null is found; a value is expected."
            : m.Contains("could not be mapped", StringComparison.Ordinal) ? $"unknown name '{(quoted.Length > 1 ? quoted[1] : "")}'; the names stand in /openapi/v1.json."
            : m.Contains("uplicate property", StringComparison.Ordinal) ? "a name is given twice."
            : "this value is not of the kind that /openapi/v1.json gives.";
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
