using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>One part of the ride, for <see cref="LayerPlan"/>.</summary>
/// <remarks>Immutable.</remarks>
public sealed record RidePart
{
    private readonly double _airC;
    private readonly double _windMps;
    private readonly double _rideMps = double.NaN;
    private readonly double _metabolicWm2 = double.NaN;

    /// <summary>Name.</summary>
    public required string Name { get; init => field = Guard.NotEmpty(value, nameof(Name)); }

    /// <summary>What it is.</summary>
    public required RidePartKind Kind { get; init => field = Guard.Defined(value, nameof(Kind)); }

    /// <summary>How long [above 0, at most 7 days].</summary>
    public required TimeSpan Duration
    {
        get;
        init => field = value > TimeSpan.Zero && value <= TimeSpan.FromDays(7)
            ? value
            : throw new ArgumentOutOfRangeException(nameof(Duration), value, "Duration must be above 0 and at most 7 days.");
    }

    /// <summary>Air temperature [-60 to 50 °C].</summary>
    public required Temperature AirTemperature
    {
        get => Temperature.FromDegreesCelsius(_airC);
        init => _airC = Guard.InRange(value.DegreesCelsius, -60, 50, "deg C", nameof(AirTemperature));
    }

    /// <summary>Wind at the rider [0 to 30 m/s]; riding speed is added.</summary>
    public required Speed Wind
    {
        get => Speed.FromMetersPerSecond(_windMps);
        init => _windMps = Guard.InRange(value.MetersPerSecond, 0, 30, "m/s", nameof(Wind));
    }

    /// <summary>Relative humidity [0 to 100 %]; 50 unless stated.</summary>
    public double RelHumidityPct { get; init => field = Guard.InRange(value, 0, 100, "%", nameof(RelHumidityPct)); } = 50;

    /// <summary>Riding or walking speed [0 to 25 m/s]; null: by the kind of part.</summary>
    public Speed? RidingSpeed
    {
        get => Si.Speed(_rideMps);
        init => _rideMps = value is { } v ? Guard.InRange(v.MetersPerSecond, 0, 25, "m/s", nameof(RidingSpeed)) : double.NaN;
    }

    /// <summary>Metabolic rate less mechanical power, per body surface [30 to 600 W/m²]; null: by the kind of part.</summary>
    public HeatFlux? HeatMade
    {
        get => double.IsNaN(_metabolicWm2) ? null : HeatFlux.FromWattsPerSquareMeter(_metabolicWm2);
        init => _metabolicWm2 = value is { } v ? Guard.InRange(v.WattsPerSquareMeter, 30, 600, "W/m2", nameof(HeatMade)) : double.NaN;
    }

    /// <summary>How wet worn clothing is in this part: sweat from the climb, rain.</summary>
    public Wetness Wetness { get; init => field = Guard.Defined(value, nameof(Wetness)); }

    /// <summary>Protective wear worn in this part; what the plan has and is not named here is stowed.</summary>
    public IReadOnlyList<ProtectiveWear> ProtectiveWorn { get; init => field = [.. Guard.NotNull(value, nameof(ProtectiveWorn))]; } = [];

    internal double AirC => _airC;

    internal double AirSpeedMps => _windMps + RidingMps;

    internal double RidingMps => double.IsNaN(_rideMps) ? RidePartDefaults.RidingMps(Kind) : _rideMps;

    internal double HeatMadeWm2 => double.IsNaN(_metabolicWm2) ? RidePartDefaults.HeatMadeWm2(Kind) : _metabolicWm2;

    internal bool Assumed => double.IsNaN(_rideMps) || double.IsNaN(_metabolicWm2);
}
