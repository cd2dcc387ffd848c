using System.Numerics;

namespace SoloRide.Internal;

/// <summary>
/// Sobol points in up to 21 dimensions with a seeded digital shift; any point by its index, so that threads need no order.
/// </summary>
[Source("joe-kuo-2008", "direction numbers, dimensions 2 to 21")]
internal sealed class SobolSequence
{
    public const int MaxDimensions = 21;
    private const int Bits = 32;

    // Degree of the primitive polynomial, its inner coefficients, initial direction numbers.
    private static readonly (int S, uint A, uint[] M)[] Table =
    [
        (1, 0, [1]),
        (2, 1, [1, 3]),
        (3, 1, [1, 3, 1]),
        (3, 2, [1, 1, 1]),
        (4, 1, [1, 1, 3, 3]),
        (4, 4, [1, 3, 5, 13]),
        (5, 2, [1, 1, 5, 5, 17]),
        (5, 4, [1, 1, 5, 5, 5]),
        (5, 7, [1, 1, 7, 11, 19]),
        (5, 11, [1, 1, 5, 1, 1]),
        (5, 13, [1, 1, 1, 3, 11]),
        (5, 14, [1, 3, 5, 5, 31]),
        (6, 1, [1, 3, 3, 9, 7, 49]),
        (6, 13, [1, 1, 1, 15, 21, 21]),
        (6, 16, [1, 3, 1, 13, 27, 49]),
        (6, 19, [1, 1, 1, 15, 7, 5]),
        (6, 22, [1, 3, 1, 15, 13, 25]),
        (6, 25, [1, 1, 5, 5, 19, 61]),
        (7, 1, [1, 3, 7, 11, 23, 15, 103]),
        (7, 4, [1, 3, 7, 13, 13, 15, 69]),
    ];

    private readonly uint[][] _directions;
    private readonly uint[] _shift;

    public SobolSequence(int dimensions, ulong seed)
    {
        Dimensions = Guard.InRange(dimensions, 1, MaxDimensions, "dimensions");
        _directions = new uint[dimensions][];
        _shift = new uint[dimensions];
        ulong state = seed;
        for (int d = 0; d < dimensions; d++)
        {
            _shift[d] = (uint)(SplitMix64.Next(ref state) >> 32);
            var v = new uint[Bits];
            if (d == 0)
            {
                for (int k = 0; k < Bits; k++)
                {
                    v[k] = 1u << (31 - k);
                }
            }
            else
            {
                (int s, uint a, uint[] m) = Table[d - 1];
                for (int k = 0; k < Bits; k++)
                {
                    if (k < s)
                    {
                        v[k] = m[k] << (31 - k);
                        continue;
                    }

                    uint x = v[k - s] ^ (v[k - s] >> s);
                    for (int i = 1; i < s; i++)
                    {
                        if (((a >> (s - 1 - i)) & 1) != 0)
                        {
                            x ^= v[k - i];
                        }
                    }

                    v[k] = x;
                }
            }

            _directions[d] = v;
        }
    }

    public int Dimensions { get; }

    /// <summary>Point number <paramref name="index"/>; every coordinate lies strictly between 0 and 1.</summary>
    public void Point(uint index, Span<double> point)
    {
        uint gray = index ^ (index >> 1);
        for (int d = 0; d < Dimensions; d++)
        {
            uint x = _shift[d];
            uint[] v = _directions[d];
            for (uint g = gray; g != 0; g &= g - 1)
            {
                x ^= v[BitOperations.TrailingZeroCount(g)];
            }

            point[d] = (x + 0.5) * (1.0 / 4294967296.0);
        }
    }
}
