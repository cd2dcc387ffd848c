using SoloRide.Internal;

namespace SoloRide.Hydration;

/// <summary>Published advice on treating water, and properties of water.</summary>
internal static class WaterTreatmentKernel
{
    [Source("epa-wsg11", "rolling boil 1 min, 3 min above 2 000 m (6 562 ft)")]
    public const double BoilLowMin = 1, BoilHighMin = 3, BoilHighAboveM = 2000;

    [Source("epa-emergency", "wait after chlorine or iodine")]
    public const double ChemicalWaitMin = 30;

    [Source("assumption-slow-treatment", "longest wait in cold or cloudy water or for protozoa, 4 h: common practice, no source")]
    public const double SlowChemicalFactor = 8;

    [Source("assumption-slow-treatment", "usual wait in cold or cloudy water, doubled: common practice, no source")]
    public const double DoubtfulWaterFactor = 2;

    [Source("assumption-slow-treatment", "flow left when a filter begins to clog: half")]
    public const double SlowFilterFactor = 2;

    [Source("cdc-backcountry", "absolute pore size for protozoa")]
    public const double ProtozoaPoreUm = 1;

    [Source("cdc-backcountry", "pore size for bacteria, moderate")]
    public const double BacteriaPoreUm = 0.3;

    [Source("cdc-backcountry", "pore size for viruses")]
    public const double VirusPoreUm = 0.02;

    public static double BoilMin(double heightM) => heightM > BoilHighAboveM ? BoilHighMin : BoilLowMin;

    public static PathogenControl FilterControl(double poreUm, double neededUm, PathogenControl whenFine)
        => double.IsNaN(poreUm) ? PathogenControl.Unknown : poreUm <= neededUm ? whenFine : PathogenControl.None;

    /// <summary>Density of pure water at 101.325 kPa; 0 to 100 °C.</summary>
    [Source("kell-1975", "density of air-free water, from memory")]
    public static double DensityKgPerL(double tempC)
    {
        double t = tempC;
        double upper = 999.83952 + (t * (16.945176 + (t * (-7.9870401e-3 + (t * (-4.6170461e-5 + (t * (1.0556302e-7 + (t * -2.8054253e-10)))))))));
        return upper / (1 + (0.01687985 * t)) / 1000;
    }

    [Source("icao-isa", "pressure in the troposphere")]
    public static double PressurePa(double heightM) => 101325 * Math.Pow(1 - (2.25577e-5 * heightM), 5.25588);

    [Source("buck-1981", "saturation pressure over water, enhanced form")]
    public static double SaturationPa(double tempC) => 611.21 * Math.Exp((18.678 - (tempC / 234.5)) * tempC / (257.14 + tempC));

    /// <summary>Where the saturation pressure equals the pressure of the standard atmosphere.</summary>
    public static double BoilingC(double heightM)
    {
        // With y = ln(p/611.21): (18.678 - t/234.5) t = y (257.14 + t), a quadratic in t.
        double y = Math.Log(PressurePa(heightM) / 611.21), b = 18.678 - y, c = 257.14 * y;
        return 0.5 * 234.5 * (b - Math.Sqrt((b * b) - (4 * c / 234.5)));
    }
}
