using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>The shortest line between two places on the WGS 84 ellipsoid, at height 0.</summary>
/// <remarks>
/// Lines under 20 km by chord with an arc correction, longer ones by the integrals on the auxiliary sphere with a bracketed
/// azimuth: no pair of places fails, antipodes and poles included. Measured against a reference program: 10 nm under 5 km,
/// 100 nm anywhere. Immutable.
/// </remarks>
[Entry]
public sealed record Geodesic
{
    private readonly double _lengthM;
    private readonly double _azimuth1Deg;
    private readonly double _azimuth2Deg;

    private Geodesic(GeoPoint from, GeoPoint to)
    {
        From = from;
        To = to;
        (_lengthM, _azimuth1Deg, _azimuth2Deg) = GeodesyKernel.Inverse(from.LatDeg, from.LonDeg, to.LatDeg, to.LonDeg);
    }

    /// <summary>First place.</summary>
    public GeoPoint From { get; }

    /// <summary>Second place.</summary>
    public GeoPoint To { get; }

    /// <summary>Length.</summary>
    public Length Length => Length.FromMeters(_lengthM);

    /// <summary>Direction of travel at the first place, from north, clockwise, -180 to 180°; arbitrary when the places coincide, at a pole and for exact antipodes.</summary>
    public Angle InitialBearing => Angle.FromDegrees(_azimuth1Deg);

    /// <summary>Direction of travel at the second place, from north, clockwise, -180 to 180°; arbitrary as the initial one.</summary>
    public Angle FinalBearing => Angle.FromDegrees(_azimuth2Deg);

    internal double LengthM => _lengthM;

    internal double Azimuth1Deg => _azimuth1Deg;

    internal double Azimuth2Deg => _azimuth2Deg;

    /// <summary>The line between two places.</summary>
    /// <param name="from">First place.</param>
    /// <param name="to">Second place.</param>
    /// <returns>The line.</returns>
    public static Geodesic Between(GeoPoint from, GeoPoint to) => new(from, to);

    /// <summary>The place at a distance in a direction.</summary>
    /// <param name="from">Start.</param>
    /// <param name="bearing">Direction of travel at the start, from north, clockwise.</param>
    /// <param name="distance">0 to 40 000 km.</param>
    /// <returns>The place, without a height.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The distance is outside its range or the direction is not finite.</exception>
    public static GeoPoint PointAt(GeoPoint from, Angle bearing, Length distance)
    {
        double deg = Guard.Finite(bearing.Degrees, "deg", nameof(bearing)), m = Guard.InRange(distance.Meters, 0, 40_000_000, "m", nameof(distance));
        if (m == 0)
        {
            return new GeoPoint(from.LatDeg, from.LonDeg);
        }

        (double lat, double lon, _) = GeodesyKernel.Direct(from.LatDeg, from.LonDeg, deg, m);
        return new GeoPoint(lat, lon);
    }
}
