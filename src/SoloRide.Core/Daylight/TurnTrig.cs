using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>
/// Sine, cosine and arc tangent on four lanes. Only additions, multiplications, divisions and explicit fused multiply-adds are used,
/// in a fixed order, so that results are equal in every bit on any machine.
/// </summary>
internal static class TurnTrig
{
    // Polynomials of least largest error, from Chebyshev fits at forty digits: sin(2 pi s) for |s| <= 1/4 within 8e-14,
    // atan(t) for |t| <= tan(pi/8) within 5e-14.
    private const double S1 = 6.283185307179270124;
    private const double S3 = -41.34170223990367201;
    private const double S5 = 81.60524914901582938;
    private const double S7 = -76.70584754377326666;
    private const double S9 = 42.0581348713720572;
    private const double S11 = -15.08148320689299973;
    private const double S13 = 3.665855159563961194;
    private const double T3 = -0.3333333333326619902;
    private const double T5 = 0.1999999994985479311;
    private const double T7 = -0.1428570811036039985;
    private const double T9 = 0.1111081971674567623;
    private const double T11 = -0.09084101895346429499;
    private const double T13 = 0.07604800046078291546;
    private const double T15 = -0.06027307460946675329;
    private const double T17 = 0.03295679541870136551;

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Round(Vector256<double> x)
    {
        // Adding and subtracting 1.5 x 2^52 rounds to the nearest whole number for |x| < 2^51.
        Vector256<double> magic = Vector256.Create(6755399441055744.0);
        return (x + magic) - magic;
    }

    /// <summary>cos(2 pi x).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> CosTurns(Vector256<double> x)
        => OddPolynomial(Vector256.Create(0.25) - Vector256.Abs(x - Round(x)));

    /// <summary>sin(2 pi x).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> SinTurns(Vector256<double> x)
    {
        Vector256<double> quarter = Vector256.Create(0.25);
        Vector256<double> y = x - quarter;
        return OddPolynomial(quarter - Vector256.Abs(y - Round(y)));
    }

    /// <summary>Sine and cosine of 2 pi x.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void SinCosTurns(Vector256<double> x, out Vector256<double> sin, out Vector256<double> cos)
    {
        Vector256<double> r = x - Round(x), a = Vector256.Abs(r);
        cos = OddPolynomial(Vector256.Create(0.25) - a);

        // The sine of a turned by half lies in the first quadrant again; it takes the sign of the angle.
        Vector256<double> s = OddPolynomial(Vector256.Min(a, Vector256.Create(0.5) - a));
        sin = Vector256.ConditionalSelect(Vector256.Create(-0.0), r, s);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> OddPolynomial(Vector256<double> s)
    {
        Vector256<double> z = s * s;
        Vector256<double> z2 = z * z;
        Vector256<double> a = Fma(Vector256.Create(S11), z, Vector256.Create(S9));
        Vector256<double> b = Fma(Vector256.Create(S7), z, Vector256.Create(S5));
        Vector256<double> c = Fma(Vector256.Create(S3), z, Vector256.Create(S1));
        a = Fma(Vector256.Create(S13), z2, a);
        b = Fma(a, z2, b);
        return s * Fma(b, z2, c);
    }

    /// <summary>The angle of (x, y) from the x axis [rad, -pi to pi]; 0 for the origin.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Atan2(Vector256<double> y, Vector256<double> x)
    {
        Vector256<double> ax = Vector256.Abs(x), ay = Vector256.Abs(y);
        Vector256<double> hi = Vector256.Max(ax, ay), lo = Vector256.Min(ax, ay);
        // Above tan(pi/8) the half quadrant is folded: atan(lo/hi) = pi/4 + atan((lo - hi)/(lo + hi)).
        Vector256<double> fold = Vector256.GreaterThan(lo, hi * Vector256.Create(0.41421356237309503));
        Vector256<double> num = Vector256.ConditionalSelect(fold, lo - hi, lo);
        Vector256<double> den = Vector256.ConditionalSelect(fold, lo + hi, hi);
        den = Vector256.ConditionalSelect(Vector256.Equals(den, Vector256<double>.Zero), Vector256<double>.One, den);
        Vector256<double> t = num / den;
        Vector256<double> z = t * t;
        Vector256<double> z2 = z * z;
        Vector256<double> p = Fma(Vector256.Create(T17), z, Vector256.Create(T15));
        Vector256<double> q = Fma(Vector256.Create(T13), z, Vector256.Create(T11));
        Vector256<double> r = Fma(Vector256.Create(T9), z, Vector256.Create(T7));
        Vector256<double> u = Fma(Vector256.Create(T5), z, Vector256.Create(T3));
        p = Fma(Fma(Fma(p, z2, q), z2, r), z2, u);
        Vector256<double> angle = Fma(t * z, p, t);
        angle = Vector256.ConditionalSelect(fold, angle + Vector256.Create(Math.PI / 4), angle);
        angle = Vector256.ConditionalSelect(Vector256.GreaterThan(ay, ax), Vector256.Create(Math.PI / 2) - angle, angle);
        angle = Vector256.ConditionalSelect(Vector256.LessThan(x, Vector256<double>.Zero), Vector256.Create(Math.PI) - angle, angle);
        return Vector256.ConditionalSelect(Vector256.LessThan(y, Vector256<double>.Zero), -angle, angle);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Fma(Vector256<double> a, Vector256<double> b, Vector256<double> c)
        => Vector256.FusedMultiplyAdd(a, b, c);
}
