using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Effort;

/// <summary>
/// How fast a rider lets the bike run on one difficulty class, and how much of a climb of that class is ridden at all. No published
/// speeds by difficulty were found: the defaults are assumptions, to be replaced by own rides.
/// </summary>
/// <remarks>Immutable.</remarks>
public sealed record TechnicalCap
{
    private readonly double _levelMps;
    private readonly double _downMps;

    /// <summary>Makes a cap.</summary>
    /// <param name="level">Fastest speed on level ground, 0.5 to 30 m/s.</param>
    /// <param name="downTenPercent">Fastest speed at ten per cent downhill, 0.5 to 30 m/s.</param>
    /// <param name="riddenUpTenPercentFraction">[share of 1] Share of a climb of ten per cent that is ridden, not pushed.</param>
    /// <param name="gsdFactor">[factor, 1 to 3] Spread between riders: one standard deviation multiplies or divides by it.</param>
    /// <exception cref="ArgumentOutOfRangeException">A value is outside its range.</exception>
    public TechnicalCap(Speed level, Speed downTenPercent, double riddenUpTenPercentFraction, double gsdFactor)
    {
        _levelMps = Guard.InRange(level.MetersPerSecond, 0.5, 30, "m/s", nameof(level));
        _downMps = Guard.InRange(downTenPercent.MetersPerSecond, 0.5, 30, "m/s", nameof(downTenPercent));
        RiddenUpTenPercentFraction = Guard.Fraction(riddenUpTenPercentFraction);
        GsdFactor = Guard.InRange(gsdFactor, 1, 3, "(factor)");
    }

    /// <summary>Fastest speed on level ground.</summary>
    public Speed Level => Speed.FromMetersPerSecond(_levelMps);

    /// <summary>Fastest speed at ten per cent downhill.</summary>
    public Speed DownTenPercent => Speed.FromMetersPerSecond(_downMps);

    /// <summary>Share of a climb of ten per cent that is ridden [share of 1].</summary>
    public double RiddenUpTenPercentFraction { get; }

    /// <summary>Spread between riders as a geometric standard deviation [factor].</summary>
    public double GsdFactor { get; }

    internal double LevelMps => _levelMps;

    internal double DownMps => _downMps;
}
