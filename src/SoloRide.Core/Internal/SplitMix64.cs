namespace SoloRide.Internal;

/// <summary>A small seeded generator of 64-bit words; the same words on every machine.</summary>
[Source("steele-2014", "SplittableRandom mixing function")]
internal static class SplitMix64
{
    public static ulong Next(ref ulong state)
    {
        ulong z = state += 0x9E3779B97F4A7C15UL;
        z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9UL;
        z = (z ^ (z >> 27)) * 0x94D049BB133111EBUL;
        return z ^ (z >> 31);
    }

    /// <summary>Strictly between 0 and 1.</summary>
    public static double NextUnit(ref ulong state) => ((Next(ref state) >> 12) + 0.5) * (1.0 / 4503599627370496.0);

    /// <summary>A word that depends on both numbers: a stream of its own for each sample.</summary>
    public static ulong Mix(ulong seed, ulong stream)
    {
        ulong s = seed ^ (stream * 0xD1342543DE82EF95UL);
        return Next(ref s);
    }
}
