using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Daylight;

/// <summary>The Moon for an observer at an instant: where it stands, how full it is, how much it lights the ground.</summary>
/// <remarks>
/// Series of Meeus, chapter 47: within 15″, 15 km and 3·10⁻⁵ of the illuminated fraction. Immutable; <c>default</c> is not meaningful.
/// </remarks>
[Entry]
public readonly record struct MoonPosition
{
    private readonly MoonView _view;
    private readonly double _ttDays;

    private MoonPosition(in MoonView view, double ttDays)
    {
        _view = view;
        _ttDays = ttDays;
        double deg = view.AzimuthRad * (180 / Math.PI);
        AzimuthDeg = deg < 0 ? deg + 360 : deg;
        AltitudeDeg = view.AltitudeRad * (180 / Math.PI);
    }

    /// <summary>Azimuth [°, 0 to 360], from north, clockwise.</summary>
    public double AzimuthDeg { get; }

    /// <summary>Altitude of the centre without air [°, −90 to 90].</summary>
    public double AltitudeDeg { get; }

    /// <summary>Azimuth, from north, clockwise.</summary>
    public Angle Azimuth => Angle.FromDegrees(AzimuthDeg);

    /// <summary>Altitude of the centre without air.</summary>
    public Angle Altitude => Angle.FromDegrees(AltitudeDeg);

    /// <summary>Distance from the observer.</summary>
    public Length Distance => Length.FromMeters(_view.DistanceTopoM);

    /// <summary>Distance from the Earth's centre.</summary>
    public Length GeocentricDistance => Length.FromMeters(_view.DistanceGeoM);

    /// <summary>Lit share of the disc as the observer sees it [0 to 1].</summary>
    public double IlluminatedFraction => (1 + Math.Cos(_view.PhaseAngleRad)) / 2;

    /// <summary>Angle at the Moon between Sun and observer; 0 is full.</summary>
    public Angle PhaseAngle => Angle.FromRadians(_view.PhaseAngleRad);

    /// <summary>Angle at the observer between Sun and Moon.</summary>
    public Angle Elongation => Angle.FromRadians(_view.ElongationRad);

    /// <summary>Time since the last new Moon (equal apparent longitudes).</summary>
    public TimeSpan Age => TimeSpan.FromDays(MoonKernel.AgeDays(_ttDays));

    /// <summary>Light of the Moon on level open ground under a clear sky; 0 when it is below the horizon. Good to about 30 %.</summary>
    public Illuminance GroundIlluminance => Illuminance.FromLux(GroundLux);

    /// <summary>What to know about the position: a warning outside 1950 to 2100.</summary>
    public IReadOnlyList<Finding> Findings => SunFindings.Position(SunFindings.IsOutside(_ttDays));

    internal double GroundLux => SkyLightKernel.MoonLux(
        AltitudeDeg, _view.ElongationRad * (180 / Math.PI), Math.Asin(ObserverFrame.EquatorM / _view.DistanceGeoM) * (180 / Math.PI));

    internal MoonView View => _view;

    /// <summary>The Moon at an instant.</summary>
    /// <param name="instant">The instant.</param>
    /// <param name="place">The observer; unknown height counts as 0 m.</param>
    /// <param name="options">UT1 and ΔT; null takes the defaults.</param>
    /// <returns>The position and light.</returns>
    public static MoonPosition At(DateTimeOffset instant, GeoPoint place, DaylightOptions? options = null)
    {
        options ??= DaylightOptions.Default;
        double days = TimeScaleKernel.Days(instant.UtcTicks), deltaT = options.DeltaTSAt(days);
        MoonKernel.Evaluate(days, options.Ut1MinusUtcS, deltaT, SolarPosition.Observer(place), out MoonView view);
        return new MoonPosition(view, days + ((options.Ut1MinusUtcS + deltaT) / 86400));
    }
}
