using System.Collections.Immutable;
using System.Diagnostics.CodeAnalysis;
using System.Globalization;
using NetTopologySuite.Geometries;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>A route: places in the order of travel, with heights and times where they are known.</summary>
/// <remarks>
/// Distances are lengths over the WGS 84 ellipsoid at height 0 (a line at 3 000 m is 0.05 % longer). Legs are counted on a grid of
/// a nanometre, so that reversing, splitting and joining routes under 8 000 km change no digit. A recorded line proves neither that
/// access is allowed nor that the trail is open or rideable. Immutable; safe to share between threads.
/// </remarks>
[Entry]
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed class RideRoute
{
    private readonly RouteColumns _columns;
    private readonly int _start;
    private readonly int _count;
    private double[]? _cumM;
    private RouteIndex? _index;

    internal RideRoute(RouteColumns columns, int start, int count, string name, string description,
        IReadOnlyList<RouteWaypoint> waypoints, IReadOnlyList<RouteGap> gaps, IReadOnlyList<RouteSection> sections, IReadOnlyList<Finding> findings, double[]? cumM = null)
    {
        _columns = columns;
        _start = start;
        _count = count;
        _cumM = cumM;
        Name = name;
        Description = description;
        Waypoints = waypoints;
        Gaps = gaps;
        Sections = sections;
        Findings = RouteOrigin.WithAccess(findings);
        Points = new RoutePointList(columns, start, count);
    }

    /// <summary>Name; may be empty.</summary>
    public string Name { get; }

    /// <summary>Words about the route; may be empty.</summary>
    public string Description { get; }

    /// <summary>The points in the order of travel, at least one.</summary>
    public IReadOnlyList<RoutePoint> Points { get; }

    /// <summary>The named places that came with the route.</summary>
    public IReadOnlyList<RouteWaypoint> Waypoints { get; }

    /// <summary>Interruptions that the route crosses in a straight line.</summary>
    public IReadOnlyList<RouteGap> Gaps { get; }

    /// <summary>What is known of surface and difficulty, by distance.</summary>
    public IReadOnlyList<RouteSection> Sections { get; }

    /// <summary>
    /// What a user of the route should know: leniencies of the file, gaps, lines left out, what cleaning changed; and once, as a note, on
    /// every route however it was made, that a line proves neither access nor that the trail is open or rideable (<c>routes.access-unproven</c>).
    /// </summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Length over the ellipsoid, gaps included.</summary>
    public Length Length => Length.FromMeters(LengthM);

    /// <summary>First place.</summary>
    public GeoPoint Start => Points[0].Place;

    /// <summary>Last place.</summary>
    public GeoPoint End => Points[_count - 1].Place;

    /// <summary>Whether the end lies within 100 m of the start and the route goes further than that.</summary>
    [Source("assumption-routes-loop", "ends within 100 m")]
    public bool IsLoop => _count > 2 && LengthM > 2 * LoopM && GeodesyKernel.DistanceM(LatDeg[0], LonDeg[0], LatDeg[^1], LonDeg[^1]) <= LoopM;

    /// <summary>Where the heights come from, when that is known: a route laid over a terrain model tells it; otherwise it is recognised by the profile.</summary>
    public HeightSource HeightSource { get; internal init; } = HeightSource.Recognised;

    /// <summary>Whether at least one point has a height.</summary>
    public bool HasHeights => _columns.ElevationM is { } e && e.AsSpan(_start, _count).ContainsAnyExcept(double.NaN);

    /// <summary>Whether at least one point has a time.</summary>
    public bool HasTimes => _columns.UtcTicks is { } t && t.AsSpan(_start, _count).ContainsAnyExcept(RouteColumns.NoTime);

    internal const double LoopM = 100;

    internal ReadOnlySpan<double> LatDeg => _columns.LatDeg.AsSpan(_start, _count);

    internal ReadOnlySpan<double> LonDeg => _columns.LonDeg.AsSpan(_start, _count);

    internal ReadOnlySpan<double> ElevationM => _columns.ElevationM is { } e ? e.AsSpan(_start, _count) : [];

    internal ReadOnlySpan<long> UtcTicks => _columns.UtcTicks is { } t ? t.AsSpan(_start, _count) : [];

    internal ReadOnlySpan<long> RecordedTicks => _columns.RecordedTicks is { } t ? t.AsSpan(_start, _count) : [];

    internal ReadOnlySpan<double> CumM => Cumulative();

    internal double LengthM => Cumulative()[^1];

    internal int Count => _count;

    private RouteIndex Index => _index ?? Interlocked.CompareExchange(ref _index, new RouteIndex(this), null) ?? _index;

    /// <summary>Reads a route from a file: GPX, GeoJSON or KML, plain or gzip.</summary>
    /// <param name="path">Path.</param>
    /// <param name="options">How to read and which line to take; null for the defaults.</param>
    /// <returns>The route.</returns>
    /// <exception cref="InputFormatException">The file is no route file, holds no line, is refused (document type, bounds), or is not clean and was to be read strictly.</exception>
    /// <exception cref="IOException">The file cannot be opened or read.</exception>
    public static RideRoute Read(string path, RouteReadOptions? options = null)
        => RouteFile.Read(path, options).ToRoute(options ?? RouteReadOptions.Default);

    /// <summary>Reads a route from a stream; the stream stays open.</summary>
    /// <param name="stream">The stream.</param>
    /// <param name="source">Name of the input for messages.</param>
    /// <param name="options">How to read and which line to take; null for the defaults.</param>
    /// <returns>The route.</returns>
    /// <exception cref="InputFormatException">As for <see cref="Read(string, RouteReadOptions?)"/>.</exception>
    public static RideRoute Read(Stream stream, string source = "stream", RouteReadOptions? options = null)
        => RouteFile.Read(stream, source, options).ToRoute(options ?? RouteReadOptions.Default);

    /// <summary>Reads a route without throwing on a bad file.</summary>
    /// <param name="path">Path.</param>
    /// <param name="route">The route; null when it cannot be read.</param>
    /// <param name="error">Why it cannot be read; null when it could.</param>
    /// <param name="options">How to read and which line to take; null for the defaults.</param>
    /// <returns>Whether the route was read.</returns>
    public static bool TryRead(string path, [NotNullWhen(true)] out RideRoute? route, [NotNullWhen(false)] out InputFormatException? error, RouteReadOptions? options = null)
    {
        route = null;
        if (!RouteFile.TryRead(path, out RouteFile? file, out error, options))
        {
            return false;
        }

        try
        {
            route = file.ToRoute(options ?? RouteReadOptions.Default);
            return true;
        }
        catch (InputFormatException e)
        {
            error = e;
            return false;
        }
    }

    /// <summary>Makes a route of places.</summary>
    /// <param name="points">The places in the order of travel, at least one.</param>
    /// <param name="name">Name; may be empty.</param>
    /// <returns>The route.</returns>
    /// <exception cref="ArgumentException">There is no place.</exception>
    public static RideRoute FromPoints(IEnumerable<GeoPoint> points, string name = "")
        => FromPoints(Guard.NotNull(points).Select(p => new RoutePoint(p)), name);

    /// <summary>Makes a route of places with times.</summary>
    /// <param name="points">The points in the order of travel, at least one.</param>
    /// <param name="name">Name; may be empty.</param>
    /// <returns>The route.</returns>
    /// <exception cref="ArgumentException">There is no point.</exception>
    public static RideRoute FromPoints(IEnumerable<RoutePoint> points, string name = "")
    {
        Guard.NotNull(points);
        var builder = new RouteColumnsBuilder();
        foreach (RoutePoint p in points)
        {
            builder.Add(p.Place.LatDeg, p.Place.LonDeg, p.Place.ElevationM, p.Time?.UtcTicks ?? RouteColumns.NoTime);
        }

        return builder.Count > 0
            ? new RideRoute(builder.Build(), 0, builder.Count, Guard.NotNull(name), "", [], [], [], [])
            : throw new ArgumentException("A route needs at least one point.", nameof(points));
    }

    /// <summary>Makes a route of a NetTopologySuite line: x is longitude, y latitude [°], z height [m] or NaN.</summary>
    /// <param name="line">The line.</param>
    /// <param name="name">Name; may be empty.</param>
    /// <returns>The route.</returns>
    /// <exception cref="ArgumentException">The line is empty or a coordinate is out of range.</exception>
    public static RideRoute FromLineString(LineString line, string name = "")
        => FromPoints(Guard.NotNull(line).Coordinates.Select(c => new GeoPoint(c.Y, c.X, double.IsFinite(c.Z) ? c.Z : double.NaN)), name);

    /// <summary>The route as a NetTopologySuite line: x is longitude, y latitude [°], z height [m] or NaN; EPSG 4326. Times are left behind.</summary>
    /// <returns>The line; a route of one point is a line of that point twice.</returns>
    public LineString ToLineString()
    {
        var factory = new GeometryFactory(new PrecisionModel(), 4326);
        Coordinate[] c = [.. Points.Select(p => new CoordinateZ(p.Place.LonDeg, p.Place.LatDeg, p.Place.ElevationM))];
        return factory.CreateLineString(c.Length == 1 ? [c[0], c[0].Copy()] : c);
    }

    /// <summary>Distance of a point from the start.</summary>
    /// <param name="pointIndex">[0 to number of points - 1]</param>
    /// <returns>The distance.</returns>
    /// <exception cref="ArgumentOutOfRangeException">There is no such point.</exception>
    public Length DistanceAt(int pointIndex) => Length.FromMeters(CumM[Guard.InRange(pointIndex, 0, _count - 1, "(index)")]);

    /// <summary>The place at a distance from the start; its height is interpolated between the points beside it.</summary>
    /// <param name="along">[0 to the length of the route]</param>
    /// <returns>The place.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The distance is outside the route.</exception>
    public GeoPoint PointAt(Length along)
    {
        double x = InRoute(along);
        (int i, double t) = Locate(x);
        if (t == 0 || i == _count - 1)
        {
            return Points[i].Place;
        }

        (double lat, double lon) = GeodesyKernel.Between(LatDeg[i], LonDeg[i], LatDeg[i + 1], LonDeg[i + 1], t);
        double ele = ElevationM.IsEmpty ? double.NaN : ElevationM[i] + (t * (ElevationM[i + 1] - ElevationM[i]));
        return new GeoPoint(lat, lon, ele);
    }

    /// <summary>Direction of travel at a distance from the start, from north, clockwise, 0 to 360°; that of the leg ahead.</summary>
    /// <param name="along">[0 to the length of the route]</param>
    /// <returns>The direction; null when the route has no length.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The distance is outside the route.</exception>
    public Angle? BearingAt(Length along)
    {
        double deg = BearingDegAt(InRoute(along));
        return double.IsNaN(deg) ? null : Angle.FromDegrees(deg);
    }

    /// <summary>Every time that the route goes past a place, in the order of travel.</summary>
    /// <param name="place">The place.</param>
    /// <param name="within">How far from the route a pass may be; null for 50 m beyond the nearest.</param>
    /// <returns>
    /// The passes. Two passes are told apart where the route between them moves at least 25 m further away, so an out-and-back route
    /// gives two except close to its turning point. Empty only when <paramref name="within"/> is given and nothing lies that near.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="within"/> is negative or not finite.</exception>
    public ImmutableArray<RoutePass> Project(GeoPoint place, Length? within = null)
        => [.. Index.Passes(place, within is { } w ? Guard.NotNegative(w.Meters, "m", nameof(within)) : null)];

    /// <summary>The pass nearest to a place; the first of equals.</summary>
    /// <param name="place">The place.</param>
    /// <returns>The pass.</returns>
    public RoutePass Nearest(GeoPoint place) => Index.Nearest(place);

    /// <summary>Puts places that are reached one after the other onto the route: each gets the pass that keeps the order at the least sum of offsets.</summary>
    /// <param name="places">The places in the order of travel.</param>
    /// <param name="within">How far from the route a pass may be; null for 50 m beyond each place's nearest.</param>
    /// <returns>One pass a place, in ascending distance; where no order is possible, the one with the fewest steps back.</returns>
    public ImmutableArray<RoutePass> ProjectInOrder(IEnumerable<GeoPoint> places, Length? within = null)
    {
        Guard.NotNull(places);
        double? w = within is { } v ? Guard.NotNegative(v.Meters, "m", nameof(within)) : null;
        return [.. RouteIndex.InOrder([.. places.Select(p => Index.Passes(p, w) is { Count: > 0 } found ? found : [Index.Nearest(p)])])];
    }

    /// <summary>The same route travelled the other way: distances and sections are counted from the other end. Points have no times, since they would run backward; a second reversal brings them back.</summary>
    /// <returns>The reversed route.</returns>
    public RideRoute Reversed()
    {
        double total = LengthM;
        ReadOnlySpan<double> cum = CumM;
        double[] lat = LatDeg.ToArray(), lon = LonDeg.ToArray(), cumM = new double[_count];
        double[]? ele = _columns.ElevationM is null ? null : ElevationM.ToArray();
        Array.Reverse(lat);
        Array.Reverse(lon);
        if (ele is not null)
        {
            Array.Reverse(ele);
        }

        long[]? ticks = _columns.RecordedTicks is null ? null : RecordedTicks.ToArray();
        if (ticks is not null)
        {
            Array.Reverse(ticks);
        }

        for (int i = 0; i < _count; i++)
        {
            cumM[i] = total - cum[_count - 1 - i];
        }

        bool wasBackward = _columns.UtcTicks is null && ticks is not null;
        return new RideRoute(new RouteColumns(lat, lon, ele, ticks, timesBackward: !wasBackward), 0, _count, Name, Description, Waypoints,
            [.. Gaps.Reverse().Select(g => new RouteGap(total - g.AtM - g.LengthM, g.LengthM, _count - 2 - g.PointIndex))],
            [.. Sections.Reverse().Where(s => s.FromM < total).Select(s => s.Moved(Math.Max(0, total - s.ToM), total - s.FromM))], Findings, cumM) { HeightSource = HeightSource };
    }

    /// <summary>A part of the route; its ends are put in as points where they fall between points.</summary>
    /// <param name="from">[0 to the length of the route]</param>
    /// <param name="to">[<paramref name="from"/> to the length of the route]</param>
    /// <returns>The part, distances counted from its own start, with the waypoints of the whole.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An end is outside the route, or they are in the wrong order.</exception>
    public RideRoute Part(Length from, Length to)
    {
        double a = InRoute(from, nameof(from)), b = InRoute(to, nameof(to));
        if (b < a)
        {
            throw new ArgumentOutOfRangeException(nameof(to), b, string.Create(CultureInfo.InvariantCulture, $"to is {b} m; it must not be before from, {a} m."));
        }

        var builder = new RouteColumnsBuilder();
        var cum = new List<double>();
        Cut(a);
        int first = RouteKernel.FloorIndex(CumM, a);
        for (int i = first; i < _count && CumM[i] < b; i++)
        {
            if (CumM[i] > a)
            {
                builder.Add(LatDeg[i], LonDeg[i], ElevationM.IsEmpty ? double.NaN : ElevationM[i], UtcTicks.IsEmpty ? RouteColumns.NoTime : UtcTicks[i]);
                cum.Add(CumM[i] - a);
            }
        }

        if (b > a)
        {
            Cut(b);
        }

        return new RideRoute(builder.Build(), 0, cum.Count, Name, Description, Waypoints,
            [.. Gaps.Where(g => g.AtM >= a && g.AtM + g.LengthM <= b).Select(g => new RouteGap(g.AtM - a, g.LengthM, RouteKernel.FloorIndex([.. cum], g.AtM - a)))],
            [.. Sections.Where(s => s.ToM > a && s.FromM < b).Select(s => s.Moved(Math.Max(s.FromM, a) - a, Math.Min(s.ToM, b) - a))], Findings, [.. cum]) { HeightSource = HeightSource };

        void Cut(double x)
        {
            (int i, double t) = Locate(x);
            GeoPoint p = PointAt(Length.FromMeters(x));
            long ticks = RouteColumns.NoTime;
            if (!UtcTicks.IsEmpty && UtcTicks[i] != RouteColumns.NoTime)
            {
                ticks = t == 0 ? UtcTicks[i] : UtcTicks[i + 1] == RouteColumns.NoTime ? ticks : UtcTicks[i] + (long)Math.Round(t * (UtcTicks[i + 1] - UtcTicks[i]));
            }

            builder.Add(p.LatDeg, p.LonDeg, p.ElevationM, ticks);
            cum.Add(x - a);
        }
    }

    /// <summary>Lays the route over a terrain model.</summary>
    /// <param name="terrain">The model.</param>
    /// <param name="mode">What becomes of recorded heights.</param>
    /// <param name="spacing">Longest leg, 1 m to 10 km: longer ones get points in between, so that rises between far points are seen; null for none.</param>
    /// <returns>The route with its new heights; places without one are a finding.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The spacing is outside its range.</exception>
    public RideRoute Drape(ITerrainHeights terrain, DrapeMode mode = DrapeMode.FillMissing, Length? spacing = null)
        => RouteDrape.Over(this, Guard.NotNull(terrain), Guard.Defined(mode), spacing is { } s ? Guard.InRange(s.Meters, 1, 10_000, "m", nameof(spacing)) : null);

    /// <summary>Mends what recordings usually suffer from, and reports every change; this route stays as it is.</summary>
    /// <param name="options">What to mend; null for all.</param>
    /// <returns>The mended route, this one, and the list of changes.</returns>
    public CleanedRoute Clean(CleanOptions? options = null) => RouteCleaning.Clean(this, options ?? CleanOptions.Default);

    /// <summary>This route and another after it. A distance of more than 1 m between them is a gap, crossed in a straight line and reported.</summary>
    /// <param name="next">The route that follows.</param>
    /// <returns>The joined route.</returns>
    public RideRoute Then(RideRoute next)
    {
        Guard.NotNull(next);
        RouteLine[] lines = [AsLine(0), next.AsLine(1)];
        return FromLines(lines, Name, Description, [.. Waypoints, .. next.Waypoints.Except(Waypoints)], [.. Findings, .. next.Findings.Except(Findings)], Name.Length > 0 ? Name : "route", strict: false);
    }

    /// <summary>The same route under another name.</summary>
    /// <param name="name">Name; may be empty.</param>
    /// <returns>The route.</returns>
    public RideRoute WithName(string name) => new(_columns, _start, _count, Guard.NotNull(name), Description, Waypoints, Gaps, Sections, Findings, _cumM) { HeightSource = HeightSource };

    /// <summary>The same route with other words about it.</summary>
    /// <param name="description">Words; may be empty.</param>
    /// <returns>The route.</returns>
    /// <exception cref="ArgumentNullException">No words.</exception>
    public RideRoute WithDescription(string description) => new(_columns, _start, _count, Name, Guard.NotNull(description), Waypoints, Gaps, Sections, Findings, _cumM) { HeightSource = HeightSource };

    /// <summary>The same route with other waypoints.</summary>
    /// <param name="waypoints">The waypoints.</param>
    /// <returns>The route.</returns>
    public RideRoute WithWaypoints(IEnumerable<RouteWaypoint> waypoints) => new(_columns, _start, _count, Name, Description, [.. Guard.NotNull(waypoints)], Gaps, Sections, Findings, _cumM) { HeightSource = HeightSource };

    /// <summary>The same route with other sections of surface and difficulty.</summary>
    /// <param name="sections">The sections, in ascending order, not overlapping, within the route (1 m beyond its end is allowed).</param>
    /// <returns>The route.</returns>
    /// <exception cref="ArgumentException">Two sections overlap, or one lies outside the route.</exception>
    public RideRoute WithSections(IEnumerable<RouteSection> sections)
    {
        RouteSection[] s = [.. Guard.NotNull(sections)];
        for (int i = 0; i < s.Length; i++)
        {
            if (i > 0 && s[i].FromM < s[i - 1].ToM)
            {
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Section {i} begins at {s[i].FromM} m, before section {i - 1} ends at {s[i - 1].ToM} m."), nameof(sections));
            }

            if (s[i].ToM > LengthM + 1)
            {
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"Section {i} ends at {s[i].ToM} m; the route is {LengthM} m long."), nameof(sections));
            }
        }

        return new(_columns, _start, _count, Name, Description, Waypoints, Gaps, s, Findings, _cumM) { HeightSource = HeightSource };
    }

    /// <summary>The route with its waypoints as GPX 1.1, valid by its schema, with the caution about access; reading it back gives the same route.</summary>
    /// <returns>XML text.</returns>
    public string ToGpx() => RouteWriter.Text(s => RouteWriter.Gpx(s, Content()));

    /// <summary>The route with its waypoints as GeoJSON (RFC 7946), with the caution about access; reading it back gives the same route.</summary>
    /// <returns>JSON text.</returns>
    public string ToGeoJson() => RouteWriter.Text(s => RouteWriter.GeoJson(s, Content()));

    /// <summary>Writes the route to a file, whole or not at all; an existing file is replaced.</summary>
    /// <param name="path">Path that ends in .gpx, .geojson or .json; the ending tells the format.</param>
    /// <exception cref="ArgumentException">The ending is none of these.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public void Save(string path) => RouteWriter.Save(path, Content());

    /// <summary>Writes the route to a stream, which stays open.</summary>
    /// <param name="stream">The stream.</param>
    /// <param name="format">GPX or GeoJSON.</param>
    /// <exception cref="ArgumentException">KML is read, not written.</exception>
    public void Write(Stream stream, RouteFileFormat format)
    {
        Guard.NotNull(stream);
        switch (Guard.Defined(format))
        {
            case RouteFileFormat.Gpx:
                RouteWriter.Gpx(stream, Content());
                break;
            case RouteFileFormat.GeoJson:
                RouteWriter.GeoJson(stream, Content());
                break;
            default:
                throw new ArgumentException("KML is read, not written; choose GPX or GeoJSON.", nameof(format));
        }
    }

    /// <summary>Name, length and number of points.</summary>
    /// <returns>One line of text.</returns>
    public override string ToString()
        => string.Create(CultureInfo.InvariantCulture, $"{(Name.Length > 0 ? Name : "route")}: {Text.F(LengthM / 1000, 2)} km, {_count} points");

    internal static RideRoute FromLines(IReadOnlyList<RouteLine> lines, string name, string description, IReadOnlyList<RouteWaypoint> waypoints, List<Finding> findings, string source, bool strict)
    {
        RouteColumns columns = lines[0].Columns;
        int start = lines[0].Start, count = lines.Sum(l => l.Count);
        bool together = lines.Skip(1).Select((l, i) => ReferenceEquals(l.Columns, columns) && l.Start == lines[i].Start + lines[i].Count).All(b => b);
        if (!together)
        {
            var builder = new RouteColumnsBuilder();
            foreach (RouteLine l in lines)
            {
                for (int i = l.Start; i < l.Start + l.Count; i++)
                {
                    builder.Add(l.Columns.LatDeg[i], l.Columns.LonDeg[i], l.Columns.ElevationM is { } e ? e[i] : double.NaN, l.Columns.UtcTicks is { } t ? t[i] : RouteColumns.NoTime);
                }
            }

            columns = builder.Build();
            start = 0;
        }

        if (lines.Count == 1)
        {
            return new RideRoute(columns, start, count, name, description, waypoints, [], lines[0].Sections, findings);
        }

        double[] cumM = RouteKernel.Cumulative(columns.LatDeg.AsSpan(start, count), columns.LonDeg.AsSpan(start, count));
        var gaps = new List<RouteGap>();
        var sections = new List<RouteSection>();
        int end = 0;
        for (int i = 0; i < lines.Count; i++)
        {
            sections.AddRange(lines[i].Sections.Select(s => s.Moved(cumM[end] + s.FromM, Math.Min(cumM[end] + s.ToM, cumM[^1]))));
            end += lines[i].Count;
            if (i + 1 == lines.Count)
            {
                break;
            }

            double length = cumM[end] - cumM[end - 1];
            if (length > GapM)
            {
                gaps.Add(new RouteGap(cumM[end - 1], length, end - 1));
                string message = string.Create(CultureInfo.InvariantCulture, $"The line is interrupted at {Text.F(cumM[end - 1] / 1000, 2)} km; the route goes {Text.F(length, 0)} m straight across.");
                if (strict)
                {
                    throw new InputFormatException(source, 0, 0, message);
                }

                findings.Add(new Finding(RoutesFindingCodes.Gap, FindingSeverity.Caution, source, message,
                    new FindingValue("at_m", Text.F(cumM[end - 1], 1)), new FindingValue("gap_m", Text.F(length, 1))));
            }
        }

        return new RideRoute(columns, start, count, name, description, waypoints, gaps, sections, findings, cumM);
    }

    [Source("assumption-routes-gap", "lines that end within 1 m of each other are one")]
    internal const double GapM = 1;

    /// <summary>Index of the point at or before a distance, and the share of the leg behind it.</summary>
    internal (int Index, double Fraction) Locate(double xM)
    {
        ReadOnlySpan<double> cum = CumM;
        int i = RouteKernel.FloorIndex(cum, xM);
        if (i >= _count - 1)
        {
            return (_count - 1, 0);
        }

        double leg = cum[i + 1] - cum[i];
        return leg > 0 ? (i, Math.Clamp((xM - cum[i]) / leg, 0, 1)) : (i, 0);
    }

    internal double BearingDegAt(double xM)
    {
        (int i, _) = Locate(xM);
        ReadOnlySpan<double> cum = CumM;
        i = Math.Min(i, Math.Max(0, _count - 2));
        int j = i;
        while (j + 1 < _count && cum[j + 1] <= cum[i])
        {
            j++;
        }

        if (j + 1 >= _count)
        {
            while (i > 0 && cum[i] == cum[^1])
            {
                i--;
            }

            j = i;
        }

        if (j + 1 >= _count || cum[j + 1] <= cum[j])
        {
            return double.NaN;
        }

        double deg = GeodesyKernel.Inverse(LatDeg[j], LonDeg[j], LatDeg[j + 1], LonDeg[j + 1]).Azimuth1Deg;
        return deg < 0 ? deg + 360 : deg;
    }

    internal RouteLine AsLine(int group) => new(RouteLineKind.Track, group, Name, Description, _columns, _start, _count, 0, Sections);

    internal RideRoute WithHeights(double[] elevationM, IReadOnlyList<Finding> findings, HeightSource source)
        => new(new RouteColumns(LatDeg.ToArray(), LonDeg.ToArray(), elevationM, _columns.RecordedTicks is null ? null : RecordedTicks.ToArray(), _columns.UtcTicks is null),
            0, _count, Name, Description, Waypoints, Gaps, Sections, findings, CumM.ToArray()) { HeightSource = source };

    /// <summary>The same line with points in between, so that no leg is longer than the spacing; gaps stay gaps.</summary>
    internal RideRoute Densified(double spacingM)
    {
        var builder = new RouteColumnsBuilder();
        var cum = new List<double>();
        var index = new int[_count];
        var gapAt = Gaps.Select(g => g.PointIndex).ToHashSet();
        for (int i = 0; i < _count; i++)
        {
            index[i] = cum.Count;
            builder.Add(LatDeg[i], LonDeg[i], ElevationM.IsEmpty ? double.NaN : ElevationM[i], UtcTicks.IsEmpty ? RouteColumns.NoTime : UtcTicks[i]);
            cum.Add(CumM[i]);
            if (i + 1 == _count || gapAt.Contains(i))
            {
                continue;
            }

            double leg = CumM[i + 1] - CumM[i];
            int pieces = (int)Math.Ceiling(leg / spacingM);
            for (int k = 1; k < pieces; k++)
            {
                (double lat, double lon) = GeodesyKernel.Between(LatDeg[i], LonDeg[i], LatDeg[i + 1], LonDeg[i + 1], (double)k / pieces);
                builder.Add(lat, lon, double.NaN, RouteColumns.NoTime);
                cum.Add(CumM[i] + (leg * k / pieces));
            }
        }

        return new RideRoute(builder.Build(), 0, cum.Count, Name, Description, Waypoints,
            [.. Gaps.Select(g => new RouteGap(g.AtM, g.LengthM, index[g.PointIndex]))], Sections, Findings, [.. cum]) { HeightSource = HeightSource };
    }

    /// <summary>The route without some points, with other heights and times; sections and gaps follow their places.</summary>
    internal RideRoute Kept(bool[] drop, double[]? elevationM, long[]? utcTicks, IReadOnlyList<Finding> findings)
    {
        var builder = new RouteColumnsBuilder();
        var kept = new List<int>();
        for (int i = 0; i < _count; i++)
        {
            if (!drop[i])
            {
                kept.Add(i);
                builder.Add(LatDeg[i], LonDeg[i], elevationM is null ? double.NaN : elevationM[i], utcTicks is null ? RouteColumns.NoTime : utcTicks[i]);
            }
        }

        RouteColumns columns = builder.Build();
        double[] cum = RouteKernel.Cumulative(columns.LatDeg, columns.LonDeg), old = [.. kept.Select(i => CumM[i])];
        var gaps = new List<RouteGap>();
        foreach (RouteGap g in Gaps)
        {
            int k = kept.BinarySearch(g.PointIndex);
            k = k >= 0 ? k : ~k - 1;
            if (k >= 0 && k + 1 < cum.Length)
            {
                gaps.Add(new RouteGap(cum[k], cum[k + 1] - cum[k], k));
            }
        }

        return new RideRoute(columns, 0, cum.Length, Name, Description, Waypoints, gaps,
            [.. Sections.Select(s => s.Moved(Move(s.FromM), Math.Max(Move(s.FromM), Move(s.ToM)))).Where(s => s.ToM > s.FromM)], findings, cum) { HeightSource = HeightSource };

        double Move(double x)
        {
            int k = RouteKernel.FloorIndex(old, x);
            if (k + 1 >= old.Length || x <= old[k])
            {
                return cum[k];
            }

            double span = old[k + 1] - old[k];
            return cum[k] + (span > 0 ? Math.Min(1, (x - old[k]) / span) * (cum[k + 1] - cum[k]) : 0);
        }
    }

    /// <summary>Sections of a file, cut to the route.</summary>
    internal RideRoute WithSectionsWithin(IReadOnlyList<RouteSection> sections)
        => new(_columns, _start, _count, Name, Description, Waypoints, Gaps,
            [.. sections.Where(s => s.FromM < LengthM).Select(s => s.ToM > LengthM ? s.Moved(s.FromM, LengthM) : s)], Findings, _cumM) { HeightSource = HeightSource };

    private RouteWriter.Content Content()
    {
        // A gap begins a new line, so that it is a gap again when read.
        var lines = new List<RouteWriter.Line>();
        int from = 0;
        foreach (int last in Gaps.Select(g => g.PointIndex).Append(_count - 1))
        {
            lines.Add(new RouteWriter.Line(_columns, _start + from, last + 1 - from));
            from = last + 1;
        }

        return new RouteWriter.Content(Name, "", [new RouteWriter.Group(RouteLineKind.Track, Name, Description, lines, Sections)], Waypoints);
    }

    private double InRoute(Length along, string name = "along")
    {
        double x = along.Meters, total = LengthM;

        // A distance that came out of arithmetic may pass the end by its rounding.
        return x > total && x <= total + 1e-6 ? total : Guard.InRange(x, 0, total, "m", name);
    }

    private double[] Cumulative()
        => _cumM ?? Interlocked.CompareExchange(ref _cumM, RouteKernel.Cumulative(LatDeg, LonDeg), null) ?? _cumM;
}
