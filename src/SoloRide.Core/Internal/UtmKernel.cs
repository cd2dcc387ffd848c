using System.Runtime.CompilerServices;

namespace SoloRide.Internal;

/// <summary>
/// Universal Transverse Mercator, Universal Polar Stereographic and the letters of the military grid, on WGS 84.
/// Pure and free of allocation. Latitudes north positive, longitudes east positive, all in degrees.
/// </summary>
internal static class UtmKernel
{
    [Source("wgs84", "semi-major axis")]
    public const double SemiMajorM = 6378137;

    [Source("wgs84", "flattening")]
    public const double Flattening = 1 / 298.257223563;

    [Source("nga-utm", "scale on the central meridian")]
    public const double UtmScale = 0.9996;

    [Source("nga-utm", "scale at the pole")]
    public const double UpsScale = 0.994;

    public const double FalseEastingM = 500_000;
    public const double FalseNorthingSouthM = 10_000_000;
    public const double UpsFalseOriginM = 2_000_000;

    /// <summary>From this latitude on (inclusive) the grid is transverse Mercator.</summary>
    public const double UtmSouthDeg = -80;

    /// <summary>From this latitude on (inclusive) the grid is polar.</summary>
    public const double UtmNorthDeg = 84;

    public const double SquareM = 100_000;

    private const double N = Flattening / (2 - Flattening);
    private const double N2 = N * N;
    private const double N3 = N2 * N;
    private const double N4 = N2 * N2;
    private const double N5 = N4 * N;
    private const double N6 = N3 * N3;
    private const double E2 = Flattening * (2 - Flattening);
    private const double RowCycleM = 2_000_000;
    private const double RadPerDeg = Math.PI / 180;

    [Source("karney-2011", "eq. 14")]
    private const double RectifyingRadiusM = SemiMajorM / (1 + N) * (1 + (N2 / 4) + (N4 / 64) + (N6 / 256));

    // Forward series.
    [Source("karney-2011", "eq. 35")]
    private const double A1 = (N / 2) - (2 * N2 / 3) + (5 * N3 / 16) + (41 * N4 / 180) - (127 * N5 / 288) + (7891 * N6 / 37800);

    private const double A2 = (13 * N2 / 48) - (3 * N3 / 5) + (557 * N4 / 1440) + (281 * N5 / 630) - (1983433 * N6 / 1935360);
    private const double A3 = (61 * N3 / 240) - (103 * N4 / 140) + (15061 * N5 / 26880) + (167603 * N6 / 181440);
    private const double A4 = (49561 * N4 / 161280) - (179 * N5 / 168) + (6601661 * N6 / 7257600);
    private const double A5 = (34729 * N5 / 80640) - (3418889 * N6 / 1995840);
    private const double A6 = 212378941 * N6 / 319334400;

    // Inverse series.
    [Source("karney-2011", "eq. 36")]
    private const double B1 = (N / 2) - (2 * N2 / 3) + (37 * N3 / 96) - (N4 / 360) - (81 * N5 / 512) + (96199 * N6 / 604800);

    private const double B2 = (N2 / 48) + (N3 / 15) - (437 * N4 / 1440) + (46 * N5 / 105) - (1118711 * N6 / 3870720);
    private const double B3 = (17 * N3 / 480) - (37 * N4 / 840) - (209 * N5 / 4480) + (5569 * N6 / 90720);
    private const double B4 = (4397 * N4 / 161280) - (11 * N5 / 504) - (830251 * N6 / 7257600);
    private const double B5 = (4583 * N5 / 161280) - (108847 * N6 / 3991680);
    private const double B6 = 20648693 * N6 / 638668800;

    private static readonly double E = Math.Sqrt(E2);

    // 2 k0 a / sqrt((1+e)^(1+e) (1-e)^(1-e))
    private static readonly double UpsRadiusM = 2 * UpsScale * SemiMajorM / Math.Sqrt(Math.Pow(1 + E, 1 + E) * Math.Pow(1 - E, 1 - E));

    [Source("nga-mgrs", "letters of the hundred-kilometre squares")]
    private const string Columns = "ABCDEFGHJKLMNPQRSTUVWXYZ";

    private const string Rows = "ABCDEFGHJKLMNPQRSTUV";
    private const string Bands = "CDEFGHJKLMNPQRSTUVWX";
    private const string PolarRows = "ABCDEFGHJKLMNPQRSTUVWXYZ";
    private const string PolarWestSouth = "JKLPQRSTUXYZ";
    private const string PolarWestNorth = "RSTUXYZ";
    private const string PolarEastSouth = "ABCFGHJKLPQR";
    private const string PolarEastNorth = "ABCFGHJ";
    private const double PolarSouthOriginM = 800_000;
    private const double PolarNorthOriginM = 1_300_000;

    // In this order: each needs those before it.
    private static readonly double[] BandMiddleM = BandMiddles();
    private static readonly int[] FirstRow = BandRows(first: true);
    private static readonly int[] LastRow = BandRows(first: false);

    /// <summary>Zone 1 to 60 with the Norwegian and Svalbard exceptions, or 0 where the grid is polar.</summary>
    [Source("nga-utm", "zones and their exceptions")]
    public static int Zone(double latDeg, double lonDeg)
    {
        if (!(latDeg >= UtmSouthDeg && latDeg < UtmNorthDeg))
        {
            return 0;
        }

        int lon = (int)Math.Floor(Wrap(lonDeg));
        int zone = ((lon + 180) / 6) + 1;
        int band = BandIndex(latDeg);
        if (band == 17 && zone == 31 && lon >= 3)
        {
            return 32;
        }

        return band == 19 && lon >= 0 && lon < 42 ? (2 * ((lon + 183) / 12)) + 1 : zone;
    }

    public static double CentralMeridianDeg(int zone) => (6.0 * zone) - 183;

    /// <summary>Band letter C to X; A, B, Y, Z at the poles.</summary>
    public static char Band(double latDeg, double lonDeg)
        => latDeg < UtmSouthDeg ? (Wrap(lonDeg) < 0 ? 'A' : 'B')
            : latDeg >= UtmNorthDeg ? (Wrap(lonDeg) < 0 ? 'Y' : 'Z')
            : Bands[BandIndex(latDeg)];

    /// <summary>Transverse Mercator, false origin included. Good to nanometres within 35 degrees of the meridian.</summary>
    public static void UtmForward(double latDeg, double lonDeg, int zone, bool north, out double eastingM, out double northingM)
    {
        (double sinLat, double cosLat) = SinCosDeg(latDeg);
        (double sinLon, double cosLon) = SinCosDeg(Wrap(lonDeg - CentralMeridianDeg(zone)));
        double tauP = ConformalTangent(sinLat, cosLat);
        double h2 = (tauP * tauP) + (cosLon * cosLon);
        double h = Math.Sqrt(h2);
        double sinhEta = sinLon / h;
        double coshEta = Math.Sqrt(1 + (sinhEta * sinhEta));
        double xiP = Math.Atan2(tauP, cosLon);
        double etaP = Math.Asinh(sinhEta);
        double sin2Xi = 2 * tauP * cosLon / h2;
        double cos2Xi = ((cosLon * cosLon) - (tauP * tauP)) / h2;
        double sinh2Eta = 2 * sinhEta * coshEta;
        double cosh2Eta = 1 + (2 * sinhEta * sinhEta);
        SineSum(A1, A2, A3, A4, A5, A6, sin2Xi, cos2Xi, sinh2Eta, cosh2Eta, out double dXi, out double dEta);
        eastingM = FalseEastingM + (UtmScale * RectifyingRadiusM * (etaP + dEta));
        northingM = (UtmScale * RectifyingRadiusM * (xiP + dXi)) + (north ? 0 : FalseNorthingSouthM);
    }

    /// <summary>The place of a transverse Mercator coordinate with its false origin.</summary>
    public static void UtmInverse(double eastingM, double northingM, int zone, bool north, out double latDeg, out double lonDeg)
    {
        double xi = (northingM - (north ? 0 : FalseNorthingSouthM)) / (UtmScale * RectifyingRadiusM);
        double eta = (eastingM - FalseEastingM) / (UtmScale * RectifyingRadiusM);
        (double sin2Xi, double cos2Xi) = Math.SinCos(2 * xi);
        double sinh2Eta = Sinh(2 * eta);
        double cosh2Eta = Math.Sqrt(1 + (sinh2Eta * sinh2Eta));
        SineSum(B1, B2, B3, B4, B5, B6, sin2Xi, cos2Xi, sinh2Eta, cosh2Eta, out double dXi, out double dEta);
        (double sinXiP, double cosXiP) = Math.SinCos(xi - dXi);
        double sinhEtaP = Sinh(eta - dEta);
        double tauP = sinXiP / Math.Sqrt((sinhEtaP * sinhEtaP) + (cosXiP * cosXiP));
        latDeg = Math.Atan(GeodeticTangent(tauP)) / RadPerDeg;
        lonDeg = Wrap((Math.Atan2(sinhEtaP, cosXiP) / RadPerDeg) + CentralMeridianDeg(zone));
    }

    /// <summary>Convergence (bearing of grid north, clockwise from true north) and point scale of transverse Mercator.</summary>
    [Source("karney-2011", "eqs 23 to 26")]
    public static void UtmConvergence(double latDeg, double lonDeg, int zone, out double convergenceDeg, out double scale)
    {
        (double sinLat, double cosLat) = SinCosDeg(latDeg);
        (double sinLon, double cosLon) = SinCosDeg(Wrap(lonDeg - CentralMeridianDeg(zone)));
        double tauP = ConformalTangent(sinLat, cosLat);
        double h2 = (tauP * tauP) + (cosLon * cosLon);
        double sinhEta = sinLon / Math.Sqrt(h2);
        double coshEta = Math.Sqrt(1 + (sinhEta * sinhEta));
        CosineSum(
            2 * A1, 4 * A2, 6 * A3, 8 * A4, 10 * A5, 12 * A6,
            2 * tauP * cosLon / h2, ((cosLon * cosLon) - (tauP * tauP)) / h2, 2 * sinhEta * coshEta, 1 + (2 * sinhEta * sinhEta),
            out double re, out double im);
        double p = 1 + re, q = -im;
        convergenceDeg = (Math.Atan2(tauP * sinLon, cosLon * Math.Sqrt(1 + (tauP * tauP))) + Math.Atan2(q, p)) / RadPerDeg;
        scale = UtmScale * RectifyingRadiusM / SemiMajorM
            * Math.Sqrt(1 - (E2 * sinLat * sinLat)) / (cosLat * Math.Sqrt(h2)) * Math.Sqrt((p * p) + (q * q));
    }

    /// <summary>Polar stereographic, false origin included.</summary>
    [Source("nga-utm", "polar stereographic")]
    public static void UpsForward(double latDeg, double lonDeg, bool north, out double eastingM, out double northingM)
    {
        (double sinLon, double cosLon) = SinCosDeg(Wrap(lonDeg));
        double rho = PolarRadius(north ? latDeg : -latDeg);
        eastingM = UpsFalseOriginM + (rho * sinLon);
        northingM = UpsFalseOriginM + (north ? -rho * cosLon : rho * cosLon);
    }

    public static void UpsInverse(double eastingM, double northingM, bool north, out double latDeg, out double lonDeg)
    {
        double x = eastingM - UpsFalseOriginM;
        double y = northingM - UpsFalseOriginM;
        double rho = Math.Sqrt((x * x) + (y * y));
        if (rho == 0)
        {
            latDeg = north ? 90 : -90;
            lonDeg = 0;
            return;
        }

        double t = rho / UpsRadiusM;
        double lat = Math.Atan(GeodeticTangent((1 - (t * t)) / (2 * t))) / RadPerDeg;
        latDeg = north ? lat : -lat;
        lonDeg = Math.Atan2(x, north ? -y : y) / RadPerDeg;
    }

    public static void UpsConvergence(double latDeg, double lonDeg, bool north, out double convergenceDeg, out double scale)
    {
        double lon = Wrap(lonDeg);
        convergenceDeg = north ? lon : -lon;
        (double sinLat, double cosLat) = SinCosDeg(Math.Abs(latDeg));
        scale = cosLat <= 0
            ? UpsScale
            : PolarRadius(north ? latDeg : -latDeg) / SemiMajorM * Math.Sqrt(1 - (E2 * sinLat * sinLat)) / cosLat;
    }

    /// <summary>The square's letters of a coordinate: column and row.</summary>
    public static void SquareLetters(int zone, bool north, double eastingM, double northingM, out char column, out char row)
    {
        int e = (int)Math.Floor(eastingM / SquareM);
        int n = (int)Math.Floor(northingM / SquareM);
        if (zone != 0)
        {
            column = Columns[(8 * ((zone - 1) % 3)) + e - 1];
            row = Rows[(n + ((zone & 1) == 0 ? 5 : 0)) % 20];
            return;
        }

        bool east = eastingM >= UpsFalseOriginM;
        int origin = (int)((north ? PolarNorthOriginM : PolarSouthOriginM) / SquareM);
        string columns = (north, east) switch
        {
            (true, true) => PolarEastNorth,
            (true, false) => PolarWestNorth,
            (false, true) => PolarEastSouth,
            _ => PolarWestSouth,
        };
        column = columns[e - (east ? (int)(UpsFalseOriginM / SquareM) : origin)];
        row = PolarRows[n - origin];
    }

    /// <summary>South-west corner of a hundred-kilometre square; false when the letters name no square.</summary>
    public static bool TrySquareOrigin(int zone, char band, char column, char row, out bool north, out double eastingM, out double northingM)
    {
        eastingM = northingM = 0;
        north = false;
        if (zone == 0)
        {
            bool east = band is 'B' or 'Z';
            north = band is 'Y' or 'Z';
            if (!east && band is not ('A' or 'Y'))
            {
                return false;
            }

            double origin = north ? PolarNorthOriginM : PolarSouthOriginM;
            string columns = (north, east) switch
            {
                (true, true) => PolarEastNorth,
                (true, false) => PolarWestNorth,
                (false, true) => PolarEastSouth,
                _ => PolarWestSouth,
            };
            int c = columns.IndexOf(column), r = PolarRows.IndexOf(row);
            if (c < 0 || r < 0 || (north && r >= 14))
            {
                return false;
            }

            eastingM = (east ? UpsFalseOriginM : origin) + (c * SquareM);
            northingM = origin + (r * SquareM);
            return true;
        }

        int b = Bands.IndexOf(band), col = Columns.IndexOf(column), ro = Rows.IndexOf(row);
        if (zone is < 1 or > 60 || b < 0 || col < 0 || ro < 0 || col / 8 != (zone - 1) % 3)
        {
            return false;
        }

        north = b >= 10;
        eastingM = ((col % 8) + 1) * SquareM;
        double low = ((ro + ((zone & 1) == 0 ? 15 : 0)) % 20) * SquareM;

        // A band is 8 (or 12) degrees high, the row letters repeat after 2 000 km: the repeat nearest the band's middle is meant.
        northingM = low + (Math.Round((BandMiddleM[b] - (SquareM / 2) - low) / RowCycleM) * RowCycleM);
        int square = (b * 8) + (col % 8), n = (int)(northingM / SquareM);
        return n >= FirstRow[square] && n <= LastRow[square];
    }

    // Northing of the middle of each band, and the rows of squares that touch it in each of the eight columns. The same in every zone.
    private static double[] BandMiddles()
    {
        var middles = new double[Bands.Length];
        for (int b = 0; b < middles.Length; b++)
        {
            UtmForward((BandSouthDeg(b) + BandNorthDeg(b)) / 2, CentralMeridianDeg(1), 1, b >= 10, out _, out middles[b]);
        }

        return middles;
    }

    private static int[] BandRows(bool first)
    {
        var rows = new int[Bands.Length * 8];
        for (int b = 0; b < Bands.Length; b++)
        {
            for (int col = 0; col < 8; col++)
            {
                // Columns mirror each other about the central meridian.
                int at = (b * 8) + col;
                if (col >= 4)
                {
                    rows[at] = rows[(b * 8) + 7 - col];
                    continue;
                }

                int row = (int)(BandMiddleM[b] / SquareM);
                int step = first ? -1 : 1;
                while (Touches(b, col, row + step))
                {
                    row += step;
                }

                rows[at] = row;
            }
        }

        return rows;
    }

    private static bool Touches(int band, int col, int row)
    {
        bool north = band >= 10;
        if (row < 0 || (!north && row >= (int)(FalseNorthingSouthM / SquareM)))
        {
            return false;
        }

        double lowest = double.PositiveInfinity, highest = double.NegativeInfinity;
        for (int i = 0; i < 4; i++)
        {
            UtmInverse((col + 1 + (i & 1)) * SquareM, (row + (i >> 1)) * SquareM, 1, north, out double lat, out _);
            lowest = Math.Min(lowest, lat);
            highest = Math.Max(highest, lat);
        }

        return highest > BandSouthDeg(band) && lowest < BandNorthDeg(band);
    }

    private static double BandSouthDeg(int band) => (8.0 * band) - 80;

    private static double BandNorthDeg(int band) => band == 19 ? UtmNorthDeg : BandSouthDeg(band) + 8;

    /// <summary>Longitude in [-180, 180).</summary>
    public static double Wrap(double lonDeg)
    {
        if (lonDeg >= -180 && lonDeg < 180)
        {
            return lonDeg;
        }

        double w = Math.IEEERemainder(lonDeg, 360);
        return w >= 180 ? w - 360 : w;
    }

    private static int BandIndex(double latDeg) => Math.Min(19, (int)Math.Floor(latDeg / 8) + 10);

    private static double PolarRadius(double latDeg)
    {
        (double sin, double cos) = SinCosDeg(latDeg);
        if (cos <= 0)
        {
            return 0;
        }

        double tauP = ConformalTangent(sin, cos);
        double root = Math.Sqrt(1 + (tauP * tauP));
        return tauP >= 0 ? UpsRadiusM / (tauP + root) : UpsRadiusM * (root - tauP);
    }

    /// <summary>Tangent of the conformal latitude. The two series stop below 1e-16, since e sin(lat) is at most 0.082.</summary>
    [Source("karney-2011", "eqs 7 to 9")]
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double ConformalTangent(double sinLat, double cosLat)
    {
        double tau = sinLat / cosLat;
        double sigma = Sigma(sinLat);
        return (tau * Math.Sqrt(1 + (sigma * sigma))) - (sigma / cosLat);
    }

    // sinh(e atanh(e sin))
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Sigma(double sinLat)
    {
        double u = E * sinLat;
        double u2 = u * u;
        double series = (1.0 / 7) + (u2 * ((1.0 / 9) + (u2 * ((1.0 / 11) + (u2 / 13)))));
        double w = E * u * (1 + (u2 * ((1.0 / 3) + (u2 * ((1.0 / 5) + (u2 * series))))));
        double w2 = w * w;
        return w * (1 + (w2 / 6 * (1 + (w2 / 20))));
    }

    /// <summary>Tangent of the geodetic latitude from that of the conformal one, by Newton's method.</summary>
    [Source("karney-2011", "eqs 19 to 21")]
    private static double GeodeticTangent(double tauP)
    {
        double tau = Math.Abs(tauP) > 70 ? tauP * Math.Exp(E * Math.Atanh(E)) : tauP / (1 - E2);
        if (!double.IsFinite(tau) || Math.Abs(tau) > 1e12)
        {
            return tau;
        }

        for (int i = 0; i < 5; i++)
        {
            double sec = Math.Sqrt(1 + (tau * tau));
            double sigma = Sigma(tau / sec);
            double tauPi = (tau * Math.Sqrt(1 + (sigma * sigma))) - (sigma * sec);
            double step = (tauP - tauPi) / Math.Sqrt(1 + (tauPi * tauPi)) * (1 + ((1 - E2) * tau * tau)) / ((1 - E2) * sec);
            tau += step;
            if (Math.Abs(step) <= 1e-9 * Math.Max(1, Math.Abs(tau)))
            {
                // The next step would be quadratically smaller: below the last digit.
                break;
            }
        }

        return tau;
    }

    /// <summary>Sine and cosine of an angle in degrees, exact at multiples of 90.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (double Sin, double Cos) SinCosDeg(double deg)
    {
        if (Math.Abs(deg) <= 45)
        {
            return Math.SinCos(deg * RadPerDeg);
        }

        double q = Math.Round(deg / 90);
        (double s, double c) = Math.SinCos((deg - (90 * q)) * RadPerDeg);
        return ((int)q & 3) switch { 0 => (s, c), 1 => (c, -s), 2 => (-s, -c), _ => (-c, s) };
    }

    // The power series within a zone and its neighbours, to the last digit.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Sinh(double x)
    {
        if (Math.Abs(x) > 0.3)
        {
            return Math.Sinh(x);
        }

        double x2 = x * x;
        return x * (1 + (x2 * ((1.0 / 6) + (x2 * ((1.0 / 120) + (x2 * ((1.0 / 5040) + (x2 * ((1.0 / 362880) + (x2 / 39916800))))))))));
    }

    // Sum of c_j sin(2 j z), z = xi + i eta, by Clenshaw's recurrence.
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void SineSum(
        double c1, double c2, double c3, double c4, double c5, double c6,
        double sin2Xi, double cos2Xi, double sinh2Eta, double cosh2Eta, out double re, out double im)
    {
        Clenshaw(c1, c2, c3, c4, c5, c6, 2 * cos2Xi * cosh2Eta, -2 * sin2Xi * sinh2Eta, out double r1, out double i1, out _, out _);
        double sr = sin2Xi * cosh2Eta, si = cos2Xi * sinh2Eta;
        re = (r1 * sr) - (i1 * si);
        im = (r1 * si) + (i1 * sr);
    }

    // Sum of c_j cos(2 j z).
    private static void CosineSum(
        double c1, double c2, double c3, double c4, double c5, double c6,
        double sin2Xi, double cos2Xi, double sinh2Eta, double cosh2Eta, out double re, out double im)
    {
        double ar = 2 * cos2Xi * cosh2Eta, ai = -2 * sin2Xi * sinh2Eta;
        Clenshaw(c1, c2, c3, c4, c5, c6, ar, ai, out double r1, out double i1, out double r2, out double i2);
        re = (((r1 * ar) - (i1 * ai)) / 2) - r2;
        im = (((r1 * ai) + (i1 * ar)) / 2) - i2;
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static void Clenshaw(
        double c1, double c2, double c3, double c4, double c5, double c6, double ar, double ai,
        out double r1, out double i1, out double r2, out double i2)
    {
        double r6 = c6;
        double r5 = c5 + (ar * r6), i5 = ai * r6;
        double r4 = c4 + (ar * r5) - (ai * i5) - r6, i4 = (ar * i5) + (ai * r5);
        double r3 = c3 + (ar * r4) - (ai * i4) - r5, i3 = (ar * i4) + (ai * r4) - i5;
        r2 = c2 + (ar * r3) - (ai * i3) - r4;
        i2 = (ar * i3) + (ai * r3) - i4;
        r1 = c1 + (ar * r2) - (ai * i2) - r3;
        i1 = (ar * i2) + (ai * r2) - i3;
    }
}
