using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>
/// Metabolic cost of walking over spans. Four lanes, plain multiplications and additions (no fused ones) and exponentials of our own,
/// so that every machine gives the same bits; within 1e-12 of the scalar form.
/// </summary>
internal static class WalkCostBatchKernel
{
    [Source("looney-2019", "exponent of speed")]
    private const double SpeedExponent = 0.43;

    private const double Ln2High = 0.693147180369123816490, Ln2Low = 1.90821492927058770002e-10, Log2E = 1.4426950408889634, SquareRootOfHalf = 0.70710678118654752440;

    /// <summary>1.5 · 2⁵²: added and taken off again it rounds to a whole number.</summary>
    private const double Rounder = 6755399441055744.0;

    private const long ExponentOne = 1023;

    private const int MantissaBits = 52;

    /// <summary>Whole metabolic power on foot [W per kg of body] for each speed, grade and factor of load times terrain; speeds above 0 to 10 m/s, grades within ±100 %.</summary>
    [Source("looney-2022", "load and terrain act on the walk alone")]
    public static void OnFootWPerKg(ReadOnlySpan<double> speedMps, ReadOnlySpan<double> gradePercent, ReadOnlySpan<double> loadTerrainFactor, Span<double> wPerKg)
    {
        Guard.SameLength(speedMps.Length, gradePercent.Length, nameof(gradePercent));
        Guard.SameLength(speedMps.Length, loadTerrainFactor.Length, nameof(loadTerrainFactor));
        Guard.SameLength(speedMps.Length, wPerKg.Length, nameof(wPerKg));
        int i = 0;
        for (; i <= speedMps.Length - 4; i += 4)
        {
            Cost(Vector256.Create(speedMps.Slice(i, 4)), Vector256.Create(gradePercent.Slice(i, 4)), Vector256.Create(loadTerrainFactor.Slice(i, 4))).CopyTo(wPerKg[i..]);
        }

        // The tail goes through the same lanes, so that a value does not depend on its place.
        for (; i < speedMps.Length; i++)
        {
            wPerKg[i] = Cost(Vector256.Create(speedMps[i]), Vector256.Create(gradePercent[i]), Vector256.Create(loadTerrainFactor[i])).ToScalar();
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Cost(Vector256<double> v, Vector256<double> grade, Vector256<double> factor)
    {
        Vector256<double> one = Vector256.Create(1.0), v2 = v * v;
        Vector256<double> inner = Exp(Vector256.Create(Math.Log(WalkCostKernel.LcdaBase)) * (grade + Vector256.Create(32.0)));
        Vector256<double> slope = Vector256.Create(0.34) * grade * (one - Exp(Vector256.Create(Math.Log(1.05)) * (one - inner)));
        Vector256<double> power = Exp(Vector256.Create(SpeedExponent) * Log(v));
        return Vector256.Create(WalkCostKernel.StandingWPerKg) + (factor * ((Vector256.Create(1.94) * power) + (Vector256.Create(0.24) * v2 * v2) + (slope * v)));
    }

    /// <summary>Exponential: the argument less whole twos' logarithms, thirteen terms; below -700 nothing is left.</summary>
    [Source("derived-exponential-series", "reduced argument, thirteen terms")]
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> Exp(Vector256<double> x)
    {
        x = Vector256.Max(Vector256.Create(-700.0), Vector256.Min(Vector256.Create(700.0), x));
        Vector256<double> round = Vector256.Create(Rounder), k = (x * Vector256.Create(Log2E)) + round;
        Vector256<double> whole = k - round, r = (x - (whole * Vector256.Create(Ln2High))) - (whole * Vector256.Create(Ln2Low));
        Vector256<double> sum = Vector256.Create(1.0 / 6227020800);
        sum = (sum * r) + Vector256.Create(1.0 / 479001600);
        sum = (sum * r) + Vector256.Create(1.0 / 39916800);
        sum = (sum * r) + Vector256.Create(1.0 / 3628800);
        sum = (sum * r) + Vector256.Create(1.0 / 362880);
        sum = (sum * r) + Vector256.Create(1.0 / 40320);
        sum = (sum * r) + Vector256.Create(1.0 / 5040);
        sum = (sum * r) + Vector256.Create(1.0 / 720);
        sum = (sum * r) + Vector256.Create(1.0 / 120);
        sum = (sum * r) + Vector256.Create(1.0 / 24);
        sum = (sum * r) + Vector256.Create(1.0 / 6);
        sum = (sum * r) + Vector256.Create(0.5);
        sum = (sum * r) + Vector256.Create(1.0);
        sum = (sum * r) + Vector256.Create(1.0);
        Vector256<long> scale = (Vector256.ConvertToInt64(whole) + Vector256.Create(ExponentOne)) << MantissaBits;
        return sum * scale.AsDouble();
    }

    /// <summary>Natural logarithm of a normal positive number: mantissa between √½ and √2, series of the area tangent.</summary>
    [Source("derived-exponential-series", "logarithm by the area tangent, ten terms")]
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    internal static Vector256<double> Log(Vector256<double> x)
    {
        Vector256<long> bits = x.AsInt64(), exponent = (bits >> MantissaBits) - Vector256.Create(ExponentOne - 1);
        Vector256<double> m = ((bits & Vector256.Create((1L << MantissaBits) - 1)) | Vector256.Create((ExponentOne - 1) << MantissaBits)).AsDouble();
        Vector256<double> small = Vector256.LessThan(m, Vector256.Create(SquareRootOfHalf));
        m = Vector256.ConditionalSelect(small, m + m, m);
        Vector256<double> e = Vector256.ConvertToDouble(exponent) - Vector256.ConditionalSelect(small, Vector256.Create(1.0), Vector256<double>.Zero);
        Vector256<double> f = (m - Vector256.Create(1.0)) / (m + Vector256.Create(1.0)), s = f * f, sum = Vector256.Create(1.0 / 21);
        sum = (sum * s) + Vector256.Create(1.0 / 19);
        sum = (sum * s) + Vector256.Create(1.0 / 17);
        sum = (sum * s) + Vector256.Create(1.0 / 15);
        sum = (sum * s) + Vector256.Create(1.0 / 13);
        sum = (sum * s) + Vector256.Create(1.0 / 11);
        sum = (sum * s) + Vector256.Create(1.0 / 9);
        sum = (sum * s) + Vector256.Create(1.0 / 7);
        sum = (sum * s) + Vector256.Create(1.0 / 5);
        sum = (sum * s) + Vector256.Create(1.0 / 3);
        sum = (sum * s) + Vector256.Create(1.0);
        return ((f + f) * sum) + (e * Vector256.Create(Ln2Low)) + (e * Vector256.Create(Ln2High));
    }
}
