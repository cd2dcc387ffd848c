using SoloRide.Internal;

namespace SoloRide.Kit;

/// <summary>What height, temperature and extra pressure do to a tyre, as changes.</summary>
internal static class TyreKernel
{
    public const double PaPerPsi = 6894.757293;

    [Source("icao-isa", "pressure at sea level")]
    private const double SeaLevelPa = 101325;

    [Source("icao-isa", "lapse rate over the temperature at sea level")]
    private const double LapsePerM = 0.0065 / 288.15;

    [Source("icao-isa", "exponent")]
    private const double Exponent = 5.25588;

    /// <summary>Lowest and highest height of the law.</summary>
    public const double LowestM = -500;

    public const double HighestM = 11_000;

    /// <summary>Deflection grows with the load as the power 2/3 at fixed pressure, and falls with pressure likewise.</summary>
    [Source("renart-2019", "force proportional to deflection to the power 1.5, published rule TY2")]
    private const double DeflectionExponent = 1 / 1.5;

    /// <summary>Air pressure at a height in the standard atmosphere.</summary>
    public static double AirPa(double heightM) => SeaLevelPa * Math.Pow(1 - (LapsePerM * heightM), Exponent);

    /// <summary>Gauge pressure after a change of height and gas temperature; gas of fixed volume and amount.</summary>
    [Source("ideal-gas", "fixed volume")]
    public static double GaugePa(double gaugePa, double fromM, double toM, double fromC, double toC)
        => ((gaugePa + AirPa(fromM)) * (toC + Si.ZeroCelsiusK) / (fromC + Si.ZeroCelsiusK)) - AirPa(toM);

    /// <summary>Area that carries the load.</summary>
    [Source("derived-tyre", "load = pressure times area")]
    public static double PatchRatio(double pressureRatio) => 1 / pressureRatio;

    public static double DeflectionRatio(double pressureRatio) => Math.Pow(pressureRatio, -DeflectionExponent);

    /// <summary>Energy that presses the tyre to the rim.</summary>
    [Source("derived-tyre", "energy to the rim at fixed travel")]
    public static double BottomingEnergyRatio(double pressureRatio) => pressureRatio;

    public static double BottomingSpeedRatio(double pressureRatio) => Math.Sqrt(pressureRatio);
}
