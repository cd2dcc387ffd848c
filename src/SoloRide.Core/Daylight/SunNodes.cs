using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>
/// The series at several instants that lie in pairs about a middle: each sine and cosine is taken once, at the middle, and turned to the
/// instants by fixed angles. Within 1e-4 arcsec of single evaluations for spans of sixteen days.
/// </summary>
internal sealed class SunNodes
{
    private const int Wide = 5, Narrow = 2;

    private readonly double[] _offsetDays;

    // For each block: cosine and sine of each pair's turn, four lanes each.
    private readonly double[] _series, _nutation;

    private SunNodes(double[] offsetDays)
    {
        _offsetDays = offsetDays;
        int pairs = offsetDays.Length;
        double[] terms = SunSeriesKernel.SeriesTerms;
        int blocks = terms.Length / SunSeriesKernel.SeriesDoubles;
        _series = new double[blocks * pairs * 8];
        for (int b = 0; b < blocks; b++)
        {
            Turn(_series, b, terms.AsSpan((b * SunSeriesKernel.SeriesDoubles) + 8, 4), SunSeriesKernel.DaysPerMillennium);
        }

        terms = SunSeriesKernel.NutationTerms;
        blocks = terms.Length / SunSeriesKernel.NutationDoubles;
        _nutation = new double[blocks * pairs * 8];
        for (int b = 0; b < blocks; b++)
        {
            Turn(_nutation, b, terms.AsSpan((b * SunSeriesKernel.NutationDoubles) + 4, 4), SunSeriesKernel.DaysPerCentury);
        }

        void Turn(double[] into, int block, ReadOnlySpan<double> turns, double perDays)
        {
            for (int j = 0; j < pairs; j++)
            {
                for (int lane = 0; lane < 4; lane++)
                {
                    (double sin, double cos) = Math.SinCos(2 * Math.PI * turns[lane] * (offsetDays[j] / perDays));
                    into[(((block * pairs) + j) * 8) + lane] = cos;
                    into[(((block * pairs) + j) * 8) + 4 + lane] = sin;
                }
            }
        }
    }

    /// <summary>Four nodes of a cubic over a day.</summary>
    public static SunNodes Day { get; } = new([SunPath.NodeA / 2, SunPath.NodeB / 2]);

    /// <summary>Ten nodes over sixteen days.</summary>
    public static SunNodes Segment { get; } = new([.. Enumerable.Range(0, Wide).Select(k => SunSegment.Days / 2 * Math.Cos(Math.PI * ((2 * k) + 1) / (4 * Wide)))]);

    /// <summary>
    /// Right ascension less the equation of the equinoxes [rad, of one turn with the first], cosine and sine of declination, and distance [au] at the nodes,
    /// from the latest to the earliest. Spans must hold whole multiples of four.
    /// </summary>
    /// <param name="utcDays">[d] The middle.</param>
    /// <param name="ut1MinusUtcS">[s] UT1 - UTC.</param>
    /// <param name="deltaTS">[s] TT - UT1.</param>
    /// <param name="q">Receives right ascensions.</param>
    /// <param name="cosDec">Receives cosines.</param>
    /// <param name="sinDec">Receives sines.</param>
    /// <param name="distanceAu">Receives distances.</param>
    [SkipLocalsInit]
    [Source("reda-andreas-2008", "3.2 to 3.10")]
    public void Evaluate(double utcDays, double ut1MinusUtcS, double deltaTS, Span<double> q, Span<double> cosDec, Span<double> sinDec, Span<double> distanceAu)
    {
        double tt = utcDays + ((ut1MinusUtcS + deltaTS) / 86400);
        int[] starts = SunSeriesKernel.GroupStarts;
        int pairs = _offsetDays.Length, count = 2 * pairs, blocks = starts[^1], both = SunSeriesKernel.NutationBoth;
        int nutations = SunSeriesKernel.NutationTerms.Length / SunSeriesKernel.NutationDoubles;
        Span<double> weights = stackalloc double[8 * (blocks + nutations + both)];
        Middle(tt, weights);

        // Sums at the nodes: longitude and its part with time, latitude likewise, distance likewise, nutation in longitude and obliquity.
        Span<double> sums = stackalloc double[8 * 12];
        const int l = SunSeriesKernel.LongitudeGroups, b = l + SunSeriesKernel.LatitudeGroups;
        Pairs(_series, weights, 0, 0, starts[1], sums);
        Pairs(_series, weights, starts[1], starts[1], starts[l], sums[12..]);
        Pairs(_series, weights, starts[l], starts[l], starts[l + 1], sums[24..]);
        Pairs(_series, weights, starts[l + 1], starts[l + 1], starts[b], sums[36..]);
        Pairs(_series, weights, starts[b], starts[b], starts[b + 1], sums[48..]);
        Pairs(_series, weights, starts[b + 1], starts[b + 1], blocks, sums[60..]);
        Pairs(_nutation, weights, 0, blocks, blocks + nutations, sums[72..]);
        Pairs(_nutation, weights, 0, blocks + nutations, blocks + nutations + both, sums[84..]);
        Span<double> jme = stackalloc double[12], lead = stackalloc double[12], eps = stackalloc double[12];

        // The mean obliquity runs straight over some days.
        double obliquity = SunSeriesKernel.MeanObliquityArcsec(tt / SunSeriesKernel.DaysPerMillennium);
        double obliquityRate = SunSeriesKernel.MeanObliquityArcsec((tt + 1) / SunSeriesKernel.DaysPerMillennium) - obliquity;
        for (int k = 0; k < 12; k++)
        {
            int at = Math.Min(k, count - 1);
            double offset = at < pairs ? _offsetDays[at] : -_offsetDays[count - 1 - at];
            double t = (tt + offset) / SunSeriesKernel.DaysPerMillennium;
            jme[k] = t;
            lead[k] = SunSeriesKernel.E8 * SunSeriesKernel.LeadingLongitude(t);
            eps[k] = SunSeriesKernel.Arcsec * (obliquity + (obliquityRate * offset));
            if (k >= count)
            {
                for (int i = k; i < sums.Length; i += 12)
                {
                    sums[i] = sums[i - 1];
                }
            }
        }

        for (int i = 0; i < count; i += 4)
        {
            Directions(sums[i..], Vector256.Create<double>(jme[i..]), Vector256.Create<double>(lead[i..]), Vector256.Create<double>(eps[i..]), q[i..], cosDec[i..], sinDec[i..], distanceAu[i..]);
        }

        for (int k = 1; k < count; k++)
        {
            q[k] -= 2 * Math.PI * Math.Round((q[k] - q[0]) / (2 * Math.PI));
        }
    }

    /// <summary>Sines and cosines at the middle, times their amplitudes: for each block what is multiplied by the cosine and by the sine of a turn.</summary>
    private static void Middle(double ttDays, Span<double> weights)
    {
        ref double w = ref MemoryMarshal.GetReference(weights);
        ref double p = ref MemoryMarshal.GetArrayDataReference(SunSeriesKernel.SeriesTerms);
        Vector256<double> t = Vector256.Create(ttDays / SunSeriesKernel.DaysPerMillennium);
        int[] starts = SunSeriesKernel.GroupStarts;
        nuint block = 0;
        Vector256<double> power = Vector256<double>.One;
        for (int g = 0; g < starts.Length - 1; g++)
        {
            // Within a list the second power of time and on count as constant over the nodes, times the node's own time.
            bool head = g is 0 or SunSeriesKernel.LongitudeGroups or SunSeriesKernel.LongitudeGroups + SunSeriesKernel.LatitudeGroups;
            bool first = g is 1 or SunSeriesKernel.LongitudeGroups + 1 or SunSeriesKernel.LongitudeGroups + SunSeriesKernel.LatitudeGroups + 1;
            power = head || first ? Vector256<double>.One : power * t;
            for (nuint end = (nuint)starts[g + 1]; block < end; block++)
            {
                nuint i = block * SunSeriesKernel.SeriesDoubles;
                TurnTrig.SinCosTurns(SunSeriesKernel.SeriesArgument(ref p, i, t), out Vector256<double> sin, out Vector256<double> cos);
                Vector256<double> amplitude = power * Vector256.LoadUnsafe(ref p, i);
                (amplitude * cos).StoreUnsafe(ref w, block * 8);
                (amplitude * sin).StoreUnsafe(ref w, (block * 8) + 4);
            }
        }

        p = ref MemoryMarshal.GetArrayDataReference(SunSeriesKernel.NutationTerms);
        t = Vector256.Create(ttDays / SunSeriesKernel.DaysPerCentury);
        nuint count = (nuint)(SunSeriesKernel.NutationTerms.Length / SunSeriesKernel.NutationDoubles), both = (nuint)SunSeriesKernel.NutationBoth;
        for (nuint k = 0; k < count; k++, block++)
        {
            nuint i = k * SunSeriesKernel.NutationDoubles;
            TurnTrig.SinCosTurns(SunSeriesKernel.NutationArgument(ref p, i, t), out Vector256<double> sin, out Vector256<double> cos);
            Vector256<double> amplitude = SunSeriesKernel.Amplitude(ref p, i + 16, t);
            (amplitude * sin).StoreUnsafe(ref w, block * 8);
            (-amplitude * cos).StoreUnsafe(ref w, (block * 8) + 4);
            if (k < both)
            {
                amplitude = SunSeriesKernel.Amplitude(ref p, i + 24, t);
                (amplitude * cos).StoreUnsafe(ref w, (block + count) * 8);
                (amplitude * sin).StoreUnsafe(ref w, ((block + count) * 8) + 4);
            }
        }
    }

    private void Pairs(double[] table, ReadOnlySpan<double> weights, int tableBlock, int from, int to, Span<double> sums)
    {
        if (_offsetDays.Length == Narrow)
        {
            Two(table, weights, tableBlock, from, to, sums);
        }
        else
        {
            Five(table, weights, tableBlock, from, to, sums);
        }
    }

    private static void Two(double[] table, ReadOnlySpan<double> weights, int tableBlock, int from, int to, Span<double> sums)
    {
        ref double w = ref MemoryMarshal.GetReference(weights);
        ref double p = ref MemoryMarshal.GetArrayDataReference(table);
        Vector256<double> e0 = Vector256<double>.Zero, e1 = e0, o0 = e0, o1 = e0;
        nuint i = (nuint)(tableBlock * Narrow * 8);
        for (nuint block = (nuint)from; block < (nuint)to; block++, i += Narrow * 8)
        {
            Vector256<double> even = Vector256.LoadUnsafe(ref w, block * 8), odd = Vector256.LoadUnsafe(ref w, (block * 8) + 4);
            e0 = TurnTrig.Fma(even, Vector256.LoadUnsafe(ref p, i), e0);
            o0 = TurnTrig.Fma(odd, Vector256.LoadUnsafe(ref p, i + 4), o0);
            e1 = TurnTrig.Fma(even, Vector256.LoadUnsafe(ref p, i + 8), e1);
            o1 = TurnTrig.Fma(odd, Vector256.LoadUnsafe(ref p, i + 12), o1);
        }

        Put(e0, o0, 0, (2 * Narrow) - 1, sums);
        Put(e1, o1, 1, (2 * Narrow) - 2, sums);
    }

    private static void Five(double[] table, ReadOnlySpan<double> weights, int tableBlock, int from, int to, Span<double> sums)
    {
        ref double w = ref MemoryMarshal.GetReference(weights);
        ref double p = ref MemoryMarshal.GetArrayDataReference(table);
        Vector256<double> e0 = Vector256<double>.Zero, e1 = e0, e2 = e0, e3 = e0, e4 = e0, o0 = e0, o1 = e0, o2 = e0, o3 = e0, o4 = e0;
        nuint i = (nuint)(tableBlock * Wide * 8);
        for (nuint block = (nuint)from; block < (nuint)to; block++, i += Wide * 8)
        {
            Vector256<double> even = Vector256.LoadUnsafe(ref w, block * 8), odd = Vector256.LoadUnsafe(ref w, (block * 8) + 4);
            e0 = TurnTrig.Fma(even, Vector256.LoadUnsafe(ref p, i), e0);
            o0 = TurnTrig.Fma(odd, Vector256.LoadUnsafe(ref p, i + 4), o0);
            e1 = TurnTrig.Fma(even, Vector256.LoadUnsafe(ref p, i + 8), e1);
            o1 = TurnTrig.Fma(odd, Vector256.LoadUnsafe(ref p, i + 12), o1);
            e2 = TurnTrig.Fma(even, Vector256.LoadUnsafe(ref p, i + 16), e2);
            o2 = TurnTrig.Fma(odd, Vector256.LoadUnsafe(ref p, i + 20), o2);
            e3 = TurnTrig.Fma(even, Vector256.LoadUnsafe(ref p, i + 24), e3);
            o3 = TurnTrig.Fma(odd, Vector256.LoadUnsafe(ref p, i + 28), o3);
            e4 = TurnTrig.Fma(even, Vector256.LoadUnsafe(ref p, i + 32), e4);
            o4 = TurnTrig.Fma(odd, Vector256.LoadUnsafe(ref p, i + 36), o4);
        }

        Put(e0, o0, 0, (2 * Wide) - 1, sums);
        Put(e1, o1, 1, (2 * Wide) - 2, sums);
        Put(e2, o2, 2, (2 * Wide) - 3, sums);
        Put(e3, o3, 3, (2 * Wide) - 4, sums);
        Put(e4, o4, 4, (2 * Wide) - 5, sums);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Put(Vector256<double> even, Vector256<double> odd, int later, int earlier, Span<double> sums)
    {
        sums[later] = SunSeriesKernel.Lanes(even - odd);
        sums[earlier] = SunSeriesKernel.Lanes(even + odd);
    }

    /// <summary>Four nodes from their sums to the equator.</summary>
    private static void Directions(
        ReadOnlySpan<double> sums, Vector256<double> jme, Vector256<double> lead, Vector256<double> meanEps, Span<double> q, Span<double> cosDec, Span<double> sinDec, Span<double> distanceAu)
    {
        const double perTurn = 1 / (2 * Math.PI), small = 1e-4 * SunSeriesKernel.Arcsec;
        Vector256<double> e8 = Vector256.Create(SunSeriesKernel.E8), one = Vector256<double>.One;
        Vector256<double> longitude = TurnTrig.Fma(TurnTrig.Fma(jme, At(sums, 1), At(sums, 0)), e8, lead);
        Vector256<double> beta = -e8 * TurnTrig.Fma(jme, At(sums, 3), At(sums, 2));
        Vector256<double> r = e8 * (Vector256.Create(SunTerms.R0[0]) + TurnTrig.Fma(jme, At(sums, 5), At(sums, 4)));
        Vector256<double> psi = At(sums, 6) * Vector256.Create(small), obl = At(sums, 7) * Vector256.Create(small);
        Vector256<double> eps = meanEps + obl;

        // Half a turn from the Earth's to the Sun's longitude.
        Vector256<double> lambda = longitude + psi + (Vector256.Create(SunSeriesKernel.AberrationArcsec * SunSeriesKernel.Arcsec) / r);
        TurnTrig.SinCosTurns(TurnTrig.Fma(lambda, Vector256.Create(perTurn), Vector256.Create(0.5)), out Vector256<double> sinL, out Vector256<double> cosL);
        TurnTrig.SinCosTurns(eps * Vector256.Create(perTurn), out Vector256<double> sinE, out Vector256<double> cosE);
        Vector256<double> cosB = one - (Vector256.Create(0.5) * beta * beta);
        Vector256<double> x = cosB * cosL, y = (cosB * sinL * cosE) - (beta * sinE), z = TurnTrig.Fma(cosB * sinL, sinE, beta * cosE);
        (TurnTrig.Atan2(y, x) - (psi * cosE)).CopyTo(q);
        Vector256.Sqrt(TurnTrig.Fma(x, x, y * y)).CopyTo(cosDec);
        z.CopyTo(sinDec);
        r.CopyTo(distanceAu);

        static Vector256<double> At(ReadOnlySpan<double> sums, int row) => Vector256.Create(sums.Slice(12 * row, 4));
    }
}
