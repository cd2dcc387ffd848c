using NetTopologySuite.Geometries;
using NetTopologySuite.Index.Strtree;
using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Finds the legs of a route near a place: a tree over blocks of legs in Earth-centred coordinates seen from two axes.</summary>
internal sealed class RouteIndex
{
    private const int Block = 32;

    /// <summary>Beyond the nearest pass others count up to here.</summary>
    [Source("assumption-routes-passes", "50 m beyond the nearest")]
    private const double BeyondM = 50;

    /// <summary>Two passes are told apart where the route moves this much further away between them.</summary>
    [Source("assumption-routes-passes", "25 m further away between two passes")]
    private const double ApartM = 25;

    private readonly RideRoute _route;
    private readonly STRtree<int> _tree = new();
    private readonly double[] _lonDeg;

    public RouteIndex(RideRoute route)
    {
        _route = route;
        ReadOnlySpan<double> lat = route.LatDeg, lon = route.LonDeg;

        // Longitudes unrolled, so that a line across the antimeridian stays in one piece.
        _lonDeg = new double[lat.Length];
        _lonDeg[0] = lon[0];
        for (int i = 1; i < lat.Length; i++)
        {
            _lonDeg[i] = _lonDeg[i - 1] + Math.IEEERemainder(lon[i] - lon[i - 1], 360);
        }

        for (int b = 0; b < Math.Max(1, lat.Length - 1); b += Block)
        {
            var box = new Envelope();
            for (int i = b; i <= Math.Min(b + Block, lat.Length - 1); i++)
            {
                box.ExpandToInclude(_lonDeg[i], lat[i]);
            }

            // A long leg bulges toward the pole beyond its ends.
            if (box.Width > 1)
            {
                box.ExpandBy(0, Math.Min(90, box.Width));
            }

            _tree.Insert(box, b);
        }

        _tree.Build();
    }

    public RoutePass Nearest(GeoPoint place)
    {
        double radius = 100;
        while (true)
        {
            List<Candidate> near = Candidates(place, radius);
            if (near.Count > 0 && near.Min(c => c.OffsetM) <= radius)
            {
                return Pass(near.MinBy(c => c.OffsetM));
            }

            if (radius > 3e7)
            {
                return Pass(All(place).MinBy(c => c.OffsetM));
            }

            radius *= 4;
        }
    }

    public IReadOnlyList<RoutePass> Passes(GeoPoint place, double? withinM)
    {
        double within = withinM ?? (Nearest(place).OffsetM + BeyondM);
        List<Candidate> near = Candidates(place, within + ApartM);
        var passes = new List<RoutePass>();
        Candidate? low = null;
        double high = double.NegativeInfinity;
        int last = int.MinValue;
        foreach (Candidate c in near)
        {
            if (low is { } l)
            {
                // The legs between two neighbours in this list that do not follow each other are all further away than the search went.
                high = c.Leg > last + 1 ? double.PositiveInfinity : Math.Max(high, c.EntryM);
                if (high - l.OffsetM >= ApartM)
                {
                    Keep(l);
                    low = null;
                }
            }

            if (low is null)
            {
                // After a pass the next one counts only where the route comes back by the same margin.
                if (passes.Count == 0 || c.Leg > last + 1 || high - c.OffsetM >= ApartM || double.IsPositiveInfinity(high))
                {
                    low = c;
                    high = c.ExitM;
                }
                else
                {
                    high = Math.Max(high, c.ExitM);
                }
            }
            else if (c.OffsetM < low.Value.OffsetM)
            {
                low = c;
                high = c.ExitM;
            }
            else
            {
                high = Math.Max(high, c.ExitM);
                if (high - low.Value.OffsetM >= ApartM)
                {
                    Keep(low.Value);
                    low = null;
                }
            }

            last = c.Leg;
        }

        if (low is { } rest)
        {
            Keep(rest);
        }

        return passes;

        void Keep(Candidate c)
        {
            if (c.OffsetM <= within)
            {
                passes.Add(Pass(c));
            }
        }
    }

    /// <summary>One pass a place so that distances ascend, at the least sum of offsets; a step back costs more than any offset.</summary>
    public static IReadOnlyList<RoutePass> InOrder(IReadOnlyList<IReadOnlyList<RoutePass>> passes)
    {
        const double StepBackCost = 1e9;
        if (passes.Count == 0)
        {
            return [];
        }

        double[] cost = [.. passes[0].Select(p => p.OffsetM)];
        var from = new List<int[]>();
        for (int k = 1; k < passes.Count; k++)
        {
            double[] next = new double[passes[k].Count];
            int[] best = new int[next.Length];
            for (int j = 0; j < next.Length; j++)
            {
                next[j] = double.PositiveInfinity;
                for (int i = 0; i < cost.Length; i++)
                {
                    double c = cost[i] + passes[k][j].OffsetM + (passes[k][j].AlongM < passes[k - 1][i].AlongM ? StepBackCost : 0);
                    if (c < next[j])
                    {
                        (next[j], best[j]) = (c, i);
                    }
                }
            }

            from.Add(best);
            cost = next;
        }

        var chosen = new RoutePass[passes.Count];
        int at = Array.IndexOf(cost, cost.Min());
        for (int k = passes.Count - 1; k >= 0; k--)
        {
            chosen[k] = passes[k][at];
            at = k > 0 ? from[k - 1][at] : at;
        }

        return chosen;
    }

    private RoutePass Pass(Candidate c)
    {
        ReadOnlySpan<double> cum = _route.CumM;
        double along = c.Leg + 1 < cum.Length ? cum[c.Leg] + (c.Fraction * (cum[c.Leg + 1] - cum[c.Leg])) : cum[c.Leg];
        int index = c.Fraction >= 1 && c.Leg + 1 < cum.Length ? c.Leg + 1 : c.Leg;
        return new RoutePass(along, c.OffsetM, index, _route.PointAt(UnitsNet.Length.FromMeters(along)));
    }

    private List<Candidate> All(GeoPoint place)
    {
        var all = new List<Candidate>();
        for (int i = 0; i < Math.Max(1, _route.Count - 1); i++)
        {
            all.Add(Leg(place, i));
        }

        return all;
    }

    /// <summary>Legs within a distance of a place, in order.</summary>
    private List<Candidate> Candidates(GeoPoint place, double radiusM)
    {
        // The shortest degree of latitude is 110.57 km; of longitude it shrinks with the cosine.
        double dLat = radiusM / 110_000 * 1.01;
        double cos = Math.Cos(Math.Min(89.9, Math.Abs(place.LatDeg) + dLat) * Wgs84.RadPerDeg);
        if (dLat > 20 || radiusM / 110_000 / cos > 90 || Math.Abs(place.LatDeg) + dLat > 89)
        {
            return [.. All(place).Where(c => c.OffsetM <= radiusM)];
        }

        double dLon = dLat / cos;
        var blocks = new SortedSet<int>();
        double lowest = _lonDeg.Min(), highest = _lonDeg.Max();
        for (double turn = Math.Floor((lowest - 540) / 360) * 360; turn <= highest + 540; turn += 360)
        {
            double lon = place.LonDeg + turn;
            if (lon + dLon < lowest || lon - dLon > highest)
            {
                continue;
            }

            blocks.UnionWith(_tree.Query(new Envelope(lon - dLon, lon + dLon, place.LatDeg - dLat, place.LatDeg + dLat)));
        }

        var near = new List<Candidate>();
        foreach (int b in blocks)
        {
            for (int i = b; i < Math.Min(b + Block, Math.Max(1, _route.Count - 1)); i++)
            {
                Candidate c = Leg(place, i);
                if (c.OffsetM <= radiusM)
                {
                    near.Add(c);
                }
            }
        }

        return near;
    }

    /// <summary>The place on a leg nearest to a place: foot of the perpendicular on the chord, offset over the ellipsoid.</summary>
    private Candidate Leg(GeoPoint place, int i)
    {
        ReadOnlySpan<double> lat = _route.LatDeg, lon = _route.LonDeg;
        (double px, double py, double pz) = GeodesyKernel.ToEcef(place.LatDeg, place.LonDeg);
        (double ax, double ay, double az) = GeodesyKernel.ToEcef(lat[i], lon[i]);
        if (i + 1 >= lat.Length)
        {
            double d = GeodesyKernel.DistanceM(place.LatDeg, place.LonDeg, lat[i], lon[i]);
            return new Candidate(i, 0, d, d, d);
        }

        (double bx, double by, double bz) = GeodesyKernel.ToEcef(lat[i + 1], lon[i + 1]);
        double ux = bx - ax, uy = by - ay, uz = bz - az, vx = px - ax, vy = py - ay, vz = pz - az;
        double uu = (ux * ux) + (uy * uy) + (uz * uz);
        double t = uu > 0 ? Math.Clamp(((ux * vx) + (uy * vy) + (uz * vz)) / uu, 0, 1) : 0;
        if (uu > GeodesyKernel.ShortLineM * GeodesyKernel.ShortLineM)
        {
            t = Refine(place, i);
        }

        (double flat, double flon) = GeodesyKernel.Between(lat[i], lon[i], lat[i + 1], lon[i + 1], t);
        return new Candidate(i, t,
            GeodesyKernel.DistanceM(place.LatDeg, place.LonDeg, flat, flon),
            Math.Sqrt((vx * vx) + (vy * vy) + (vz * vz)),
            Math.Sqrt(((px - bx) * (px - bx)) + ((py - by) * (py - by)) + ((pz - bz) * (pz - bz))));
    }

    // Legs over 20 km: the distance to a geodesic has one low over less than half the Earth; golden section.
    private double Refine(GeoPoint place, int i)
    {
        const double Golden = 0.6180339887498949;
        double lat1 = _route.LatDeg[i], lon1 = _route.LonDeg[i], lat2 = _route.LatDeg[i + 1], lon2 = _route.LonDeg[i + 1];
        double lo = 0, hi = 1, a = hi - Golden, b = lo + Golden, fa = F(a), fb = F(b);
        for (int k = 0; k < 40; k++)
        {
            if (fa <= fb)
            {
                (hi, b, fb) = (b, a, fa);
                a = hi - (Golden * (hi - lo));
                fa = F(a);
            }
            else
            {
                (lo, a, fa) = (a, b, fb);
                b = lo + (Golden * (hi - lo));
                fb = F(b);
            }
        }

        double t = (lo + hi) / 2, f = F(t);
        return F(0) <= f ? 0 : F(1) < f ? 1 : t;

        double F(double t)
        {
            (double lat, double lon) = GeodesyKernel.Between(lat1, lon1, lat2, lon2, t);
            return GeodesyKernel.DistanceM(place.LatDeg, place.LonDeg, lat, lon);
        }
    }

    /// <param name="Leg">Number of the leg.</param>
    /// <param name="Fraction">Share of the leg at the nearest place.</param>
    /// <param name="OffsetM">Distance there.</param>
    /// <param name="EntryM">Distance to the first end.</param>
    /// <param name="ExitM">Distance to the second end.</param>
    private readonly record struct Candidate(int Leg, double Fraction, double OffsetM, double EntryM, double ExitM);
}
