using SoloRide.Internal;
using UnitsNet;

namespace SoloRide;

/// <summary>What is known of the rider. Everything may be left out; a wide prior then stands in and the result says so.</summary>
/// <remarks>Immutable. Nothing here is stored or sent anywhere.</remarks>
public sealed record Rider
{
    private readonly double _massKg = double.NaN;
    private readonly double _heightM = double.NaN;
    private readonly double _powerW = double.NaN;
    private readonly double _climbMps = double.NaN;
    private readonly double _sweatLph = double.NaN;

    /// <summary>Body mass without kit; 25 to 250 kg.</summary>
    public Mass? Mass
    {
        get => Si.Mass(_massKg);
        init => _massKg = value is { } v ? Guard.InRange(v.Kilograms, 25, 250, "kg", nameof(Mass)) : double.NaN;
    }

    /// <summary>Body height; 1.0 to 2.5 m.</summary>
    public Length? Height
    {
        get => Si.Length(_heightM);
        init => _heightM = value is { } v ? Guard.InRange(v.Meters, 1.0, 2.5, "m", nameof(Height)) : double.NaN;
    }

    /// <summary>Age [years]; 10 to 100.</summary>
    public int? AgeYears { get; init => field = value is { } v ? Guard.InRange(v, 10, 100, "years", nameof(AgeYears)) : null; }

    /// <summary>Sex as the published equations distinguish it.</summary>
    public Sex Sex { get; init; }

    /// <summary>Mechanical power at the pedals that the rider holds for hours; 20 to 500 W.</summary>
    public Power? SustainedPower
    {
        get => Si.Power(_powerW);
        init => _powerW = value is { } v ? Guard.InRange((double)v.Watts, 20, 500, "W", nameof(SustainedPower)) : double.NaN;
    }

    /// <summary>Steady climbing rate on a firm climb with the usual load (vertical metres an hour), for riders who know no watts; 100 to 2 000 m/h.</summary>
    public Speed? ClimbingRate
    {
        get => Si.Speed(_climbMps);
        init => _climbMps = value is { } v ? Guard.InRange(v.MetersPerHour, 100, 2000, "m/h", nameof(ClimbingRate)) / 3600 : double.NaN;
    }

    /// <summary>Maximal oxygen uptake at sea level [mL/(kg min)]; 15 to 95.</summary>
    public double? MaxOxygenUptakeMlPerKgMin { get; init => field = value is { } v ? Guard.InRange(v, 15, 95, "mL/(kg min)", nameof(MaxOxygenUptakeMlPerKgMin)) : null; }

    /// <summary>Whether the rider has spent the last week or more exercising in like heat.</summary>
    public Known HeatAcclimatised { get; init; }

    /// <summary>Whether the rider has lived for weeks at the ride's altitude.</summary>
    public Known AltitudeAcclimatised { get; init; }

    /// <summary>Own sweat rate from weighed rides in like conditions [L/h]; 0.05 to 4.</summary>
    public VolumeFlow? SweatRate
    {
        get => double.IsNaN(_sweatLph) ? null : VolumeFlow.FromLitersPerHour(_sweatLph);
        init => _sweatLph = value is { } v ? Guard.InRange(v.LitersPerHour, 0.05, 4, "L/h", nameof(SweatRate)) : double.NaN;
    }

    /// <summary>Own sweat sodium concentration from a test [mmol/L]; 5 to 120.</summary>
    public double? SweatSodiumMmolPerL { get; init => field = value is { } v ? Guard.InRange(v, 5, 120, "mmol/L", nameof(SweatSodiumMmolPerL)) : null; }
}
