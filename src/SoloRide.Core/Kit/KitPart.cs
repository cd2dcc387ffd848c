using System.Numerics;

namespace SoloRide.Kit;

/// <summary>
/// One of those that ask for items in the choice of kit: a pool of failures, a need, or the water. Given what each item costs it, finds the least of what is lost
/// and what is paid: exactly for pools and needs, with the last container in part for water (never above the truth).
/// </summary>
/// <remarks>Not shared between threads.</remarks>
internal sealed class KitPart
{
    // Pools with more combinations than this count at their best, whatever it costs: the bound is weaker, never wrong.
    private const int MostCombinations = 60_000;

    private readonly Slot[] _tools;
    private readonly Slot[] _uses;
    private readonly int[] _limits;
    private readonly int[] _strides;
    private readonly (int Tools, double[] Table)[] _variants;
    private readonly double _perUnit;
    private double _amount;
    private readonly double[] _toolCost;
    private readonly int[] _toolPick;
    private readonly double[][] _cost;
    private readonly ulong[][] _pick;
    private readonly int[][] _levels;
    private readonly int[] _levelCount;
    private readonly int[] _offered;
    private readonly int[] _at;
    private readonly int[] _bestAt;
    private double _best;
    private int _bestVariant;

    private KitPart(Slot[] tools, Slot[] uses, int[] limits, int[] strides, (int Tools, double[] Table)[] variants, double perUnit, double amount)
    {
        _tools = tools;
        _uses = uses;
        _limits = limits;
        _strides = strides;
        _variants = variants;
        _perUnit = perUnit;
        _amount = amount;
        _toolCost = new double[tools.Length];
        _toolPick = new int[tools.Length];
        _cost = [.. limits.Select(l => new double[l + 1])];
        _pick = [.. limits.Select(l => new ulong[l + 1])];
        _levels = [.. limits.Select(l => new int[l + 1])];
        _levelCount = new int[limits.Length];
        _offered = new int[limits.Length];
        _at = new int[limits.Length];
        _bestAt = new int[limits.Length];
        foreach (Slot s in tools.Concat(uses))
        {
            Items |= s.Mask;
        }
    }

    /// <summary>Items that it can ask for.</summary>
    public ulong Items { get; }

    public static KitPart OfPool(KitEvaluator evaluator, int pool, Slot[] tools, Slot[] uses, int[] limits, int[] strides)
    {
        // Tools that make no more repairs possible than fewer of them are no choice of their own.
        ulong offered = 0;
        foreach (Slot s in tools)
        {
            offered |= s.Items.Length > 0 ? s.Function : 0;
        }

        long combinations = limits.Aggregate(1L, (a, l) => a * (l + 1)) << Math.Min(30, BitOperations.PopCount(offered));
        if (combinations > MostCombinations)
        {
            double[] all = evaluator.PoolTable(pool, offered);
            return new KitPart([], [], [], [], [(0, [all[^1]])], 0, 0) { Always = all[^1] };
        }

        var variants = new List<(int, double[])>();
        for (int t = 0; t < 1 << tools.Length; t++)
        {
            ulong mask = 0;
            bool possible = true;
            for (int k = 0; k < tools.Length; k++)
            {
                if ((t >> k & 1) != 0)
                {
                    mask |= tools[k].Function;
                    possible &= tools[k].Items.Length > 0;
                }
            }

            if (!possible)
            {
                continue;
            }

            double[] table = evaluator.PoolTable(pool, mask);
            bool more = true;
            for (int k = 0; k < tools.Length && more; k++)
            {
                more = (t >> k & 1) == 0 || !ReferenceEquals(table, evaluator.PoolTable(pool, mask & ~tools[k].Function));
            }

            if (more)
            {
                variants.Add((t, table));
            }
        }

        return new KitPart(tools, uses, limits, strides, [.. variants], 0, 0);
    }

    public static KitPart OfNeed(Slot slot, double unmetH) => new([slot], [], [], [], [(0, [unmetH]), (1, [0])], 0, 0) { IsNeed = true };

    public static KitPart OfWater(Slot slot, double amountL, double missingHPerL) => new([slot], [], [], [], [], missingHPerL, amountL);

    /// <summary>Whether it is a need.</summary>
    public bool IsNeed { get; private init; }

    /// <summary>What a need costs that stays unmet.</summary>
    public double UnmetH
    {
        set
        {
            if (IsNeed)
            {
                _variants[0].Table[0] = value;
            }
        }
    }

    /// <summary>Water that is asked for.</summary>
    public double AmountL
    {
        set => _amount = value;
    }

    /// <summary>Whether the last answer left the need unmet.</summary>
    public bool Missed { get; private set; }

    private double? Always { get; init; }

    /// <summary>Least of loss and payment.</summary>
    /// <param name="share">What each pair of item and asker costs.</param>
    /// <param name="taken">Items at hand: they cost nothing.</param>
    /// <param name="away">Items that stay.</param>
    /// <param name="wants">Open items that the best answer takes.</param>
    /// <returns>Hours.</returns>
    public double Solve(double[] share, ulong taken, ulong away, out ulong wants) => Solve(share, taken, away, null, out wants);

    /// <summary>The same, marking each pair that the best answer takes.</summary>
    public double Solve(double[] share, ulong taken, ulong away, double[]? marks, out ulong wants)
    {
        wants = 0;
        if (Always is { } always)
        {
            return always;
        }

        if (_perUnit > 0)
        {
            return Water(share, taken, away, marks, out wants);
        }

        for (int k = 0; k < _tools.Length; k++)
        {
            Cheapest(k, share, taken, away);
        }

        int offered = 0;
        for (int k = 0; k < _uses.Length; k++)
        {
            _offered[k] = offered;
            Curve(k, share, taken, away);
            offered += _levels[k][_levelCount[k] - 1] * _strides[k];
        }

        _best = double.PositiveInfinity;
        _bestVariant = 0;
        for (int v = 0; v < _variants.Length; v++)
        {
            (int tools, double[] table) = _variants[v];
            double paid = 0;
            for (int t = tools; t != 0; t &= t - 1)
            {
                paid += _toolCost[BitOperations.TrailingZeroCount(t)];
            }

            if (paid + table[offered] < _best)
            {
                Walk(v, table, _uses.Length - 1, 0, paid);
            }
        }

        Missed = IsNeed && _bestVariant == 0 && (_tools[0].Mask & taken) == 0;
        for (int t = _variants[_bestVariant].Tools; t != 0; t &= t - 1)
        {
            int k = BitOperations.TrailingZeroCount(t);
            if (_toolPick[k] >= 0)
            {
                Slot s = _tools[k];
                wants |= 1UL << s.Items[_toolPick[k]];
                if (marks is not null)
                {
                    marks[s.First + _toolPick[k]] = 1;
                }
            }
        }

        for (int k = 0; k < _uses.Length; k++)
        {
            ulong picks = _pick[k][_bestAt[k]];
            Slot s = _uses[k];
            for (int j = 0; j < s.Items.Length && picks != 0; j++)
            {
                ulong bit = 1UL << s.Items[j];
                if ((picks & bit) != 0)
                {
                    wants |= bit;
                    picks &= ~bit;
                    if (marks is not null)
                    {
                        marks[s.First + j] = 1;
                    }
                }
            }
        }

        return _best;
    }

    private void Walk(int variant, double[] table, int level, int state, double paid)
    {
        if (level < 0)
        {
            double sum = paid + table[state];
            if (sum < _best)
            {
                _best = sum;
                _bestVariant = variant;
                _at.CopyTo(_bestAt, 0);
            }

            return;
        }

        double[] cost = _cost[level];
        int[] levels = _levels[level];
        double least = table[state + _offered[level] + (_levels[level][_levelCount[level] - 1] * _strides[level])];
        for (int n = 0; n < _levelCount[level]; n++)
        {
            int k = levels[n];
            if (paid + cost[k] + least >= _best)
            {
                break;
            }

            // At best all that is offered of the rest comes free.
            int next = state + (k * _strides[level]);
            if (paid + cost[k] + table[next + _offered[level]] < _best)
            {
                _at[level] = k;
                Walk(variant, table, level - 1, next, paid + cost[k]);
            }
        }
    }

    private void Cheapest(int k, double[] share, ulong taken, ulong away)
    {
        Slot s = _tools[k];
        _toolPick[k] = -1;
        if ((s.Mask & taken) != 0)
        {
            _toolCost[k] = 0;
            return;
        }

        double least = double.PositiveInfinity;
        for (int j = 0; j < s.Items.Length; j++)
        {
            double c = share[s.First + j];
            if (c < least && (away >> s.Items[j] & 1) == 0)
            {
                least = c;
                _toolPick[k] = j;
            }
        }

        _toolCost[k] = least;
    }

    // Least payment for so many uses or more, and the numbers of uses that are worth a look.
    private void Curve(int k, double[] share, ulong taken, ulong away)
    {
        Slot s = _uses[k];
        int limit = _limits[k], start = 0;
        for (int j = 0; j < s.Items.Length; j++)
        {
            start += (taken >> s.Items[j] & 1) != 0 ? s.Uses[j] : 0;
        }

        start = Math.Min(start, limit);
        double[] cost = _cost[k];
        ulong[] pick = _pick[k];
        Array.Fill(cost, double.PositiveInfinity);
        cost[start] = 0;
        pick[start] = 0;
        for (int j = 0; j < s.Items.Length; j++)
        {
            ulong bit = 1UL << s.Items[j];
            if (((taken | away) & bit) != 0)
            {
                continue;
            }

            double c = share[s.First + j];
            for (int u = limit; u > start; u--)
            {
                int before = Math.Max(start, u - s.Uses[j]);
                if (cost[before] + c < cost[u])
                {
                    cost[u] = cost[before] + c;
                    pick[u] = pick[before] | bit;
                }
            }
        }

        int count = 0;
        for (int u = start; u <= limit; u++)
        {
            if (double.IsPositiveInfinity(cost[u]))
            {
                break;
            }

            if (u == limit || cost[u] < cost[u + 1])
            {
                _levels[k][count++] = u;
            }
        }

        _levelCount[k] = count;
    }

    private double Water(double[] share, ulong taken, ulong away, double[]? marks, out ulong wants)
    {
        wants = 0;
        Slot s = _tools[0];
        double missing = _amount;
        for (int j = 0; j < s.Items.Length; j++)
        {
            missing -= (taken >> s.Items[j] & 1) != 0 ? s.WaterL[j] : 0;
        }

        double paid = 0;
        while (missing > 0)
        {
            int best = -1;
            double least = _perUnit;
            for (int j = 0; j < s.Items.Length; j++)
            {
                ulong bit = 1UL << s.Items[j];
                if (((taken | away | wants) & bit) == 0 && share[s.First + j] / s.WaterL[j] < least)
                {
                    least = share[s.First + j] / s.WaterL[j];
                    best = j;
                }
            }

            if (best < 0)
            {
                break;
            }

            double part = Math.Min(1, missing / s.WaterL[best]);
            wants |= 1UL << s.Items[best];
            paid += part * share[s.First + best];
            missing -= s.WaterL[best];
            if (marks is not null)
            {
                marks[s.First + best] = part;
            }
        }

        return paid + (_perUnit * Math.Max(0, missing));
    }

    /// <summary>Items that give one function to one asker.</summary>
    /// <param name="Function">The function as a bit; zero for water.</param>
    /// <param name="Items">The items.</param>
    /// <param name="First">Number of the first pair of item and asker.</param>
    /// <param name="Uses">Uses of each item.</param>
    /// <param name="WaterL">Water that each item holds.</param>
    public sealed record Slot(ulong Function, int[] Items, int First, int[] Uses, double[] WaterL)
    {
        /// <summary>The items as bits.</summary>
        public ulong Mask { get; } = Items.Aggregate(0UL, (m, i) => m | (1UL << i));
    }
}
