using MathNet.Numerics.Distributions;

namespace SoloRide.Batteries;

/// <summary>
/// Stratified standard normal draws (Latin hypercube): each stream holds the same quantiles in its own order. A stream depends on the seed and
/// its name only, so that leaving out or reordering others changes nothing.
/// </summary>
internal sealed class Draws
{
    private readonly double[] _scores;

    public Draws(int samples)
    {
        _scores = new double[samples];
        for (int i = 0; i < samples; i++)
        {
            _scores[i] = Normal.InvCDF(0, 1, (i + 0.5) / samples);
        }
    }

    /// <summary>The draws of one stream, one for each sample.</summary>
    public double[] Stream(int seed, string name, int kind)
    {
        ulong state = Mix(Hash(name) ^ Mix((ulong)(uint)seed) ^ ((ulong)kind << 56));
        double[] draws = [.. _scores];
        for (int i = draws.Length - 1; i > 0; i--)
        {
            state += 0x9E3779B97F4A7C15UL;
            int j = (int)(((Mix(state) >> 32) * (ulong)(i + 1)) >> 32);
            (draws[i], draws[j]) = (draws[j], draws[i]);
        }

        return draws;
    }

    private static ulong Hash(string text)
    {
        ulong h = 14695981039346656037UL;
        foreach (char c in text)
        {
            h = (h ^ c) * 1099511628211UL;
        }

        return h;
    }

    private static ulong Mix(ulong z)
    {
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }
}
