using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>One stretch of constant conditions for <see cref="HeatStrain"/>: a climb, a stop, an hour of the day.</summary>
/// <remarks>Immutable. Values outside the standard's range are computed and found.</remarks>
public sealed record HeatStep
{
    private readonly double _airC;
    private readonly double _radiantC = double.NaN;
    private readonly double _airMps;
    private readonly double _metabolicWm2;
    private readonly double _workWm2;
    private readonly double _walkMps = double.NaN;

    /// <summary>How long; counted in whole minutes, at most 7 days.</summary>
    public required TimeSpan Duration
    {
        get;
        init => field = value > TimeSpan.Zero && value <= TimeSpan.FromDays(7)
            ? value
            : throw new ArgumentOutOfRangeException(nameof(Duration), value, "Duration must be above 0 and at most 7 days.");
    }

    /// <summary>Air temperature [-40 to 60 °C; the standard covers 15 to 50].</summary>
    public required Temperature AirTemperature
    {
        get => Temperature.FromDegreesCelsius(_airC);
        init => _airC = Guard.InRange(value.DegreesCelsius, -40, 60, "deg C", nameof(AirTemperature));
    }

    /// <summary>Mean radiant temperature [-60 to 130 °C], as <see cref="SunOnRider"/> gives it; null stands for the air's temperature, that is shade.</summary>
    public Temperature? MeanRadiantTemperature
    {
        get => Si.Temperature(_radiantC);
        init => _radiantC = value is { } v ? Guard.InRange(v.DegreesCelsius, -60, 130, "deg C", nameof(MeanRadiantTemperature)) : double.NaN;
    }

    /// <summary>Relative humidity [0 to 100 %].</summary>
    public required double RelHumidityPct { get; init => field = Guard.InRange(value, 0, 100, "%", nameof(RelHumidityPct)); }

    /// <summary>Air speed over the body: wind at the rider plus riding speed [0 to 40 m/s; the standard covers 0 to 3].</summary>
    public required Speed AirSpeed
    {
        get => Speed.FromMetersPerSecond(_airMps);
        init => _airMps = Guard.InRange(value.MetersPerSecond, 0, 40, "m/s", nameof(AirSpeed));
    }

    /// <summary>Metabolic rate per body surface [30 to 900 W/m²]. Whole-body watts: divide by <see cref="HeatStrain.BodyArea"/>.</summary>
    public required HeatFlux MetabolicRate
    {
        get => HeatFlux.FromWattsPerSquareMeter(_metabolicWm2);
        init => _metabolicWm2 = Guard.InRange(value.WattsPerSquareMeter, 30, 900, "W/m2", nameof(MetabolicRate));
    }

    /// <summary>Mechanical power that leaves the body, per body surface [0 to 300 W/m²]: the power at the pedals.</summary>
    public HeatFlux ExternalWork
    {
        get => HeatFlux.FromWattsPerSquareMeter(_workWm2);
        init => _workWm2 = Guard.InRange(value.WattsPerSquareMeter, 0, 300, "W/m2", nameof(ExternalWork));
    }

    /// <summary>Basic clothing insulation [0 to 4 clo; the standard covers 0.1 to 1]; 0.4 for riding clothes unless stated.</summary>
    [Source("assumption-riding-clothing")]
    public double ClothingClo { get; init => field = Guard.InRange(value, 0, 4, "clo", nameof(ClothingClo)); } = 0.4;

    /// <summary>Posture.</summary>
    public BodyPosture Posture { get; init => field = Guard.Defined(value, nameof(Posture)); }

    /// <summary>Walking speed when on foot [0 to 3 m/s]; null on the bike: movement of the body then follows from the metabolic rate.</summary>
    public Speed? WalkingSpeed
    {
        get => Si.Speed(_walkMps);
        init => _walkMps = value is { } v ? Guard.InRange(v.MetersPerSecond, 0, 3, "m/s", nameof(WalkingSpeed)) : double.NaN;
    }

    internal double AirC => _airC;

    internal double RadiantC => double.IsNaN(_radiantC) ? _airC : _radiantC;

    internal double AirSpeedMps => _airMps;

    internal double MetabolicWm2 => _metabolicWm2;

    internal double WorkWm2 => _workWm2;

    internal double WalkMps => double.IsNaN(_walkMps) ? 0 : _walkMps;
}
