using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>
/// Carrying between sources of which some are passed more than once: such a source is wet or dry on all its passes alike. Every cost and probability is
/// the mean over the cases of those sources; few choices are gone through one by one, many are improved from several starts.
/// </summary>
[Source("derived-water-carry", "conditioned on sources that are passed again")]
internal static class WaterCarryShared
{
    private const int MostGroups = 8;
    private const long MostPlans = 40_000;

    /// <summary>Whether any source is passed again.</summary>
    public static bool Applies(ReadOnlySpan<int> groupOf)
    {
        for (int i = 0; i < groupOf.Length; i++)
        {
            if (groupOf[i] >= 0 && groupOf[..i].Contains(groupOf[i]))
            {
                return true;
            }
        }

        return false;
    }

    /// <summary>As <see cref="WaterCarryKernel.Solve"/>, with the source of each node; -1 for the start and for what is passed once.</summary>
    public static WaterCarrySolution Solve(
        ReadOnlySpan<double> lengthKm, ReadOnlySpan<double> needL, ReadOnlySpan<double> ownLKm, ReadOnlySpan<double> wetProbability, ReadOnlySpan<double> fillLimitL,
        ReadOnlySpan<int> groupOf, double alpha, int maxStates, Span<int> plan, CancellationToken cancel)
    {
        int m = lengthKm.Length;
        double[] wet = wetProbability.ToArray();
        var most = new int[m];
        long plans = 1;
        for (int i = 0; i < m; i++)
        {
            int t = i;
            double d = 0;
            while (t < m && (d += needL[t]) <= fillLimitL[i] + WaterCarryKernel.CapacityToleranceL)
            {
                t++;
            }

            if (t == i)
            {
                wet[i] = 0;
                t = i + 1;
            }

            most[i] = t;
            plans = Math.Min(MostPlans + 1, plans * (t - i));
        }

        var cases = new Cases(lengthKm.ToArray(), needL.ToArray(), ownLKm.ToArray(), wet, groupOf);
        double least = cases.Of(most).Fail;
        if (least > alpha + WaterCarryKernel.ProbabilityTolerance)
        {
            return new WaterCarrySolution(false, double.NaN, double.NaN, double.NaN, true, 0, least);
        }

        int[] best = [.. most];
        (double bestCost, double bestFail) = cases.Of(best);
        int states = 1;
        bool proven = plans <= MostPlans;
        if (proven)
        {
            var at = new int[m];
            for (int i = 0; i < m; i++)
            {
                at[i] = i + 1;
            }

            for (long k = 0; k < plans; k++)
            {
                if ((k & 255) == 0)
                {
                    cancel.ThrowIfCancellationRequested();
                }

                Keep(at);
                for (int i = m - 1; i >= 0; i--)
                {
                    if (++at[i] <= most[i])
                    {
                        break;
                    }

                    at[i] = i + 1;
                }
            }
        }
        else
        {
            // From the full plan and from plans of independent sources at smaller and smaller risk, each target moved while that helps.
            var start = new int[m];
            Improve(best);
            for (double a = alpha; a > alpha / 100; a /= 3)
            {
                if (WaterCarryKernel.Solve(lengthKm, needL, ownLKm, wet, fillLimitL, a, maxStates, start, cancel).Feasible)
                {
                    Keep(start);
                    Improve(start);
                }
            }
        }

        best.CopyTo(plan);
        return new WaterCarrySolution(true, bestCost, bestFail, proven ? bestCost : 0, proven, states, least);

        bool Keep(ReadOnlySpan<int> candidate)
        {
            states++;
            (double cost, double fail) = cases.Of(candidate);
            bool better = fail <= alpha + WaterCarryKernel.ProbabilityTolerance && cost < bestCost - WaterCarryKernel.TieToleranceLKm;
            if (better)
            {
                (bestCost, bestFail) = (cost, fail);
                candidate.CopyTo(best);
            }

            return better;
        }

        void Improve(int[] from)
        {
            int[] at = [.. from];
            bool moved = true;
            while (moved)
            {
                moved = false;
                cancel.ThrowIfCancellationRequested();
                for (int i = 0; i < m; i++)
                {
                    int stay = at[i];
                    for (int t = i + 1; t <= most[i]; t++)
                    {
                        at[i] = t;
                        if (t != stay && Keep(at))
                        {
                            stay = t;
                            moved = true;
                        }
                    }

                    at[i] = stay;
                }
            }
        }
    }

    /// <summary>As <see cref="WaterCarryKernel.Evaluate"/>, over the cases.</summary>
    public static (double CostLKm, double FailProbability) Evaluate(
        ReadOnlySpan<double> lengthKm, ReadOnlySpan<double> needL, ReadOnlySpan<double> ownLKm, ReadOnlySpan<double> wetProbability, ReadOnlySpan<int> groupOf,
        ReadOnlySpan<int> plan, Span<double> arrival)
        => new Cases(lengthKm.ToArray(), needL.ToArray(), ownLKm.ToArray(), wetProbability.ToArray(), groupOf).Of(plan, arrival);

    /// <summary>The cases of the sources that are passed again: each wet or dry throughout.</summary>
    private sealed class Cases
    {
        private readonly double[] _lengthKm;
        private readonly double[] _needL;
        private readonly double[] _ownLKm;
        private readonly List<(double Share, double[] Wet)> _all = [];

        public Cases(double[] lengthKm, double[] needL, double[] ownLKm, double[] wet, ReadOnlySpan<int> groupOf)
        {
            _lengthKm = lengthKm;
            _needL = needL;
            _ownLKm = ownLKm;
            int[] groups = groupOf.ToArray();
            int[] again = [.. groups.Where(g => g >= 0).GroupBy(g => g).Where(g => g.Count() > 1).Select(g => g.Key).Order()];
            int[] drawn = again.Length > MostGroups ? again[..MostGroups] : again;
            for (int c = 0; c < 1 << drawn.Length; c++)
            {
                double share = 1;
                double[] own = [.. wet];
                for (int k = 0; k < drawn.Length; k++)
                {
                    int first = Array.IndexOf(groups, drawn[k]);
                    double p = wet.Where((_, i) => groups[i] == drawn[k]).Max();
                    bool isWet = (c & (1 << k)) != 0;
                    share *= isWet ? p : 1 - p;
                    for (int i = first; i < groups.Length; i++)
                    {
                        // Where nothing useful can be taken the node stays dry.
                        own[i] = groups[i] == drawn[k] && wet[i] > 0 ? (isWet ? 1 : 0) : own[i];
                    }
                }

                // Beyond that many, a source counts on its first pass only: the safe side.
                for (int i = 0; i < groups.Length; i++)
                {
                    if (groups[i] >= 0 && again.Contains(groups[i]) && !drawn.Contains(groups[i]) && Array.IndexOf(groups, groups[i]) < i)
                    {
                        own[i] = 0;
                    }
                }

                if (share > 0)
                {
                    _all.Add((share, own));
                }
            }
        }

        public (double Cost, double Fail) Of(ReadOnlySpan<int> plan, Span<double> arrival = default)
        {
            arrival.Clear();
            double[] one = arrival.Length > 0 ? new double[arrival.Length] : [];
            double cost = 0, fail = 0;
            foreach ((double share, double[] wet) in _all)
            {
                (double c, double f) = WaterCarryKernel.Evaluate(_lengthKm, _needL, _ownLKm, wet, plan, one);
                cost += share * c;
                fail += share * f;
                for (int i = 0; i < arrival.Length; i++)
                {
                    arrival[i] += share * one[i];
                }
            }

            return (cost, fail);
        }
    }
}
