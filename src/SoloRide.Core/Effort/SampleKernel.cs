using System.Runtime.Intrinsics;
using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>
/// One sample over all steps: speed solved, mode of least time, energy. Four lanes, plain multiplications and additions (no fused
/// ones), so that every machine gives the same bits from the same draws.
/// </summary>
internal static class SampleKernel
{
    private const int NewtonStill = 6, NewtonWind = 9, NoiseBits = 12;

    private const ulong NoiseMask = (1 << NoiseBits) - 1;

    private static readonly double[] NormalQuantiles = MakeQuantiles();

    /// <summary>Times and energies without the ride's and the steps' own factors, in the order of the arrays.</summary>
    public static void Steps(SampleTerms t, double power, double footFactor, ReadOnlySpan<double> group, Span<double> time, Span<double> energy)
    {
        double at = Math.Clamp((Math.Log(power) - SampleTerms.LogLow) / (SampleTerms.LogHigh - SampleTerms.LogLow), 0, 1) * (SampleTerms.Knots - 1);
        int knot = Math.Min((int)at, SampleTerms.Knots - 2);
        Vector256<double> upper = Vector256.Create(at - knot), lower = Vector256.Create(1 - (at - knot));
        ReadOnlySpan<double> time0 = t.FootTime.AsSpan(knot * t.Padded, t.Padded), time1 = t.FootTime.AsSpan((knot + 1) * t.Padded, t.Padded);
        ReadOnlySpan<double> watts0 = t.FootWatts.AsSpan(knot * t.Padded, t.Padded), watts1 = t.FootWatts.AsSpan((knot + 1) * t.Padded, t.Padded);
        Vector256<double> p = Vector256.Create(power), b = Vector256.Create(t.B), b2 = b + b, zero = Vector256<double>.Zero, one = Vector256.Create(1.0), foot = Vector256.Create(footFactor);
        Vector256<double> cube = Vector256.Create(Math.Cbrt(t.AnyAssist ? Math.Max(power, 1) : power));
        foreach (SampleTerms.Run run in t.Runs)
        {
            Vector256<double> slow = Vector256.Create(group[run.Surface]), technique = Vector256.Create(1 / group[run.Technique]);
            for (int i = run.First; i < run.First + run.Length; i += 4)
            {
                Vector256<double> a = Load(t.A, i), c = Load(t.C, i), assist = Load(t.Assist, i);
                Vector256<double> wheel = (Load(t.Wheel, i) * p) + assist;
                Vector256<double> k = Load(t.CubeRoot, i) * cube;
                Vector256<double> flat = Vector256.ConditionalSelect(Vector256.GreaterThan(c, zero), Vector256.Min(wheel / c, k), k);
                Vector256<double> v = flat + Load(t.Lift, i);
                Vector256<double> w = Load(t.Wind, i);
                if (t.AnyWind)
                {
                    for (int n = 0; n < NewtonWind; n++)
                    {
                        Vector256<double> air = v + w, drag = a * Vector256.Abs(air);
                        Vector256<double> f = (((drag * air) + (b * v) + c) * v) - wheel;
                        Vector256<double> slope = (drag * (v + v + air)) + (b2 * v) + c;
                        Vector256<double> next = v - (f / slope);
                        v = Vector256.ConditionalSelect(Vector256.GreaterThan(slope, zero) & Vector256.GreaterThan(next, zero), next, v * Vector256.Create(0.5));
                    }
                }
                else
                {
                    Vector256<double> a3 = a + a + a;
                    for (int n = 0; n < NewtonStill; n++)
                    {
                        Vector256<double> f = (((((a * v) + b) * v) + c) * v) - wheel;
                        v -= f / ((((a3 * v) + b2) * v) + c);
                    }
                }

                Vector256<double> travel = Load(t.Travel, i), cap = Load(t.Cap, i);
                Vector256<double> footTime = (Load(time0, i) * lower) + (Load(time1, i) * upper);
                Vector256<double> footWatts = (Load(watts0, i) * lower) + (Load(watts1, i) * upper);
                Vector256<double> ridden = Load(t.Ridden, i);

                // The choice compares speeds at this sample's power and technique; the factors of surface and foot act on what was chosen.
                Vector256<double> limit = cap * technique, fastest = Vector256.Min(v, limit);
                Vector256<double> rides = Vector256.GreaterThanOrEqual(fastest, Load(t.Slowest, i)) & Vector256.GreaterThan(footTime * fastest, travel) & Vector256.GreaterThan(ridden, zero);
                ridden = Vector256.ConditionalSelect(rides, ridden, zero);
                Vector256<double> free = v / slow, speed = Vector256.Min(free, limit);
                Vector256<double> capAir = limit + w, need = ((a * capAir * Vector256.Abs(capAir)) + (b * limit) + c) * limit;
                Vector256<double> share = Vector256.ConditionalSelect(Vector256.LessThan(limit, free), Vector256.Min(one, Vector256.Max(zero, need / wheel)), one);
                Vector256<double> atHand = Load(t.PedalOverEfficiency, i) * p;
                Vector256<double> rideWatts = Vector256.Max(atHand * share, Vector256.Min(Load(t.Floor, i), atHand));
                Vector256<double> rideTime = ridden * (travel / speed), walkTime = (one - ridden) * footTime * slow * foot;
                (rideTime + walkTime).CopyTo(time[i..]);
                ((rideTime * rideWatts) + (walkTime * footWatts)).CopyTo(energy[i..]);
            }
        }
    }

    /// <summary>In the order of travel, with the ride's factor and each step's own; sums on the way.</summary>
    public static (double WholeS, double WholeJ) Accumulate(
        SampleTerms t, double ride, ref SampleRandom random, ReadOnlySpan<double> time, ReadOnlySpan<double> energy, Span<double> movingS, Span<double> energyJ)
    {
        double seconds = 0, joules = 0;
        ulong bits = 0;
        int left = 0;
        for (int i = 0; i < t.Order.Length; i++)
        {
            if (left == 0)
            {
                bits = random.Next();
                left = 5;
            }

            double sd = t.StepLogSd[i], factor = ride * Exp(sd * (NormalQuantiles[(int)(bits & NoiseMask)] - (0.5 * sd)));
            bits >>= NoiseBits;
            left--;
            int k = t.Order[i];
            seconds += factor * time[k];
            joules += factor * energy[k];
            if (i < movingS.Length)
            {
                movingS[i] = seconds;
            }

            if (i < energyJ.Length)
            {
                energyJ[i] = joules;
            }
        }

        return (seconds, joules);
    }

    private static Vector256<double> Load(ReadOnlySpan<double> from, int i) => Vector256.Create(from.Slice(i, 4));

    /// <summary>Exponential by its series after halving the argument three times; relative error below 1e-9 within ±4.</summary>
    [Source("derived-exponential-series", "seven terms")]
    internal static double Exp(double x)
    {
        double y = x * 0.125;
        double e = 1 + (y * (1 + (y * (0.5 + (y * ((1.0 / 6) + (y * ((1.0 / 24) + (y * ((1.0 / 120) + (y * ((1.0 / 720) + (y * (1.0 / 5040))))))))))))));
        e *= e;
        e *= e;
        return e * e;
    }

    private static double[] MakeQuantiles()
    {
        double[] z = new double[1 << NoiseBits];
        for (int i = 0; i < z.Length; i++)
        {
            z[i] = MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, (i + 0.5) / z.Length);
        }

        return z;
    }
}
