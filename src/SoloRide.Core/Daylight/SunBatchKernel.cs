using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;

namespace SoloRide.Daylight;

/// <summary>Positions of the Sun: one cold, or many at one place from the cubics of their days.</summary>
internal static class SunBatchKernel
{
    public static void One(
        double utcDays, double ut1MinusUtcS, double deltaTS, in ObserverFrame observer, out double azimuthRad, out double altitudeRad, out double distanceAu)
    {
        double ut1 = utcDays + (ut1MinusUtcS / 86400);
        SunSeriesKernel.Evaluate(ut1 + (deltaTS / 86400), ut1, out SunState s);
        (double sin, double cos) = Math.SinCos(s.Nu0 + s.EquationOfEquinoxes + observer.LonRad);
        observer.FromMeridian((s.X * cos) + (s.Y * sin), (s.Y * cos) - (s.X * sin), s.SinDelta, s.R, out azimuthRad, out altitudeRad);
        distanceAu = s.R;
    }

    [SkipLocalsInit]
    public static void Many(ReadOnlySpan<DateTimeOffset> instants, in ObserverFrame observer, DaylightOptions options, Span<SolarPosition> positions)
    {
        const int chunk = 256;
        Span<double> days = stackalloc double[chunk], az = stackalloc double[chunk], alt = stackalloc double[chunk], dist = stackalloc double[chunk];
        var track = new SunTrack(options);
        for (int from = 0; from < instants.Length; from += chunk)
        {
            int n = Math.Min(chunk, instants.Length - from);
            for (int i = 0; i < n; i++)
            {
                days[i] = TimeScaleKernel.Days(instants[from + i].UtcTicks);
            }

            Many(days[..n], observer, ref track, az[..n], alt[..n], dist[..n]);
            for (int i = 0; i < n; i++)
            {
                positions[from + i] = new SolarPosition(az[i], alt[i], dist[i], days[i]);
            }
        }
    }

    /// <summary>Azimuth, altitude and distance at times of one place; runs of times within one day share a cubic.</summary>
    public static void Many(
        ReadOnlySpan<double> utcDays, in ObserverFrame observer, ref SunTrack track, Span<double> azimuthRad, Span<double> altitudeRad, Span<double> distanceAu)
    {
        int i = 0;
        while (i < utcDays.Length)
        {
            track.Seek(utcDays[i]);
            double start = track.Path.StartDays, end = start + SunTrack.CellDays;
            int j = i + 1;
            while (j < utcDays.Length && utcDays[j] >= start && utcDays[j] < end)
            {
                j++;
            }

            Cell(track.Path, observer, utcDays[i..j], azimuthRad[i..j], altitudeRad[i..j], distanceAu[i..j]);
            i = j;
        }
    }

    [SkipLocalsInit]
    private static void Cell(in SunPath path, in ObserverFrame o, ReadOnlySpan<double> utcDays, Span<double> azimuthRad, Span<double> altitudeRad, Span<double> distanceAu)
    {
        const double turn = 1 / (2 * Math.PI);
        Vector256<double> start = Vector256.Create(path.StartDays), scale = Vector256.Create(1 / path.HalfDays), one = Vector256<double>.One;
        Vector256<double> h0 = Vector256.Create((path.H0 + o.LonRad) * turn), h1 = Vector256.Create(path.H1 * turn), h2 = Vector256.Create(path.H2 * turn), h3 = Vector256.Create(path.H3 * turn);
        Vector256<double> c0 = Vector256.Create(path.C0), c1 = Vector256.Create(path.C1), c2 = Vector256.Create(path.C2), c3 = Vector256.Create(path.C3);
        Vector256<double> s0 = Vector256.Create(path.S0), s1 = Vector256.Create(path.S1), s2 = Vector256.Create(path.S2), s3 = Vector256.Create(path.S3);
        Vector256<double> r0 = Vector256.Create(path.R0), r1 = Vector256.Create(path.R1);
        Vector256<double> near = Vector256.Create(1 / path.R0), nearer = Vector256.Create(-path.R1 / (path.R0 * path.R0));
        Vector256<double> rx = Vector256.Create(o.RxAu), rz = Vector256.Create(o.RzAu), ab = Vector256.Create(o.Aberration);
        Vector256<double> sin = Vector256.Create(o.SinLat), cos = Vector256.Create(o.CosLat);
        Span<double> rest = stackalloc double[16];
        int n = utcDays.Length;
        for (int i = 0; i < n; i += 4)
        {
            bool whole = i + 4 <= n;
            if (!whole)
            {
                for (int k = 0; k < 4; k++)
                {
                    rest[k] = utcDays[Math.Min(i + k, n - 1)];
                }
            }

            Vector256<double> t = whole ? Vector256.LoadUnsafe(ref MemoryMarshal.GetReference(utcDays), (nuint)i) : Vector256.LoadUnsafe(ref rest[0]);
            Vector256<double> u = ((t - start) * scale) - one;
            Vector256<double> h = Cubic(u, h0, h1, h2, h3);
            Vector256<double> c = Cubic(u, c0, c1, c2, c3);
            Vector256<double> s = Cubic(u, s0, s1, s2, s3);
            Vector256<double> perAu = TurnTrig.Fma(nearer, u, near);
            Vector256<double> x = (c * TurnTrig.CosTurns(h)) - (rx * perAu);
            Vector256<double> y = ab - (c * TurnTrig.SinTurns(h));
            Vector256<double> z = s - (rz * perAu);
            Vector256<double> up = TurnTrig.Fma(x, cos, z * sin);
            Vector256<double> north = (z * cos) - (x * sin);
            Vector256<double> flat = Vector256.Sqrt(TurnTrig.Fma(y, y, north * north));
            Vector256<double> az = TurnTrig.Atan2(y, north), alt = TurnTrig.Atan2(up, flat), r = TurnTrig.Fma(r1, u, r0);
            if (whole)
            {
                az.StoreUnsafe(ref MemoryMarshal.GetReference(azimuthRad), (nuint)i);
                alt.StoreUnsafe(ref MemoryMarshal.GetReference(altitudeRad), (nuint)i);
                r.StoreUnsafe(ref MemoryMarshal.GetReference(distanceAu), (nuint)i);
            }
            else
            {
                az.CopyTo(rest[4..]);
                alt.CopyTo(rest[8..]);
                r.CopyTo(rest[12..]);
                for (int k = 0; i + k < n; k++)
                {
                    azimuthRad[i + k] = rest[4 + k];
                    altitudeRad[i + k] = rest[8 + k];
                    distanceAu[i + k] = rest[12 + k];
                }
            }
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Cubic(Vector256<double> u, Vector256<double> a0, Vector256<double> a1, Vector256<double> a2, Vector256<double> a3)
        => TurnTrig.Fma(TurnTrig.Fma(TurnTrig.Fma(a3, u, a2), u, a1), u, a0);
}
