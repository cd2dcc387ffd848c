using System.Numerics;
using System.Runtime.InteropServices;
using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Heights over distance: averaging into even cells, Gaussian smoothing, sums of rises, reversals. SI units.</summary>
internal static class ProfileKernel
{
    /// <summary>Cells are at most this long.</summary>
    [Source("assumption-routes-cell", "5 m")]
    public const double CellM = 5;

    /// <summary>The Gaussian is cut here, in standard deviations.</summary>
    private const double CutSigmas = 5;

    public static int CellCount(double lengthM) => (int)Math.Clamp(Math.Ceiling(lengthM / CellM), 1, 100_000_000);

    /// <summary>
    /// Mean over each of the even cells of the broken line through the heights; unknown heights are bridged, ends held level.
    /// Heights recorded at one place count once, with their mean.
    /// </summary>
    public static void CellMeans(ReadOnlySpan<double> distanceM, ReadOnlySpan<double> heightM, double lengthM, Span<double> cellsM)
    {
        int n = cellsM.Length;
        double step = lengthM / n;
        int i = 0;
        if (!Corner(distanceM, heightM, ref i, out double x0, out double h0))
        {
            cellsM.Fill(double.NaN);
            return;
        }

        if (!(lengthM > 0))
        {
            cellsM.Fill(h0);
            return;
        }

        // Heights are counted from the first, so that large offsets cost no digits.
        double reference = h0, area = 0;
        h0 = 0;
        double at = 0;
        int cell = 0;
        double end = n == 1 ? lengthM : step;
        bool more = true;
        double x1 = x0, h1 = 0, hAt = 0;
        while (cell < n)
        {
            // The piece of the broken line from 'at' to the nearer of the cell's end and the next corner.
            double next = Math.Min(end, x1), hNext = x1 > x0 ? h0 + ((h1 - h0) * ((next - x0) / (x1 - x0))) : h0;
            if (next == x1)
            {
                hNext = h1;
            }

            area += (hAt + hNext) / 2 * (next - at);
            (at, hAt) = (next, hNext);
            if (at >= end)
            {
                cellsM[cell++] = reference + (area / step);
                area = 0;
                end = cell == n - 1 ? lengthM : (cell + 1) * step;
            }
            else
            {
                (x0, h0) = (x1, h1);
                if (more && (more = Corner(distanceM, heightM, ref i, out x1, out h1)))
                {
                    h1 -= reference;
                }
                else
                {
                    (x1, h1) = (double.PositiveInfinity, h0);
                    next = at;
                }

                if (double.IsPositiveInfinity(x1))
                {
                    // Level to the end.
                    for (; cell < n; cell++)
                    {
                        area += h0 * (end - at);
                        at = end;
                        cellsM[cell] = reference + (area / step);
                        area = 0;
                        end = cell + 1 == n - 1 ? lengthM : (cell + 2) * step;
                    }
                }
            }
        }
    }

    private static bool Corner(ReadOnlySpan<double> distanceM, ReadOnlySpan<double> heightM, ref int i, out double x, out double h)
    {
        while (i < heightM.Length && double.IsNaN(heightM[i]))
        {
            i++;
        }

        x = h = 0;
        if (i >= heightM.Length)
        {
            return false;
        }

        x = distanceM[i];
        h = heightM[i++];
        if (i < heightM.Length && distanceM[i] == x)
        {
            double sum = h;
            int count = 1;
            for (; i < heightM.Length && distanceM[i] == x; i++)
            {
                if (!double.IsNaN(heightM[i]))
                {
                    sum += heightM[i];
                    count++;
                }
            }

            h = sum / count;
        }

        return true;
    }

    /// <summary>
    /// Gaussian over even cells with half-sample reflection at the ends (c b a | a b c). Every output is the same sum in the
    /// same order on every machine: lanes are outputs, not taps.
    /// </summary>
    [Source("kernel-regression", "Gaussian convolution, reflected ends")]
    public static void Gaussian(ReadOnlySpan<double> cells, double sigmaCells, Span<double> smooth, double cutSigmas = CutSigmas)
    {
        int n = cells.Length;
        if (!(sigmaCells > 0))
        {
            cells.CopyTo(smooth);
            return;
        }

        int radius = (int)Math.Ceiling(cutSigmas * sigmaCells);
        double[] weights = new double[radius + 1];
        double sum = 0;
        for (int k = 0; k <= radius; k++)
        {
            weights[k] = Math.Exp(-0.5 * (k / sigmaCells) * (k / sigmaCells));
            sum += k == 0 ? weights[k] : 2 * weights[k];
        }

        for (int k = 0; k <= radius; k++)
        {
            weights[k] /= sum;
        }

        // Heights are counted from one of them, so that a constant offset changes nothing beyond its own rounding.
        double[] padded = GC.AllocateUninitializedArray<double>(n + (2 * radius));
        cells.CopyTo(padded.AsSpan(radius));
        for (int k = 1; k <= radius; k++)
        {
            padded[radius - k] = padded[radius + Mirror(-k, n)];
            padded[radius + n - 1 + k] = padded[radius + Mirror(n - 1 + k, n)];
        }

        int lanes = Vector<double>.Count, i = 0;
        ref double p = ref MemoryMarshal.GetArrayDataReference(padded);
        for (; i + lanes <= n; i += lanes)
        {
            Vector<double> v = Vector.LoadUnsafe(ref p, (nuint)(i + radius)) * weights[0];
            for (int k = 1; k <= radius; k++)
            {
                v += (Vector.LoadUnsafe(ref p, (nuint)(i + radius - k)) + Vector.LoadUnsafe(ref p, (nuint)(i + radius + k))) * weights[k];
            }

            v.CopyTo(smooth[i..]);
        }

        for (; i < n; i++)
        {
            double v = padded[i + radius] * weights[0];
            for (int k = 1; k <= radius; k++)
            {
                v += (padded[i + radius - k] + padded[i + radius + k]) * weights[k];
            }

            smooth[i] = v;
        }
    }

    /// <summary>Value of even cells at a distance: linear between the middles, level outside them.</summary>
    public static double At(ReadOnlySpan<double> cells, double stepM, double xM)
    {
        double c = (xM / stepM) - 0.5;
        if (!(c > 0))
        {
            return cells[0];
        }

        int i = (int)c;
        return i >= cells.Length - 1 ? cells[^1] : cells[i] + ((c - i) * (cells[i + 1] - cells[i]));
    }

    /// <summary>Sums of rises and of falls (both positive).</summary>
    public static (double RiseM, double FallM) Sums(ReadOnlySpan<double> heightsM)
    {
        double rise = 0, fall = 0;
        for (int i = 1; i < heightsM.Length; i++)
        {
            double d = heightsM[i] - heightsM[i - 1];
            rise += Math.Max(d, 0);
            fall += Math.Max(-d, 0);
        }

        return (rise, fall);
    }

    /// <summary>
    /// Turning points of the heights by a reversal threshold: from the running extreme (the first on ties) the height must move
    /// by the threshold or more. The first pivot is the first low or high from which the threshold was reached, the last the
    /// extreme held at the end. No pivots when the threshold is never reached.
    /// </summary>
    public static List<int> Pivots(ReadOnlySpan<double> heightsM, double thresholdM)
    {
        var pivots = new List<int>();
        if (heightsM.IsEmpty)
        {
            return pivots;
        }

        int low = 0, high = 0, direction = 0, extreme = 0;
        for (int i = 1; i < heightsM.Length; i++)
        {
            double h = heightsM[i];
            if (direction == 0)
            {
                low = h < heightsM[low] ? i : low;
                high = h > heightsM[high] ? i : high;
                if (h - heightsM[low] >= thresholdM)
                {
                    pivots.Add(low);
                    (direction, extreme) = (1, i);
                }
                else if (heightsM[high] - h >= thresholdM)
                {
                    pivots.Add(high);
                    (direction, extreme) = (-1, i);
                }
            }
            else if ((h - heightsM[extreme]) * direction > 0)
            {
                extreme = i;
            }
            else if ((heightsM[extreme] - h) * direction >= thresholdM)
            {
                pivots.Add(extreme);
                (direction, extreme) = (-direction, i);
            }
        }

        if (direction != 0)
        {
            pivots.Add(extreme);
        }

        return pivots;
    }

    private static int Mirror(int i, int n)
    {
        int period = 2 * n;
        int m = ((i % period) + period) % period;
        return m < n ? m : period - 1 - m;
    }
}
