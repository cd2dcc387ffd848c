using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>A place on the WGS 84 ellipsoid, with a height where one is known.</summary>
/// <remarks><c>default</c> is 0° N 0° E at 0 m. Immutable.</remarks>
public readonly record struct GeoPoint
{
    /// <summary>Makes a place.</summary>
    /// <param name="latDeg">[°, -90 to 90] Geodetic latitude, north positive.</param>
    /// <param name="lonDeg">[°, -180 to 180] Longitude, east positive.</param>
    /// <param name="elevationM">[m, NaN = unknown] Height above mean sea level.</param>
    /// <exception cref="ArgumentOutOfRangeException">Latitude or longitude is outside its range or not a number, or the height is infinite.</exception>
    public GeoPoint(double latDeg, double lonDeg, double elevationM = double.NaN)
    {
        LatDeg = Guard.InRange(latDeg, -90, 90, "deg");
        LonDeg = Guard.InRange(lonDeg, -180, 180, "deg");
        ElevationM = double.IsInfinity(elevationM) ? Guard.Finite(elevationM, "m") : elevationM;
    }

    /// <summary>Geodetic latitude [°], north positive.</summary>
    public double LatDeg { get; }

    /// <summary>Longitude [°], east positive.</summary>
    public double LonDeg { get; }

    /// <summary>Height above mean sea level [m]; NaN when unknown.</summary>
    public double ElevationM { get; }

    /// <summary>Height above mean sea level; null when unknown.</summary>
    public Length? Elevation => Si.Length(ElevationM);

    /// <summary>Decimal degrees, five places (about a metre).</summary>
    /// <returns>Text such as <c>38.41227, -109.60318</c>.</returns>
    public override string ToString() => $"{Text.F(LatDeg, 5)}, {Text.F(LonDeg, 5)}";
}
