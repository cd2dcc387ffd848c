using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>
/// The ways out of a route: the route in both directions, the trails beside it, and the exits. One shortest-path run from all exits over
/// reversed arcs gives the time out from every place, for each pace.
/// </summary>
/// <remarks>
/// With the route alone the only way out is along it, and a finding says so. Where the route meets itself its parts are joined as if on the
/// ground (<see cref="ExitGraphOptions.Crossings"/>), and a finding says where. Places that no exit can be reached from are a value, not an
/// error. Immutable; safe to share between threads.
/// </remarks>
[Entry]
public sealed class ExitGraph
{
    private const double SamePlaceM = 1e-6;

    private readonly List<int> _a = [];
    private readonly List<int> _b = [];
    private readonly List<LinkKind> _links = [];
    private readonly double[] _cutM;
    private readonly Dictionary<string, int> _exitNodes = new(StringComparer.Ordinal);

    private ExitGraph(EscapeRoute route, ExitGraphOptions options, double[] cutM)
    {
        Route = route;
        Options = options;
        _cutM = cutM;
    }

    /// <summary>What it was made of.</summary>
    public EscapeRoute Route { get; }

    /// <summary>How exits were joined.</summary>
    public ExitGraphOptions Options { get; }

    /// <summary>Length of the route.</summary>
    public Length RouteLength => Length.FromMeters(_cutM[^1]);

    /// <summary>What a reader should know about the graph.</summary>
    public IReadOnlyList<Finding> Findings { get; private set; } = [];

    /// <summary>Exits that are joined to the graph, in the order of their names.</summary>
    public IReadOnlyList<ExitPoint> Exits { get; private set; } = [];

    internal ReadOnlySpan<double> CutM => _cutM;

    internal int NodeCount { get; private set; }

    internal IReadOnlyList<LinkKind> Links => _links;

    internal int[] A { get; private set; } = [];

    internal int[] B { get; private set; } = [];

    /// <summary>Builds the graph of a route.</summary>
    /// <param name="route">The route, its exits and the trails beside it.</param>
    /// <param name="options">How exits are joined; null for the defaults.</param>
    /// <returns>The graph.</returns>
    /// <exception cref="ArgumentException">
    /// The route has no length; an exit lies beyond its end or has neither place nor distance; two exits share a name; a trail names an exit
    /// that is not listed or a distance beyond the end; the places are not one more than the steps. The message names the item.
    /// </exception>
    public static ExitGraph Build(EscapeRoute route, ExitGraphOptions? options = null)
    {
        Guard.NotNull(route);
        options ??= new ExitGraphOptions();
        double routeM = 0;
        var endM = new double[route.Steps.Count + 1];
        for (int i = 0; i < route.Steps.Count; i++)
        {
            endM[i + 1] = routeM += route.Steps[i].LengthM;
        }

        if (!(routeM > 0))
        {
            throw new ArgumentException("The route needs at least one step with a length above 0 m.", nameof(route));
        }

        if (route.Places.Count > 0 && route.Places.Count != route.Steps.Count + 1)
        {
            throw new ArgumentException($"Places holds {Text.F(route.Places.Count, 0)} points; {Text.F(route.Steps.Count + 1, 0)} are expected, one more than steps.", nameof(route));
        }

        var names = new HashSet<string>(StringComparer.Ordinal);
        foreach (ExitPoint exit in route.Exits)
        {
            if (!names.Add(exit.Name))
            {
                throw new ArgumentException($"Two exits are named '{exit.Name}'.", nameof(route));
            }

            if (exit.Place is null && exit.AlongRoute is null && !route.Trails.Any(t => t.From.Exit == exit.Name || t.To?.Exit == exit.Name))
            {
                throw new ArgumentException($"Exit '{exit.Name}' has neither a place nor a distance along the route, and no trail leads to it.", nameof(route));
            }

            if (exit.AlongRoute is { } along)
            {
                OnRoute(along.Meters, routeM, $"Exit '{exit.Name}'");
            }
        }

        foreach (EscapeTrail trail in route.Trails)
        {
            foreach (TrailEnd end in trail.To is null ? [trail.From] : new[] { trail.From, trail.To })
            {
                if (end.Exit is not null && !names.Contains(end.Exit))
                {
                    throw new ArgumentException($"Trail '{trail.Name}' leads to the exit '{end.Exit}', which is not listed.", nameof(route));
                }

                if (!double.IsNaN(end.AlongM))
                {
                    OnRoute(end.AlongM, routeM, $"Trail '{trail.Name}'");
                }
            }
        }

        var findings = new List<Finding>();
        var joined = new List<(ExitPoint Exit, double AlongM, double OffM)>();
        var passes = new List<(string Exit, double AlongM)>();
        List<CrossingKernel.Meeting> crossings = Crossings(route, options, endM, findings);
        foreach (ExitPoint exit in route.Exits.OrderBy(e => e.Name, StringComparer.Ordinal))
        {
            bool hasTrail = route.Trails.Any(t => t.From.Exit == exit.Name || t.To?.Exit == exit.Name);
            if (exit.AlongRoute is { } along)
            {
                joined.Add((exit, Math.Min(along.Meters, routeM), 0));
            }
            else if (exit.Place is { } place && route.Places.Count > 0)
            {
                (double offM, double atM) = Nearest(route.Places, endM, place);
                if (offM <= options.OnRouteTolerance.Meters)
                {
                    joined.Add((exit, atM, 0));
                    passes.AddRange(OtherPasses(route.Places, endM, place, options.OnRouteTolerance.Meters, atM).Select(m => (exit.Name, m)));
                }
                else if (hasTrail)
                {
                    joined.Add((exit, double.NaN, 0));
                }
                else if (options.Fallback == StraightLineFallback.FromNearestPoint)
                {
                    joined.Add((exit, atM, offM));
                    findings.Add(new Finding(
                        EscapeFindingCodes.StraightLine,
                        FindingSeverity.Caution,
                        exit.Name,
                        $"No trail to the exit '{exit.Name}' is given: its way is a straight line of {Text.F(offM, 0)} m from km {Text.F(atM / 1000, 2)} times {Text.F(options.DetourFactor, 2)}, off the path. Cliffs and rivers are not seen.",
                        new FindingValue("straight_m", Text.F(offM, 0)),
                        new FindingValue("detour_factor", Text.F(options.DetourFactor, 2))));
                }
                else
                {
                    Unreached(exit);
                }
            }
            else if (hasTrail)
            {
                joined.Add((exit, double.NaN, 0));
            }
            else
            {
                Unreached(exit);
            }
        }

        var cuts = new List<double>(endM);
        cuts.AddRange(joined.Where(j => !double.IsNaN(j.AlongM)).Select(j => j.AlongM));
        cuts.AddRange(route.Trails.SelectMany(t => new[] { t.From.AlongM, t.To?.AlongM ?? double.NaN }).Where(m => !double.IsNaN(m)).Select(m => Math.Min(m, routeM)));
        cuts.AddRange(passes.Select(p => p.AlongM));
        cuts.AddRange(crossings.SelectMany(c => new[] { c.FirstM, c.SecondM }));
        cuts.Sort();
        var cutM = new List<double>(cuts.Count) { 0 };
        foreach (double m in cuts)
        {
            if (m - cutM[^1] > SamePlaceM)
            {
                cutM.Add(m);
            }
        }

        var graph = new ExitGraph(route, options, [.. cutM]);
        graph.AddRoute(endM);
        graph.NodeCount = cutM.Count;
        foreach ((ExitPoint exit, double alongM, double offM) in joined)
        {
            int node;
            if (double.IsNaN(alongM) || offM > 0)
            {
                node = graph.NodeCount++;
            }
            else
            {
                node = graph.NodeAt(alongM);
            }

            graph._exitNodes.Add(exit.Name, node);
            if (offM > 0)
            {
                double rise = exit.Place is { } p && double.IsFinite(p.ElevationM) && HeightAt(route, endM, alongM) is var h && double.IsFinite(h) ? p.ElevationM - h : 0;
                graph.Add(graph.NodeAt(alongM), node, new LinkKind(new TrailStep(offM * options.DetourFactor, rise), GraphKernel.None, 1, GraphKernel.None, true));
            }
        }

        foreach ((string exit, double alongM) in passes)
        {
            graph.AddPass(graph.NodeAt(alongM), graph._exitNodes[exit], 0);
        }

        foreach (CrossingKernel.Meeting c in crossings)
        {
            graph.AddPass(graph.NodeAt(c.FirstM), graph.NodeAt(c.SecondM), c.GapM);
        }

        graph.AddTrails(findings);
        graph.Exits = [.. joined.Select(j => j.Exit)];
        graph.A = [.. graph._a];
        graph.B = [.. graph._b];
        if (joined.Count == 0)
        {
            findings.Add(new Finding(EscapeFindingCodes.NoExit, FindingSeverity.Refusal, "exits", "No exit is joined to the route: there is no way out to compute."));
        }

        if (route.Trails.Count == 0 && joined.All(j => j.OffM == 0))
        {
            findings.Add(new Finding(
                EscapeFindingCodes.RouteOnly, FindingSeverity.Note, "trails", "No trail beside the route is given: the way out is along the route only, and may be shorter in truth."));
        }

        graph.Findings = findings;
        return graph;

        void Unreached(ExitPoint exit)
            => findings.Add(new Finding(
                EscapeFindingCodes.ExitOffNetwork,
                FindingSeverity.Warning,
                exit.Name,
                $"The exit '{exit.Name}' is not joined to the route: give its distance along the route, a trail that leads to it, or the places of the route. It is left out."));
    }

    /// <summary>Time out from every place of the route.</summary>
    /// <param name="pace">How the way out is covered.</param>
    /// <param name="exits">Names of the exits that count, such as the way home alone; null for all.</param>
    /// <returns>The profile.</returns>
    /// <exception cref="ArgumentException">An unknown exit, a pace made for another route, or a negative time.</exception>
    public WalkOutProfile WalkOut(EscapePace pace, IReadOnlyList<string>? exits = null)
    {
        (double[] onS, double[] backS) = Costs(pace);
        ExitPoint[] targets = [.. exits is null ? Exits : Exits.Where(e => exits.Contains(e.Name))];
        if (exits is not null)
        {
            foreach (string name in exits)
            {
                if (!Route.Exits.Any(e => e.Name == name))
                {
                    throw new ArgumentException($"No exit is named '{name}': {string.Join(", ", Route.Exits.Select(e => e.Name))}.", nameof(exits));
                }
            }
        }

        var least = LeastTimes.ToExits(NodeCount, A, B, onS, backS, [.. targets.Select(e => _exitNodes[e.Name])]);
        return new WalkOutProfile(this, pace, targets, onS, backS, least);
    }

    /// <summary>The ways out from one place, ranked: what can be left, with what is in hand, in the least time.</summary>
    /// <param name="alongRoute">Where the rider is; 0 to the length of the route.</param>
    /// <param name="pace">How the way out is covered.</param>
    /// <param name="conditions">Rates, clock, darkness and air; null for none.</param>
    /// <param name="accounts">What is in hand now, with reserves; null when nothing limits.</param>
    /// <returns>The ranking.</returns>
    /// <exception cref="ArgumentException">Outside the route, or no rate for an account; the message names it.</exception>
    public BailOutRanking BailOuts(Length alongRoute, EscapePace pace, WayOutConditions? conditions = null, IReadOnlyList<ResourceAccount>? accounts = null)
    {
        double atM = Guard.InRange(alongRoute.Meters, 0, _cutM[^1], "m", nameof(alongRoute));
        conditions ??= new WayOutConditions();
        accounts ??= [];
        (double[] onS, double[] backS) = Costs(pace);
        WalkOutProfile profile = WalkOut(pace);
        double factor = profile.Factor(conditions.QuantileProbability), high = profile.Factor(0.9);
        LeastTimes least = FromPlace(atM, onS, backS, out int here);
        var options = new List<BailOutOption>();
        foreach (ExitPoint exit in Exits)
        {
            int node = _exitNodes[exit.Name];
            double s = least.TimeS[node];
            if (!double.IsFinite(s))
            {
                continue;
            }

            (WayOut way, int trail, bool straight, double lengthM) = Way(least, node, here, atM);
            WalkOutNeeds needs = NeedsKernel.Of(Length.FromMeters(atM), s * factor, pace.Mode, conditions);
            ResourceAmount[] missing =
            [
                .. accounts.Select(a => ResourceAmount.Of(a.Kind, Math.Max(0, Need(a.Kind, needs) + a.Reserve.Value - a.Available.Value))).Where(m => m.Value > 1e-12),
            ];
            options.Add(new BailOutOption(
                exit,
                pace.SpreadFactor > 0
                    ? new Estimate<TimeSpan>(TimeSpan.FromSeconds(s), TimeSpan.FromSeconds(s / high), TimeSpan.FromSeconds(s * high))
                    : Estimate.Exact(TimeSpan.FromSeconds(s)),
                Length.FromMeters(lengthM),
                way,
                trail == GraphKernel.None ? null : Route.Trails[trail].Name,
                straight,
                needs,
                missing,
                false));
        }

        BailOutOption[] ranked =
        [
            .. options.Select(o => o with { Dominated = options.Any(p => p != o && Dominates(p, o)) })
                .OrderBy(o => o.Missing.Count > 0).ThenBy(o => o.Time.Typical).ThenBy(o => o.Exit.Name, StringComparer.Ordinal),
        ];
        BailOutOption? best = ranked.FirstOrDefault(o => o.Suffices);
        var findings = new List<Finding>(Findings);
        if (ranked.Length == 0 && Exits.Count > 0)
        {
            findings.Add(new Finding(EscapeFindingCodes.NoWayOut, FindingSeverity.Warning, pace.Name, $"From km {Text.F(atM / 1000, 1)} no exit can be reached at this pace: wait and call."));
        }
        else if (best is null && ranked.Length > 0)
        {
            findings.Add(new Finding(
                EscapeFindingCodes.ResourceShort,
                FindingSeverity.Warning,
                ranked[0].Exit.Name,
                $"No exit can be reached with what is in hand; to the nearest, '{ranked[0].Exit.Name}', {string.Join(", ", ranked[0].Missing.Select(x => $"{x} of {x.Kind}"))} is missing. Weigh waiting, and call early."));
        }

        return new BailOutRanking(Length.FromMeters(atM), ranked, best, findings);

        double Need(ResourceKind kind, WalkOutNeeds needs)
            => needs.Amounts.Where(a => a.Kind == kind).Select(a => (double?)a.Value).FirstOrDefault()
                ?? (kind == ResourceKind.Time ? needs.Time!.Value.TotalHours : throw new ArgumentException($"No rate of {kind} is given for the mode {pace.Mode}.", nameof(conditions)));

        static bool Dominates(BailOutOption p, BailOutOption o)
        {
            bool asGood = p.Time.Typical <= o.Time.Typical && (p.Suffices || !o.Suffices) && (!p.UsesStraightLine || o.UsesStraightLine)
                && Worth(p.Exit.Phone) >= Worth(o.Exit.Phone) && Worth(p.Exit.PickUp) >= Worth(o.Exit.PickUp);
            bool better = p.Time.Typical < o.Time.Typical || (p.Suffices && !o.Suffices) || (!p.UsesStraightLine && o.UsesStraightLine)
                || Worth(p.Exit.Phone) > Worth(o.Exit.Phone) || Worth(p.Exit.PickUp) > Worth(o.Exit.PickUp);
            return asGood && better;
        }

        static int Worth(Known known) => known switch { Known.Yes => 2, Known.Unknown => 1, _ => 0 };
    }

    /// <summary>
    /// What taking each trail beside the route by mistake costs: time lost by turning round, by the best known way back to the route, and time out,
    /// when it is noticed late.
    /// </summary>
    /// <param name="riding">How the rider goes on the wrong trail, and back.</param>
    /// <param name="walkOut">Time out at the pace after trouble.</param>
    /// <param name="noticedAfter">When the mistake is noticed; null for 5, 15 and 30 minutes.</param>
    /// <param name="marks">[0 or more] How many of the worst are marked for the cue sheet.</param>
    /// <returns>One for each end of a trail on the route, the worst first: by time lost on the best way back plus growth of the time out, at the latest notice.</returns>
    /// <exception cref="ArgumentException">The profile belongs to another graph, or a time is not positive.</exception>
    public IReadOnlyList<WrongTurn> WrongTurns(EscapePace riding, WalkOutProfile walkOut, IReadOnlyList<TimeSpan>? noticedAfter = null, int marks = 3)
    {
        Guard.NotNull(walkOut);
        Guard.InRange(marks, 0, int.MaxValue, "marks");
        if (walkOut.Graph != this)
        {
            throw new ArgumentException("The profile belongs to another graph.", nameof(walkOut));
        }

        TimeSpan[] after = [.. (noticedAfter ?? [.. EscapeConstants.NoticedMinutes.Select(m => TimeSpan.FromMinutes(m))]).Order()];
        if (after.Length == 0 || after[0] <= TimeSpan.Zero)
        {
            throw new ArgumentException("noticedAfter needs at least one time above zero.", nameof(noticedAfter));
        }

        (double[] onS, double[] backS) = Costs(riding);
        (LeastTimes rejoin, double[] progressS) = Rejoining(onS, backS);
        var turns = new List<WrongTurn>();
        for (int t = 0; t < Route.Trails.Count; t++)
        {
            int[] links = [.. Enumerable.Range(0, _links.Count).Where(i => _links[i].Trail == t)];
            if (links.Length == 0)
            {
                continue;
            }

            if (!double.IsNaN(Route.Trails[t].From.AlongM))
            {
                turns.Add(Turn(t, links, forward: true));
            }

            if (Route.Trails[t].To is { } to && !double.IsNaN(to.AlongM))
            {
                turns.Add(Turn(t, [.. links.Reverse()], forward: false));
            }
        }

        WrongTurn[] ordered = [.. turns.OrderByDescending(w => w.Cost).ThenBy(w => w.AlongRoute).ThenBy(w => w.Trail, StringComparer.Ordinal)];
        return [.. ordered.Select((w, i) => w with { Marked = i < marks })];

        WrongTurn Turn(int trail, int[] links, bool forward)
        {
            int junction = forward ? A[links[0]] : B[links[0]];
            double atM = _cutM[junction];
            var notices = new List<LateNotice>();
            foreach (TimeSpan limit in after)
            {
                double s = 0, back = 0, m = 0, left = limit.TotalSeconds;
                bool ends = true;
                double outS = walkOut.TimeAtNode(junction);
                string? exit = walkOut.ExitAtNode(junction);
                int at = GraphKernel.None;
                double part = 0;
                foreach (int i in links)
                {
                    double go = forward ? onS[i] : backS[i], home = forward ? backS[i] : onS[i];
                    double share = go > 0 ? Math.Min(1, left / go) : 1;
                    if (!double.IsFinite(go))
                    {
                        break;
                    }

                    s += share * go;
                    back += share * home;
                    m += share * _links[i].Step.LengthM;
                    left -= go;
                    (at, part) = (i, forward ? share : 1 - share);
                    outS = walkOut.TimeInLink(at, part);
                    exit = walkOut.ExitInLink(at, part);
                    if (left <= 0)
                    {
                        ends = left == 0 && i == links[^1];
                        break;
                    }
                }

                double lost = s + back;
                (double rejoinS, double rejoinM) = at == GraphKernel.None ? (0, atM) : Rejoin(at, part);
                double least = Math.Max(0, s + rejoinS - (progressS[^1] - progressS[junction]));
                notices.Add(new LateNotice(
                    limit,
                    Length.FromMeters(m),
                    double.IsFinite(lost) ? TimeSpan.FromSeconds(lost) : null,
                    double.IsFinite(outS) ? TimeSpan.FromSeconds(outS) : null,
                    ends,
                    double.IsFinite(least) ? TimeSpan.FromSeconds(least) : null,
                    double.IsFinite(least) ? Length.FromMeters(rejoinM) : null,
                    exit));
            }

            double here = walkOut.TimeAtNode(junction);
            LateNotice last = notices[^1];
            double cost = last.LeastExtraTime is { } extra && last.WalkOut is { } w && double.IsFinite(here)
                ? extra.TotalSeconds + Math.Max(0, w.TotalSeconds - here)
                : double.PositiveInfinity;
            return new WrongTurn(
                Length.FromMeters(atM), Route.Trails[trail].Name, double.IsFinite(here) ? TimeSpan.FromSeconds(here) : null, notices, false) { Cost = cost };
        }

        // Time from inside a link to the route, plus what is then left of the route, and where the route is met.
        (double TimeS, double AlongM) Rejoin(int link, double part)
        {
            double back = ProfileKernel.BackS(rejoin.TimeS[A[link]], backS[link], part), on = ProfileKernel.OnwardS(rejoin.TimeS[B[link]], onS[link], part);
            int node = on < back ? B[link] : A[link];
            while (rejoin.Next[node] is var next && next >= 0 && next != NodeCount)
            {
                node = next;
            }

            return (Math.Min(back, on), node < _cutM.Length ? _cutM[node] : double.NaN);
        }
    }

    /// <summary>
    /// From every node the least time to any place of the route plus the riding time left from there, and the riding time from the start to each
    /// node of the route. Parts of the route past a step that cannot be ridden on do not count.
    /// </summary>
    private (LeastTimes Least, double[] ProgressS) Rejoining(double[] onS, double[] backS)
    {
        int pieces = _cutM.Length - 1;
        var progressS = new double[_cutM.Length];
        int last = 0;
        for (int i = 0; i < pieces && double.IsFinite(onS[i]); i++)
        {
            progressS[i + 1] = progressS[i] + onS[i];
            last = i + 1;
        }

        for (int i = last + 1; i < progressS.Length; i++)
        {
            progressS[i] = progressS[last];
        }

        // One more node behind the route: it is reached from each place of the route in the time that is left of it.
        int[] places = [.. Enumerable.Range(0, last + 1)];
        int[] a = [.. A, .. places], b = [.. B, .. places.Select(_ => NodeCount)];
        double[] on = [.. onS, .. places.Select(i => progressS[last] - progressS[i])];
        double[] back = [.. backS, .. places.Select(_ => double.PositiveInfinity)];
        return (LeastTimes.ToExits(NodeCount + 1, a, b, on, back, [NodeCount]), progressS);
    }

    internal int NodeOf(string exit) => _exitNodes[exit];

    /// <summary>How the way from a place to a node begins, and what it uses.</summary>
    private (WayOut Way, int Trail, bool Straight, double LengthM) Way(LeastTimes least, int node, int here, double atM)
    {
        double lengthM = 0;
        int trail = GraphKernel.None;
        bool straight = false;
        WayOut way = WayOut.Here;
        while (node != here)
        {
            int from = least.Next[node], via = least.Via[node];
            if (via >= _links.Count)
            {
                // The part of the piece that holds the place.
                double m = Math.Abs(_cutM[node] - atM);
                lengthM += m;
                way = m > 0 ? (_cutM[node] > atM ? WayOut.On : WayOut.Back) : way;
            }
            else
            {
                LinkKind link = _links[via];
                lengthM += link.Step.LengthM;
                straight |= link.OffPath;
                trail = link.Trail != GraphKernel.None ? link.Trail : trail;
                way = link.OffPath ? WayOut.StraightLine : link.Trail != GraphKernel.None ? WayOut.SideTrail
                    : link.RouteStep == GraphKernel.None ? WayOut.OtherPass : node > from ? WayOut.On : WayOut.Back;
            }

            node = from;
        }

        return (way, trail, straight, lengthM);
    }

    internal (double[] OnS, double[] BackS) Costs(EscapePace pace)
    {
        Guard.NotNull(pace);
        if (pace.RouteSteps is { } n && n != Route.Steps.Count)
        {
            throw new ArgumentException($"The pace '{pace.Name}' holds times of {Text.F(n, 0)} steps; the route has {Text.F(Route.Steps.Count, 0)}.", nameof(pace));
        }

        var onS = new double[_links.Count];
        var backS = new double[_links.Count];
        for (int i = 0; i < onS.Length; i++)
        {
            LinkKind link = _links[i];
            if (link.RouteStep == GraphKernel.None && link.Step.LengthM <= 0)
            {
                continue;
            }

            onS[i] = pace.Seconds(link.Step, link.RouteStep, true, link.OffPath, link.Share);
            backS[i] = pace.Seconds(link.Step.Reversed(), link.RouteStep, false, link.OffPath, link.Share);
        }

        return (onS, backS);
    }

    /// <summary>The route piece that holds a distance; pieces are the first links.</summary>
    internal int PieceAt(double alongM)
    {
        int i = Array.BinarySearch(_cutM, alongM);
        return Math.Clamp(i >= 0 ? i : ~i - 1, 0, _cutM.Length - 2);
    }

    /// <summary>Least times from a place of the route to every node, and on which end of its piece they begin.</summary>
    internal LeastTimes FromPlace(double alongM, double[] onS, double[] backS, out int node)
    {
        // The place becomes a node of its own between the ends of its piece.
        int piece = PieceAt(alongM);
        double y = (alongM - _cutM[piece]) / (_cutM[piece + 1] - _cutM[piece]);
        node = NodeCount;
        int[] a = [.. A, node, node];
        int[] b = [.. B, piece, piece + 1];
        double[] on = [.. onS, Part(y, backS[piece]), Part(1 - y, onS[piece])];
        double[] back = [.. backS, double.PositiveInfinity, double.PositiveInfinity];
        return LeastTimes.From(NodeCount + 1, a, b, on, back, node);

        static double Part(double share, double s) => share <= 0 ? 0 : share * s;
    }

    private static void OnRoute(double alongM, double routeM, string what)
    {
        // Distances read from another device differ a little from the sum of the steps.
        double slackM = Math.Max(1, routeM * 1e-6);
        if (alongM > routeM + slackM)
        {
            throw new ArgumentException($"{what} is at {Text.F(alongM, 1)} m, off the route: it is {Text.F(routeM, 1)} m long.", nameof(alongM));
        }
    }

    private static (double OffM, double AlongM) Nearest(IReadOnlyList<GeoPoint> places, double[] endM, GeoPoint place)
    {
        double best = double.PositiveInfinity, at = 0;
        (double x0, double y0) = PlaneKernel.Offset(place, places[0]);
        for (int i = 1; i < places.Count; i++)
        {
            (double x1, double y1) = PlaneKernel.Offset(place, places[i]);
            (double d, double t) = PlaneKernel.ToChord(x0, y0, x1, y1);
            if (d < best)
            {
                best = d;
                at = endM[i - 1] + (t * (endM[i] - endM[i - 1]));
            }

            (x0, y0) = (x1, y1);
        }

        return (best, at);
    }

    /// <summary>Where the route meets itself on the ground, with findings of what was joined and what was not.</summary>
    private static List<CrossingKernel.Meeting> Crossings(EscapeRoute route, ExitGraphOptions options, double[] endM, List<Finding> findings)
    {
        foreach (Length bridge in options.Bridges)
        {
            OnRoute(Guard.NotNegative(bridge.Meters, "m", nameof(options)), endM[^1], "A bridge");
        }

        if (options.Crossings == RouteCrossings.KeepApart || route.Places.Count == 0)
        {
            return [];
        }

        double[] eastM = new double[endM.Length], northM = new double[endM.Length], heightM = new double[endM.Length];
        for (int i = 0; i < endM.Length; i++)
        {
            (eastM[i], northM[i]) = PlaneKernel.Offset(route.Places[0], route.Places[i]);
            heightM[i] = route.Places[i].ElevationM;
        }

        List<CrossingKernel.Meeting> met = CrossingKernel.Find(eastM, northM, heightM, endM, options.CrossingM, ExitGraphOptions.LeastLoopM);
        List<CrossingKernel.Meeting> apart = [.. met.Where(c => Math.Abs(c.RiseM) > options.CrossingHeightM || options.Bridges.Any(b => IsNear(b.Meters, c)))];
        met.RemoveAll(apart.Contains);
        Report(met, EscapeFindingCodes.CrossingJoined, FindingSeverity.Caution, "joined as if on the ground. Where one part passes over the other, name the bridge: else the way out is too short there");
        Report(apart, EscapeFindingCodes.CrossingApart, FindingSeverity.Note, "not joined: a bridge was named, or the heights differ");
        return met;

        static bool IsNear(double bridgeM, in CrossingKernel.Meeting c) => Math.Min(Math.Abs(c.FirstM - bridgeM), Math.Abs(c.SecondM - bridgeM)) <= ExitGraphOptions.BridgeM;

        void Report(List<CrossingKernel.Meeting> list, string code, FindingSeverity severity, string what)
        {
            if (list.Count == 0)
            {
                return;
            }

            const int Named = 3;
            string where = string.Join("; ", list.Take(Named).Select(c => $"km {Text.F(c.FirstM / 1000, 2)} and km {Text.F(c.SecondM / 1000, 2)}"));
            string rest = list.Count > Named ? $" and {Text.F(list.Count - Named, 0)} more places" : "";
            findings.Add(new Finding(
                code, severity, "route", $"The route comes within {Text.F(options.CrossingM, 1)} m of itself at {where}{rest}: {what}.",
                new FindingValue("places", Text.F(list.Count, 0)), new FindingValue("tolerance_m", Text.F(options.CrossingM, 1))));
        }
    }

    /// <summary>Further parts of the route that pass within a distance of a place: the nearest point of each.</summary>
    private static List<double> OtherPasses(IReadOnlyList<GeoPoint> places, double[] endM, GeoPoint place, double withinM, double nearestM)
    {
        var passes = new List<double>();
        double best = double.PositiveInfinity, at = 0;
        (double x0, double y0) = PlaneKernel.Offset(place, places[0]);
        for (int i = 1; i <= places.Count; i++)
        {
            double d = double.PositiveInfinity, t = 0;
            if (i < places.Count)
            {
                (double x1, double y1) = PlaneKernel.Offset(place, places[i]);
                (d, t) = PlaneKernel.ToChord(x0, y0, x1, y1);
                (x0, y0) = (x1, y1);
            }

            if (d <= withinM)
            {
                if (d < best)
                {
                    (best, at) = (d, endM[i - 1] + (t * (endM[i] - endM[i - 1])));
                }
            }
            else if (double.IsFinite(best))
            {
                if (Math.Abs(at - nearestM) > SamePlaceM)
                {
                    passes.Add(at);
                }

                best = double.PositiveInfinity;
            }
        }

        return passes;
    }

    private static double HeightAt(EscapeRoute route, double[] endM, double alongM)
    {
        int i = Array.BinarySearch(endM, alongM);
        i = Math.Clamp(i >= 0 ? i : ~i - 1, 0, route.Steps.Count - 1);
        double h0 = route.Places[i].ElevationM, h1 = route.Places[i + 1].ElevationM;
        double length = endM[i + 1] - endM[i];
        return length > 0 ? h0 + ((h1 - h0) * (alongM - endM[i]) / length) : h0;
    }

    private void AddRoute(double[] endM)
    {
        int step = 0;
        for (int i = 0; i + 1 < _cutM.Length; i++)
        {
            double mid = (_cutM[i] + _cutM[i + 1]) / 2;
            while (endM[step + 1] < mid)
            {
                step++;
            }

            TrailStep whole = Route.Steps[step];
            double length = _cutM[i + 1] - _cutM[i];
            double share = length / whole.LengthM;
            Add(i, i + 1, new LinkKind(
                new TrailStep(length, whole.RiseM * share, whole.ElevationM, whole.BearingDeg, whole.Surface, whole.Difficulty), step, share, GraphKernel.None, false));
        }
    }

    private void AddTrails(List<Finding> findings)
    {
        var junctions = new Dictionary<string, int>(StringComparer.Ordinal);
        for (int t = 0; t < Route.Trails.Count; t++)
        {
            EscapeTrail trail = Route.Trails[t];
            if (End(trail.From) is not { } from || (trail.To is { } far && End(far) is null))
            {
                findings.Add(new Finding(
                    EscapeFindingCodes.TrailUnjoined, FindingSeverity.Caution, trail.Name, $"Trail '{trail.Name}' leads to an exit that is not joined; it is left out."));
                continue;
            }

            for (int i = 0; i < trail.Steps.Count; i++)
            {
                int to = i < trail.Steps.Count - 1 || trail.To is null ? NodeCount++ : End(trail.To)!.Value;
                Add(from, to, new LinkKind(trail.Steps[i], GraphKernel.None, 1, t, false));
                from = to;
            }
        }

        int? End(TrailEnd end)
        {
            if (end.Exit is not null)
            {
                return _exitNodes.TryGetValue(end.Exit, out int node) ? node : null;
            }

            if (end.Junction is not null)
            {
                if (!junctions.TryGetValue(end.Junction, out int node))
                {
                    junctions.Add(end.Junction, node = NodeCount++);
                }

                return node;
            }

            return NodeAt(Math.Min(end.AlongM, _cutM[^1]));
        }
    }

    /// <summary>Joins two nodes that are one place on the ground.</summary>
    private void AddPass(int a, int b, double gapM)
    {
        if (a != b)
        {
            Add(a, b, new LinkKind(new TrailStep(gapM, 0), GraphKernel.None, 1, GraphKernel.None, false));
        }
    }

    private int NodeAt(double alongM)
    {
        int i = Array.BinarySearch(_cutM, alongM);
        if (i >= 0)
        {
            return i;
        }

        i = ~i;
        return i >= _cutM.Length || (i > 0 && alongM - _cutM[i - 1] <= _cutM[i] - alongM) ? i - 1 : i;
    }

    private void Add(int a, int b, LinkKind kind)
    {
        _a.Add(a);
        _b.Add(b);
        _links.Add(kind);
    }

    /// <summary>What a link is made of.</summary>
    /// <param name="Step">In the direction from its first node.</param>
    /// <param name="RouteStep">Step of the route, or -1.</param>
    /// <param name="Share">Share of that step.</param>
    /// <param name="Trail">Index of the trail, or -1.</param>
    /// <param name="OffPath">Whether it is a straight line over unknown ground.</param>
    internal readonly record struct LinkKind(TrailStep Step, int RouteStep, double Share, int Trail, bool OffPath);
}
