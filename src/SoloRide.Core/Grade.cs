using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>Steepness in the direction of travel: rise over horizontal run, uphill positive.</summary>
/// <remarks><c>default</c> is level ground. Immutable.</remarks>
public readonly record struct Grade : IComparable<Grade>
{
    private Grade(double riseFraction) => RiseFraction = riseFraction;

    /// <summary>Rise over horizontal run [1]; 0.10 is ten per cent.</summary>
    public double RiseFraction { get; }

    /// <summary>The angle of the slope.</summary>
    public Angle Slope => Angle.FromRadians(Math.Atan(RiseFraction));

    /// <summary>From rise over horizontal run.</summary>
    /// <param name="riseFraction">[1, finite] 0.10 is ten per cent uphill.</param>
    /// <returns>The grade.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Grade FromRise(double riseFraction) => new(Guard.Finite(riseFraction, "1"));

    /// <summary>From per cent.</summary>
    /// <param name="gradePercent">[%, finite] 10 is ten metres up over a hundred metres of horizontal distance.</param>
    /// <returns>The grade.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The value is not finite.</exception>
    public static Grade FromPercent(double gradePercent) => new(Guard.Finite(gradePercent, "%") / 100);

    /// <summary>From the angle of the slope.</summary>
    /// <param name="slope">Above -90° and below 90°.</param>
    /// <returns>The grade.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The angle is vertical or beyond.</exception>
    public static Grade FromSlope(Angle slope)
    {
        double deg = slope.Degrees;
        return deg > -90 && deg < 90
            ? new(Math.Tan(slope.Radians))
            : throw new ArgumentOutOfRangeException(nameof(slope), deg, "slope must be above -90 and below 90 deg.");
    }

    /// <summary>Steeper uphill is greater.</summary>
    /// <param name="other">The other grade.</param>
    /// <returns>The usual sign.</returns>
    public int CompareTo(Grade other) => RiseFraction.CompareTo(other.RiseFraction);

    /// <summary>Whether the left grade is less steep uphill than the right one.</summary>
    /// <param name="left">Left.</param>
    /// <param name="right">Right.</param>
    public static bool operator <(Grade left, Grade right) => left.RiseFraction < right.RiseFraction;

    /// <summary>Whether the left grade is steeper uphill than the right one.</summary>
    /// <param name="left">Left.</param>
    /// <param name="right">Right.</param>
    public static bool operator >(Grade left, Grade right) => left.RiseFraction > right.RiseFraction;

    /// <summary>Not steeper.</summary>
    /// <param name="left">Left.</param>
    /// <param name="right">Right.</param>
    public static bool operator <=(Grade left, Grade right) => left.RiseFraction <= right.RiseFraction;

    /// <summary>At least as steep.</summary>
    /// <param name="left">Left.</param>
    /// <param name="right">Right.</param>
    public static bool operator >=(Grade left, Grade right) => left.RiseFraction >= right.RiseFraction;

    /// <summary>Per cent with one decimal.</summary>
    /// <returns>Text such as <c>10.0 %</c>.</returns>
    public override string ToString() => Text.F(RiseFraction * 100, 1) + " %";
}
