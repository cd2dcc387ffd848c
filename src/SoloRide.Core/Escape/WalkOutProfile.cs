using MathNet.Numerics.Distributions;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>
/// The time out from every place of a route at one pace: the worst place, the equal-time points, the stretches that commit.
/// </summary>
/// <remarks>
/// Inside a step the time out is the smaller of going on and going back, so that the worst place may lie inside a step. The spread is one
/// log-normal factor for the whole way: it scales all times and moves no equal-time point. Immutable; safe to share between threads.
/// </remarks>
public sealed class WalkOutProfile
{
    private readonly ExitGraph _graph;
    private readonly ExitPoint[] _targets;
    private readonly LeastTimes _least;
    private readonly double[] _onS;
    private readonly double[] _backS;
    private readonly double[] _lengthM;
    private readonly int[] _trail;
    private readonly bool[] _straight;
    private readonly double[] _peakFraction;
    private readonly double[] _peakS;
    private readonly int _pieces;

    internal WalkOutProfile(ExitGraph graph, EscapePace pace, ExitPoint[] targets, double[] onS, double[] backS, LeastTimes least)
    {
        _graph = graph;
        _targets = targets;
        _least = least;
        _onS = onS;
        _backS = backS;
        Pace = pace;
        _pieces = graph.CutM.Length - 1;
        _lengthM = new double[graph.NodeCount];
        _trail = new int[graph.NodeCount];
        _straight = new bool[graph.NodeCount];
        Array.Fill(_lengthM, double.NaN);
        Array.Fill(_trail, GraphKernel.None);
        for (int k = 0; k < least.Reached; k++)
        {
            int node = least.Order[k];
            int next = least.Next[node];
            if (next == GraphKernel.None)
            {
                _lengthM[node] = 0;
                continue;
            }

            ExitGraph.LinkKind link = graph.Links[least.Via[node]];
            _lengthM[node] = _lengthM[next] + link.Step.LengthM;
            _trail[node] = link.Trail != GraphKernel.None ? link.Trail : _trail[next];
            _straight[node] = link.OffPath || _straight[next];
        }

        _peakFraction = new double[_pieces];
        _peakS = new double[_pieces];
        for (int i = 0; i < _pieces; i++)
        {
            double wu = least.TimeS[i], wv = least.TimeS[i + 1];
            if (GraphKernel.PeakInside(wu, wv, onS[i], backS[i], least.Via[i] == i, least.Via[i + 1] == i, out double y, out double peak))
            {
                _peakFraction[i] = y;
                _peakS[i] = peak;
            }
            else
            {
                _peakFraction[i] = double.NaN;
                _peakS[i] = double.NaN;
            }
        }

        Points = AllNodes();
        EqualTimePoints = EqualTimes();
        Worst = WorstOf();
        Findings = FindingsOf();
    }

    /// <summary>How the way out is covered.</summary>
    public EscapePace Pace { get; }

    /// <summary>Length of the route.</summary>
    public Length RouteLength => _graph.RouteLength;

    /// <summary>The way out at the start, at the end of each step, at each exit and each junction.</summary>
    public IReadOnlyList<WalkOutPoint> Points { get; }

    /// <summary>Places from where back and on take the same time, in order along the route.</summary>
    public IReadOnlyList<EqualTimePoint> EqualTimePoints { get; }

    /// <summary>The place of the route with the longest way out, perhaps inside a step; null when no place has a way out.</summary>
    /// <remarks>Places without a way out are in <see cref="Zones"/> and in <see cref="Findings"/>.</remarks>
    public WalkOutPoint? Worst { get; }

    /// <summary>What a reader should know.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>The cautions that every result carries.</summary>
    public IReadOnlyList<string> Cautions { get; } = EscapeCautions.Sentences;

    /// <summary>The way out from a place of the route.</summary>
    /// <param name="alongRoute">Distance from the start; 0 to the length of the route.</param>
    /// <returns>The way out.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside the route.</exception>
    public WalkOutPoint At(Length alongRoute) => PointAt(OnRoute(alongRoute));

    /// <summary>Time out from a place at a chosen quantile.</summary>
    /// <param name="alongRoute">Distance from the start; 0 to the length of the route.</param>
    /// <param name="quantileProbability">[share of 1, above 0 and below 1] 0.9 is the time not exceeded in 90 of 100 such ways out.</param>
    /// <returns>The time; null when there is no way out.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside the route, or not a quantile.</exception>
    public TimeSpan? TimeFrom(Length alongRoute, double quantileProbability = 0.5)
    {
        double s = TimeS(OnRoute(alongRoute)) * Factor(quantileProbability);
        return double.IsFinite(s) ? TimeSpan.FromSeconds(s) : null;
    }

    /// <summary>Share of the route's length from where the way out takes longer than a limit; places without a way out count.</summary>
    /// <param name="limit">The limit.</param>
    /// <param name="quantileProbability">[share of 1] Quantile of the time out.</param>
    /// <returns>The share.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative limit, or not a quantile.</exception>
    public Ratio ShareAbove(TimeSpan limit, double quantileProbability = 0.5)
    {
        double limitS = Guard.NotNegative(limit).TotalSeconds / Factor(quantileProbability);
        double m = 0;
        for (int i = 0; i < _pieces; i++)
        {
            (double low, double high) = Above(i, limitS);
            m += Math.Max(0, high - low) * (_graph.CutM[i + 1] - _graph.CutM[i]);
        }

        return Ratio.FromDecimalFractions(Math.Min(1, m / _graph.CutM[_pieces]));
    }

    /// <summary>The route in stretches by class of remoteness, from start to end without gaps.</summary>
    /// <param name="near">Up to this time out a place is near; null for 30 minutes.</param>
    /// <param name="far">Above this time out a place is far; null for 120 minutes.</param>
    /// <param name="quantileProbability">[share of 1] Quantile of the time out; 0.9 as a careful choice.</param>
    /// <returns>The stretches.</returns>
    /// <exception cref="ArgumentException">Limits not ascending.</exception>
    public IReadOnlyList<CommitmentZone> Zones(TimeSpan? near = null, TimeSpan? far = null, double quantileProbability = 0.9)
    {
        double factor = Factor(quantileProbability);
        double nearS = Guard.NotNegative(near ?? TimeSpan.FromMinutes(EscapeConstants.NearMinutes), nameof(near)).TotalSeconds;
        double farS = Guard.NotNegative(far ?? TimeSpan.FromMinutes(EscapeConstants.FarMinutes), nameof(far)).TotalSeconds;
        if (farS < nearS)
        {
            throw new ArgumentException("far must not be less than near.", nameof(far));
        }

        var zones = new List<(double FromM, double ToM, RemotenessClass Class)>();
        for (int i = 0; i < _pieces; i++)
        {
            double u = _graph.CutM[i], length = _graph.CutM[i + 1] - u;
            (double n0, double n1) = Above(i, nearS / factor);
            (double f0, double f1) = Above(i, farS / factor);
            (double x0, double x1) = Above(i, double.MaxValue);
            Put(0, n0, RemotenessClass.Near);
            if (n1 > n0)
            {
                if (f1 > f0)
                {
                    Put(n0, f0, RemotenessClass.Remote);
                    (x0, x1) = x1 > x0 ? (x0, x1) : (f1, f1);
                    Put(f0, x0, RemotenessClass.Far);
                    Put(x0, x1, RemotenessClass.NoWayOut);
                    Put(x1, f1, RemotenessClass.Far);
                    Put(f1, n1, RemotenessClass.Remote);
                }
                else
                {
                    Put(n0, n1, RemotenessClass.Remote);
                }
            }

            Put(Math.Max(n0, n1), 1, RemotenessClass.Near);

            void Put(double y0, double y1, RemotenessClass c)
            {
                if (y1 <= y0)
                {
                    return;
                }

                double a = u + (y0 * length), b = u + (y1 * length);
                if (zones.Count > 0 && zones[^1].Class == c)
                {
                    zones[^1] = (zones[^1].FromM, b, c);
                }
                else
                {
                    zones.Add((zones.Count > 0 ? zones[^1].ToM : a, b, c));
                }
            }
        }

        return [.. zones.Select(z => new CommitmentZone(Length.FromMeters(z.FromM), Length.FromMeters(z.ToM), z.Class))];
    }

    /// <summary>What the way out from a place takes: water, food, light, charge and warmth.</summary>
    /// <param name="alongRoute">Distance from the start; 0 to the length of the route.</param>
    /// <param name="conditions">Rates, clock, darkness and air.</param>
    /// <returns>The needs.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside the route, or not a quantile.</exception>
    public WalkOutNeeds NeedsFrom(Length alongRoute, WayOutConditions conditions)
    {
        Guard.NotNull(conditions);
        return NeedsKernel.Of(alongRoute, TimeS(OnRoute(alongRoute)) * Factor(conditions.QuantileProbability), Pace.Mode, conditions);
    }

    /// <summary>
    /// What must be carried so that every place of the route can be left: for each kind the place that takes most. Looked for at the ends of
    /// steps, exits, junctions and equal-time points.
    /// </summary>
    /// <param name="conditions">Rates, clock, darkness and air.</param>
    /// <param name="passing">When a place is passed, and the way out may begin; null to use the clock of the conditions everywhere. Must be pure.</param>
    /// <returns>For each kind with a rate, the needs of the place that takes most of it; a place without a way out is not among them.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Not a quantile.</exception>
    public IReadOnlyDictionary<ResourceKind, WalkOutNeeds> NeedsAtWorst(WayOutConditions conditions, Func<Length, DateTimeOffset>? passing = null)
    {
        Guard.NotNull(conditions);
        double factor = Factor(conditions.QuantileProbability);
        var worst = new Dictionary<ResourceKind, WalkOutNeeds>();
        foreach ((double alongM, double timeS) in Breaks())
        {
            if (!double.IsFinite(timeS))
            {
                continue;
            }

            var along = Length.FromMeters(alongM);
            WalkOutNeeds needs = NeedsKernel.Of(along, timeS * factor, Pace.Mode, passing is null ? conditions : conditions with { Leaves = passing(along) });
            foreach (ResourceAmount a in needs.Amounts)
            {
                if (!worst.TryGetValue(a.Kind, out WalkOutNeeds? before) || before.Amounts.First(b => b.Kind == a.Kind).Value < a.Value)
                {
                    worst[a.Kind] = needs;
                }
            }
        }

        return worst;
    }

    internal ExitGraph Graph => _graph;

    internal double TimeAtNode(int node) => _least.TimeS[node];

    /// <summary>[s] Time out from inside any link, at a share from its first node.</summary>
    internal double TimeInLink(int link, double share)
        => ProfileKernel.TimeS(_least.TimeS[_graph.A[link]], _least.TimeS[_graph.B[link]], _onS[link], _backS[link], share);

    /// <summary>The exit of the least way out from inside a link, at a share from its first node; null when there is none.</summary>
    internal string? ExitInLink(int link, double share)
    {
        int a = _graph.A[link], b = _graph.B[link];
        double back = ProfileKernel.BackS(_least.TimeS[a], _backS[link], share), on = ProfileKernel.OnwardS(_least.TimeS[b], _onS[link], share);
        return double.IsFinite(Math.Min(back, on)) ? _targets[_least.Source[on < back ? b : a]].Name : null;
    }

    internal string? ExitAtNode(int node) => double.IsFinite(_least.TimeS[node]) ? _targets[_least.Source[node]].Name : null;

    internal int Pieces => _pieces;

    /// <summary>Breaks of the profile: ends of pieces and peaks, with the time out there [s].</summary>
    internal IEnumerable<(double AlongM, double TimeS)> Breaks()
    {
        for (int i = 0; i <= _pieces; i++)
        {
            yield return (_graph.CutM[i], _least.TimeS[i]);
            if (i == _pieces)
            {
                yield break;
            }

            // Pieces that can be passed one way only: the time out jumps at one end.
            if (double.IsPositiveInfinity(_backS[i]))
            {
                yield return (Math.BitIncrement(_graph.CutM[i]), _least.TimeS[i + 1] + _onS[i]);
            }

            if (!double.IsNaN(_peakFraction[i]))
            {
                yield return (_graph.CutM[i] + (_peakFraction[i] * (_graph.CutM[i + 1] - _graph.CutM[i])), _peakS[i]);
            }

            if (double.IsPositiveInfinity(_onS[i]))
            {
                yield return (Math.BitDecrement(_graph.CutM[i + 1]), _least.TimeS[i] + _backS[i]);
            }
        }
    }

    internal double TimeS(double alongM)
    {
        int i = _graph.PieceAt(alongM);
        double y = (alongM - _graph.CutM[i]) / (_graph.CutM[i + 1] - _graph.CutM[i]);
        return ProfileKernel.TimeS(_least.TimeS[i], _least.TimeS[i + 1], _onS[i], _backS[i], y);
    }

    internal double Factor(double quantileProbability)
    {
        if (!(quantileProbability > 0 && quantileProbability < 1))
        {
            throw new ArgumentOutOfRangeException(nameof(quantileProbability), quantileProbability, "quantileProbability must be above 0 and below 1.");
        }

        return Math.Exp(Pace.SpreadFactor * Normal.InvCDF(0, 1, quantileProbability));
    }

    private (double Low, double High) Above(int i, double limitS)
        => ProfileKernel.Above(_least.TimeS[i], _least.TimeS[i + 1], _onS[i], _backS[i], limitS);

    private double OnRoute(Length alongRoute)
        => Guard.InRange(alongRoute.Meters, 0, _graph.CutM[_pieces], "m", nameof(alongRoute));

    private Estimate<TimeSpan>? Time(double s)
    {
        if (!double.IsFinite(s))
        {
            return null;
        }

        double high = Factor(0.9);
        return Pace.SpreadFactor > 0
            ? new Estimate<TimeSpan>(TimeSpan.FromSeconds(s), TimeSpan.FromSeconds(s / high), TimeSpan.FromSeconds(s * high))
            : Estimate.Exact(TimeSpan.FromSeconds(s));
    }

    private WalkOutPoint Node(int i)
    {
        double s = _least.TimeS[i];
        var along = Length.FromMeters(_graph.CutM[i]);
        if (!double.IsFinite(s))
        {
            return new WalkOutPoint(along, null, null, null, WayOut.None, null, false);
        }

        int via = _least.Via[i];
        WayOut way = via == GraphKernel.None || (s <= 0 && _lengthM[i] <= 0) ? WayOut.Here
            : via < _pieces ? (_least.Next[i] > i ? WayOut.On : WayOut.Back)
            : _graph.Links[via].OffPath ? WayOut.StraightLine : _graph.Links[via].Trail == GraphKernel.None ? WayOut.OtherPass : WayOut.SideTrail;
        return new WalkOutPoint(along, Time(s), Length.FromMeters(_lengthM[i]), _targets[_least.Source[i]].Name, way, TrailName(i), _straight[i]);
    }

    private WalkOutPoint PointAt(double alongM)
    {
        int i = _graph.PieceAt(alongM);
        double length = _graph.CutM[i + 1] - _graph.CutM[i];
        double y = (alongM - _graph.CutM[i]) / length;
        if (y <= 0 || y >= 1)
        {
            return Node(y <= 0 ? i : i + 1);
        }

        double back = ProfileKernel.BackS(_least.TimeS[i], _backS[i], y);
        double on = ProfileKernel.OnwardS(_least.TimeS[i + 1], _onS[i], y);
        if (!double.IsFinite(Math.Min(back, on)))
        {
            return new WalkOutPoint(Length.FromMeters(alongM), null, null, null, WayOut.None, null, false);
        }

        int node = on < back ? i + 1 : i;
        double wayM = _lengthM[node] + ((on < back ? 1 - y : y) * length);
        return new WalkOutPoint(
            Length.FromMeters(alongM), Time(Math.Min(back, on)), Length.FromMeters(wayM), _targets[_least.Source[node]].Name,
            on < back ? WayOut.On : WayOut.Back, TrailName(node), _straight[node]);
    }

    private string? TrailName(int node) => _trail[node] == GraphKernel.None ? null : _graph.Route.Trails[_trail[node]].Name;

    private WalkOutPoint[] AllNodes()
    {
        var points = new WalkOutPoint[_pieces + 1];
        for (int i = 0; i <= _pieces; i++)
        {
            points[i] = Node(i);
        }

        return points;
    }

    private List<EqualTimePoint> EqualTimes()
    {
        var found = new List<EqualTimePoint>();
        for (int i = 0; i < _pieces; i++)
        {
            if (!double.IsNaN(_peakFraction[i]))
            {
                double at = _graph.CutM[i] + (_peakFraction[i] * (_graph.CutM[i + 1] - _graph.CutM[i]));
                found.Add(new EqualTimePoint(
                    Length.FromMeters(at), TimeSpan.FromSeconds(_peakS[i]), _targets[_least.Source[i]].Name, _targets[_least.Source[i + 1]].Name));
            }
        }

        return found;
    }

    private WalkOutPoint? WorstOf()
    {
        double worst = double.NegativeInfinity;
        double at = double.NaN;
        int oneWay = GraphKernel.None;
        for (int i = 0; i <= _pieces; i++)
        {
            if (double.IsFinite(_least.TimeS[i]) && _least.TimeS[i] > worst)
            {
                worst = _least.TimeS[i];
                at = _graph.CutM[i];
                oneWay = GraphKernel.None;
            }

            if (i == _pieces)
            {
                break;
            }

            if (_peakS[i] > worst)
            {
                worst = _peakS[i];
                at = _graph.CutM[i] + (_peakFraction[i] * (_graph.CutM[i + 1] - _graph.CutM[i]));
                oneWay = GraphKernel.None;
            }

            // Just past a place that cannot be passed backward (a drop), the way out is the whole way on.
            double past = _least.TimeS[i + 1] + _onS[i];
            if (double.IsPositiveInfinity(_backS[i]) && double.IsFinite(past) && past > worst)
            {
                worst = past;
                at = _graph.CutM[i];
                oneWay = i;
            }
        }

        if (double.IsNaN(at))
        {
            return null;
        }

        if (oneWay == GraphKernel.None)
        {
            return PointAt(at);
        }

        int v = oneWay + 1;
        return new WalkOutPoint(
            Length.FromMeters(at), Time(worst), Length.FromMeters(_lengthM[v] + _graph.CutM[v] - at), _targets[_least.Source[v]].Name, WayOut.On, TrailName(v), _straight[v]);
    }

    private List<Finding> FindingsOf()
    {
        var findings = new List<Finding>(_graph.Findings)
        {
            new(
                EscapeFindingCodes.PaceAssumed,
                FindingSeverity.Note,
                Pace.Name,
                $"Times out at the pace '{Pace.Name}', one spread of {Text.F(Pace.SpreadFactor, 2)} on the logarithm; speeds for pushing, carrying and hurt riders are assumptions."),
        };
        double steepM = _graph.Links.Where(l => EscapePace.IsBeyondLaw(l.Step)).Sum(l => l.Step.LengthM);
        if (steepM > 0 && Pace.UsesLaw)
        {
            findings.Add(new Finding(
                EscapeFindingCodes.SlopeOutside,
                FindingSeverity.Caution,
                Pace.Name,
                $"{Text.Thousands(steepM)} m of trail are steeper than the walking law was fitted to; there the speed of climbing is held. Steep noise in heights does the same: smooth them.",
                new FindingValue("length_m", Text.F(steepM, 0))));
        }

        double lost = 0;
        foreach (CommitmentZone z in Zones().Where(z => z.Class == RemotenessClass.NoWayOut))
        {
            lost += z.To.Meters - z.From.Meters;
        }

        if (lost > 0 && _targets.Length > 0)
        {
            findings.Add(new Finding(
                EscapeFindingCodes.NoWayOut, FindingSeverity.Warning, Pace.Name, $"From {Text.Thousands(lost)} m of the route no exit can be reached at this pace.", new FindingValue("length_m", Text.F(lost, 0))));
        }

        if (Worst?.Time is { } t && Pace.Mode is not TravelMode.Ride && t.High > TimeSpan.FromHours(EscapeConstants.StiffShoesHours))
        {
            findings.Add(new Finding(
                EscapeFindingCodes.StiffShoes, FindingSeverity.Caution, "shoes", $"The longest way out takes up to {Text.Span(t.High)} on foot: stiff soles and cleats blister."));
        }

        return findings;
    }
}
