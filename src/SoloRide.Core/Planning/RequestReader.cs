using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Serialization.Metadata;

namespace SoloRide.Planning;

/// <summary>Reads the parts of a request's document and says, when one is refused, which: JSON path, line and what is allowed.</summary>
internal sealed class RequestReader
{
    private readonly string _source;
    private readonly byte[] _utf8;
    private readonly string _root;

    public RequestReader(string source, string json)
        : this(source, Encoding.UTF8.GetBytes(json), "$")
    {
    }

    private RequestReader(string source, byte[] utf8, string root)
    {
        _source = source;
        _utf8 = utf8;
        _root = root;
    }

    /// <summary>A reader of a part of the same text: its paths begin at that member.</summary>
    public RequestReader Under(string member) => new(_source, _utf8, $"{_root}.{member}");

    public T Parse<T>(JsonTypeInfo<T> type, RequestSchema published, string version)
    {
        try
        {
            using JsonDocument document = JsonDocument.Parse(_utf8);
            if (document.RootElement.ValueKind == JsonValueKind.Object
                && document.RootElement.TryGetProperty("schema", out JsonElement schema)
                && schema.ValueKind == JsonValueKind.String && schema.GetString() != version)
            {
                throw Error("$.schema", $"'{schema.GetString()}' is not known; '{version}' is read.");
            }

            if (published.Differs(document.RootElement) is { } bad)
            {
                throw Error(bad.Path, bad.Reason);
            }

            return document.Deserialize(type)!;
        }
        catch (JsonException e)
        {
            int line = (int)(e.LineNumber ?? 0) + 1, position = (int)(e.BytePositionInLine ?? 0) + 1;
            throw new InputFormatException(_source, line, position, e.Path is { Length: > 1 } path ? $"{path}: this value does not fit the schema." : "this is no JSON.", e);
        }
    }

    /// <summary>Makes a part; what it refuses is told with the path of the member at fault.</summary>
    public T At<T>(string path, Func<T> make)
    {
        try
        {
            return make();
        }
        catch (ArgumentException e)
        {
            string message = e.Message;
            int end = message.IndexOf(" (Parameter '", StringComparison.Ordinal);
            throw Error(Member(path, e.ParamName), end > 0 ? message[..end] : message, e);
        }
    }

    public T[] Each<TDocument, T>(string path, IReadOnlyList<TDocument>? documents, Func<string, TDocument, T> make)
    {
        var items = new T[documents?.Count ?? 0];
        for (int i = 0; i < items.Length; i++)
        {
            string at = string.Create(CultureInfo.InvariantCulture, $"{path}[{i}]");
            items[i] = At(at, () => make(at, documents![i]));
        }

        return items;
    }

    public InputFormatException Error(string path, string reason, Exception? inner = null)
    {
        string whole = Whole(path);
        (int line, int position) = Place(whole);
        return new InputFormatException(_source, line, position, $"{whole}: {reason}", inner);
    }

    private string Whole(string path) => _root + path[1..];

    /// <summary>The member whose name is that of the parameter, with or without its unit.</summary>
    private string Member(string path, string? parameter)
    {
        if (string.IsNullOrEmpty(parameter))
        {
            return path;
        }

        string name = JsonNamingPolicy.SnakeCaseLower.ConvertName(parameter);
        string? best = null;
        string whole = Whole(path);
        foreach ((string at, _) in Places())
        {
            if (at.Length > whole.Length + 1 && at.StartsWith(whole, StringComparison.Ordinal) && at[whole.Length] == '.')
            {
                string member = at[(whole.Length + 1)..];
                if (member.IndexOfAny(['.', '[']) < 0 && (member == name || (member.StartsWith(name, StringComparison.Ordinal) && member[name.Length] == '_')) && (best is null || member.Length < best.Length))
                {
                    best = member;
                }
            }
        }

        return best is null ? path : $"{path}.{best}";
    }

    private (int Line, int Position) Place(string path)
    {
        long offset = 0;
        foreach ((string at, long start) in Places())
        {
            if (at == path)
            {
                offset = start;
                break;
            }
        }

        int line = 1, last = -1;
        for (int i = 0; i < offset; i++)
        {
            if (_utf8[i] == '\n')
            {
                line++;
                last = i;
            }
        }

        return (line, (int)offset - last);
    }

    /// <summary>Paths of all values with the byte each begins at.</summary>
    private List<(string Path, long Start)> Places()
    {
        var places = new List<(string, long)>();
        var reader = new Utf8JsonReader(_utf8);
        var open = new Stack<(string Path, bool IsList, int Next)>();
        string? name = null;
        while (reader.Read())
        {
            if (reader.TokenType == JsonTokenType.PropertyName)
            {
                name = reader.GetString();
                continue;
            }

            if (reader.TokenType is JsonTokenType.EndObject or JsonTokenType.EndArray)
            {
                open.Pop();
                continue;
            }

            string path = "$";
            if (open.Count > 0)
            {
                (string parent, bool isList, int next) = open.Pop();
                path = isList ? string.Create(CultureInfo.InvariantCulture, $"{parent}[{next}]") : $"{parent}.{name}";
                open.Push((parent, isList, next + 1));
            }

            places.Add((path, reader.TokenStartIndex));
            if (reader.TokenType is JsonTokenType.StartObject or JsonTokenType.StartArray)
            {
                open.Push((path, reader.TokenType == JsonTokenType.StartArray, 0));
            }
        }

        return places;
    }
}
