using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>Clear-sky models: global horizontal, direct normal and diffuse horizontal irradiance [W/m2].</summary>
internal static class IrradianceKernel
{
    private const double Deg = Math.PI / 180;

    [Source("tsi-1361", "total solar irradiance at 1 au")]
    public const double SolarConstantWPerM2 = 1361;

    [Source("icao-standard-pressure", "sea level")]
    public const double SeaLevelPa = 101325;

    /// <summary>Relative air mass at an apparent zenith distance; NaN below the horizon.</summary>
    [Source("kasten-young-1989", "equation 3")]
    public static double AirMass(double apparentZenithDeg)
        => apparentZenithDeg > 90 ? double.NaN : 1 / (Math.Cos(apparentZenithDeg * Deg) + (0.50572 * Math.Pow(96.07995 - apparentZenithDeg, -1.6364)));

    /// <summary>Extraterrestrial normal irradiance from the day of the year; the distance itself is better where known.</summary>
    [Source("spencer-1971", "Fourier series of the distance")]
    public static double SpencerWPerM2(int dayOfYear, double solarConstantWPerM2)
    {
        double b = 2 * Math.PI * (dayOfYear - 1) / 365;
        return solarConstantWPerM2 * (1.00011 + (0.034221 * Math.Cos(b)) + (0.00128 * Math.Sin(b)) + (0.000719 * Math.Cos(2 * b)) + (0.000077 * Math.Sin(2 * b)));
    }

    [Source("haurwitz-1945", "GHI = 1098 cos z exp(-0.059 / cos z)")]
    public static double HaurwitzGlobal(double cosZenith) => cosZenith <= 0 ? 0 : 1098 * cosZenith * Math.Exp(-0.059 / cosZenith);

    [Source("ineichen-perez-2002", "with height corrections; enhancement exp(0.01 AM^1.8) of Perez 2002 on request")]
    public static void IneichenPerez(
        double cosZenith, double airMassAbsolute, double linkeTurbidity, double heightM, double extraWPerM2, bool enhancement,
        out double global, out double direct, out double diffuse)
    {
        if (cosZenith <= 0)
        {
            global = direct = diffuse = 0;
            return;
        }

        double fh1 = Math.Exp(-heightM / 8000), fh2 = Math.Exp(-heightM / 1250);
        double cg1 = (5.09e-5 * heightM) + 0.868, cg2 = (3.92e-5 * heightM) + 0.0387;
        global = cg1 * extraWPerM2 * cosZenith * Math.Exp(-cg2 * airMassAbsolute * (fh1 + (fh2 * (linkeTurbidity - 1))));
        if (enhancement)
        {
            global *= Math.Exp(0.01 * Math.Pow(airMassAbsolute, 1.8));
        }

        double b = 0.664 + (0.163 / fh1);
        double beam = extraWPerM2 * b * Math.Exp(-0.09 * airMassAbsolute * (linkeTurbidity - 1));
        double limit = global * (1 - ((0.1 - (0.2 * Math.Exp(-linkeTurbidity))) / (0.1 + (0.882 / fh1)))) / cosZenith;
        direct = Math.Max(0, Math.Min(beam, limit));
        diffuse = global - (direct * cosZenith);
    }

    [Source("ineichen-2008", "broadband simplified Solis")]
    public static void SimplifiedSolis(
        double sinElevation, double aod700, double waterCm, double pressurePa, double extraWPerM2, out double global, out double direct, out double diffuse)
    {
        if (sinElevation <= 0)
        {
            global = direct = diffuse = 0;
            return;
        }

        double a = aod700, w = waterCm, l = Math.Log(w), q = Math.Log(pressurePa / SeaLevelPa), s = sinElevation;
        double i0 = extraWPerM2 * ((0.12 * Math.Pow(w, 0.56) * a * a) + (0.97 * Math.Pow(w, 0.032) * a) + (1.08 * Math.Pow(w, 0.0051)) + (0.071 * q));
        double tb = ((1.82 + (0.056 * l) + (0.0071 * l * l)) * a) + 0.33 + (0.045 * l) + (0.0096 * l * l) + (((0.0089 * w) + 0.13) * q);
        double b = (((0.00925 * a * a) + (0.0148 * a) - 0.0172) * l) - (0.7565 * a * a) + (0.5057 * a) + 0.4557;
        double tg = ((1.24 + (0.047 * l) + (0.0061 * l * l)) * a) + 0.27 + (0.043 * l) + (0.0090 * l * l) + (((0.0079 * w) + 0.1) * q);
        double g = (-0.0147 * l) - (0.3079 * a * a) + (0.2846 * a) + 0.3798;
        double d = (-0.337 * a * a) + (0.63 * a) + 0.116 + (q / (18 + (152 * a)));
        double td = a < 0.05
            ? (((86 * w) - 13800) * Math.Pow(a, 4)) + ((79.4 - (3.11 * w)) * Math.Pow(a, 3)) + ((74.8 - (0.23 * w)) * a * a) + (((0.092 * w) - 8.86) * a) + (0.0042 * w) + 3.12 - (0.83 * Math.Pow(1 + a, -17.2) * q)
            : ((11.6 - (0.21 * w)) * Math.Pow(a, 4)) + (((0.27 * w) - 20.7) * Math.Pow(a, 3)) + ((15.5 - (0.134 * w)) * a * a) + (((0.0554 * w) - 5.71) * a) + (0.0057 * w) + 2.94 - (0.71 * Math.Pow(1 + a, -15) * q);
        direct = i0 * Math.Exp(-tb / Math.Pow(s, b));
        global = i0 * s * Math.Exp(-tg / Math.Pow(s, g));
        diffuse = i0 * Math.Exp(-td / Math.Pow(s, d));
    }

    /// <summary>Direct transmittance of a clear sky, 23 km visibility; fitted to 2.5 km of height.</summary>
    [Source("hottel-1976", "23 km visibility, climate factors")]
    public static double HottelTransmittance(double cosZenith, double heightKm, HottelClimate climate)
    {
        (double r0, double r1, double rk) = climate switch
        {
            HottelClimate.Tropical => (0.95, 0.98, 1.02),
            HottelClimate.SubarcticSummer => (0.99, 0.99, 1.01),
            HottelClimate.MidlatitudeWinter => (1.03, 1.01, 1.00),
            _ => (0.97, 0.99, 1.02),
        };
        double a0 = r0 * (0.4237 - (0.00821 * (6 - heightKm) * (6 - heightKm)));
        double a1 = r1 * (0.5055 + (0.00595 * (6.5 - heightKm) * (6.5 - heightKm)));
        double k = rk * (0.2711 + (0.01858 * (2.5 - heightKm) * (2.5 - heightKm)));
        return a0 + (a1 * Math.Exp(-k / cosZenith));
    }

    /// <summary>Diffuse transmittance that goes with a direct one.</summary>
    [Source("liu-jordan-1960", "0.271 - 0.294 tau")]
    public static double LiuJordanDiffuse(double directTransmittance) => 0.271 - (0.294 * directTransmittance);

    /// <summary>Direct normal and diffuse horizontal irradiance of a clear day by month; a check on the others.</summary>
    [Source("ashrae-1972", "A, B, C by month")]
    public static void Ashrae(int month, double sinElevation, out double direct, out double diffuse)
    {
        ReadOnlySpan<double> a = [1230, 1215, 1186, 1136, 1104, 1088, 1085, 1107, 1151, 1192, 1221, 1233];
        ReadOnlySpan<double> b = [.142, .144, .156, .180, .196, .205, .207, .201, .177, .160, .149, .142];
        ReadOnlySpan<double> c = [.058, .060, .071, .097, .121, .134, .136, .122, .092, .073, .063, .057];
        direct = sinElevation <= 0 ? 0 : a[month - 1] * Math.Exp(-b[month - 1] / sinElevation);
        diffuse = c[month - 1] * direct;
    }

    /// <summary>Share of the clear-sky global irradiance under a cloud cover.</summary>
    [Source("kasten-czeplak-1980", "1 - 0.75 N^3.4")]
    public static double CloudFactor(double cloudFraction) => 1 - (0.75 * Math.Pow(cloudFraction, 3.4));

    /// <summary>Diffuse share of the global irradiance under a cloud cover, from its clear-sky share.</summary>
    [Source("assumption-cloud-diffuse", "share grows with N squared from the clear-sky share to 1")]
    public static double DiffuseShare(double clearShare, double cloudFraction) => clearShare + ((1 - clearShare) * cloudFraction * cloudFraction);
}
