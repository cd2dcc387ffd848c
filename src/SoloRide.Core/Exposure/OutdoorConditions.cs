using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>Air, wind and sun at a place and time, for <see cref="OutdoorHeat"/>.</summary>
/// <remarks>Immutable.</remarks>
public sealed record OutdoorConditions
{
    private readonly double _airC;
    private readonly double _windMps;
    private readonly double _windHeightM = 2;
    private readonly double _pressureHpa = double.NaN;
    private readonly double _elevationM;
    private readonly double _globalWm2;
    private readonly double _radiantC = double.NaN;

    /// <summary>Air temperature in the shade [-40 to 60 °C].</summary>
    public required Temperature AirTemperature
    {
        get => Temperature.FromDegreesCelsius(_airC);
        init => _airC = Guard.InRange(value.DegreesCelsius, -40, 60, "deg C", nameof(AirTemperature));
    }

    /// <summary>Relative humidity [0 to 100 %].</summary>
    public required double RelHumidityPct { get; init => field = Guard.InRange(value, 0, 100, "%", nameof(RelHumidityPct)); }

    /// <summary>Wind of the place without riding [0 to 30 m/s].</summary>
    public required Speed Wind
    {
        get => Speed.FromMetersPerSecond(_windMps);
        init => _windMps = Guard.InRange(value.MetersPerSecond, 0, 30, "m/s", nameof(Wind));
    }

    /// <summary>Height the wind holds for [0.5 to 50 m]; 2 m (at the rider) unless stated, 10 m for a forecast. Brought to 2 m by a power law over open country.</summary>
    public Length WindHeight
    {
        get => Length.FromMeters(_windHeightM);
        init => _windHeightM = Guard.InRange(value.Meters, 0.5, 50, "m", nameof(WindHeight));
    }

    /// <summary>Air pressure [500 to 1 050 hPa]; null: from <see cref="Elevation"/> by the standard atmosphere.</summary>
    public Pressure? Pressure
    {
        get => double.IsNaN(_pressureHpa) ? null : UnitsNet.Pressure.FromHectopascals(_pressureHpa);
        init => _pressureHpa = value is { } v ? Guard.InRange(v.Hectopascals, 500, 1050, "hPa", nameof(Pressure)) : double.NaN;
    }

    /// <summary>Height above sea level, used when no pressure is given [-300 to 5 500 m].</summary>
    public Length Elevation
    {
        get => Length.FromMeters(_elevationM);
        init => _elevationM = Guard.InRange(value.Meters, -300, 5500, "m", nameof(Elevation));
    }

    /// <summary>Sun's altitude above the horizon [-90 to 90°], refraction included.</summary>
    public required double SunAltitudeDeg { get; init => field = Guard.InRange(value, -90, 90, "deg", nameof(SunAltitudeDeg)); }

    /// <summary>Global irradiance on level ground [0 to 1 500 W/m²]; zero in full shade or at night. <see cref="SunOnRider"/> estimates it from cloud.</summary>
    public required Irradiance GlobalIrradiance
    {
        get => Irradiance.FromWattsPerSquareMeter(_globalWm2);
        init => _globalWm2 = Guard.InRange(value.WattsPerSquareMeter, 0, 1500, "W/m2", nameof(GlobalIrradiance));
    }

    /// <summary>Day, for the sun's distance; null: the mean distance (the year's course moves WBGT by up to some tenths of a degree through the direct share).</summary>
    public DateOnly? Date { get; init; }

    /// <summary>Mean radiant temperature [-80 to 130 °C], as <see cref="SunOnRider"/> gives it; needed for the universal thermal climate index only.</summary>
    public Temperature? MeanRadiantTemperature
    {
        get => Si.Temperature(_radiantC);
        init => _radiantC = value is { } v ? Guard.InRange(v.DegreesCelsius, -80, 130, "deg C", nameof(MeanRadiantTemperature)) : double.NaN;
    }

    internal double RadiantC => _radiantC;

    internal double AirC => _airC;

    internal double WindMps => _windMps;

    internal double WindHeightM => _windHeightM;

    internal double PressureHpa => _pressureHpa;

    internal double ElevationM => _elevationM;

    internal double GlobalWm2 => _globalWm2;
}
