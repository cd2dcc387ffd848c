using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>
/// All that a route file holds: every line and waypoint, and a finding for every leniency that reading it needed.
/// Use it to look at a file with several tracks; <see cref="RideRoute.Read(string, RouteReadOptions?)"/> goes straight to one route.
/// </summary>
/// <remarks>
/// GPX 1.0 and 1.1, GeoJSON (RFC 7946), KML line strings and tracks; plain or gzip. Recordings in the binary formats of devices are
/// not read. A recorded line proves neither that access is allowed nor that the trail is open or rideable. Immutable; safe to share
/// between threads.
/// </remarks>
[Entry]
public sealed class RouteFile
{
    internal RouteFile(string source, RouteFileFormat format, string name, string description, RouteColumns columns, IReadOnlyList<RouteLine> lines, IReadOnlyList<RouteWaypoint> waypoints, IReadOnlyList<Finding> findings)
    {
        Source = source;
        Format = format;
        Name = name;
        Description = description;
        Columns = columns;
        Lines = lines;
        Waypoints = waypoints;
        Findings = findings;
    }

    /// <summary>File name or other name of the input.</summary>
    public string Source { get; }

    /// <summary>The format found.</summary>
    public RouteFileFormat Format { get; }

    /// <summary>Name of the whole file; may be empty.</summary>
    public string Name { get; }

    /// <summary>Words about the whole file; may be empty.</summary>
    public string Description { get; }

    /// <summary>The lines in the file's order, empty ones included.</summary>
    public IReadOnlyList<RouteLine> Lines { get; }

    /// <summary>The waypoints in the file's order.</summary>
    public IReadOnlyList<RouteWaypoint> Waypoints { get; }

    /// <summary>The leniencies used, each with its line.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    internal RouteColumns Columns { get; }

    /// <summary>Sections that the file gives by distance along a whole track, by the number of the track.</summary>
    internal IReadOnlyDictionary<int, IReadOnlyList<RouteSection>> GroupSections { get; init; } = new Dictionary<int, IReadOnlyList<RouteSection>>();

    /// <summary>Reads a file.</summary>
    /// <param name="path">Path; plain or gzip.</param>
    /// <param name="options">How to read; null for the defaults (lenient, 64 levels, attributes to 4 MB, files to 256 MB).</param>
    /// <returns>What the file holds.</returns>
    /// <exception cref="InputFormatException">The file is no route file, is refused (document type, bounds), or is not clean and was to be read strictly.</exception>
    /// <exception cref="IOException">The file cannot be opened or read.</exception>
    public static RouteFile Read(string path, RouteReadOptions? options = null)
    {
        Guard.NotEmpty(path);
        using var stream = new FileStream(path, FileMode.Open, FileAccess.Read, FileShare.Read, bufferSize: 1 << 16, FileOptions.SequentialScan);
        return RouteInput.Read(stream, Path.GetFileName(path), options ?? RouteReadOptions.Default);
    }

    /// <summary>Reads a stream from its present position to its end; the stream stays open.</summary>
    /// <param name="stream">The stream; plain or gzip.</param>
    /// <param name="source">Name of the input for messages.</param>
    /// <param name="options">How to read; null for the defaults.</param>
    /// <returns>What the stream holds.</returns>
    /// <exception cref="InputFormatException">As for <see cref="Read(string, RouteReadOptions?)"/>.</exception>
    public static RouteFile Read(Stream stream, string source = "stream", RouteReadOptions? options = null)
        => RouteInput.Read(Guard.NotNull(stream), Guard.NotNull(source), options ?? RouteReadOptions.Default);

    /// <summary>Reads a file without throwing on a bad one.</summary>
    /// <param name="path">Path; plain or gzip.</param>
    /// <param name="file">What the file holds; null when it cannot be read.</param>
    /// <param name="error">Why it cannot be read; null when it could.</param>
    /// <param name="options">How to read; null for the defaults.</param>
    /// <returns>Whether the file was read.</returns>
    public static bool TryRead(string path, [NotNullWhen(true)] out RouteFile? file, [NotNullWhen(false)] out InputFormatException? error, RouteReadOptions? options = null)
    {
        Guard.NotEmpty(path);
        try
        {
            file = Read(path, options);
            error = null;
            return true;
        }
        catch (InputFormatException e)
        {
            error = e;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException)
        {
            error = new InputFormatException(Path.GetFileName(path), 0, 0, "the file cannot be opened: " + e.Message, e);
        }

        file = null;
        return false;
    }

    /// <summary>All lines and waypoints as GPX 1.1, valid by its schema; reading it back gives the same.</summary>
    /// <returns>XML text.</returns>
    public string ToGpx() => RouteWriter.Text(s => RouteWriter.Gpx(s, Content()));

    /// <summary>All lines and waypoints as GeoJSON (RFC 7946); reading it back gives the same.</summary>
    /// <returns>JSON text.</returns>
    public string ToGeoJson() => RouteWriter.Text(s => RouteWriter.GeoJson(s, Content()));

    /// <summary>Makes a route of the file's lines.</summary>
    /// <param name="choice">Which lines when there are several.</param>
    /// <param name="lineIndex">Number of the line, from 0, for <see cref="LineChoice.Index"/>.</param>
    /// <returns>The route with the file's waypoints and findings; gaps and lines left out are findings.</returns>
    /// <exception cref="InputFormatException">The file has no line with a point.</exception>
    /// <exception cref="ArgumentOutOfRangeException">There is no such line.</exception>
    public RideRoute ToRoute(LineChoice choice = LineChoice.FirstTrack, int lineIndex = 0)
        => ToRoute(new RouteReadOptions { Lines = choice, LineIndex = lineIndex });

    internal RideRoute ToRoute(RouteReadOptions options)
    {
        RouteLine[] usable = [.. Lines.Where(l => l.Count > 0)];
        if (usable.Length == 0)
        {
            throw new InputFormatException(Source, 0, 0, Lines.Count == 0
                ? string.Create(CultureInfo.InvariantCulture, $"the file holds no line ({Waypoints.Count} waypoints); a route needs a track or planned route.")
                : "no line of the file has a usable point.");
        }

        RouteLine[] chosen;
        switch (options.Lines)
        {
            case LineChoice.Index:
                int index = Guard.InRange(options.LineIndex, 0, Lines.Count - 1, "(index)", nameof(RouteReadOptions.LineIndex));
                chosen = Lines[index].Count > 0 ? [Lines[index]]
                    : throw new InputFormatException(Source, 0, 0, string.Create(CultureInfo.InvariantCulture, $"line {index} of the file has no point."));
                break;
            case LineChoice.Longest:
                chosen = [usable.MaxBy(LengthM)!];
                break;
            case LineChoice.Join:
                RouteLineKind kind = usable.Any(l => l.Kind == RouteLineKind.Track) ? RouteLineKind.Track : RouteLineKind.Planned;
                chosen = [.. usable.Where(l => l.Kind == kind)];
                break;
            default:
                RouteLine first = usable.FirstOrDefault(l => l.Kind == RouteLineKind.Track) ?? usable[0];
                chosen = [.. usable.Where(l => l.Group == first.Group && l.Kind == first.Kind)];
                break;
        }

        var findings = new List<Finding>(Findings);
        if (options.Lines == LineChoice.FirstTrack && chosen.Length < usable.Length)
        {
            string message = string.Create(CultureInfo.InvariantCulture,
                $"The file has {usable.Length} lines with points; the route is the first track ({chosen.Length} of them). Choose with RouteReadOptions.Lines.");
            if (options.Strict)
            {
                throw new InputFormatException(Source, 0, 0, message);
            }

            findings.Add(new Finding(RoutesFindingCodes.SeveralLines, FindingSeverity.Caution, Source, message,
                new FindingValue("lines", usable.Length.ToString(CultureInfo.InvariantCulture)), new FindingValue("used", chosen.Length.ToString(CultureInfo.InvariantCulture))));
        }

        RideRoute route = RideRoute.FromLines(chosen, chosen[0].Name.Length > 0 ? chosen[0].Name : Name, chosen[0].Description, Waypoints, findings, Source, options.Strict);
        return GroupSections.TryGetValue(chosen[0].Group, out IReadOnlyList<RouteSection>? given) && chosen.All(l => l.Group == chosen[0].Group)
            && chosen.Length == usable.Count(l => l.Group == chosen[0].Group)
            ? route.WithSectionsWithin(given)
            : route;
    }

    private RouteWriter.Content Content()
    {
        var groups = new List<RouteWriter.Group>();
        for (int i = 0; i < Lines.Count;)
        {
            RouteLine first = Lines[i];
            var lines = new List<RouteWriter.Line>();
            for (; i < Lines.Count && Lines[i].Group == first.Group && Lines[i].Kind == first.Kind; i++)
            {
                lines.Add(new RouteWriter.Line(Columns, Lines[i].Start, Lines[i].Count));
            }

            groups.Add(new RouteWriter.Group(first.Kind, first.Name, first.Description, lines,
                GroupSections.TryGetValue(first.Group, out IReadOnlyList<RouteSection>? given) ? given : [.. Joined(Lines.Where(l => l.Group == first.Group && l.Kind == first.Kind))]));
        }

        return new RouteWriter.Content(Name, Description, groups, Waypoints);
    }

    // Sections of the lines of a track, counted along the whole track as a joined route counts them.
    private IEnumerable<RouteSection> Joined(IEnumerable<RouteLine> lines)
    {
        RouteLine[] used = [.. lines.Where(l => l.Count > 0)];
        return used.All(l => l.Sections.Count == 0) ? [] : RideRoute.FromLines(used, "", "", [], [], Source, strict: false).Sections;
    }

    private static double LengthM(RouteLine l)
        => RouteKernel.Cumulative(l.Columns.LatDeg.AsSpan(l.Start, l.Count), l.Columns.LonDeg.AsSpan(l.Start, l.Count))[^1];
}
