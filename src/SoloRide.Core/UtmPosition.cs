using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>A place in the Universal Transverse Mercator grid, or, beyond 80° S and from 84° N on, in the polar stereographic one (zone 0). WGS 84.</summary>
/// <remarks>
/// Agrees with a reference program to 0.1 mm; there and back within 1e-9°. <c>default</c> is the false origin of the northern polar grid
/// and names no place of use. Immutable. Sources: karney-2011, nga-utm, wgs84.
/// </remarks>
[Entry]
public readonly record struct UtmPosition
{
    /// <summary>Makes a position.</summary>
    /// <param name="zone">[1 to 60, or 0 for the polar grid] Zone.</param>
    /// <param name="hemisphere">Half of the earth that the northing counts in.</param>
    /// <param name="eastingM">[m] With the false easting; 0 to 1 000 000 in a zone (100 000 to 900 000 in use), 0 to 4 000 000 in the polar grid.</param>
    /// <param name="northingM">[m] With the false northing of the south; -9 000 000 to 10 000 000 is allowed so that a neighbour's half may be written on.</param>
    /// <exception cref="ArgumentOutOfRangeException">Zone or coordinates outside the ranges.</exception>
    public UtmPosition(int zone, Hemisphere hemisphere, double eastingM, double northingM)
    {
        Zone = Guard.InRange(zone, 0, 60, "(0 is the polar grid)");
        Hemisphere = Guard.Defined(hemisphere);
        EastingM = zone == 0 ? Guard.InRange(eastingM, 0, 4_000_000, "m") : Guard.InRange(eastingM, 0, 1_000_000, "m");
        NorthingM = zone == 0
            ? Guard.InRange(northingM, 0, 4_000_000, "m")
            : hemisphere == Hemisphere.North
                ? Guard.InRange(northingM, -9_100_000, 9_600_000, "m")
                : Guard.InRange(northingM, 900_000, 19_600_000, "m");
    }

    /// <summary>Zone, 1 to 60; 0 in the polar grid.</summary>
    public int Zone { get; }

    /// <summary>Half of the earth that the northing counts in.</summary>
    public Hemisphere Hemisphere { get; }

    /// <summary>Easting [m], 500 000 m on the central meridian.</summary>
    public double EastingM { get; }

    /// <summary>Northing [m], from the equator; in the south plus 10 000 000 m.</summary>
    public double NorthingM { get; }

    /// <summary>Easting.</summary>
    public Length Easting => Length.FromMeters(EastingM);

    /// <summary>Northing.</summary>
    public Length Northing => Length.FromMeters(NorthingM);

    /// <summary>The position of a place in its own zone (with the zones of Norway and Svalbard), or in the polar grid.</summary>
    /// <param name="place">The place.</param>
    /// <returns>The position.</returns>
    public static UtmPosition Of(GeoPoint place)
    {
        int zone = UtmKernel.Zone(place.LatDeg, place.LonDeg);
        return zone == 0 ? Make(place, 0) : Make(place, zone);
    }

    /// <summary>The position of a place in a zone of the caller's choice, for routes that cross a zone's edge.</summary>
    /// <param name="place">The place; latitude from -80° to 84°, within 30° of the zone's central meridian.</param>
    /// <param name="zone">[1 to 60] Zone.</param>
    /// <returns>The position.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Zone out of range, or the place too far from it.</exception>
    public static UtmPosition InZone(GeoPoint place, int zone)
    {
        Guard.InRange(zone, 1, 60, "(zone)");
        Guard.InRange(place.LatDeg, UtmKernel.UtmSouthDeg, UtmKernel.UtmNorthDeg, "deg", nameof(place));
        double away = Math.Abs(UtmKernel.Wrap(place.LonDeg - UtmKernel.CentralMeridianDeg(zone)));
        UtmKernel.UtmForward(place.LatDeg, place.LonDeg, zone, place.LatDeg >= 0, out double e, out _);
        return away <= 30 && e is >= 0 and <= 1_000_000
            ? Make(place, zone)
            : throw new ArgumentOutOfRangeException(nameof(zone), zone, $"The place {place} lies {Text.F(away, 1)} deg from the middle of zone {zone}: its easting would fall outside 0 to 1 000 000 m.");
    }

    /// <summary>The place on the ellipsoid.</summary>
    /// <returns>The place, height unknown.</returns>
    public GeoPoint ToGeoPoint()
    {
        double lat, lon;
        if (Zone == 0)
        {
            UtmKernel.UpsInverse(EastingM, NorthingM, Hemisphere == Hemisphere.North, out lat, out lon);
        }
        else
        {
            UtmKernel.UtmInverse(EastingM, NorthingM, Zone, Hemisphere == Hemisphere.North, out lat, out lon);
        }

        return new GeoPoint(lat, lon);
    }

    /// <summary>Bearing of grid north from true north at this place, clockwise positive.</summary>
    /// <returns>The convergence.</returns>
    public Angle GridConvergence()
    {
        GeoPoint p = ToGeoPoint();
        double deg;
        if (Zone == 0)
        {
            UtmKernel.UpsConvergence(p.LatDeg, p.LonDeg, Hemisphere == Hemisphere.North, out deg, out _);
        }
        else
        {
            UtmKernel.UtmConvergence(p.LatDeg, p.LonDeg, Zone, out deg, out _);
        }

        return Angle.FromDegrees(deg);
    }

    /// <summary>Whole metres, cut off and never rounded, the hemisphere as a word because a letter could be taken for a band.</summary>
    /// <returns>Text such as <c>UTM 37 north 311949 E 5655315 N</c>.</returns>
    public override string ToString()
        => string.Create(System.Globalization.CultureInfo.InvariantCulture,
            $"{(Zone == 0 ? "UPS" : $"UTM {Zone}")} {(Hemisphere == Hemisphere.North ? "north" : "south")} {Math.Floor(EastingM):0} E {Math.Floor(NorthingM):0} N");

    private static UtmPosition Make(GeoPoint place, int zone)
    {
        bool north = place.LatDeg >= 0;
        double e, n;
        if (zone == 0)
        {
            UtmKernel.UpsForward(place.LatDeg, place.LonDeg, north, out e, out n);
        }
        else
        {
            UtmKernel.UtmForward(place.LatDeg, place.LonDeg, zone, north, out e, out n);
        }

        return new UtmPosition(zone, north ? Hemisphere.North : Hemisphere.South, e, n);
    }
}
