namespace SoloRide.Internal;

/// <summary>
/// Lines on the WGS 84 ellipsoid. Short lines (under 20 km) by the Earth-centred chord with an arc correction, longer ones by
/// the auxiliary-sphere integrals with a bracketed azimuth, which cannot fail at the antipode. SI units; degrees where named.
/// </summary>
internal static class GeodesyKernel
{
    /// <summary>Up to here the chord formula is good to 30 nm.</summary>
    [Source("geodesy-chord-arc", "measured against reference geodesics")]
    public const double ShortLineM = 20_000;

    private const int Bisections = 60;
    private const double SmallestLength = 1e-300;

    // Nodes and weights of the 24-point Gauss-Legendre rule on [-1, 1], positive half.
    private static readonly (double[] Nodes, double[] Weights) Gauss = GaussLegendre(24);

    /// <summary>Earth-centred coordinates of a place on the ellipsoid, height 0.</summary>
    [Source("geodesy-chord-arc", "geodetic to Cartesian")]
    public static (double XM, double YM, double ZM) ToEcef(double latDeg, double lonDeg)
    {
        (double sinLat, double cosLat) = Math.SinCos(latDeg * Wgs84.RadPerDeg);
        (double sinLon, double cosLon) = Math.SinCos(lonDeg * Wgs84.RadPerDeg);
        double n = Wgs84.AM / Math.Sqrt(1 - (Wgs84.E2 * sinLat * sinLat));
        double p = n * cosLat;
        return (p * cosLon, p * sinLon, (1 - Wgs84.E2) * n * sinLat);
    }

    /// <summary>Back to latitude and longitude; for places within some kilometres of the ellipsoid.</summary>
    [Source("bowring-1976", "closed form for geodetic latitude")]
    public static (double LatDeg, double LonDeg) FromEcef(double xM, double yM, double zM)
    {
        double p = Math.Sqrt((xM * xM) + (yM * yM));
        double tanBeta = zM * Wgs84.AM / (p * Wgs84.BM);
        double lat = Math.CopySign(Math.PI / 2, zM);
        if (double.IsFinite(tanBeta))
        {
            double cosBeta = 1 / Math.Sqrt(1 + (tanBeta * tanBeta));
            double sinBeta = tanBeta * cosBeta;
            lat = Math.Atan2(
                zM + (Wgs84.Ep2 * Wgs84.BM * sinBeta * sinBeta * sinBeta),
                p - (Wgs84.E2 * Wgs84.AM * cosBeta * cosBeta * cosBeta));
        }

        return (lat / Wgs84.RadPerDeg, Math.Atan2(yM, xM) / Wgs84.RadPerDeg);
    }

    /// <summary>Length over the ellipsoid between two Earth-centred places on it, under 20 km apart.</summary>
    [Source("geodesy-chord-arc", "s = c (1 + u/24 + 3u^2/640), u the squared normal curvature times the squared chord")]
    public static double ChordArcM(double x1M, double y1M, double z1M, double x2M, double y2M, double z2M)
    {
        const double A2 = Wgs84.AM * Wgs84.AM, B2 = Wgs84.BM * Wgs84.BM;
        double dx = x2M - x1M, dy = y2M - y1M, dz = z2M - z1M;
        double mx = (x1M + x2M) / 2, my = (y1M + y2M) / 2, mz = (z1M + z2M) / 2;
        double d2 = (dx * dx) + (dy * dy), c2 = d2 + (dz * dz);
        if (c2 < SmallestLength)
        {
            return 0;
        }

        double q = (d2 / A2) + (dz * dz / B2);
        double g = (((mx * mx) + (my * my)) / (A2 * A2)) + (mz * mz / (B2 * B2));
        double u = q * q / (g * c2);
        return Math.Sqrt(c2) * (1 + (u / 24) + (3 * u * u / 640));
    }

    /// <summary>Length of the shortest line over the ellipsoid [m]; any two places, antipodes and poles included.</summary>
    public static double DistanceM(double lat1Deg, double lon1Deg, double lat2Deg, double lon2Deg)
    {
        (double x1, double y1, double z1) = ToEcef(lat1Deg, lon1Deg);
        (double x2, double y2, double z2) = ToEcef(lat2Deg, lon2Deg);
        double dx = x2 - x1, dy = y2 - y1, dz = z2 - z1;
        return (dx * dx) + (dy * dy) + (dz * dz) <= ShortLineM * ShortLineM
            ? ChordArcM(x1, y1, z1, x2, y2, z2)
            : InverseLong(lat1Deg, lon1Deg, lat2Deg, lon2Deg).DistanceM;
    }

    /// <summary>Length and the azimuths of travel at both ends (from north, clockwise, -180 to 180); 0 where a direction has no meaning.</summary>
    public static (double DistanceM, double Azimuth1Deg, double Azimuth2Deg) Inverse(double lat1Deg, double lon1Deg, double lat2Deg, double lon2Deg)
    {
        (double x1, double y1, double z1) = ToEcef(lat1Deg, lon1Deg);
        (double x2, double y2, double z2) = ToEcef(lat2Deg, lon2Deg);
        double dx = x2 - x1, dy = y2 - y1, dz = z2 - z1;
        if ((dx * dx) + (dy * dy) + (dz * dz) > ShortLineM * ShortLineM)
        {
            return InverseLong(lat1Deg, lon1Deg, lat2Deg, lon2Deg);
        }

        double s = ChordArcM(x1, y1, z1, x2, y2, z2);
        double back = AzimuthShortDeg(lat2Deg, lon2Deg, lat1Deg, lon1Deg);
        return (s, AzimuthShortDeg(lat1Deg, lon1Deg, lat2Deg, lon2Deg), back > 0 ? back - 180 : back + 180);
    }

    /// <summary>
    /// Azimuth at the first place of a line under 20 km, from differences formed without cancellation, with the step from
    /// the normal section to the geodesic.
    /// </summary>
    [Source("geodesy-chord-arc", "azimuth of the chord in the local horizon")]
    [Source("rapp-1991", "normal section minus geodesic azimuth, first terms")]
    public static double AzimuthShortDeg(double lat1Deg, double lon1Deg, double lat2Deg, double lon2Deg)
    {
        (double east, double north, double down) = LocalOffsetM(lat1Deg, lon1Deg, lat2Deg, lon2Deg);
        double horizontal2 = (east * east) + (north * north);
        if (horizontal2 == 0)
        {
            return 0;
        }

        double alpha = Math.Atan2(east, north);
        double phi1 = lat1Deg * Wgs84.RadPerDeg;
        (double sinPhi, double cosPhi) = Math.SinCos(phi1);
        double eta2 = Wgs84.Ep2 * cosPhi * cosPhi;
        double n = Wgs84.AM / Math.Sqrt(1 - (Wgs84.E2 * sinPhi * sinPhi));
        double sigma = Math.Sqrt(horizontal2 + (down * down)) / n;
        (double sinA, double cosA) = Math.SinCos(alpha);

        // eta^2 s^2 sin 2A / (12 N^2) and its next term in s^3.
        double normalMinusGeodesic = (eta2 / 6 * sigma * sigma * sinA * cosA) - (Wgs84.Ep2 * sinPhi * cosPhi / 24 * sigma * sigma * sigma * sinA);
        double azimuth = (alpha - normalMinusGeodesic) / Wgs84.RadPerDeg;
        return azimuth > 180 ? azimuth - 360 : azimuth < -180 ? azimuth + 360 : azimuth;
    }

    /// <summary>Offset of the second place in the horizon of the first: east, north, down [m].</summary>
    [Source("geodesy-chord-arc", "differences of Cartesian coordinates as products")]
    public static (double EastM, double NorthM, double DownM) LocalOffsetM(double lat1Deg, double lon1Deg, double lat2Deg, double lon2Deg)
    {
        double dLat = (lat2Deg - lat1Deg) * Wgs84.RadPerDeg;
        double dLon = Math.IEEERemainder(lon2Deg - lon1Deg, 360) * Wgs84.RadPerDeg;
        (double s1, double c1) = Math.SinCos(lat1Deg * Wgs84.RadPerDeg);
        (double s2, double c2) = Math.SinCos(lat2Deg * Wgs84.RadPerDeg);
        double sinSum = Math.Sin((lat1Deg + lat2Deg) * Wgs84.RadPerDeg), sinDif = Math.Sin(dLat);
        double sinHalf = Math.Sin(dLat / 2);
        (double sinMean, double cosMean) = Math.SinCos((lat1Deg + lat2Deg) / 2 * Wgs84.RadPerDeg);
        double w1 = Math.Sqrt(1 - (Wgs84.E2 * s1 * s1)), w2 = Math.Sqrt(1 - (Wgs84.E2 * s2 * s2));
        double n1 = Wgs84.AM / w1, n2 = Wgs84.AM / w2;

        // n2 - n1 = a (w1 - w2) / (w1 w2), w1^2 - w2^2 = e^2 sin(p2 + p1) sin(p2 - p1)
        double dn = Wgs84.AM * Wgs84.E2 * sinSum * sinDif / ((w1 + w2) * w1 * w2);
        double dCos = -2 * sinMean * sinHalf, dSin = 2 * cosMean * sinHalf;
        double halfLon = Math.Sin(dLon / 2);
        double p2 = n2 * c2;
        double dp = (dn * c2) + (n1 * dCos) - (2 * p2 * halfLon * halfLon);
        double dz = (1 - Wgs84.E2) * ((dn * s2) + (n1 * dSin));
        return (p2 * Math.Sin(dLon), (-s1 * dp) + (c1 * dz), -((c1 * dp) + (s1 * dz)));
    }

    /// <summary>Inverse problem for lines of any length; for lines under some metres the chord is finer.</summary>
    [Source("karney-2013", "auxiliary sphere, distance and longitude integrals; own arrangement with bisection and first-variation term")]
    public static (double DistanceM, double Azimuth1Deg, double Azimuth2Deg) InverseLong(double lat1Deg, double lon1Deg, double lat2Deg, double lon2Deg)
    {
        double dLonDeg = Math.IEEERemainder(lon2Deg - lon1Deg, 360);
        double lam = Math.Abs(dLonDeg) * Wgs84.RadPerDeg;
        double lonSign = dLonDeg < 0 ? -1 : 1;
        bool swap = Math.Abs(lat1Deg) < Math.Abs(lat2Deg);
        double phi1Deg = swap ? lat2Deg : lat1Deg, phi2Deg = swap ? lat1Deg : lat2Deg;
        double latSign = phi1Deg > 0 ? -1 : 1;
        phi1Deg *= latSign;
        phi2Deg *= latSign;

        double f1 = 1 - Wgs84.F;
        (double sinPhi1, double cosPhi1) = SinCosDeg(phi1Deg);
        (double sinPhi2, double cosPhi2) = SinCosDeg(phi2Deg);
        double h1 = Math.Sqrt((f1 * sinPhi1 * f1 * sinPhi1) + (cosPhi1 * cosPhi1)), h2 = Math.Sqrt((f1 * sinPhi2 * f1 * sinPhi2) + (cosPhi2 * cosPhi2));
        double sb1 = f1 * sinPhi1 / h1, cb1 = cosPhi1 / h1, sb2 = f1 * sinPhi2 / h2, cb2 = cosPhi2 / h2;

        double s, salp1, calp1, salp2, calp2;
        if (phi1Deg == 0 && phi2Deg == 0 && lam <= Math.PI * f1)
        {
            s = Wgs84.AM * lam;
            (salp1, calp1, salp2, calp2) = (1, 0, 1, 0);
        }
        else if (lam == 0 || phi1Deg == -90)
        {
            // Along a meridian, northward from the southern place; at the pole the azimuth carries the longitude.
            double alpha1 = phi1Deg == -90 ? lam : 0;
            s = MeridianM(Math.Atan2(sb1, cb1), Math.Atan2(sb2, cb2));
            (salp1, calp1) = Math.SinCos(alpha1);
            (salp2, calp2) = (0, 1);
            if (phi1Deg == -90)
            {
                // From the south pole the direction is that of the meridian of the second place.
                (salp1, calp1) = (Math.Sin(lam), Math.Cos(lam));
            }
        }
        else
        {
            double lo = 0, hi = Math.PI;
            Line line = default;
            for (int i = 0; i < Bisections; i++)
            {
                double mid = (lo + hi) / 2;
                line = OnSphere(mid, sb1, cb1, sb2, cb2);
                if (line.LambdaRad < lam)
                {
                    lo = mid;
                }
                else
                {
                    hi = mid;
                }
            }

            line = OnSphere((lo + hi) / 2, sb1, cb1, sb2, cb2);
            s = line.DistanceM + (Wgs84.AM * line.SinAlpha0 * (lam - line.LambdaRad));
            (salp1, calp1, salp2, calp2) = (line.SinAlpha1, line.CosAlpha1, line.SinAlpha2, line.CosAlpha2);
        }

        if (swap)
        {
            // The line is walked from the second place of the sphere to the first: both directions turn round, seen along +lambda.
            (salp1, salp2) = (salp2, salp1);
            (calp1, calp2) = (-calp2, -calp1);
        }

        calp1 *= latSign;
        calp2 *= latSign;
        salp1 *= lonSign;
        salp2 *= lonSign;
        return (s, Math.Atan2(salp1, calp1) / Wgs84.RadPerDeg, Math.Atan2(salp2, calp2) / Wgs84.RadPerDeg);
    }

    /// <summary>Direct problem: the place at a distance from a start in a direction.</summary>
    /// <returns>Latitude, longitude (-180 to 180) and the azimuth of travel there.</returns>
    [Source("karney-2013", "direct problem; arc length by Newton steps on the distance integral")]
    public static (double LatDeg, double LonDeg, double Azimuth2Deg) Direct(double latDeg, double lonDeg, double azimuthDeg, double distanceM)
    {
        double f1 = 1 - Wgs84.F;
        (double sinPhi, double cosPhi) = SinCosDeg(latDeg);
        double h = Math.Sqrt((f1 * sinPhi * f1 * sinPhi) + (cosPhi * cosPhi));
        double sb1 = f1 * sinPhi / h, cb1 = Math.Max(cosPhi / h, 1e-150);
        (double sa1, double ca1) = SinCosDeg(Math.IEEERemainder(azimuthDeg, 360));
        double sa0 = sa1 * cb1, ca0 = Math.Sqrt((ca1 * ca1) + (sa1 * sb1 * sa1 * sb1));
        double sigma1 = Math.Atan2(sb1, ca1 * cb1), omega1 = Math.Atan2(sa0 * sb1, ca1 * cb1);
        double k2 = Wgs84.Ep2 * ca0 * ca0;
        double sigma = distanceM / (Wgs84.BM * Math.Sqrt(1 + (k2 / 2)));
        for (int i = 0; i < 12; i++)
        {
            (double s, _) = Integrals(sigma1, sigma1 + sigma, k2);
            double t = Math.Sin(sigma1 + sigma);
            double step = ((distanceM / Wgs84.BM) - s) / Math.Sqrt(1 + (k2 * t * t));
            sigma += step;
            if (Math.Abs(step) < 1e-16 * Math.Max(1, Math.Abs(sigma)))
            {
                break;
            }
        }

        (_, double i3) = Integrals(sigma1, sigma1 + sigma, k2);
        (double ss2, double cs2) = Math.SinCos(sigma1 + sigma);
        double sb2 = ca0 * ss2, cb2 = Math.Sqrt((sa0 * sa0) + (ca0 * cs2 * ca0 * cs2));
        double omega2 = Math.Atan2(sa0 * ss2, cs2);

        // The longitude on the sphere follows the arc through whole turns.
        double east = sa0 < 0 ? -1 : 1;
        double omega12 = (omega2 - omega1) - (east * 2 * Math.PI * Math.Round(((omega2 - omega1) - (east * sigma)) / (east * 2 * Math.PI)));
        double lambda = omega12 - (Wgs84.F * sa0 * i3);
        double lat2 = Math.Atan2(sb2, f1 * cb2) / Wgs84.RadPerDeg;
        double lon2 = Math.IEEERemainder(lonDeg + (lambda / Wgs84.RadPerDeg), 360);
        return (Math.Clamp(lat2, -90, 90), lon2, Math.Atan2(sa0, ca0 * cs2) / Wgs84.RadPerDeg);
    }

    /// <summary>The place at a share of the way from one place to another (0 to 1), on the line between them.</summary>
    public static (double LatDeg, double LonDeg) Between(double lat1Deg, double lon1Deg, double lat2Deg, double lon2Deg, double fraction)
    {
        if (fraction <= 0)
        {
            return (lat1Deg, lon1Deg);
        }

        if (fraction >= 1)
        {
            return (lat2Deg, lon2Deg);
        }

        (double x1, double y1, double z1) = ToEcef(lat1Deg, lon1Deg);
        (double x2, double y2, double z2) = ToEcef(lat2Deg, lon2Deg);
        double dx = x2 - x1, dy = y2 - y1, dz = z2 - z1;
        if ((dx * dx) + (dy * dy) + (dz * dz) <= ShortLineM * ShortLineM)
        {
            (double lat, double lon) = FromEcef(x1 + (fraction * dx), y1 + (fraction * dy), z1 + (fraction * dz));
            return (Math.Clamp(lat, -90, 90), lon);
        }

        (double s, double azimuth, _) = InverseLong(lat1Deg, lon1Deg, lat2Deg, lon2Deg);
        (double la, double lo, _) = Direct(lat1Deg, lon1Deg, azimuth, s * fraction);
        return (la, lo);
    }

    /// <summary>Lengths of the legs of a line of places: legsM[i] from place i to i + 1; the steps share the work per place.</summary>
    public static void LegsM(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg, Span<double> legsM)
    {
        if (latDeg.Length < 2)
        {
            return;
        }

        (double x1, double y1, double z1) = ToEcef(latDeg[0], lonDeg[0]);
        for (int i = 1; i < latDeg.Length; i++)
        {
            (double x2, double y2, double z2) = ToEcef(latDeg[i], lonDeg[i]);
            double dx = x2 - x1, dy = y2 - y1, dz = z2 - z1;
            legsM[i - 1] = (dx * dx) + (dy * dy) + (dz * dz) <= ShortLineM * ShortLineM
                ? ChordArcM(x1, y1, z1, x2, y2, z2)
                : InverseLong(latDeg[i - 1], lonDeg[i - 1], latDeg[i], lonDeg[i]).DistanceM;
            (x1, y1, z1) = (x2, y2, z2);
        }
    }

    private static (double Sin, double Cos) SinCosDeg(double deg)
    {
        // Exact at the quarter turns.
        double r = Math.IEEERemainder(deg, 90);
        int quarter = (int)Math.Round((deg - r) / 90) & 3;
        (double s, double c) = Math.SinCos(r * Wgs84.RadPerDeg);
        return quarter switch { 0 => (s, c), 1 => (c, -s), 2 => (-s, -c), _ => (-c, s) };
    }

    private static double MeridianM(double beta1, double beta2)
        => Wgs84.BM * Integrals(beta1, beta2, Wgs84.Ep2).Distance;

    private static Line OnSphere(double alpha1, double sb1, double cb1, double sb2, double cb2)
    {
        (double sa1, double ca1) = Math.SinCos(alpha1);
        double sa0 = sa1 * cb1, ca0 = Math.Sqrt((ca1 * ca1) + (sa1 * sb1 * sa1 * sb1));
        double d = cb1 < -sb1 ? (cb2 - cb1) * (cb2 + cb1) : (sb1 - sb2) * (sb1 + sb2);
        double ca2cb2 = Math.Sqrt(Math.Max(0, (ca1 * cb1 * ca1 * cb1) + d));
        double sigma1 = Math.Atan2(sb1, ca1 * cb1), sigma2 = Math.Atan2(sb2, ca2cb2);
        double omega1 = Math.Atan2(sa0 * sb1, ca1 * cb1), omega2 = Math.Atan2(sa0 * sb2, ca2cb2);
        double sigma12 = Turn(sigma2 - sigma1), omega12 = Turn(omega2 - omega1);
        double k2 = Wgs84.Ep2 * ca0 * ca0;
        (double s, double i3) = Integrals(sigma1, sigma1 + sigma12, k2);
        double norm = Math.Sqrt((sa0 * sa0) + (ca2cb2 * ca2cb2));
        return new Line(Wgs84.BM * s, omega12 - (Wgs84.F * sa0 * i3), sa0, sa1, ca1, norm > 0 ? sa0 / norm : 0, norm > 0 ? ca2cb2 / norm : 1);
    }

    private static double Turn(double rad) => rad < 0 ? rad + (2 * Math.PI) : rad;

    private static (double Distance, double Longitude) Integrals(double from, double to, double k2)
    {
        double half = (to - from) / 2, mid = (to + from) / 2, f1 = 1 - Wgs84.F;
        double s = 0, l = 0;
        double[] nodes = Gauss.Nodes, weights = Gauss.Weights;
        for (int i = 0; i < nodes.Length; i++)
        {
            double t = Math.Sin(mid + (half * nodes[i]));
            double root = Math.Sqrt(1 + (k2 * t * t));
            s += weights[i] * root;
            l += weights[i] * (2 - Wgs84.F) / (1 + (f1 * root));
        }

        return (s * half, l * half);
    }

    [Source("abramowitz-stegun", "25.4.30, Gauss-Legendre nodes as roots of the Legendre polynomial")]
    private static (double[] Nodes, double[] Weights) GaussLegendre(int n)
    {
        var nodes = new double[n];
        var weights = new double[n];
        for (int i = 0; i < n; i++)
        {
            double x = Math.Cos(Math.PI * (i + 0.75) / (n + 0.5)), dp = 1;
            for (int iteration = 0; iteration < 50; iteration++)
            {
                double p0 = 1, p1 = x;
                for (int k = 2; k <= n; k++)
                {
                    (p0, p1) = (p1, (((2 * k) - 1) * x * p1 - ((k - 1) * p0)) / k);
                }

                dp = n * ((x * p1) - p0) / ((x * x) - 1);
                double step = p1 / dp;
                x -= step;
                if (Math.Abs(step) < 1e-16)
                {
                    break;
                }
            }

            nodes[i] = x;
            weights[i] = 2 / ((1 - (x * x)) * dp * dp);
        }

        return (nodes, weights);
    }

    private readonly record struct Line(
        double DistanceM, double LambdaRad, double SinAlpha0, double SinAlpha1, double CosAlpha1, double SinAlpha2, double CosAlpha2);
}
