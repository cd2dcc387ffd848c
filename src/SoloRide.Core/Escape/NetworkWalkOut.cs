using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>Least time out from every place of a <see cref="TrailNetwork"/>.</summary>
/// <remarks>Immutable; safe to share between threads.</remarks>
public sealed class NetworkWalkOut
{
    private readonly TrailNetwork _network;
    private readonly double[] _onS;
    private readonly double[] _backS;
    private readonly LeastTimes _least;

    internal NetworkWalkOut(TrailNetwork network, double[] onS, double[] backS, LeastTimes least)
    {
        _network = network;
        _onS = onS;
        _backS = backS;
        _least = least;
        Findings = network.Exits.Count == 0
            ? [new Finding(EscapeFindingCodes.NoExit, FindingSeverity.Refusal, "exits", "No exit is given: there is no way out to compute.")]
            : least.Reached < network.NodeCount
                ?
                [
                    new Finding(
                        EscapeFindingCodes.NoWayOut,
                        FindingSeverity.Warning,
                        "network",
                        $"{Text.F(network.NodeCount - least.Reached, 0)} of {Text.F(network.NodeCount, 0)} nodes have no way out.",
                        new FindingValue("nodes", Text.F(network.NodeCount - least.Reached, 0))),
                ]
                : [];
    }

    /// <summary>What a reader should know.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;

    /// <summary>How many nodes have a way out.</summary>
    public int NodesWithWayOut => _least.Reached;

    /// <summary>Time out from a node; null when there is no way out.</summary>
    /// <param name="node">The node.</param>
    /// <returns>The time.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No such node.</exception>
    public TimeSpan? TimeFrom(int node)
    {
        double s = _least.TimeS[Check(node)];
        return double.IsFinite(s) ? TimeSpan.FromSeconds(s) : null;
    }

    /// <summary>Name of the nearest exit by time; null when there is no way out.</summary>
    /// <param name="node">The node.</param>
    /// <returns>The exit's name.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No such node.</exception>
    public string? ExitFrom(int node)
    {
        int source = _least.Source[Check(node)];
        return source == GraphKernel.None ? null : _network.Exits[source].Name;
    }

    /// <summary>Nodes on the way out, the given one first and the exit last; empty when there is no way out.</summary>
    /// <param name="node">The node.</param>
    /// <returns>The way.</returns>
    /// <exception cref="ArgumentOutOfRangeException">No such node.</exception>
    public IReadOnlyList<int> WayFrom(int node)
    {
        if (_least.Source[Check(node)] == GraphKernel.None)
        {
            return [];
        }

        var way = new List<int>();
        for (int n = node; n != GraphKernel.None; n = _least.Next[n])
        {
            way.Add(n);
        }

        return way;
    }

    /// <summary>Places strictly inside links from where both ends lead out in the same time; none where one way is the shorter along the whole link.</summary>
    /// <returns>The points, by link.</returns>
    public IReadOnlyList<NetworkPoint> EqualTimePoints()
    {
        var points = new List<NetworkPoint>();
        for (int i = 0; i < _onS.Length; i++)
        {
            if (Inside(i) is { } p)
            {
                points.Add(p);
            }
        }

        return points;
    }

    /// <summary>The place with the longest way out, at a node or inside a link; null when no node has a way out.</summary>
    /// <returns>The point.</returns>
    /// <remarks>Nodes without a way out are not counted here; see <see cref="Findings"/>.</remarks>
    public NetworkPoint? Worst()
    {
        NetworkPoint? worst = null;
        if (_least.Reached > 0)
        {
            int node = _least.Order[_least.Reached - 1];
            string exit = _network.Exits[_least.Source[node]].Name;
            worst = new NetworkPoint(GraphKernel.None, node, node, 0, Length.Zero, TimeSpan.FromSeconds(_least.TimeS[node]), exit, exit);
        }

        for (int i = 0; i < _onS.Length; i++)
        {
            if (Inside(i) is { } p && worst is not null && p.Time > worst.Time)
            {
                worst = p;
            }
        }

        return worst;
    }

    private NetworkPoint? Inside(int i)
    {
        int a = _network.Links[i].A, b = _network.Links[i].B;
        double wa = _least.TimeS[a], wb = _least.TimeS[b];
        if (!GraphKernel.PeakInside(wa, wb, _onS[i], _backS[i], _least.Via[a] == i, _least.Via[b] == i, out double y, out double timeS))
        {
            return null;
        }

        return new NetworkPoint(
            i, a, b, y, _network.LengthOf(i) * y, TimeSpan.FromSeconds(timeS), _network.Exits[_least.Source[a]].Name, _network.Exits[_least.Source[b]].Name);
    }

    private int Check(int node) => Guard.InRange(node, 0, _network.NodeCount - 1, "(node)");
}
