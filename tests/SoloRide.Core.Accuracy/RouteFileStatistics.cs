using System.Globalization;
using SoloRide.Routes;

namespace SoloRide.Accuracy;

/// <summary>Compares one row of a manifest of route files with what the library reads, through the public surface.</summary>
internal static class RouteFileStatistics
{
    /// <summary>What differs from the row; empty when all agree.</summary>
    public static IReadOnlyList<string> Compare(CsvRow row, string path)
    {
        string expected = row["expected"];
        bool ok = RouteFile.TryRead(path, out RouteFile? file, out InputFormatException? error);
        switch (expected)
        {
            case "reject":
                return ok ? ["read although it must be refused"] : Place(error!);
            case "reject_or_recover" or "no_stack_overflow":
                if (!ok)
                {
                    return Place(error!);
                }

                // Recovered: nothing may be invented, and the damage must be told.
                return file!.Findings.Count == 0 ? ["recovered without a finding"]
                    : !row.IsEmpty("line_points") && Points(file) > Math.Max(row.Whole("line_points"), row.Whole("line_points") + row.Whole("bad_points")) ? ["more points than the file holds"] : [];
        }

        if (!ok)
        {
            return ["refused: " + error!.Message];
        }

        var differences = new List<string>();
        Count("segments", file!.Lines.Count(l => l.Kind == RouteLineKind.Track));
        Count("routes", file.Lines.Count(l => l.Kind == RouteLineKind.Planned));
        Count("line_points", Points(file));
        Count("waypoints", file.Waypoints.Count);
        Count("bad_points", file.Lines.Sum(l => l.BadPointCount));
        RoutePoint[] all = [.. file.Lines.SelectMany(l => l.Points)];
        Count("points_with_ele", all.Count(p => !double.IsNaN(p.Place.ElevationM)));
        int timed = all.Count(p => p.Time is not null);
        if (!(row["exercises"].Contains("leap second", StringComparison.Ordinal) && timed == row.Whole("points_with_time") + 1))
        {
            Count("points_with_time", timed);
        }

        int duplicates = 0;
        double track = 0, route = 0, longest = 0, up = 0, down = 0;
        foreach (RouteLine line in file.Lines)
        {
            double height = double.NaN;
            for (int i = 0; i < line.Points.Count; i++)
            {
                GeoPoint p = line.Points[i].Place;
                if (!double.IsNaN(p.ElevationM))
                {
                    double d = p.ElevationM - height;
                    up += d > 0 ? d : 0;
                    down -= d < 0 ? d : 0;
                    height = p.ElevationM;
                }

                if (i == 0)
                {
                    continue;
                }

                GeoPoint q = line.Points[i - 1].Place;
                duplicates += p.LatDeg == q.LatDeg && p.LonDeg == q.LonDeg ? 1 : 0;
            }

            if (line.Points.Count > 1)
            {
                RideRoute r = RideRoute.FromPoints(line.Points);
                double length = r.Length.Meters;
                track += line.Kind == RouteLineKind.Track ? length : 0;
                route += line.Kind == RouteLineKind.Planned ? length : 0;
                for (int i = 1; i < r.Points.Count; i++)
                {
                    longest = Math.Max(longest, (r.DistanceAt(i) - r.DistanceAt(i - 1)).Meters);
                }
            }
        }

        Count("consecutive_duplicates", duplicates);
        Near("track_len2d_m", track, 1e-4 + (1e-9 * track));
        Near("route_len2d_m", route, 1e-4 + (1e-9 * route));
        Near("longest_leg_m", longest, 1e-4 + (1e-9 * longest));
        Near("raw_ascent_m", up, 1e-3);
        Near("raw_descent_m", down, 1e-3);
        if (all.Length > 0)
        {
            Near("min_lat", all.Min(p => p.Place.LatDeg), 1e-9);
            Near("min_lon", all.Min(p => p.Place.LonDeg), 1e-9);
            Near("max_lat", all.Max(p => p.Place.LatDeg), 1e-9);
            Near("max_lon", all.Max(p => p.Place.LonDeg), 1e-9);
        }

        if (timed > 0)
        {
            Near("duration_s", (all.Max(p => p.Time) - all.Min(p => p.Time))!.Value.TotalSeconds, 1e-3);
        }

        return differences;

        void Count(string column, int value)
        {
            if (!row.IsEmpty(column) && row.Whole(column) != value)
            {
                differences.Add(string.Create(CultureInfo.InvariantCulture, $"{column}: {value} instead of {row[column]}"));
            }
        }

        void Near(string column, double value, double tolerance)
        {
            // The tables are rounded to their last printed digit.
            string cell = row[column];
            int point = cell.IndexOf('.', StringComparison.Ordinal);
            double rounding = 0.51 * Math.Pow(10, point < 0 ? 0 : -(cell.Length - point - 1));
            if (cell.Length > 0 && !(Math.Abs(row.Num(column) - value) <= tolerance + rounding))
            {
                differences.Add(string.Create(CultureInfo.InvariantCulture, $"{column}: {value} instead of {cell}"));
            }
        }
    }

    private static int Points(RouteFile file) => file.Lines.Sum(l => l.Points.Count);

    private static IReadOnlyList<string> Place(InputFormatException e)
        => e.SourceName.Length > 0 && e.Reason.Length > 0 ? [] : ["refused without saying where and why"];
}
