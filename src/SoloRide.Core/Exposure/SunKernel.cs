using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Sunlight on a rider and the mean radiant temperature it makes.</summary>
internal static class SunKernel
{
    private const double StefanBoltzmann = 5.67e-8;

    /// <summary>Share of short-wave radiation that a clothed body takes up.</summary>
    [Source("vdi-3787-2", "absorption 0.7")]
    public const double Absorption = 0.7;

    [Source("vdi-3787-2", "emissivity 0.97")]
    public const double Emissivity = 0.97;

    // Below this height the beam's strength is not inferred from the horizontal flux.
    private const double LowestSine = 0.035;

    /// <summary>Cloudless global irradiance on level ground.</summary>
    [Source("haurwitz-1945")]
    public static double ClearSkyWm2(double sineOfAltitude)
        => sineOfAltitude <= 0 ? 0 : 1098 * sineOfAltitude * Math.Exp(-0.059 / sineOfAltitude);

    /// <summary>What cloud leaves of it, and the diffuse share.</summary>
    [Source("kasten-czeplak-1980")]
    public static (double GlobalWm2, double DiffuseFraction) UnderCloud(double clearWm2, double cloudFraction)
        => (clearWm2 * (1 - (0.75 * Math.Pow(cloudFraction, 3.4))), 0.3 + (0.7 * cloudFraction * cloudFraction));

    /// <summary>Projected area of a standing body turned any way, as a share of its surface.</summary>
    [Source("vdi-3787-2", "projected area factor")]
    public static double ProjectedFraction(double altitudeDeg)
        => 0.308 * Math.Cos(altitudeDeg * (0.998 - (altitudeDeg * altitudeDeg / 50_000)) * Math.PI / 180);

    /// <summary>Emissivity of the sky from vapour pressure and cloud.</summary>
    [Source("liljegren-2008", "clear sky")]
    [Source("unsworth-monteith-1975", "cloud")]
    public static double SkyEmissivity(double vapourHpa, double cloudFraction)
        => ((1 - (0.84 * cloudFraction)) * Math.Min(1, 0.575 * Math.Pow(vapourHpa, 0.143))) + (0.84 * cloudFraction);

    /// <summary>Strength of the beam across itself.</summary>
    public static double BeamWm2(double globalWm2, double diffuseWm2, double altitudeDeg)
    {
        double sine = Math.Sin(altitudeDeg * Math.PI / 180);
        return sine <= 0 ? 0 : Math.Max(0, globalWm2 - diffuseWm2) / Math.Max(sine, LowestSine);
    }

    /// <summary>Short-wave radiation taken up per body surface.</summary>
    public static double AbsorbedWm2(double beamWm2, double diffuseWm2, double globalWm2, double altitudeDeg, double groundAlbedoFraction)
        => Absorption * ((ProjectedFraction(Math.Max(0, altitudeDeg)) * beamWm2) + (0.5 * diffuseWm2) + (0.5 * groundAlbedoFraction * globalWm2));

    /// <summary>Temperature of an even enclosure that would radiate as sun, sky and ground do.</summary>
    public static double MeanRadiantC(double airC, double vapourHpa, double cloudFraction, double groundAboveAirK, double absorbedWm2)
    {
        double ta = airC + Si.ZeroCelsiusK, tg = ta + groundAboveAirK;
        double longWave = 0.5 * StefanBoltzmann * ((SkyEmissivity(vapourHpa, cloudFraction) * ta * ta * ta * ta) + (tg * tg * tg * tg));
        return Math.Sqrt(Math.Sqrt((longWave / StefanBoltzmann) + (absorbedWm2 / (Emissivity * StefanBoltzmann)))) - Si.ZeroCelsiusK;
    }

    /// <summary>All in one, for a timeline: sun's height and cloud to mean radiant temperature.</summary>
    public static double MeanRadiantC(double airC, double relHumidityPct, double sunAltitudeDeg, double cloudFraction, double sunShareFraction, double groundAlbedoFraction)
    {
        double clear = ClearSkyWm2(Math.Sin(sunAltitudeDeg * Math.PI / 180));
        (double global, double diffuseShare) = UnderCloud(clear, cloudFraction);
        double diffuse = global * diffuseShare;
        double beam = BeamWm2(global, diffuse, sunAltitudeDeg) * sunShareFraction;
        double absorbed = AbsorbedWm2(beam, diffuse, global, sunAltitudeDeg, groundAlbedoFraction);
        return MeanRadiantC(airC, relHumidityPct / 100 * HumidityKernel.TetensKpa(airC) * 10, cloudFraction, 0, absorbed);
    }
}
