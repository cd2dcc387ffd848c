using System.Globalization;
using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>
/// Trails joined where they meet: the best way through chosen points, loops from a trailhead, and the junctions of a route.
/// </summary>
/// <remarks>
/// The same lines in any order give the same network. A line on a map proves neither access nor that the trail is open or rideable.
/// Immutable; safe to share between threads.
/// </remarks>
[Entry]
public sealed class RouteNetwork
{
    private const double SamePlaceM = 0.01;

    private readonly NetworkTrail[] _trails;
    private readonly double[] _lat;
    private readonly double[] _lon;
    private readonly int[] _first;
    private readonly int[] _arc;
    private readonly int[] _head;
    private readonly double[] _xyz;
    private readonly bool[] _mayBar;
    private readonly double[] _cost;
    private readonly double _leastRate;
    private readonly Func<TrailPassage, TimeSpan?>? _costOf;
    private readonly int[] _part;
    private readonly double _lon0;
    private STRtree<(int Trail, int Leg)>? _tree;
    private STRtree<int>? _nodes;

    private RouteNetwork(NetworkBuilder built, RouteNetworkOptions options)
    {
        Options = options;
        _trails = built.Trails;
        (_lat, _lon) = (built.NodeLat, built.NodeLon);
        int n = _lat.Length;
        _first = new int[n + 1];
        foreach (NetworkTrail t in _trails)
        {
            _first[t.From + 1]++;
            _first[t.To + 1]++;
        }

        for (int i = 1; i <= n; i++)
        {
            _first[i] += _first[i - 1];
        }

        int[] at = [.. _first];
        _arc = new int[2 * _trails.Length];
        _head = new int[2 * _trails.Length];
        _cost = new double[2 * _trails.Length];
        _mayBar = new bool[_trails.Length];
        foreach (NetworkTrail t in _trails)
        {
            (_arc[at[t.From]], _head[at[t.From]++]) = (2 * t.Index, t.To);
            (_arc[at[t.To]], _head[at[t.To]++]) = ((2 * t.Index) + 1, t.From);
            _cost[2 * t.Index] = _cost[(2 * t.Index) + 1] = t.LengthM;
            _mayBar[t.Index] = t.Closure is not null || t.OneWay != OneWayRule.None || t.Bicycles == Known.No;
        }

        // A hair under one, for the lengths are rounded to a nanometre.
        _leastRate = 1 - 1e-9;
        _xyz = new double[3 * n];
        for (int i = 0; i < n; i++)
        {
            (_xyz[3 * i], _xyz[(3 * i) + 1], _xyz[(3 * i) + 2]) = GeodesyKernel.ToEcef(_lat[i], _lon[i]);
        }

        var set = new DisjointSets(n);
        foreach (NetworkTrail t in _trails)
        {
            set.Join(t.From, t.To);
        }

        _part = [.. Enumerable.Range(0, n).Select(set.Root)];
        _lon0 = n > 0 ? _lon[0] : 0;
        Junctions = [.. Enumerable.Range(0, n).Select(i => new NetworkJunction(i, new GeoPoint(_lat[i], _lon[i], HeightAt(i)), _first[i + 1] - _first[i]))];
        var findings = new List<Finding>(built.Findings);
        int[] parts = [.. _part.Distinct()];
        if (parts.Length > 1)
        {
            (int Part, double LengthM)[] sizes = [.. parts.Select(p => (p, _trails.Where(t => _part[t.From] == p).Sum(t => t.LengthM))).OrderByDescending(p => p.Item2).ThenBy(p => p.p)];
            string places = string.Join("; ", sizes.Skip(1).Take(5).Select(p => $"{Text.F(p.LengthM / 1000, 2)} km at {new GeoPoint(_lat[p.Part], _lon[p.Part])}"));
            findings.Add(new Finding(RoutesFindingCodes.NetworkParts, FindingSeverity.Note, "network",
                string.Create(CultureInfo.InvariantCulture, $"The trails fall into {parts.Length} parts that do not meet within {Text.F(options.ToleranceM, 1)} m: the largest has {Text.F(sizes[0].LengthM / 1000, 2)} km; {(parts.Length > 6 ? "among the others " : "")}{places}."),
                new FindingValue("parts", parts.Length.ToString(CultureInfo.InvariantCulture))));
        }

        findings.Add(RouteOrigin.AccessFinding("network"));
        Findings = findings;
    }

    private RouteNetwork(RouteNetwork like, Func<TrailPassage, TimeSpan?> costOf, double[] cost, double leastRate)
    {
        Options = like.Options;
        (_trails, _lat, _lon, _first, _arc, _head, _xyz, _mayBar, _part, _lon0) = (like._trails, like._lat, like._lon, like._first, like._arc, like._head, like._xyz, like._mayBar, like._part, like._lon0);
        (_tree, _nodes) = (like._tree, like._nodes);
        Junctions = like.Junctions;
        Findings = like.Findings;
        _costOf = costOf;
        _cost = cost;
        _leastRate = leastRate;
    }

    /// <summary>How the lines were joined.</summary>
    public RouteNetworkOptions Options { get; }

    /// <summary>Where trails meet or end, in the order of latitude and longitude.</summary>
    public IReadOnlyList<NetworkJunction> Junctions { get; }

    /// <summary>The trails between junctions, in the order of their junctions.</summary>
    public IReadOnlyList<NetworkTrail> Trails => _trails;

    /// <summary>Length of all trails.</summary>
    public Length Length => Length.FromMeters(_trails.Sum(t => t.LengthM));

    /// <summary>Lines left out, trails that lie twice, parts that do not meet, and what a line proves.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Joins lines of trail to a network.</summary>
    /// <param name="lines">The lines, in any order.</param>
    /// <param name="options">Tolerance and rule of crossings; null for 5 m, and a junction at each crossing on one layer.</param>
    /// <param name="cancellation">Ends the work early.</param>
    /// <returns>The network. Lines without length are left out with a finding that names the place; an empty network has no way.</returns>
    /// <exception cref="ArgumentNullException">No lines, or one of them is null.</exception>
    public static RouteNetwork Of(IEnumerable<TrailLine> lines, RouteNetworkOptions? options = null, CancellationToken cancellation = default)
        => new(NetworkBuilder.Build(Guard.NotNull(lines), options ?? RouteNetworkOptions.Default, cancellation), options ?? RouteNetworkOptions.Default);

    /// <summary>Joins all lines of a file to a network, with their open tags (see <see cref="TrailLine.Read"/>).</summary>
    /// <param name="path">GPX, GeoJSON or KML, plain or gzip.</param>
    /// <param name="options">Tolerance and rule of crossings; null for the defaults.</param>
    /// <param name="reading">How to read; null for the defaults.</param>
    /// <returns>The network.</returns>
    /// <exception cref="InputFormatException">The file is no route file, is refused, or is not clean and was to be read strictly.</exception>
    /// <exception cref="IOException">The file cannot be opened or read.</exception>
    public static RouteNetwork Read(string path, RouteNetworkOptions? options = null, RouteReadOptions? reading = null) => Of(TrailLine.Read(path, reading), options);

    /// <summary>The same network with a cost of the caller's instead of distance: ways are then those of least cost.</summary>
    /// <param name="cost">
    /// What a step costs in its direction of travel, 0 or more, as time (of a pace, or as it feels); null where it is not to be taken. It is
    /// asked once for every step of at most 100 m in both directions, and must give the same answer each time.
    /// </param>
    /// <returns>The network with costs.</returns>
    /// <exception cref="ArgumentException">A cost is negative; the message names the trail.</exception>
    public RouteNetwork WithCost(Func<TrailPassage, TimeSpan?> cost)
    {
        Guard.NotNull(cost);
        var all = new double[2 * _trails.Length];
        double least = double.PositiveInfinity;
        foreach (NetworkTrail t in _trails)
        {
            for (int back = 0; back < 2; back++)
            {
                double c = CostS(cost, t, 0, t.LengthM, back == 1);
                all[(2 * t.Index) + back] = c;
                double straight = StraightM(t.From, t.To);
                if (straight > 0 && double.IsFinite(c))
                {
                    least = Math.Min(least, c / straight);
                }
            }
        }

        // Parts of a trail may be cheaper for their length than the whole: goal direction is kept for whole trails by their ends alone.
        return new RouteNetwork(this, cost, all, double.IsFinite(least) ? least * (1 - 1e-9) : 0);
    }

    /// <summary>The best way through chosen points in their order: the shortest, or that of least cost on a network made by <see cref="WithCost"/>.</summary>
    /// <param name="points">Two points or more; each is taken to the nearest trail.</param>
    /// <param name="options">Day, bars that are set aside, and how far a point may lie from a trail; null for the defaults.</param>
    /// <returns>The way; without one, what is missing or barred, by name and place.</returns>
    /// <exception cref="ArgumentException">Fewer than two points.</exception>
    public RouteWay Way(IReadOnlyList<GeoPoint> points, WayOptions? options = null)
    {
        Guard.NotNull(points);
        options ??= WayOptions.Default;
        if (points.Count < 2)
        {
            throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"points holds {points.Count}; a way needs at least 2 points."), nameof(points));
        }

        var findings = new List<Finding>();
        var places = new List<NetworkPlace>();
        for (int i = 0; i < points.Count; i++)
        {
            if (Attach(points[i], options, $"point {(i + 1).ToString(CultureInfo.InvariantCulture)}", findings) is { } p)
            {
                places.Add(p);
            }
        }

        if (places.Count < points.Count)
        {
            return new RouteWay(null, [], double.NaN, [], null, findings);
        }

        return Way(places, points, options, findings, null);
    }

    /// <summary>Loops from a trailhead within ranges of length and ascent, distinct from one another, each in the directions that are open.</summary>
    /// <param name="request">Trailhead, ranges, overlap and number.</param>
    /// <param name="cancellation">Ends the work early.</param>
    /// <returns>The loops, nearest to the wished length first; whether all were looked at; and how far the first can be from the best.</returns>
    /// <exception cref="ArgumentNullException">No request.</exception>
    public LoopChoice Loops(LoopRequest request, CancellationToken cancellation = default)
        => LoopSearch.Run(this, Guard.NotNull(request), cancellation);

    /// <summary>The junctions that a route comes to, in the order of travel, with the angle and side of every way: for cues and for pricing a wrong turn.</summary>
    /// <param name="route">A route on the trails of this network.</param>
    /// <param name="within">How far a junction may lie from the route, 1 m to 1 km; null for 1 m where the route lies on the trails to the decimetre, as routes of this network do, else twice the tolerance of the network, at least 10 m.</param>
    /// <returns>The junctions of three ways and more, and of two where the trail's name changes are left out; empty for a route off the network.</returns>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="within"/> is outside its range.</exception>
    public IReadOnlyList<JunctionPass> JunctionsAlong(RideRoute route, Length? within = null)
        => JunctionReader.Along(this, Guard.NotNull(route), within is { } w ? Guard.InRange(w.Meters, 1, 1000, "m", nameof(within)) : JunctionReader.Reach(this, route));

    /// <summary>
    /// The cue sheet of a route: every junction in the order of travel with turn, side, number of ways and the trail to take, and what a wrong
    /// turn costs: as length, and as time on a network made by <see cref="WithCost"/>.
    /// </summary>
    /// <param name="route">A route on the trails of this network; where it leaves them, a finding says for how long.</param>
    /// <param name="within">How far a junction or trail may lie from the route, 1 m to 1 km; null as in <see cref="JunctionsAlong"/>.</param>
    /// <returns>The cues, with a start and a finish.</returns>
    /// <exception cref="ArgumentNullException">No route.</exception>
    /// <exception cref="ArgumentOutOfRangeException"><paramref name="within"/> is outside its range.</exception>
    public RouteCueSheet CueSheet(RideRoute route, Length? within = null)
        => RouteCueSheet.Make(this, Guard.NotNull(route), within is { } w ? Guard.InRange(w.Meters, 1, 1000, "m", nameof(within)) : JunctionReader.Reach(this, route));

    /// <summary>Junctions, trails and their length.</summary>
    /// <returns>One line of text.</returns>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture, $"{Junctions.Count(j => j.Ways > 2)} junctions, {_trails.Length} trails, {Text.F(_trails.Sum(t => t.LengthM) / 1000, 2)} km");

    internal NetworkTrail[] All => _trails;

    internal int NodeCount => _lat.Length;

    internal int[] FirstArc => _first;

    internal int[] Arcs => _arc;

    internal int[] Heads => _head;

    internal TimeSpan? ThereAndBack(NetworkTrail trail)
        => _costOf is not null && _cost[2 * trail.Index] + _cost[(2 * trail.Index) + 1] is var c && double.IsFinite(c) ? TimeSpan.FromSeconds(c) : null;

    internal GeoPoint PlaceOf(int node) => new(_lat[node], _lon[node]);

    internal double StraightM(int a, int b) => Math.Sqrt(Square(_xyz[3 * a] - _xyz[3 * b]) + Square(_xyz[(3 * a) + 1] - _xyz[(3 * b) + 1]) + Square(_xyz[(3 * a) + 2] - _xyz[(3 * b) + 2]));

    internal double StraightM(int node, (double X, double Y, double Z) to) => Math.Sqrt(Square(_xyz[3 * node] - to.X) + Square(_xyz[(3 * node) + 1] - to.Y) + Square(_xyz[(3 * node) + 2] - to.Z));

    internal TrailBars Bars(NetworkTrail trail, bool backward, WayOptions options)
        => _mayBar[trail.Index] ? trail.Bars(backward, options.Day) & ~options.Allow : TrailBars.None;

    /// <summary>The nearest trail to a place; null with a finding when none is near.</summary>
    internal NetworkPlace? Attach(GeoPoint place, WayOptions options, string what, List<Finding> findings)
    {
        NetworkPlace? near = Nearest(place, options.WithinM);
        if (near is null)
        {
            NetworkPlace? far = Nearest(place, 100_000);
            findings.Add(new Finding(RoutesFindingCodes.OffNetwork, FindingSeverity.Refusal, what,
                $"No trail within {Text.F(options.WithinM, 0)} m of {what} at {place}" + (far is { } f ? $"; the nearest, {f.Trail.Called}, is {Text.F(f.OffsetM, 0)} m away." : "; none within 100 km."),
                new FindingValue("nearest_m", far is { } g ? Text.F(g.OffsetM, 1) : "")));
        }

        return near;
    }

    /// <summary>The way through places on trails; trails in <paramref name="avoid"/> are not taken.</summary>
    internal RouteWay Way(IReadOnlyList<NetworkPlace> places, IReadOnlyList<GeoPoint> points, WayOptions options, List<Finding> findings, HashSet<int>? avoid)
    {
        double[] open = OpenCosts(options, avoid), free = _cost;
        bool barred = !ReferenceEquals(open, free);
        if (avoid is not null)
        {
            free = OpenCosts(options with { Allow = TrailBars.Closed | TrailBars.OneWay | TrailBars.NoBicycles }, avoid);
        }

        var parts = new List<WayPart>();
        var refused = new List<WayPart>();
        double cost = 0, saved = 0;
        bool found = true;
        for (int i = 1; i < places.Count; i++)
        {
            (List<WayPart> Parts, double Cost)? way = Leg(places[i - 1], places[i], open, 0);
            if (way is { } w)
            {
                parts.AddRange(w.Parts);
                cost += w.Cost;
                if (barred && Leg(places[i - 1], places[i], free, 0) is { } better && better.Cost < w.Cost - (1e-9 * (1 + w.Cost)))
                {
                    saved += w.Parts.Sum(p => p.LengthM) - better.Parts.Sum(p => p.LengthM);
                    refused.AddRange(better.Parts.Where(p => Bars(p.Trail, p.Backward, options) != 0));
                }

                continue;
            }

            found = false;
            (List<WayPart> Parts, double Cost)? least = barred ? Leg(places[i - 1], places[i], Penalised(options, avoid), BarredPenalty, options) : null;
            if (least is { } l)
            {
                WayPart[] blocks = [.. l.Parts.Where(p => Bars(p.Trail, p.Backward, options) != 0)];
                refused.AddRange(blocks);
                findings.Add(new Finding(RoutesFindingCodes.Barred, FindingSeverity.Refusal, blocks.Length > 0 ? blocks[0].Trail.Called : "way",
                    string.Create(CultureInfo.InvariantCulture, $"Every way from {points[i - 1]} to {points[i]} is barred; the one that needs the least opened: {string.Join("; ", Refuse(blocks, options).Select(r => $"{r.Trail} at {r.Place}: {r.OpenedBy}"))}")));
            }
            else
            {
                int a = _part[places[i - 1].Trail.From], b = _part[places[i].Trail.From];
                findings.Add(new Finding(RoutesFindingCodes.NoWay, FindingSeverity.Refusal, "way",
                    $"No way leads from {points[i - 1]} to {points[i]}: {(a != b ? $"the trails there do not meet (the network falls apart within {Text.F(Options.ToleranceM, 1)} m)" : "the trails between them are not to be taken")}."));
            }
        }

        WayRefusal[] refusals = Refuse(refused, options);
        if (!found)
        {
            return new RouteWay(null, [], double.NaN, refusals, null, findings);
        }

        if (refusals.Length > 0)
        {
            findings.Add(new Finding(RoutesFindingCodes.Barred, FindingSeverity.Note, refusals[0].Trail,
                $"A way shorter by {Text.F(saved, 0)} m is barred: {string.Join("; ", refusals.Select(r => $"{r.Trail} at {r.Place}: {r.OpenedBy}"))}", new FindingValue("detour_m", Text.F(saved, 1))));
        }

        NoteIgnored(parts, options, findings);
        RideRoute route = ToRoute(parts, points[0], findings);
        return new RouteWay(route, parts, _costOf is null ? double.NaN : cost, refusals, refusals.Length > 0 ? Length.FromMeters(saved) : null, route.Findings);
    }

    /// <summary>Bars that were set aside and met.</summary>
    internal static void NoteIgnored(IEnumerable<WayPart> parts, WayOptions options, List<Finding> findings)
    {
        foreach (WayPart p in parts.Where(p => options.Allow != 0).DistinctBy(p => (p.Trail.Index, p.Backward)))
        {
            TrailBars met = p.Trail.Bars(p.Backward, options.Day) & options.Allow;
            if (met != 0)
            {
                findings.Add(new Finding(RoutesFindingCodes.BarIgnored, FindingSeverity.Warning, p.Trail.Called, $"The way takes {p.Trail.Called} at {p.Start} although it is barred: {Words(p.Trail, met)}. {OpenedBy(p.Trail, met)}"));
            }
        }
    }

    /// <summary>Parts in the order of travel as a route.</summary>
    internal static RideRoute ToRoute(IReadOnlyList<WayPart> parts, GeoPoint fallback, IReadOnlyList<Finding> findings)
    {
        string name = string.Join(", ", parts.Select(p => p.Trail.Name).Where(n => n.Length > 0).Distinct().Take(4));
        if (parts.Count == 0)
        {
            return new RideRoute(new RouteColumns([fallback.LatDeg], [fallback.LonDeg], double.IsNaN(fallback.ElevationM) ? null : [fallback.ElevationM], null), 0, 1, "", "", [], [], [], [.. findings, RouteOrigin.AccessFinding("way")]);
        }

        HeightSource source = parts[0].Trail.Source;
        return RouteJoin.Of([.. parts.Select(p => p.Route())], name, "", [], [.. findings, RouteOrigin.AccessFinding(name.Length > 0 ? name : "way")],
            parts.All(p => p.Trail.Source == source) ? source : HeightSource.Recognised);
    }

    internal static WayRefusal[] Refuse(IEnumerable<WayPart> parts, WayOptions options)
        =>
        [
            .. parts.DistinctBy(p => (p.Trail.Index, p.Backward)).Select(p =>
            {
                TrailBars bars = p.Trail.Bars(p.Backward, options.Day) & ~options.Allow;
                return new WayRefusal(p.Trail.Called, bars, p.Start, Length.FromMeters(p.LengthM), OpenedBy(p.Trail, bars), (bars & TrailBars.Closed) != 0 ? p.Trail.Closure : null);
            }),
        ];

    /// <summary>Costs with what is barred left out; the costs themselves when nothing is.</summary>
    internal double[] OpenCosts(WayOptions options, HashSet<int>? avoid = null)
    {
        double[]? open = null;
        for (int i = 0; i < _trails.Length; i++)
        {
            bool no = avoid is not null && avoid.Contains(i);
            if (!_mayBar[i] && !no)
            {
                continue;
            }

            for (int back = 0; back < 2; back++)
            {
                if (no || Bars(_trails[i], back == 1, options) != 0)
                {
                    open ??= [.. _cost];
                    open[(2 * i) + back] = double.PositiveInfinity;
                }
            }
        }

        return open ?? _cost;
    }

    /// <summary>Least costs from a place to every node, or from every node to it.</summary>
    internal (double[] Label, int[] Via) Everywhere(NetworkPlace from, double[] cost, bool backward)
    {
        var label = new double[NodeCount];
        var via = new int[NodeCount];
        double[] c = cost;
        if (backward)
        {
            // Toward the place: each trail is travelled the other way round.
            c = new double[cost.Length];
            for (int i = 0; i < cost.Length; i++)
            {
                c[i] = cost[i ^ 1];
            }
        }

        NetworkSearchKernel.Run(_first, _arc, _head, c, Starts(from, cost, backward, 0), [], 0, _xyz, default, double.PositiveInfinity, label, via);
        return (label, via);
    }

    /// <summary>First labels at the ends of the trail on which a place lies.</summary>
    private (int Node, double Cost, int Via)[] Starts(NetworkPlace p, double[] cost, bool backward, double penalty, WayOptions? penaltyBars = null)
    {
        NetworkTrail t = p.Trail;
        double on = double.IsFinite(cost[2 * t.Index]) ? 1 : double.PositiveInfinity, back = double.IsFinite(cost[(2 * t.Index) + 1]) ? 1 : double.PositiveInfinity;

        // Leaving by the end of the line, travelled forward; by its beginning, travelled backward; the other way round toward a place.
        double byEnd = backward ? Part(t, p.AlongM, t.LengthM, true, penalty, penaltyBars) * back : Part(t, p.AlongM, t.LengthM, false, penalty, penaltyBars) * on;
        double byStart = backward ? Part(t, 0, p.AlongM, false, penalty, penaltyBars) * on : Part(t, 0, p.AlongM, true, penalty, penaltyBars) * back;
        if (p.AlongM <= SamePlaceM)
        {
            byStart = 0;
        }

        if (t.LengthM - p.AlongM <= SamePlaceM)
        {
            byEnd = 0;
        }

        (int, double, int)[] both = [(t.To, byEnd, -2), (t.From, byStart, -3)];
        return [.. both.Where(s => double.IsFinite(s.Item2))];
    }

    /// <summary>Cost of a part of a trail.</summary>
    private double Part(NetworkTrail t, double fromM, double toM, bool backward, double penalty, WayOptions? penaltyBars)
    {
        double c = fromM <= 0 && toM >= t.LengthM ? _cost[(2 * t.Index) + (backward ? 1 : 0)] : CostS(_costOf, t, fromM, toM, backward);
        return penalty > 0 && penaltyBars is not null && Bars(t, backward, penaltyBars) != 0 ? c + (penalty * (toM - fromM)) : c;
    }

    private static double CostS(Func<TrailPassage, TimeSpan?>? cost, NetworkTrail t, double fromM, double toM, bool backward)
    {
        if (cost is null)
        {
            return toM - fromM;
        }

        double sum = 0;
        foreach (TrailStep step in t.Steps(fromM, toM, backward))
        {
            if (cost(new TrailPassage(t, backward, step)) is not { } c)
            {
                return double.PositiveInfinity;
            }

            sum += c >= TimeSpan.Zero ? c.TotalSeconds
                : throw new ArgumentException($"The cost of a step of {Text.F(step.LengthM, 1)} m on {t.Called} is {Text.F(c.TotalSeconds, 3)} s; it must be 0 s or more.", nameof(cost));
        }

        return sum;
    }

    private const double BarredPenalty = 1e6;

    // Barred stretches count by their length before anything else.
    private double[] Penalised(WayOptions options, HashSet<int>? avoid)
    {
        double[] c = [.. _cost];
        for (int i = 0; i < _trails.Length; i++)
        {
            for (int back = 0; back < 2; back++)
            {
                if (avoid is not null && avoid.Contains(i))
                {
                    c[(2 * i) + back] = double.PositiveInfinity;
                }
                else if (Bars(_trails[i], back == 1, options) != 0)
                {
                    c[(2 * i) + back] += BarredPenalty * _trails[i].LengthM;
                }
            }
        }

        return c;
    }

    private (List<WayPart> Parts, double Cost)? Leg(NetworkPlace from, NetworkPlace to, double[] cost, double penalty, WayOptions? penaltyBars = null)
    {
        (int Node, double Cost, int Via)[] starts = Starts(from, cost, false, penalty, penaltyBars), ends = Starts(to, cost, true, penalty, penaltyBars);
        double best = double.PositiveInfinity;
        WayPart? direct = null;
        if (from.Trail == to.Trail)
        {
            bool backward = to.AlongM < from.AlongM;
            if (Math.Abs(to.AlongM - from.AlongM) <= SamePlaceM)
            {
                return ([], 0);
            }

            if (double.IsFinite(cost[(2 * from.Trail.Index) + (backward ? 1 : 0)]))
            {
                direct = new WayPart(from.Trail, Math.Min(from.AlongM, to.AlongM), Math.Max(from.AlongM, to.AlongM), backward);
                best = Part(from.Trail, direct.Value.FromM, direct.Value.ToM, backward, penalty, penaltyBars);
            }
        }

        var label = new double[NodeCount];
        var via = new int[NodeCount];
        (double Lat, double Lon) goal = PlaceAt(to);

        // The bound holds from node to node; the last part of a trail may be cheaper for its length, so it stops short of the goal's trail.
        double slack = _costOf is null ? 0 : Math.Max(StraightM(to.Trail.From, GeodesyKernel.ToEcef(goal.Lat, goal.Lon)), StraightM(to.Trail.To, GeodesyKernel.ToEcef(goal.Lat, goal.Lon)));
        (int node, double least) = slack > 0
            ? Nearer(starts, ends, cost, label, via)
            : NetworkSearchKernel.Run(_first, _arc, _head, cost, starts, [.. ends.Select(e => (e.Node, e.Cost))], _leastRate, _xyz, GeodesyKernel.ToEcef(goal.Lat, goal.Lon), best, label, via);
        if (!(least < best))
        {
            return direct is { } d ? ([d], best) : null;
        }

        var parts = new List<WayPart>();
        (int endNode, double _, int endVia) = ends.Where(e => e.Node == node).MinBy(e => e.Cost);
        Add(to.Trail, endVia == -2 ? to.AlongM : 0, endVia == -2 ? to.Trail.LengthM : to.AlongM, endVia == -2);
        int at = endNode;
        while (via[at] >= 0)
        {
            NetworkTrail t = _trails[via[at] >> 1];
            bool back = (via[at] & 1) == 1;
            Add(t, 0, t.LengthM, back);
            at = back ? t.To : t.From;
        }

        if (via[at] == -2)
        {
            Add(from.Trail, from.AlongM, from.Trail.LengthM, false);
        }
        else
        {
            Add(from.Trail, 0, from.AlongM, true);
        }

        parts.Reverse();
        return (parts, least);

        void Add(NetworkTrail t, double a, double b, bool back)
        {
            if (b - a > SamePlaceM)
            {
                parts.Add(new WayPart(t, a, b, back));
            }
        }
    }

    // With costs of the caller's the goals are the two nodes themselves, one search toward each.
    private (int Node, double Cost) Nearer((int Node, double Cost, int Via)[] starts, (int Node, double Cost, int Via)[] ends, double[] cost, double[] label, int[] via)
    {
        (int Node, double Cost) best = (-1, double.PositiveInfinity);
        double[] l = new double[label.Length];
        int[] v = new int[via.Length];
        foreach ((int node, double rest, int _) in ends)
        {
            (double, double, double) goal = (_xyz[3 * node], _xyz[(3 * node) + 1], _xyz[(3 * node) + 2]);
            (int found, double c) = NetworkSearchKernel.Run(_first, _arc, _head, cost, starts, [(node, rest)], _leastRate, _xyz, goal, best.Cost, l, v);
            if (found >= 0 && c < best.Cost)
            {
                best = (found, c);
                l.CopyTo(label, 0);
                v.CopyTo(via, 0);
            }
        }

        return best;
    }

    private static string Words(NetworkTrail t, TrailBars bars)
    {
        var words = new List<string>();
        if ((bars & TrailBars.Closed) != 0)
        {
            words.Add($"closed ({t.Closure})");
        }

        if ((bars & TrailBars.OneWay) != 0)
        {
            words.Add("one-way against this direction");
        }

        if ((bars & TrailBars.NoBicycles) != 0)
        {
            words.Add("no bicycles");
        }

        return string.Join(", ", words);
    }

    private static string OpenedBy(NetworkTrail t, TrailBars bars)
    {
        var words = new List<string>();
        if ((bars & TrailBars.Closed) != 0)
        {
            words.Add($"closed ({t.Closure}): opened by the end of the closure, confirmed by who manages the land{(t.Closure?.OpensOn is { } o ? $", stated for {Text.Day(o)}" : "")}");
        }

        if ((bars & TrailBars.OneWay) != 0)
        {
            words.Add("one-way: opened by riding it the other way round");
        }

        if ((bars & TrailBars.NoBicycles) != 0)
        {
            words.Add("no bicycles: opened by leave of who manages the land, or on foot where a pushed bicycle is allowed");
        }

        return string.Join("; ", words) + ".";
    }

    private static double Square(double x) => x * x;

    private static (double Lat, double Lon) PlaceAt(NetworkPlace p)
    {
        (int i, double t) = Leg(p.Trail, p.AlongM);
        return i + 1 >= p.Trail.CumM.Length ? (p.Trail.Columns.LatDeg[^1], p.Trail.Columns.LonDeg[^1])
            : GeodesyKernel.Between(p.Trail.Columns.LatDeg[i], p.Trail.Columns.LonDeg[i], p.Trail.Columns.LatDeg[i + 1], p.Trail.Columns.LonDeg[i + 1], t);
    }

    private static (int Index, double Fraction) Leg(NetworkTrail trail, double m)
    {
        int i = RouteKernel.FloorIndex(trail.CumM, m);
        double leg = i + 1 < trail.CumM.Length ? trail.CumM[i + 1] - trail.CumM[i] : 0;
        return (i, leg > 0 ? Math.Clamp((m - trail.CumM[i]) / leg, 0, 1) : 0);
    }

    private double HeightAt(int node)
    {
        for (int k = _first[node]; k < _first[node + 1]; k++)
        {
            NetworkTrail t = _trails[_arc[k] >> 1];
            if (t.Columns.ElevationM is { } e && (((_arc[k] & 1) == 0) ? e[0] : e[^1]) is var h && !double.IsNaN(h))
            {
                return h;
            }
        }

        return double.NaN;
    }

    /// <summary>Nodes with at least so many ways within a box about a route.</summary>
    internal IEnumerable<int> NodesNear(Envelope box)
    {
        if (NodeCount == 0)
        {
            return [];
        }

        STRtree<int> tree = _nodes ?? Interlocked.CompareExchange(ref _nodes, Nodes(), null) ?? _nodes;
        return tree.Query(box).Order();

        STRtree<int> Nodes()
        {
            var made = new STRtree<int>();
            for (int i = 0; i < NodeCount; i++)
            {
                made.Insert(new Envelope(Unrolled(_lon[i]), Unrolled(_lon[i]), _lat[i], _lat[i]), i);
            }

            made.Build();
            return made;
        }
    }

    internal double Unrolled(double lonDeg) => _lon0 + Math.IEEERemainder(lonDeg - _lon0, 360);

    internal NetworkPlace? Nearest(GeoPoint place, double withinM)
    {
        if (_trails.Length == 0)
        {
            return null;
        }

        STRtree<(int Trail, int Leg)> tree = _tree ?? Interlocked.CompareExchange(ref _tree, Legs(), null) ?? _tree;
        double kx = 111_000 * Math.Max(0.01, Math.Cos(place.LatDeg * Wgs84.RadPerDeg)), ky = 110_500;
        for (double radius = Math.Min(50, withinM); ; radius = Math.Min(radius * 8, withinM))
        {
            double x = Unrolled(place.LonDeg);
            var box = new Envelope(x, x, place.LatDeg, place.LatDeg);
            box.ExpandBy(1.02 * radius / kx, 1.02 * radius / ky);
            NetworkPlace? best = null;
            foreach ((int trail, int leg) in tree.Query(box))
            {
                NetworkTrail t = _trails[trail];
                int end = Math.Min(leg + BlockLegs, t.CumM.Length - 1);
                for (int i = leg; i < end; i++)
                {
                    double px = Math.IEEERemainder(t.Columns.LonDeg[i] - place.LonDeg, 360) * kx, py = (t.Columns.LatDeg[i] - place.LatDeg) * ky;
                    double dx = Math.IEEERemainder(t.Columns.LonDeg[i + 1] - t.Columns.LonDeg[i], 360) * kx, dy = (t.Columns.LatDeg[i + 1] - t.Columns.LatDeg[i]) * ky, l2 = (dx * dx) + (dy * dy);
                    double f = l2 > 0 ? Math.Clamp(-((px * dx) + (py * dy)) / l2, 0, 1) : 0;
                    double d = Math.Sqrt(Square(px + (f * dx)) + Square(py + (f * dy)));
                    double along = t.CumM[i] + (f * (t.CumM[i + 1] - t.CumM[i]));
                    if (best is not { } b || d < b.OffsetM || (d == b.OffsetM && (trail < b.Trail.Index || (trail == b.Trail.Index && along < b.AlongM))))
                    {
                        best = new NetworkPlace(t, along, d);
                    }
                }
            }

            if (best is { } found && found.OffsetM <= radius)
            {
                if (AtJunction(found) is { } end)
                {
                    return end;
                }

                (double lat, double lon) = PlaceAt(found);
                return found with { OffsetM = GeodesyKernel.DistanceM(place.LatDeg, place.LonDeg, lat, lon) };
            }

            if (radius >= withinM)
            {
                return null;
            }
        }

        // A place on a junction lies on the trails that meet there, not on one that passes close by.
        NetworkPlace? AtJunction(NetworkPlace near)
        {
            double reachM = near.OffsetM + NetworkBuilder.TouchM, x = Unrolled(place.LonDeg), least = double.PositiveInfinity;
            var box = new Envelope(x, x, place.LatDeg, place.LatDeg);
            box.ExpandBy(1.02 * reachM / kx, 1.02 * reachM / ky);
            int node = -1;
            foreach (int n in NodesNear(box))
            {
                double d = Math.Sqrt(Square(Math.IEEERemainder(_lon[n] - place.LonDeg, 360) * kx) + Square((_lat[n] - place.LatDeg) * ky));
                if (d <= reachM && d < least)
                {
                    (node, least) = (n, d);
                }
            }

            if (node < 0)
            {
                return null;
            }

            NetworkTrail t = _trails[_arc[_first[node]] >> 1];
            return new NetworkPlace(t, (_arc[_first[node]] & 1) == 0 ? 0 : t.LengthM, GeodesyKernel.DistanceM(place.LatDeg, place.LonDeg, _lat[node], _lon[node]));
        }

        STRtree<(int, int)> Legs()
        {
            var made = new STRtree<(int, int)>();
            foreach (NetworkTrail t in _trails)
            {
                for (int b = 0; b < t.CumM.Length - 1; b += BlockLegs)
                {
                    var box = new Envelope();
                    for (int i = b; i <= Math.Min(b + BlockLegs, t.CumM.Length - 1); i++)
                    {
                        box.ExpandToInclude(Unrolled(t.Columns.LonDeg[i]), t.Columns.LatDeg[i]);
                    }

                    made.Insert(box, (t.Index, b));
                }
            }

            made.Build();
            return made;
        }
    }

    private const int BlockLegs = 16;
}
