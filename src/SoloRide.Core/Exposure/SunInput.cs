using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>Sun, sky and air, for <see cref="SunOnRider"/>. Give measured irradiance, or cloud from which it is estimated.</summary>
/// <remarks>Immutable.</remarks>
public sealed record SunInput
{
    private readonly double _airC;
    private readonly double _globalWm2 = double.NaN;
    private readonly double _diffuseWm2 = double.NaN;

    /// <summary>Sun's altitude above the horizon [-90 to 90°].</summary>
    public required double SunAltitudeDeg { get; init => field = Guard.InRange(value, -90, 90, "deg", nameof(SunAltitudeDeg)); }

    /// <summary>Air temperature [-60 to 60 °C].</summary>
    public required Temperature AirTemperature
    {
        get => Temperature.FromDegreesCelsius(_airC);
        init => _airC = Guard.InRange(value.DegreesCelsius, -60, 60, "deg C", nameof(AirTemperature));
    }

    /// <summary>Relative humidity [0 to 100 %]; 50 unless stated (it sets how strongly the clear sky radiates).</summary>
    public double RelHumidityPct { get; init => field = Guard.InRange(value, 0, 100, "%", nameof(RelHumidityPct)); } = 50;

    /// <summary>Cloud cover [0 to 100 %]; null: clear, with a finding: in heat that is the safe side.</summary>
    public double? CloudPct { get; init => field = value is { } v ? Guard.InRange(v, 0, 100, "%", nameof(CloudPct)) : null; }

    /// <summary>Measured or forecast global irradiance on level ground [0 to 1 500 W/m²]; null: estimated from sun and cloud.</summary>
    public Irradiance? GlobalIrradiance
    {
        get => double.IsNaN(_globalWm2) ? null : Irradiance.FromWattsPerSquareMeter(_globalWm2);
        init => _globalWm2 = value is { } v ? Guard.InRange(v.WattsPerSquareMeter, 0, 1500, "W/m2", nameof(GlobalIrradiance)) : double.NaN;
    }

    /// <summary>Diffuse part of it [0 to 1 500 W/m²]; null: its share is estimated from cloud. Counted up to the global irradiance.</summary>
    public Irradiance? DiffuseIrradiance
    {
        get => double.IsNaN(_diffuseWm2) ? null : Irradiance.FromWattsPerSquareMeter(_diffuseWm2);
        init => _diffuseWm2 = value is { } v ? Guard.InRange(v.WattsPerSquareMeter, 0, 1500, "W/m2", nameof(DiffuseIrradiance)) : double.NaN;
    }

    /// <summary>Share of the way in direct sun [0 to 1]; 1 unless stated, 0 under trees or in the mountain's shade.</summary>
    public double DirectSunFraction { get; init => field = Guard.Fraction(value, nameof(DirectSunFraction)); } = 1;

    /// <summary>Reflection of the ground [share of 1]; 0.25 unless stated (rock, dry grass), snow 0.8.</summary>
    [Source("assumption-ground-albedo")]
    public double GroundAlbedoFraction { get; init => field = Guard.Fraction(value, nameof(GroundAlbedoFraction)); } = 0.25;

    /// <summary>How much hotter than the air the ground is [-20 to 40 K]; 0 unless stated.</summary>
    public double GroundAboveAirK { get; init => field = Guard.InRange(value, -20, 40, "K", nameof(GroundAboveAirK)); }

    internal double AirC => _airC;

    internal double GlobalWm2 => _globalWm2;

    internal double DiffuseWm2 => _diffuseWm2;
}
