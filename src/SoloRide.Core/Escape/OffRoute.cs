using SoloRide.Internal;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>Tells whether a position is off the route, and which way back, to the nearest line on the ground and to the nearest exit.</summary>
/// <remarks>
/// Straight lines on the plane that touches the ellipsoid at the position: within 0.001 % out to 20 km. No alarm is given inside the error of the
/// position. Straight ways see neither cliffs nor rivers.
/// </remarks>
[Entry]
public static class OffRoute
{
    /// <summary>Places of the route that are this much farther than the nearest still count as equally near.</summary>
    private const double EquallyNearM = 1;

    /// <summary>Tests a position.</summary>
    /// <param name="route">Places of the route in order; at least two.</param>
    /// <param name="position">The position.</param>
    /// <param name="error">Its error (radius that holds the truth); zero or more.</param>
    /// <param name="options">Corridor, lines and exits; null for the defaults.</param>
    /// <returns>Where it lies.</returns>
    /// <exception cref="ArgumentException">Fewer than two places, or a negative error.</exception>
    public static RoutePosition Test(IReadOnlyList<GeoPoint> route, GeoPoint position, Length error, OffRouteOptions? options = null)
    {
        if (Guard.NotNull(route).Count < 2)
        {
            throw new ArgumentException($"route holds {Text.F(route.Count, 0)} places; at least two are needed.", nameof(route));
        }

        double errorM = Guard.NotNegative(error.Meters, "m", nameof(error));
        options ??= new OffRouteOptions();
        var near = Nearest(route, position, options.LastAlongRoute?.Meters);
        double corridorM = options.Corridor.Meters;
        OffRouteVerdict verdict = near.OffM <= corridorM ? OffRouteVerdict.OnRoute
            : near.OffM - errorM > corridorM ? OffRouteVerdict.OffRoute
            : OffRouteVerdict.Unsure;
        StraightWay? line = null, exit = null;
        foreach (LineFeature f in options.Lines)
        {
            var way = Nearest(f.Points, position, null);
            line = line is null || way.OffM < line.Distance.Meters ? Straight(f.Name, way.EastM, way.NorthM) : line;
        }

        foreach (ExitPoint e in options.Exits)
        {
            if (e.Place is { } p)
            {
                (double east, double north) = PlaneKernel.Offset(position, p);
                StraightWay way = Straight(e.Name, east, north);
                exit = exit is null || way.Distance < exit.Distance ? way : exit;
            }
        }

        return new RoutePosition(
            verdict, Length.FromMeters(near.OffM), Length.FromMeters(errorM), Length.FromMeters(near.AlongM), Straight("route", near.EastM, near.NorthM), line, exit);
    }

    /// <summary>Tests a position against a route.</summary>
    /// <param name="route">The route.</param>
    /// <param name="position">The position.</param>
    /// <param name="error">Its error (radius that holds the truth); zero or more.</param>
    /// <param name="options">Corridor, lines and exits; null for the defaults.</param>
    /// <returns>Where it lies.</returns>
    /// <exception cref="ArgumentException">A route of one place, or a negative error.</exception>
    public static RoutePosition Test(RideRoute route, GeoPoint position, Length error, OffRouteOptions? options = null)
        => Test([.. Guard.NotNull(route).Points.Select(p => p.Place)], position, error, options);

    private static StraightWay Straight(string name, double eastM, double northM)
    {
        double d = Math.Sqrt((eastM * eastM) + (northM * northM));
        double deg = Math.Atan2(eastM, northM) * 180 / Math.PI;
        return new StraightWay(name, Length.FromMeters(d), d > 0 ? (deg < 0 ? deg + 360 : deg) : double.NaN);
    }

    private static (double OffM, double AlongM, double EastM, double NorthM) Nearest(IReadOnlyList<GeoPoint> line, GeoPoint from, double? lastM)
    {
        double bestM = double.PositiveInfinity;
        (double OffM, double AlongM, double EastM, double NorthM) best = default;
        double alongM = 0;
        (double x0, double y0) = PlaneKernel.Offset(from, line[0]);
        if (line.Count == 1)
        {
            return (Math.Sqrt((x0 * x0) + (y0 * y0)), 0, x0, y0);
        }

        for (int i = 1; i < line.Count; i++)
        {
            (double x1, double y1) = PlaneKernel.Offset(from, line[i]);
            (double d, double t) = PlaneKernel.ToChord(x0, y0, x1, y1);
            (double east, double north) = PlaneKernel.Offset(line[i - 1], line[i]);
            double lengthM = Math.Sqrt((east * east) + (north * north));
            double at = alongM + (t * lengthM);
            bool nearer = d < bestM - EquallyNearM || (lastM is null && d < bestM);
            bool fits = lastM is { } last && d < bestM + EquallyNearM && Math.Abs(at - last) < Math.Abs(best.AlongM - last);
            if (nearer || fits || double.IsPositiveInfinity(bestM))
            {
                best = (d, at, x0 + (t * (x1 - x0)), y0 + (t * (y1 - y0)));
                bestM = Math.Min(bestM, d);
            }

            alongM += lengthM;
            (x0, y0) = (x1, y1);
        }

        return best;
    }
}
