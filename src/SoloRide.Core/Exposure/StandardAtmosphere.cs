using SoloRide.Internal;

namespace SoloRide.Exposure;

/// <summary>Pressure of the standard atmosphere.</summary>
internal static class StandardAtmosphere
{
    [Source("icao-isa", "troposphere")]
    public static double PressureHpa(double elevationM) => 1013.25 * Math.Pow(1 - (2.25577e-5 * elevationM), 5.25588);
}
