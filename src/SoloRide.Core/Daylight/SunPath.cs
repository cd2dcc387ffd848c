using System.Runtime.CompilerServices;

namespace SoloRide.Daylight;

/// <summary>
/// The Sun over a window of at most about a day as cubics in u, which runs from -1 to 1 over it: Greenwich hour angle, cosine and sine of
/// the apparent declination, distance. Fitted at four Chebyshev nodes; 1e-5 arcsec from the series over a day.
/// </summary>
internal struct SunPath
{
    public const double NodeA = 0.9238795325112867;
    public const double NodeB = 0.38268343236508984;

    /// <summary>UTC days from the epoch at which the window begins.</summary>
    public double StartDays;

    /// <summary>Half the window [d].</summary>
    public double HalfDays;

    public double H0, H1, H2, H3;
    public double C0, C1, C2, C3;
    public double S0, S1, S2, S3;
    public double R0, R1;

    /// <summary>The path over a window of about a day, from the series at four instants of the day about its middle.</summary>
    [SkipLocalsInit]
    public static void Over(double startDays, double spanDays, double ut1MinusUtcS, double deltaTS, out SunPath path)
    {
        Span<double> q = stackalloc double[4], c = stackalloc double[4], s = stackalloc double[4], r = stackalloc double[4];
        double half = spanDays / 2;
        SunNodes.Day.Evaluate(startDays + half, ut1MinusUtcS, deltaTS, q, c, s, r);
        Fit(startDays, half, ut1MinusUtcS, q, c, s, r, out path);

        // The nodes lie in a day of 24 hours; a longer or shorter window stretches the variable.
        double k = spanDays, k2 = k * k, k3 = k2 * k;
        double turn = SunSeriesKernel.SiderealRadPerDay * half;
        path.H1 = turn - ((turn - path.H1) * k);
        path.H2 *= k2;
        path.H3 *= k3;
        path.C1 *= k;
        path.C2 *= k2;
        path.C3 *= k3;
        path.S1 *= k;
        path.S2 *= k2;
        path.S3 *= k3;
        path.R1 *= k;
    }

    public static void Fit(
        double startDays, double half, double ut1MinusUtcS, ReadOnlySpan<double> q, ReadOnlySpan<double> c, ReadOnlySpan<double> s, ReadOnlySpan<double> r, out SunPath path)
    {
        path.StartDays = startDays;
        path.HalfDays = half;
        Cubic(q, out double q0, out double q1, out double q2, out double q3);
        Cubic(c, out path.C0, out path.C1, out path.C2, out path.C3);
        Cubic(s, out path.S0, out path.S1, out path.S2, out path.S3);
        path.H0 = SunSeriesKernel.MeanSiderealRad(startDays + half + (ut1MinusUtcS / 86400)) - q0;
        path.H1 = (SunSeriesKernel.SiderealRadPerDay * half) - q1;
        path.H2 = -q2;
        path.H3 = -q3;
        path.R0 = 0.5 * (r[1] + r[2]);
        path.R1 = (r[1] - r[2]) / (2 * NodeB);
    }

    private static void Cubic(ReadOnlySpan<double> f, out double c0, out double c1, out double c2, out double c3)
    {
        const double a2 = NodeA * NodeA, b2 = NodeB * NodeB, inv = 1 / (a2 - b2);
        double ea = 0.5 * (f[0] + f[3]), eb = 0.5 * (f[1] + f[2]);
        double oa = (f[0] - f[3]) * (0.5 / NodeA), ob = (f[1] - f[2]) * (0.5 / NodeB);
        c2 = (ea - eb) * inv;
        c0 = eb - (c2 * b2);
        c3 = (oa - ob) * inv;
        c1 = ob - (c3 * b2);
    }

    /// <summary>Greenwich hour angle [rad], not reduced.</summary>
    public readonly double HourAngle(double u) => H0 + (u * (H1 + (u * (H2 + (u * H3)))));

    public readonly double HourAngleRate(double u) => H1 + (u * ((2 * H2) + (u * 3 * H3)));

    public readonly double CosDec(double u) => C0 + (u * (C1 + (u * (C2 + (u * C3)))));

    public readonly double SinDec(double u) => S0 + (u * (S1 + (u * (S2 + (u * S3)))));

    public readonly double CosDecRate(double u) => C1 + (u * ((2 * C2) + (u * 3 * C3)));

    public readonly double SinDecRate(double u) => S1 + (u * ((2 * S2) + (u * 3 * S3)));

    public readonly double DistanceAu(double u) => R0 + (u * R1);

    /// <summary>Place in the window of a UTC time: -1 at its start, 1 at its end.</summary>
    public readonly double U(double utcDays) => ((utcDays - StartDays) / HalfDays) - 1;

    /// <summary>Azimuth [rad, -pi to pi] and airless topocentric altitude [rad].</summary>
    public readonly void Topocentric(double u, in ObserverFrame observer, out double azimuthRad, out double altitudeRad)
        => observer.Topocentric(HourAngle(u) + observer.LonRad, SinDec(u), CosDec(u), DistanceAu(u), out azimuthRad, out altitudeRad);

    /// <summary>Sine of the airless topocentric altitude.</summary>
    public readonly double SinAltitude(double u, in ObserverFrame observer)
    {
        (double sinH, double cosH) = Math.SinCos(HourAngle(u) + observer.LonRad);
        double c = CosDec(u), r = DistanceAu(u);
        double x = (c * cosH) - (observer.RxAu / r);
        double y = (-c * sinH) + observer.Aberration;
        double z = SinDec(u) - (observer.RzAu / r);
        return ((x * observer.CosLat) + (z * observer.SinLat)) / Math.Sqrt((x * x) + (y * y) + (z * z));
    }
}
