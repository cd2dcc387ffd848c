using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Least-cost search over the trails of a network in flat arrays, toward a goal or to everywhere.</summary>
internal static class NetworkSearchKernel
{
    /// <summary>
    /// Least costs from the labels given at some nodes. Stops when no open node can lead to the goals at less than the best found.
    /// </summary>
    /// <param name="first">Place of the first arc of each node, one more than nodes.</param>
    /// <param name="arc">Twice the trail, plus 1 when travelled against its line.</param>
    /// <param name="head">Where each arc leads.</param>
    /// <param name="cost">Cost of travelling each trail, forward at 2 i and backward at 2 i + 1; +infinity bars it.</param>
    /// <param name="starts">Nodes with their first labels.</param>
    /// <param name="goals">Nodes with what is left to pay from them; empty to go everywhere.</param>
    /// <param name="leastRate">Cost per metre of straight line that no trail falls below.</param>
    /// <param name="xyz">Earth-centred coordinates [m] of the nodes, three each.</param>
    /// <param name="goalXyz">Earth-centred coordinates [m] of the goal.</param>
    /// <param name="limit">Nodes with a higher label are not gone on from.</param>
    /// <param name="label">Out: least cost of each node reached for good; +infinity elsewhere.</param>
    /// <param name="via">Out: the arc by which each node is reached; -1 at a start or where it is not reached.</param>
    /// <returns>The goal with the least cost and that cost; -1 when none is reached.</returns>
    [Source("dijkstra-1959", "label-setting shortest paths")]
    [Source("hart-1968", "goal-directed search with a consistent bound: straight distance times the least cost per metre")]
    public static (int Goal, double Cost) Run(
        ReadOnlySpan<int> first,
        ReadOnlySpan<int> arc,
        ReadOnlySpan<int> head,
        ReadOnlySpan<double> cost,
        ReadOnlySpan<(int Node, double Cost, int Via)> starts,
        ReadOnlySpan<(int Node, double Cost)> goals,
        double leastRate,
        ReadOnlySpan<double> xyz,
        (double X, double Y, double Z) goalXyz,
        double limit,
        Span<double> label,
        Span<int> via)
    {
        label.Fill(double.PositiveInfinity);
        via.Fill(-1);
        var done = new bool[label.Length];
        var heap = new Heap(256);
        bool directed = goals.Length > 0 && leastRate > 0;
        foreach ((int node, double c, int v) in starts)
        {
            if (c < label[node])
            {
                label[node] = c;
                via[node] = v;
                heap.Push(c + Bound(node, xyz), node);
            }
        }

        int bestGoal = -1;
        double best = double.PositiveInfinity;
        while (heap.TryPop(out double key, out int node))
        {
            if (done[node])
            {
                continue;
            }

            // What is open costs at least this.
            if (key > best || key > limit)
            {
                break;
            }

            done[node] = true;
            double at = label[node];
            foreach ((int g, double rest) in goals)
            {
                if (g == node && at + rest < best)
                {
                    best = at + rest;
                    bestGoal = node;
                }
            }

            for (int k = first[node]; k < first[node + 1]; k++)
            {
                double c = cost[arc[k]];
                int to = head[k];
                double reach = at + c;
                if (done[to] || !(reach < label[to]))
                {
                    continue;
                }

                label[to] = reach;
                via[to] = arc[k];
                heap.Push(reach + Bound(to, xyz), to);
            }
        }

        for (int i = 0; i < done.Length; i++)
        {
            if (!done[i])
            {
                label[i] = double.PositiveInfinity;
                via[i] = -1;
            }
        }

        return (bestGoal, best);

        double Bound(int node, ReadOnlySpan<double> p)
        {
            if (!directed)
            {
                return 0;
            }

            double dx = p[3 * node] - goalXyz.X, dy = p[(3 * node) + 1] - goalXyz.Y, dz = p[(3 * node) + 2] - goalXyz.Z;
            return leastRate * Math.Sqrt((dx * dx) + (dy * dy) + (dz * dz));
        }
    }

    /// <summary>A heap of keys and nodes; equal keys come in the order of the nodes.</summary>
    private struct Heap(int capacity)
    {
        private (double Key, int Node)[] _items = new (double, int)[capacity];
        private int _count;

        public void Push(double key, int node)
        {
            if (_count == _items.Length)
            {
                Array.Resize(ref _items, 2 * _count);
            }

            int i = _count++;
            while (i > 0)
            {
                int parent = (i - 1) >> 2;
                if (!Before(key, node, _items[parent]))
                {
                    break;
                }

                _items[i] = _items[parent];
                i = parent;
            }

            _items[i] = (key, node);
        }

        public bool TryPop(out double key, out int node)
        {
            if (_count == 0)
            {
                (key, node) = (0, -1);
                return false;
            }

            (key, node) = _items[0];
            (double k, int n) = _items[--_count];
            int i = 0;
            while (true)
            {
                int child = (4 * i) + 1, end = Math.Min(child + 4, _count);
                if (child >= _count)
                {
                    break;
                }

                int least = child;
                for (int c = child + 1; c < end; c++)
                {
                    if (Before(_items[c].Key, _items[c].Node, _items[least]))
                    {
                        least = c;
                    }
                }

                if (!Before(_items[least].Key, _items[least].Node, (k, n)))
                {
                    break;
                }

                _items[i] = _items[least];
                i = least;
            }

            _items[i] = (k, n);
            return true;
        }

        private static bool Before(double key, int node, (double Key, int Node) other) => key < other.Key || (key == other.Key && node < other.Node);
    }
}
