using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>Light, sight and stopping.</summary>
internal static class LampKernel
{
    /// <summary>Illuminance that ends the printed beam distance [lx].</summary>
    [Source("ansi-plato-fl1", "beam distance: 0.25 lx")]
    public const double BeamLux = 0.25;

    [Source("ansi-plato-fl1", "beam distance, d = 2·sqrt(cd)")]
    public static double BeamDistanceM(double peakCd) => Math.Sqrt(peakCd / BeamLux);

    [Source("ansi-plato-fl1", "inverse of the beam distance")]
    public static double PeakCdFromBeamDistance(double beamM) => beamM * beamM * BeamLux;

    /// <summary>How far a beam gives an illuminance: inverse-square law.</summary>
    [Source("inverse-square-law")]
    public static double SeeDistanceM(double peakCd, double neededLux) => Math.Sqrt(peakCd / neededLux);

    /// <summary>Deceleration along a slope; zero or below: the bike cannot stop.</summary>
    [Source("aashto-bicycle-guide", "stopping on a grade, friction form")]
    public static double DecelMps2(double riseFraction, double friction)
    {
        double theta = Math.Atan(riseFraction);
        return Si.GravityMps2 * ((friction * Math.Cos(theta)) + Math.Sin(theta));
    }

    /// <summary>Reaction and braking distance; infinite when the bike cannot stop.</summary>
    [Source("aashto-bicycle-guide", "s = v·t + v²/(2a)")]
    public static double StopDistanceM(double speedMps, double reactionS, double decelMps2)
        => decelMps2 <= 0 ? double.PositiveInfinity : (speedMps * reactionS) + (speedMps * speedMps / (2 * decelMps2));

    /// <summary>The speed whose stopping distance is the distance seen; 0 when the bike cannot stop.</summary>
    [Source("aashto-bicycle-guide", "inverse of the stopping distance")]
    public static double MaxSpeedMps(double seeM, double reactionS, double decelMps2)
        => decelMps2 <= 0 ? 0 : decelMps2 * (Math.Sqrt((reactionS * reactionS) + (2 * seeM / decelMps2)) - reactionS);

    /// <summary>Intensity that lights the stopping distance.</summary>
    public static double CandelaNeeded(double stopM, double neededLux) => neededLux * stopM * stopM;

    /// <summary>Braking over weight on level ground that a careful rider gets.</summary>
    [Source("assumption-braking", "between wet 0.25 of the design guide and measured 0.25 to 0.71 on dry asphalt; loose ground lower")]
    public static double Braking(TrailSurface surface) => surface switch
    {
        TrailSurface.Paved => 0.4,
        TrailSurface.Gravel or TrailSurface.Firm or TrailSurface.Rock => 0.35,
        TrailSurface.Grass => 0.3,
        TrailSurface.Mud or TrailSurface.Sand => 0.2,
        TrailSurface.Snow => 0.1,
        _ => 0.25,
    };
}
