using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>When the Sun's upper limb stands above a skyline.</summary>
internal static class SunShadeKernel
{
    [Source("almanac-rise-set", "radius of the disc")]
    public const double RadiusDeg = 16.0 / 60;

    [Source("almanac-rise-set", "refraction at the horizon")]
    public const double HorizonRefractionDeg = 34.0 / 60;

    /// <summary>
    /// Refraction along a line of sight at an apparent altitude: Bennett's formula brought to the almanac's 34 arcmin at the horizon, which
    /// is kept below it.
    /// </summary>
    [Source("bennett-1982", "shape over the altitude")]
    public static double RefractionDeg(double apparentDeg)
        => HorizonRefractionDeg * RefractionKernel.BennettArcmin(Math.Clamp(apparentDeg, 0, 89.9)) / RefractionKernel.BennettArcmin(0);

    /// <summary>Airless altitude of the centre at which the upper limb touches a skyline.</summary>
    /// <param name="skylineRad">[rad] Apparent altitude of the skyline.</param>
    /// <param name="airFactor">Refraction over the standard one.</param>
    public static double ThresholdRad(double skylineRad, double airFactor)
    {
        double deg = skylineRad * (180 / Math.PI);
        return (deg - (RefractionDeg(deg) * airFactor) - RadiusDeg) * (Math.PI / 180);
    }
}
