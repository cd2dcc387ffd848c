using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Puts routes one after the other without repeating the point where they meet.</summary>
internal static class RouteJoin
{
    /// <summary>Routes in the order of travel as one; a leap of more than a metre is a gap and a finding.</summary>
    public static RideRoute Of(IReadOnlyList<RideRoute> parts, string name, string description, IReadOnlyList<RouteWaypoint> waypoints, IReadOnlyList<Finding> findings, HeightSource source)
    {
        var builder = new RouteColumnsBuilder();
        var cum = new List<double>();
        var gaps = new List<RouteGap>();
        var sections = new List<RouteSection>();
        var notes = new List<Finding>(findings);
        double lat = double.NaN, lon = double.NaN, ele = double.NaN;
        bool ordered = true;
        long latest = RouteColumns.NoTime;
        foreach (RideRoute part in parts)
        {
            ReadOnlySpan<double> pLat = part.LatDeg, pLon = part.LonDeg, pEle = part.ElevationM, pCum = part.CumM;
            ReadOnlySpan<long> ticks = part.UtcTicks;
            int first = 0;
            double offset = 0;
            if (cum.Count > 0)
            {
                double leg = Grid(GeodesyKernel.DistanceM(lat, lon, pLat[0], pLon[0]));
                bool same = lat == pLat[0] && lon == pLon[0] && (double.IsNaN(ele) == (pEle.IsEmpty || double.IsNaN(pEle[0])) || !double.IsNaN(ele));
                if (same)
                {
                    first = 1;
                    offset = cum[^1];
                }
                else
                {
                    offset = cum[^1] + leg;
                    if (leg > RideRoute.GapM)
                    {
                        gaps.Add(new RouteGap(cum[^1], leg, cum.Count - 1));
                        notes.Add(new Finding(RoutesFindingCodes.Gap, FindingSeverity.Caution, name,
                            $"The parts do not meet at {Text.F(cum[^1] / 1000, 2)} km ({Text.F(lat, 5)}, {Text.F(lon, 5)}); the route goes {Text.F(leg, 0)} m straight across.",
                            new FindingValue("at_m", Text.F(cum[^1], 1)), new FindingValue("gap_m", Text.F(leg, 1))));
                    }
                }
            }

            int before = cum.Count - first;
            for (int i = first; i < pLat.Length; i++)
            {
                long t = ticks.IsEmpty ? RouteColumns.NoTime : ticks[i];
                if (t != RouteColumns.NoTime)
                {
                    ordered &= latest == RouteColumns.NoTime || t >= latest;
                    latest = t;
                }

                builder.Add(pLat[i], pLon[i], pEle.IsEmpty ? double.NaN : pEle[i], t);
                cum.Add(offset + pCum[i]);
            }

            if (pLat.Length > first)
            {
                (lat, lon, ele) = (pLat[^1], pLon[^1], pEle.IsEmpty ? double.NaN : pEle[^1]);
            }

            gaps.AddRange(part.Gaps.Select(g => new RouteGap(offset + g.AtM, g.LengthM, before + g.PointIndex)));
            foreach (RouteSection s in part.Sections)
            {
                double from = offset + s.FromM, to = Math.Min(offset + s.ToM, cum[^1]);
                if (sections.Count > 0)
                {
                    from = Math.Max(from, sections[^1].ToM);
                    if (sections[^1].ToM == from && sections[^1].SaysTheSame(s) && to >= from)
                    {
                        sections[^1] = s.Moved(sections[^1].FromM, to);
                        continue;
                    }
                }

                if (to > from)
                {
                    sections.Add(s.Moved(from, to));
                }
            }
        }

        RouteColumns columns = builder.Build();
        if (!ordered)
        {
            // Times of several days, or run backward, say nothing about this route.
            columns = new RouteColumns(columns.LatDeg, columns.LonDeg, columns.ElevationM, null);
        }

        return new RideRoute(columns, 0, cum.Count, name, description, waypoints, gaps, sections, notes, [.. cum]) { HeightSource = source };
    }

    internal static double Grid(double m) => Math.Round(m * (1 << 30)) * RouteKernel.GridM;
}
