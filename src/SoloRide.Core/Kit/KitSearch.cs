using System.Numerics;
using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>
/// Exact choice of items under several caps: branch and bound with a bound by Lagrangian decomposition. Each cap gets a price; an item's price (its mass on the ride and
/// what it takes of the caps) is shared out over everything that asks for it: the pools of failures, the needs, the water. Each of these is then solved by itself
/// and exactly, and their sum less the price of the caps is never above the cost of any choice that keeps the caps. Prices and shares are raised by
/// a subgradient method; items whose taking or leaving the bound excludes are settled before the search branches.
/// </summary>
/// <remarks>
/// Variable splitting and subgradient method as in textbooks of integer programming; whatever the prices, the bound holds, so that they touch the speed only.
/// An item that adds nothing to what is there, or that a better one left out could replace, is not tried.
/// </remarks>
internal sealed class KitSearch
{
    /// <summary>A need that stays unmet weighs more than any repair: hours.</summary>
    public const double UnmetNeedH = 1e3;

    /// <summary>A litre of water that finds no container weighs more than any need: hours.</summary>
    public const double MissingWaterHPerL = 1e6;

    /// <summary>After so many nodes the search ends with what it has.</summary>
    public const int StepLimit = 20_000;

    // Fewer needs left unmet is looked for first when the caps do not hold them all (see FewestMissed). A choice counts as better when it saves more than this: 4 microseconds on the ride.
    private const double Slack = 1e-9;
    private const int RootRounds = 160;
    private const int NodeRounds = 6;

    private readonly KitEvaluator _evaluator;
    private readonly Candidate[] _items;
    private readonly double[] _caps;
    private readonly ulong _needs;
    private double _waterL;
    private readonly double _pricePerKgH;
    private readonly int _count;
    private readonly int _dims;
    private readonly int[] _boundDims;
    private readonly double[] _scale;
    private readonly KitPart[] _parts;
    private readonly KitPart[] _active;
    private readonly int[] _pairItem;
    private readonly int[][] _itemPairs;
    private readonly int[][] _itemParts;
    private readonly ulong[] _dominated;
    private readonly ulong[] _dominators;
    private readonly ulong _relevant;
    private readonly int[] _usesLimit;
    private readonly ulong _forced;
    private readonly int[] _toolCount;
    private readonly int[] _uses;
    private readonly double[] _gradient;
    private readonly double[] _capGradient;
    private readonly List<Multipliers> _stack = [];
    private readonly double _gain;
    private int _missed = -1;
    private double _best = double.PositiveInfinity;
    private ulong _bestTaken;

    public KitSearch(KitEvaluator evaluator, Candidate[] items, double[] caps, ulong needs, double waterL, double pricePerKgH)
        : this(evaluator, items, caps, needs, waterL, pricePerKgH, Slack)
    {
    }

    private KitSearch(KitEvaluator evaluator, Candidate[] items, double[] caps, ulong needs, double waterL, double pricePerKgH, double gain)
    {
        _gain = gain;
        _evaluator = evaluator;
        _items = items;
        _caps = caps;
        _needs = needs;
        _waterL = waterL;
        _pricePerKgH = pricePerKgH;
        _count = items.Length;
        _dims = caps.Length;
        _toolCount = new int[KitEvaluator.FunctionCount];
        _uses = new int[evaluator.ConsumableCount];
        _usesLimit = [.. Enumerable.Range(0, evaluator.ConsumableCount).Select(evaluator.UsesLimit)];
        _relevant = needs;
        for (int p = 0; p < evaluator.PoolCount; p++)
        {
            _relevant |= evaluator.PoolFunctions(p);
        }

        // Caps that everything together keeps have no price.
        _boundDims = [.. Enumerable.Range(0, _dims).Where(d => items.Sum(c => c.Weights[d]) > caps[d])];
        _scale = new double[_dims];
        foreach (int d in _boundDims)
        {
            double[] w = [.. items.Select(c => c.Weights[d]).Where(x => x > 0)];
            _scale[d] = w.Sum() / w.Length;
        }

        var pairs = new List<int>();
        _parts = [.. Parts(pairs)];
        _active = new KitPart[_parts.Length];
        _pairItem = [.. pairs];
        _itemPairs = new int[_count][];
        _itemParts = new int[_count][];
        for (int i = 0; i < _count; i++)
        {
            _forced |= items[i].Forced ? 1UL << i : 0;
            _itemPairs[i] = [.. Enumerable.Range(0, _pairItem.Length).Where(q => _pairItem[q] == i)];
            _itemParts[i] = [.. Enumerable.Range(0, _parts.Length).Where(p => (_parts[p].Items >> i & 1) != 0)];
        }

        _dominated = new ulong[_count];
        _dominators = new ulong[_count];
        for (int a = 0; a < _count; a++)
        {
            for (int b = 0; b < _count; b++)
            {
                if (a != b && Dominates(items[a], a, items[b], b))
                {
                    _dominated[a] |= 1UL << b;
                    _dominators[b] |= 1UL << a;
                }
            }
        }

        _gradient = new double[_pairItem.Length];
        _capGradient = new double[_dims];
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

    /// <summary>Nodes of the search.</summary>
    public int Nodes { get; private set; }

    /// <summary>Evaluations of the bound.</summary>
    public int Bounds { get; private set; }

    /// <summary>Searches.</summary>
    /// <returns>Indices in the caller's list, ascending.</returns>
    public int[] Run(CancellationToken cancellation)
    {
        var root = new Multipliers(_pairItem.Length, _dims);
        for (int i = 0; i < _count; i++)
        {
            foreach (int q in _itemPairs[i])
            {
                root.Share[q] = PriceOf(root, i) / _itemPairs[i].Length;
            }
        }

        Try(_forced);
        Descend(_forced, 0, root, 0, cancellation);
        return [.. _items.Where((_, i) => (_bestTaken >> i & 1) != 0).Select(c => c.Source).Order()];
    }

    private IEnumerable<KitPart> Parts(List<int> pairs)
    {
        for (int p = 0; p < _evaluator.PoolCount; p++)
        {
            (int[] consumables, int[] limits, int[] strides) = _evaluator.PoolStates(p);
            List<KitPart.Slot> tools = [], uses = [];
            for (ulong f = _evaluator.PoolTools(p); f != 0; f &= f - 1)
            {
                tools.Add(SlotOf(f & (~f + 1), pairs));
            }

            for (int c = 0; c < consumables.Length; c++)
            {
                int of = consumables[c];
                ulong f = 0;
                for (int b = 0; b < KitEvaluator.FunctionCount; b++)
                {
                    f |= _evaluator.ConsumableOf((KitFunction)b) == of ? 1UL << b : 0;
                }

                uses.Add(SlotOf(f, pairs));
            }

            yield return KitPart.OfPool(_evaluator, p, [.. tools], [.. uses], limits, strides);
        }

        for (ulong f = _needs; f != 0; f &= f - 1)
        {
            yield return KitPart.OfNeed(SlotOf(f & (~f + 1), pairs), UnmetNeedH);
        }

        if (_waterL > 0)
        {
            yield return KitPart.OfWater(SlotOf(0, pairs), _waterL - 1e-9, MissingWaterHPerL);
        }
    }

    // The items that give a function; bit zero stands for water.
    private KitPart.Slot SlotOf(ulong function, List<int> pairs)
    {
        int[] items = [.. Enumerable.Range(0, _count).Where(i => function == 0 ? _items[i].WaterL > 0 : (_items[i].Functions & function) != 0)];
        int first = pairs.Count;
        pairs.AddRange(items);
        return new KitPart.Slot(function, items, first, [.. items.Select(i => _items[i].Uses)], [.. items.Select(i => _items[i].WaterL)]);
    }

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

    private double PriceOf(Multipliers m, int i)
    {
        double c = _pricePerKgH * _items[i].Kg;
        foreach (int d in _boundDims)
        {
            c += m.Cap[d] * _items[i].Weights[d];
        }

        return c;
    }

    // Cost of a set: hours lost, the price of its mass, and what is unmet.
    private double Cost(ulong taken)
    {
        Array.Clear(_uses);
        ulong tools = 0;
        double kg = 0, water = 0;
        for (ulong rest = taken; rest != 0; rest &= rest - 1)
        {
            Candidate c = _items[BitOperations.TrailingZeroCount(rest)];
            tools |= c.Functions;
            AddUses(_uses, c);
            kg += c.Kg;
            water += c.WaterL;
        }

        return _evaluator.Loss(tools, _uses) + (_pricePerKgH * kg)
            + (UnmetNeedH * BitOperations.PopCount(_needs & ~tools)) + (MissingWaterHPerL * Math.Max(0, _waterL - water - 1e-9));
    }

    private void AddUses(int[] uses, Candidate c)
    {
        for (ulong f = c.Functions; f != 0; f &= f - 1)
        {
            int k = _evaluator.ConsumableOf((KitFunction)BitOperations.TrailingZeroCount(f));
            if (k >= 0)
            {
                uses[k] += c.Uses;
            }
        }
    }

    private void LoadOf(ulong taken, Span<double> load)
    {
        load.Clear();
        for (ulong rest = taken; rest != 0; rest &= rest - 1)
        {
            double[] w = _items[BitOperations.TrailingZeroCount(rest)].Weights;
            for (int d = 0; d < load.Length; d++)
            {
                load[d] += w[d];
            }
        }
    }

    private bool Fits(ReadOnlySpan<double> load, int i)
    {
        double[] w = _items[i].Weights;
        for (int d = 0; d < load.Length; d++)
        {
            if (w[d] > 0 && load[d] + w[d] > _caps[d] + 1e-9)
            {
                return false;
            }
        }

        return true;
    }

    // A set from what the parts ask for: puts away what costs least until it fits, then betters it by leaving, adding and exchanging.
    private void Try(ulong wanted)
    {
        Span<double> load = stackalloc double[_dims];
        ulong set = wanted | _forced;
        double cost = Cost(set);
        while (true)
        {
            LoadOf(set, load);
            bool over = false;
            for (int d = 0; d < _dims; d++)
            {
                over |= load[d] > _caps[d] + 1e-9;
            }

            if (!over || (set & ~_forced) == 0)
            {
                break;
            }

            int least = -1;
            double leastRatio = double.PositiveInfinity, leastCost = cost;
            for (ulong rest = set & ~_forced; rest != 0; rest &= rest - 1)
            {
                int i = BitOperations.TrailingZeroCount(rest);
                double excess = 0;
                for (int d = 0; d < _dims; d++)
                {
                    if (load[d] > _caps[d] + 1e-9)
                    {
                        excess += Math.Min(_items[i].Weights[d], load[d] - _caps[d]) / (load[d] - _caps[d]);
                    }
                }

                if (excess > 0)
                {
                    double without = Cost(set & ~(1UL << i)), ratio = (without - cost) / excess;
                    if (ratio < leastRatio)
                    {
                        (least, leastRatio, leastCost) = (i, ratio, without);
                    }
                }
            }

            if (least < 0)
            {
                break;
            }

            set &= ~(1UL << least);
            cost = leastCost;
        }

        Better(ref set, ref cost);
        if (cost < _best - _gain)
        {
            _best = cost;
            _bestTaken = set;
        }
    }

    private void Better(ref ulong set, ref double cost)
    {
        Span<double> load = stackalloc double[_dims], less = stackalloc double[_dims];
        ulong all = _count == 64 ? ulong.MaxValue : (1UL << _count) - 1;
        bool changed = true;
        while (changed)
        {
            changed = false;
            for (ulong rest = set & ~_forced; rest != 0; rest &= rest - 1)
            {
                ulong without = set & ~(rest & (~rest + 1));
                double c = Cost(without);
                if (c <= cost)
                {
                    (set, cost, changed) = (without, c, true);
                }
            }

            LoadOf(set, load);
            for (ulong rest = all & ~set; rest != 0; rest &= rest - 1)
            {
                int i = BitOperations.TrailingZeroCount(rest);
                if (Fits(load, i) && Cost(set | (1UL << i)) is var c && c < cost - Slack)
                {
                    (set, cost, changed) = (set | (1UL << i), c, true);
                    LoadOf(set, load);
                }
            }

            if (changed)
            {
                continue;
            }

            for (ulong from = set & ~_forced; from != 0 && !changed; from &= from - 1)
            {
                ulong without = set & ~(from & (~from + 1));
                LoadOf(without, less);
                for (ulong rest = all & ~set; rest != 0; rest &= rest - 1)
                {
                    int i = BitOperations.TrailingZeroCount(rest);
                    if (_itemPairs[i].Length > 0 && Fits(less, i) && Cost(without | (1UL << i)) is var c && c < cost - Slack)
                    {
                        (set, cost, changed) = (without | (1UL << i), c, true);
                        break;
                    }
                }
            }
        }
    }

    private void Descend(ulong taken, ulong away, Multipliers multipliers, int depth, CancellationToken cancellation)
    {
        if (++Nodes > StepLimit)
        {
            Proven = false;
            return;
        }

        cancellation.ThrowIfCancellationRequested();
        while (_stack.Count <= depth)
        {
            _stack.Add(new Multipliers(_pairItem.Length, _dims));
        }

        // Work on a copy: the other branch starts from the same prices.
        Multipliers m = _stack[depth];
        m.CopyFrom(multipliers);
        double[] cost = m.Values;
        for (bool first = depth == 0; ; first = false)
        {
            Settle(taken, ref away);
            double bound = Raise(taken, away, m, first ? RootRounds : NodeRounds, first);
            if (bound < _best - _gain && first && MostWater(cancellation))
            {
                bound = Raise(taken, away, m, RootRounds, true);
            }

            if (bound < _best - _gain && first && FewestMissed(cancellation))
            {
                // The needs get a price of the size of repairs, and the bound is raised anew.
                m.Need = Math.Max(0.01, (_best - (UnmetNeedH * _missed)) / Math.Max(1, BitOperations.PopCount(_needs)));
                bound = Raise(taken, away, m, RootRounds, true);
            }

            if (bound >= _best - _gain)
            {
                return;
            }

            ulong open = Open(taken, away);
            if (open == 0)
            {
                double c = Cost(taken);
                if (c < _best - _gain)
                {
                    _best = c;
                    _bestTaken = taken;
                }

                return;
            }

            ulong chosen = Evaluate(taken, away, m, cost, out bound);
            Try(taken | chosen, depth);
            if (bound >= _best - _gain)
            {
                return;
            }

            // What follows for an item from taking it, and from leaving it.
            ulong nowTaken = taken, nowAway = away;
            int branch = -1;
            double widest = -1;
            bool inFirst = false;
            for (ulong rest = open; rest != 0; rest &= rest - 1)
            {
                int i = BitOperations.TrailingZeroCount(rest);
                double inside = bound + PriceOf(m, i), outside = bound;
                foreach (int p in _itemParts[i])
                {
                    inside += _parts[p].Solve(m.Share, taken | (1UL << i), away, out _) - cost[p];
                    if ((chosen >> i & 1) != 0)
                    {
                        outside += _parts[p].Solve(m.Share, taken, away | (1UL << i), out _) - cost[p];
                    }
                }

                Bounds += 2;
                if (inside >= _best - _gain)
                {
                    nowAway |= 1UL << i;
                }
                else if (outside >= _best - _gain)
                {
                    nowTaken |= 1UL << i;
                }
                else
                {
                    double a = inside - bound, b = outside - bound;
                    double width = Math.Min(a, b) + (0.1 * Math.Max(a, b));
                    if (width > widest)
                    {
                        (branch, widest, inFirst) = (i, width, a <= b);
                    }
                }
            }

            if (nowTaken != taken || nowAway != away)
            {
                if (!Keeps(nowTaken))
                {
                    return;
                }

                (taken, away) = (nowTaken, nowAway);
                continue;
            }

            ulong bit = 1UL << branch;
            for (int side = 0; side < 2; side++)
            {
                if ((side == 0) == inFirst)
                {
                    Descend(taken | bit, away, m, depth + 1, cancellation);
                }
                else
                {
                    Descend(taken, away | bit, m, depth + 1, cancellation);
                }
            }

            return;
        }
    }

    // When the water finds no room in the best choice known, finds the most that any choice holds and asks for no more: the rest is lost to every choice alike.
    // Returns whether less is asked for than before.
    private bool MostWater(CancellationToken cancellation)
    {
        if (_gain > Slack || _waterL <= 0 || WaterOf(_bestTaken) >= _waterL - 1e-9)
        {
            return false;
        }

        var search = new KitSearch(new KitEvaluator([], []), _items, _caps, 0, _waterL, 0, MissingWaterHPerL * 1e-6);
        search.Run(cancellation);
        double most = WaterOf(search._bestTaken);
        Nodes += search.Nodes;
        if (!search.Proven || most >= _waterL)
        {
            return false;
        }

        // The search above is exact to a millionth of a litre.
        _waterL = Math.Min(_waterL, most + 1e-6);
        foreach (KitPart part in _parts)
        {
            part.AmountL = _waterL - 1e-9;
        }

        _best = Cost(_bestTaken);
        Try(search._bestTaken);
        return true;
    }

    private double WaterOf(ulong taken)
    {
        double water = 0;
        for (ulong rest = taken; rest != 0; rest &= rest - 1)
        {
            water += _items[BitOperations.TrailingZeroCount(rest)].WaterL;
        }

        return water;
    }

    // Finds out whether the best choice known leaves as few needs unmet as any. Then a better one leaves just as many: fewer cannot be, and more cost more than
    // all the repairs. That turns the weight of an unmet need into a price like that of the caps, which the bound is free to choose.
    private bool FewestMissed(CancellationToken cancellation)
    {
        ulong tools = 0, offered = 0;
        for (int i = 0; i < _count; i++)
        {
            offered |= _items[i].Functions;
            tools |= (_bestTaken >> i & 1) != 0 ? _items[i].Functions : 0;
        }

        int missed = BitOperations.PopCount(_needs & ~tools);
        if (_gain > Slack || missed == BitOperations.PopCount(_needs & ~offered) || WaterOf(_bestTaken) < _waterL - 2e-6 || _best >= UnmetNeedH * (missed + 1))
        {
            return false;
        }

        var search = new KitSearch(new KitEvaluator([], []), _items, _caps, _needs, 0, 0, UnmetNeedH * 0.999);
        search.Run(cancellation);
        if (!search.Proven)
        {
            return false;
        }

        if (search._best < UnmetNeedH * (missed - 0.5))
        {
            Try(search._bestTaken);
            return (int)Math.Round(_best / UnmetNeedH) != missed && FewestMissed(cancellation);
        }

        Nodes += search.Nodes;
        _missed = missed;
        return true;
    }

    // At most one set in a few is worth bettering; deep nodes only ask whether what the parts want fits.
    private void Try(ulong wanted, int depth)
    {
        if (depth == 0)
        {
            Try(wanted);
        }
        else if (Keeps(wanted))
        {
            double cost = Cost(wanted);
            if (cost < _best - _gain)
            {
                Better(ref wanted, ref cost);
                _best = cost;
                _bestTaken = wanted;
            }
        }
    }

    private bool Keeps(ulong set)
    {
        Span<double> load = stackalloc double[_dims], forced = stackalloc double[_dims];
        LoadOf(set, load);
        LoadOf(_forced, forced);
        for (int d = 0; d < _dims; d++)
        {
            // What must go may pass a cap by itself.
            if (load[d] > Math.Max(_caps[d], forced[d]) + 1e-9)
            {
                return false;
            }
        }

        return true;
    }

    private ulong Open(ulong taken, ulong away) => (_count == 64 ? ulong.MaxValue : (1UL << _count) - 1) & ~taken & ~away;

    // Leaves what no longer fits, adds nothing to what is there, or could be replaced by what was left.
    private void Settle(ulong taken, ref ulong away)
    {
        Span<double> load = stackalloc double[_dims];
        LoadOf(taken, load);
        Array.Clear(_toolCount);
        Array.Clear(_uses);
        double water = 0;
        for (ulong rest = taken; rest != 0; rest &= rest - 1)
        {
            Candidate c = _items[BitOperations.TrailingZeroCount(rest)];
            for (ulong f = c.Functions; f != 0; f &= f - 1)
            {
                _toolCount[BitOperations.TrailingZeroCount(f)]++;
            }

            AddUses(_uses, c);
            water += c.WaterL;
        }

        for (ulong rest = Open(taken, away); rest != 0; rest &= rest - 1)
        {
            int i = BitOperations.TrailingZeroCount(rest);
            if (!Fits(load, i) || !Adds(_items[i], water))
            {
                away |= 1UL << i;
            }
        }

        for (ulong rest = Open(taken, away); rest != 0; rest &= rest - 1)
        {
            int i = BitOperations.TrailingZeroCount(rest);
            if ((_dominators[i] & away) != 0)
            {
                away |= 1UL << i;
            }
        }
    }

    private bool Adds(Candidate c, double water)
    {
        if (c.WaterL > 0 && water < _waterL)
        {
            return true;
        }

        for (ulong f = c.Functions & _relevant; f != 0; f &= f - 1)
        {
            int bit = BitOperations.TrailingZeroCount(f);
            int k = _evaluator.ConsumableOf((KitFunction)bit);
            if (_toolCount[bit] == 0 || (k >= 0 && _uses[k] < _usesLimit[k]))
            {
                return true;
            }
        }

        return false;
    }

    // The bound at these prices; what each part wants, and which items any of them wants.
    private ulong Evaluate(ulong taken, ulong away, Multipliers m, double[] cost, out double bound)
    {
        ulong chosen = 0;
        double sum = 0;
        for (ulong rest = taken; rest != 0; rest &= rest - 1)
        {
            sum += PriceOf(m, BitOperations.TrailingZeroCount(rest));
        }

        if (_missed >= 0)
        {
            sum += (UnmetNeedH - m.Need) * _missed;
        }

        for (int p = 0; p < _parts.Length; p++)
        {
            _parts[p].UnmetH = m.Need;
            cost[p] = _parts[p].Solve(m.Share, taken, away, out ulong wants);
            sum += cost[p];
            chosen |= wants;
        }

        foreach (int d in _boundDims)
        {
            sum -= m.Cap[d] * _caps[d];
        }

        Bounds++;
        bound = sum;
        return chosen;
    }

    // Raises the bound by the subgradient method with steps after the gap to the best choice known; leaves the best prices found.
    private double Raise(ulong taken, ulong away, Multipliers m, int rounds, bool root)
    {
        double best = double.NegativeInfinity, reach = root ? 1.2 : 0.6;
        int since = 0;

        // Parts that no open item could help cost the same at all prices.
        ulong open = Open(taken, away);
        double settled = 0;
        int active = 0;
        foreach (KitPart part in _parts)
        {
            if ((part.Items & open) != 0 || (_missed >= 0 && part.IsNeed))
            {
                _active[active++] = part;
            }
            else
            {
                part.UnmetH = m.Need;
                settled += part.Solve(m.Share, taken, away, out _);
            }
        }

        for (int round = 0; round < rounds; round++)
        {
            Array.Clear(_gradient);
            double bound = settled;
            ulong chosen = 0;
            for (ulong rest = taken; rest != 0; rest &= rest - 1)
            {
                bound += PriceOf(m, BitOperations.TrailingZeroCount(rest));
            }

            int missed = 0;
            if (_missed >= 0)
            {
                bound += (UnmetNeedH - m.Need) * _missed;
            }

            foreach (KitPart part in _active.AsSpan(0, active))
            {
                part.UnmetH = m.Need;
                bound += part.Solve(m.Share, taken, away, _gradient, out ulong wants);
                chosen |= wants;
                missed += part.Missed ? 1 : 0;
            }

            foreach (int d in _boundDims)
            {
                bound -= m.Cap[d] * _caps[d];
            }

            Bounds++;
            if (bound > best)
            {
                since = bound > best + (1e-4 * (_best - best)) ? 0 : since + 1;
                best = bound;
                m.Keep();
            }
            else
            {
                since++;
            }

            if (best >= _best - _gain)
            {
                return best;
            }

            if (since >= (root ? 8 : 3))
            {
                reach /= 2;
                since = 0;
                m.Restore();
                if (reach < 0.01)
                {
                    break;
                }

                if (root)
                {
                    Try(taken | chosen);
                }

                continue;
            }

            if (!Step(taken, away, m, missed, reach * Math.Min(_best - bound, UnmetNeedH)))
            {
                break;
            }
        }

        m.Restore();
        return best;
    }

    // One step along the subgradient; false when it is zero.
    private bool Step(ulong taken, ulong away, Multipliers m, int missed, double gap)
    {
        double norm = 0;
        foreach (int d in _boundDims)
        {
            _capGradient[d] = -_caps[d];
            for (ulong rest = taken; rest != 0; rest &= rest - 1)
            {
                _capGradient[d] += _items[BitOperations.TrailingZeroCount(rest)].Weights[d];
            }
        }

        ulong open = Open(taken, away);
        for (ulong rest = open; rest != 0; rest &= rest - 1)
        {
            int i = BitOperations.TrailingZeroCount(rest);
            int[] pairs = _itemPairs[i];
            double mean = 0;
            foreach (int q in pairs)
            {
                mean += _gradient[q];
            }

            mean /= Math.Max(1, pairs.Length);
            foreach (int q in pairs)
            {
                _gradient[q] -= mean;
                norm += _gradient[q] * _gradient[q];
            }

            foreach (int d in _boundDims)
            {
                _capGradient[d] += mean * _items[i].Weights[d];
            }
        }

        foreach (int d in _boundDims)
        {
            double g = _capGradient[d] / _scale[d];
            norm += m.Cap[d] > 0 || g > 0 ? g * g : 0;
        }

        int needs = _missed >= 0 ? missed - _missed : 0;
        norm += needs * needs;
        if (norm <= 1e-18)
        {
            return false;
        }

        double step = gap / norm;
        m.Need = Math.Max(0, m.Need + (step * needs));
        Span<double> before = stackalloc double[_dims];
        foreach (int d in _boundDims)
        {
            before[d] = m.Cap[d];
            m.Cap[d] = Math.Max(0, m.Cap[d] + (step * _capGradient[d] / (_scale[d] * _scale[d])));
        }

        for (ulong rest = open; rest != 0; rest &= rest - 1)
        {
            int i = BitOperations.TrailingZeroCount(rest);
            int[] pairs = _itemPairs[i];
            if (pairs.Length == 0)
            {
                continue;
            }

            double price = PriceOf(m, i), more = 0;
            foreach (int d in _boundDims)
            {
                more += (m.Cap[d] - before[d]) * _items[i].Weights[d];
            }

            more /= pairs.Length;
            foreach (int q in pairs)
            {
                m.Share[q] += (step * _gradient[q]) + more;
            }

            Project(m.Share, pairs, price);
        }

        return true;
    }

    // Nearest shares that are not negative and add up to the price.
    private static void Project(double[] share, int[] pairs, double price)
    {
        if (pairs.Length == 1)
        {
            share[pairs[0]] = price;
            return;
        }

        Span<double> sorted = stackalloc double[pairs.Length];
        for (int k = 0; k < pairs.Length; k++)
        {
            sorted[k] = share[pairs[k]];
        }

        sorted.Sort();
        double sum = 0, shift = 0;
        for (int k = sorted.Length - 1, n = 1; k >= 0; k--, n++)
        {
            sum += sorted[k];
            double s = (sum - price) / n;
            if (sorted[k] - s <= 0)
            {
                break;
            }

            shift = s;
        }

        double total = 0;
        int largest = pairs[0];
        foreach (int q in pairs)
        {
            share[q] = Math.Max(0, share[q] - shift);
            total += share[q];
            largest = share[q] > share[largest] ? q : largest;
        }

        share[largest] = Math.Max(0, share[largest] + price - total);
    }

    /// <summary>Prices of the caps and shares of the items' prices.</summary>
    private sealed class Multipliers(int pairs, int dims)
    {
        private readonly double[] _keptShare = new double[pairs];
        private readonly double[] _keptCap = new double[dims];
        private double _keptNeed = UnmetNeedH;

        public double Need { get; set; } = UnmetNeedH;

        public double[] Share { get; } = new double[pairs];

        public double[] Cap { get; } = new double[dims];

        public double[] Values { get; } = new double[KitEvaluator.FunctionCount + KitEvaluator.FunctionCount + 64];

        public void Keep()
        {
            Share.CopyTo(_keptShare, 0);
            Cap.CopyTo(_keptCap, 0);
            _keptNeed = Need;
        }

        public void Restore()
        {
            _keptShare.CopyTo(Share, 0);
            _keptCap.CopyTo(Cap, 0);
            Need = _keptNeed;
        }

        public void CopyFrom(Multipliers other)
        {
            other.Share.CopyTo(Share, 0);
            other.Cap.CopyTo(Cap, 0);
            Need = other.Need;
        }
    }
}
