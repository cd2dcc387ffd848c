using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml;

namespace SoloRide.Routes;

/// <summary>
/// Reads GPX 1.0/1.1 and KML by <see cref="XmlReader"/>: forward only, no document type, no outside access. Names are compared
/// without their namespaces. What comes before a damage in the file is kept, unless reading strictly.
/// </summary>
internal sealed partial class RouteXmlReader
{
    private const int NumberLength = 128;
    private readonly XmlReader _xml;
    private readonly IXmlLineInfo _where;
    private readonly TextTap _tap;
    private readonly RouteFileBuilder _into;
    private readonly char[] _number = new char[NumberLength];
    private readonly int _maxDepth, _maxAttribute;
    private readonly string _lat, _lon, _ele, _time;
    private char[] _text = new char[1024];
    private int _textLength;
    private int _misses, _wait;

    private RouteXmlReader(TextTap text, RouteFileBuilder into)
    {
        _into = into;
        _maxDepth = into.Options.MaxDepth;
        _maxAttribute = into.Options.MaxAttributeLength;
        var names = new NameTable();
        _lat = names.Add("lat");
        _lon = names.Add("lon");
        _ele = names.Add("ele");
        _time = names.Add("time");
        _tap = text;
        _xml = XmlReader.Create(text, new XmlReaderSettings
        {
            DtdProcessing = DtdProcessing.Prohibit,
            XmlResolver = null,
            IgnoreComments = true,
            IgnoreProcessingInstructions = true,
            IgnoreWhitespace = true,
            CloseInput = false,
            NameTable = names,
        });
        _where = (IXmlLineInfo)_xml;
    }

    public static RouteFile Read(TextReader text, RouteFileBuilder into, RouteInput.CountingFallback? counter)
    {
        using var tap = new TextTap(text);
        var reader = new RouteXmlReader(tap, into);
        RouteFileFormat? format = null;
        try
        {
            format = reader.Root();
            if (format == RouteFileFormat.Gpx)
            {
                reader.Gpx();
            }
            else
            {
                reader.Kml();
            }

            while (reader.Next())
            {
                // What follows the root must be well-formed too.
            }
        }
        catch (Exception e) when (e is XmlException or InvalidDataException)
        {
            (int line, int position) = e is XmlException x ? reader._tap.PlaceOf(x.LineNumber, x.LinePosition) : reader.Place;
            string reason = e is XmlException ? XmlReason(e.Message) : "the gzip data are damaged";
            if (format is null || into.Options.Strict || (into.PointCount == 0 && !into.HasAnything))
            {
                throw new InputFormatException(into.Source, line, position, "not well-formed: " + reason, e);
            }

            into.Lenient(RoutesFindingCodes.Damaged, line, position,
                "The file is damaged from here on (" + reason + "); only what comes before was read.", FindingSeverity.Warning);
        }

        if (counter is { Count: > 0 })
        {
            into.Lenient(RoutesFindingCodes.BadCharacters, 0, 0,
                string.Create(CultureInfo.InvariantCulture, $"{counter.Count} bytes do not belong to the file's encoding; shown as U+FFFD."));
        }

        return into.Build(format.Value);
    }

    // The runtime's messages end with the place, which the exception carries anyway, and can quote much of the file. The place of an open tag, as the XML
    // reader counts it, does not know of points read past it; how much it quotes of a wrong token depends on how the text comes in.
    private static string XmlReason(string message)
    {
        int at = message.IndexOf(" Line ", StringComparison.Ordinal);
        string s = UnexpectedToken().Replace(OpenTag().Replace((at > 0 ? message[..at] : message).ReplaceLineEndings(" "), " start tag"), "Something is an unexpected token.");
        return s.Length > 200 ? s[..200] : s;
    }

    /// <summary>Where the current node stands in the file.</summary>
    private (int Line, int Position) Place => _tap.PlaceOf(_where.LineNumber, _where.LinePosition);

    [GeneratedRegex(" start tag on line [0-9]+ position [0-9]+")]
    private static partial Regex OpenTag();

    [GeneratedRegex("^'.*' is an unexpected token\\.")]
    private static partial Regex UnexpectedToken();

    private bool Next()
    {
        if (!_xml.Read())
        {
            return false;
        }

        if (_xml.NodeType == XmlNodeType.Element && _xml.Depth > _maxDepth)
        {
            throw TooDeep();
        }

        return true;
    }

    private InputFormatException TooDeep() => Refuse(string.Create(CultureInfo.InvariantCulture, $"nested deeper than {_maxDepth} levels; the limit is RouteReadOptions.MaxDepth."));

    private InputFormatException Refuse(string reason) => new(_into.Source, Place.Line, Place.Position, reason);

    private RouteFileFormat Root()
    {
        while (Next())
        {
            if (_xml.NodeType == XmlNodeType.Element)
            {
                string root = _xml.LocalName;
                if (root is not ("gpx" or "kml"))
                {
                    throw Refuse($"the root element is '{(root.Length > 40 ? root[..40] : root)}'; expected gpx or kml.");
                }

                if (_xml.NamespaceURI.Length == 0)
                {
                    _into.Lenient(RoutesFindingCodes.Namespace, Place.Line, Place.Position, $"The root element {root} names no namespace; read as {root.ToUpperInvariant()}.", FindingSeverity.Note);
                }
                else if (root == "gpx" && _xml.NamespaceURI is not ("http://www.topografix.com/GPX/1/1" or "http://www.topografix.com/GPX/1/0"))
                {
                    _into.Lenient(RoutesFindingCodes.Namespace, Place.Line, Place.Position, "The root element gpx is in an unknown namespace; read as GPX.", FindingSeverity.Note);
                }

                CheckAttributes();
                return root == "gpx" ? RouteFileFormat.Gpx : RouteFileFormat.Kml;
            }
        }

        throw Refuse("no root element; expected gpx or kml.");
    }

    /// <summary>Moves to the next child element of the element at <paramref name="depth"/>; false at its end.</summary>
    private bool Child(int depth)
    {
        while (_xml.Read())
        {
            XmlNodeType node = _xml.NodeType;
            if (node == XmlNodeType.Element)
            {
                if (_xml.Depth > _maxDepth)
                {
                    throw TooDeep();
                }

                return true;
            }

            if (node == XmlNodeType.EndElement && _xml.Depth == depth)
            {
                return false;
            }
        }

        return false;
    }

    /// <summary>Passes over the current element with all it holds, under the same bounds.</summary>
    private void Skip()
    {
        int depth = _xml.Depth;
        CheckAttributes();
        if (_xml.IsEmptyElement)
        {
            return;
        }

        while (Next())
        {
            if (_xml.NodeType == XmlNodeType.Element)
            {
                CheckAttributes();
            }
            else if (_xml.NodeType == XmlNodeType.EndElement && _xml.Depth == depth)
            {
                return;
            }
        }
    }

    private void CheckAttributes()
    {
        if (!_xml.HasAttributes)
        {
            return;
        }

        bool more = _xml.MoveToFirstAttribute();
        while (more)
        {
            CheckLength(0);
            more = _xml.MoveToNextAttribute();
        }

        _xml.MoveToElement();
    }

    private void CheckLength(int already)
    {
        long length = already;
        int n;
        while ((n = _xml.ReadValueChunk(_number, 0, NumberLength)) > 0)
        {
            length += n;
            if (length > _maxAttribute)
            {
                throw Refuse(string.Create(CultureInfo.InvariantCulture, $"an attribute longer than {_maxAttribute} characters; the limit is RouteReadOptions.MaxAttributeLength."));
            }
        }
    }

    private void Gpx()
    {
        int depth = _xml.Depth, group = 0;
        if (_xml.IsEmptyElement)
        {
            return;
        }

        while (Child(depth))
        {
            switch (_xml.LocalName)
            {
                case "trk":
                    Track(group++, RouteLineKind.Track);
                    break;
                case "rte":
                    Track(group++, RouteLineKind.Planned);
                    break;
                case "wpt":
                    GpxPoint(isWaypoint: true);
                    break;
                case "metadata":
                    Metadata();
                    break;
                case "name":
                    // GPX 1.0 names the file here.
                    _into.Name = TextOf();
                    break;
                case "desc":
                    _into.Description = TextOf().Replace(RouteWriter.AccessCaution, "", StringComparison.Ordinal).Trim();
                    break;
                default:
                    Skip();
                    break;
            }
        }
    }

    private void Metadata()
    {
        int depth = _xml.Depth;
        CheckAttributes();
        if (_xml.IsEmptyElement)
        {
            return;
        }

        while (Child(depth))
        {
            switch (_xml.LocalName)
            {
                case "name":
                    _into.Name = TextOf();
                    break;
                case "desc":
                    _into.Description = TextOf().Replace(RouteWriter.AccessCaution, "", StringComparison.Ordinal).Trim();
                    break;
                default:
                    Skip();
                    break;
            }
        }
    }

    private void Track(int group, RouteLineKind kind)
    {
        int depth = _xml.Depth;
        CheckAttributes();
        string name = "", description = "";
        TrailTags tags = default;
        bool begun = false;
        if (kind == RouteLineKind.Planned)
        {
            _into.BeginLine(kind, group, "", "", default);
            begun = true;
        }

        if (_xml.IsEmptyElement)
        {
            return;
        }

        while (Child(depth))
        {
            switch (_xml.LocalName)
            {
                case "trkseg" when kind == RouteLineKind.Track:
                    _into.BeginLine(kind, group, name, description, tags);
                    begun = true;
                    Line();
                    break;
                case "rtept" when kind == RouteLineKind.Planned:
                    GpxPoint(isWaypoint: false);
                    break;
                case "name":
                    name = TextOf();
                    Rename();
                    break;
                case "desc":
                    description = TextOf();
                    Rename();
                    break;
                case "extensions":
                    if (Tags(ref tags, group) && kind == RouteLineKind.Planned)
                    {
                        _into.Mark(tags);
                    }

                    break;
                default:
                    Skip();
                    break;
            }
        }

        void Rename()
        {
            if (begun)
            {
                _into.RenameGroup(group, name, description);
            }
        }
    }

    private void Line()
    {
        int depth = _xml.Depth;
        CheckAttributes();
        if (_xml.IsEmptyElement)
        {
            return;
        }

        bool mayPass = depth + 2 <= _maxDepth && _maxAttribute >= NumberLength;
        _tap.Cutting = mayPass;
        while (Child(depth))
        {
            if (_xml.LocalName == "trkpt")
            {
                GpxPoint(isWaypoint: false);
                if (mayPass)
                {
                    PlainPoints();
                }
            }
            else
            {
                Skip();
            }
        }

        _tap.Cutting = false;
    }

    /// <summary>Reads plain points straight from the text, past the XML reader, where it has taken all it was given. After misses it is tried less often.</summary>
    private void PlainPoints()
    {
        if (--_wait > 0)
        {
            return;
        }

        _tap.Cutting = true;
        if ((_xml.NodeType != XmlNodeType.EndElement && !_xml.IsEmptyElement) || !_tap.IsCutAt(_where.LineNumber, _where.LinePosition))
        {
            return;
        }

        bool any = false;
        while (true)
        {
            ReadOnlySpan<char> ahead = _tap.Ahead;
            int passed = 0;
            PlainPoint.Outcome outcome;
            while ((outcome = PlainPoint.Read(ahead[passed..], out int length, out PlainPoint.Values p)) == PlainPoint.Outcome.Point)
            {
                _into.Point(p.LatDeg, p.LonDeg, p.ElevationM, p.UtcTicks);
                passed += length;
                any = true;
            }

            _tap.Pass(passed);
            if (outcome == PlainPoint.Outcome.Other || !_tap.More())
            {
                break;
            }
        }

        _misses = any ? 0 : Math.Min(_misses + 1, 6);
        _wait = any ? 0 : 1 << _misses;
        _tap.Cutting = any;
    }

    private void GpxPoint(bool isWaypoint)
    {
        int depth = _xml.Depth;
        (int line, int position) = Place;
        bool empty = _xml.IsEmptyElement;
        double lat = double.NaN, lon = double.NaN;
        bool hasLat = false, hasLon = false;
        bool more = _xml.MoveToFirstAttribute();
        while (more)
        {
            object attribute = _xml.LocalName;
            if (ReferenceEquals(attribute, _lat))
            {
                hasLat = true;
                lat = AttributeNumber();
            }
            else if (ReferenceEquals(attribute, _lon))
            {
                hasLon = true;
                lon = AttributeNumber();
            }
            else
            {
                CheckLength(0);
            }

            more = _xml.MoveToNextAttribute();
        }

        _xml.MoveToElement();
        bool good = Math.Abs(lat) <= 90 && Math.Abs(lon) <= 180;
        double ele = double.NaN;
        long ticks = RouteColumns.NoTime;
        string name = "", type = "", description = "", comment = "";
        TrailTags tags = default;
        bool tagged = false, anyEle = false, anyTime = false;
        if (!empty)
        {
            while (Child(depth))
            {
                string local = _xml.LocalName;
                if (ReferenceEquals(local, _ele))
                {
                    ReadOnlySpan<char> text = Content();
                    if (!anyEle)
                    {
                        anyEle = true;
                        ele = Height(text, good);
                    }
                }
                else if (ReferenceEquals(local, _time))
                {
                    ReadOnlySpan<char> text = Content();
                    if (!anyTime)
                    {
                        anyTime = true;
                        ticks = Instant(text, good);
                    }
                }
                else if (isWaypoint && local is "name" or "type" or "desc" or "cmt")
                {
                    string text = TextOf();
                    switch (local)
                    {
                        case "name": name = text; break;
                        case "type": type = text; break;
                        case "desc": description = text; break;
                        default: comment = text; break;
                    }
                }
                else if (!isWaypoint && local == "extensions")
                {
                    tagged |= Tags(ref tags);
                }
                else
                {
                    Skip();
                }
            }
        }

        if (!good)
        {
            string what = !hasLat ? "lat is missing." : !hasLon ? "lon is missing."
                : double.IsNaN(lat) ? "lat is not a number." : double.IsNaN(lon) ? "lon is not a number."
                : string.Create(CultureInfo.InvariantCulture, $"lat {lat}, lon {lon}; allowed are -90 to 90 and -180 to 180 deg.");
            if (isWaypoint)
            {
                _into.Lenient(RoutesFindingCodes.BadPoint, line, position, "Waypoint left out: " + what);
            }
            else
            {
                _into.BadPoint(line, position, what);
            }

            return;
        }

        if (isWaypoint)
        {
            _into.Waypoint(new RouteWaypoint(
                new GeoPoint(lat, lon, ele), name, type, description, ticks == RouteColumns.NoTime ? null : new DateTimeOffset(ticks, TimeSpan.Zero)) { Comment = comment });
            return;
        }

        _into.Point(lat, lon, ele, ticks);
        if (tagged)
        {
            _into.Mark(tags);
        }
    }

    private double AttributeNumber()
    {
        // An attribute is whole in memory: a short piece is its end.
        int n = _xml.ReadValueChunk(_number, 0, NumberLength);

        bool ok = NumberText.TryNumber(_number.AsSpan(0, n), out double value);
        if (n == NumberLength)
        {
            // Longer than any number; what was read decides nothing.
            CheckLength(n);
            return double.NaN;
        }

        return ok ? value : double.NaN;
    }

    private double Height(ReadOnlySpan<char> text, bool report)
    {
        if (NumberText.TryNumber(text, out double ele) && double.IsFinite(ele))
        {
            return ele;
        }

        if (report && !NumberText.Trim(text).IsEmpty)
        {
            _into.Lenient(RoutesFindingCodes.BadHeight, Place.Line, Place.Position, "Height left out: not a finite number.");
        }

        return double.NaN;
    }

    private long Instant(ReadOnlySpan<char> text, bool report)
    {
        if (!NumberText.TryInstant(text, out long ticks, out bool withoutZone, out bool leapSecond))
        {
            if (report && !NumberText.Trim(text).IsEmpty)
            {
                _into.Lenient(RoutesFindingCodes.BadTime, Place.Line, Place.Position, "Time left out: not a date and time of ISO 8601.");
            }

            return RouteColumns.NoTime;
        }

        if (report && withoutZone)
        {
            _into.Lenient(RoutesFindingCodes.TimeWithoutZone, Place.Line, Place.Position, "A time names no zone; read as UTC.", FindingSeverity.Note);
        }

        if (report && leapSecond)
        {
            _into.Lenient(RoutesFindingCodes.LeapSecond, Place.Line, Place.Position, "Second 60 was read as the second after.", FindingSeverity.Note);
        }

        return ticks;
    }

    /// <summary>Text and CDATA pieces of the current element, joined; child elements are passed over. Valid until the next call.</summary>
    private ReadOnlySpan<char> Content()
    {
        _textLength = 0;
        CheckAttributes();
        if (_xml.IsEmptyElement)
        {
            return default;
        }

        // Child elements are passed over whole, so the first end is the element's own.
        while (Next())
        {
            switch (_xml.NodeType)
            {
                case XmlNodeType.Text or XmlNodeType.CDATA or XmlNodeType.SignificantWhitespace or XmlNodeType.Whitespace:
                    int n;
                    do
                    {
                        if (_textLength == _text.Length)
                        {
                            Array.Resize(ref _text, _text.Length * 2);
                        }

                        n = _xml.ReadValueChunk(_text, _textLength, _text.Length - _textLength);
                        _textLength += n;
                    }
                    while (n > 0);
                    break;
                case XmlNodeType.Element:
                    Skip();
                    break;
                case XmlNodeType.EndElement:
                    return _text.AsSpan(0, _textLength);
            }
        }

        return _text.AsSpan(0, _textLength);
    }

    private string TextOf() => new(NumberText.Trim(Content()));

    /// <summary>Reads trail tags from an extensions element: elements named by their key, or key and value as attributes k and v.</summary>
    private bool Tags(ref TrailTags tags, int group = -1)
    {
        int depth = _xml.Depth;
        bool any = false;
        List<(double FromM, double ToM, TrailTags Tags)>? sections = null;
        CheckAttributes();
        if (_xml.IsEmptyElement)
        {
            return false;
        }

        while (Next())
        {
            if (_xml.NodeType == XmlNodeType.EndElement && _xml.Depth == depth)
            {
                break;
            }

            if (_xml.NodeType != XmlNodeType.Element)
            {
                continue;
            }

            (int line, int position) = Place;
            string key = _xml.Prefix == "mtb" ? "mtb:" + _xml.LocalName.Replace('_', ':') : _xml.LocalName;
            string value;
            CheckAttributes();
            if (key == "tag" && _xml.GetAttribute("k") is { } k && _xml.GetAttribute("v") is { } v)
            {
                (key, value) = (k, v);
            }
            else if (TrailTags.IsKey(key))
            {
                value = TextOf();
            }
            else
            {
                if (key == "section" && group >= 0)
                {
                    Section(sections ??= [], line, position);
                }

                continue;
            }

            if (!TrailTags.IsKey(key))
            {
                continue;
            }

            if (tags.TryTake(key, value))
            {
                any |= TrailTags.IsSectionKey(key);
            }
            else
            {
                _into.Lenient(RoutesFindingCodes.BadSection, line, position, $"The value of the trail tag {key} is not one of its values; left out.");
            }
        }

        if (sections is not null)
        {
            _into.Sections(group, sections);
        }

        return any;
    }

    /// <summary>One trail section by distance: attributes from_m, to_m and trail tags.</summary>
    private void Section(List<(double FromM, double ToM, TrailTags Tags)> sections, int line, int position)
    {
        double from = double.NaN, to = double.NaN;
        TrailTags tags = default;
        for (bool more = _xml.MoveToFirstAttribute(); more; more = _xml.MoveToNextAttribute())
        {
            string key = _xml.LocalName;
            if (key == "from_m")
            {
                from = AttributeNumber();
            }
            else if (key == "to_m")
            {
                to = AttributeNumber();
            }
            else if (TrailTags.IsKey(key) && !tags.TryTake(key, _xml.Value))
            {
                _into.Lenient(RoutesFindingCodes.BadSection, line, position, $"The value of the trail tag {key} is not one of its values; left out.");
            }
        }

        _xml.MoveToElement();
        if (from >= 0 && to > from && double.IsFinite(to))
        {
            sections.Add((from, to, tags));
        }
        else
        {
            _into.Lenient(RoutesFindingCodes.BadSection, line, position, "A trail section needs from_m and to_m, 0 <= from_m < to_m; left out.");
        }
    }

    private void Kml()
    {
        int depth = _xml.Depth, group = -1;
        string name = "", description = "";
        if (_xml.IsEmptyElement)
        {
            return;
        }

        int placemarkDepth = -1;
        var places = new List<GeoPoint>();
        while (Next())
        {
            if (_xml.NodeType == XmlNodeType.EndElement)
            {
                if (_xml.Depth == depth)
                {
                    break;
                }

                if (_xml.Depth == placemarkDepth)
                {
                    ClosePlacemark();
                }

                continue;
            }

            if (_xml.NodeType != XmlNodeType.Element)
            {
                continue;
            }

            switch (_xml.LocalName)
            {
                case "Placemark":
                    if (placemarkDepth >= 0)
                    {
                        ClosePlacemark();
                    }

                    CheckAttributes();
                    if (!_xml.IsEmptyElement)
                    {
                        placemarkDepth = _xml.Depth;
                        group++;
                        name = description = "";
                    }

                    break;
                case "name" when _xml.Depth == placemarkDepth + 1 && placemarkDepth >= 0:
                    name = TextOf();
                    _into.RenameGroup(group, name, description);
                    break;
                case "description" when _xml.Depth == placemarkDepth + 1 && placemarkDepth >= 0:
                    description = TextOf();
                    _into.RenameGroup(group, name, description);
                    break;
                case "LineString":
                    KmlLine(group, name, description);
                    break;
                case "Track":
                    KmlTrack(group, name, description);
                    break;
                case "Point":
                    KmlPoint(places);
                    break;
                default:
                    CheckAttributes();
                    break;
            }
        }

        if (placemarkDepth >= 0 || places.Count > 0)
        {
            ClosePlacemark();
        }

        void ClosePlacemark()
        {
            foreach (GeoPoint p in places)
            {
                _into.Waypoint(new RouteWaypoint(p, name, "", description));
            }

            places.Clear();
            placemarkDepth = -1;
        }
    }

    private void KmlLine(int group, string name, string description)
    {
        _into.BeginLine(RouteLineKind.Track, group, name, description, default);
        int depth = _xml.Depth;
        CheckAttributes();
        if (_xml.IsEmptyElement)
        {
            return;
        }

        while (Child(depth))
        {
            if (_xml.LocalName != "coordinates")
            {
                Skip();
                continue;
            }

            (int line, int position) = Place;
            ReadOnlySpan<char> text = Content();
            while (!(text = NumberText.Trim(text)).IsEmpty)
            {
                int end = text.IndexOfAny(" \t\r\n");
                ReadOnlySpan<char> token = end < 0 ? text : text[..end];
                text = end < 0 ? default : text[end..];
                if (Coordinate(token, ',', out GeoPoint p, out string? problem))
                {
                    _into.Point(p.LatDeg, p.LonDeg, p.ElevationM, RouteColumns.NoTime);
                }
                else
                {
                    _into.BadPoint(line, position, problem!);
                }
            }
        }
    }

    private void KmlTrack(int group, string name, string description)
    {
        _into.BeginLine(RouteLineKind.Track, group, name, description, default);
        int depth = _xml.Depth;
        CheckAttributes();
        if (_xml.IsEmptyElement)
        {
            return;
        }

        var times = new List<long>();
        var indices = new List<int>();
        while (Child(depth))
        {
            if (_xml.LocalName == "when")
            {
                times.Add(Instant(Content(), report: true));
            }
            else if (_xml.LocalName == "coord")
            {
                (int line, int position) = Place;
                if (Coordinate(NumberText.Trim(Content()), ' ', out GeoPoint p, out string? problem))
                {
                    indices.Add(_into.OpenLineCount);
                    _into.Point(p.LatDeg, p.LonDeg, p.ElevationM, RouteColumns.NoTime);
                }
                else
                {
                    indices.Add(-1);
                    _into.BadPoint(line, position, problem!);
                }
            }
            else
            {
                Skip();
            }
        }

        for (int i = 0; i < Math.Min(times.Count, indices.Count); i++)
        {
            if (indices[i] >= 0)
            {
                _into.SetTime(indices[i], times[i]);
            }
        }

        if (times.Count > 0 && times.Count != indices.Count)
        {
            _into.Lenient(RoutesFindingCodes.EndsLost, Place.Line, Place.Position,
                string.Create(CultureInfo.InvariantCulture, $"A track has {indices.Count} places and {times.Count} times; joined by their order."));
        }
    }

    private void KmlPoint(List<GeoPoint> places)
    {
        int depth = _xml.Depth;
        CheckAttributes();
        if (_xml.IsEmptyElement)
        {
            return;
        }

        while (Child(depth))
        {
            if (_xml.LocalName != "coordinates")
            {
                Skip();
                continue;
            }

            (int line, int position) = Place;
            if (Coordinate(NumberText.Trim(Content()), ',', out GeoPoint p, out string? problem))
            {
                places.Add(p);
            }
            else
            {
                _into.Lenient(RoutesFindingCodes.BadPoint, line, position, "Place left out: " + problem);
            }
        }
    }

    private bool Coordinate(ReadOnlySpan<char> token, char separator, out GeoPoint place, out string? problem)
    {
        place = default;
        problem = null;
        Span<double> values = stackalloc double[3];
        values.Fill(double.NaN);
        int n = 0;
        while (n < 3 && !token.IsEmpty)
        {
            int end = token.IndexOf(separator);
            ReadOnlySpan<char> one = end < 0 ? token : token[..end];
            token = end < 0 ? default : separator == ' ' ? NumberText.Trim(token[end..]) : token[(end + 1)..];
            bool ok = NumberText.TryNumber(one, out values[n]);
            if (!ok && n < 2)
            {
                problem = n == 0 ? "longitude is not a number." : "latitude is not a number.";
                return false;
            }

            if (n == 2 && (!ok || !double.IsFinite(values[2])))
            {
                values[2] = double.NaN;
                if (!NumberText.Trim(one).IsEmpty)
                {
                    _into.Lenient(RoutesFindingCodes.BadHeight, Place.Line, Place.Position, "Height left out: not a finite number.");
                }
            }

            n++;
        }

        if (n < 2)
        {
            problem = "longitude and latitude are expected.";
            return false;
        }

        if (!(Math.Abs(values[1]) <= 90 && Math.Abs(values[0]) <= 180))
        {
            problem = string.Create(CultureInfo.InvariantCulture, $"lat {values[1]}, lon {values[0]}; allowed are -90 to 90 and -180 to 180 deg.");
            return false;
        }

        place = new GeoPoint(values[1], values[0], values[2]);
        return true;
    }
}
