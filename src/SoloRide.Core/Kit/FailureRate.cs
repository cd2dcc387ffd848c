using MathNet.Numerics.Distributions;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Kit;

/// <summary>
/// How often something fails, as far as the rider's own log tells: a gamma distribution of the rate, sharpened by each ride.
/// No failure rates are shipped, since none are published for remote mountain riding.
/// </summary>
/// <remarks>Immutable. Two rates made from the same log are equal.</remarks>
[Entry]
public sealed record FailureRate
{
    private const double PriorShape = 0.5;
    private const double PriorKm = 300;

    private readonly double _shape;
    private readonly double _exposureKm;
    private readonly double _knownPerKm;

    private FailureRate(double shape, double exposureKm, double knownPerKm, double cluster)
    {
        _shape = shape;
        _exposureKm = exposureKm;
        _knownPerKm = knownPerKm;
        ClusterFactor = cluster;
    }

    /// <summary>Makes a rate from a gamma distribution: shape events in an exposure.</summary>
    /// <param name="shapeFactor">[-, above 0] Shape; of a log it is the number of events plus that of the prior.</param>
    /// <param name="exposure">Distance that goes with it; above 0 km.</param>
    /// <exception cref="ArgumentOutOfRangeException">Shape or exposure not above zero.</exception>
    public FailureRate(double shapeFactor, Length exposure)
        : this(Guard.Positive(shapeFactor, "events"), Guard.Positive(exposure.Kilometers, "km", nameof(exposure)), double.NaN, 1)
    {
    }

    /// <summary>
    /// What is assumed before any log: half an event in 300 km, with a range of two powers of ten. It is the same for every kind of failure, so that
    /// without a log the choice of kit follows the hours at stake alone.
    /// </summary>
    [Source("assumption-wide-prior", "shape 0.5, exposure 300 km")]
    public static FailureRate WidePrior { get; } = new(PriorShape, PriorKm, double.NaN, 1);

    /// <summary>
    /// Variance of the number of events on one ride, as a multiple of what independent events would give; 1 unless stated. Thorns, one rock garden or a wrong
    /// pressure bring several at once: 1 is then too hopeful.
    /// </summary>
    public double ClusterFactor { get; private init; }

    /// <summary>Events per distance: mean, P10 and P90.</summary>
    public Estimate<ReciprocalLength> PerDistance
    {
        get
        {
            if (IsKnown)
            {
                return Estimate.Exact(ReciprocalLength.FromInverseMeters(_knownPerKm / 1000));
            }

            double mean = _shape / _exposureKm, low = Gamma.InvCDF(_shape, _exposureKm, 0.1), high = Gamma.InvCDF(_shape, _exposureKm, 0.9);
            return Estimate.Of(
                ReciprocalLength.FromInverseMeters(mean / 1000), ReciprocalLength.FromInverseMeters(Math.Min(low, mean) / 1000), ReciprocalLength.FromInverseMeters(Math.Max(high, mean) / 1000));
        }
    }

    private bool IsKnown => !double.IsNaN(_knownPerKm);

    /// <summary>A rate that is taken as exactly known.</summary>
    /// <param name="eventsPerKm">[1/km, 0 or more] Events per kilometre.</param>
    /// <returns>The rate.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative or not finite.</exception>
    public static FailureRate Known(double eventsPerKm) => new(double.PositiveInfinity, double.PositiveInfinity, Guard.NotNegative(eventsPerKm, "per km"), 1);

    /// <summary>The rate after a log.</summary>
    /// <param name="events">[0 or more] Failures of this kind in the log.</param>
    /// <param name="ridden">Distance that the log covers; 0 km or more.</param>
    /// <param name="prior">What was assumed before; the wide prior unless stated.</param>
    /// <returns>The sharpened rate.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative events or distance.</exception>
    public static FailureRate FromLog(int events, Length ridden, FailureRate? prior = null) => (prior ?? WidePrior).Updated(events, ridden);

    /// <summary>The rate after more riding.</summary>
    /// <param name="events">[0 or more] Failures met.</param>
    /// <param name="ridden">Distance ridden; 0 km or more.</param>
    /// <returns>The sharpened rate; a known rate stays as it is.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative events or distance.</exception>
    [Source("textbook-gamma-poisson", "conjugate update")]
    public FailureRate Updated(int events, Length ridden)
    {
        Guard.InRange(events, 0, int.MaxValue, "events");
        double km = Guard.NotNegative(ridden.Kilometers, "km", nameof(ridden));
        return IsKnown ? this : new FailureRate(_shape + events, _exposureKm + km, double.NaN, ClusterFactor);
    }

    /// <summary>The same rate with events that come in clusters.</summary>
    /// <param name="varianceFactor">[-, 1 to 20] Variance of the number on one ride over that of independent events.</param>
    /// <returns>The rate.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public FailureRate Clustered(double varianceFactor) => this with { ClusterFactor = Guard.InRange(varianceFactor, 1, 20, "(factor)") };

    /// <summary>Chance of no failure on the next ride.</summary>
    /// <param name="next">Its distance; 0 km or more.</param>
    /// <returns>[share of 1] Chance.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative distance.</exception>
    public double NoEventProbability(Length next) => AtMostProbability(0, next);

    /// <summary>Chance that spares for so many failures are enough on the next ride.</summary>
    /// <param name="events">[0 to 10 000] Failures that the spares cover.</param>
    /// <param name="next">Distance of the ride; 0 km or more.</param>
    /// <returns>[share of 1] Chance of at most that many failures.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Negative or too many events, or negative distance.</exception>
    public double AtMostProbability(int events, Length next)
    {
        Guard.InRange(events, 0, 10_000, "events");
        double km = Guard.NotNegative(next.Kilometers, "km", nameof(next));
        return CountKernel.AtMost(MeanOn(km), ShapeOn(km), events);
    }

    internal double Shape => _shape;

    internal double ExposureKm => _exposureKm;

    internal double KnownPerKm => _knownPerKm;

    /// <summary>Variance of the number of events in a distance beyond that of independent events at a known rate.</summary>
    internal double ExcessVarianceOn(double km)
    {
        double mean = MeanOn(km);
        return (mean * (ClusterFactor - 1)) + (IsKnown ? 0 : mean * mean / _shape);
    }

    /// <summary>Expected failures on a distance.</summary>
    internal double MeanOn(double km) => IsKnown ? _knownPerKm * km : _shape / _exposureKm * km;

    /// <summary>Shape of the number of failures on a distance; infinite for Poisson.</summary>
    internal double ShapeOn(double km)
    {
        // Variance = cluster m + m^2 / shape = m + m^2 / r.
        double mean = MeanOn(km);
        double spread = ClusterFactor - 1 + (mean / _shape);
        return mean <= 0 || spread <= 0 ? double.PositiveInfinity : mean / spread;
    }
}
