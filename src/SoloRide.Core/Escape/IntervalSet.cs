namespace SoloRide.Escape;

/// <summary>A set of closed intervals on the axis of ticks, each end with the index of what set it (-1: nothing did).</summary>
internal sealed class IntervalSet
{
    private IntervalSet(List<Interval> items) => Items = items;

    public List<Interval> Items { get; }

    public bool IsEmpty => Items.Count == 0;

    public static IntervalSet Of(double from, double to) => new(from <= to ? [new Interval(from, to, -1, -1)] : []);

    /// <summary>Keeps what lies in either of two half-lines: up to <paramref name="until"/>, or from <paramref name="since"/>.</summary>
    public IntervalSet Keep(double until, double since, int by)
    {
        if (since <= until)
        {
            return this;
        }

        var kept = new List<Interval>(Items.Count + 1);
        foreach (Interval i in Items)
        {
            if (i.From <= until && !double.IsNegativeInfinity(until))
            {
                kept.Add(i.To > until ? i with { To = until, ToBy = by } : i);
            }

            if (i.To >= since && !double.IsPositiveInfinity(since))
            {
                kept.Add(i.From < since ? i with { From = since, FromBy = by } : i);
            }
        }

        return new IntervalSet(kept);
    }

    /// <summary>Keeps what lies not after.</summary>
    public IntervalSet Until(double until, int by) => Keep(until, double.PositiveInfinity, by);

    /// <summary>Keeps what lies not before.</summary>
    public IntervalSet Since(double since, int by) => Keep(double.NegativeInfinity, since, by);

    internal readonly record struct Interval(double From, double To, int FromBy, int ToBy);
}
