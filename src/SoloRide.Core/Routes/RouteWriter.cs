using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Xml;
using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Writes lines and waypoints as GPX 1.1 and GeoJSON. Numbers are the shortest text that reads back the same; no clock is read.</summary>
internal static class RouteWriter
{
    public const string AccessCaution = "A recorded line proves neither access nor that the trail is open or rideable.";
    public const string GpxNamespace = "http://www.topografix.com/GPX/1/1";

    /// <summary>Namespace of our own elements: trail sections in the words of the open tags.</summary>
    public const string TrailNamespace = "urn:soloride:trail:1";

    private static readonly JsonWriterOptions Json = new() { Indented = false, Encoder = JavaScriptEncoder.Create(System.Text.Unicode.UnicodeRanges.All) };

    public static void Gpx(Stream stream, Content content)
    {
        using var xml = XmlWriter.Create(stream, new XmlWriterSettings { Encoding = new UTF8Encoding(false), Indent = true, IndentChars = " ", NewLineChars = "\n", CloseOutput = false });
        xml.WriteStartElement("gpx", GpxNamespace);
        xml.WriteAttributeString("version", "1.1");
        xml.WriteAttributeString("creator", "SoloRide.Core");
        if (content.Groups.Any(g => g.Sections.Count > 0))
        {
            xml.WriteAttributeString("xmlns", "t", null, TrailNamespace);
        }

        xml.WriteStartElement("metadata", GpxNamespace);
        Element(xml, "name", content.Name);
        Element(xml, "desc", content.Description.Length == 0 || content.Description.Contains(AccessCaution, StringComparison.Ordinal)
            ? content.Description.Length == 0 ? AccessCaution : content.Description
            : content.Description + " " + AccessCaution);
        xml.WriteEndElement();
        foreach (RouteWaypoint w in content.Waypoints)
        {
            xml.WriteStartElement("wpt", GpxNamespace);
            Place(xml, w.Place.LatDeg, w.Place.LonDeg, w.Place.ElevationM, w.Time is { } t ? t.UtcTicks : RouteColumns.NoTime);
            Element(xml, "name", w.Name);
            Element(xml, "cmt", w.Comment);
            Element(xml, "desc", w.Description);
            Element(xml, "type", w.Type);
            xml.WriteEndElement();
        }

        // The schema wants routes before tracks.
        foreach (Group g in content.Groups.Where(g => g.Kind == RouteLineKind.Planned))
        {
            xml.WriteStartElement("rte", GpxNamespace);
            Head(xml, g);
            foreach (Line l in g.Lines)
            {
                Points(xml, "rtept", l);
            }

            xml.WriteEndElement();
        }

        foreach (Group g in content.Groups.Where(g => g.Kind == RouteLineKind.Track))
        {
            xml.WriteStartElement("trk", GpxNamespace);
            Head(xml, g);
            foreach (Line l in g.Lines)
            {
                xml.WriteStartElement("trkseg", GpxNamespace);
                Points(xml, "trkpt", l);
                xml.WriteEndElement();
            }

            xml.WriteEndElement();
        }

        xml.WriteEndElement();
        xml.WriteEndDocument();
    }

    public static void GeoJson(Stream stream, Content content)
    {
        using var json = new Utf8JsonWriter(stream, Json);
        json.WriteStartObject();
        json.WriteString("type", "FeatureCollection");
        json.WriteString("name", content.Name);
        json.WriteString("description", content.Description);
        json.WriteString("caution", AccessCaution);
        json.WriteStartArray("features");
        foreach (Group g in content.Groups)
        {
            json.WriteStartObject();
            json.WriteString("type", "Feature");
            json.WriteStartObject("properties");
            json.WriteString("name", g.Name);
            Text(json, "desc", g.Description);
            json.WriteString("type", g.Kind == RouteLineKind.Planned ? "planned" : "track");
            if (g.Lines.Any(l => l.HasTimes))
            {
                json.WriteStartArray("coordTimes");
                foreach (Line l in g.Lines)
                {
                    for (int i = 0; i < l.Count; i++)
                    {
                        if (l.Ticks(i) == RouteColumns.NoTime)
                        {
                            json.WriteNullValue();
                        }
                        else
                        {
                            json.WriteStringValue(Instant(l.Ticks(i)));
                        }
                    }
                }

                json.WriteEndArray();
            }

            if (g.Sections.Count > 0)
            {
                json.WriteStartArray("sections");
                foreach (RouteSection s in g.Sections)
                {
                    json.WriteStartObject();
                    Number(json, "from_m", s.FromM);
                    Number(json, "to_m", s.ToM);
                    foreach ((string key, string value) in TrailTags.Write(s, forXml: false))
                    {
                        json.WriteString(key, value);
                    }

                    json.WriteEndObject();
                }

                json.WriteEndArray();
            }

            json.WriteEndObject();
            json.WriteStartObject("geometry");
            bool several = g.Lines.Count != 1;
            json.WriteString("type", several ? "MultiLineString" : "LineString");
            json.WriteStartArray("coordinates");
            foreach (Line l in g.Lines)
            {
                if (several)
                {
                    json.WriteStartArray();
                }

                for (int i = 0; i < l.Count; i++)
                {
                    Position(json, l.Columns.LatDeg[l.Start + i], l.Columns.LonDeg[l.Start + i], l.Elevation(i));
                }

                if (several)
                {
                    json.WriteEndArray();
                }
            }

            json.WriteEndArray();
            json.WriteEndObject();
            json.WriteEndObject();
        }

        foreach (RouteWaypoint w in content.Waypoints)
        {
            json.WriteStartObject();
            json.WriteString("type", "Feature");
            json.WriteStartObject("properties");
            json.WriteString("name", w.Name);
            Text(json, "desc", w.Description);
            Text(json, "cmt", w.Comment);
            Text(json, "type", w.Type);
            if (w.Time is { } t)
            {
                json.WriteString("time", Instant(t.UtcTicks));
            }

            json.WriteEndObject();
            json.WriteStartObject("geometry");
            json.WriteString("type", "Point");
            json.WritePropertyName("coordinates");
            Position(json, w.Place.LatDeg, w.Place.LonDeg, w.Place.ElevationM);
            json.WriteEndObject();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>Writes a file whole or not at all.</summary>
    public static void Save(string path, Content content)
    {
        Guard.NotEmpty(path);
        bool gpx = path.EndsWith(".gpx", StringComparison.OrdinalIgnoreCase);
        if (!gpx && !path.EndsWith(".geojson", StringComparison.OrdinalIgnoreCase) && !path.EndsWith(".json", StringComparison.OrdinalIgnoreCase))
        {
            throw new ArgumentException($"The file name must end in .gpx, .geojson or .json; it is '{Path.GetFileName(path)}'.", nameof(path));
        }

        string part = path + ".part";
        try
        {
            using (var stream = new FileStream(part, FileMode.Create, FileAccess.Write, FileShare.None))
            {
                if (gpx)
                {
                    Gpx(stream, content);
                }
                else
                {
                    GeoJson(stream, content);
                }
            }

            File.Move(part, path, overwrite: true);
        }
        finally
        {
            File.Delete(part);
        }
    }

    public static string Text(Action<Stream> write)
    {
        using var memory = new MemoryStream();
        write(memory);
        return Encoding.UTF8.GetString(memory.GetBuffer(), 0, (int)memory.Length);
    }

    public static string Instant(long utcTicks)
        => new DateTime(utcTicks).ToString("yyyy-MM-ddTHH:mm:ss.FFFFFFF", CultureInfo.InvariantCulture) + "Z";

    private static void Head(XmlWriter xml, Group g)
    {
        Element(xml, "name", g.Name);
        Element(xml, "desc", g.Description);
        if (g.Sections.Count == 0)
        {
            return;
        }

        xml.WriteStartElement("extensions", GpxNamespace);
        foreach (RouteSection s in g.Sections)
        {
            xml.WriteStartElement("section", TrailNamespace);
            xml.WriteAttributeString("from_m", NumberText.Decimal(s.FromM));
            xml.WriteAttributeString("to_m", NumberText.Decimal(s.ToM));
            foreach ((string key, string value) in TrailTags.Write(s, forXml: true))
            {
                xml.WriteAttributeString(key, Clean(value));
            }

            xml.WriteEndElement();
        }

        xml.WriteEndElement();
    }

    private static void Points(XmlWriter xml, string name, Line l)
    {
        for (int i = 0; i < l.Count; i++)
        {
            xml.WriteStartElement(name, GpxNamespace);
            Place(xml, l.Columns.LatDeg[l.Start + i], l.Columns.LonDeg[l.Start + i], l.Elevation(i), l.Ticks(i));
            xml.WriteEndElement();
        }
    }

    private static void Place(XmlWriter xml, double latDeg, double lonDeg, double elevationM, long ticks)
    {
        xml.WriteAttributeString("lat", NumberText.Decimal(latDeg));

        // The schema's longitudes end below 180.
        xml.WriteAttributeString("lon", NumberText.Decimal(lonDeg == 180 ? -180 : lonDeg));
        if (!double.IsNaN(elevationM))
        {
            Element(xml, "ele", NumberText.Decimal(elevationM));
        }

        if (ticks != RouteColumns.NoTime)
        {
            Element(xml, "time", Instant(ticks));
        }
    }

    private static void Element(XmlWriter xml, string name, string value)
    {
        if (value.Length > 0)
        {
            xml.WriteElementString(name, GpxNamespace, Clean(value));
        }
    }

    /// <summary>Characters that XML cannot carry become U+FFFD.</summary>
    private static string Clean(string value)
    {
        StringBuilder? clean = null;
        for (int i = 0; i < value.Length; i++)
        {
            bool pair = i + 1 < value.Length && char.IsSurrogatePair(value[i], value[i + 1]);
            if (pair)
            {
                clean?.Append(value, i, 2);
                i++;
            }
            else if (XmlConvert.IsXmlChar(value[i]))
            {
                clean?.Append(value[i]);
            }
            else
            {
                clean ??= new StringBuilder(value, 0, i, value.Length);
                clean.Append('\uFFFD');
            }
        }

        return clean?.ToString() ?? value;
    }

    private static void Text(Utf8JsonWriter json, string name, string value)
    {
        if (value.Length > 0)
        {
            json.WriteString(name, value);
        }
    }

    private static void Number(Utf8JsonWriter json, string name, double value)
    {
        json.WritePropertyName(name);
        json.WriteRawValue(NumberText.Decimal(value));
    }

    private static void Position(Utf8JsonWriter json, double latDeg, double lonDeg, double elevationM)
    {
        json.WriteStartArray();
        json.WriteRawValue(NumberText.Decimal(lonDeg));
        json.WriteRawValue(NumberText.Decimal(latDeg));
        if (!double.IsNaN(elevationM))
        {
            json.WriteRawValue(NumberText.Decimal(elevationM));
        }

        json.WriteEndArray();
    }

    /// <summary>What is written.</summary>
    internal sealed record Content(string Name, string Description, IReadOnlyList<Group> Groups, IReadOnlyList<RouteWaypoint> Waypoints);

    /// <summary>One track or planned route.</summary>
    internal sealed record Group(RouteLineKind Kind, string Name, string Description, IReadOnlyList<Line> Lines, IReadOnlyList<RouteSection> Sections);

    /// <summary>Points of one unbroken line.</summary>
    internal sealed record Line(RouteColumns Columns, int Start, int Count)
    {
        public bool HasTimes => Columns.UtcTicks is { } t && t.AsSpan(Start, Count).ContainsAnyExcept(RouteColumns.NoTime);

        public double Elevation(int i) => Columns.ElevationM is { } e ? e[Start + i] : double.NaN;

        public long Ticks(int i) => Columns.UtcTicks is { } t ? t[Start + i] : RouteColumns.NoTime;
    }
}
