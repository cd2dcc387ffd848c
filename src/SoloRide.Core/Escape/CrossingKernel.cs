namespace SoloRide.Escape;

/// <summary>Where a line meets itself: crossings and parts that run side by side.</summary>
internal static class CrossingKernel
{
    /// <summary>Two places of the line that are the same on the ground.</summary>
    /// <param name="FirstM">Distance along the line, the smaller one.</param>
    /// <param name="SecondM">Distance along the line, the larger one.</param>
    /// <param name="GapM">How far they are apart.</param>
    /// <param name="RiseM">Height of the second over the first; NaN when not known.</param>
    public readonly record struct Meeting(double FirstM, double SecondM, double GapM, double RiseM);

    /// <summary>
    /// Finds them on a uniform grid of cells. Of meetings near each other on both parts the closest is kept; parts that run together meet at
    /// each of their points.
    /// </summary>
    /// <param name="eastM">Places of the line on a plane.</param>
    /// <param name="northM">Places of the line on a plane.</param>
    /// <param name="heightM">Their heights; NaN where not known.</param>
    /// <param name="alongM">Their distances along the line, ascending.</param>
    /// <param name="toleranceM">Parts this near meet.</param>
    /// <param name="leastLoopM">Shorter loops are left alone.</param>
    public static List<Meeting> Find(double[] eastM, double[] northM, double[] heightM, double[] alongM, double toleranceM, double leastLoopM)
    {
        int chords = alongM.Length - 1;
        var found = new List<Meeting>();
        double lengthM = alongM[^1] - alongM[0], longestM = 0;
        for (int i = 0; i < chords; i++)
        {
            longestM = Math.Max(longestM, Math.Max(Math.Abs(eastM[i + 1] - eastM[i]), Math.Abs(northM[i + 1] - northM[i])));
        }

        if (!(lengthM > leastLoopM) || !double.IsFinite(longestM))
        {
            return found;
        }

        double cellM = Math.Max(Math.Max((lengthM / chords) + (2 * toleranceM), longestM / 64), 1);
        var head = new Dictionary<(int X, int Y), int>();
        var next = new List<int>();
        var member = new List<int>();
        for (int j = 0; j < chords; j++)
        {
            (int x0, int x1, int y0, int y1) = Cells(j);
            for (int x = x0; x <= x1; x++)
            {
                for (int y = y0; y <= y1; y++)
                {
                    int first = head.TryGetValue((x, y), out int h) ? h : -1;
                    for (int k = first; k >= 0; k = next[k])
                    {
                        int i = member[k];
                        (int u0, _, int v0, _) = Cells(i);

                        // Each pair is looked at once, in the first cell that both share.
                        if (x == Math.Max(x0, u0) && y == Math.Max(y0, v0) && alongM[j + 1] - alongM[i] > leastLoopM)
                        {
                            Pair(i, j);
                        }
                    }

                    head[(x, y)] = member.Count;
                    member.Add(j);
                    next.Add(first);
                }
            }
        }

        return Thinned(found, Math.Max(4 * toleranceM, 1));

        (int X0, int X1, int Y0, int Y1) Cells(int i)
        {
            double half = toleranceM / 2;
            return (
                (int)Math.Floor((Math.Min(eastM[i], eastM[i + 1]) - half) / cellM), (int)Math.Floor((Math.Max(eastM[i], eastM[i + 1]) + half) / cellM),
                (int)Math.Floor((Math.Min(northM[i], northM[i + 1]) - half) / cellM), (int)Math.Floor((Math.Max(northM[i], northM[i + 1]) + half) / cellM));
        }

        void Pair(int i, int j)
        {
            (double gapM, double s, double t) = Nearest(eastM[i], northM[i], eastM[i + 1], northM[i + 1], eastM[j], northM[j], eastM[j + 1], northM[j + 1]);
            double a = alongM[i] + (s * (alongM[i + 1] - alongM[i])), b = alongM[j] + (t * (alongM[j + 1] - alongM[j]));
            if (gapM <= toleranceM && b - a > leastLoopM)
            {
                double ha = heightM[i] + (s * (heightM[i + 1] - heightM[i])), hb = heightM[j] + (t * (heightM[j + 1] - heightM[j]));
                found.Add(new Meeting(a, b, gapM, hb - ha));
            }
        }
    }

    /// <summary>The nearest points of two chords: distance, and the share of each chord.</summary>
    public static (double GapM, double S, double T) Nearest(double ax, double ay, double bx, double by, double cx, double cy, double dx, double dy)
    {
        double rx = bx - ax, ry = by - ay, qx = dx - cx, qy = dy - cy, det = (rx * qy) - (ry * qx);
        if (det != 0)
        {
            double s = (((cx - ax) * qy) - ((cy - ay) * qx)) / det, t = (((cx - ax) * ry) - ((cy - ay) * rx)) / det;
            if (s is >= 0 and <= 1 && t is >= 0 and <= 1)
            {
                return (0, s, t);
            }
        }

        (double Gap, double S, double T) best = (double.PositiveInfinity, 0, 0);
        End(ax, ay, cx, cy, dx, dy, 0, first: true);
        End(bx, by, cx, cy, dx, dy, 1, first: true);
        End(cx, cy, ax, ay, bx, by, 0, first: false);
        End(dx, dy, ax, ay, bx, by, 1, first: false);
        return best;

        void End(double px, double py, double ux, double uy, double vx, double vy, double own, bool first)
        {
            (double gap, double other) = PlaneKernel.ToChord(ux - px, uy - py, vx - px, vy - py);
            if (gap < best.Gap)
            {
                best = first ? (gap, own, other) : (gap, other, own);
            }
        }
    }

    private static List<Meeting> Thinned(List<Meeting> found, double nearM)
    {
        found.Sort((p, q) => p.GapM != q.GapM ? p.GapM.CompareTo(q.GapM) : p.FirstM != q.FirstM ? p.FirstM.CompareTo(q.FirstM) : p.SecondM.CompareTo(q.SecondM));
        var kept = new List<Meeting>();
        var byCell = new Dictionary<(long A, long B), List<Meeting>>();
        foreach (Meeting m in found)
        {
            long a = (long)Math.Floor(m.FirstM / nearM), b = (long)Math.Floor(m.SecondM / nearM);
            bool near = false;
            for (long x = a - 1; x <= a + 1 && !near; x++)
            {
                for (long y = b - 1; y <= b + 1 && !near; y++)
                {
                    near = byCell.TryGetValue((x, y), out List<Meeting>? list) && list.Exists(k => Math.Abs(k.FirstM - m.FirstM) < nearM && Math.Abs(k.SecondM - m.SecondM) < nearM);
                }
            }

            if (!near)
            {
                kept.Add(m);
                if (!byCell.TryGetValue((a, b), out List<Meeting>? own))
                {
                    byCell.Add((a, b), own = []);
                }

                own.Add(m);
            }
        }

        kept.Sort((p, q) => p.FirstM != q.FirstM ? p.FirstM.CompareTo(q.FirstM) : p.SecondM.CompareTo(q.SecondM));
        return kept;
    }
}
