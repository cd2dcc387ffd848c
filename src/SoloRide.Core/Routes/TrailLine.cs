using NetTopologySuite.Geometries;
using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>One line of trail with what is known of it: what a <see cref="RouteNetwork"/> is made of.</summary>
/// <remarks>Surface and difficulty by distance stand in the sections of <see cref="Line"/>. Immutable.</remarks>
public sealed record TrailLine
{
    /// <summary>Makes a line of trail.</summary>
    /// <param name="line">Its places; interruptions (<see cref="RideRoute.Gaps"/>) are not trail.</param>
    /// <exception cref="ArgumentNullException">No line.</exception>
    public TrailLine(RideRoute line)
    {
        Line = Guard.NotNull(line);
        Name = line.Name;
    }

    /// <summary>Its places, heights and sections.</summary>
    public RideRoute Line { get; }

    /// <summary>Name by which refusals call it; that of the line unless stated.</summary>
    public string Name { get; init => field = Guard.NotNull(value, nameof(Name)); }

    /// <summary>Surface where the sections of the line state none.</summary>
    public TrailSurface Surface { get; init => field = Guard.Defined(value, nameof(Surface)); }

    /// <summary>Difficulty where the sections of the line state none.</summary>
    public TrailDifficulty Difficulty { get; init => field = Guard.Defined(value, nameof(Difficulty)); } = TrailDifficulty.Unknown;

    /// <summary>Layer of the open tag set, -5 to 5: lines of different layers cross without a junction; bridges are 1, tunnels -1 unless stated.</summary>
    public int Layer { get; init => field = Guard.InRange(value, -5, 5, "(layer)", nameof(Layer)); }

    /// <summary>Direction in which it may be ridden.</summary>
    public OneWayRule OneWay { get; init => field = Guard.Defined(value, nameof(OneWay)); }

    /// <summary>Whether bicycles are allowed, as far as the data say.</summary>
    public Known Bicycles { get; init => field = Guard.Defined(value, nameof(Bicycles)); }

    /// <summary>That it is closed; null when the data know of no closure, which proves nothing.</summary>
    public TrailClosure? Closure { get; init; }

    /// <summary>Makes a line of trail of a NetTopologySuite line: x is longitude, y latitude [°], z height [m] or NaN.</summary>
    /// <param name="line">The line.</param>
    /// <param name="name">Name; may be empty.</param>
    /// <returns>The line of trail.</returns>
    /// <exception cref="ArgumentException">The line is empty or a coordinate is out of range.</exception>
    public static TrailLine FromLineString(LineString line, string name = "") => new(RideRoute.FromLineString(line, name));

    /// <summary>
    /// All lines of a file with their open tags: surface and difficulty, <c>oneway</c>, <c>oneway:bicycle</c>, <c>bicycle</c>, <c>access</c>,
    /// <c>layer</c>, <c>bridge</c>, <c>tunnel</c>, <c>check_date</c>, <c>opening_date</c>, and our own <c>closed</c> (a reason).
    /// </summary>
    /// <param name="path">GPX, GeoJSON or KML, plain or gzip.</param>
    /// <param name="options">How to read; null for the defaults.</param>
    /// <returns>The lines that have points, in the file's order.</returns>
    /// <exception cref="InputFormatException">The file is no route file, is refused, or is not clean and was to be read strictly.</exception>
    /// <exception cref="IOException">The file cannot be opened or read.</exception>
    public static IReadOnlyList<TrailLine> Read(string path, RouteReadOptions? options = null) => Of(RouteFile.Read(path, options));

    /// <summary>All lines of a file that was read, as <see cref="Read"/> gives them.</summary>
    /// <param name="file">The file.</param>
    /// <returns>The lines that have points, in the file's order.</returns>
    /// <exception cref="ArgumentNullException">No file.</exception>
    public static IReadOnlyList<TrailLine> Of(RouteFile file)
    {
        Guard.NotNull(file);
        var lines = new List<TrailLine>();
        foreach (RouteLine l in file.Lines.Where(l => l.Count > 0))
        {
            RideRoute line = RideRoute.FromLines([l], l.Name, l.Description, [], [], file.Source, strict: false);
            if (file.GroupSections.TryGetValue(l.Group, out IReadOnlyList<RouteSection>? given) && file.Lines.Count(o => o.Group == l.Group) == 1)
            {
                line = line.WithSectionsWithin(given);
            }

            lines.Add(l.Tags.Describe(new TrailLine(line)));
        }

        return lines;
    }

    /// <summary>The line as travelled, with the sections that the whole line states filled in.</summary>
    internal RideRoute Described()
    {
        if ((Surface == TrailSurface.Unknown && Difficulty == TrailDifficulty.Unknown) || Line.LengthM == 0)
        {
            return Line;
        }

        var sections = new List<RouteSection>();
        double at = 0;
        foreach (RouteSection s in Line.Sections)
        {
            Whole(at, s.FromM);
            sections.Add((s with
            {
                Surface = s.Surface == TrailSurface.Unknown ? Surface : s.Surface,
                Difficulty = s.Difficulty == TrailDifficulty.Unknown ? Difficulty : s.Difficulty,
            }).Moved(s.FromM, s.ToM));
            at = s.ToM;
        }

        Whole(at, Line.LengthM);
        return Line.WithSections(sections);

        void Whole(double from, double to)
        {
            if (to > from)
            {
                sections.Add(new RouteSection(UnitsNet.Length.FromMeters(from), UnitsNet.Length.FromMeters(to)) { Surface = Surface, Difficulty = Difficulty });
            }
        }
    }
}
