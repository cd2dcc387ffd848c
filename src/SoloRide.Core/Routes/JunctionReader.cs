using NetTopologySuite.Geometries;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>Reads the junctions of a network along a route.</summary>
internal static class JunctionReader
{
    /// <summary>Directions are taken over this length, so that a wiggle at the post does not decide.</summary>
    [Source("assumption-routes-turn", "directions over 15 m")]
    private const double SightM = 15;

    [Source("assumption-routes-turn", "straight on and back within 25 degrees")]
    private const double StraightDeg = 25;

    private const double ExactM = 0.1;
    private const double ExactReachM = 1;
    private const double LooseReachM = 10;

    /// <summary>How far a junction may lie from a route: little for one that was laid out on the trails, so that no junction beside it is told.</summary>
    public static double Reach(RouteNetwork network, RideRoute route)
    {
        double loose = Math.Max(LooseReachM, 2 * network.Options.ToleranceM);
        for (int i = 0; i < route.Count; i++)
        {
            if (Off(route.LatDeg[i], route.LonDeg[i]))
            {
                return loose;
            }

            if (i > 0)
            {
                // Both ends on trails is not enough: the leg may go straight across.
                (double lat, double lon) = GeodesyKernel.Between(route.LatDeg[i - 1], route.LonDeg[i - 1], route.LatDeg[i], route.LonDeg[i], 0.5);
                if (Off(lat, lon))
                {
                    return loose;
                }
            }
        }

        return ExactReachM;

        bool Off(double latDeg, double lonDeg) => network.Nearest(new GeoPoint(latDeg, lonDeg), ExactM) is null;
    }

    public static IReadOnlyList<JunctionPass> Along(RouteNetwork network, RideRoute route, double withinM)
        => [.. Nodes(network, route, withinM, 3).Select(p => At(network, p.Node, route, p.AlongM))];

    /// <summary>Nodes of so many ways that a route comes to, in the order of travel.</summary>
    public static IReadOnlyList<(int Node, double AlongM)> Nodes(RouteNetwork network, RideRoute route, double withinM, int leastWays)
    {
        if (!(route.LengthM > 0) || network.NodeCount == 0)
        {
            return [];
        }

        var box = new Envelope();
        for (int i = 0; i < route.Count; i++)
        {
            box.ExpandToInclude(network.Unrolled(route.LonDeg[i]), route.LatDeg[i]);
        }

        double lat = Math.Min(89, Math.Max(Math.Abs(box.MinY), Math.Abs(box.MaxY)));
        box.ExpandBy(withinM / (100_000 * Math.Cos(lat * Wgs84.RadPerDeg)), withinM / 100_000);
        var passes = new List<(int Node, double AlongM)>();
        foreach (int node in network.NodesNear(box))
        {
            if (network.FirstArc[node + 1] - network.FirstArc[node] < leastWays)
            {
                continue;
            }

            GeoPoint place = network.PlaceOf(node);
            foreach (RoutePass pass in route.Project(place, Length.FromMeters(withinM)))
            {
                passes.Add((node, pass.AlongM));
            }
        }

        return [.. passes.OrderBy(p => p.AlongM).ThenBy(p => p.Node)];
    }

    public static TurnSide SideOf(double deg) => Math.Abs(deg) <= StraightDeg ? TurnSide.StraightOn : Math.Abs(deg) >= 180 - StraightDeg ? TurnSide.Back : deg > 0 ? TurnSide.Right : TurnSide.Left;

    private static JunctionPass At(RouteNetwork network, int node, RideRoute route, double alongM)
    {
        GeoPoint here = network.PlaceOf(node);

        // Over a sight's length, less where the route begins or ends sooner.
        double total = route.LengthM;
        bool loop = route.IsLoop;
        double before = alongM - SightM, after = alongM + SightM;
        before = before < 0 && alongM < 1 && loop ? Math.Max(0, total + before) : Math.Max(0, before);
        after = after > total && alongM > total - 1 && loop ? Math.Min(total, after - total) : Math.Min(total, after);
        double cameDeg = alongM > 1 || loop ? BearingDeg(route.PointAt(Length.FromMeters(before)), here) : double.NaN;
        double goesDeg = alongM < total - 1 || loop ? BearingDeg(here, route.PointAt(Length.FromMeters(after))) : double.NaN;
        double origin = double.IsNaN(cameDeg) ? 0 : cameDeg;
        var ways = new List<(JunctionWay Way, double Deg)>();
        for (int k = network.FirstArc[node]; k < network.FirstArc[node + 1]; k++)
        {
            NetworkTrail t = network.All[network.Arcs[k] >> 1];
            bool backward = (network.Arcs[k] & 1) == 1;
            double sight = Math.Min(SightM, t.LengthM);
            double deg = BearingDeg(here, t.Line.PointAt(Length.FromMeters(backward ? t.LengthM - sight : sight)));
            double turn = Math.IEEERemainder(deg - origin, 360);
            ways.Add((new JunctionWay(t, backward, Angle.FromDegrees(turn), SideOf(turn), false, false, t.Length, t.Bars(backward, null)) { ThereAndBack = network.ThereAndBack(t) }, deg));
        }

        ways = [.. ways.OrderBy(w => w.Way.Angle.Degrees).ThenBy(w => w.Way.Trail.Index).ThenBy(w => w.Way.Backward)];
        int taken = double.IsNaN(goesDeg) ? -1 : Nearest(goesDeg, -1);
        int came = double.IsNaN(cameDeg) ? -1 : Nearest(cameDeg + 180, -1);
        if (came == taken && came >= 0 && !Turns())
        {
            // Two ways close together: the second nearest is the one come by.
            came = Nearest(cameDeg + 180, taken);
        }

        double? angle = double.IsNaN(goesDeg) || double.IsNaN(cameDeg) ? null : Math.IEEERemainder(goesDeg - cameDeg, 360);
        return new JunctionPass(network.Junctions[node], Length.FromMeters(alongM), angle is { } a ? Angle.FromDegrees(a) : null, angle is { } b ? SideOf(b) : null,
            [.. ways.Select((w, i) => w.Way with { IsTaken = i == taken, IsCameBy = i == came })]);

        bool Turns() => Math.Abs(Math.IEEERemainder(goesDeg - cameDeg - 180, 360)) < 1;

        int Nearest(double deg, int except)
        {
            int best = -1;
            double least = double.PositiveInfinity;
            for (int i = 0; i < ways.Count; i++)
            {
                double d = Math.Abs(Math.IEEERemainder(ways[i].Deg - deg, 360));
                if (i != except && d < least)
                {
                    (best, least) = (i, d);
                }
            }

            return best;
        }
    }

    private static double BearingDeg(GeoPoint a, GeoPoint b) => a.LatDeg == b.LatDeg && a.LonDeg == b.LonDeg ? double.NaN : GeodesyKernel.Inverse(a.LatDeg, a.LonDeg, b.LatDeg, b.LonDeg).Azimuth1Deg;
}
