using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Daylight;

/// <summary>State of the air for clear-sky irradiance; every default is named.</summary>
/// <remarks>Immutable; safe to share between threads.</remarks>
public sealed record ClearSkyOptions
{
    private readonly double _linkeTurbidity = 3;
    private readonly double _aod700 = 0.1;
    private readonly double _waterM = 0.01;

    /// <summary>The defaults.</summary>
    public static ClearSkyOptions Default { get; } = new();

    /// <summary>Which model.</summary>
    public ClearSkyModel Model { get; init; } = ClearSkyModel.IneichenPerez;

    /// <summary>Linke turbidity [1 to 12]: 2 very clean cold air, 3 clean warm air (default), 5 humid haze.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public double LinkeTurbidityFactor
    {
        get => _linkeTurbidity;
        init => _linkeTurbidity = Guard.InRange(value, 1, 12, "(no unit)", nameof(LinkeTurbidityFactor));
    }

    /// <summary>Aerosol optical depth at 700 nm [0 to 0.45]; 0.1 by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public double AerosolOpticalDepthFactor
    {
        get => _aod700;
        init => _aod700 = Guard.InRange(value, 0, 0.45, "(no unit)", nameof(AerosolOpticalDepthFactor));
    }

    /// <summary>Precipitable water [0.2 to 10 cm]; 1 cm by default.</summary>
    /// <exception cref="ArgumentOutOfRangeException">Outside the range.</exception>
    public Length PrecipitableWater
    {
        get => Length.FromMeters(_waterM);
        init => _waterM = Guard.InRange(value.Centimeters, 0.2, 10, "cm", nameof(PrecipitableWater)) / 100;
    }

    internal double WaterCm => _waterM * 100;
}
