using SoloRide.Internal;

namespace SoloRide.Effort;

/// <summary>Pressure and density of the standard atmosphere.</summary>
internal static class AirKernel
{
    [Source("icao-isa", "sea-level pressure [Pa]")]
    public const double SeaLevelPa = 101_325;

    [Source("icao-isa", "sea-level temperature [K]")]
    public const double SeaLevelK = 288.15;

    [Source("icao-isa", "lapse rate of the troposphere [K/m]")]
    public const double LapseKPerM = 0.0065;

    [Source("codata-gas-constant", "8.314462618 J/(mol K) over 0.0289644 kg/mol")]
    public const double DryAirJPerKgK = 8.314462618 / 0.0289644;

    [Source("icao-isa", "barometric formula")]
    public static double PressurePa(double heightM)
        => SeaLevelPa * Math.Pow((SeaLevelK - (LapseKPerM * heightM)) / SeaLevelK, Si.GravityMps2 / (DryAirJPerKgK * LapseKPerM));

    [Source("icao-isa", "temperature at height [K]")]
    public static double TemperatureK(double heightM) => SeaLevelK - (LapseKPerM * heightM);

    /// <summary>Dry air; humidity (below 1 % of density) is left out.</summary>
    public static double DensityKgPerM3(double heightM, double temperatureK) => PressurePa(heightM) / (DryAirJPerKgK * temperatureK);
}
