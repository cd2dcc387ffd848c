using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>Refraction of the air and the dip of the horizon.</summary>
internal static class RefractionKernel
{
    /// <summary>Below this true altitude [deg] the formula leaves its range; refraction is carried on as a constant share of nothing: zero is returned.</summary>
    public const double LowestTrueDeg = -1;

    [Source("iugg-mean-radius", "6371 km")]
    public const double EarthRadiusM = 6_371_000;

    /// <summary>Refraction [deg] at a true (airless) altitude; 0 below -1 deg, where the formula has no meaning.</summary>
    [Source("saemundsson-1986", "R = 1.02 cot(h + 10.3/(h + 5.11)), P/1010 283/(273+T)")]
    public static double TrueToApparentDeg(double trueDeg, double pressureHpa, double tempC)
        => trueDeg < LowestTrueDeg ? 0 : Scale(pressureHpa, tempC) * SaemundssonArcmin(trueDeg) / 60;

    [Source("saemundsson-1986", "R = 1.02 cot(h + 10.3/(h + 5.11))")]
    public static double SaemundssonArcmin(double trueDeg) => 1.02 / Math.Tan((trueDeg + (10.3 / (trueDeg + 5.11))) * (Math.PI / 180));

    [Source("bennett-1982", "R = cot(h + 7.31/(h + 4.4))")]
    public static double BennettArcmin(double apparentDeg) => 1 / Math.Tan((apparentDeg + (7.31 / (apparentDeg + 4.4))) * (Math.PI / 180));

    [Source("saemundsson-1986", "P/1010 283/(273+T)")]
    public static double Scale(double pressureHpa, double tempC) => pressureHpa / 1010 * 283 / (273 + tempC);

    /// <summary>Geometric dip of a sea horizon [rad].</summary>
    [Source("geometric-dip", "acos(R/(R+h))")]
    public static double DipRad(double heightM) => heightM <= 0 ? 0 : Math.Acos(EarthRadiusM / (EarthRadiusM + heightM));

    /// <summary>Pressure of the standard atmosphere [Pa].</summary>
    [Source("icao-standard-pressure", "100 ((44331.514 - h)/11880.516)^(1/0.1902632)")]
    public static double PressurePa(double heightM) => 100 * Math.Pow((44331.514 - heightM) / 11880.516, 1 / 0.1902632);
}
