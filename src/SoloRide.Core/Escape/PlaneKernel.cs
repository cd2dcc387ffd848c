using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Distances near a place on a plane that touches the ellipsoid there; error below 0.1 % within 20 km outside the polar caps.</summary>
internal static class PlaneKernel
{
    [Source("wgs84", "equatorial radius")]
    private const double EquatorM = 6378137;

    [Source("wgs84", "first eccentricity squared")]
    private const double Ecc2 = 6.69437999014e-3;

    /// <summary>[m] Metres east and north of an origin.</summary>
    public static (double EastM, double NorthM) Offset(GeoPoint origin, GeoPoint p)
    {
        double lat = (origin.LatDeg + p.LatDeg) / 2 * Math.PI / 180;
        double sin = Math.Sin(lat);
        double w = 1 - (Ecc2 * sin * sin);
        double meridian = EquatorM * (1 - Ecc2) / (w * Math.Sqrt(w));
        double parallel = EquatorM / Math.Sqrt(w) * Math.Cos(lat);
        double dLon = p.LonDeg - origin.LonDeg;
        dLon -= 360 * Math.Round(dLon / 360);
        return (dLon * Math.PI / 180 * parallel, (p.LatDeg - origin.LatDeg) * Math.PI / 180 * meridian);
    }

    /// <summary>The point of a chord nearest to the origin of the plane.</summary>
    public static (double DistanceM, double ChordFraction) ToChord(double x0M, double y0M, double x1M, double y1M)
    {
        double dx = x1M - x0M, dy = y1M - y0M, l2 = (dx * dx) + (dy * dy);
        double t = l2 > 0 ? Math.Clamp(-((x0M * dx) + (y0M * dy)) / l2, 0, 1) : 0;
        return (Math.Sqrt(Square(x0M + (t * dx)) + Square(y0M + (t * dy))), t);
    }

    private static double Square(double v) => v * v;
}
