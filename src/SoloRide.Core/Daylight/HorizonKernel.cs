using System.Runtime.CompilerServices;
using SoloRide.Internal;

namespace SoloRide.Daylight;

/// <summary>Angle of the horizon over terrain, with curvature and terrestrial refraction.</summary>
internal static class HorizonKernel
{
    [Source("terrestrial-refraction", "k = 0.13")]
    public const double StandardRefraction = 0.13;

    private const double StepGrowth = 0.01;
    private const int Chunk = 128;
    public const int MaxSteps = 8192;

    /// <summary>Distances at which a ray is sampled: the near step, growing to a hundredth of the distance, ending at the range.</summary>
    public static int Distances(double nearStepM, double rangeM, Span<double> distancesM)
    {
        int n = 0;
        double d = nearStepM;
        while (d < rangeM && n < distancesM.Length - 1)
        {
            distancesM[n++] = d;
            d += Math.Max(nearStepM, StepGrowth * d);
        }

        distancesM[n++] = rangeM;
        return n;
    }

    public static double[] Distances(double nearStepM, double rangeM)
    {
        Span<double> all = stackalloc double[MaxSteps];
        int n = Distances(nearStepM, rangeM, all);
        return all[..n].ToArray();
    }

    /// <summary>The steepest line of sight along one azimuth, as tangent of its altitude; NaN where no height is known.</summary>
    /// <param name="terrain">The terrain.</param>
    /// <param name="latDeg">[deg] The observer.</param>
    /// <param name="lonDeg">[deg] The observer.</param>
    /// <param name="eyeM">[m] Height of the eye above sea level.</param>
    /// <param name="azimuthRad">[rad] From north, clockwise.</param>
    /// <param name="distancesM">[m] Where the ray is sampled.</param>
    /// <param name="refraction">Share of curvature taken back.</param>
    /// <param name="unknown">Grows by the samples without a height.</param>
    [SkipLocalsInit]
    [Source("horizon-angle", "theta = max atan((z - z0 - d^2 (1 - k)/(2R))/d)")]
    public static double Tangent(
        ITerrainHeights terrain, double latDeg, double lonDeg, double eyeM, double azimuthRad, ReadOnlySpan<double> distancesM, double refraction, ref int unknown)
    {
        (double sinA, double cosA) = Math.SinCos(azimuthRad);
        double phi = latDeg * (Math.PI / 180);
        (double sinP, double cosP) = Math.SinCos(phi);
        const double e2 = ObserverFrame.Flattening * (2 - ObserverFrame.Flattening);
        double w = Math.Sqrt(1 - (e2 * sinP * sinP));
        double n = ObserverFrame.EquatorM / w, m = n * (1 - e2) / (w * w);
        double cosSafe = Math.Max(cosP, 1e-9);
        const double deg = 180 / Math.PI;

        // Second order in the distance: within a metre at 30 km.
        double latPer = cosA / m * deg, latPer2 = -sinA * sinA * sinP / cosSafe / (2 * m * n) * deg;
        double lonPer = sinA / (n * cosSafe) * deg, lonPer2 = sinA * cosA * sinP / (n * n * cosSafe * cosSafe) * deg;
        double drop = (1 - refraction) / (2 * RefractionKernel.EarthRadiusM);

        Span<double> lat = stackalloc double[Chunk], lon = stackalloc double[Chunk], z = stackalloc double[Chunk];
        double best = double.NegativeInfinity;
        for (int from = 0; from < distancesM.Length; from += Chunk)
        {
            int count = Math.Min(Chunk, distancesM.Length - from);
            for (int i = 0; i < count; i++)
            {
                double d = distancesM[from + i];
                lat[i] = Math.Clamp(latDeg + (d * (latPer + (d * latPer2))), -90, 90);
                double x = lonDeg + (d * (lonPer + (d * lonPer2)));
                lon[i] = x is >= -180 and <= 180 ? x : Math.IEEERemainder(x, 360);
            }

            terrain.HeightsM(lat[..count], lon[..count], z[..count]);
            for (int i = 0; i < count; i++)
            {
                double d = distancesM[from + i];
                double t = ((z[i] - eyeM) / d) - (d * drop);
                if (t > best)
                {
                    best = t;
                }
                else if (double.IsNaN(t))
                {
                    unknown++;
                }
            }
        }

        return double.IsNegativeInfinity(best) ? double.NaN : best;
    }
}
