using MathNet.Numerics.Distributions;
using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>How much light is left at arrival: a dusk or other limit against an arrival that is not known exactly.</summary>
/// <remarks>A positive margin is light left. Dusk assumes a free horizon and a clear sky. Immutable; safe to share.</remarks>
[Entry(NoOutsideCheck = "a difference of instants and a share of samples")]
public sealed record DaylightMargin
{
    private DaylightMargin(DateTimeOffset limit, Estimate<TimeSpan> margin, double late)
    {
        Limit = limit;
        Margin = margin;
        LateProbability = late;
    }

    /// <summary>The limit, such as civil dusk.</summary>
    public DateTimeOffset Limit { get; }

    /// <summary>Limit minus arrival; its low end belongs to the late end of the arrival.</summary>
    public Estimate<TimeSpan> Margin { get; }

    /// <summary>Probability of arriving after the limit [0 to 1].</summary>
    public double LateProbability { get; }

    /// <summary>What to know about the margin: the limit holds for a free horizon and a clear sky.</summary>
    public IReadOnlyList<Finding> Findings => SunFindings.Events(SunFindings.IsOutside(TimeScaleKernel.Days(Limit.UtcTicks)));

    /// <summary>The margin to an arrival given as an estimate, with a normal law on each side of its typical value.</summary>
    /// <param name="limit">The limit.</param>
    /// <param name="arrival">The arrival.</param>
    /// <returns>The margin.</returns>
    /// <exception cref="ArgumentNullException">The arrival is null.</exception>
    public static DaylightMargin To(DateTimeOffset limit, Estimate<DateTimeOffset> arrival)
    {
        Guard.NotNull(arrival);
        TimeSpan typical = limit - arrival.Typical;
        TimeSpan half = typical >= TimeSpan.Zero ? arrival.High - arrival.Typical : arrival.Typical - arrival.Low;
        double late;
        if (half == TimeSpan.Zero || arrival.Level <= 0)
        {
            late = typical < TimeSpan.Zero ? 1 : 0;
        }
        else
        {
            // The half range holds half of the level, on its side.
            double z = arrival.Level >= 1 ? double.PositiveInfinity : Normal.InvCDF(0, 1, 0.5 + (arrival.Level / 2));
            late = double.IsInfinity(z)
                ? HardBound(typical / half)
                : 1 - Normal.CDF(0, 1, typical / half * z);
        }

        return new DaylightMargin(limit, Estimate.Of(typical, limit - arrival.High, limit - arrival.Low, arrival.Level), Math.Clamp(late, 0, 1));

        // With hard bounds the law is even between the typical value and the bound.
        static double HardBound(double x) => x >= 0 ? 0.5 * (1 - Math.Min(1, x)) : 1 - (0.5 * (1 - Math.Min(1, -x)));
    }

    /// <summary>The margin to an arrival given as samples: median, P10 to P90, and the share after the limit.</summary>
    /// <param name="limit">The limit.</param>
    /// <param name="arrivals">At least one sample, in any order.</param>
    /// <returns>The margin.</returns>
    /// <exception cref="ArgumentException">There are no samples.</exception>
    public static DaylightMargin To(DateTimeOffset limit, ReadOnlySpan<DateTimeOffset> arrivals)
    {
        if (arrivals.Length == 0)
        {
            throw new ArgumentException("arrivals is empty; at least one sample is needed.", nameof(arrivals));
        }

        var margins = new double[arrivals.Length];
        int late = 0;
        for (int i = 0; i < arrivals.Length; i++)
        {
            TimeSpan left = limit - arrivals[i];
            margins[i] = left.Ticks;
            late += left < TimeSpan.Zero ? 1 : 0;
        }

        Array.Sort(margins);
        TimeSpan At(double p) => TimeSpan.FromTicks((long)MathNet.Numerics.Statistics.SortedArrayStatistics.Quantile(margins, p));
        return new DaylightMargin(limit, Estimate.Of(At(0.5), At(0.1), At(0.9)), late / (double)arrivals.Length);
    }
}
