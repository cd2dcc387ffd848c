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
    // Taylor coefficients of sin(2 pi s): (2 pi)^(2k+1) / (2k+1)! with alternating sign; |s| <= 1/4 leaves 5e-14.
    private const double S1 = 6.283185307179586;
    private const double S3 = -41.341702240399755;
    private const double S5 = 81.60524927607504;
    private const double S7 = -76.70585975306136;
    private const double S9 = 42.058693944897634;
    private const double S11 = -15.094642576822984;
    private const double S13 = 3.8199525848482803;
    private const double S15 = -0.7181223017785001;
    private const double S17 = 0.10422916220813978;

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

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> OddPolynomial(Vector256<double> s)
    {
        Vector256<double> z = s * s;
        Vector256<double> z2 = z * z;
        Vector256<double> a = Fma(Vector256.Create(S17), z, Vector256.Create(S15));
        Vector256<double> b = Fma(Vector256.Create(S13), z, Vector256.Create(S11));
        Vector256<double> c = Fma(Vector256.Create(S9), z, Vector256.Create(S7));
        Vector256<double> d = Fma(Vector256.Create(S5), z, Vector256.Create(S3));
        a = Fma(a, z2, b);
        c = Fma(c, z2, d);
        a = Fma(a, z2 * z2, c);
        return s * Fma(a, z, Vector256.Create(S1));
    }

    /// <summary>The angle of (x, y) from the x axis [rad, -pi to pi]; 0 for the origin.</summary>
    [Source("cephes-atan", "rational approximation of the arc tangent")]
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
        Vector256<double> p = Fma(Vector256.Create(-8.750608600031904122785E-1), z, Vector256.Create(-1.615753718733365076637E1));
        p = Fma(p, z, Vector256.Create(-7.500855792314704667340E1));
        p = Fma(p, z, Vector256.Create(-1.228866684490136173410E2));
        p = Fma(p, z, Vector256.Create(-6.485021904942025371773E1));
        Vector256<double> q = z + Vector256.Create(2.485846490142306297962E1);
        q = Fma(q, z, Vector256.Create(1.650270098316988542046E2));
        q = Fma(q, z, Vector256.Create(4.328810604912902668951E2));
        q = Fma(q, z, Vector256.Create(4.853903996359136964868E2));
        q = Fma(q, z, Vector256.Create(1.945506571482613964425E2));
        Vector256<double> angle = Fma(t * z, p / q, t);
        angle = Vector256.ConditionalSelect(fold, angle + Vector256.Create(Math.PI / 4), angle);
        angle = Vector256.ConditionalSelect(Vector256.GreaterThan(ay, ax), Vector256.Create(Math.PI / 2) - angle, angle);
        angle = Vector256.ConditionalSelect(Vector256.LessThan(x, Vector256<double>.Zero), Vector256.Create(Math.PI) - angle, angle);
        return Vector256.ConditionalSelect(Vector256.LessThan(y, Vector256<double>.Zero), -angle, angle);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static Vector256<double> Fma(Vector256<double> a, Vector256<double> b, Vector256<double> c)
        => Vector256.FusedMultiplyAdd(a, b, c);
}
