using SoloRide.Internal;

namespace SoloRide;

/// <summary>How a forecast for a place is brought to the rider. Both are assumptions with names.</summary>
[Source("icao-isa", "tropospheric lapse rate")]
[Source("assumption-wind-shelter")]
public sealed record ForecastOptions
{
    /// <summary>Defaults: 6.5 K/km, shelter factor 0.5.</summary>
    public static ForecastOptions Default { get; } = new();

    /// <summary>Fall of air temperature with height [K/km, -10 to 15]; the standard atmosphere's 6.5 unless stated.</summary>
    public double LapseKPerKm { get; init => field = Guard.InRange(value, -10, 15, "K/km", nameof(LapseKPerKm)); } = 6.5;

    /// <summary>Wind at the rider as a share of the forecast wind at 10 m [0 to 1.2]; 0.5 unless stated: an assumption between open ridge (0.7 by the usual profile) and forest (0.2).</summary>
    public double WindShelterFactor { get; init => field = Guard.InRange(value, 0, 1.2, "(factor)", nameof(WindShelterFactor)); } = 0.5;
}
