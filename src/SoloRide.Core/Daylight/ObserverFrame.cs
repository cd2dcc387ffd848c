using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>An observer on the WGS 84 ellipsoid: what turns geocentric directions into topocentric ones.</summary>
internal readonly struct ObserverFrame
{
    [Source("wgs84", "semi-major axis")]
    public const double EquatorM = 6378137;

    [Source("wgs84", "flattening")]
    public const double Flattening = 1 / 298.257223563;

    [Source("iau-2012-b2", "astronomical unit")]
    public const double AuM = 149597870700;

    [Source("wgs84", "angular velocity of the Earth")]
    public const double OmegaRadPerS = 7.292115e-5;

    [Source("si-speed-of-light", "exact")]
    public const double LightMps = 299792458;

    [Source("daylight-topocentric-step", "observer's vector")]
    public ObserverFrame(double latDeg, double lonDeg, double heightM)
    {
        (SinLat, CosLat) = Math.SinCos(latDeg * (Math.PI / 180));
        LonRad = lonDeg * (Math.PI / 180);
        const double e2 = Flattening * (2 - Flattening);
        double n = EquatorM / Math.Sqrt(1 - (e2 * SinLat * SinLat));
        EquatorialM = (n + heightM) * CosLat;
        AxialM = ((n * (1 - e2)) + heightM) * SinLat;
        RxAu = EquatorialM / AuM;
        RzAu = AxialM / AuM;
        Aberration = EquatorialM * (OmegaRadPerS / LightMps);
    }

    public double SinLat { get; }

    public double CosLat { get; }

    public double LonRad { get; }

    /// <summary>Distance from the Earth's axis [m].</summary>
    public double EquatorialM { get; }

    /// <summary>Distance from the equator's plane [m].</summary>
    public double AxialM { get; }

    public double RxAu { get; }

    public double RzAu { get; }

    /// <summary>Eastward speed of the observer over that of light.</summary>
    public double Aberration { get; }

    /// <summary>Azimuth from north, clockwise [rad, -pi to pi], and airless altitude [rad] from apparent geocentric values.</summary>
    /// <param name="hourAngleRad">Hour angle at the observer [rad], west positive.</param>
    /// <param name="sinDec">Sine of the declination.</param>
    /// <param name="cosDec">Cosine of the declination.</param>
    /// <param name="distanceAu">Distance [au].</param>
    /// <param name="azimuthRad">Receives the azimuth.</param>
    /// <param name="altitudeRad">Receives the altitude.</param>
    public void Topocentric(double hourAngleRad, double sinDec, double cosDec, double distanceAu, out double azimuthRad, out double altitudeRad)
    {
        (double sinH, double cosH) = Math.SinCos(hourAngleRad);
        FromMeridian(cosDec * cosH, -cosDec * sinH, sinDec, distanceAu, out azimuthRad, out altitudeRad);
    }

    /// <summary>The same from a geocentric direction turned to the observer's meridian.</summary>
    /// <param name="toMeridian">Part of the direction in the equator, toward the observer's meridian.</param>
    /// <param name="east">Part in the equator, toward the east.</param>
    /// <param name="sinDec">Sine of the declination.</param>
    /// <param name="distanceAu">Distance [au].</param>
    /// <param name="azimuthRad">Receives the azimuth.</param>
    /// <param name="altitudeRad">Receives the altitude.</param>
    [Source("daylight-topocentric-step", "parallax and diurnal aberration")]
    public void FromMeridian(double toMeridian, double east, double sinDec, double distanceAu, out double azimuthRad, out double altitudeRad)
    {
        double x = (distanceAu * toMeridian) - RxAu;
        double y = distanceAu * (east + Aberration);
        double z = (distanceAu * sinDec) - RzAu;
        double up = (x * CosLat) + (z * SinLat);
        double north = (z * CosLat) - (x * SinLat);
        azimuthRad = Math.Atan2(y, north);
        altitudeRad = Math.Atan2(up, Math.Sqrt((y * y) + (north * north)));
    }
}
