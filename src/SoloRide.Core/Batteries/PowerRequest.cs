using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>What the power plan is made from: devices, bank, the ride as stretches of time, and the night that was not planned.</summary>
/// <remarks>Immutable.</remarks>
public sealed record PowerRequest
{
    private readonly double _temperatureSpreadC = 3;
    private readonly double _neededLm = double.NaN;

    /// <summary>All devices but the distress beacon; names must differ.</summary>
    public required IReadOnlyList<Device> Devices
    {
        get;
        init
        {
            field = [.. Guard.NotNull(value, nameof(Devices))];
            if (field.GroupBy(d => d.Name, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
            {
                throw new ArgumentException($"Two devices are named '{twice.Key}'.", nameof(Devices));
            }
        }
    }

    /// <summary>The planned ride, in order; at least one stretch.</summary>
    public required IReadOnlyList<PowerInterval> Timeline
    {
        get;
        init => field = Guard.NotNull(value, nameof(Timeline)).Count > 0
            ? [.. value]
            : throw new ArgumentException("Timeline needs at least one interval.", nameof(Timeline));
    }

    /// <summary>The night out that was not planned, after the ride; empty: none is counted and the plan says so.</summary>
    public IReadOnlyList<PowerInterval> UnplannedNight { get; init => field = [.. Guard.NotNull(value, nameof(UnplannedNight))]; } = [];

    /// <summary>The power bank, if one is carried.</summary>
    public PowerBank? Bank { get; init; }

    /// <summary>The 406 MHz distress beacon, if one is carried.</summary>
    public DistressBeacon? Beacon { get; init; }

    /// <summary>Day of the ride, for the beacon's expiry; null: not checked.</summary>
    public DateOnly? Date { get; init; }

    /// <summary>
    /// Ways of reaching others. Empty: each messenger sends words only together with a phone and calls for help alone, and the beacon calls
    /// for help. A phone alone counts only when stated here, since coverage is unknown.
    /// </summary>
    public IReadOnlyList<MessageWay> Ways { get; init => field = [.. Guard.NotNull(value, nameof(Ways))]; } = [];

    /// <summary>Light output that riding in the dark needs; null: the first lit mode of each lamp.</summary>
    public LuminousFlux? NeededLight
    {
        get => double.IsNaN(_neededLm) ? null : LuminousFlux.FromLumens(_neededLm);
        init => _neededLm = value is { } v ? Guard.InRange(v.Lumens, 1, 100_000, "lm", nameof(NeededLight)) : double.NaN;
    }

    /// <summary>Share of the usable energy that each device should have left at the end [0 to 0.9]; 0.2 unless stated. It enters needs and top-ups, never the probabilities.</summary>
    public double ReserveFraction { get; init => field = Guard.InRange(value, 0, 0.9, "(a share of 1)", nameof(ReserveFraction)); } = BatteriesConstants.ReserveFraction;

    /// <summary>Half-width of the P10 to P90 range of the air temperature around the given one; 0 to 15 K, 3 K unless stated.</summary>
    public TemperatureDelta TemperatureSpread
    {
        get => TemperatureDelta.FromKelvins(_temperatureSpreadC);
        init => _temperatureSpreadC = Guard.InRange(value.Kelvins, 0, 15, "K", nameof(TemperatureSpread));
    }

    /// <summary>How often the ranges of depletion times should hold the truth [share of 1, 0.5 to 0.99]; 0.8 (P10 to P90) unless stated.</summary>
    public double RangeLevel { get; init => field = Guard.InRange(value, 0.5, 0.99, "(a share of 1)", nameof(RangeLevel)); } = 0.8;

    /// <summary>Random draws behind the probabilities; 0 (typical values only) to 1 000 000, 2 000 unless stated.</summary>
    public int Samples { get; init => field = Guard.InRange(value, 0, 1_000_000, "samples", nameof(Samples)); } = 2000;

    /// <summary>Seed of the draws; the same seed gives the same plan.</summary>
    public int Seed { get; init; } = 1;

    internal double TemperatureSpreadC => _temperatureSpreadC;

    internal double NeededLm => _neededLm;
}
