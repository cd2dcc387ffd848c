using System.Globalization;
using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Receives what a reader finds in a file, in order, and makes a <see cref="RouteFile"/> of it.</summary>
internal sealed class RouteFileBuilder(string source, RouteReadOptions options)
{
    private const int FindingsOfAKind = 16;
    private readonly RouteColumnsBuilder _points = new();
    private readonly List<OpenLine> _lines = [];
    private readonly List<RouteWaypoint> _waypoints = [];
    private readonly List<Finding> _findings = [];
    private readonly Dictionary<string, (int Count, int LastLine)> _counts = new(StringComparer.Ordinal);
    private readonly Dictionary<int, IReadOnlyList<RouteSection>> _groupSections = [];
    private OpenLine? _open;

    public string Source => source;

    public RouteReadOptions Options => options;

    public int PointCount => _points.Count;

    public string Name { get; set; } = "";

    public string Description { get; set; } = "";

    public void BeginLine(RouteLineKind kind, int group, string name, string description, TrailTags tags)
    {
        _open = new OpenLine(kind, group, name, description, _points.Count);
        _open.Tags = tags;
        if (tags.Any)
        {
            _open.Marks.Add((0, tags));
        }

        _lines.Add(_open);
    }

    public void Point(double latDeg, double lonDeg, double elevationM, long utcTicks)
    {
        if (_points.Count >= options.MaxPoints)
        {
            throw new InputFormatException(source, 0, 0, string.Create(CultureInfo.InvariantCulture, $"more than {options.MaxPoints} points; the limit is RouteReadOptions.MaxPoints."));
        }

        _points.Add(latDeg, lonDeg, elevationM, utcTicks);
        _open!.Count++;
    }

    /// <summary>Time of a point of the open line, by its number among the good ones.</summary>
    public void SetTime(int indexInLine, long utcTicks) => _points.SetTime(_open!.Start + indexInLine, utcTicks);

    public int OpenLineCount => _open!.Count;

    /// <summary>What is known of the trail from the last point added onwards.</summary>
    public void Mark(TrailTags tags) => _open!.Marks.Add((Math.Max(0, _open.Count - 1), tags));

    /// <summary>Sections of a whole track by distance along it.</summary>
    public void Sections(int group, List<(double FromM, double ToM, TrailTags Tags)> sections)
    {
        if (sections.Count > 0)
        {
            _groupSections[group] = [.. sections.OrderBy(g => g.FromM).ThenBy(g => g.ToM).Select(g => g.Tags.ToSection(g.FromM, g.ToM))];
        }
    }

    public void BadPoint(int line, int position, string reason)
    {
        _open!.Bad++;
        Lenient(RoutesFindingCodes.BadPoint, line, position, "Point left out: " + reason);
    }

    public bool HasAnything => _points.Count > 0 || _waypoints.Count > 0;

    public void RenameGroup(int group, string name, string description)
    {
        for (int i = _lines.Count - 1; i >= 0 && _lines[i].Group == group; i--)
        {
            _lines[i].Name = name;
            _lines[i].Description = description;
        }
    }

    public void Waypoint(RouteWaypoint waypoint)
    {
        if (_waypoints.Count >= options.MaxPoints)
        {
            throw new InputFormatException(source, 0, 0, string.Create(CultureInfo.InvariantCulture, $"more than {options.MaxPoints} waypoints; the limit is RouteReadOptions.MaxPoints."));
        }

        _waypoints.Add(waypoint);
    }

    /// <summary>A leniency: a finding, or the exception when reading strictly.</summary>
    public void Lenient(string code, int line, int position, string message, FindingSeverity severity = FindingSeverity.Caution)
    {
        if (options.Strict)
        {
            throw new InputFormatException(source, line, position, message);
        }

        (int count, int _) = _counts.GetValueOrDefault(code);
        _counts[code] = (count + 1, line);
        if (count < FindingsOfAKind)
        {
            _findings.Add(new Finding(code, severity, Where(line), message,
                new FindingValue("line", line.ToString(CultureInfo.InvariantCulture)), new FindingValue("position", position.ToString(CultureInfo.InvariantCulture))));
        }
    }

    public void Release() => _points.Release();

    public RouteFile Build(RouteFileFormat format)
    {
        foreach ((string code, (int count, int lastLine)) in _counts)
        {
            if (count > FindingsOfAKind)
            {
                _findings.Add(new Finding(RoutesFindingCodes.MoreOfTheSame, FindingSeverity.Caution, source,
                    string.Create(CultureInfo.InvariantCulture, $"{count - FindingsOfAKind} more findings {code}, the last at line {lastLine}."),
                    new FindingValue("code", code), new FindingValue("count", count.ToString(CultureInfo.InvariantCulture))));
            }
        }

        RouteColumns columns = _points.Build();
        return new RouteFile(source, format, Name, Description, columns, [.. _lines.Select(l => l.Close(columns))], [.. _waypoints], [.. _findings]) { GroupSections = _groupSections };
    }

    private string Where(int line) => line > 0 ? string.Create(CultureInfo.InvariantCulture, $"{source}, line {line}") : source;

    private sealed class OpenLine(RouteLineKind kind, int group, string name, string description, int start)
    {
        public RouteLineKind Kind => kind;

        public int Group => group;

        public int Start => start;

        public string Name { get; set; } = name;

        public string Description { get; set; } = description;

        public int Count { get; set; }

        public int Bad { get; set; }

        public TrailTags Tags { get; set; }

        public List<(int Index, TrailTags Tags)> Marks { get; } = [];

        public RouteLine Close(RouteColumns columns)
            => new(kind, group, Name, Description, columns, start, Count, Bad, Sections(columns)) { Tags = Tags };

        private List<RouteSection> Sections(RouteColumns columns)
        {
            if (Marks.Count == 0 || Count < 2)
            {
                return [];
            }

            double[] cumM = RouteKernel.Cumulative(columns.LatDeg.AsSpan(start, Count), columns.LonDeg.AsSpan(start, Count));
            var sections = new List<RouteSection>();
            for (int i = 0; i < Marks.Count; i++)
            {
                double from = cumM[Math.Min(Marks[i].Index, Count - 1)], to = i + 1 < Marks.Count ? cumM[Math.Min(Marks[i + 1].Index, Count - 1)] : cumM[^1];
                if (to > from && Marks[i].Tags.Any)
                {
                    RouteSection s = Marks[i].Tags.ToSection(from, to);
                    if (sections.Count > 0 && sections[^1].ToM == from && sections[^1].SaysTheSame(s))
                    {
                        s = s.Moved(sections[^1].FromM, to);
                        sections.RemoveAt(sections.Count - 1);
                    }

                    sections.Add(s);
                }
            }

            return sections;
        }
    }
}
