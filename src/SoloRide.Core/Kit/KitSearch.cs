using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>
/// Exact choice of items under several caps: branch and bound over the items. The mass and room of an item is shared out over its functions, and that of a function
/// over the pools of failures and needs that ask for it; what a pool can still gain then costs at least the shares of what its cheapest way of repair lacks. The
/// bound is what the best gains leave when each cap is filled alone (a fractional knapsack), net of the price of mass. An item that adds nothing to what is there,
/// or that a better one left out could replace, is not tried.
/// </summary>
internal sealed class KitSearch
{
    /// <summary>A need that stays unmet weighs more than any repair: hours.</summary>
    public const double UnmetNeedH = 1e3;

    /// <summary>A litre of water that finds no container weighs more than any need: hours.</summary>
    public const double MissingWaterHPerL = 1e6;

    /// <summary>After so many steps the search ends with what it has.</summary>
    public const int StepLimit = 400_000;

    private const double Slack = 1e-11;

    private readonly KitEvaluator _evaluator;
    private readonly Candidate[] _items;
    private readonly double[] _caps;
    private readonly ulong _needs;
    private readonly double _waterL;
    private readonly double _pricePerKgH;
    private readonly int _dims;
    private readonly int _elements;
    private readonly ulong[] _suffixTools;
    private readonly int[][] _suffixUses;
    private readonly double[] _suffixWater;
    private readonly double[] _lightest;
    private readonly ulong _relevant;
    private readonly int[] _usesLimit;
    private readonly (ulong Needs, ulong Uses)[][] _ways;
    private readonly int[][] _dominators;
    private readonly bool[] _out;
    private readonly int[] _toolCount;
    private readonly int[] _uses;
    private readonly double[] _load;
    private readonly bool[] _taken;
    private readonly int[] _merged;
    private double _kg;
    private double _water;
    private double _best = double.PositiveInfinity;
    private bool[] _bestTaken;
    private int _steps;

    public KitSearch(KitEvaluator evaluator, Candidate[] items, double[] caps, ulong needs, double waterL, double pricePerKgH)
    {
        _evaluator = evaluator;
        _caps = caps;
        _needs = needs;
        _waterL = waterL;
        _pricePerKgH = pricePerKgH;
        _dims = caps.Length;
        _elements = evaluator.PoolCount + KitEvaluator.FunctionCount + 1;
        _toolCount = new int[KitEvaluator.FunctionCount];
        _uses = new int[evaluator.ConsumableCount];
        _merged = new int[evaluator.ConsumableCount];
        _load = new double[_dims];
        _items = items;
        _taken = new bool[items.Length];
        _bestTaken = new bool[items.Length];
        _items = Order(items);
        int m = items.Length;
        _suffixTools = new ulong[m + 1];
        _suffixUses = new int[m + 1][];
        _suffixUses[m] = new int[evaluator.ConsumableCount];
        _suffixWater = new double[m + 1];
        int functions = KitEvaluator.FunctionCount;
        _ways = [.. Enumerable.Range(0, evaluator.PoolCount).Select(p => evaluator.PoolWays(p).ToArray())];
        _usesLimit = [.. Enumerable.Range(0, evaluator.ConsumableCount).Select(evaluator.UsesLimit)];
        int[] asked = new int[functions];
        for (int f = 0; f < functions; f++)
        {
            asked[f] = (int)(needs >> f & 1);
            for (int p = 0; p < evaluator.PoolCount; p++)
            {
                asked[f] += (int)(evaluator.PoolFunctions(p) >> f & 1);
            }

            _relevant |= asked[f] > 0 ? 1UL << f : 0;
        }

        // Lightest share of each function (and, last, of a litre of water) among the items from a depth on.
        _lightest = new double[(m + 1) * (functions + 1) * _dims];
        Array.Fill(_lightest, double.PositiveInfinity);
        for (int i = m - 1; i >= 0; i--)
        {
            Candidate c = _items[i];
            _suffixTools[i] = _suffixTools[i + 1] | c.Functions;
            _suffixWater[i] = _suffixWater[i + 1] + c.WaterL;
            int[] u = (int[])_suffixUses[i + 1].Clone();
            AddUses(u, c, 1);
            _suffixUses[i] = u;
            bool water = c.WaterL > 0 && waterL > 0;
            int parts = System.Numerics.BitOperations.PopCount(c.Functions & _relevant) + (water ? 1 : 0);
            for (int f = 0; f <= functions; f++)
            {
                bool has = f < functions ? (c.Functions & _relevant & (1UL << f)) != 0 : water;
                double among = f < functions ? asked[f] : c.WaterL;
                for (int d = 0; d < _dims; d++)
                {
                    double later = _lightest[Index(i + 1, f, d)];
                    _lightest[Index(i, f, d)] = has ? Math.Min(later, c.Weights[d] / (parts * among)) : later;
                }
            }
        }

        _out = new bool[m];
        _dominators = [.. Enumerable.Range(0, m).Select(i => Enumerable.Range(0, m).Where(k => k != i && Dominates(_items[k], k, _items[i], i)).ToArray())];
    }

    /// <summary>An item as the search sees it.</summary>
    /// <param name="Source">Its place in the caller's list.</param>
    /// <param name="Functions">Functions as bits.</param>
    /// <param name="Uses">Uses of what is used up.</param>
    /// <param name="WaterL">Water that it holds.</param>
    /// <param name="Weights">What it takes of each cap.</param>
    /// <param name="Kg">Mass.</param>
    /// <param name="Forced">Whether it goes in any case.</param>
    public sealed record Candidate(int Source, ulong Functions, int Uses, double WaterL, double[] Weights, double Kg, bool Forced);

    public bool Proven { get; private set; } = true;

    /// <summary>Cost of a set: hours lost, the price of its mass, and what is unmet.</summary>
    public double Cost => _evaluator.Loss(Tools(), _uses) + (_pricePerKgH * _kg) + Unmet(Tools(), _water);

    /// <summary>Searches.</summary>
    /// <returns>Indices in the caller's list, ascending.</returns>
    public int[] Run(CancellationToken cancellation)
    {
        for (int i = 0; i < _items.Length; i++)
        {
            if (_items[i].Forced)
            {
                Put(i, 1);
            }
        }

        Greedy();
        Descend(0, cancellation);
        return [.. _items.Where((_, i) => _bestTaken[i]).Select(c => c.Source).Order()];
    }

    private static double Fill(double room, ReadOnlySpan<double> gain, ReadOnlySpan<double> weight)
    {
        // Fractional knapsack over a handful of elements.
        Span<bool> used = stackalloc bool[gain.Length];
        double sum = 0;
        for (int i = 0; i < gain.Length; i++)
        {
            if (gain[i] > 0 && weight[i] <= 0)
            {
                sum += gain[i];
                used[i] = true;
            }
        }

        while (room > 0)
        {
            int best = -1;
            double ratio = 0;
            for (int i = 0; i < gain.Length; i++)
            {
                if (!used[i] && gain[i] > 0 && gain[i] / weight[i] > ratio)
                {
                    ratio = gain[i] / weight[i];
                    best = i;
                }
            }

            if (best < 0)
            {
                break;
            }

            used[best] = true;
            sum += weight[best] <= room ? gain[best] : ratio * room;
            room -= weight[best];
        }

        return sum;
    }

    private int Index(int depth, int function, int dim) => (((depth * (KitEvaluator.FunctionCount + 1)) + function) * _dims) + dim;

    // Whether a can stand in for b in any set: it does all that b does and takes no more. Equal items stand in order.
    private bool Dominates(Candidate a, int ia, Candidate b, int ib)
    {
        if ((b.Functions & _relevant & ~a.Functions) != 0 || a.Uses < b.Uses || a.WaterL < b.WaterL || a.Kg > b.Kg || a.Forced || b.Forced)
        {
            return false;
        }

        for (int d = 0; d < _dims; d++)
        {
            if (a.Weights[d] > b.Weights[d])
            {
                return false;
            }
        }

        bool equal = a.Kg.Equals(b.Kg) && a.Uses == b.Uses && a.WaterL.Equals(b.WaterL) && (a.Functions & _relevant) == (b.Functions & _relevant) && a.Weights.AsSpan().SequenceEqual(b.Weights);
        return !equal || ia < ib;
    }

    // Whether an item can still add something to what is there.
    private bool Adds(Candidate c)
    {
        if (c.WaterL > 0 && _water < _waterL)
        {
            return true;
        }

        for (ulong f = c.Functions & _relevant; f != 0; f &= f - 1)
        {
            int bit = System.Numerics.BitOperations.TrailingZeroCount(f);
            int k = _evaluator.ConsumableOf((KitFunction)bit);
            if (_toolCount[bit] == 0 || (k >= 0 && _uses[k] < _usesLimit[k]))
            {
                return true;
            }
        }

        return false;
    }

    private bool Replaceable(int i)
    {
        foreach (int k in _dominators[i])
        {
            if (_out[k])
            {
                return true;
            }
        }

        return false;
    }

    // Most useful first: take everything, then put away again and again what costs least for the room it frees.
    private Candidate[] Order(Candidate[] items)
    {
        int m = items.Length;
        double[] scale = new double[_dims];
        for (int d = 0; d < _dims; d++)
        {
            double sum = items.Sum(c => c.Weights[d]);
            scale[d] = sum > _caps[d] && sum > 0 ? 1 / sum : 0;
        }

        double[] size = [.. items.Select(c => c.Kg + 1e-6 + (c.Weights.Select((w, d) => w * scale[d]).Sum() * 10))];
        bool[] inside = [.. Enumerable.Repeat(true, m)];
        int[] uses = new int[_evaluator.ConsumableCount];
        int[] tools = new int[KitEvaluator.FunctionCount];
        double water = items.Sum(c => c.WaterL);
        foreach (Candidate c in items)
        {
            AddUses(uses, c, 1);
            AddTools(tools, c, 1);
        }

        var away = new List<Candidate>(m);
        for (int left = m; left > 0; left--)
        {
            double now = Value();
            int least = -1;
            double leastRatio = double.PositiveInfinity;
            for (int i = 0; i < m; i++)
            {
                if (!inside[i])
                {
                    continue;
                }

                Move(i, -1);
                double ratio = items[i].Forced ? double.MaxValue : (Value() - now) / size[i];
                Move(i, 1);
                if (ratio < leastRatio)
                {
                    leastRatio = ratio;
                    least = i;
                }
            }

            Move(least, -1);
            inside[least] = false;
            away.Add(items[least]);
        }

        away.Reverse();
        return [.. away];

        double Value()
        {
            ulong t = 0;
            for (int f = 0; f < tools.Length; f++)
            {
                t |= tools[f] > 0 ? 1UL << f : 0;
            }

            return _evaluator.Loss(t, uses) + Unmet(t, water);
        }

        void Move(int i, int sign)
        {
            AddUses(uses, items[i], sign);
            AddTools(tools, items[i], sign);
            water += sign * items[i].WaterL;
        }
    }

    private void Greedy()
    {
        bool[] forced = (bool[])_taken.Clone();
        for (int i = 0; i < _items.Length; i++)
        {
            if (!_taken[i] && Fits(i))
            {
                Put(i, 1);
            }
        }

        // Then drop what does not earn its mass.
        bool changed = true;
        while (changed)
        {
            changed = false;
            for (int i = _items.Length - 1; i >= 0; i--)
            {
                if (_taken[i] && !forced[i])
                {
                    double with = Cost;
                    Put(i, -1);
                    if (Cost > with)
                    {
                        Put(i, 1);
                    }
                    else
                    {
                        changed = true;
                    }
                }
            }
        }

        Keep();
        for (int i = 0; i < _items.Length; i++)
        {
            if (_taken[i] && !forced[i])
            {
                Put(i, -1);
            }
        }
    }

    private void Keep()
    {
        double cost = Cost;
        if (cost < _best - Slack)
        {
            _best = cost;
            _bestTaken = (bool[])_taken.Clone();
        }
    }

    private void Descend(int depth, CancellationToken cancellation)
    {
        if (++_steps > StepLimit)
        {
            Proven = false;
            return;
        }

        if ((_steps & 1023) == 0)
        {
            cancellation.ThrowIfCancellationRequested();
        }

        while (depth < _items.Length && _items[depth].Forced)
        {
            depth++;
        }

        if (depth == _items.Length)
        {
            Keep();
            return;
        }

        if (Bound(depth) >= _best - Slack)
        {
            return;
        }

        if (Fits(depth) && Adds(_items[depth]) && !Replaceable(depth))
        {
            Put(depth, 1);
            Descend(depth + 1, cancellation);
            Put(depth, -1);
        }

        // What does not fit is no stand-in for another: only a choice to leave it out counts.
        _out[depth] = Fits(depth);
        Descend(depth + 1, cancellation);
        _out[depth] = false;
    }

    private double Bound(int depth)
    {
        ulong tools = Tools();
        ulong all = tools | _suffixTools[depth];
        for (int c = 0; c < _uses.Length; c++)
        {
            _merged[c] = _uses[c] + _suffixUses[depth][c];
        }

        int pools = _evaluator.PoolCount, dims = _dims;
        // Gains count net of the price of the mass that they take at least.
        double now = _pricePerKgH * _kg, gains = 0;
        int used = 0;
        Span<double> gain = stackalloc double[_elements];
        Span<double> cost = stackalloc double[_elements * dims];
        Span<double> way = stackalloc double[dims];
        for (int p = 0; p < pools; p++)
        {
            double loss = _evaluator.PoolLoss(p, tools, _uses);
            now += loss;
            double g = loss - _evaluator.PoolLoss(p, all, _merged);
            if (g <= 0)
            {
                continue;
            }

            Span<double> at = cost.Slice(used * dims, dims);
            at.Fill(double.PositiveInfinity);
            foreach ((ulong needs, ulong uses) in _ways[p])
            {
                ulong missing = needs & ~tools;
                if ((missing & ~_suffixTools[depth]) != 0)
                {
                    continue;
                }

                if (missing != 0)
                {
                    way.Clear();
                    for (ulong f = missing; f != 0; f &= f - 1)
                    {
                        int from = Index(depth, System.Numerics.BitOperations.TrailingZeroCount(f), 0);
                        for (int d = 0; d < dims; d++)
                        {
                            way[d] += _lightest[from + d];
                        }
                    }

                    Least(at, way);
                }
                else
                {
                    // At hand already: more is gained only by more of what it uses up.
                    for (ulong f = uses & _suffixTools[depth]; f != 0; f &= f - 1)
                    {
                        int bit = System.Numerics.BitOperations.TrailingZeroCount(f);
                        int k = _evaluator.ConsumableOf((KitFunction)bit);
                        if (_uses[k] < _usesLimit[k])
                        {
                            Least(at, _lightest.AsSpan(Index(depth, bit, 0), dims));
                        }
                    }
                }
            }

            double net = g - (_pricePerKgH * at[0]);
            if (net > 0)
            {
                gain[used++] = net;
                gains += gain[used - 1];
            }
        }

        ulong open = _needs & ~tools;
        now += UnmetNeedH * System.Numerics.BitOperations.PopCount(open);
        for (ulong rest = open & all; rest != 0; rest &= rest - 1)
        {
            Span<double> at = cost.Slice(used * dims, dims);
            _lightest.AsSpan(Index(depth, System.Numerics.BitOperations.TrailingZeroCount(rest), 0), dims).CopyTo(at);
            double netNeed = UnmetNeedH - (_pricePerKgH * at[0]);
            if (netNeed > 0)
            {
                gain[used++] = netNeed;
                gains += gain[used - 1];
            }
        }

        double shortL = Math.Max(0, _waterL - _water);
        now += MissingWaterHPerL * shortL;
        double found = Math.Min(shortL, _suffixWater[depth]);
        if (found > 0)
        {
            Span<double> at = cost.Slice(used * dims, dims);
            for (int d = 0; d < dims; d++)
            {
                at[d] = found * _lightest[Index(depth, KitEvaluator.FunctionCount, d)];
            }

            double netWater = MissingWaterHPerL * found - (_pricePerKgH * at[0]);
            if (netWater > 0)
            {
                gain[used++] = netWater;
                gains += gain[used - 1];
            }
        }

        double bound = now - gains;
        if (bound >= _best - Slack)
        {
            return bound;
        }

        Span<double> weight = stackalloc double[used];
        for (int d = 0; d < dims; d++)
        {
            double room = _caps[d] - _load[d];
            if (double.IsPositiveInfinity(room))
            {
                continue;
            }

            double sum = 0;
            for (int i = 0; i < used; i++)
            {
                weight[i] = cost[(i * dims) + d];
                sum += weight[i];
            }

            if (sum > room)
            {
                bound = Math.Max(bound, now - Fill(Math.Max(0, room), gain[..used], weight));
            }
        }

        return bound;

        static void Least(Span<double> into, ReadOnlySpan<double> other)
        {
            for (int d = 0; d < into.Length; d++)
            {
                into[d] = Math.Min(into[d], other[d]);
            }
        }
    }

    private bool Fits(int i)
    {
        double[] w = _items[i].Weights;
        for (int d = 0; d < _dims; d++)
        {
            if (w[d] > 0 && _load[d] + w[d] > _caps[d] + 1e-9)
            {
                return false;
            }
        }

        return true;
    }

    private void Put(int i, int sign)
    {
        Candidate c = _items[i];
        _taken[i] = sign > 0;
        AddTools(_toolCount, c, sign);
        AddUses(_uses, c, sign);
        for (int d = 0; d < _dims; d++)
        {
            _load[d] += sign * c.Weights[d];
        }

        _kg += sign * c.Kg;
        _water += sign * c.WaterL;
    }

    private ulong Tools()
    {
        ulong t = 0;
        for (int f = 0; f < _toolCount.Length; f++)
        {
            t |= _toolCount[f] > 0 ? 1UL << f : 0;
        }

        return t;
    }

    private double Unmet(ulong tools, double water)
        => (UnmetNeedH * System.Numerics.BitOperations.PopCount(_needs & ~tools)) + (MissingWaterHPerL * Math.Max(0, _waterL - water - 1e-9));

    private static void AddTools(int[] tools, Candidate c, int sign)
    {
        for (ulong f = c.Functions; f != 0; f &= f - 1)
        {
            tools[System.Numerics.BitOperations.TrailingZeroCount(f)] += sign;
        }
    }

    private void AddUses(int[] uses, Candidate c, int sign)
    {
        for (ulong f = c.Functions; f != 0; f &= f - 1)
        {
            int k = _evaluator.ConsumableOf((KitFunction)System.Numerics.BitOperations.TrailingZeroCount(f));
            if (k >= 0)
            {
                uses[k] += sign * c.Uses;
            }
        }
    }
}
