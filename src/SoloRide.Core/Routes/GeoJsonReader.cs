using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;

namespace SoloRide.Routes;

/// <summary>Reads GeoJSON (RFC 7946) by <see cref="Utf8JsonReader"/>: every position is kept with its height.</summary>
internal ref struct GeoJsonReader
{
    private readonly RouteFileBuilder _into;
    private readonly ReadOnlySpan<byte> _bytes;
    private Utf8JsonReader _json;
    private int _group;
    private long _lineFrom;
    private int _line = 1;

    // Of the feature at hand.
    private string _type = "";
    private string _comment = "";
    private long _time = RouteColumns.NoTime;
    private List<long>? _times;
    private int _timeAt;
    private List<(double FromM, double ToM, TrailTags Tags)>? _sections;

    private GeoJsonReader(ReadOnlySpan<byte> bytes, RouteFileBuilder into)
    {
        _bytes = bytes;
        _into = into;
        _json = new Utf8JsonReader(bytes, new JsonReaderOptions { MaxDepth = into.Options.MaxDepth, AllowTrailingCommas = false, CommentHandling = JsonCommentHandling.Disallow });
    }

    public static RouteFile Read(Stream stream, Encoding encoding, RouteFileBuilder into)
    {
        byte[] bytes = All(stream);
        ReadOnlySpan<byte> span = bytes;
        if (encoding is not UTF8Encoding)
        {
            span = Encoding.UTF8.GetBytes(encoding.GetString(bytes).TrimStart('\uFEFF'));
        }
        else if (span is [0xEF, 0xBB, 0xBF, ..])
        {
            span = span[3..];
        }

        var reader = new GeoJsonReader(span, into);
        try
        {
            reader._json.Read();
            if (reader._json.TokenType != JsonTokenType.StartObject)
            {
                throw new InputFormatException(into.Source, 1, 1, "a GeoJSON text is one object.");
            }

            reader.Object(default, "", "", isFeature: false, isRoot: true);
            while (reader._json.Read())
            {
                // What follows the object must be white space.
            }
        }
        catch (JsonException e)
        {
            throw new InputFormatException(into.Source, (int)Math.Min(int.MaxValue - 1, e.LineNumber ?? 0) + 1, (int)Math.Min(int.MaxValue - 1, e.BytePositionInLine ?? 0) + 1,
                "not valid JSON: " + Reason(e.Message), e);
        }
        catch (InvalidOperationException e)
        {
            // A string that is no valid UTF-8 or UTF-16.
            throw new InputFormatException(into.Source, reader.Line(), 0, "not valid JSON text.", e);
        }

        return into.Build(RouteFileFormat.GeoJson);
    }

    private static string Reason(string message)
    {
        int at = message.IndexOf(" LineNumber:", StringComparison.Ordinal);
        string s = (at > 0 ? message[..at] : message).ReplaceLineEndings(" ");
        return s.Length > 200 ? s[..200] : s;
    }

    private static byte[] All(Stream stream)
    {
        using var memory = new MemoryStream();
        stream.CopyTo(memory);
        return memory.ToArray();
    }

    // Counted on demand: lines are needed for findings only.
    private int Line()
    {
        long to = Math.Min(_json.TokenStartIndex, _bytes.Length);
        if (to > _lineFrom)
        {
            _line += _bytes[(int)_lineFrom..(int)to].Count((byte)'\n');
            _lineFrom = to;
        }

        return _line;
    }

    /// <summary>The object at whose start the reader stands: a geometry, a feature or a collection.</summary>
    private void Object(TrailTags tags, string name, string description, bool isFeature, bool isRoot = false)
    {
        string type = "";
        Utf8JsonReader coordinates = default, geometry = default, geometries = default, features = default;
        bool hasCoordinates = false, hasGeometry = false, hasGeometries = false, hasFeatures = false;
        while (_json.Read() && _json.TokenType == JsonTokenType.PropertyName)
        {
            if (_json.ValueTextEquals("type"u8))
            {
                _json.Read();
                type = _json.TokenType == JsonTokenType.String ? _json.GetString() ?? "" : "";
                _json.Skip();
            }
            else if (_json.ValueTextEquals("properties"u8))
            {
                _json.Read();
                if (_json.TokenType == JsonTokenType.StartObject)
                {
                    Properties(ref tags, ref name, ref description);
                }
                else
                {
                    _json.Skip();
                }
            }
            else if (isRoot && (_json.ValueTextEquals("name"u8) || _json.ValueTextEquals("description"u8)))
            {
                bool isName = _json.ValueTextEquals("name"u8);
                _json.Read();
                string text = _json.TokenType == JsonTokenType.String ? _json.GetString() ?? "" : "";
                _json.Skip();
                (_into.Name, _into.Description) = isName ? (text, _into.Description) : (_into.Name, text);
            }
            else if (_json.ValueTextEquals("coordinates"u8))
            {
                Keep(ref coordinates, ref hasCoordinates);
            }
            else if (_json.ValueTextEquals("geometry"u8))
            {
                Keep(ref geometry, ref hasGeometry);
            }
            else if (_json.ValueTextEquals("geometries"u8))
            {
                Keep(ref geometries, ref hasGeometries);
            }
            else if (_json.ValueTextEquals("features"u8))
            {
                Keep(ref features, ref hasFeatures);
            }
            else
            {
                _json.Read();
                _json.Skip();
            }
        }

        // The members are walked once the object is known as a whole: their order is free.
        Utf8JsonReader end = _json;
        switch (type)
        {
            case "FeatureCollection" when hasFeatures:
                _json = features;
                Each(default, "", "", isFeature: true);
                break;
            case "Feature" when hasGeometry:
                _json = geometry;
                if (_json.TokenType == JsonTokenType.StartObject)
                {
                    Object(tags, name, description, isFeature: true);
                    _group++;
                }

                (_type, _comment, _time, _times, _timeAt, _sections) = ("", "", RouteColumns.NoTime, null, 0, null);
                break;
            case "GeometryCollection" when hasGeometries:
                _json = geometries;
                Each(tags, name, description, isFeature);
                break;
            case "LineString" when hasCoordinates:
                _json = coordinates;
                Positions(tags, name, description);
                _group += isFeature ? 0 : 1;
                break;
            case "MultiLineString" when hasCoordinates:
                _json = coordinates;
                if (_json.TokenType == JsonTokenType.StartArray)
                {
                    while (_json.Read() && _json.TokenType != JsonTokenType.EndArray)
                    {
                        Positions(tags, name, description);
                    }
                }

                _group += isFeature ? 0 : 1;
                break;
            case "Point" or "MultiPoint" when hasCoordinates:
                _json = coordinates;
                Places(type == "MultiPoint", name, description);
                break;
            case "FeatureCollection" or "Feature" or "GeometryCollection" or "LineString" or "MultiLineString" or "Point" or "MultiPoint" or "Polygon" or "MultiPolygon":
                break;
            default:
                _into.Lenient(RoutesFindingCodes.Damaged, Line(), 0, "A JSON object is of no type that GeoJSON knows; left out.");
                break;
        }

        _json = end;
    }

    private void Keep(ref Utf8JsonReader at, ref bool has)
    {
        _json.Read();
        at = _json;
        has = true;
        _json.Skip();
    }

    private void Each(TrailTags tags, string name, string description, bool isFeature)
    {
        if (_json.TokenType != JsonTokenType.StartArray)
        {
            return;
        }

        while (_json.Read() && _json.TokenType != JsonTokenType.EndArray)
        {
            if (_json.TokenType == JsonTokenType.StartObject)
            {
                Object(tags, name, description, isFeature);
            }
            else
            {
                _json.Skip();
            }
        }
    }

    private void Properties(ref TrailTags tags, ref string name, ref string description)
    {
        while (_json.Read() && _json.TokenType == JsonTokenType.PropertyName)
        {
            string key = _json.GetString() ?? "";
            _json.Read();
            string? value = _json.TokenType switch
            {
                JsonTokenType.String => _json.GetString(),
                JsonTokenType.Number => Encoding.UTF8.GetString(_json.HasValueSequence ? _json.ValueSequence.ToArray() : _json.ValueSpan),
                JsonTokenType.True when TrailTags.IsLineKey(key) => "yes",
                JsonTokenType.False when TrailTags.IsLineKey(key) => "no",
                _ => null,
            };
            switch (key)
            {
                case "name":
                    name = value ?? "";
                    break;
                case "desc" or "description":
                    description = value ?? "";
                    break;
                case "type" or "waypoint_type":
                    _type = value ?? "";
                    break;
                case "cmt" or "comment":
                    _comment = value ?? "";
                    break;
                case "time":
                    _time = value is not null && NumberText.TryInstant(value, out long t, out _, out _) ? t : RouteColumns.NoTime;
                    break;
                case "coordTimes" or "times" when _json.TokenType == JsonTokenType.StartArray:
                    Times();
                    break;
                case "sections" when _json.TokenType == JsonTokenType.StartArray:
                    Sections();
                    break;
                default:
                    if (value is not null && TrailTags.IsKey(key) && !tags.TryTake(key, value))
                    {
                        _into.Lenient(RoutesFindingCodes.BadSection, Line(), 0, $"The value of the trail tag {key} is not one of its values; left out.");
                    }

                    break;
            }

            _json.Skip();
        }
    }

    /// <summary>Times of the positions, one list or one list a line.</summary>
    private void Times()
    {
        int depth = _json.CurrentDepth;
        _times = [];
        while (_json.Read() && !(_json.TokenType == JsonTokenType.EndArray && _json.CurrentDepth == depth))
        {
            if (_json.TokenType == JsonTokenType.String)
            {
                _times.Add(NumberText.TryInstant(_json.GetString(), out long ticks, out _, out _) ? ticks : RouteColumns.NoTime);
            }
            else if (_json.TokenType is not (JsonTokenType.StartArray or JsonTokenType.EndArray))
            {
                _times.Add(RouteColumns.NoTime);
                _json.Skip();
            }
        }
    }

    /// <summary>Trail sections by distance: objects with from_m, to_m and trail tags.</summary>
    private void Sections()
    {
        _sections = [];
        while (_json.Read() && _json.TokenType != JsonTokenType.EndArray)
        {
            if (_json.TokenType != JsonTokenType.StartObject)
            {
                _json.Skip();
                continue;
            }

            double from = double.NaN, to = double.NaN;
            TrailTags tags = default;
            while (_json.Read() && _json.TokenType == JsonTokenType.PropertyName)
            {
                string key = _json.GetString() ?? "";
                _json.Read();
                if (_json.TokenType == JsonTokenType.Number && key is "from_m" or "to_m")
                {
                    double v = _json.TokenType == JsonTokenType.Number && _json.TryGetDouble(out double d) ? d : double.NaN;
                    from = key == "from_m" ? v : from;
                    to = key == "to_m" ? v : to;
                }
                else if (_json.TokenType == JsonTokenType.String && !tags.TryTake(key, _json.GetString() ?? ""))
                {
                    _into.Lenient(RoutesFindingCodes.BadSection, Line(), 0, $"The value of the trail tag {key} is not one of its values; left out.");
                }

                _json.Skip();
            }

            if (from >= 0 && to > from && double.IsFinite(to))
            {
                _sections.Add((from, to, tags));
            }
            else
            {
                _into.Lenient(RoutesFindingCodes.BadSection, Line(), 0, "A trail section needs from_m and to_m, 0 <= from_m < to_m; left out.");
            }
        }
    }

    private void Positions(TrailTags tags, string name, string description)
    {
        _into.BeginLine(_type == "planned" ? RouteLineKind.Planned : RouteLineKind.Track, _group, name, description, tags);
        if (_json.TokenType != JsonTokenType.StartArray)
        {
            _json.Skip();
            return;
        }

        while (_json.Read() && _json.TokenType != JsonTokenType.EndArray)
        {
            long time = _times is { } t && _timeAt < t.Count ? t[_timeAt] : RouteColumns.NoTime;
            _timeAt++;
            if (Position(out GeoPoint p, out string problem))
            {
                _into.Point(p.LatDeg, p.LonDeg, p.ElevationM, time);
            }
            else
            {
                _into.BadPoint(Line(), 0, problem);
            }
        }

        if (_sections is { } sections)
        {
            _into.Sections(_group, sections);
            _sections = null;
        }
    }

    private void Places(bool several, string name, string description)
    {
        if (_json.TokenType != JsonTokenType.StartArray)
        {
            return;
        }

        if (!several)
        {
            Place(name, description);
            return;
        }

        while (_json.Read() && _json.TokenType != JsonTokenType.EndArray)
        {
            Place(name, description);
        }
    }

    private void Place(string name, string description)
    {
        if (Position(out GeoPoint p, out string problem))
        {
            _into.Waypoint(new RouteWaypoint(p, name, _type, description, _time == RouteColumns.NoTime ? null : new DateTimeOffset(_time, TimeSpan.Zero)) { Comment = _comment });
        }
        else
        {
            _into.Lenient(RoutesFindingCodes.BadPoint, Line(), 0, "Place left out: " + problem);
        }
    }

    /// <summary>One position, the reader standing on its first token; leaves the reader on its last.</summary>
    private bool Position(out GeoPoint place, out string problem)
    {
        place = default;
        problem = "a position is a list of numbers.";
        if (_json.TokenType != JsonTokenType.StartArray)
        {
            _json.Skip();
            return false;
        }

        double lon = double.NaN, lat = double.NaN, ele = double.NaN;
        int n = 0;
        while (_json.Read() && _json.TokenType != JsonTokenType.EndArray)
        {
            double v = double.NaN;
            if (_json.TokenType == JsonTokenType.Number)
            {
                v = _json.GetDouble();
            }
            else
            {
                _json.Skip();
            }

            switch (n++)
            {
                case 0: lon = v; break;
                case 1: lat = v; break;
                case 2: ele = v; break;
            }
        }

        if (!(Math.Abs(lat) <= 90 && Math.Abs(lon) <= 180))
        {
            problem = n < 2 ? "longitude and latitude are expected."
                : double.IsNaN(lat) || double.IsNaN(lon) ? "longitude or latitude is not a number."
                : string.Create(CultureInfo.InvariantCulture, $"lat {lat}, lon {lon}; allowed are -90 to 90 and -180 to 180 deg.");
            return false;
        }

        if (n > 2 && !double.IsFinite(ele))
        {
            _into.Lenient(RoutesFindingCodes.BadHeight, Line(), 0, "Height left out: not a finite number.");
            ele = double.NaN;
        }

        place = new GeoPoint(lat, lon, ele);
        return true;
    }
}
