using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Shortest times over directed arcs from many sources at once, in flat arrays.</summary>
internal static class GraphKernel
{
    /// <summary>No node or arc.</summary>
    public const int None = -1;

    private const int Fan = 4;

    /// <summary>
    /// Sorts the arcs of undirected links by the node they start from (counting sort), for travel away from the sources.
    /// A cost of +infinity leaves the arc out.
    /// </summary>
    /// <param name="a">First node of each link.</param>
    /// <param name="b">Second node of each link.</param>
    /// <param name="costFromAS">[s] Label added when the search goes from a to b.</param>
    /// <param name="costFromBS">[s] Label added when the search goes from b to a.</param>
    /// <param name="first">Out: place of the first arc of each node, one more than nodes.</param>
    /// <param name="head">Out: where the arc leads; twice the links.</param>
    /// <param name="link">Out: which link the arc belongs to.</param>
    /// <param name="costS">Out: [s] cost of the arc.</param>
    public static void Arcs(
        ReadOnlySpan<int> a,
        ReadOnlySpan<int> b,
        ReadOnlySpan<double> costFromAS,
        ReadOnlySpan<double> costFromBS,
        Span<int> first,
        Span<int> head,
        Span<int> link,
        Span<double> costS)
    {
        first.Clear();
        for (int i = 0; i < a.Length; i++)
        {
            if (costFromAS[i] < double.PositiveInfinity)
            {
                first[a[i] + 1]++;
            }

            if (costFromBS[i] < double.PositiveInfinity)
            {
                first[b[i] + 1]++;
            }
        }

        for (int i = 1; i < first.Length; i++)
        {
            first[i] += first[i - 1];
        }

        // first[n] is used as the writing place of node n and then holds the end of n, the beginning of n + 1.
        for (int i = 0; i < a.Length; i++)
        {
            if (costFromAS[i] < double.PositiveInfinity)
            {
                int at = first[a[i]]++;
                head[at] = b[i];
                link[at] = i;
                costS[at] = costFromAS[i];
            }

            if (costFromBS[i] < double.PositiveInfinity)
            {
                int at = first[b[i]]++;
                head[at] = a[i];
                link[at] = i;
                costS[at] = costFromBS[i];
            }
        }

        for (int i = first.Length - 1; i > 0; i--)
        {
            first[i] = first[i - 1];
        }

        first[0] = 0;
    }

    /// <summary>
    /// Least times from the nearest source to every node (label-setting search with a heap of four children). With arcs reversed
    /// and exits as sources these are the times from every node to its nearest exit.
    /// </summary>
    /// <param name="sources">Source nodes in the order that decides ties: the earlier wins.</param>
    /// <param name="first">From <see cref="Arcs"/>.</param>
    /// <param name="head">From <see cref="Arcs"/>.</param>
    /// <param name="link">From <see cref="Arcs"/>.</param>
    /// <param name="costS">From <see cref="Arcs"/>; 0 or more.</param>
    /// <param name="timeS">Out: [s] least time; +infinity where no source reaches.</param>
    /// <param name="source">Out: index into <paramref name="sources"/>, or <see cref="None"/>.</param>
    /// <param name="from">Out: the node before on the least way, or <see cref="None"/>.</param>
    /// <param name="via">Out: the link used, or <see cref="None"/>.</param>
    /// <param name="order">Out: nodes in ascending time.</param>
    /// <param name="heap">Work space, one a node.</param>
    /// <param name="place">Work space, one a node.</param>
    /// <returns>How many nodes are reached.</returns>
    [Source("dijkstra-1959", "label-setting shortest paths; many sources, reversed arcs")]
    public static int LeastTimes(
        ReadOnlySpan<int> sources,
        ReadOnlySpan<int> first,
        ReadOnlySpan<int> head,
        ReadOnlySpan<int> link,
        ReadOnlySpan<double> costS,
        Span<double> timeS,
        Span<int> source,
        Span<int> from,
        Span<int> via,
        Span<int> order,
        Span<int> heap,
        Span<int> place)
    {
        timeS.Fill(double.PositiveInfinity);
        source.Fill(None);
        from.Fill(None);
        via.Fill(None);
        place.Fill(None);
        int size = 0, done = 0;
        for (int i = 0; i < sources.Length; i++)
        {
            int node = sources[i];
            if (source[node] == None)
            {
                timeS[node] = 0;
                source[node] = i;
                heap[size] = node;
                place[node] = size;
                Up(heap, place, timeS, source, size++);
            }
        }

        while (size > 0)
        {
            int node = heap[0];
            place[node] = -2;
            order[done++] = node;
            size--;
            if (size > 0)
            {
                heap[0] = heap[size];
                place[heap[0]] = 0;
                Down(heap, place, timeS, source, 0, size);
            }

            double t = timeS[node];
            int label = source[node];
            for (int k = first[node]; k < first[node + 1]; k++)
            {
                int to = head[k];
                double reach = t + costS[k];
                if (place[to] == -2 || reach > timeS[to] || (reach == timeS[to] && label >= source[to] && source[to] != None))
                {
                    continue;
                }

                timeS[to] = reach;
                source[to] = label;
                from[to] = node;
                via[to] = link[k];
                if (place[to] == None)
                {
                    heap[size] = to;
                    place[to] = size++;
                }

                Up(heap, place, timeS, source, place[to]);
            }
        }

        return done;
    }

    private static bool Before(ReadOnlySpan<double> timeS, ReadOnlySpan<int> source, int x, int y)
    {
        double tx = timeS[x], ty = timeS[y];
        return tx < ty || (tx == ty && (source[x] < source[y] || (source[x] == source[y] && x < y)));
    }

    private static void Up(Span<int> heap, Span<int> place, ReadOnlySpan<double> timeS, ReadOnlySpan<int> source, int at)
    {
        int node = heap[at];
        while (at > 0)
        {
            int parent = (at - 1) / Fan;
            if (!Before(timeS, source, node, heap[parent]))
            {
                break;
            }

            heap[at] = heap[parent];
            place[heap[at]] = at;
            at = parent;
        }

        heap[at] = node;
        place[node] = at;
    }

    private static void Down(Span<int> heap, Span<int> place, ReadOnlySpan<double> timeS, ReadOnlySpan<int> source, int at, int size)
    {
        int node = heap[at];
        while (true)
        {
            int child = (at * Fan) + 1;
            if (child >= size)
            {
                break;
            }

            int best = child;
            int end = Math.Min(child + Fan, size);
            for (int c = child + 1; c < end; c++)
            {
                if (Before(timeS, source, heap[c], heap[best]))
                {
                    best = c;
                }
            }

            if (!Before(timeS, source, heap[best], node))
            {
                break;
            }

            heap[at] = heap[best];
            place[heap[at]] = at;
            at = best;
        }

        heap[at] = node;
        place[node] = at;
    }

    /// <summary>
    /// Where inside a link both ways out take the same time, as a share of the link from u; outside 0 to 1 when one end's way is the
    /// shorter everywhere.
    /// </summary>
    /// <param name="outUS">[s] Time out from u.</param>
    /// <param name="outVS">[s] Time out from v.</param>
    /// <param name="uToVS">[s] Time from u to v.</param>
    /// <param name="vToUS">[s] Time from v to u.</param>
    /// <returns>Share of the link.</returns>
    [Source("etp-form", "equal-time point with directed costs; rule RV11 for constant speeds")]
    public static double EqualTimeFraction(double outUS, double outVS, double uToVS, double vToUS)
        => (outVS + uToVS - outUS) / (uToVS + vToUS);

    /// <summary>The peak of the time out strictly inside a link, where both ends lead out.</summary>
    /// <param name="outUS">[s] Time out from u.</param>
    /// <param name="outVS">[s] Time out from v.</param>
    /// <param name="uToVS">[s] Time from u to v.</param>
    /// <param name="vToUS">[s] Time from v to u.</param>
    /// <param name="uLeavesHere">Whether the least way from u runs over this very link.</param>
    /// <param name="vLeavesHere">Whether the least way from v runs over this very link.</param>
    /// <param name="fraction">Out: share of the link from u.</param>
    /// <param name="timeS">Out: [s] time out either way.</param>
    /// <returns>Whether there is such a point.</returns>
    public static bool PeakInside(double outUS, double outVS, double uToVS, double vToUS, bool uLeavesHere, bool vLeavesHere, out double fraction, out double timeS)
    {
        fraction = timeS = double.NaN;
        if (uLeavesHere || vLeavesHere || !double.IsFinite(outUS + outVS + uToVS + vToUS) || !(uToVS + vToUS > 0))
        {
            return false;
        }

        fraction = EqualTimeFraction(outUS, outVS, uToVS, vToUS);
        timeS = outUS + (fraction * vToUS);
        return fraction > 0 && fraction < 1;
    }
}
