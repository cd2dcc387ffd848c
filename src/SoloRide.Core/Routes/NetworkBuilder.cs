using System.Globalization;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>
/// Nodes lines of trail: finds where they cross, touch and end near each other, cuts them there, drops what lies twice, and joins what no
/// junction parts. Nothing depends on the order of the lines: they are sorted by their places first, and meetings are joined as sets.
/// </summary>
internal sealed class NetworkBuilder
{
    private const int Block = 16;

    /// <summary>Points nearer than this are one place.</summary>
    [Source("assumption-routes-snap", "points within 0.02 m are one place")]
    internal const double TouchM = 0.02;

    private const double DegPerM = 1 / 110_000.0;

    private readonly RouteNetworkOptions _options;
    private readonly double _tolM;
    private readonly List<Source> _lines = [];
    private readonly STRtree<(int Line, int Leg)> _tree = new();
    private readonly List<(int Line, double At)> _cuts = [];
    private readonly List<(int A, int B)> _meetings = [];
    private readonly List<Finding> _findings = [];
    private double _lon0;

    private NetworkBuilder(RouteNetworkOptions options)
    {
        _options = options;
        _tolM = options.ToleranceM;
    }

    public List<Finding> Findings => _findings;

    public double[] NodeLat { get; private set; } = [];

    public double[] NodeLon { get; private set; } = [];

    public NetworkTrail[] Trails { get; private set; } = [];

    public static NetworkBuilder Build(IEnumerable<TrailLine> lines, RouteNetworkOptions options, CancellationToken cancellation)
    {
        var b = new NetworkBuilder(options);
        b.Take(lines);
        b.Index();
        b.Meet(cancellation);
        b.Ends();
        b.Cut(cancellation);
        return b;
    }

    private void Take(IEnumerable<TrailLine> lines)
    {
        var zero = new List<(string Name, GeoPoint Place)>();
        foreach (TrailLine line in lines)
        {
            RideRoute whole = Guard.NotNull(line, nameof(lines)).Described();
            double at = 0;
            foreach (RouteGap g in whole.Gaps)
            {
                Add(at, g.AtM);
                at = g.AtM + g.LengthM;
            }

            Add(at, whole.LengthM);

            void Add(double from, double to)
            {
                if (!(to > from))
                {
                    zero.Add((line.Name, whole.PointAt(Length.FromMeters(Math.Min(from, whole.LengthM)))));
                    return;
                }

                RideRoute part = from == 0 && to == whole.LengthM ? whole : whole.Part(Length.FromMeters(from), Length.FromMeters(to));
                _lines.Add(new Source(line, part));
            }
        }

        foreach ((string name, GeoPoint place) in zero.OrderBy(z => z.Place.LatDeg).ThenBy(z => z.Place.LonDeg).ThenBy(z => z.Name, StringComparer.Ordinal))
        {
            _findings.Add(new Finding(RoutesFindingCodes.ZeroLengthLine, FindingSeverity.Caution, name, $"The line {(name.Length > 0 ? $"'{name}' " : "")}at {place} has no length and is left out."));
        }

        _lines.Sort(Source.Compare);
    }

    private void Index()
    {
        if (_lines.Count == 0)
        {
            return;
        }

        // Longitudes unrolled about the first line, so that a network across the antimeridian stays in one piece.
        _lon0 = _lines[0].Lon[0];
        for (int l = 0; l < _lines.Count; l++)
        {
            Source s = _lines[l];
            for (int i = 0; i < s.Lon.Length; i++)
            {
                s.Lon[i] = _lon0 + Math.IEEERemainder(s.Lon[i] - _lon0, 360);
            }

            for (int b = 0; b < s.Lat.Length - 1; b += Block)
            {
                _tree.Insert(Box(s, b, Math.Min(b + Block, s.Lat.Length - 1), TouchM), (l, b));
            }
        }

        _tree.Build();
    }

    private static Envelope Box(Source s, int from, int to, double byM)
    {
        var box = new Envelope();
        for (int i = from; i <= to; i++)
        {
            box.ExpandToInclude(s.Lon[i], s.Lat[i]);
        }

        double lat = Math.Min(89, Math.Max(Math.Abs(box.MinY), Math.Abs(box.MaxY)));
        box.ExpandBy(byM * DegPerM / Math.Cos(lat * Wgs84.RadPerDeg), byM * DegPerM);
        return box;
    }

    /// <summary>Metres a degree of longitude and of latitude at a place.</summary>
    private static (double Kx, double Ky) Scale(double latDeg)
    {
        (double sin, double cos) = Math.SinCos(latDeg * Wgs84.RadPerDeg);
        double w2 = 1 - (Wgs84.E2 * sin * sin), w = Math.Sqrt(w2);
        return (Math.Max(1e-9, Wgs84.AM / w * cos * Wgs84.RadPerDeg), Wgs84.AM * (1 - Wgs84.E2) / (w2 * w) * Wgs84.RadPerDeg);
    }

    // Crossings and shared points of legs.
    private void Meet(CancellationToken cancellation)
    {
        for (int l = 0; l < _lines.Count; l++)
        {
            if ((l & 0xFF) == 0)
            {
                cancellation.ThrowIfCancellationRequested();
            }

            Source s = _lines[l];
            for (int b = 0; b < s.Lat.Length - 1; b += Block)
            {
                int end = Math.Min(b + Block, s.Lat.Length - 1);
                (double kx, double ky) = Scale((s.Lat[b] + s.Lat[end]) / 2);
                foreach ((int other, int leg) in _tree.Query(Box(s, b, end, TouchM)))
                {
                    if (other > l || (other == l && leg >= b))
                    {
                        Blocks(l, b, end, other, leg, Math.Min(leg + Block, _lines[other].Lat.Length - 1), kx, ky);
                    }
                }
            }
        }
    }

    private void Blocks(int la, int a0, int a1, int lb, int b0, int b1, double kx, double ky)
    {
        Source a = _lines[la], b = _lines[lb];
        double pad = TouchM * DegPerM, padX = TouchM / kx;
        for (int i = a0; i < a1; i++)
        {
            double minX = Math.Min(a.Lon[i], a.Lon[i + 1]) - padX, maxX = Math.Max(a.Lon[i], a.Lon[i + 1]) + padX;
            double minY = Math.Min(a.Lat[i], a.Lat[i + 1]) - pad, maxY = Math.Max(a.Lat[i], a.Lat[i + 1]) + pad;
            for (int j = la == lb ? Math.Max(b0, i + 1) : b0; j < b1; j++)
            {
                if (Math.Max(b.Lon[j], b.Lon[j + 1]) < minX || Math.Min(b.Lon[j], b.Lon[j + 1]) > maxX
                    || Math.Max(b.Lat[j], b.Lat[j + 1]) < minY || Math.Min(b.Lat[j], b.Lat[j + 1]) > maxY)
                {
                    continue;
                }

                Legs(la, i, lb, j, kx, ky);
            }
        }
    }

    private void Legs(int la, int i, int lb, int j, double kx, double ky)
    {
        Source a = _lines[la], b = _lines[lb];
        bool neighbours = la == lb && j == i + 1;
        bool layers = a.Of.Layer == b.Of.Layer, shared = _options.Crossings == CrossingRule.SharedPoints;
        double ox = a.Lon[i], oy = a.Lat[i];
        double ax = (a.Lon[i + 1] - ox) * kx, ay = (a.Lat[i + 1] - oy) * ky;
        double px = (b.Lon[j] - ox) * kx, py = (b.Lat[j] - oy) * ky, qx = (b.Lon[j + 1] - ox) * kx, qy = (b.Lat[j + 1] - oy) * ky;
        bool touched = false;
        if (!neighbours)
        {
            touched |= Vertex(la, i, lb, j, 0, 0, px, py, qx, qy, layers, shared);
            touched |= Vertex(la, i + 1, lb, j, ax, ay, px, py, qx, qy, layers, shared);
            touched |= Vertex(lb, j, la, i, px, py, 0, 0, ax, ay, layers, shared);
            touched |= Vertex(lb, j + 1, la, i, qx, qy, 0, 0, ax, ay, layers, shared);
        }
        else
        {
            // A line that turns straight back lies on itself.
            bool back = Vertex(la, i, lb, j, 0, 0, px, py, qx, qy, layers, shared);
            back |= Vertex(lb, j + 1, la, i, qx, qy, 0, 0, ax, ay, layers, shared);
            if (back)
            {
                _cuts.Add((la, j));
            }

            return;
        }

        if (touched || shared || !layers)
        {
            return;
        }

        double bx = qx - px, by = qy - py, det = (ax * by) - (ay * bx);
        double la2 = (ax * ax) + (ay * ay), lb2 = (bx * bx) + (by * by);
        if (la2 == 0 || lb2 == 0 || det * det <= 1e-12 * la2 * lb2)
        {
            return;
        }

        double s = ((px * by) - (py * bx)) / det, t = ((px * ay) - (py * ax)) / det;
        if (s > 0 && s < 1 && t > 0 && t < 1)
        {
            Join(la, i + s, lb, j + t);
        }
    }

    /// <summary>Whether a vertex lies on a leg (from p to q); joins the two there when they meet.</summary>
    private bool Vertex(int lv, int v, int lw, int leg, double x, double y, double px, double py, double qx, double qy, bool layers, bool shared)
    {
        double dx = qx - px, dy = qy - py, l2 = (dx * dx) + (dy * dy);
        if (l2 == 0)
        {
            return false;
        }

        double toP = Square(x - px, y - py), toQ = Square(x - qx, y - qy), t2 = TouchM * TouchM;
        double at;
        bool onPoint = true;
        if (toP <= t2 || toQ <= t2)
        {
            at = toP <= toQ ? leg : leg + 1;
        }
        else
        {
            double t = (((x - px) * dx) + ((y - py) * dy)) / l2;
            if (!(t > 0 && t < 1) || Square(px + (t * dx) - x, py + (t * dy) - y) > t2)
            {
                return false;
            }

            at = leg + t;
            onPoint = false;
        }

        if (lv == lw && Math.Abs(at - v) < 1e-9)
        {
            return false;
        }

        bool vEnd = _lines[lv].IsEnd(v), wEnd = onPoint && _lines[lw].IsEnd(at);

        // Lines of different layers meet where one of them ends at a point of the other.
        bool meets = onPoint ? layers || vEnd || wEnd : layers && !shared;
        if (meets)
        {
            Join(lv, v, lw, at);
        }

        return true;
    }

    private static double Square(double x, double y) => (x * x) + (y * y);

    private void Join(int la, double a, int lb, double b)
    {
        _meetings.Add((_cuts.Count, _cuts.Count + 1));
        _cuts.Add((la, a));
        _cuts.Add((lb, b));
    }

    // Ends that lie near another line, or near their own.
    private void Ends()
    {
        for (int l = 0; l < _lines.Count; l++)
        {
            Source s = _lines[l];
            int last = s.Lat.Length - 1;
            foreach (int v in new[] { 0, last })
            {
                (double kx, double ky) = Scale(s.Lat[v]);
                var box = new Envelope(s.Lon[v], s.Lon[v], s.Lat[v], s.Lat[v]);
                box.ExpandBy((_tolM + TouchM) / kx, (_tolM + TouchM) / ky);
                var best = new Dictionary<int, (double D2, double At)>();
                foreach ((int other, int leg) in _tree.Query(box))
                {
                    Source o = _lines[other];
                    int end = Math.Min(leg + Block, o.Lat.Length - 1);
                    for (int j = leg; j < end; j++)
                    {
                        if (other == l)
                        {
                            // Its own beginning is not another place: what counts has left the tolerance and come back.
                            double along = v == 0 ? s.CumM[j] : s.CumM[last] - s.CumM[j + 1];
                            if (along < 3 * _tolM)
                            {
                                continue;
                            }
                        }

                        double px = (o.Lon[j] - s.Lon[v]) * kx, py = (o.Lat[j] - s.Lat[v]) * ky, dx = ((o.Lon[j + 1] - s.Lon[v]) * kx) - px, dy = ((o.Lat[j + 1] - s.Lat[v]) * ky) - py;
                        double l2 = (dx * dx) + (dy * dy);
                        if (l2 == 0)
                        {
                            continue;
                        }

                        double t = Math.Clamp(-((px * dx) + (py * dy)) / l2, 0, 1);
                        double at = t * t * l2 <= TouchM * TouchM ? j : (1 - t) * (1 - t) * l2 <= TouchM * TouchM ? j + 1 : j + t;
                        double d2 = Square(px + (t * dx), py + (t * dy));
                        bool isEnd = o.IsEnd(at);
                        if (d2 > _tolM * _tolM || (!isEnd && (o.Of.Layer != s.Of.Layer || _options.Crossings == CrossingRule.SharedPoints)))
                        {
                            continue;
                        }

                        // An end near an end meets it, before the nearer inside of that line.
                        (double, double) rank = (isEnd ? d2 : d2 + (1e6 * _tolM * _tolM), at);
                        if (!best.TryGetValue(other, out (double D2, double At) b) || rank.CompareTo((b.D2, b.At)) < 0)
                        {
                            best[other] = rank;
                        }
                    }

                    // The end of a leg that is nearer inside may still have its line's end within reach.
                    foreach (int e in new[] { 0, o.Lat.Length - 1 })
                    {
                        if (other == l && (e == v || s.CumM[last] < 3 * _tolM))
                        {
                            continue;
                        }

                        double d2 = Square((o.Lon[e] - s.Lon[v]) * kx, (o.Lat[e] - s.Lat[v]) * ky);
                        if (d2 <= _tolM * _tolM && (!best.TryGetValue(other, out (double D2, double At) b) || (d2, (double)e).CompareTo((b.D2, b.At)) < 0))
                        {
                            best[other] = (d2, e);
                        }
                    }
                }

                foreach ((int other, (double _, double at)) in best.OrderBy(b => b.Key))
                {
                    Join(l, v, other, at);
                }
            }
        }
    }

    // Cuts the lines where they meet and makes nodes and trails.
    private void Cut(CancellationToken cancellation)
    {
        for (int l = 0; l < _lines.Count; l++)
        {
            _cuts.Add((l, 0));
            _cuts.Add((l, _lines[l].Lat.Length - 1));
        }

        int n = _cuts.Count;
        int[] order = [.. Enumerable.Range(0, n)];
        Array.Sort(order, (x, y) => _cuts[x].Line != _cuts[y].Line ? _cuts[x].Line.CompareTo(_cuts[y].Line) : _cuts[x].At != _cuts[y].At ? _cuts[x].At.CompareTo(_cuts[y].At) : x.CompareTo(y));
        var set = new DisjointSets(n);
        var onLine = new List<int>[_lines.Count];
        for (int k = 0; k < n; k++)
        {
            int c = order[k];
            (int line, double at) = _cuts[c];
            List<int> cuts = onLine[line] ??= [];
            if (cuts.Count > 0 && _lines[line].DistanceM(at) - _lines[line].DistanceM(_cuts[cuts[^1]].At) <= TouchM)
            {
                // The same cut; ends stay ends.
                set.Join(cuts[^1], c);
                if (_lines[line].IsEnd(at) && !_lines[line].IsEnd(_cuts[cuts[^1]].At))
                {
                    cuts[^1] = c;
                }
            }
            else
            {
                cuts.Add(c);
            }
        }

        foreach ((int a, int b) in _meetings)
        {
            set.Join(a, b);
        }

        // The place of a node: a through line is not bent where an end meets it.
        var node = new Dictionary<int, (bool IsEnd, double Lat, double Lon)>();
        foreach (List<int> cuts in onLine)
        {
            foreach (int c in cuts ?? [])
            {
                (int line, double at) = _cuts[c];
                (double lat, double lon) = _lines[line].Place(at);
                (bool, double, double) here = (_lines[line].IsEnd(at), lat, lon);
                int root = set.Root(c);
                if (!node.TryGetValue(root, out (bool IsEnd, double Lat, double Lon) old) || here.CompareTo(old) < 0)
                {
                    node[root] = here;
                }
            }
        }

        (int Root, double Lat, double Lon)[] nodes = [.. node.Select(p => (p.Key, p.Value.Lat, Lon: Wrap(p.Value.Lon))).OrderBy(p => p.Lat).ThenBy(p => p.Lon)];
        var number = new Dictionary<int, int>(nodes.Length);
        NodeLat = new double[nodes.Length];
        NodeLon = new double[nodes.Length];
        for (int i = 0; i < nodes.Length; i++)
        {
            number[nodes[i].Root] = i;
            NodeLat[i] = nodes[i].Lat;
            NodeLon[i] = nodes[i].Lon;
        }

        var edges = new List<Edge>();
        for (int l = 0; l < _lines.Count; l++)
        {
            if ((l & 0xFF) == 0)
            {
                cancellation.ThrowIfCancellationRequested();
            }

            List<int> cuts = onLine[l];
            ElevationProfile profile = ElevationProfile.Of(_lines[l].Route);
            for (int k = 1; k < cuts.Count; k++)
            {
                int a = number[set.Root(cuts[k - 1])], b = number[set.Root(cuts[k])];
                edges.Add(MakeEdge(_lines[l], profile, _cuts[cuts[k - 1]].At, _cuts[cuts[k]].At, a, b));
            }
        }

        edges = Simplify(edges);
        Number(edges);
    }

    private static double Wrap(double lonDeg) => lonDeg is >= -180 and <= 180 ? lonDeg : Math.IEEERemainder(lonDeg, 360);

    private Edge MakeEdge(Source s, ElevationProfile profile, double from, double to, int a, int b)
    {
        int first = (int)Math.Floor(from) + 1, last = (int)Math.Ceiling(to) - 1, count = Math.Max(0, last - first + 1) + 2;
        double[] lat = new double[count], lon = new double[count];
        double[]? ele = s.Route.ElevationM.IsEmpty ? null : new double[count];
        (lat[0], lon[0]) = (NodeLat[a], NodeLon[a]);
        (lat[^1], lon[^1]) = (NodeLat[b], NodeLon[b]);
        if (ele is not null)
        {
            ele[0] = s.ElevationM(from);
            ele[^1] = s.ElevationM(to);
        }

        for (int i = first; i <= last; i++)
        {
            (lat[i - first + 1], lon[i - first + 1]) = (s.Lat[i], Wrap(s.Lon[i]));
            if (ele is not null)
            {
                ele[i - first + 1] = s.Route.ElevationM[i];
            }
        }

        double fromM = s.DistanceM(from), toM = s.DistanceM(to);
        double[] cum = RouteKernel.Cumulative(lat, lon);
        double scale = toM > fromM ? cum[^1] / (toM - fromM) : 1;
        RouteSection[] sections = [.. s.Route.Sections.Where(x => x.ToM > fromM && x.FromM < toM)
            .Select(x => x.Moved((Math.Max(x.FromM, fromM) - fromM) * scale, (Math.Min(x.ToM, toM) - fromM) * scale))];
        return new Edge(a, b, lat, lon, ele, cum, sections, [new ProfilePiece(profile, fromM, toM, false)], s.Of, from == 0 && to == s.Lat.Length - 1);
    }

    /// <summary>Drops slivers and what lies twice, cuts overshoots, joins what no junction parts.</summary>
    private List<Edge> Simplify(List<Edge> edges)
    {
        edges.RemoveAll(e => e.A == e.B && e.LengthM <= 2 * _tolM);

        // What stays must not depend on the direction in which a line was drawn.
        edges = [.. edges.Select(e => e.Turned())];

        // What lies twice: between the same nodes, nowhere further apart than the tolerance.
        int twice = 0;
        double twiceM = 0;
        (GeoPoint Place, string Name) where = (default, "");
        var kept = new List<Edge>();
        foreach (IGrouping<(int, int), Edge> group in edges.GroupBy(e => (Math.Min(e.A, e.B), Math.Max(e.A, e.B))))
        {
            Edge[] all = [.. group];
            if (all.Length == 1)
            {
                kept.Add(all[0]);
                continue;
            }

            Array.Sort(all, Edge.Compare);
            var stay = new List<Edge>();
            foreach (Edge e in all)
            {
                int i = stay.FindIndex(o => o.LiesOn(e, _tolM));
                if (i < 0)
                {
                    stay.Add(e);
                    continue;
                }

                var place = new GeoPoint(e.Lat[0], e.Lon[0]);
                if (twice++ == 0 || (place.LatDeg, place.LonDeg).CompareTo((where.Place.LatDeg, where.Place.LonDeg)) < 0)
                {
                    where = (place, e.Like.Name);
                }

                twiceM += e.LengthM;
                stay[i] = stay[i].With(e, stay[i].RunsWith(e));
            }

            kept.AddRange(stay);
        }

        if (twice > 0)
        {
            _findings.Add(new Finding(RoutesFindingCodes.OverlappingLines, FindingSeverity.Note, where.Name,
                $"{Text.F(twiceM, 0)} m of trail lie on another line or on their own within {Text.F(_tolM, 1)} m, first at {where.Place}{(where.Name.Length > 0 ? $" ('{where.Name}')" : "")}; taken once, with the stricter of what both say.",
                new FindingValue("pieces", twice.ToString(CultureInfo.InvariantCulture)), new FindingValue("length_m", Text.F(twiceM, 1))));
        }

        // Overshoots: a stub no longer than the tolerance beyond a meeting.
        int[] degree = Degrees(kept);
        kept.RemoveAll(e => !e.IsWhole && e.LengthM <= _tolM && ((degree[e.A] == 1 && degree[e.B] >= 3) || (degree[e.B] == 1 && degree[e.A] >= 3)));
        return Chains(kept);
    }

    private int[] Degrees(List<Edge> edges)
    {
        var degree = new int[NodeLat.Length];
        foreach (Edge e in edges)
        {
            degree[e.A]++;
            degree[e.B]++;
        }

        return degree;
    }

    private List<Edge> Chains(List<Edge> edges)
    {
        edges.Sort(Edge.Compare);
        var at = new List<int>[NodeLat.Length];
        for (int i = 0; i < edges.Count; i++)
        {
            (at[edges[i].A] ??= []).Add(i);
            if (edges[i].B != edges[i].A)
            {
                (at[edges[i].B] ??= []).Add(i);
            }
        }

        bool Passes(int node)
            => at[node] is [var x, var y] && edges[x].A != edges[x].B && edges[y].A != edges[y].B
                && edges[x].SaysTheSame(edges[y], (edges[x].B == node) == (edges[y].A == node));

        var used = new bool[edges.Count];
        var result = new List<Edge>();
        for (int i = 0; i < edges.Count; i++)
        {
            // From an end of a chain first; rings without a junction afterwards, from their first edge.
            if (!used[i] && (!Passes(edges[i].A) || !Passes(edges[i].B)))
            {
                result.Add(Chain(i, !Passes(edges[i].A) ? edges[i].A : edges[i].B));
            }
        }

        for (int i = 0; i < edges.Count; i++)
        {
            if (!used[i])
            {
                result.Add(Chain(i, Math.Min(edges[i].A, edges[i].B)));
            }
        }

        return result;

        Edge Chain(int i, int from)
        {
            var row = new List<Edge>();
            int node = from;
            for (int e = i; ;)
            {
                used[e] = true;
                Edge edge = edges[e].A == node ? edges[e] : edges[e].Reversed();
                row.Add(edge);
                node = edge.B;
                if (node == from || !Passes(node))
                {
                    break;
                }

                int next = at[node][0] == e ? at[node][1] : at[node][0];
                if (used[next])
                {
                    break;
                }

                e = next;
            }

            return row.Count == 1 ? edges[i] : Edge.Of(row);
        }
    }

    // Nodes that are left, and trails in an order that follows from their places.
    private void Number(List<Edge> edges)
    {
        var used = new bool[NodeLat.Length];
        foreach (Edge e in edges)
        {
            used[e.A] = used[e.B] = true;
        }

        var now = new int[NodeLat.Length];
        var lat = new List<double>();
        var lon = new List<double>();
        for (int i = 0; i < used.Length; i++)
        {
            if (used[i])
            {
                now[i] = lat.Count;
                lat.Add(NodeLat[i]);
                lon.Add(NodeLon[i]);
            }
        }

        (NodeLat, NodeLon) = ([.. lat], [.. lon]);
        edges = [.. edges.Select(e => e.Turned())];
        edges.Sort(Edge.Compare);
        Trails = [.. edges.Select((e, i) => new NetworkTrail(i, now[e.A], now[e.B], new RouteColumns(e.Lat, e.Lon, e.ElevationM, null), e.CumM, e.Sections, e.Pieces, e.Like))];
    }

    /// <summary>A line to be noded.</summary>
    private sealed class Source
    {
        public Source(TrailLine of, RideRoute route)
        {
            Of = of;
            Route = route;
            Lat = route.LatDeg.ToArray();
            Lon = route.LonDeg.ToArray();
            CumM = route.CumM.ToArray();
        }

        public TrailLine Of { get; }

        public RideRoute Route { get; }

        public double[] Lat { get; }

        public double[] Lon { get; }

        public double[] CumM { get; }

        public bool IsEnd(double at) => at == 0 || at == Lat.Length - 1;

        public double DistanceM(double at)
        {
            int i = (int)at;
            return i >= CumM.Length - 1 ? CumM[^1] : CumM[i] + ((at - i) * (CumM[i + 1] - CumM[i]));
        }

        public double ElevationM(double at)
        {
            int i = (int)at;
            ReadOnlySpan<double> e = Route.ElevationM;
            return at == i ? e[i] : e[i] + ((at - i) * (e[i + 1] - e[i]));
        }

        public (double LatDeg, double LonDeg) Place(double at)
        {
            int i = (int)at;
            return at == i ? (Lat[i], Lon[i]) : (Lat[i] + ((at - i) * (Lat[i + 1] - Lat[i])), Lon[i] + ((at - i) * (Lon[i + 1] - Lon[i])));
        }

        public static int Compare(Source x, Source y)
        {
            int c = x.Lat.AsSpan().SequenceCompareTo(y.Lat);
            c = c != 0 ? c : x.Lon.AsSpan().SequenceCompareTo(y.Lon);
            c = c != 0 ? c : Edge.CompareWords(x.Of, y.Of);
            return c != 0 ? c : x.Route.ElevationM.SequenceCompareTo(y.Route.ElevationM);
        }
    }

    /// <summary>A piece of trail between two nodes.</summary>
    private sealed record Edge(int A, int B, double[] Lat, double[] Lon, double[]? ElevationM, double[] CumM, RouteSection[] Sections, ProfilePiece[] Pieces, TrailLine Like, bool IsWhole)
    {
        public double LengthM => CumM[^1];

        public static int CompareWords(TrailLine x, TrailLine y)
        {
            int c = string.CompareOrdinal(x.Name, y.Name);
            c = c != 0 ? c : x.Layer.CompareTo(y.Layer);
            c = c != 0 ? c : x.OneWay.CompareTo(y.OneWay);
            c = c != 0 ? c : x.Bicycles.CompareTo(y.Bicycles);
            c = c != 0 ? c : string.CompareOrdinal(x.Closure?.ToString(), y.Closure?.ToString());
            c = c != 0 ? c : x.Surface.CompareTo(y.Surface);
            return c != 0 ? c : x.Difficulty.CompareTo(y.Difficulty);
        }

        public static int Compare(Edge x, Edge y)
        {
            int c = Math.Min(x.A, x.B).CompareTo(Math.Min(y.A, y.B));
            c = c != 0 ? c : Math.Max(x.A, x.B).CompareTo(Math.Max(y.A, y.B));
            c = c != 0 ? c : CompareWords(x.Like, y.Like);
            c = c != 0 ? c : x.Lat.AsSpan().SequenceCompareTo(y.Lat);
            return c != 0 ? c : x.Lon.AsSpan().SequenceCompareTo(y.Lon);
        }

        public Edge Reversed()
        {
            double total = LengthM;
            return this with
            {
                A = B,
                B = A,
                Lat = [.. Lat.Reverse()],
                Lon = [.. Lon.Reverse()],
                ElevationM = ElevationM is null ? null : [.. ElevationM.Reverse()],
                CumM = [.. CumM.Reverse().Select(x => total - x)],
                Sections = [.. Sections.Reverse().Select(s => s.Moved(Math.Max(0, total - s.ToM), total - s.FromM))],
                Pieces = [.. Pieces.Reverse().Select(p => p.Reversed())],
                Like = Turned(Like),
            };
        }

        private static TrailLine Turned(TrailLine like)
            => like.OneWay == OneWayRule.None ? like : like with { OneWay = like.OneWay == OneWayRule.Forward ? OneWayRule.Backward : OneWayRule.Forward };

        /// <summary>From the lower node to the higher, so that numbers follow from places alone.</summary>
        public Edge Turned() => A < B || (A == B && Lat.AsSpan().SequenceCompareTo(Lat.Reverse().ToArray()) is var c && (c < 0 || (c == 0 && Lon.AsSpan().SequenceCompareTo(Lon.Reverse().ToArray()) <= 0))) ? this : Reversed();

        public bool RunsWith(Edge other)
            => A != B ? A == other.A
                : NearM(other.Lat[other.Lat.Length / 3], other.Lon[other.Lat.Length / 3], out double at) <= double.MaxValue && at <= LengthM / 2 == other.CumM[other.Lat.Length / 3] <= other.LengthM / 2;

        /// <summary>Whether another edge between the same nodes lies on this one.</summary>
        public bool LiesOn(Edge other, double toleranceM)
        {
            if (Math.Abs(LengthM - other.LengthM) > Math.Max(2 * toleranceM, 0.1 * Math.Min(LengthM, other.LengthM)))
            {
                return false;
            }

            for (int i = 0; i < other.Lat.Length; i++)
            {
                if (NearM(other.Lat[i], other.Lon[i], out _) > toleranceM)
                {
                    return false;
                }
            }

            for (int i = 0; i < Lat.Length; i++)
            {
                if (other.NearM(Lat[i], Lon[i], out _) > toleranceM)
                {
                    return false;
                }
            }

            return true;
        }

        /// <summary>This edge with what another on it says; the stricter counts.</summary>
        public Edge With(Edge other, bool sameDirection)
        {
            OneWayRule theirs = sameDirection ? other.Like.OneWay : Turned(other.Like).OneWay;

            // Two one-way lines against each other are a trail in both directions; beside a line without a rule the rule counts.
            OneWayRule rule = Like.OneWay == theirs ? theirs : Like.OneWay == OneWayRule.None ? theirs : theirs == OneWayRule.None ? Like.OneWay : OneWayRule.None;
            TrailClosure? closure = Like.Closure is null || (other.Like.Closure is { } o && string.CompareOrdinal(o.ToString(), Like.Closure.ToString()) < 0) ? other.Like.Closure ?? Like.Closure : Like.Closure;
            return this with
            {
                IsWhole = IsWhole || other.IsWhole,
                Sections = Sections.Length > 0 ? Sections : sameDirection ? other.Sections : other.Reversed().Sections,
                Like = Like with
                {
                    Name = Like.Name.Length > 0 ? Like.Name : other.Like.Name,
                    OneWay = rule,
                    Bicycles = Like.Bicycles == Known.No || other.Like.Bicycles == Known.No ? Known.No : Like.Bicycles == Known.Yes || other.Like.Bicycles == Known.Yes ? Known.Yes : Known.Unknown,
                    Closure = closure,
                },
            };
        }

        public bool SaysTheSame(Edge next, bool sameDirection)
            => CompareWords(Like with { Surface = default, Difficulty = default }, (sameDirection ? next.Like : Turned(next.Like)) with { Surface = default, Difficulty = default }) == 0;

        public static Edge Of(List<Edge> row)
        {
            int count = row.Sum(e => e.Lat.Length) - row.Count + 1;
            double[] lat = new double[count], lon = new double[count], cum = new double[count];
            double[]? ele = row.Any(e => e.ElevationM is not null) ? new double[count] : null;
            var sections = new List<RouteSection>();
            int at = 0;
            double offset = 0;
            foreach (Edge e in row)
            {
                for (int i = at == 0 ? 0 : 1; i < e.Lat.Length; i++)
                {
                    (lat[at], lon[at], cum[at]) = (e.Lat[i], e.Lon[i], offset + e.CumM[i]);
                    if (ele is not null)
                    {
                        ele[at] = e.ElevationM is { } h ? h[i] : double.NaN;
                    }

                    at++;
                }

                foreach (RouteSection s in e.Sections.Select(s => s.Moved(offset + s.FromM, offset + s.ToM)))
                {
                    if (sections.Count > 0 && sections[^1].ToM >= s.FromM && sections[^1].SaysTheSame(s))
                    {
                        sections[^1] = s.Moved(sections[^1].FromM, s.ToM);
                    }
                    else
                    {
                        sections.Add(s);
                    }
                }

                offset += e.LengthM;
            }

            return new Edge(row[0].A, row[^1].B, lat, lon, ele, cum, [.. sections], [.. row.SelectMany(e => e.Pieces)], row[0].Like, row.All(e => e.IsWhole));
        }

        private double NearM(double latDeg, double lonDeg, out double alongM)
        {
            (double kx, double ky) = Scale(latDeg);
            double best = double.PositiveInfinity;
            alongM = 0;
            for (int i = 0; i + 1 < Lat.Length; i++)
            {
                double px = Math.IEEERemainder(Lon[i] - lonDeg, 360) * kx, py = (Lat[i] - latDeg) * ky;
                double dx = Math.IEEERemainder(Lon[i + 1] - Lon[i], 360) * kx, dy = (Lat[i + 1] - Lat[i]) * ky, l2 = (dx * dx) + (dy * dy);
                double t = l2 > 0 ? Math.Clamp(-((px * dx) + (py * dy)) / l2, 0, 1) : 0;
                double d2 = Square(px + (t * dx), py + (t * dy));
                if (d2 < best)
                {
                    best = d2;
                    alongM = CumM[i] + (t * (CumM[i + 1] - CumM[i]));
                }
            }

            return Math.Sqrt(best);
        }
    }
}
