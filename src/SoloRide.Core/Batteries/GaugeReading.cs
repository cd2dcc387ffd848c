using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>One line of a discharge log.</summary>
/// <remarks>Immutable.</remarks>
public sealed record GaugeReading
{
    /// <summary>Makes a reading.</summary>
    /// <param name="at">From the start of the log, 0 or more.</param>
    /// <param name="chargeFraction">[share of 1] What the gauge shows.</param>
    /// <param name="mode">Mode that ran since the reading before; for the first reading without meaning.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    /// <exception cref="ArgumentException">No mode.</exception>
    public GaugeReading(TimeSpan at, double chargeFraction, string mode)
    {
        At = Guard.NotNegative(at);
        ChargeFraction = Guard.Fraction(chargeFraction);
        Mode = Guard.NotEmpty(mode);
    }

    /// <summary>From the start of the log.</summary>
    public TimeSpan At { get; }

    /// <summary>What the gauge shows.</summary>
    public double ChargeFraction { get; }

    /// <summary>Mode that ran since the reading before.</summary>
    public string Mode { get; }
}
