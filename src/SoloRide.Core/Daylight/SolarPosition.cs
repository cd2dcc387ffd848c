using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Daylight;

/// <summary>Where the Sun stands for an observer at an instant.</summary>
/// <remarks>
/// Series of Reda and Andreas (2008) with topocentric parallax and diurnal aberration: within 0.6″ of a full IAU 2006/2000A pipeline for
/// 2000 to 2060. Valid 1950 to 2100; outside it degrades slowly. Immutable; <c>default</c> is a Sun on the northern horizon at distance 0.
/// </remarks>
[Entry]
public readonly record struct SolarPosition
{
    // Negative for an instant outside the span for which the series is stated.
    private readonly double _signedDistanceAu;

    internal SolarPosition(double azimuthRad, double altitudeRad, double distanceAu, double utcDays)
    {
        double deg = azimuthRad * (180 / Math.PI);
        AzimuthDeg = deg < 0 ? deg + 360 : deg;
        AltitudeDeg = altitudeRad * (180 / Math.PI);
        _signedDistanceAu = SunFindings.IsOutside(utcDays) ? -distanceAu : distanceAu;
    }

    /// <summary>Azimuth [°, 0 to 360], from north, clockwise.</summary>
    public double AzimuthDeg { get; }

    /// <summary>Altitude of the Sun's centre without air [°, −90 to 90].</summary>
    public double AltitudeDeg { get; }

    /// <summary>Azimuth, from north, clockwise.</summary>
    public Angle Azimuth => Angle.FromDegrees(AzimuthDeg);

    /// <summary>Altitude of the centre without air.</summary>
    public Angle Altitude => Angle.FromDegrees(AltitudeDeg);

    /// <summary>Distance of the Sun.</summary>
    public Length Distance => Length.FromMeters(DistanceAu * ObserverFrame.AuM);

    /// <summary>What to know about the position: a warning outside 1950 to 2100.</summary>
    public IReadOnlyList<Finding> Findings => SunFindings.Position(IsOutside);

    internal double DistanceAu => Math.Abs(_signedDistanceAu);

    internal bool IsOutside => double.IsNegative(_signedDistanceAu);

    /// <summary>The light phase that this altitude means under a free horizon.</summary>
    public LightPhase Phase => SkyLightKernel.Phase(Math.Sin(AltitudeDeg * (Math.PI / 180)));

    /// <summary>Altitude as seen through the air (Sæmundsson), with the pressure and temperature of the place.</summary>
    /// <param name="pressure">[0 to 1200 hPa] Air pressure at the observer; null: 1010 hPa.</param>
    /// <param name="airTemperature">[−90 to 60 °C] Air temperature; null: 10 °C.</param>
    /// <returns>The apparent altitude; below a true altitude of −1°, where no formula holds, the airless one.</returns>
    /// <exception cref="ArgumentOutOfRangeException">Pressure or temperature is outside its range.</exception>
    public Angle ApparentAltitude(Pressure? pressure = null, Temperature? airTemperature = null)
    {
        double hpa = pressure is { } p ? Guard.InRange(p.Hectopascals, 0, 1200, "hPa", nameof(pressure)) : 1010;
        double c = airTemperature is { } t ? Guard.InRange(t.DegreesCelsius, -90, 60, "C", nameof(airTemperature)) : 10;
        return Angle.FromDegrees(AltitudeDeg + RefractionKernel.TrueToApparentDeg(AltitudeDeg, hpa, c));
    }

    /// <summary>The Sun at an instant.</summary>
    /// <param name="instant">The instant.</param>
    /// <param name="place">The observer; unknown height counts as 0 m (0.003″ per 1000 m).</param>
    /// <param name="options">UT1 and ΔT; null takes the defaults.</param>
    /// <returns>The position.</returns>
    public static SolarPosition At(DateTimeOffset instant, GeoPoint place, DaylightOptions? options = null)
    {
        options ??= DaylightOptions.Default;
        double days = TimeScaleKernel.Days(instant.UtcTicks);
        ObserverFrame observer = Observer(place);
        SunBatchKernel.One(days, options.Ut1MinusUtcS, options.DeltaTSAt(days), observer, out double azimuth, out double altitude, out double distance);
        return new SolarPosition(azimuth, altitude, distance, days);
    }

    /// <summary>The Sun at many instants of one place. Ascending instants are fast: days share their polynomials (within 0.001″ of single calls).</summary>
    /// <param name="instants">The instants; any order gives the right values.</param>
    /// <param name="place">The observer.</param>
    /// <param name="positions">Receives as many positions.</param>
    /// <param name="options">UT1 and ΔT; null takes the defaults.</param>
    /// <exception cref="ArgumentException">The spans differ in length.</exception>
    public static void At(ReadOnlySpan<DateTimeOffset> instants, GeoPoint place, Span<SolarPosition> positions, DaylightOptions? options = null)
    {
        Guard.SameLength(instants.Length, positions.Length, nameof(positions));
        SunBatchKernel.Many(instants, Observer(place), options ?? DaylightOptions.Default, positions);
    }

    internal static ObserverFrame Observer(GeoPoint place)
        => new(place.LatDeg, place.LonDeg, double.IsNaN(place.ElevationM) ? 0 : place.ElevationM);
}
