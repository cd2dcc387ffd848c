using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>Cold air and activity, for <see cref="RequiredInsulation"/>.</summary>
/// <remarks>Immutable.</remarks>
public sealed record ColdConditions
{
    private readonly double _airC;
    private readonly double _radiantC = double.NaN;
    private readonly double _airMps;
    private readonly double _metabolicWm2;
    private readonly double _workWm2;
    private readonly double _walkMps;

    /// <summary>Air temperature [-60 to 30 °C; the standard covers up to 10].</summary>
    public required Temperature AirTemperature
    {
        get => Temperature.FromDegreesCelsius(_airC);
        init => _airC = Guard.InRange(value.DegreesCelsius, -60, 30, "deg C", nameof(AirTemperature));
    }

    /// <summary>Mean radiant temperature [-80 to 80 °C]; null: as the air. A clear night sky is colder.</summary>
    public Temperature? MeanRadiantTemperature
    {
        get => Si.Temperature(_radiantC);
        init => _radiantC = value is { } v ? Guard.InRange(v.DegreesCelsius, -80, 80, "deg C", nameof(MeanRadiantTemperature)) : double.NaN;
    }

    /// <summary>Air speed over the body, riding included [0 to 30 m/s; the standard covers 0.4 to 18 and less than 0.4 counts as 0.4].</summary>
    public required Speed AirSpeed
    {
        get => Speed.FromMetersPerSecond(_airMps);
        init => _airMps = Guard.InRange(value.MetersPerSecond, 0, 30, "m/s", nameof(AirSpeed));
    }

    /// <summary>Relative humidity [0 to 100 %]; 50 unless stated: in the cold it matters little.</summary>
    public double RelHumidityPct { get; init => field = Guard.InRange(value, 0, 100, "%", nameof(RelHumidityPct)); } = 50;

    /// <summary>Metabolic rate per body surface [30 to 600 W/m²; the standard covers 58 to 400]: about 58 sitting, 47 lying, 70 standing.</summary>
    public required HeatFlux MetabolicRate
    {
        get => HeatFlux.FromWattsPerSquareMeter(_metabolicWm2);
        init => _metabolicWm2 = Guard.InRange(value.WattsPerSquareMeter, 30, 600, "W/m2", nameof(MetabolicRate));
    }

    /// <summary>Mechanical power that leaves the body, per body surface [0 to 200 W/m²].</summary>
    public HeatFlux ExternalWork
    {
        get => HeatFlux.FromWattsPerSquareMeter(_workWm2);
        init => _workWm2 = Guard.InRange(value.WattsPerSquareMeter, 0, 200, "W/m2", nameof(ExternalWork));
    }

    /// <summary>Walking speed [0 to 2 m/s; counted up to 1.2]; movement also follows from the metabolic rate.</summary>
    public Speed WalkingSpeed
    {
        get => Speed.FromMetersPerSecond(_walkMps);
        init => _walkMps = Guard.InRange(value.MetersPerSecond, 0, 2, "m/s", nameof(WalkingSpeed));
    }

    internal InsulationInput Input(double permeability) => new()
    {
        AirC = _airC,
        RadiantC = double.IsNaN(_radiantC) ? _airC : _radiantC,
        AirSpeedMps = Math.Clamp(_airMps, InsulationKernel.LowestAirSpeedMps, InsulationKernel.HighestAirSpeedMps),
        RelHumidityPct = RelHumidityPct,
        MetabolicWPerM2 = _metabolicWm2,
        WorkWPerM2 = _workWm2,
        WalkMps = _walkMps,
        PermeabilityLPerM2S = permeability,
    };

    internal double AirC => _airC;

    internal double AirSpeedMps => _airMps;

    internal double MetabolicWm2 => _metabolicWm2;
}
