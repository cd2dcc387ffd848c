using System.Runtime.CompilerServices;

namespace SoloRide.Hydration;

/// <summary>One search of <see cref="WaterCarryKernel"/>: its tables and its stack.</summary>
internal sealed class WaterCarrySearch
{
    private readonly int _m;
    private readonly int _w;
    private readonly double[] _cum;
    private readonly double[] _p;
    private readonly int[] _maxReach;
    private readonly double[] _leg; // [i, r] litre-km of leg i when the water lasts to r
    private readonly double[] _leastFail; // [i, r] least failure from arriving at i with reach r
    private readonly double _alpha;
    private readonly int _maxStates;
    private readonly CancellationToken _cancel;

    private double[] _lambda = [];
    private double[][] _ahead = []; // per lambda, [i, r]: leg i and all after it when leaving i with reach r

    private readonly double[] _q; // [depth, r] distribution of the reach on arrival
    private readonly double[] _bound; // [depth, t]
    private readonly int[] _order; // [depth, k]
    private readonly int[] _plan;
    private readonly int[] _best;
    private readonly List<(double Cost, double Fail)>[] _seen;
    private double _bestCost = double.PositiveInfinity;
    private double _bestFail;
    private double _open;
    private int _states;
    private int _stateLimit;
    private bool _cut;
    private bool _lexical;
    private bool _found;

    public WaterCarrySearch(
        ReadOnlySpan<double> lengthKm,
        ReadOnlySpan<double> needL,
        ReadOnlySpan<double> ownLKm,
        ReadOnlySpan<double> wetProbability,
        ReadOnlySpan<double> fillLimitL,
        double alpha,
        int maxStates,
        CancellationToken cancel)
    {
        _m = lengthKm.Length;
        _w = _m + 1;
        _alpha = alpha;
        _maxStates = maxStates;
        _cancel = cancel;
        _p = wetProbability.ToArray();
        _cum = new double[_w];
        for (int i = 0; i < _m; i++)
        {
            _cum[i + 1] = _cum[i] + needL[i];
        }

        _maxReach = new int[_m];
        for (int i = 0; i < _m; i++)
        {
            int t = i;
            double d = 0;
            while (t < _m && (d += needL[t]) <= fillLimitL[i] + WaterCarryKernel.CapacityToleranceL)
            {
                t++;
            }

            if (t == i)
            {
                // Nothing that can be taken here reaches the next node: as good as dry.
                _p[i] = 0;
                t = i + 1;
            }

            _maxReach[i] = t;
        }

        _leg = new double[_m * _w];
        for (int i = 0; i < _m; i++)
        {
            for (int r = i + 1; r <= _m; r++)
            {
                _leg[(i * _w) + r] = ((_cum[r] - _cum[i + 1]) * lengthKm[i]) + ownLKm[i];
            }
        }

        _leastFail = new double[_w * _w];
        _q = new double[_w * _w];
        _bound = new double[_w * _w];
        _order = new int[_w * _w];
        _plan = new int[_m];
        _best = new int[_m];
        _seen = new List<(double, double)>[_w * _w];
    }

    public WaterCarrySolution Solve(Span<int> plan)
    {
        FillLeastFail();
        double least = _leastFail[0];
        if (least > _alpha + WaterCarryKernel.ProbabilityTolerance)
        {
            return new WaterCarrySolution(false, double.NaN, double.NaN, double.NaN, true, 0, least);
        }

        ChooseLambdas();
        _q[0] = 1;
        _stateLimit = _maxStates;
        _open = double.PositiveInfinity;
        Expand(0, 0, 0);
        bool proven = !_cut;
        double bound = proven ? _bestCost : Math.Min(_bestCost, _open - (WaterCarryKernel.BoundAllowance * Math.Abs(_open)));
        int states = _states;
        if (!double.IsFinite(_bestCost))
        {
            // The cut came before the first whole plan: fill up at every source, which is feasible whenever anything is.
            for (int i = 0; i < _m; i++)
            {
                _best[i] = _maxReach[i];
            }

            EvaluateBest();
        }
        else if (proven)
        {
            // Among equally good plans the lexicographically smallest.
            Array.Clear(_seen);
            _lexical = true;
            _cut = false;
            _states = 0;
            Expand(0, 0, 0);
            states += _states;
        }

        _best.CopyTo(plan);
        return new WaterCarrySolution(true, _bestCost, _bestFail, Math.Min(bound, _bestCost), proven, states, least);
    }

    private void EvaluateBest()
    {
        double[] q = new double[_w];
        q[0] = 1;
        double cost = 0, fail = 0;
        for (int i = 0; i < _m; i++)
        {
            Step(i, _best[i], q, q, ref cost, ref fail);
        }

        _bestCost = cost;
        _bestFail = fail;
    }

    private void FillLeastFail()
    {
        for (int i = _m - 1; i >= 0; i--)
        {
            int at = i * _w, next = at + _w;
            for (int r = i; r <= _m; r++)
            {
                // More water in hand never fails more.
                double wet = _leastFail[next + Math.Max(r, _maxReach[i])];
                double dry = r > i ? _leastFail[next + r] : 1;
                _leastFail[at + r] = (_p[i] * wet) + ((1 - _p[i]) * dry);
            }
        }
    }

    /// <summary>The relaxed backward table for one price of failure; returns the cost from the start.</summary>
    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // long loops in a first call: no tier without optimisation
    private double Relax(double lambda, double[] ahead)
    {
        double[] value = new double[_w];
        for (int i = _m - 1; i >= 0; i--)
        {
            int at = i * _w;
            for (int r = i + 1; r <= _m; r++)
            {
                ahead[at + r] = _leg[at + r] + value[r];
            }

            double best = double.PositiveInfinity;
            double p = _p[i];
            for (int r = _m; r > i; r--)
            {
                double w = ahead[at + r];
                if (r <= _maxReach[i])
                {
                    best = Math.Min(best, w);
                }

                value[r] = (p * Math.Min(w, best)) + ((1 - p) * w);
            }

            value[i] = (p * best) + ((1 - p) * lambda);
        }

        return value[0];
    }

    private void ChooseLambdas()
    {
        double scale = 0;
        for (int i = 0; i < _m; i++)
        {
            scale += _leg[(i * _w) + _m];
        }

        scale = Math.Max(scale, 1e-6);
        double[] scratch = new double[_m * _w];
        double bestLambda = 0, bestDual = Relax(0, scratch);
        const int grid = 24;
        for (int k = 0; k < grid; k++)
        {
            double lambda = scale * Math.Pow(10, -2 + (6.0 * k / (grid - 1)));
            double dual = Relax(lambda, scratch) - (lambda * _alpha);
            if (dual > bestDual)
            {
                bestDual = dual;
                bestLambda = lambda;
            }
        }

        if (bestLambda == 0)
        {
            _lambda = [0, 0.1 * scale, scale, 10 * scale];
        }
        else
        {
            double step = Math.Pow(10, 6.0 / (grid - 1));
            double a = Math.Log(bestLambda / step), b = Math.Log(bestLambda * step);
            const double golden = 0.6180339887498949;
            double c = b - (golden * (b - a)), d = a + (golden * (b - a));
            double fc = Dual(c), fd = Dual(d);
            for (int k = 0; k < 8; k++)
            {
                if (fc > fd)
                {
                    (b, d, fd) = (d, c, fc);
                    c = b - (golden * (b - a));
                    fc = Dual(c);
                }
                else
                {
                    (a, c, fc) = (c, d, fd);
                    d = a + (golden * (b - a));
                    fd = Dual(d);
                }
            }

            double star = Math.Exp(fc > fd ? c : d);
            _lambda = [0, 0.1 * star, 0.3 * star, 0.6 * star, 0.85 * star, star, 1.2 * star, 1.6 * star, 2.5 * star, 5 * star, 20 * star, 200 * star];
        }

        _ahead = new double[_lambda.Length][];
        for (int l = 0; l < _lambda.Length; l++)
        {
            _ahead[l] = new double[_m * _w];
            Relax(_lambda[l], _ahead[l]);
        }

        double Dual(double log)
        {
            double lambda = Math.Exp(log);
            return Relax(lambda, scratch) - (lambda * _alpha);
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // long loops in a first call: no tier without optimisation
    private void Step(int i, int t, ReadOnlySpan<double> q, Span<double> next, ref double cost, ref double fail)
    {
        double p = _p[i], dry = 1 - p, below = 0;
        fail += dry * q[i];
        for (int r = i; r < t; r++)
        {
            below += q[r];
        }

        for (int r = i + 1; r < t; r++)
        {
            next[r] = dry * q[r];
        }

        for (int r = t; r <= _m; r++)
        {
            next[r] = q[r];
        }

        next[t] += p * below;
        double sum = 0;
        int at = i * _w;
        for (int r = i + 1; r <= _m; r++)
        {
            sum += next[r] * _leg[at + r];
        }

        cost += sum;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)] // long loops in a first call: no tier without optimisation
    private void Expand(int i, double cost, double fail)
    {
        if (i == _m)
        {
            if (fail <= _alpha + WaterCarryKernel.ProbabilityTolerance && (_lexical ? cost <= _bestCost + WaterCarryKernel.TieToleranceLKm : cost < _bestCost))
            {
                _bestCost = _lexical ? Math.Min(cost, _bestCost) : cost;
                _bestFail = fail;
                _plan.CopyTo(_best, 0);
                _found = _lexical;
            }

            return;
        }

        if (++_states > _stateLimit)
        {
            _cut = true;
            return;
        }

        if ((_states & 255) == 0)
        {
            _cancel.ThrowIfCancellationRequested();
        }

        int w = _w, at = i * w, next = at + w;
        ReadOnlySpan<double> q = _q.AsSpan(at, w);
        Span<double> bound = _bound.AsSpan(at, w);
        Span<int> order = _order.AsSpan(at, w);
        double p = _p[i], dry = 1 - p;
        int last = p > 0 ? _maxReach[i] : i + 1;
        double failNext = fail + (dry * q[i]);

        // Support of the distribution.
        int lowest = i, highest = _m;
        while (lowest < _m && q[lowest] == 0)
        {
            lowest++;
        }

        while (highest > i && q[highest] == 0)
        {
            highest--;
        }

        // Least failure that each target still allows.
        int count = 0;
        {
            double dryFail = 0, geFail = 0;
            for (int r = Math.Max(i + 1, lowest); r <= highest; r++)
            {
                double f = q[r] * _leastFail[next + r];
                dryFail += f;
                geFail += f;
            }

            double below = q[i];
            for (int t = i + 1; t <= last; t++)
            {
                double least = failNext + (dry * dryFail) + (p * (geFail + (below * _leastFail[next + t])));
                bool changes = t == i + 1 || below > 0;
                bound[t] = changes && least <= _alpha + WaterCarryKernel.ProbabilityTolerance ? double.NegativeInfinity : double.PositiveInfinity;
                below += q[t];
                geFail -= q[t] * _leastFail[next + t];
            }
        }

        for (int l = 0; l < _lambda.Length; l++)
        {
            ReadOnlySpan<double> ahead = _ahead[l].AsSpan(at, w);
            double all = 0;
            for (int r = Math.Max(i + 1, lowest); r <= highest; r++)
            {
                all += q[r] * ahead[r];
            }

            double fixedPart = cost + (dry * all) + (_lambda[l] * (failNext - _alpha));
            double ge = all, below = q[i];
            for (int t = i + 1; t <= last; t++)
            {
                double lb = fixedPart + (p * (ge + (below * ahead[t])));
                if (lb > bound[t])
                {
                    bound[t] = lb;
                }

                below += q[t];
                ge -= q[t] * ahead[t];
            }
        }

        for (int t = i + 1; t <= last; t++)
        {
            if (bound[t] < double.PositiveInfinity && !Hopeless(bound[t]))
            {
                int k = count++;
                if (!_lexical)
                {
                    while (k > 0 && bound[order[k - 1]] > bound[t])
                    {
                        order[k] = order[k - 1];
                        k--;
                    }
                }

                order[k] = t;
            }
        }

        for (int k = 0; k < count; k++)
        {
            int t = order[k];
            if (Hopeless(bound[t]))
            {
                continue;
            }

            if (_cut)
            {
                _open = Math.Min(_open, bound[t]);
                continue;
            }

            _plan[i] = t;
            double c = cost, f = fail;
            Span<double> child = _q.AsSpan(next, w);
            Step(i, t, q, child, ref c, ref f);
            if (Dominated(i + 1, child, c, f))
            {
                continue;
            }

            Expand(i + 1, c, f);
            if (_found)
            {
                return;
            }

            if (_cut)
            {
                _open = Math.Min(_open, bound[t]);
            }
        }
    }

    private bool Hopeless(double bound)
        => _lexical ? bound > _bestCost + WaterCarryKernel.TieToleranceLKm : bound >= _bestCost - (0.01 * WaterCarryKernel.TieToleranceLKm);

    /// <summary>
    /// When all living branches hold the same water, what follows depends on cost and failure so far alone: a state that another one
    /// beats in both (allowing for the cost that failed branches save) leads nowhere better.
    /// </summary>
    private bool Dominated(int i, ReadOnlySpan<double> q, double cost, double fail)
    {
        if (i >= _m)
        {
            return false;
        }

        int reach = -1;
        for (int r = i; r <= _m; r++)
        {
            if (q[r] > 0)
            {
                if (reach >= 0)
                {
                    return false;
                }

                reach = r;
            }
        }

        if (reach < 0)
        {
            return false;
        }

        List<(double Cost, double Fail)> list = _seen[(i * _w) + reach] ??= [];
        double rest = double.IsFinite(_bestCost) ? (_bestCost + WaterCarryKernel.TieToleranceLKm - cost) / (1 - fail) : double.NaN;
        foreach ((double c, double f) in list)
        {
            if (f <= fail && c <= cost && (f == fail || c + ((fail - f) * rest) <= cost))
            {
                return true;
            }
        }

        list.Add((cost, fail));
        return false;
    }
}
