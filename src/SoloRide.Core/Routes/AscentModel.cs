using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>
/// What was learned from 40 profiles over real terrain with simulated noise, judged by leaving out one profile after the other:
/// which source heights come from, how strongly they must be smoothed, and how far the ascent can then be trusted.
/// </summary>
[Source("routes-ascent-fit", "ridge and logistic regressions, leave one profile out")]
internal static class AscentModel
{
    /// <summary>Gaussian for satellite heights without times [m].</summary>
    public const double UntimedSatelliteM = 60;

    /// <summary>Gaussian, applied as 2 G - G G, for heights of a terrain model [m].</summary>
    public const double TerrainM = 55;

    // Half a metre of noise is in every figure; the logarithms need something to stand on.
    private const double Soft = 2;

    private static readonly double[] ClassCoefficients = [21.1304, 4.19389, -1.13289, 9.15791, -2.66561, -5.61312, -4.98548];

    private static readonly double[] SatelliteCoefficients =
    [
        -1.16368, -0.0588761, 0.54944, 0.700238, 0.416, 0.0936468, -0.232628, -0.343435, -0.0221566,
        -0.127645, -0.209037, -0.174535, 0.0895926, 0.030492, 0.0599979, -0.173064,
    ];

    // Half widths of the interval as shares of half the climbing, at the levels 0.5, 0.8, 0.9, 0.95.
    private static readonly double[] Levels = [0.5, 0.8, 0.9, 0.95];
    private static readonly double[] Barometric = [0.0065, 0.0135, 0.0185, 0.0225];
    private static readonly double[] Satellite = [0.037, 0.078, 0.118, 0.161];
    private static readonly double[] UntimedSatellite = [0.050, 0.110, 0.150, 0.200];
    private static readonly double[] Terrain = [0.020, 0.073, 0.090, 0.110];

    public static double BaseScaleM(HeightSource source) => source switch
    {
        HeightSource.Barometric => 25,
        HeightSource.Satellite => 70,
        _ => 35,
    };

    /// <summary>Logarithm of the odds that timed heights come from a satellite receiver.</summary>
    public static double SatelliteLogOdds(HeightNoise noise) => Dot(ClassCoefficients, ClassFeatures(noise));

    /// <summary>Climbing of the ground at the scale of the profile, from satellite heights.</summary>
    public static double SatelliteClimbingM(ReadOnlySpan<double> climbingM, double lengthM, HeightNoise noise)
        => climbingM[5] * Math.Exp(Math.Clamp(Dot(SatelliteCoefficients, SatelliteFeatures(climbingM, lengthM, noise)), -1, 1));

    /// <summary>Half width of the interval of ascent and of descent [m].</summary>
    public static double HalfWidthM(HeightSource source, bool timed, double climbingM, double lengthM, double level)
    {
        double[] shares = source switch
        {
            HeightSource.Barometric => Barometric,
            HeightSource.Satellite => timed ? Satellite : UntimedSatellite,
            _ => Terrain,
        };
        int i = 0;
        while (i + 2 < Levels.Length && level > Levels[i + 1])
        {
            i++;
        }

        double share = shares[i] + ((level - Levels[i]) / (Levels[i + 1] - Levels[i]) * (shares[i + 1] - shares[i]));
        double half = share * climbingM / 2;
        return IsFlat(climbingM, lengthM) ? half + (FlatPerM(source) * lengthM) : half;
    }

    /// <summary>Ground on which the noise is not small beside the climbing; outside what the intervals were judged on.</summary>
    public static bool IsFlat(double climbingM, double lengthM) => climbingM / 2 < 50 || climbingM / 2 < lengthM / 100;

    /// <summary>Standard error of a grade at one place.</summary>
    [Source("routes-ascent-fit", "grade error against the 25 m truth")]
    public static double GradeErrorFraction(HeightSource source) => source switch
    {
        HeightSource.Barometric => 0.007,
        HeightSource.Satellite => 0.042,
        _ => 0.029,
    };

    public static double[] ClassFeatures(HeightNoise noise)
        => [.. noise.MedianM.Select(m => Math.Log(m)), Math.Log(Math.Max(0.1, noise.SpeedMps))];

    /// <summary>Logarithms of ratios of the climbing at neighbouring scales, steepness, speed and noise.</summary>
    public static double[] SatelliteFeatures(ReadOnlySpan<double> climbingM, double lengthM, HeightNoise noise)
    {
        var f = new List<double>();
        for (int s = 0; s + 1 < climbingM.Length; s++)
        {
            f.Add(Math.Log((climbingM[s] + Soft) / (climbingM[s + 1] + Soft)));
        }

        f.Add(Math.Log((climbingM[5] + Soft) / lengthM));
        f.Add(Math.Log(Math.Max(0.1, noise.SpeedMps)));
        for (int l = 1; l < HeightNoise.LagCount; l++)
        {
            f.Add(Math.Log(noise.RmsM[l]));
        }

        return [.. f];
    }

    [Source("assumption-routes-flat", "metres of ascent a metre of way that noise can feign")]
    private static double FlatPerM(HeightSource source) => source switch
    {
        HeightSource.Barometric => 0.0004,
        HeightSource.Satellite => 0.004,
        _ => 0.002,
    };

    private static double Dot(double[] c, double[] x)
    {
        double sum = c[^1];
        for (int i = 0; i < x.Length; i++)
        {
            sum += c[i] * x[i];
        }

        return sum;
    }
}
