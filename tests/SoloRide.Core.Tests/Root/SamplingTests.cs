using FsCheck;
using FsCheck.Xunit;
using MathNet.Numerics.Distributions;
using SoloRide.Internal;

namespace SoloRide.Tests.Root;

public sealed class SamplingTests
{
    // Outside check: the kept numerics library's own inverse normal.
    [Property]
    public bool NormalQuantile_AgreesWithTheNumericsLibrary(ushort n)
    {
        double p = (n + 0.5) / 65536;
        return Math.Abs(NormalKernel.Quantile(p) - Normal.InvCDF(0, 1, p)) < 1e-7;
    }

    // Law of a digital net in base 2: 2^m consecutive points fall one into each of 2^m equal parts, in every dimension.
    [Property]
    public bool Sobol_EveryProjection_IsStratified(int seed)
    {
        var sequence = new SobolSequence(SobolSequence.MaxDimensions, (ulong)(uint)seed);
        var point = new double[SobolSequence.MaxDimensions];
        var hit = new bool[SobolSequence.MaxDimensions, 256];
        for (uint i = 0; i < 256; i++)
        {
            sequence.Point(i, point);
            for (int d = 0; d < point.Length; d++)
            {
                int cell = (int)(point[d] * 256);
                if (hit[d, cell])
                {
                    return false;
                }

                hit[d, cell] = true;
            }
        }

        return true;
    }

    // The first two dimensions form a (0, m, 2)-net: 256 points fill a 16 by 16 grid once each.
    [Fact]
    public void Sobol_FirstTwoDimensions_FillTheGridOnce()
    {
        var sequence = new SobolSequence(2, 5);
        var point = new double[2];
        var cells = new HashSet<(int, int)>();
        for (uint i = 0; i < 256; i++)
        {
            sequence.Point(i, point);
            cells.Add(((int)(point[0] * 16), (int)(point[1] * 16)));
        }

        Assert.Equal(256, cells.Count);
    }

    // A closed form: the mean of the product of (1 + c (x - 1/2)) over the unit cube is 1.
    [Fact]
    public void Sobol_ProductFunction_IntegratesBetterThanChance()
    {
        var sequence = new SobolSequence(SobolSequence.MaxDimensions, 11);
        var point = new double[SobolSequence.MaxDimensions];
        double sum = 0;
        const int N = 4096;
        for (uint i = 0; i < N; i++)
        {
            sequence.Point(i, point);
            double f = 1;
            foreach (double x in point)
            {
                f *= 1 + (0.5 * (x - 0.5));
            }

            sum += f;
        }

        // Plain random draws: standard deviation of f about 0.73, so 0.011 at this count.
        Assert.InRange(sum / N, 1 - 0.004, 1 + 0.004);
    }

    [Property]
    public bool NextUnit_StaysInsideTheOpenInterval(int seed)
    {
        ulong state = (ulong)(uint)seed;
        for (int i = 0; i < 100; i++)
        {
            double u = SplitMix64.NextUnit(ref state);
            if (!(u > 0 && u < 1))
            {
                return false;
            }
        }

        return true;
    }
}
