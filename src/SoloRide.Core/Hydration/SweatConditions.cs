using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>What the sweat rate follows from: body, weather, work, sun and clothing.</summary>
/// <remarks>Immutable. Everything but the metabolic rate and the air temperature may be left out; the result says what was assumed.</remarks>
public sealed record SweatConditions
{
    private readonly double _metabolicW = double.NaN;
    private readonly double _workW = double.NaN;
    private readonly double _airMps = double.NaN;
    private readonly double _minutes = 180;

    /// <summary>The rider; mass, height, heat acclimatisation and an own sweat rate are used.</summary>
    public Rider Rider { get; init => field = Guard.NotNull(value, nameof(Rider)); } = new();

    /// <summary>Weather at the rider; air temperature [-20 to 55 °C] is needed. An unknown humidity counts as 50 %.</summary>
    public required Weather Weather
    {
        get;
        init
        {
            Guard.InRange(value.AirTempC, -40, 60, "°C", "Weather.AirTempC");
            if (!double.IsNaN(value.RelHumidityPct))
            {
                Guard.InRange(value.RelHumidityPct, 0, 100, "%", "Weather.RelHumidityPct");
            }

            if (!double.IsNaN(value.WindMps))
            {
                Guard.InRange(value.WindMps, 0, 60, "m/s", "Weather.WindMps");
            }

            field = value;
        }
    }

    /// <summary>Metabolic rate of the whole body (all energy turned over, not the power at the pedals); 40 to 2 500 W.</summary>
    public required Power MetabolicRate
    {
        get => Power.FromWatts(_metabolicW);
        init => _metabolicW = Guard.InRange((double)value.Watts, 40, 2500, "W", nameof(MetabolicRate));
    }

    /// <summary>Mechanical power that leaves the body, at the pedals; 0 to 600 W and below the metabolic rate. Null: none leaves, which counts more heat and errs on the safe side.</summary>
    public Power? WorkPower
    {
        get => Si.Power(_workW);
        init => _workW = value is { } v ? Guard.InRange((double)v.Watts, 0, 600, "W", nameof(WorkPower)) : double.NaN;
    }

    /// <summary>Sunlight taken up per radiating surface of the body [W/m², 0 to 700], as <see cref="Exposure.SunOnRider.Absorbed"/> gives it; 0 in the shade. Seven tenths of the body's surface radiate.</summary>
    public double SolarLoadWPerM2 { get; init => field = Guard.InRange(value, 0, 700, "W/m2", nameof(SolarLoadWPerM2)); }

    /// <summary>Speed of the air over the body, wind and riding together; 0 to 30 m/s. Null: the wind of the weather, or 1 m/s.</summary>
    public Speed? AirSpeed
    {
        get => Si.Speed(_airMps);
        init => _airMps = value is { } v ? Guard.InRange(v.MetersPerSecond, 0, 30, "m/s", nameof(AirSpeed)) : double.NaN;
    }

    /// <summary>Clothing insulation [clo, 0.1 to 4]; 0.4 is short sleeves and shorts.</summary>
    public double ClothingClo { get; init => field = Guard.InRange(value, 0.1, 4, "clo", nameof(ClothingClo)); } = 0.4;

    /// <summary>How well clothing and air layer pass vapour against heat [share of 1, 0.05 to 0.9]; 0.38 is ordinary clothing, rain wear far less.</summary>
    public double VapourPermeabilityFactor { get; init => field = Guard.InRange(value, 0.05, 0.9, "(a share of 1)", nameof(VapourPermeabilityFactor)); } = SweatConstants.ClothingPermeability;

    /// <summary>How long the effort has been and will be going on; 10 min to 12 h. The first half hour sweats less.</summary>
    public TimeSpan Duration
    {
        get => TimeSpan.FromMinutes(_minutes);
        init => _minutes = Guard.InRange(value.TotalMinutes, 10, 720, "min", nameof(Duration));
    }

    internal double MetabolicW => _metabolicW;

    internal double WorkW => _workW;

    internal double AirMps => _airMps;
}
