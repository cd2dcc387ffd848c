using System.Runtime.CompilerServices;
using MathNet.Numerics.Distributions;

namespace SoloRide.Effort;

/// <summary>Random numbers of one sample: a counter hashed with seed and index, so that a sample needs no other one.</summary>
internal struct SampleRandom
{
    private ulong _state;

    public SampleRandom(int seed, int index) => _state = Mix(((ulong)(uint)seed << 32) ^ (uint)index ^ 0x5851F42D4C957F2DUL);

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public ulong Next() => Mix(_state += 0x9E3779B97F4A7C15UL);

    public double Normal() => MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, ((Next() >> 11) + 0.5) * (1.0 / (1UL << 53)));

    /// <summary>The finaliser of the 64-bit splittable generator (public domain).</summary>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static ulong Mix(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
