using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Exposure;

/// <summary>A wait or a night out, for <see cref="NightOut"/>.</summary>
/// <remarks>Immutable.</remarks>
public sealed record NightRequest
{
    private readonly double _metabolicWm2 = 58.2;
    private readonly double _lowMetabolicWm2 = 46.5;

    /// <summary>Weather at the place, in order, one entry for each <see cref="Interval"/>; at least one, with known air temperature. Wind is that at the body in the open.</summary>
    public required IReadOnlyList<Weather> Weather
    {
        get;
        init
        {
            Guard.NotNull(value, nameof(Weather));
            if (value.Count is 0 or > 10_000)
            {
                throw new ArgumentException("Weather needs 1 to 10 000 entries.", nameof(Weather));
            }

            for (int i = 0; i < value.Count; i++)
            {
                if (double.IsNaN(value[i].AirTempC))
                {
                    throw new ArgumentException($"Weather entry {i + 1} has no air temperature; without it no insulation can be computed.", nameof(Weather));
                }

                Guard.InRange(value[i].AirTempC, -60, 50, "deg C", nameof(Weather));
            }

            field = [.. value];
        }
    }

    /// <summary>Time that each entry of the weather stands for [1 min to 24 h]; an hour unless stated.</summary>
    public TimeSpan Interval
    {
        get;
        init => field = value >= TimeSpan.FromMinutes(1) && value <= TimeSpan.FromHours(24)
            ? value
            : throw new ArgumentOutOfRangeException(nameof(Interval), value, "Interval must be 1 min to 24 h.");
    }
        = TimeSpan.FromHours(1);

    /// <summary>What is put on for it, everything carried included.</summary>
    public required Outfit Outfit { get; init => field = Guard.NotNull(value, nameof(Outfit)); }

    /// <summary>Shelter.</summary>
    public Shelter Shelter { get; init => field = Guard.Defined(value, nameof(Shelter)); }

    /// <summary>Share of the wind that reaches a lee [0 to 1]; 0.3 unless stated, an assumption.</summary>
    [Source("assumption-lee")]
    public double LeeWindFactor { get; init => field = Guard.Fraction(value, nameof(LeeWindFactor)); } = 0.3;

    /// <summary>Heat made [30 to 200 W/m²]; sitting quietly, 58.2 (1 met), unless stated.</summary>
    [Source("ashrae-55", "typical tasks, second-hand")]
    public HeatFlux MetabolicRate
    {
        get => HeatFlux.FromWattsPerSquareMeter(_metabolicWm2);
        init => _metabolicWm2 = Guard.InRange(value.WattsPerSquareMeter, 30, 200, "W/m2", nameof(MetabolicRate));
    }

    /// <summary>Heat made by the same person lying exhausted [30 to 200 W/m²]; 46.5 (0.8 met) unless stated. Never counted above <see cref="MetabolicRate"/>.</summary>
    [Source("ashrae-55", "typical tasks, second-hand")]
    public HeatFlux ExhaustedMetabolicRate
    {
        get => HeatFlux.FromWattsPerSquareMeter(_lowMetabolicWm2);
        init => _lowMetabolicWm2 = Guard.InRange(value.WattsPerSquareMeter, 30, 200, "W/m2", nameof(ExhaustedMetabolicRate));
    }

    internal double MetabolicWm2 => _metabolicWm2;

    internal double LowMetabolicWm2 => Math.Min(_lowMetabolicWm2, _metabolicWm2);
}
