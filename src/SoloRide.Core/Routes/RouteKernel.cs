using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Distances along a line of places.</summary>
internal static class RouteKernel
{
    /// <summary>
    /// Legs are rounded to this grid, so that sums up to 8 000 km are exact: reversing, splitting and joining change no digit.
    /// The rounding is at most half a nanometre a leg.
    /// </summary>
    public const double GridM = 1.0 / (1 << 30);

    public static double[] Cumulative(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg)
    {
        double[] cumM = GC.AllocateUninitializedArray<double>(latDeg.Length);
        if (cumM.Length == 0)
        {
            return cumM;
        }

        GeodesyKernel.LegsM(latDeg, lonDeg, cumM.AsSpan(1));
        cumM[0] = 0;
        double sum = 0;
        for (int i = 1; i < cumM.Length; i++)
        {
            sum += Math.Round(cumM[i] * (1 << 30)) * GridM;
            cumM[i] = sum;
        }

        return cumM;
    }

    /// <summary>Index of the last entry not above <paramref name="x"/>; 0 when all are above.</summary>
    public static int FloorIndex(ReadOnlySpan<double> ascending, double x)
    {
        int i = ascending.BinarySearch(x);
        return i >= 0 ? i : Math.Max(0, ~i - 1);
    }
}
