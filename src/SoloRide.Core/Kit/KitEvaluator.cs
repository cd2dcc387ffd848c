using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>
/// Expected hours lost with a set of functions at hand. Kinds of failure that share something used up form one pool and are weighed together:
/// failures come in random order, the rider uses the spare that keeps most in hand, and the first failure that cannot be repaired in full ends the ride.
/// </summary>
/// <remarks>Not shared between threads: it remembers what it has worked out.</remarks>
internal sealed class KitEvaluator
{
    // Uses of one sort of spare beyond this chance of being needed are not counted: coverage is understated by less than it for each sort.
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

    /// <summary>Functions that a pool asks for and does not use up.</summary>
    public ulong PoolTools(int pool) => _pools[pool].Tools;

    /// <summary>What a pool uses up: number of the consumable, most uses that count, and step in the table.</summary>
    public (int[] Consumables, int[] Limits, int[] Strides) PoolStates(int pool)
        => (_pools[pool].Consumables.ToArray(), _pools[pool].Limits.ToArray(), _pools[pool].Strides.ToArray());

    /// <summary>Expected hours lost in one pool by state, with these tools.</summary>
    public double[] PoolTable(int pool, ulong tools) => _pools[pool].Table(tools);

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
        private readonly ulong[] _atHand;
        private readonly double[] _events;
        private readonly double _eventsBeyond;
        private readonly double _meanSum;
        private readonly List<(ulong Tools, double[] Table)> _byTools = [];
        private readonly List<(WayIndex[] Open, double[] Table)> _byWays = [];
        private readonly WayIndex[] _ways;

        public Pool(Stake[] stakes, ulong consumableMask, int[] consumableIndex, IReadOnlyList<int> offeredUses)
        {
            _stakes = stakes;
            foreach (Stake s in stakes)
            {
                Functions |= Mask(s.Mode);
                _meanSum += s.Mean;
            }

            Tools = Functions & ~consumableMask;
            var consumables = new List<KitFunction>();
            for (int f = 0; f < FunctionCount; f++)
            {
                if ((Functions & consumableMask & Bit((KitFunction)f)) != 0)
                {
                    consumables.Add((KitFunction)f);
                }
            }

            // Number of failures in the pool: the kinds' own distributions, added.
            double[][] own = [.. stakes.Select(OwnEvents)];
            _events = Sum(own);
            _eventsBeyond = Math.Max(0, 1 - _events.Sum());

            // Limits of uses per consumable: what the kinds that ask for it can use up, and so low that all states fit.
            _consumables = [.. consumables.Select(f => consumableIndex[(int)f])];
            _limits = [.. consumables.Select(f => Math.Min(
                offeredUses[consumableIndex[(int)f]],
                Useful(Sum(own.Where((_, k) => stakes[k].Mode.Ways.Any(w => w.UsesUp.Contains(f)))))))];
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
            _atHand = new ulong[_states];
            for (int state = 0; state < _states; state++)
            {
                for (int i = 0; i < _limits.Length; i++)
                {
                    _atHand[state] |= state / _strides[i] % (_limits[i] + 1) > 0 ? 1UL << i : 0;
                }
            }

            _ways = [.. stakes.SelectMany((s, k) => s.Mode.Ways.Select(w => new WayIndex(
                k,
                w.Effect == RepairEffect.Full,
                Mask(w.Needs) & ~consumableMask,
                w.Needs.Where(f => (Bit(f) & consumableMask) != 0).Aggregate(0UL, (m, f) => m | (1UL << consumables.IndexOf(f))),
                w.UsesUp.Sum(f => _strides[consumables.IndexOf(f)]))))];
        }

        public ulong Functions { get; }

        public ulong Tools { get; }

        public ReadOnlySpan<int> Consumables => _consumables;

        public ReadOnlySpan<int> Limits => _limits;

        public ReadOnlySpan<int> Strides => _strides;

        public IReadOnlyList<(ulong Needs, ulong Uses)> WayMasks => [.. _stakes.SelectMany(s => s.Mode.Ways).Select(w => (Mask(w.Needs), Mask(w.UsesUp))).Distinct()];

        public int UsesLimit(int consumable) => Array.IndexOf(_consumables, consumable) is >= 0 and var i ? _limits[i] : 0;

        public double Loss(ulong tools, ReadOnlySpan<int> uses)
        {
            int state = 0;
            for (int i = 0; i < _consumables.Length; i++)
            {
                state += Math.Min(uses[_consumables[i]], _limits[i]) * _strides[i];
            }

            return Table(tools)[state];
        }

        /// <summary>Loss by state of what is used up, with these tools; the same array for tools that make the same repairs possible.</summary>
        public double[] Table(ulong tools)
        {
            ulong key = tools & Tools;
            foreach ((ulong t, double[] table) in _byTools)
            {
                if (t == key)
                {
                    return table;
                }
            }

            return AddTable(key);
        }

        private double[] AddTable(ulong key)
        {
            WayIndex[] open = [.. _ways.Where(w => (w.Tools & ~key) == 0)];
            double[]? made = null;
            foreach ((WayIndex[] ways, double[] table) in _byWays)
            {
                made = ways.AsSpan().SequenceEqual(open) ? table : made;
            }

            if (made is null)
            {
                made = Make(open);
                _byWays.Add((open, made));
            }

            _byTools.Add((key, made));
            return made;
        }

        private static double[] OwnEvents(Stake s)
        {
            double[] own = new double[MostEvents + 1];
            CountKernel.GammaPoisson(s.Mean, s.Shape, own);
            return Trim(own);
        }

        private static double[] Sum(IEnumerable<double[]> counts)
        {
            double[] sum = [1];
            foreach (double[] c in counts)
            {
                sum = Trim(Convolve(sum, c));
            }

            return sum;
        }

        private static int Useful(double[] events)
        {
            int useful = 0;
            double tail = 1;
            while (useful < events.Length && (tail -= events[useful]) > UsesTail)
            {
                useful++;
            }

            return useful;
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
        private double[] Make(WayIndex[] open)
        {
            double[] value = new double[_states];
            if (_meanSum <= 0)
            {
                return value;
            }

            double worst = _stakes.Max(s => s.UnrepairedH);
            double nothing = _stakes.Sum(s => s.Mean / _meanSum * s.UnrepairedH);
            if (open.Length == 0)
            {
                Array.Fill(value, (nothing * (1 - _events[0] - _eventsBeyond)) + (_eventsBeyond * worst));
                return value;
            }

            double[] before = new double[_states], now = new double[_states];
            double[] share = [.. _stakes.Select(s => s.Mean / _meanSum)];
            for (int n = 1; n < _events.Length; n++)
            {
                double p = _events[n];
                for (int state = 0; state < _states; state++)
                {
                    double sum = nothing;
                    ulong has = _atHand[state];
                    for (int w = 0; w < open.Length;)
                    {
                        int k = open[w].Kind;
                        double unrepaired = _stakes[k].UnrepairedH, best = unrepaired;
                        for (; w < open.Length && open[w].Kind == k; w++)
                        {
                            WayIndex way = open[w];
                            if ((way.Consumables & ~has) == 0)
                            {
                                best = Math.Min(best, way.Full ? before[state - way.Stride] : _stakes[k].PartlyH);
                            }
                        }

                        sum -= share[k] * (unrepaired - best);
                    }

                    now[state] = sum;
                    value[state] += p * sum;
                }

                (before, now) = (now, before);
            }

            for (int state = 0; state < _states; state++)
            {
                value[state] += _eventsBeyond * worst;
            }

            return value;
        }

        private readonly record struct WayIndex(int Kind, bool Full, ulong Tools, ulong Consumables, int Stride);
    }
}
