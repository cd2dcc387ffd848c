using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>
/// Finds loops from a trailhead. What cannot be part of a loop is taken away and chains become one link; then every simple ring with its
/// stem is walked within a bound of steps. Where that bound ends first, rings are closed over shortest-path trees whose lengths are
/// disturbed from one tree to the next.
/// </summary>
internal sealed class LoopSearch
{
    /// <summary>Share of the steps that walking every loop may use.</summary>
    private const int WalkShare = 8;

    [Source("assumption-routes-loop-wish", "enough within 0.2 % of the wished length")]
    private const double NearEnoughFraction = 0.002;

    private const int MostKept = 100_000;
    private const int MostTrees = 400;

    private readonly RouteNetwork _network;
    private readonly LoopRequest _request;
    private readonly CancellationToken _cancellation;
    private readonly List<Link> _links = [];
    private readonly List<Candidate> _found = [];
    private readonly HashSet<string> _known = new(StringComparer.Ordinal);
    private int[] _first = [];
    private int[] _arc = [];
    private int[] _head = [];
    private double[] _homeM = [];
    private int _nodes;
    private long _steps;
    private double _nearestShortM = double.NegativeInfinity;
    private int _seen;

    private LoopSearch(RouteNetwork network, LoopRequest request, CancellationToken cancellation)
    {
        _network = network;
        _request = request;
        _cancellation = cancellation;
    }

    public static LoopChoice Run(RouteNetwork network, LoopRequest request, CancellationToken cancellation)
    {
        if (request.LongestM < request.ShortestM)
        {
            throw new ArgumentException($"Longest is {Text.F(request.LongestM, 0)} m, below Shortest, {Text.F(request.ShortestM, 0)} m.", nameof(request));
        }

        if (request.WishedM < request.ShortestM || request.WishedM > request.LongestM)
        {
            throw new ArgumentException($"Wished is {Text.F(request.WishedM, 0)} m; allowed are {Text.F(request.ShortestM, 0)} to {Text.F(request.LongestM, 0)} m, the range of length.", nameof(request));
        }

        if (request.MostAscentM < request.LeastAscentM)
        {
            throw new ArgumentException($"MostAscent is {Text.F(request.MostAscentM, 0)} m, below LeastAscent, {Text.F(request.LeastAscentM, 0)} m.", nameof(request));
        }

        var findings = new List<Finding>();
        if (network.Attach(request.Trailhead, request.Options, "trailhead", findings) is not { } place)
        {
            return new LoopChoice([], false, 0, null, findings);
        }

        LoopSearch search = Over(network, request, place, cancellation, out bool all);
        return search.Choose(place, all, findings);
    }

    private static LoopSearch Over(RouteNetwork network, LoopRequest request, NetworkPlace place, CancellationToken cancellation, out bool all)
    {
        var search = new LoopSearch(network, request, cancellation);
        search.Gather(place);
        all = search.Walk();
        if (!all)
        {
            search.Trees();
        }

        return search;
    }

    private bool NeedsAscent => !double.IsNaN(_request.LeastAscentM) || !double.IsNaN(_request.MostAscentM);

    private bool AscentFits(double upM) => !NeedsAscent || (upM >= (double.IsNaN(_request.LeastAscentM) ? 0 : _request.LeastAscentM) && upM <= (double.IsNaN(_request.MostAscentM) ? double.PositiveInfinity : _request.MostAscentM));

    // The part of the network that a loop can reach, without dead ends, chains as one link.
    private void Gather(NetworkPlace root)
    {
        NetworkTrail[] trails = _network.All;
        var cost = new double[2 * trails.Length];
        foreach (NetworkTrail t in trails)
        {
            bool any = _network.Bars(t, false, _request.Options) == 0 || _network.Bars(t, true, _request.Options) == 0;
            cost[2 * t.Index] = cost[(2 * t.Index) + 1] = any ? t.LengthM : double.PositiveInfinity;
        }

        var label = new double[_network.NodeCount];
        var via = new int[_network.NodeCount];
        double half = _request.LongestM / 2;
        NetworkTrail home = root.Trail;
        bool open = double.IsFinite(cost[2 * home.Index]);
        NetworkSearchKernel.Run(_network.FirstArc, _network.Arcs, _network.Heads, cost,
            open || root.AlongM <= 0.01 || home.LengthM - root.AlongM <= 0.01
                ? [(home.From, root.AlongM <= 0.01 ? 0 : open ? root.AlongM : double.PositiveInfinity, -2), (home.To, home.LengthM - root.AlongM <= 0.01 ? 0 : open ? home.LengthM - root.AlongM : double.PositiveInfinity, -2)]
                : [],
            [], 0, [], default, half, label, via);
        var number = new int[label.Length];
        Array.Fill(number, -1);
        _nodes = 1;
        int at = root.AlongM <= 0.01 ? home.From : home.LengthM - root.AlongM <= 0.01 ? home.To : -1;
        if (at >= 0)
        {
            number[at] = 0;
        }

        for (int i = 0; i < label.Length; i++)
        {
            if (double.IsFinite(label[i]) && number[i] < 0)
            {
                number[i] = _nodes++;
            }
        }

        foreach (NetworkTrail t in trails)
        {
            if (number[t.From] < 0 || number[t.To] < 0 || !double.IsFinite(cost[2 * t.Index]) || label[t.From] + t.LengthM + label[t.To] > _request.LongestM * (1 + 1e-9) && t != home)
            {
                continue;
            }

            if (t == home && at < 0)
            {
                Add(t, 0, root.AlongM, number[t.From], 0);
                Add(t, root.AlongM, t.LengthM, 0, number[t.To]);
            }
            else
            {
                Add(t, 0, t.LengthM, number[t.From], number[t.To]);
            }
        }

        Contract();

        void Add(NetworkTrail t, double from, double to, int u, int v)
        {
            var part = new WayPart(t, from, to, false);
            (double up, double down) = t.HasHeights ? part.Climbing() : (double.NaN, double.NaN);
            _links.Add(new Link(u, v, to - from, up, down, _network.Bars(t, false, _request.Options) == 0, _network.Bars(t, true, _request.Options) == 0, [part]));
        }
    }

    private void Contract()
    {
        var at = new List<int>[_nodes];
        for (int i = 0; i < _nodes; i++)
        {
            at[i] = [];
        }

        var alive = new List<bool>();
        var queue = new Queue<int>(Enumerable.Range(1, Math.Max(0, _nodes - 1)));
        for (int i = 0; i < _links.Count; i++)
        {
            Tie(i);
        }

        while (queue.TryDequeue(out int node))
        {
            if (node == 0)
            {
                continue;
            }

            int[] links = [.. at[node]];
            if (links.Length == 1)
            {
                Untie(links[0]);
            }
            else if (links.Length == 2 && links[0] != links[1])
            {
                Link a = _links[links[0]].V == node ? _links[links[0]] : _links[links[0]].Turned();
                Link b = _links[links[1]].U == node ? _links[links[1]] : _links[links[1]].Turned();
                Untie(links[0]);
                Untie(links[1]);
                Link both = a.Then(b);
                if (both.On || both.Back)
                {
                    _links.Add(both);
                    Tie(_links.Count - 1);
                }
            }
        }

        Link[] kept = [.. _links.Where((l, i) => alive[i])];
        _links.Clear();
        _links.AddRange(kept);
        _first = new int[_nodes + 1];
        foreach (Link l in _links)
        {
            _first[l.U + 1]++;
            _first[l.V + 1]++;
        }

        for (int i = 1; i <= _nodes; i++)
        {
            _first[i] += _first[i - 1];
        }

        int[] next = [.. _first];
        _arc = new int[2 * _links.Count];
        _head = new int[2 * _links.Count];
        for (int i = 0; i < _links.Count; i++)
        {
            (_arc[next[_links[i].U]], _head[next[_links[i].U]++]) = (2 * i, _links[i].V);
            (_arc[next[_links[i].V]], _head[next[_links[i].V]++]) = ((2 * i) + 1, _links[i].U);
        }

        void Tie(int i)
        {
            while (alive.Count <= i)
            {
                alive.Add(true);
            }

            at[_links[i].U].Add(i);
            at[_links[i].V].Add(i);
            Again(_links[i]);
        }

        void Untie(int i)
        {
            alive[i] = false;
            at[_links[i].U].Remove(i);
            at[_links[i].V].Remove(i);
            Again(_links[i]);
        }

        void Again(Link l)
        {
            queue.Enqueue(l.U);
            queue.Enqueue(l.V);
        }
    }

    // Every simple path from the trailhead; a link back to the path closes a ring. False when the bound of steps ends first.
    private bool Walk()
    {
        _homeM = Home();
        long most = Math.Max(500, _request.MaxSteps / WalkShare);
        var seat = new int[_nodes];
        Array.Fill(seat, -1);
        var path = new List<(int Node, int Arc, int NextArc, double AtM)> { (0, -1, _first[0], 0) };
        seat[0] = 0;
        while (path.Count > 0)
        {
            (int node, int arrived, int k, double atM) = path[^1];
            if (k >= _first[node + 1])
            {
                seat[node] = -1;
                path.RemoveAt(path.Count - 1);
                continue;
            }

            path[^1] = (node, arrived, k + 1, atM);
            int arc = _arc[k], to = _head[k];
            if (arrived >= 0 && arc >> 1 == arrived >> 1)
            {
                continue;
            }

            if (++_steps > most || _found.Count >= MostKept)
            {
                return false;
            }

            if ((_steps & 0xFFFF) == 0)
            {
                _cancellation.ThrowIfCancellationRequested();
            }

            double reachM = atM + _links[arc >> 1].LengthM;
            if (seat[to] >= 0)
            {
                Close(path, arc, seat[to], reachM);
            }
            else if (reachM + _homeM[to] <= _request.LongestM)
            {
                seat[to] = path.Count;
                path.Add((to, arc, _first[to], reachM));
            }
        }

        return true;
    }

    private void Close(List<(int Node, int Arc, int NextArc, double AtM)> path, int arc, int seat, double reachM)
    {
        // Each ring is met in both directions; the one whose first link comes first is kept.
        int firstArc = seat + 1 < path.Count ? path[seat + 1].Arc : arc;
        bool single = seat + 1 == path.Count;
        if (single ? (arc & 1) == 1 : firstArc >> 1 > arc >> 1)
        {
            return;
        }

        double stemM = path[seat].AtM, lengthM = reachM + stemM;
        if (lengthM > _request.LongestM)
        {
            return;
        }

        if (lengthM < _request.ShortestM)
        {
            _nearestShortM = Math.Max(_nearestShortM, lengthM);
            return;
        }

        if (2 * stemM > _request.MaxRepeatFraction * lengthM)
        {
            return;
        }

        int[] arcs = [.. path.Skip(1).Select(p => p.Arc), arc];
        Keep(arcs, seat);
    }

    /// <summary>Takes a loop that fits: arcs of stem and ring in the order of travel.</summary>
    private bool Keep(int[] arcs, int stem)
    {
        double ring = 0, stemM = 0, up = 0, down = 0, stemUp = 0;
        bool on = true, back = true;
        for (int i = 0; i < arcs.Length; i++)
        {
            Link l = _links[arcs[i] >> 1];
            bool forward = (arcs[i] & 1) == 0, isOn = forward ? l.On : l.Back, isBack = forward ? l.Back : l.On;
            if (i < stem)
            {
                if (!isOn || !isBack)
                {
                    return false;
                }

                stemM += l.LengthM;
                stemUp += l.UpM + l.DownM;
            }
            else
            {
                on &= isOn;
                back &= isBack;
                ring += l.LengthM;
                up += forward ? l.UpM : l.DownM;
                down += forward ? l.DownM : l.UpM;
            }
        }

        on &= AscentFits(stemUp + up);
        back &= AscentFits(stemUp + down);
        if (!on && !back)
        {
            return false;
        }

        int[] set = [.. arcs.Select(a => a >> 1).Distinct().Order()];
        if (!_known.Add(string.Join(',', set)))
        {
            return false;
        }

        _seen++;
        _found.Add(new Candidate(arcs, stem, set, ring + (2 * stemM), 2 * stemM, ring + stemM, stemUp + up, stemUp + down, on, back));
        return true;
    }

    private double[] Home()
    {
        var home = new double[_nodes];
        Tree([.. _links.Select(l => l.LengthM)], home, new int[_nodes], new List<int>());
        return home;
    }

    private void Tree(double[] weight, double[] label, int[] via, List<int> order)
    {
        Array.Fill(label, double.PositiveInfinity);
        Array.Fill(via, -1);
        var queue = new PriorityQueue<int, (double, int)>();
        var done = new bool[_nodes];
        label[0] = 0;
        queue.Enqueue(0, (0, 0));
        while (queue.TryDequeue(out int node, out (double At, int Node) key))
        {
            if (done[node])
            {
                continue;
            }

            done[node] = true;
            order.Add(node);
            for (int k = _first[node]; k < _first[node + 1]; k++)
            {
                _steps++;
                int to = _head[k];
                double reach = key.At + weight[_arc[k] >> 1];
                if (!done[to] && reach < label[to])
                {
                    label[to] = reach;
                    via[to] = _arc[k];
                    queue.Enqueue(to, (reach, to));
                }
            }
        }
    }

    // Rings closed over disturbed trees, until the steps are used up.
    private void Trees()
    {
        int n = _links.Count;
        var use = new double[n];
        var weight = new double[n];
        double[] label = new double[_nodes], atM = new double[_nodes], up = new double[_nodes], down = new double[_nodes];
        int[] via = new int[_nodes], depth = new int[_nodes];
        double wished = _request.WishedM;
        for (int round = 0; round < MostTrees && _steps < _request.MaxSteps; round++)
        {
            // Enough loops as near as anyone can ride a length.
            if (round % 8 == 7 && Distinct() is { } now && now.Count == _request.Count && now.All(c => Math.Abs(c.Loop.LengthM - wished) <= NearEnoughFraction * wished))
            {
                return;
            }

            _cancellation.ThrowIfCancellationRequested();

            // Every fourth tree shuns height, every other fourth is calm; the rest wander.
            double wander = round == 0 ? 0 : (round % 4) switch { 0 => 0.2, 1 => 0.5, 2 => 1, _ => 2 };
            double shun = !double.IsNaN(_request.MostAscentM) && round % 3 == 1 ? 10 : 0;
            for (int i = 0; i < n; i++)
            {
                ulong state = SplitMix64.Mix((ulong)round, (ulong)i);
                double u = SplitMix64.NextUnit(ref state);
                double climb = shun > 0 && !double.IsNaN(_links[i].UpM) ? shun * (_links[i].UpM + _links[i].DownM) / 2 : 0;
                weight[i] = (_links[i].LengthM + climb) * (1 + (wander * u) + use[i]);
            }

            var order = new List<int>(_nodes);
            Tree(weight, label, via, order);
            foreach (int node in order)
            {
                if (via[node] < 0)
                {
                    (atM[node], up[node], down[node], depth[node]) = (0, 0, 0, 0);
                    continue;
                }

                Link l = _links[via[node] >> 1];
                bool forward = (via[node] & 1) == 0;
                int parent = forward ? l.U : l.V;
                atM[node] = atM[parent] + l.LengthM;
                up[node] = up[parent] + (forward ? l.UpM : l.DownM);
                down[node] = down[parent] + (forward ? l.DownM : l.UpM);
                depth[node] = depth[parent] + 1;
            }

            var ends = new List<(double Off, int Link)>();
            for (int i = 0; i < n; i++)
            {
                Link l = _links[i];
                if (double.IsInfinity(label[l.U]) || double.IsInfinity(label[l.V]) || via[l.U] >> 1 == i || via[l.V] >> 1 == i)
                {
                    continue;
                }

                double length = atM[l.U] + l.LengthM + atM[l.V];
                if (length < _request.ShortestM)
                {
                    _nearestShortM = Math.Max(_nearestShortM, length);
                    continue;
                }

                // Out by one branch, back by the other.
                if (length <= _request.LongestM && (!NeedsAscent || AscentFits(up[l.U] + l.UpM + down[l.V]) || AscentFits(up[l.V] + l.DownM + down[l.U])))
                {
                    ends.Add((Math.Abs(length - wished), i));
                }
            }

            ends.Sort();
            int kept = 0;
            var taken = new List<Candidate>();
            foreach ((double _, int i) in ends)
            {
                if (kept >= 16 && taken.Count >= _request.Count)
                {
                    break;
                }

                if (_steps >= _request.MaxSteps)
                {
                    break;
                }

                if (Ring(i, via, depth, atM, out int[] arcs, out int stem) && Keep(arcs, stem))
                {
                    Candidate c = _found[^1];
                    if (taken.All(t => Overlap(t, c) <= _request.MaxOverlapFraction))
                    {
                        taken.Add(c);
                    }
                    else if (++kept > 16)
                    {
                        // The near likes of a loop that is there add nothing.
                        _found.RemoveAt(_found.Count - 1);
                    }
                }
            }

            // What is used becomes dearer for the trees to come.
            foreach (int link in taken.Take(_request.Count).SelectMany(c => c.Set))
            {
                use[link] = Math.Min(4, use[link] + 0.1);
            }
        }
    }

    private bool Ring(int link, int[] via, int[] depth, double[] atM, out int[] arcs, out int stem)
    {
        int u = _links[link].U, v = _links[link].V;
        var left = new List<int>();
        var right = new List<int>();
        while (u != v)
        {
            _steps++;
            if (depth[u] >= depth[v])
            {
                left.Add(via[u]);
                u = (via[u] & 1) == 0 ? _links[via[u] >> 1].U : _links[via[u] >> 1].V;
            }
            else
            {
                right.Add(via[v] ^ 1);
                v = (via[v] & 1) == 0 ? _links[via[v] >> 1].U : _links[via[v] >> 1].V;
            }
        }

        double total = atM[_links[link].U] + _links[link].LengthM + atM[_links[link].V];
        if (2 * atM[u] > _request.MaxRepeatFraction * total)
        {
            arcs = [];
            stem = 0;
            return false;
        }

        var trunk = new List<int>();
        while (via[u] >= 0)
        {
            trunk.Add(via[u]);
            u = (via[u] & 1) == 0 ? _links[via[u] >> 1].U : _links[via[u] >> 1].V;
        }

        stem = trunk.Count;
        trunk.Reverse();
        left.Reverse();
        arcs = [.. trunk, .. left, 2 * link, .. right];
        return true;
    }

    private double Overlap(Candidate a, Candidate b)
    {
        double shared = 0;
        for (int i = 0, j = 0; i < a.Set.Length && j < b.Set.Length;)
        {
            int c = a.Set[i].CompareTo(b.Set[j]);
            if (c == 0)
            {
                shared += _links[a.Set[i]].LengthM;
            }

            i += c <= 0 ? 1 : 0;
            j += c >= 0 ? 1 : 0;
        }

        return shared / Math.Min(a.TrailM, b.TrailM);
    }

    // The nearest to the wished length first; each next one that shares little enough with those before.
    private List<(Candidate Loop, double OverlapFraction)> Distinct()
    {
        double wished = _request.WishedM;
        _found.Sort((x, y) =>
        {
            int c = Math.Abs(x.LengthM - wished).CompareTo(Math.Abs(y.LengthM - wished));
            c = c != 0 ? c : x.RepeatedM.CompareTo(y.RepeatedM);
            c = c != 0 ? c : x.LengthM.CompareTo(y.LengthM);
            return c != 0 ? c : x.Arcs.AsSpan().SequenceCompareTo(y.Arcs);
        });
        var chosen = new List<(Candidate Loop, double OverlapFraction)>();
        foreach (Candidate c in _found)
        {
            double overlap = chosen.Count == 0 ? 0 : chosen.Max(o => Overlap(o.Loop, c));
            if (overlap <= _request.MaxOverlapFraction)
            {
                chosen.Add((c, overlap));
                if (chosen.Count == _request.Count)
                {
                    break;
                }
            }
        }

        return chosen;
    }

    private LoopChoice Choose(NetworkPlace place, bool all, List<Finding> findings)
    {
        double wished = _request.WishedM;
        List<(Candidate Loop, double OverlapFraction)> chosen = Distinct();
        LoopRide[] loops =
        [
            .. chosen.Select(o => new LoopRide(Length.FromMeters(o.Loop.LengthM), o.Loop.RepeatedM / o.Loop.LengthM, o.OverlapFraction, Length.FromMeters(Math.Abs(o.Loop.LengthM - wished)), Directions(o.Loop))),
        ];
        string range = $"{Text.F(_request.ShortestM / 1000, 1)} to {Text.F(_request.LongestM / 1000, 1)} km{(NeedsAscent ? $" with {(double.IsNaN(_request.LeastAscentM) ? "" : $"at least {Text.F(_request.LeastAscentM, 0)} m ")}{(double.IsNaN(_request.MostAscentM) ? "" : $"at most {Text.F(_request.MostAscentM, 0)} m ")}of ascent" : "")}";
        WayRefusal[] refusals = [];
        if (loops.Length == 0)
        {
            (refusals, List<string> gives, List<FindingValue> values) = WhatWouldGive(place);
            findings.Add(new Finding(RoutesFindingCodes.NoLoop, FindingSeverity.Refusal, "loops",
                $"No loop of {range} from {_request.Trailhead} {(all ? "exists on this network" : "was found within the bound of steps; none is not proven")}{(_nearestShortM > 0 && values.All(v => v.Name != "length_m") ? $"; the longest shorter ring seen has {Text.F(_nearestShortM / 1000, 2)} km" : "")}."
                + (NeedsAscent && _links.Any(l => double.IsNaN(l.UpM)) ? " Trails without heights were left out, since their ascent is unknown." : "")
                + (gives.Count > 0 ? $" There would be one {string.Join("; or ", gives)}." : ""), [.. values]));
            if (refusals.Length > 0)
            {
                findings.Add(new Finding(RoutesFindingCodes.Barred, FindingSeverity.Refusal, refusals[0].Trail,
                    $"A loop of {range} from {_request.Trailhead} is barred: {string.Join("; ", refusals.Select(r => $"{r.Trail} at {r.Place}: {r.OpenedBy}"))}"));
            }
        }
        else
        {
            if (!all)
            {
                findings.Add(new Finding(RoutesFindingCodes.LoopSearchBounded, FindingSeverity.Note, "loops",
                    $"Not every loop was looked at ({Text.F(_request.MaxSteps, 0)} steps): the first is {Text.F(loops[0].OffWish.Meters, 1)} m off the wished length, so none can be nearer by more than that.",
                    new FindingValue("gap_m", Text.F(loops[0].OffWish.Meters, 1))));
            }

            if (loops.Length < _request.Count)
            {
                findings.Add(new Finding(RoutesFindingCodes.FewerLoops, FindingSeverity.Note, "loops",
                    string.Create(CultureInfo.InvariantCulture, $"{loops.Length} of {_request.Count} loops of {range} {(all ? "exist" : "were found")} that share at most {Text.F(_request.MaxOverlapFraction * 100, 0)} % with those before.")));
            }

            NoteBars(chosen.Select(c => c.Loop), findings);
        }

        findings.Add(RouteOrigin.AccessFinding("loops"));
        return new LoopChoice(loops, all, _seen, loops.Length == 0 ? null : all ? Length.Zero : loops[0].OffWish, findings) { Refusals = refusals };
    }

    // No loop: the bars and the ranges are set aside one at a time, and what the loop then found needs is told.
    private (WayRefusal[] Refusals, List<string> Gives, List<FindingValue> Values) WhatWouldGive(NetworkPlace place)
    {
        var gives = new List<string>();
        var values = new List<FindingValue>();
        WayRefusal[] refusals = [];
        LoopRequest again = _request with { MaxSteps = Math.Max(1000, _request.MaxSteps / ReliefShare) };

        // Every bar set aside: the loop with the least length to be opened.
        WayOptions free = _request.Options with { Allow = TrailBars.Closed | TrailBars.OneWay | TrailBars.NoBicycles };
        LoopSearch open = Over(_network, again with { Options = free }, place, _cancellation, out _);
        (double LengthM, WayPart[] Parts) least = (double.PositiveInfinity, []);
        foreach (Candidate c in open._found)
        {
            foreach (bool turned in new[] { false, true })
            {
                if (turned ? c.Back : c.On)
                {
                    WayPart[] barred = [.. InOrder(c, turned).SelectMany(open.PartsOf).Where(p => _network.Bars(p.Trail, p.Backward, _request.Options) != 0)];
                    double m = barred.Sum(p => p.LengthM);
                    if (m < least.LengthM)
                    {
                        least = (m, barred);
                    }
                }
            }
        }

        if (least.Parts.Length > 0)
        {
            refusals = RouteNetwork.Refuse(least.Parts, _request.Options);
            gives.Add($"if {string.Join(" and ", refusals.Select(r => r.Trail).Distinct())} were open to it ({Text.F(least.LengthM, 0)} m barred)");
            values.Add(new FindingValue("barred_m", Text.F(least.LengthM, 0)));
        }

        // Then each range alone.
        double longestM = Math.Min(2 * _request.LongestM, MostLengthM);
        Range(again with { Shortest = Length.Zero, Longest = Length.FromMeters(longestM) },
            c => c.LengthM < _request.ShortestM ? _request.ShortestM - c.LengthM : c.LengthM - _request.LongestM,
            c => ("length_m", c.LengthM, $"of {Text.F(c.LengthM / 1000, 2)} km"));
        if (NeedsAscent)
        {
            Range(again with { LeastAscent = null, MostAscent = null }, c => Climb(c).OffM,
                c => ("ascent_m", Climb(c).UpM, double.IsNaN(Climb(c).UpM) ? "if trails without known heights were taken" : $"with {Text.F(Climb(c).UpM, 0)} m of ascent"));
        }

        Range(again with { MaxRepeatFraction = 1 }, c => c.RepeatedM / c.LengthM,
            c => ("repeat_fraction", c.RepeatedM / c.LengthM, $"with {Text.F(100 * c.RepeatedM / c.LengthM, 0)} % of it ridden out and back"));
        if (gives.Count == 0)
        {
            LoopRequest any = again with { Options = free, Shortest = Length.Zero, Longest = Length.FromMeters(longestM), LeastAscent = null, MostAscent = null, MaxRepeatFraction = 1 };
            if (Over(_network, any, place, _cancellation, out _)._found.Count > 0)
            {
                gives.Add("only if several of length, ascent, share ridden twice and bars gave way together");
            }
        }

        return (refusals, gives, values);

        void Range(LoopRequest wider, Func<Candidate, double> off, Func<Candidate, (string Name, double Value, string Words)> tell)
        {
            Candidate? near = Over(_network, wider, place, _cancellation, out _)._found.MinBy(c => (double.IsNaN(off(c)) ? double.PositiveInfinity : off(c), c.LengthM));
            if (near is not null)
            {
                (string name, double value, string words) = tell(near);
                gives.Add(words);
                values.Add(new FindingValue(name, double.IsNaN(value) ? "" : Text.F(value, name == "repeat_fraction" ? 3 : 0)));
            }
        }

        // How far the better of the open directions is outside the range of ascent.
        (double UpM, double OffM) Climb(Candidate c)
        {
            (double, double)[] ways = [.. new[] { (c.On, c.UpM), (c.Back, c.DownM) }.Where(w => w.Item1).Select(w => (w.Item2,
                Math.Max(double.IsNaN(_request.LeastAscentM) ? 0 : _request.LeastAscentM - w.Item2, double.IsNaN(_request.MostAscentM) ? 0 : w.Item2 - _request.MostAscentM)))];
            return ways.MinBy(w => w.Item2);
        }
    }

    private const double MostLengthM = 1_000_000;

    /// <summary>Share of the steps for each look at what would have to give.</summary>
    private const int ReliefShare = 8;

    private void NoteBars(IEnumerable<Candidate> loops, List<Finding> findings)
        => RouteNetwork.NoteIgnored(loops.SelectMany(c => c.Arcs.SelectMany(a => _links[a >> 1].Parts)), _request.Options, findings);

    private List<LoopDirection> Directions(Candidate c)
    {
        var list = new List<LoopDirection>();
        if (c.On)
        {
            list.Add(Make(InOrder(c, turned: false), c.UpM));
        }

        if (c.Back)
        {
            list.Add(Make(InOrder(c, turned: true), c.DownM));
        }

        return list;

        LoopDirection Make(int[] arcs, double upM)
        {
            WayPart[] parts = [.. arcs.SelectMany(PartsOf)];
            RideRoute route = RouteNetwork.ToRoute(parts, _request.Trailhead, []);
            (double up, double down) = (0, 0);
            foreach (WayPart p in parts)
            {
                (double u, double d) = p.Climbing();
                up += u;
                down += d;
            }

            bool known = !double.IsNaN(upM);
            return new LoopDirection(Area(route) < 0, route, known ? Length.FromMeters(up) : null, known ? Length.FromMeters(down) : null, [.. parts.Select(p => p.Trail)]);
        }
    }

    // Stem, ring in one of its directions, and the stem back.
    private static int[] InOrder(Candidate c, bool turned)
    {
        int[] stem = c.Arcs[..c.Stem], ring = c.Arcs[c.Stem..];
        return [.. stem, .. turned ? ring.Reverse().Select(a => a ^ 1) : ring, .. stem.Reverse().Select(a => a ^ 1)];
    }

    private WayPart[] PartsOf(int arc) => (arc & 1) == 0 ? _links[arc >> 1].Parts : _links[arc >> 1].Turned().Parts;

    // Twice the area enclosed, in degrees, counter-clockwise positive.
    private static double Area(RideRoute route)
    {
        ReadOnlySpan<double> lat = route.LatDeg, lon = route.LonDeg;
        double sum = 0, x0 = 0;
        for (int i = 1; i < lat.Length; i++)
        {
            double x1 = Math.IEEERemainder(lon[i] - lon[0], 360);
            sum += (x0 * (lat[i] - lat[0])) - (x1 * (lat[i - 1] - lat[0]));
            x0 = x1;
        }

        return sum;
    }

    /// <summary>One or more trails in a row between two nodes where ways part.</summary>
    private sealed record Link(int U, int V, double LengthM, double UpM, double DownM, bool On, bool Back, WayPart[] Parts)
    {
        public Link Turned() => new(V, U, LengthM, DownM, UpM, Back, On, [.. Parts.Reverse().Select(p => p with { Backward = !p.Backward })]);

        public Link Then(Link next) => new(U, next.V, LengthM + next.LengthM, UpM + next.UpM, DownM + next.DownM, On && next.On, Back && next.Back, [.. Parts, .. next.Parts]);
    }

    /// <summary>A loop that fits the ranges.</summary>
    private sealed record Candidate(int[] Arcs, int Stem, int[] Set, double LengthM, double RepeatedM, double TrailM, double UpM, double DownM, bool On, bool Back);
}
