using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>Light phases by altitude, and the light that falls on level open ground.</summary>
internal static class SkyLightKernel
{
    public static readonly double SinRiseSet = Math.Sin(SunEventsKernel.RiseSetAltitudeDeg * (Math.PI / 180));
    public static readonly double SinCivil = Math.Sin(SunEventsKernel.CivilDeg * (Math.PI / 180));
    public static readonly double SinNautical = Math.Sin(SunEventsKernel.NauticalDeg * (Math.PI / 180));
    public static readonly double SinAstronomical = Math.Sin(SunEventsKernel.AstronomicalDeg * (Math.PI / 180));

    /// <summary>Starlight and airglow under a clear moonless sky [lx].</summary>
    [Source("illuminance-polynomials", "below -18 deg: 10^-2.69897")]
    public const double NightSkyLux = 0.002;

    public static LightPhase Phase(double sinAltitude)
        => sinAltitude > SinRiseSet ? LightPhase.Day
            : sinAltitude > SinCivil ? LightPhase.CivilTwilight
            : sinAltitude > SinNautical ? LightPhase.NauticalTwilight
            : sinAltitude > SinAstronomical ? LightPhase.AstronomicalTwilight
            : LightPhase.Night;

    /// <summary>Light of the clear sky and Sun on level ground, the night sky added [lx].</summary>
    /// <param name="altitudeDeg">Airless altitude of the Sun [deg].</param>
    [Source("illuminance-polynomials", "Sun")]
    public static double SunLux(double altitudeDeg) => SunOnlyLux(altitudeDeg) + NightSkyLux;

    /// <summary>The polynomials alone; 0 below -18 deg.</summary>
    [Source("illuminance-polynomials", "Sun")]
    public static double SunOnlyLux(double altitudeDeg)
    {
        double x = altitudeDeg / 90;
        return altitudeDeg switch
        {
            > 20 => Ten(x, 3.74, 3.97, -4.07, 1.47),
            > 5 => Ten(x, 3.05, 13.28, -45.98, 64.33),
            > -0.8 => Ten(x, 2.88, 22.26, -207.64, 1034.30),
            > -5 => Ten(x, 2.88, 21.81, -258.11, -858.36),
            > -12 => Ten(x, 2.70, 12.17, -431.69, -1899.83),
            > -18 => Ten(x, 13.84, 262.72, 1447.42, 2797.93),
            _ => 0,
        };
    }

    /// <summary>Moonlight of the clear sky on level ground [lx]; 0 below -0.8 deg.</summary>
    /// <param name="altitudeDeg">Airless altitude of the Moon [deg].</param>
    /// <param name="elongationDeg">Angle between Moon and Sun [deg, 0 to 180].</param>
    /// <param name="parallaxDeg">Equatorial horizontal parallax [deg].</param>
    [Source("illuminance-polynomials", "Moon")]
    public static double MoonLux(double altitudeDeg, double elongationDeg, double parallaxDeg)
    {
        double x = altitudeDeg / 90;
        double atFull = altitudeDeg switch
        {
            > 20 => Ten(x, -1.95, 4.06, -4.24, 1.56),
            > 5 => Ten(x, -2.58, 12.58, -42.58, 59.06),
            > -0.8 => Ten(x, -2.79, 24.27, -252.95, 1321.29),
            _ => 0,
        };
        double i = 180 - elongationDeg;
        double phase = Math.Pow(10, (-8.68e-3 * i) - (2.2e-9 * i * i * i * i));
        double near = parallaxDeg / 0.951;
        return atFull * phase * near * near;
    }

    private static double Ten(double x, double l0, double l1, double l2, double l3)
        => Math.Pow(10, l0 + (x * (l1 + (x * (l2 + (x * l3))))));
}
