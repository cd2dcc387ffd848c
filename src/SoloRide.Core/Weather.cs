using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>Weather at a place and time. NaN means unknown, never zero.</summary>
/// <remarks><c>default</c> is not meaningful; use <see cref="Unknown"/>. Immutable.</remarks>
public readonly record struct Weather
{
    /// <summary>Nothing known.</summary>
    public static Weather Unknown { get; } = new()
    {
        AirTempC = double.NaN,
        RelHumidityPct = double.NaN,
        WindMps = double.NaN,
        WindFromDeg = double.NaN,
        GustMps = double.NaN,
        CloudPct = double.NaN,
        PrecipMm = double.NaN,
        ThunderPct = double.NaN,
    };

    /// <summary>Air temperature [°C].</summary>
    public double AirTempC { get; init; }

    /// <summary>Relative humidity [%].</summary>
    public double RelHumidityPct { get; init; }

    /// <summary>Mean wind [m/s]; the height it holds for is said where it comes from (10 m above ground in a forecast).</summary>
    public double WindMps { get; init; }

    /// <summary>Direction the wind comes from [°], from north, clockwise.</summary>
    public double WindFromDeg { get; init; }

    /// <summary>Gusts [m/s].</summary>
    public double GustMps { get; init; }

    /// <summary>Cloud cover [%].</summary>
    public double CloudPct { get; init; }

    /// <summary>Precipitation in the hour before [mm].</summary>
    public double PrecipMm { get; init; }

    /// <summary>Probability of thunder [%].</summary>
    public double ThunderPct { get; init; }

    /// <summary>Air temperature; null when unknown.</summary>
    public Temperature? AirTemperature => Si.Temperature(AirTempC);

    /// <summary>Mean wind; null when unknown.</summary>
    public Speed? Wind => Si.Speed(WindMps);
}
