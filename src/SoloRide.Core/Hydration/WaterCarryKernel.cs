using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>
/// Where to fill and how far, exactly: least expected litre-kilometres with a limited probability of running dry.
/// </summary>
/// <remarks>
/// Nodes 0 (start, always wet) to m (end); node i between is a source that is wet with probability p[i], independent of the others.
/// A plan fixes one target per node in advance: if node i is wet, the water in hand is topped up so that it lasts to its target
/// (never poured out); if it is dry and nothing is left, the walk fails there. Depth-first over the targets with the distribution
/// of the reach as state; cut by the least failure still possible and by Lagrangian bounds from a relaxed backward table in which
/// the target may depend on the water in hand.
/// </remarks>
[Source("derived-water-carry", "statement, bounds and search")]
internal static class WaterCarryKernel
{
    public const double CapacityToleranceL = 1e-9;
    public const double ProbabilityTolerance = 1e-12;
    public const double TieToleranceLKm = 1e-9;

    /// <summary>What rounding, and the tolerance of a probability times its multiplier, may add to a bound from a cut search, as a share of it.</summary>
    public const double BoundAllowance = 1e-7;

    /// <summary>Solves one chain.</summary>
    /// <param name="lengthKm">Length of leg i, from node i to i+1; m values.</param>
    /// <param name="needL">Need on leg i.</param>
    /// <param name="ownLKm">Litre-kilometres of carrying the leg's own need along it (half of need times length when drunk evenly).</param>
    /// <param name="wetProbability">Probability that node i is wet; m values, the first is 1.</param>
    /// <param name="fillLimitL">Most water in hand on leaving node i; m values.</param>
    /// <param name="alpha">Allowed probability of running dry.</param>
    /// <param name="maxStates">Search states after which the best plan so far is returned with its gap.</param>
    /// <param name="plan">Receives m targets.</param>
    /// <param name="cancel">Stops the search.</param>
    public static WaterCarrySolution Solve(
        ReadOnlySpan<double> lengthKm,
        ReadOnlySpan<double> needL,
        ReadOnlySpan<double> ownLKm,
        ReadOnlySpan<double> wetProbability,
        ReadOnlySpan<double> fillLimitL,
        double alpha,
        int maxStates,
        Span<int> plan,
        CancellationToken cancel = default)
        => new WaterCarrySearch(lengthKm, needL, ownLKm, wetProbability, fillLimitL, alpha, maxStates, cancel).Solve(plan);

    /// <summary>Cost and failure probability of a given plan; also the distribution of the reach on arrival at each node.</summary>
    /// <param name="lengthKm">As in <see cref="Solve"/>.</param>
    /// <param name="needL">As in <see cref="Solve"/>.</param>
    /// <param name="ownLKm">As in <see cref="Solve"/>.</param>
    /// <param name="wetProbability">As in <see cref="Solve"/>.</param>
    /// <param name="plan">One target per node.</param>
    /// <param name="arrival">Null-length, or (m+1)·(m+1): element [i·(m+1)+r] receives the probability of arriving alive at node i with water that lasts to node r.</param>
    public static (double CostLKm, double FailProbability) Evaluate(
        ReadOnlySpan<double> lengthKm,
        ReadOnlySpan<double> needL,
        ReadOnlySpan<double> ownLKm,
        ReadOnlySpan<double> wetProbability,
        ReadOnlySpan<int> plan,
        Span<double> arrival)
    {
        int m = lengthKm.Length;
        Span<double> q = m < 128 ? stackalloc double[m + 1] : new double[m + 1];
        q.Clear();
        q[0] = 1;
        double cost = 0, fail = 0;
        for (int i = 0; i < m; i++)
        {
            if (arrival.Length > 0)
            {
                q.CopyTo(arrival.Slice(i * (m + 1), m + 1));
            }

            double p = wetProbability[i];
            int t = plan[i];
            double below = 0;
            for (int r = i; r < t; r++)
            {
                below += q[r];
            }

            fail += (1 - p) * q[i];
            q[i] = 0;
            for (int r = i + 1; r < t; r++)
            {
                q[r] *= 1 - p;
            }

            q[t] += p * below;
            double beyond = 0;
            for (int r = i + 1; r <= m; r++)
            {
                if (r > i + 1)
                {
                    beyond += needL[r - 1];
                }

                cost += q[r] * ((beyond * lengthKm[i]) + ownLKm[i]);
            }
        }

        if (arrival.Length > 0)
        {
            q.CopyTo(arrival.Slice(m * (m + 1), m + 1));
        }

        return (cost, fail);
    }
}
