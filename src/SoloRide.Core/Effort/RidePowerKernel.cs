using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>
/// Power and speed of a bicycle. Head wind is positive; the drag term is signed, so that a tail wind faster than the rider pushes.
/// </summary>
internal static class RidePowerKernel
{
    [Source("martin-1998", "spoke drag, added to the drag area [m2]")]
    public const double SpokeDragM2 = 0.0044;

    [Source("martin-1998", "wheel bearings, constant part [N]")]
    public const double BearingN = 0.091;

    [Source("martin-1998", "wheel bearings, part that grows with speed [N s/m]")]
    public const double BearingNsPerM = 0.0087;

    [Source("martin-1998", "clean chain drive")]
    public const double CleanDriveEfficiency = 0.97698;

    [Source("martin-1998", "moment of inertia of both wheels [kg m2]")]
    public const double WheelInertiaKgM2 = 0.14;

    [Source("martin-1998", "outer radius of the tyre [m]")]
    public const double WheelRadiusM = 0.311;

    private const int NewtonSteps = 6;

    /// <summary>Power at the pedals [W] by the published sum; negative values mean braking power at the wheel divided by the efficiency.</summary>
    [Source("martin-1998", "equation of motion")]
    public static double PedalPowerW(
        double speedMps, double headWindMps, double massKg, double gradeFraction, double rollingCoefficient, double dragAreaM2,
        double densityKgPerM3, double kineticW, double driveEfficiency, double gravityMps2)
        => WheelPowerW(speedMps, headWindMps, massKg, gradeFraction, rollingCoefficient, dragAreaM2, densityKgPerM3, kineticW, gravityMps2) / driveEfficiency;

    /// <summary>Power that the rear wheel must receive [W]; negative: the brakes (or a gain in speed) take it.</summary>
    [Source("martin-1998", "equation of motion, before the drive")]
    public static double WheelPowerW(
        double speedMps, double headWindMps, double massKg, double gradeFraction, double rollingCoefficient, double dragAreaM2,
        double densityKgPerM3, double kineticW, double gravityMps2)
    {
        double cos = 1 / Math.Sqrt(1 + (gradeFraction * gradeFraction)), sin = gradeFraction * cos;
        double air = speedMps + headWindMps;
        return (0.5 * densityKgPerM3 * dragAreaM2 * air * Math.Abs(air) * speedMps)
            + (massKg * gravityMps2 * cos * rollingCoefficient * speedMps)
            + (speedMps * (BearingN + (BearingNsPerM * speedMps)))
            + (massKg * gravityMps2 * sin * speedMps)
            + kineticW;
    }

    /// <summary>Head wind [m/s] from a wind that blows from one direction over a heading; both [°] from north.</summary>
    public static double HeadWindMps(double windMps, double windFromDeg, double headingDeg)
        => windMps * Math.Cos((windFromDeg - headingDeg) * (Math.PI / 180));

    /// <summary>
    /// The largest speed [m/s] at which air (a), bearings (b) and grade with rolling (c) take just <paramref name="wheelW"/>:
    /// a(v+w)|v+w|v + bv² + cv = P. Newton from above, which falls monotonically in still air; a bracket guards it in wind.
    /// </summary>
    [Source("derived-speed-from-power", "largest root; start above the root, convex beyond it")]
    public static double SpeedMps(double a, double b, double c, double wheelW, double headWindMps)
    {
        if (headWindMps == 0)
        {
            return StillAirMps(a, b, c, wheelW, Math.Cbrt(wheelW / a));
        }

        double high = Start(c, wheelW, Math.Cbrt(wheelW / a), a) + Math.Max(0, -headWindMps), low = 0, v = high;
        if (!(high > 0))
        {
            return 0;
        }

        for (int i = 0; i < 200; i++)
        {
            double air = v + headWindMps, abs = Math.Abs(air);
            double f = (a * air * abs * v) + (((b * v) + c) * v) - wheelW;
            double slope = (a * abs * ((3 * v) + headWindMps)) + (2 * b * v) + c;
            if (f >= 0)
            {
                high = v;
            }
            else
            {
                low = v;
            }

            double next = v - (f / slope);
            if (!(slope > 0) || next <= low || next >= high)
            {
                // Outside the bracket (or flat): from above keep to the largest root by halving from the upper end.
                next = 0.5 * (low + high);
            }

            if (Math.Abs(next - v) <= 1e-15 * Math.Max(1, v))
            {
                return next;
            }

            v = next;
        }

        return v;
    }

    /// <summary>Still air, with the rider's own cube root of power over drag given (it is the same on every step).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static double StillAirMps(double a, double b, double c, double wheelW, double cubeRoot)
    {
        double v = Start(c, wheelW, cubeRoot, a);
        double a3 = 3 * a, b2 = 2 * b;
        for (int i = 0; i < NewtonSteps; i++)
        {
            double f = ((((a * v) + b) * v) + c) * v - wheelW;
            double slope = (((a3 * v) + b2) * v) + c;
            v -= slope > 0 ? f / slope : 0;
        }

        return v;
    }

    /// <summary>Many steps, one rider and power, still air: c per step, one cube root for all. Four lanes at a time, the same on every machine.</summary>
    public static void StillAirMps(double a, double b, ReadOnlySpan<double> c, double wheelW, Span<double> speedMps)
    {
        Guard.SameLength(c.Length, speedMps.Length, nameof(speedMps));
        double k = Math.Cbrt(wheelW / a);
        int i = 0;
        Vector256<double> va = Vector256.Create(a), vb = Vector256.Create(b), vd = Vector256.Create(wheelW), vk = Vector256.Create(k), invA = Vector256.Create(1 / a);
        for (; i <= c.Length - 8; i += 8)
        {
            Vector256<double> c0 = Vector256.Create(c.Slice(i, 4)), c1 = Vector256.Create(c.Slice(i + 4, 4));
            (Vector256<double> v0, Vector256<double> v1) = Newton2(va, vb, c0, c1, vd, vk, invA);
            v0.CopyTo(speedMps[i..]);
            v1.CopyTo(speedMps[(i + 4)..]);
        }

        for (; i < c.Length; i++)
        {
            speedMps[i] = StillAirMps(a, b, c[i], wheelW, k);
        }
    }

    /// <summary>Upper bound of the root: f is at least 0 there and convex to its left, down to the root.</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Start(double c, double wheelW, double cubeRoot, double a)
        => c > 0 ? Math.Min(wheelW / c, cubeRoot) : cubeRoot + Math.Sqrt(-c / a);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static (Vector256<double> V0, Vector256<double> V1) Newton2(
        Vector256<double> a, Vector256<double> b, Vector256<double> c0, Vector256<double> c1, Vector256<double> d, Vector256<double> k, Vector256<double> invA)
    {
        Vector256<double> v0 = Start(c0, d, k, invA), v1 = Start(c1, d, k, invA);
        Vector256<double> a3 = a + a + a, b2 = b + b;
        for (int i = 0; i < NewtonSteps; i++)
        {
            Vector256<double> f0 = ((((((a * v0) + b) * v0) + c0) * v0) - d), f1 = ((((((a * v1) + b) * v1) + c1) * v1) - d);
            Vector256<double> s0 = ((((a3 * v0) + b2) * v0) + c0), s1 = ((((a3 * v1) + b2) * v1) + c1);
            v0 -= f0 / s0;
            v1 -= f1 / s1;
        }

        return (v0, v1);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Start(Vector256<double> c, Vector256<double> d, Vector256<double> k, Vector256<double> invA)
    {
        Vector256<double> up = Vector256.Min(d / c, k);
        Vector256<double> down = k + Vector256.Sqrt(Vector256.Max(-c * invA, Vector256<double>.Zero));
        return Vector256.ConditionalSelect(Vector256.GreaterThan(c, Vector256<double>.Zero), up, down);
    }
}
