using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>Water needed on a stretch of the route, drunk evenly along it.</summary>
/// <remarks>A stretch without length is a place, such as a dry camp: it is supplied by a source at the same place. Immutable.</remarks>
public sealed record WaterDemand
{
    private readonly double _fromM;
    private readonly double _toM;

    /// <summary>Makes a demand.</summary>
    /// <param name="from">Where it begins, along the route.</param>
    /// <param name="to">Where it ends; not before <paramref name="from"/>.</param>
    /// <param name="need">Water needed on it; 0 to 100 L.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is negative or out of range.</exception>
    /// <exception cref="ArgumentException">The stretch runs backward.</exception>
    public WaterDemand(Length from, Length to, Estimate<Volume> need)
    {
        _fromM = Guard.NotNegative(from.Meters, "m", nameof(from));
        _toM = Guard.NotNegative(to.Meters, "m", nameof(to));
        if (_toM < _fromM)
        {
            throw new ArgumentException($"A demand runs from {Text.F(_fromM, 0)} m to {Text.F(_toM, 0)} m; it must not run backward.", nameof(to));
        }

        Need = Guard.NotNull(need);
        Guard.InRange(need.Low.Liters, 0, 100, "L", nameof(need));
        Guard.InRange(need.High.Liters, 0, 100, "L", nameof(need));
    }

    /// <summary>Where it begins.</summary>
    public Length From => Length.FromMeters(_fromM);

    /// <summary>Where it ends.</summary>
    public Length To => Length.FromMeters(_toM);

    /// <summary>Water needed.</summary>
    public Estimate<Volume> Need { get; }

    internal double FromM => _fromM;

    internal double ToM => _toM;

    /// <summary>A demand from a sweat rate and the time the stretch takes: what is lost must be carried, whatever thirst then drinks of it.</summary>
    /// <param name="from">Where it begins.</param>
    /// <param name="to">Where it ends.</param>
    /// <param name="sweatRate">Sweat rate; 0 to 6 L/h.</param>
    /// <param name="time">Time on the stretch, stops included; 0 to 48 h.</param>
    /// <returns>The demand; its upper end is the upper end of the sweat rate.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public static WaterDemand FromSweat(Length from, Length to, Estimate<VolumeFlow> sweatRate, TimeSpan time)
    {
        Guard.NotNull(sweatRate);
        Guard.InRange(sweatRate.Low.LitersPerHour, 0, 6, "L/h", nameof(sweatRate));
        Guard.InRange(sweatRate.High.LitersPerHour, 0, 6, "L/h", nameof(sweatRate));
        double h = Guard.InRange(time.TotalHours, 0, 48, "h", nameof(time));
        return new WaterDemand(from, to, new Estimate<Volume>(
            Volume.FromLiters(sweatRate.Typical.LitersPerHour * h), Volume.FromLiters(sweatRate.Low.LitersPerHour * h), Volume.FromLiters(sweatRate.High.LitersPerHour * h), sweatRate.Level));
    }

    /// <summary>A demand from sampled needs: median, P10 and P90.</summary>
    /// <param name="from">Where it begins.</param>
    /// <param name="to">Where it ends.</param>
    /// <param name="needL">[L, 0 to 100] Samples, at least one.</param>
    /// <returns>The demand.</returns>
    /// <exception cref="ArgumentException">There are no samples, or one is out of range.</exception>
    public static WaterDemand FromSamples(Length from, Length to, ReadOnlySpan<double> needL)
    {
        if (needL.Length == 0)
        {
            throw new ArgumentException("needL holds no samples; at least one is needed.", nameof(needL));
        }

        double[] sorted = needL.ToArray();
        foreach (double x in sorted)
        {
            Guard.InRange(x, 0, 100, "L", nameof(needL));
        }

        Array.Sort(sorted);
        return new WaterDemand(from, to, new Estimate<Volume>(Quantile(0.5), Quantile(0.1), Quantile(0.9)));

        Volume Quantile(double p) => Volume.FromLiters(MathNet.Numerics.Statistics.SortedArrayStatistics.Quantile(sorted, p));
    }
}
