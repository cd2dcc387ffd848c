namespace SoloRide.Routes;

/// <summary>The open formats that are read.</summary>
public enum RouteFileFormat
{
    /// <summary>GPX 1.0 or 1.1.</summary>
    Gpx,

    /// <summary>GeoJSON, RFC 7946.</summary>
    GeoJson,

    /// <summary>KML 2.2 with its track extension.</summary>
    Kml,
}
