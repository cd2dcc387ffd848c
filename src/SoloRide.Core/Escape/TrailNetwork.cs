using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>
/// A network of trails with exits: least time out from every node and from the worst place inside every link. For a route with its side
/// trails use <see cref="ExitGraph"/>.
/// </summary>
/// <remarks>
/// Degenerate cases: without exits, or where the network falls apart, there is no way out: a value, with a finding. Parallel links and loops
/// are allowed. Immutable; safe to share between threads.
/// </remarks>
[Entry]
public sealed class TrailNetwork
{
    private readonly TrailLink[] _links;
    private readonly int[] _a;
    private readonly int[] _b;
    private readonly NetworkExit[] _exits;
    private readonly int[] _sources;

    /// <summary>Makes a network.</summary>
    /// <param name="nodeCount">[1 or more] Nodes are numbered from 0.</param>
    /// <param name="links">Pieces of trail.</param>
    /// <param name="exits">Where being alone ends; may be empty.</param>
    /// <exception cref="ArgumentException">A link or exit names a node that does not exist; the message names it.</exception>
    public TrailNetwork(int nodeCount, IReadOnlyList<TrailLink> links, IReadOnlyList<NetworkExit> exits)
    {
        NodeCount = Guard.InRange(nodeCount, 1, 50_000_000, "nodes");
        _links = [.. Guard.NotNull(links)];
        _exits = [.. Guard.NotNull(exits)];
        Array.Sort(_exits, (x, y) => string.CompareOrdinal(x.Name, y.Name) is var c and not 0 ? c : x.Node.CompareTo(y.Node));
        _a = new int[_links.Length];
        _b = new int[_links.Length];
        for (int i = 0; i < _links.Length; i++)
        {
            if (_links[i].A >= nodeCount || _links[i].B >= nodeCount)
            {
                throw new ArgumentException($"links[{Text.F(i, 0)}] joins nodes {Text.F(_links[i].A, 0)} and {Text.F(_links[i].B, 0)}; nodes are 0 to {Text.F(nodeCount - 1, 0)}.", nameof(links));
            }

            _a[i] = _links[i].A;
            _b[i] = _links[i].B;
        }

        _sources = new int[_exits.Length];
        for (int i = 0; i < _exits.Length; i++)
        {
            _sources[i] = _exits[i].Node < nodeCount
                ? _exits[i].Node
                : throw new ArgumentException($"Exit '{_exits[i].Name}' is at node {Text.F(_exits[i].Node, 0)}, off the network; nodes are 0 to {Text.F(nodeCount - 1, 0)}.", nameof(exits));
        }
    }

    /// <summary>Nodes, numbered from 0.</summary>
    public int NodeCount { get; }

    /// <summary>Pieces of trail.</summary>
    public IReadOnlyList<TrailLink> Links => _links;

    /// <summary>Exits, by name.</summary>
    public IReadOnlyList<NetworkExit> Exits => _exits;

    /// <summary>Least time out from everywhere.</summary>
    /// <param name="pace">Pace for the links without own times; may be null when every link has own times.</param>
    /// <param name="cancellation">Ends the work early.</param>
    /// <returns>The result.</returns>
    /// <exception cref="ArgumentException">A link has no own times and no pace is given, or the pace gives a negative time.</exception>
    public NetworkWalkOut WalkOut(EscapePace? pace = null, CancellationToken cancellation = default)
    {
        var onS = new double[_links.Length];
        var backS = new double[_links.Length];
        for (int i = 0; i < _links.Length; i++)
        {
            ref readonly TrailLink link = ref _links[i];
            if (link.HasOwnTimes)
            {
                onS[i] = link.OwnOnS;
                backS[i] = link.OwnBackS;
            }
            else if (pace is null)
            {
                throw new ArgumentException($"links[{Text.F(i, 0)}] has no own times; give a pace.", nameof(pace));
            }
            else
            {
                onS[i] = pace.Seconds(link.Step, GraphKernel.None, true, false);
                backS[i] = pace.Seconds(link.Step.Reversed(), GraphKernel.None, false, false);
            }

            if ((i & 0xFFFF) == 0)
            {
                cancellation.ThrowIfCancellationRequested();
            }
        }

        return new NetworkWalkOut(this, onS, backS, LeastTimes.ToExits(NodeCount, _a, _b, onS, backS, _sources));
    }

    internal Length LengthOf(int link) => Length.FromMeters(_links[link].Step.LengthM);
}
