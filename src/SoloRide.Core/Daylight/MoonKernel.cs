using System.Runtime.CompilerServices;
using System.Runtime.InteropServices;
using System.Runtime.Intrinsics;
using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>The Moon as an observer sees it, with its light.</summary>
/// <param name="AzimuthRad">From north, clockwise [rad, -pi to pi].</param>
/// <param name="AltitudeRad">Airless, topocentric [rad].</param>
/// <param name="DistanceGeoM">Astrometric distance from the Earth's centre [m].</param>
/// <param name="DistanceTopoM">Astrometric distance from the observer [m].</param>
/// <param name="PhaseAngleRad">Sun, Moon, observer [rad].</param>
/// <param name="ElongationRad">Sun, observer, Moon [rad].</param>
/// <param name="PhaseAngleGeoRad">Sun, Moon, Earth's centre [rad].</param>
/// <param name="ElongationGeoRad">Sun, Earth's centre, Moon [rad].</param>
internal readonly record struct MoonView(
    double AzimuthRad, double AltitudeRad, double DistanceGeoM, double DistanceTopoM, double PhaseAngleRad, double ElongationRad, double PhaseAngleGeoRad, double ElongationGeoRad);

/// <summary>The Moon by the series of Meeus (chapter 47); times are days from 2000-01-01 12 h.</summary>
internal static class MoonKernel
{
    private const double Deg = Math.PI / 180;
    private const double AuM = ObserverFrame.AuM;

    [Source("meeus-1998", "chapter 47: mean distance")]
    private const double MeanDistanceM = 385000560;

    /// <summary>Ratio of the Moon's radius to the Earth's equatorial radius.</summary>
    [Source("iau-1982-moon-radius", "k = 0.2725076")]
    public const double RadiusRatio = 0.2725076;

    private static readonly double[] LongitudeBlocks = Blocks(MoonTerms.LongitudeDistance, 6);
    private static readonly double[] LatitudeBlocks = Blocks(MoonTerms.Latitude, 5);

    /// <summary>Geocentric ecliptic place of mean equinox of date, without light-time.</summary>
    /// <param name="ttDays">[d] Terrestrial time.</param>
    /// <param name="lonRad">Receives the longitude [rad].</param>
    /// <param name="latRad">Receives the latitude [rad].</param>
    /// <param name="distanceM">Receives the distance [m].</param>
    [Source("meeus-1998", "chapter 47")]
    [Source("simon-1994", "mean longitude without light-time 218.31665436 deg")]
    [SkipLocalsInit]
    public static void Geometric(double ttDays, out double lonRad, out double latRad, out double distanceM)
    {
        double t = ttDays / SunSeriesKernel.DaysPerCentury;
        double lp = 218.31665436 + (t * (481267.88123421 + (t * (-0.0015786 + (t * ((1 / 538841.0) - (t / 65194000)))))));
        double d = 297.8501921 + (t * (445267.1114034 + (t * (-0.0018819 + (t * ((1 / 545868.0) - (t / 113065000)))))));
        double m = 357.5291092 + (t * (35999.0502909 + (t * (-0.0001536 + (t / 24490000)))));
        double mp = 134.9633964 + (t * (477198.8675055 + (t * (0.0087414 + (t * ((1 / 69699.0) - (t / 14712000)))))));
        double f = 93.2720950 + (t * (483202.0175233 + (t * (-0.0036539 + (t * ((-1 / 3526000.0) + (t / 863310000)))))));
        double a1 = 119.75 + (131.849 * t), a2 = 53.09 + (479264.290 * t), a3 = 313.45 + (481266.484 * t);
        double e = 1 - (t * (0.002516 + (0.0000074 * t)));

        Vector256<double> vd = Turns(d), vm = Turns(m), vmp = Turns(mp), vf = Turns(f), e1 = Vector256.Create(e), e2 = Vector256.Create(e * e);
        Vector256<double> lon = Vector256<double>.Zero, dist = Vector256<double>.Zero, lat = Vector256<double>.Zero;
        ref double p = ref MemoryMarshal.GetArrayDataReference(LongitudeBlocks);
        for (nuint i = 0; i < (nuint)LongitudeBlocks.Length; i += 40)
        {
            Vector256<double> arg = Argument(ref p, i, vd, vm, vmp, vf);
            Vector256<double> w = Weight(ref p, i, e1, e2);
            lon = TurnTrig.Fma(w * Vector256.LoadUnsafe(ref p, i + 16), TurnTrig.SinTurns(arg), lon);
            dist = TurnTrig.Fma(w * Vector256.LoadUnsafe(ref p, i + 20), TurnTrig.CosTurns(arg), dist);
        }

        p = ref MemoryMarshal.GetArrayDataReference(LatitudeBlocks);
        for (nuint i = 0; i < (nuint)LatitudeBlocks.Length; i += 40)
        {
            Vector256<double> arg = Argument(ref p, i, vd, vm, vmp, vf);
            lat = TurnTrig.Fma(Weight(ref p, i, e1, e2) * Vector256.LoadUnsafe(ref p, i + 16), TurnTrig.SinTurns(arg), lat);
        }

        // The additive terms, Venus, Jupiter and the flattening of the Earth [1e-6 deg].
        double sumL = Lanes(lon) + (3958 * Sin(a1)) + (1962 * Sin(lp - f)) + (318 * Sin(a2));
        double sumB = Lanes(lat) - (2235 * Sin(lp)) + (382 * Sin(a3)) + (175 * Sin(a1 - f)) + (175 * Sin(a1 + f)) + (127 * Sin(lp - mp)) - (115 * Sin(lp + mp));
        double turns = lp / 360;
        lonRad = ((turns - Math.Floor(turns)) * 2 * Math.PI) + (sumL * (1e-6 * Deg));
        latRad = sumB * (1e-6 * Deg);
        distanceM = MeanDistanceM + Lanes(dist);

        static Vector256<double> Turns(double deg)
        {
            double x = deg / 360;
            return Vector256.Create(x - Math.Floor(x));
        }

        static double Sin(double deg) => Math.Sin(Math.IEEERemainder(deg, 360) * Deg);
    }

    /// <summary>Everything of the Moon for one observer.</summary>
    /// <param name="utcDays">[d] UTC.</param>
    /// <param name="ut1MinusUtcS">[s] UT1 - UTC.</param>
    /// <param name="deltaTS">[s] TT - UT1.</param>
    /// <param name="observer">The observer.</param>
    /// <param name="view">Receives the view.</param>
    public static void Evaluate(double utcDays, double ut1MinusUtcS, double deltaTS, in ObserverFrame observer, out MoonView view)
    {
        double ut1 = utcDays + (ut1MinusUtcS / 86400), tt = ut1 + (deltaTS / 86400);
        SunSeriesKernel.Evaluate(tt, ut1, out SunState sun);
        Evaluate(tt, sun, observer, out view);
    }

    /// <inheritdoc cref="Evaluate(double, double, double, in ObserverFrame, out MoonView)"/>
    [Source("daylight-topocentric-step", "apparent place at t - r/c; astrometric vector u = r - |r| v/c")]
    public static void Evaluate(double ttDays, in SunState sun, in ObserverFrame observer, out MoonView view)
    {
        // The place at t - r/c from the Earth of that moment is the apparent place: light-time and annual aberration together.
        const double meanLightTimeDays = MeanDistanceM / ObserverFrame.LightMps / 86400;
        Geometric(ttDays - meanLightTimeDays, out double lon, out double lat, out double r);
        double gast = sun.Nu0 + sun.EquationOfEquinoxes;
        (double sinB, double cosB) = Math.SinCos(lat);
        (double sinEps, double cosEps) = Math.SinCos(sun.Eps);

        // Apparent, true equator and equinox [m].
        ToEquator(r, lon + sun.DeltaPsi, sinB, cosB, sinEps, cosEps, out double x, out double y, out double z);
        (double sinT, double cosT) = Math.SinCos(gast + observer.LonRad);

        // Into the observer's meridian: X to the meridian, Y east.
        double mx = (x * cosT) + (y * sinT), my = (y * cosT) - (x * sinT);
        double tx = mx - observer.EquatorialM, tz = z - observer.AxialM;
        double topo = Math.Sqrt((tx * tx) + (my * my) + (tz * tz));
        double ty = my + (topo * observer.Aberration);
        double up = (tx * observer.CosLat) + (tz * observer.SinLat), north = (tz * observer.CosLat) - (tx * observer.SinLat);
        double azimuth = Math.Atan2(ty, north), altitude = Math.Atan2(up, Math.Sqrt((ty * ty) + (north * north)));

        // Astrometric vectors in the ecliptic of date, nutation left out on both sides.
        (double sinSun, double cosSun) = Math.SinCos(sun.L);
        EarthVelocityOverLight(ttDays, sinSun, cosSun, out double vx, out double vy);
        (double sinLon, double cosLon) = Math.SinCos(lon);
        double ux = (r * cosB * cosLon) - (r * vx), uy = (r * cosB * sinLon) - (r * vy), uz = r * sinB;
        double sx = -sun.R * AuM * cosSun, sy = -sun.R * AuM * sinSun, sz = -sun.R * AuM * sun.B;
        Phase(ux, uy, uz, sx, sy, sz, out double geo, out double phaseGeo, out double elongationGeo);

        // The observer in the same frame: equatorial of date to ecliptic; nutation (20 arcsec of 6378 km) does not matter here.
        double ox = observer.EquatorialM * cosT, oy = observer.EquatorialM * sinT;
        double ey = (oy * cosEps) + (observer.AxialM * sinEps), ez = (observer.AxialM * cosEps) - (oy * sinEps);
        Phase(ux - ox, uy - ey, uz - ez, sx - ox, sy - ey, sz - ez, out double topoDistance, out double phase, out double elongation);
        view = new MoonView(azimuth, altitude, geo, topoDistance, phase, elongation, phaseGeo, elongationGeo);
    }

    /// <summary>Only altitude, hour angle and distance, for rise and set.</summary>
    public static void Horizontal(
        double utcDays, double ut1MinusUtcS, double deltaTS, in ObserverFrame observer, out double altitudeRad, out double hourAngleRad, out double distanceM)
    {
        double ut1 = utcDays + (ut1MinusUtcS / 86400), tt = ut1 + (deltaTS / 86400);
        SunSeriesKernel.Nutation(tt / SunSeriesKernel.DaysPerCentury, out double deltaPsi, out double deltaEps);
        double eps = (SunSeriesKernel.MeanObliquityArcsec(tt / SunSeriesKernel.DaysPerMillennium) / 3600 * Deg) + deltaEps;
        (double sinEps, double cosEps) = Math.SinCos(eps);
        Geometric(tt - (MeanDistanceM / ObserverFrame.LightMps / 86400), out double lon, out double lat, out double r);
        (double sinB, double cosB) = Math.SinCos(lat);
        ToEquator(r, lon + deltaPsi, sinB, cosB, sinEps, cosEps, out double x, out double y, out double z);
        (double sinT, double cosT) = Math.SinCos(SunSeriesKernel.MeanSiderealRad(ut1) + (deltaPsi * cosEps) + observer.LonRad);
        double mx = (x * cosT) + (y * sinT) - observer.EquatorialM, my = (y * cosT) - (x * sinT), mz = z - observer.AxialM;
        distanceM = Math.Sqrt((mx * mx) + (my * my) + (mz * mz));
        my += distanceM * observer.Aberration;
        double up = (mx * observer.CosLat) + (mz * observer.SinLat), north = (mz * observer.CosLat) - (mx * observer.SinLat);
        altitudeRad = Math.Atan2(up, Math.Sqrt((my * my) + (north * north)));
        hourAngleRad = Math.Atan2(-my, mx);
    }

    /// <summary>Apparent geocentric right ascension and declination [rad], for checks.</summary>
    public static void Apparent(double ttDays, in SunState sun, out double raRad, out double decRad, out double lonRad, out double latRad)
    {
        Geometric(ttDays - (MeanDistanceM / ObserverFrame.LightMps / 86400), out double lon, out latRad, out double r);
        lonRad = lon + sun.DeltaPsi;
        (double sinB, double cosB) = Math.SinCos(latRad);
        (double sinEps, double cosEps) = Math.SinCos(sun.Eps);
        ToEquator(r, lonRad, sinB, cosB, sinEps, cosEps, out double x, out double y, out double z);
        raRad = Math.Atan2(y, x);
        decRad = Math.Asin(z / r);
    }

    /// <summary>Moon's longitude less the Sun's, both apparent [rad, -pi to pi].</summary>
    public static double ElongationInLongitude(double ttDays)
    {
        SunSeriesKernel.Evaluate(ttDays, ttDays, out SunState sun);
        Geometric(ttDays - (MeanDistanceM / ObserverFrame.LightMps / 86400), out double lon, out _, out _);
        return Math.IEEERemainder(lon + sun.DeltaPsi - sun.Lambda, 2 * Math.PI);
    }

    /// <summary>Days since the last new Moon.</summary>
    /// <param name="ttDays">[d] Terrestrial time.</param>
    [Source("meeus-1998", "mean synodic month 29.530588861 d")]
    public static double AgeDays(double ttDays)
    {
        const double rate = 2 * Math.PI / 29.530588861;
        double now = ElongationInLongitude(ttDays);
        double back = (now < 0 ? now + (2 * Math.PI) : now) / rate;
        double at = ttDays - back;
        for (int i = 0; i < 12; i++)
        {
            double step = ElongationInLongitude(at) / rate;
            at -= step;
            if (Math.Abs(step) < 1e-5)
            {
                break;
            }
        }

        // Close to new Moon the nearest one may lie ahead.
        return at > ttDays ? ttDays - at + 29.530588861 : ttDays - at;
    }

    private static void Phase(double mx, double my, double mz, double sx, double sy, double sz, out double distance, out double phase, out double elongation)
    {
        distance = Math.Sqrt((mx * mx) + (my * my) + (mz * mz));
        double sun = Math.Sqrt((sx * sx) + (sy * sy) + (sz * sz));
        double dot = (mx * sx) + (my * sy) + (mz * sz);
        double cx = (my * sz) - (mz * sy), cy = (mz * sx) - (mx * sz), cz = (mx * sy) - (my * sx);
        double cross = Math.Sqrt((cx * cx) + (cy * cy) + (cz * cz));
        elongation = Math.Atan2(cross, dot);
        phase = Math.Atan2(sun * Math.Sin(elongation), distance - (sun * Math.Cos(elongation)));
    }

    private static void ToEquator(double r, double lon, double sinB, double cosB, double sinEps, double cosEps, out double x, out double y, out double z)
    {
        (double sinL, double cosL) = Math.SinCos(lon);
        x = r * cosB * cosL;
        y = r * ((cosB * sinL * cosEps) - (sinB * sinEps));
        z = r * ((cosB * sinL * sinEps) + (sinB * cosEps));
    }

    /// <summary>Earth's velocity over that of light in the ecliptic of date, from the elliptic orbit.</summary>
    [Source("meeus-1998", "constant of aberration 20.49552 arcsec; eccentricity and perihelion of the Earth's orbit, chapter 23")]
    private static void EarthVelocityOverLight(double ttDays, double sinL, double cosL, out double vx, out double vy)
    {
        double t = ttDays / SunSeriesKernel.DaysPerCentury;
        const double kappa = 20.49552 / 3600 * Deg;
        double e = 0.016708634 - (t * 0.000042037);
        (double sinP, double cosP) = Math.SinCos((102.93735 + (1.71946 * t)) * Deg);
        vx = kappa * (-sinL - (e * sinP));
        vy = kappa * (cosL + (e * cosP));
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Argument(ref double p, nuint i, Vector256<double> d, Vector256<double> m, Vector256<double> mp, Vector256<double> f)
    {
        Vector256<double> arg = Vector256.LoadUnsafe(ref p, i) * d;
        arg = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 4), m, arg);
        arg = TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 8), mp, arg);
        return TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 12), f, arg);
    }

    // 1, E or E squared by the multiple of the Sun's anomaly.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Weight(ref double p, nuint i, Vector256<double> e1, Vector256<double> e2)
        => TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 32), e2, TurnTrig.Fma(Vector256.LoadUnsafe(ref p, i + 28), e1, Vector256.LoadUnsafe(ref p, i + 24)));

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Lanes(Vector256<double> v) => (v[0] + v[2]) + (v[1] + v[3]);

    /// <summary>Blocks of four terms: four multiples, two coefficients, three weights.</summary>
    private static double[] Blocks(ReadOnlySpan<double> printed, int width)
    {
        int terms = printed.Length / width;
        var packed = new double[(terms + 3) / 4 * 40];
        for (int i = 0; i < terms; i++)
        {
            int at = (i / 4 * 40) + (i % 4);
            for (int j = 0; j < width; j++)
            {
                packed[at + (4 * j)] = printed[(width * i) + j];
            }

            packed[at + 24 + (4 * Math.Min(2, (int)Math.Abs(printed[(width * i) + 1])))] = 1;
        }

        return packed;
    }
}
