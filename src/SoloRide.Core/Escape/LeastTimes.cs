using System.Buffers;

namespace SoloRide.Escape;

/// <summary>Least times from every node, with the tree of ways.</summary>
internal sealed class LeastTimes
{
    private LeastTimes(int nodes)
    {
        TimeS = GC.AllocateUninitializedArray<double>(nodes);
        Source = GC.AllocateUninitializedArray<int>(nodes);
        Next = GC.AllocateUninitializedArray<int>(nodes);
        Via = GC.AllocateUninitializedArray<int>(nodes);
        Order = GC.AllocateUninitializedArray<int>(nodes);
    }

    public double[] TimeS { get; }

    public int[] Source { get; }

    public int[] Next { get; }

    public int[] Via { get; }

    public int[] Order { get; }

    public int Reached { get; private set; }

    /// <summary>From every node to the nearest of the targets; costs are those of the links a to b and b to a.</summary>
    public static LeastTimes ToExits(int nodes, int[] a, int[] b, double[] onS, double[] backS, int[] targets)
        => Run(nodes, a, b, backS, onS, targets);

    /// <summary>From one node to every other.</summary>
    public static LeastTimes From(int nodes, int[] a, int[] b, double[] onS, double[] backS, int source)
        => Run(nodes, a, b, onS, backS, [source]);

    private static LeastTimes Run(int nodes, int[] a, int[] b, double[] costFromAS, double[] costFromBS, int[] sources)
    {
        var result = new LeastTimes(nodes);
        int arcs = 2 * a.Length;
        int[] ints = ArrayPool<int>.Shared.Rent((nodes * 3) + 1 + (arcs * 2));
        double[] costs = ArrayPool<double>.Shared.Rent(arcs);
        try
        {
            Span<int> first = ints.AsSpan(0, nodes + 1);
            Span<int> heap = ints.AsSpan(nodes + 1, nodes);
            Span<int> place = ints.AsSpan((nodes * 2) + 1, nodes);
            Span<int> head = ints.AsSpan((nodes * 3) + 1, arcs);
            Span<int> link = ints.AsSpan((nodes * 3) + 1 + arcs, arcs);
            GraphKernel.Arcs(a, b, costFromAS, costFromBS, first, head, link, costs);
            result.Reached = GraphKernel.LeastTimes(
                sources, first, head, link, costs, result.TimeS, result.Source, result.Next, result.Via, result.Order, heap, place);
        }
        finally
        {
            ArrayPool<int>.Shared.Return(ints);
            ArrayPool<double>.Shared.Return(costs);
        }

        return result;
    }
}
