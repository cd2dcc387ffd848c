using System.Collections.Immutable;
using System.Globalization;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>Finds and mends what recordings usually suffer from.</summary>
[Source("assumption-routes-clean", "rules")]
internal static class RouteCleaning
{
    private const int LongestSpike = 3;
    private const double SpikeDetour = 4, SpikeM = 100, SpikeLegs = 3;
    private const double HeightJumpM = 30, HeightJumpGrade = 1.5, ZeroAwayM = 20;

    public static CleanedRoute Clean(RideRoute route, CleanOptions options)
    {
        int n = route.Count;
        double[] cum = route.CumM.ToArray(), lat = route.LatDeg.ToArray(), lon = route.LonDeg.ToArray();
        double[]? ele = route.ElevationM.IsEmpty ? null : route.ElevationM.ToArray();
        long[]? ticks = route.UtcTicks.IsEmpty ? null : route.UtcTicks.ToArray();
        bool[] drop = new bool[n];
        var changes = new List<RouteChange>();
        if (options.Kinds.HasFlag(CleanKinds.Times) && ticks is not null)
        {
            Times(ticks, cum, changes);
        }

        if (options.Kinds.HasFlag(CleanKinds.Positions))
        {
            Positions(route, lat, lon, ticks, options.SpeedMps, drop, cum, changes);
        }

        if (options.Kinds.HasFlag(CleanKinds.Duplicates))
        {
            Duplicates(lat, lon, ticks, drop, cum, changes);
        }

        if (options.Kinds.HasFlag(CleanKinds.Stops) && ticks is not null)
        {
            Stops(lat, lon, ticks, options, drop, cum, changes);
        }

        if (options.Kinds.HasFlag(CleanKinds.Heights) && ele is not null)
        {
            Heights(ele, drop, cum, changes);
        }

        if (changes.Count == 0)
        {
            return new CleanedRoute(route, route, []);
        }

        RouteChange[] ordered = [.. changes.OrderBy(c => c.PointIndex).ThenBy(c => c.Kind)];
        string summary = string.Join(", ", ordered.GroupBy(c => c.Kind).OrderBy(g => g.Key).Select(g => string.Create(CultureInfo.InvariantCulture, $"{g.Count()} {Words(g.Key)}")));
        RideRoute cleaned = route.Kept(drop, ele, ticks,
            [.. route.Findings, new Finding(RoutesFindingCodes.Cleaned, FindingSeverity.Note, route.Name, $"Cleaning changed the route: {summary}.")]);
        return new CleanedRoute(cleaned, route, [.. ordered]);
    }

    private static string Words(CleanKinds kind) => kind switch
    {
        CleanKinds.Duplicates => "runs of equal places",
        CleanKinds.Times => "runs of backward times",
        CleanKinds.Positions => "position spikes",
        CleanKinds.Heights => "runs of wrong heights",
        _ => "stops",
    };

    private static RouteChange Change(CleanKinds kind, int index, int count, double[] cum, string reason)
        => new(kind, index, count, Length.FromMeters(cum[index]), reason);

    /// <summary>Keeps the longest rising row of times; the others become unknown.</summary>
    private static void Times(long[] ticks, double[] cum, List<RouteChange> changes)
    {
        int[] tail = new int[ticks.Length], before = new int[ticks.Length];
        int length = 0, known = 0;
        for (int i = 0; i < ticks.Length; i++)
        {
            if (ticks[i] == RouteColumns.NoTime)
            {
                continue;
            }

            known++;
            int lo = 0, hi = length;
            while (lo < hi)
            {
                int mid = (lo + hi) / 2;
                if (ticks[tail[mid]] <= ticks[i])
                {
                    lo = mid + 1;
                }
                else
                {
                    hi = mid;
                }
            }

            before[i] = lo > 0 ? tail[lo - 1] : -1;
            tail[lo] = i;
            length = Math.Max(length, lo + 1);
        }

        if (length == known)
        {
            return;
        }

        bool[] keep = new bool[ticks.Length];

        // Where most times run backward none of them can be trusted.
        bool none = length < known / 2;
        for (int i = none || length == 0 ? -1 : tail[length - 1]; i >= 0; i = before[i])
        {
            keep[i] = true;
        }

        for (int i = 0; i < ticks.Length;)
        {
            int first = i, count = 0;
            while (i < ticks.Length && (ticks[i] == RouteColumns.NoTime || !keep[i]))
            {
                count += ticks[i] != RouteColumns.NoTime ? 1 : 0;
                ticks[i++] = RouteColumns.NoTime;
            }

            if (count > 0)
            {
                changes.Add(Change(CleanKinds.Times, first, count, cum, none
                    ? "most times run backward; all times left out"
                    : string.Create(CultureInfo.InvariantCulture, $"{count} times before an earlier point's; left out")));
            }

            i += i == first ? 1 : 0;
        }
    }

    private static void Positions(RideRoute route, double[] lat, double[] lon, long[]? ticks, double maxMps, bool[] drop, double[] cum, List<RouteChange> changes)
    {
        int n = lat.Length;
        if (n < 3)
        {
            return;
        }

        double[] legs = new double[n - 1];
        for (int i = 0; i < n - 1; i++)
        {
            legs[i] = cum[i + 1] - cum[i];
        }

        double median = MathNet.Numerics.Statistics.ArrayStatistics.MedianInplace(legs);
        var gapAt = route.Gaps.Select(g => g.PointIndex).ToHashSet();
        int last = 0;
        for (int i = 1; i < n - 1; i++)
        {
            if (gapAt.Contains(i - 1) || gapAt.Contains(i))
            {
                last = i;
                continue;
            }

            bool found = false;
            for (int k = 1; k <= LongestSpike && i + k < n && !found; k++)
            {
                double there = D(last, i), back = D(i + k - 1, i + k), direct = D(last, i + k);
                bool fast = Mps(last, i, there) is { } a && Mps(i + k - 1, i + k, back) is { } b && Math.Max(a, b) > maxMps && Math.Min(a, b) > maxMps / 2;
                bool timed = ticks is not null && ticks[i] != RouteColumns.NoTime;
                bool far = !timed && there > SpikeM && back > SpikeM && Math.Min(there, back) > SpikeLegs * median;
                if ((fast || far) && there + back > SpikeDetour * Math.Max(direct, median))
                {
                    for (int j = i; j < i + k; j++)
                    {
                        drop[j] = true;
                    }

                    changes.Add(Change(CleanKinds.Positions, i, k, cum, string.Create(CultureInfo.InvariantCulture,
                        $"{Text.F(there, 0)} m away and {Text.F(back, 0)} m back while the neighbours are {Text.F(direct, 0)} m apart; {k} point(s) removed")));
                    i += k - 1;
                    found = true;
                }
            }

            if (!found)
            {
                last = i;
            }
        }

        double D(int a, int b) => GeodesyKernel.DistanceM(lat[a], lon[a], lat[b], lon[b]);

        double? Mps(int a, int b, double m)
            => ticks is null || ticks[a] == RouteColumns.NoTime || ticks[b] == RouteColumns.NoTime || ticks[b] <= ticks[a] ? null : m * TimeSpan.TicksPerSecond / (ticks[b] - ticks[a]);
    }

    private static void Duplicates(double[] lat, double[] lon, long[]? ticks, bool[] drop, double[] cum, List<RouteChange> changes)
    {
        for (int i = 0; i < lat.Length;)
        {
            int end = i + 1;
            while (end < lat.Length && lat[end] == lat[i] && lon[end] == lon[i])
            {
                end++;
            }

            // With times the first and the last stay: they tell how long the rider stood.
            int keepLast = ticks is not null && end - 1 > i && ticks[end - 1] != RouteColumns.NoTime && ticks[i] != RouteColumns.NoTime && ticks[end - 1] > ticks[i] ? 1 : 0;
            int removed = 0;
            for (int j = i + 1; j < end - keepLast; j++)
            {
                removed += drop[j] ? 0 : 1;
                drop[j] = true;
            }

            if (removed > 0)
            {
                changes.Add(Change(CleanKinds.Duplicates, i + 1, removed, cum, string.Create(CultureInfo.InvariantCulture, $"{removed} point(s) at the same place as the one before; removed")));
            }

            i = end;
        }
    }

    private static void Stops(double[] lat, double[] lon, long[] ticks, CleanOptions options, bool[] drop, double[] cum, List<RouteChange> changes)
    {
        for (int i = 0; i < lat.Length; i++)
        {
            if (drop[i] || ticks[i] == RouteColumns.NoTime)
            {
                continue;
            }

            int last = i;
            for (int j = i + 1; j < lat.Length; j++)
            {
                if (drop[j] || ticks[j] == RouteColumns.NoTime)
                {
                    continue;
                }

                if (GeodesyKernel.DistanceM(lat[i], lon[i], lat[j], lon[j]) > options.RadiusM)
                {
                    break;
                }

                last = j;
            }

            var span = TimeSpan.FromTicks(ticks[last] - ticks[i]);
            int removed = 0;
            if (last > i + 1 && span >= options.StopTime)
            {
                for (int j = i + 1; j < last; j++)
                {
                    removed += drop[j] ? 0 : 1;
                    drop[j] = true;
                }
            }

            if (removed > 0)
            {
                changes.Add(Change(CleanKinds.Stops, i, removed, cum, string.Create(CultureInfo.InvariantCulture,
                    $"stood for {Text.F(span.TotalMinutes, 1)} min within {Text.F(options.RadiusM, 0)} m; {removed} wandering point(s) between arrival and departure removed")));
                i = last - 1;
            }
        }
    }

    private static void Heights(double[] ele, bool[] drop, double[] cum, List<RouteChange> changes)
    {
        int n = ele.Length;
        int known = 0, zero = 0;
        foreach (double h in ele)
        {
            known += double.IsNaN(h) ? 0 : 1;
            zero += h == 0 ? 1 : 0;
        }

        if (known == 0)
        {
            return;
        }

        if (zero == known && known >= 10 && cum[^1] > 500)
        {
            Array.Fill(ele, double.NaN);
            changes.Add(Change(CleanKinds.Heights, 0, n, cum, "all heights are exactly 0 m: none was recorded; left out"));
            return;
        }

        // Zeros among heights that are far from the sea.
        for (int i = 0; i < n;)
        {
            if (ele[i] != 0)
            {
                i++;
                continue;
            }

            int first = i;
            while (i < n && ele[i] == 0)
            {
                i++;
            }

            double before = first > 0 ? ele[first - 1] : double.NaN, after = i < n ? ele[i] : double.NaN;
            bool away = (double.IsNaN(before) || Math.Abs(before) > ZeroAwayM) && (double.IsNaN(after) || Math.Abs(after) > ZeroAwayM) && !(double.IsNaN(before) && double.IsNaN(after));
            if (away)
            {
                ele.AsSpan(first, i - first).Fill(double.NaN);
                changes.Add(Change(CleanKinds.Heights, first, i - first, cum, string.Create(CultureInfo.InvariantCulture, $"{i - first} height(s) of exactly 0 m between others far from it; left out")));
            }
        }

        // A height that jumps away and back.
        int a = -1;
        for (int i = 0; i < n; i++)
        {
            if (double.IsNaN(ele[i]) || drop[i])
            {
                continue;
            }

            int c = i + 1;
            while (c < n && (double.IsNaN(ele[c]) || drop[c]))
            {
                c++;
            }

            if (a >= 0 && c < n)
            {
                double up = ele[i] - ele[a], down = ele[i] - ele[c];
                double run = Math.Max(1, Math.Max(cum[i] - cum[a], cum[c] - cum[i]));
                if (up * down > 0 && Math.Min(Math.Abs(up), Math.Abs(down)) > Math.Max(HeightJumpM, HeightJumpGrade * run))
                {
                    changes.Add(Change(CleanKinds.Heights, i, 1, cum, string.Create(CultureInfo.InvariantCulture, $"a height {Text.F(up, 0)} m off both neighbours; left out")));
                    ele[i] = double.NaN;
                    continue;
                }
            }

            a = i;
        }
    }
}
