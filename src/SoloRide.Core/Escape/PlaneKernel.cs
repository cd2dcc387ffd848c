using SoloRide.Internal;

namespace SoloRide.Escape;

/// <summary>Distances near a place on the plane that touches the ellipsoid there; error below 0.001 % within 20 km.</summary>
internal static class PlaneKernel
{
    /// <summary>[m] Metres east and north of an origin.</summary>
    public static (double EastM, double NorthM) Offset(GeoPoint origin, GeoPoint p)
    {
        (double east, double north, _) = GeodesyKernel.LocalOffsetM(origin.LatDeg, origin.LonDeg, p.LatDeg, p.LonDeg);
        return (east, north);
    }

    /// <summary>The point of a chord nearest to the origin of the plane.</summary>
    public static (double DistanceM, double ChordFraction) ToChord(double x0M, double y0M, double x1M, double y1M)
    {
        double dx = x1M - x0M, dy = y1M - y0M, l2 = (dx * dx) + (dy * dy);
        double t = l2 > 0 ? Math.Clamp(-((x0M * dx) + (y0M * dy)) / l2, 0, 1) : 0;
        double x = x0M + (t * dx), y = y0M + (t * dy);
        return (Math.Sqrt((x * x) + (y * y)), t);
    }
}
