using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Legs and clocks in ticks and metres: what the planner counts with.</summary>
internal sealed class Clocks
{
    private readonly double[] _endM;
    private readonly double[] _low;
    private readonly double[] _high;
    private readonly double[] _back;
    private readonly Clock[] _clocks;
    private readonly long _origin;

    private Clocks(double[] endM, double[] low, double[] high, double[] back, Clock[] clocks, long origin)
    {
        _endM = endM;
        _low = low;
        _high = high;
        _back = back;
        _clocks = clocks;
        _origin = origin;
    }

    [Source("critical-path", "backward pass: latest time = least of successors' latest minus duration")]
    public static Clocks Of(
        IReadOnlyList<DeadlineLeg> legs, IReadOnlyList<Deadline> deadlines, IReadOnlyList<ClosedPeriod>? closed, DeadlineOptions? options, out List<Finding> findings)
    {
        Guard.NotNull(deadlines);
        options ??= new DeadlineOptions();
        findings = [];
        if (Guard.NotNull(legs).Count == 0)
        {
            throw new ArgumentException("At least one leg is needed.", nameof(legs));
        }

        if (options.Margin == LegMargin.HighTimes && options.Reserve > TimeSpan.Zero)
        {
            findings.Add(new Finding(
                EscapeFindingCodes.MarginTwice, FindingSeverity.Note, "reserve", $"The reserve of {Text.Span(options.Reserve)} comes on top of the high leg times: two margins are taken."));
        }

        int n = legs.Count;
        double[] endM = new double[n + 1], low = new double[n + 1], high = new double[n + 1], back = new double[n + 1];
        bool margin = options.Margin == LegMargin.HighTimes;
        for (int i = 0; i < n; i++)
        {
            endM[i + 1] = endM[i] + legs[i].LengthM;
            low[i + 1] = low[i] + (margin ? legs[i].Time.Low : legs[i].Time.Typical).Ticks;
            high[i + 1] = high[i] + (margin ? legs[i].Time.High : legs[i].Time.Typical).Ticks;
            back[i + 1] = back[i] + (legs[i].Back is { } b ? (margin ? b.High : b.Typical).Ticks : 0);
        }

        double slackM = Math.Max(1, endM[n] * 1e-6);
        long reserve = options.Reserve.Ticks;
        DateTimeOffset? first = deadlines.Select(d => d.Closes ?? d.Opens).Concat(closed?.Select(c => (DateTimeOffset?)c.Begins) ?? []).FirstOrDefault(d => d is not null);
        long origin = first?.UtcTicks ?? 0;
        var clocks = new List<Clock>();
        foreach (Deadline d in deadlines)
        {
            clocks.Add(new Clock(
                d.Name, d.Kind, On(d.From.Meters, d.Name), On(d.To.Meters, d.Name),
                d.Closes is { } c ? c.UtcTicks - origin - reserve : double.PositiveInfinity,
                d.Opens is { } o ? o.UtcTicks - origin : double.NegativeInfinity,
                false, (d.Closes ?? d.Opens)?.Offset ?? TimeSpan.Zero));
        }

        foreach (ClosedPeriod p in closed ?? [])
        {
            clocks.Add(new Clock(
                p.Name, p.Kind, On(p.From.Meters, p.Name), On(p.To.Meters, p.Name), p.Begins.UtcTicks - origin - reserve, p.Ends.UtcTicks - origin, true, p.Begins.Offset));
        }

        return new Clocks(endM, low, high, back, [.. clocks], origin);

        double On(double m, string name)
            => m <= endM[n] + slackM
                ? Math.Min(m, endM[n])
                : throw new ArgumentException($"The clock '{name}' reaches to {Text.F(m, 1)} m; the route is {Text.F(endM[n], 1)} m long.", nameof(deadlines));
    }

    public double Ticks(DateTimeOffset at) => at.UtcTicks - _origin;

    public DateTimeOffset Instant(double ticks, int by)
    {
        // A latest time is never rounded later: whole ticks downward.
        double utc = Math.Clamp(Math.Floor(ticks) + _origin, DateTimeOffset.MinValue.Ticks + TimeSpan.TicksPerDay, DateTimeOffset.MaxValue.Ticks - TimeSpan.TicksPerDay);
        return new DateTimeOffset((long)utc, TimeSpan.Zero).ToOffset(by < 0 ? TimeSpan.Zero : _clocks[by].Offset);
    }

    public string? NameOf(int by) => by < 0 ? null : _clocks[by].Name;

    public DeadlineKind? KindOf(int by) => by < 0 ? null : _clocks[by].Kind;

    public IEnumerable<double> StationsM()
        => _endM.Concat(_clocks.SelectMany(c => new[] { c.FromM, c.ToM })).Distinct().Order();

    /// <summary>Times of passing a place that meet every clock ahead.</summary>
    public IntervalSet Feasible(double alongM, IntervalSet set)
    {
        double low = At(_low, alongM), high = At(_high, alongM);
        for (int i = 0; i < _clocks.Length && !set.IsEmpty; i++)
        {
            Clock c = _clocks[i];
            if (c.ToM < alongM)
            {
                continue;
            }

            double until = c.Closes - (At(_high, c.ToM) - high);
            double since = c.Opens - (c.FromM > alongM ? At(_low, c.FromM) - low : 0);
            set = c.IsGap ? set.Keep(until, since, i) : set.Until(until, i).Since(since, i);
        }

        return set;
    }

    /// <summary>Latest time to turn back at a place so that the rider is out of the stretch when it closes.</summary>
    public double TurnLimit(int clock, double alongM)
    {
        Clock c = _clocks[clock];
        return alongM > c.FromM || (alongM == c.FromM && c.FromM == 0) ? c.Closes - (At(_back, alongM) - At(_back, c.FromM)) : double.PositiveInfinity;
    }

    /// <summary>The farthest place from where the way back still meets a clock after a start, and when it is reached; null when all can be reached.</summary>
    public (double AlongM, double AtTicks)? Farthest(int clock, double startTicks)
    {
        Clock c = _clocks[clock];
        double[] breaks = [.. _endM.Where(m => m > c.FromM).Prepend(c.FromM)];
        double before = Slack(breaks[0]);
        if (before < 0)
        {
            return (c.FromM, startTicks + At(_high, c.FromM));
        }

        for (int i = 1; i < breaks.Length; i++)
        {
            double slack = Slack(breaks[i]);
            if (slack < 0)
            {
                double m = breaks[i - 1] + (before / (before - slack) * (breaks[i] - breaks[i - 1]));
                return (m, startTicks + At(_high, m));
            }

            before = slack;
        }

        return null;

        double Slack(double m) => c.Closes - (At(_back, m) - At(_back, c.FromM)) - (startTicks + At(_high, m));
    }

    private double At(double[] value, double m)
    {
        int i = Array.BinarySearch(_endM, m);
        if (i >= 0)
        {
            return value[i];
        }

        i = Math.Clamp(~i, 1, _endM.Length - 1);
        return value[i - 1] + ((value[i] - value[i - 1]) * ((m - _endM[i - 1]) / (_endM[i] - _endM[i - 1])));
    }

    private sealed record Clock(string Name, DeadlineKind Kind, double FromM, double ToM, double Closes, double Opens, bool IsGap, TimeSpan Offset);
}
