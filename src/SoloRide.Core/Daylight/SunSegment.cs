using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>
/// The Sun over sixteen days as Chebyshev series of ten terms, from which the cubic of any window inside is made without the long series.
/// Differs from it by less than 1e-3 arcsec.
/// </summary>
internal struct SunSegment
{
    public const double Days = 16;
    public const int Terms = 10;

    /// <summary>cos(pi j (2k+1) / 20) times 2/10 (1/10 for j = 0): node values to coefficients.</summary>
    private static readonly double[] ToCoefficients = Transform();

    private double _start;
    private double _ut1MinusUtcS;
    private Series _q, _c, _s, _r;

    /// <summary>UTC days from the epoch at which the segment begins.</summary>
    public readonly double StartDays => _start;

    /// <summary>Whether a window lies in the segment.</summary>
    public readonly bool Holds(double startDays, double spanDays) => startDays >= _start && startDays + spanDays <= _start + Days;

    /// <summary>Fits the segment that begins at a time.</summary>
    [SkipLocalsInit]
    public static void From(double startDays, double ut1MinusUtcS, double deltaTS, out SunSegment segment)
    {
        segment = default;
        segment._start = startDays;
        segment._ut1MinusUtcS = ut1MinusUtcS;
        Span<double> q = stackalloc double[12], c = stackalloc double[12], s = stackalloc double[12], r = stackalloc double[12];
        SunNodes.Segment.Evaluate(startDays + (Days / 2), ut1MinusUtcS, deltaTS, q, c, s, r);
        for (int j = 0; j < Terms; j++)
        {
            double tq = 0, tc = 0, ts = 0, tr = 0;
            for (int k = 0; k < Terms; k++)
            {
                double w = ToCoefficients[(j * Terms) + k];
                tq += w * q[k];
                tc += w * c[k];
                ts += w * s[k];
                tr += w * r[k];
            }

            segment._q[j] = tq;
            segment._c[j] = tc;
            segment._s[j] = ts;
            segment._r[j] = tr;
        }
    }

    /// <summary>The cubic over a window inside the segment.</summary>
    [SkipLocalsInit]
    public readonly void Path(double startDays, double spanDays, out SunPath path)
    {
        double half = spanDays / 2;
        double mid = (startDays + half - _start) * (2 / Days) - 1;
        double h = half * (2 / Days);
        Vector256<double> x = Vector256.Create(mid + (h * SunPath.NodeA), mid + (h * SunPath.NodeB), mid - (h * SunPath.NodeB), mid - (h * SunPath.NodeA));
        Span<double> q = stackalloc double[4], c = stackalloc double[4], s = stackalloc double[4], r = stackalloc double[4];
        Clenshaw(_q, x).CopyTo(q);
        Clenshaw(_c, x).CopyTo(c);
        Clenshaw(_s, x).CopyTo(s);
        Clenshaw(_r, x).CopyTo(r);
        SunPath.Fit(startDays, half, _ut1MinusUtcS, q, c, s, r, out path);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Clenshaw(in Series a, Vector256<double> x)
    {
        Vector256<double> x2 = x + x;
        Vector256<double> b1 = Vector256<double>.Zero, b2 = Vector256<double>.Zero;
        for (int j = Terms - 1; j > 0; j--)
        {
            Vector256<double> b = TurnTrig.Fma(x2, b1, Vector256.Create(a[j]) - b2);
            b2 = b1;
            b1 = b;
        }

        return TurnTrig.Fma(x, b1, Vector256.Create(a[0]) - b2);
    }

    private static double[] Transform()
    {
        var t = new double[Terms * Terms];
        for (int j = 0; j < Terms; j++)
        {
            for (int k = 0; k < Terms; k++)
            {
                t[(j * Terms) + k] = Math.Cos(Math.PI * j * ((2 * k) + 1) / (2 * Terms)) * (j == 0 ? 1.0 : 2.0) / Terms;
            }
        }

        return t;
    }

    [InlineArray(Terms)]
    private struct Series
    {
        private double _first;
    }
}
