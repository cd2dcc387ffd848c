using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>
/// Expected hours lost with a set of functions at hand. Kinds of failure that share something used up form one pool and are weighed together:
/// failures come in random order, the rider uses the spare that keeps most in hand, and the first failure that cannot be repaired in full ends the ride.
/// </summary>
/// <remarks>Not shared between threads: it remembers what it has worked out.</remarks>
internal sealed class KitEvaluator
{
    // Uses beyond this chance of being needed are not counted: coverage is understated by less than it.
    private const double UsesTail = 1e-4;

    // Numbers of failures beyond this chance count as the worst loss.
    private const double EventsTail = 1e-8;
    private const int MostEvents = 60;
    private const int MostStates = 1_500;

    private readonly Pool[] _pools;
    private readonly int[] _consumableIndex;
    private readonly ulong _consumableMask;

    /// <summary>Makes an evaluator for kinds with their mean number of events, shape, and hours at stake.</summary>
    public KitEvaluator(IReadOnlyList<Stake> stakes, IReadOnlyList<int> offeredUses)
    {
        foreach (Stake s in stakes)
        {
            foreach (RepairWay w in s.Mode.Ways)
            {
                foreach (KitFunction f in w.UsesUp)
                {
                    _consumableMask |= Bit(f);
                }
            }
        }

        _consumableIndex = new int[FunctionCount];
        Array.Fill(_consumableIndex, -1);
        int next = 0;
        for (int f = 0; f < FunctionCount; f++)
        {
            if ((_consumableMask >> f & 1) != 0)
            {
                _consumableIndex[f] = next++;
            }
        }

        ConsumableCount = next;

        // Kinds are joined when a consumable occurs in both.
        int[] group = [.. Enumerable.Range(0, stakes.Count)];
        for (int i = 0; i < stakes.Count; i++)
        {
            for (int j = 0; j < i; j++)
            {
                if ((Mask(stakes[i].Mode) & Mask(stakes[j].Mode) & _consumableMask) != 0)
                {
                    int from = group[i], to = group[j];
                    for (int k = 0; k < stakes.Count; k++)
                    {
                        if (group[k] == from)
                        {
                            group[k] = to;
                        }
                    }
                }
            }
        }

        _pools = [.. group.Select((g, i) => (g, i)).GroupBy(p => p.g, p => stakes[p.i]).Select(g => new Pool([.. g], _consumableMask, _consumableIndex, offeredUses))];
    }

    /// <summary>Number of values of <see cref="KitFunction"/>.</summary>
    public static int FunctionCount { get; } = Enum.GetValues<KitFunction>().Length;

    /// <summary>How many functions are used up by repairs.</summary>
    public int ConsumableCount { get; }

    public int PoolCount => _pools.Length;

    /// <summary>Place of a function among those used up; -1 for tools.</summary>
    public int ConsumableOf(KitFunction f) => _consumableIndex[(int)f];

    /// <summary>Functions that occur in a pool.</summary>
    public ulong PoolFunctions(int pool) => _pools[pool].Functions;

    /// <summary>Functions that each way of repair in a pool asks for, and those of them that are used up.</summary>
    public IReadOnlyList<(ulong Needs, ulong Uses)> PoolWays(int pool) => _pools[pool].WayMasks;

    /// <summary>Uses of what is used up beyond which nothing is gained.</summary>
    public int UsesLimit(int consumable) => _pools.Max(p => p.UsesLimit(consumable));

    /// <summary>Expected hours lost in one pool.</summary>
    public double PoolLoss(int pool, ulong tools, ReadOnlySpan<int> uses) => _pools[pool].Loss(tools, uses);

    /// <summary>Expected hours lost.</summary>
    public double Loss(ulong tools, ReadOnlySpan<int> uses)
    {
        double sum = 0;
        foreach (Pool p in _pools)
        {
            sum += p.Loss(tools, uses);
        }

        return sum;
    }

    /// <summary>Chance that no failure stays unrepaired; pools are independent.</summary>
    public double Covered(ulong tools, ReadOnlySpan<int> uses)
    {
        double product = 1;
        foreach (Pool p in _pools)
        {
            product *= 1 - p.Loss(tools, uses);
        }

        return Math.Max(0, product);
    }

    public static ulong Bit(KitFunction f) => 1UL << (int)f;

    public static ulong Mask(FailureMode mode)
    {
        ulong m = 0;
        foreach (RepairWay w in mode.Ways)
        {
            m |= Mask(w.Needs);
        }

        return m;
    }

    public static ulong Mask(IReadOnlyList<KitFunction> functions)
    {
        ulong m = 0;
        foreach (KitFunction f in functions)
        {
            m |= Bit(f);
        }

        return m;
    }

    /// <summary>One kind of failure as the evaluator sees it.</summary>
    /// <param name="Mode">Its mode.</param>
    /// <param name="Mean">Expected events.</param>
    /// <param name="Shape">Shape of their number; infinite for Poisson.</param>
    /// <param name="UnrepairedH">Hours lost without repair.</param>
    /// <param name="PartlyH">Hours lost after a partial repair.</param>
    public sealed record Stake(FailureMode Mode, double Mean, double Shape, double UnrepairedH, double PartlyH);

    private sealed class Pool
    {
        private readonly Stake[] _stakes;
        private readonly int[] _consumables;
        private readonly int[] _limits;
        private readonly int[] _strides;
        private readonly int _states;
        private readonly double[] _events;
        private readonly double _eventsBeyond;
        private readonly double _meanSum;
        private readonly ulong _tools;
        private readonly List<(ulong Tools, double[] Table)> _tables = [];
        private readonly WayIndex[][] _ways;

        public Pool(Stake[] stakes, ulong consumableMask, int[] consumableIndex, IReadOnlyList<int> offeredUses)
        {
            _stakes = stakes;
            foreach (Stake s in stakes)
            {
                Functions |= Mask(s.Mode);
                _meanSum += s.Mean;
            }

            _tools = Functions & ~consumableMask;
            var consumables = new List<KitFunction>();
            for (int f = 0; f < FunctionCount; f++)
            {
                if ((Functions & consumableMask & Bit((KitFunction)f)) != 0)
                {
                    consumables.Add((KitFunction)f);
                }
            }

            // Number of failures in the pool: the kinds' own distributions, added.
            double[] events = [1];
            foreach (Stake s in stakes)
            {
                double[] own = new double[MostEvents + 1];
                CountKernel.GammaPoisson(s.Mean, s.Shape, own);
                events = Trim(Convolve(events, own));
            }

            _events = events;
            _eventsBeyond = Math.Max(0, 1 - events.Sum());
            int useful = 0;
            double tail = 1;
            while (useful < events.Length && (tail -= events[useful]) > UsesTail)
            {
                useful++;
            }

            // Limits of uses per consumable, kept so low that all states fit.
            _consumables = [.. consumables.Select(f => consumableIndex[(int)f])];
            _limits = [.. consumables.Select(f => Math.Min(offeredUses[consumableIndex[(int)f]], useful))];
            while (_limits.Aggregate(1L, (a, l) => a * (l + 1)) > MostStates)
            {
                _limits[Array.IndexOf(_limits, _limits.Max())]--;
            }

            _strides = new int[_limits.Length];
            int stride = 1;
            for (int i = 0; i < _limits.Length; i++)
            {
                _strides[i] = stride;
                stride *= _limits[i] + 1;
            }

            _states = stride;
            _ways = [.. stakes.Select(s => s.Mode.Ways.Select(w => new WayIndex(
                w.Effect == RepairEffect.Full,
                Mask(w.Needs) & ~consumableMask,
                [.. w.Needs.Where(f => (Bit(f) & consumableMask) != 0).Select(f => consumables.IndexOf(f))],
                w.UsesUp.Sum(f => _strides[consumables.IndexOf(f)]))).ToArray())];
        }

        public ulong Functions { get; }

        public IReadOnlyList<(ulong Needs, ulong Uses)> WayMasks => [.. _stakes.SelectMany(s => s.Mode.Ways).Select(w => (Mask(w.Needs), Mask(w.UsesUp))).Distinct()];

        public int UsesLimit(int consumable) => Array.IndexOf(_consumables, consumable) is >= 0 and var i ? _limits[i] : 0;

        public double Loss(ulong tools, ReadOnlySpan<int> uses)
        {
            int state = 0;
            for (int i = 0; i < _consumables.Length; i++)
            {
                state += Math.Min(uses[_consumables[i]], _limits[i]) * _strides[i];
            }

            ulong key = tools & _tools;
            foreach ((ulong t, double[] table) in _tables)
            {
                if (t == key)
                {
                    return table[state];
                }
            }

            double[] made = Make(key);
            _tables.Add((key, made));
            return made[state];
        }

        private static double[] Convolve(double[] a, double[] b)
        {
            double[] c = new double[Math.Min(MostEvents, a.Length + b.Length - 2) + 1];
            for (int i = 0; i < a.Length; i++)
            {
                for (int j = 0; j < b.Length && i + j < c.Length; j++)
                {
                    c[i + j] += a[i] * b[j];
                }
            }

            return c;
        }

        private static double[] Trim(double[] p)
        {
            double sum = 0;
            for (int n = 0; n < p.Length; n++)
            {
                sum += p[n];
                if (1 - sum < EventsTail)
                {
                    return p[..(n + 1)];
                }
            }

            return p;
        }

        // value[state] = sum over n of P(n) f_n(state); f_n(s) = sum over kinds of their share times the best of: a full repair and on with n - 1, leaving.
        private double[] Make(ulong tools)
        {
            double[] value = new double[_states];
            if (_meanSum <= 0)
            {
                return value;
            }

            double worst = _stakes.Max(s => s.UnrepairedH);
            double[] before = new double[_states], now = new double[_states];
            int[] digits = new int[_limits.Length];
            for (int n = 1; n < _events.Length; n++)
            {
                Array.Clear(digits);
                for (int state = 0; state < _states; state++)
                {
                    double sum = 0;
                    for (int k = 0; k < _stakes.Length; k++)
                    {
                        double best = _stakes[k].UnrepairedH;
                        foreach (WayIndex w in _ways[k])
                        {
                            if ((w.Tools & ~tools) != 0 || !Has(w, digits))
                            {
                                continue;
                            }

                            best = Math.Min(best, w.Full ? before[state - w.Stride] : _stakes[k].PartlyH);
                        }

                        sum += _stakes[k].Mean / _meanSum * best;
                    }

                    now[state] = sum;
                    for (int d = 0; d < digits.Length && ++digits[d] > _limits[d]; d++)
                    {
                        digits[d] = 0;
                    }
                }

                for (int state = 0; state < _states; state++)
                {
                    value[state] += _events[n] * now[state];
                }

                (before, now) = (now, before);
            }

            for (int state = 0; state < _states; state++)
            {
                value[state] += _eventsBeyond * worst;
            }

            return value;
        }

        private static bool Has(WayIndex w, int[] digits)
        {
            foreach (int c in w.Consumables)
            {
                if (digits[c] == 0)
                {
                    return false;
                }
            }

            return true;
        }

        private sealed record WayIndex(bool Full, ulong Tools, int[] Consumables, int Stride);
    }
}
