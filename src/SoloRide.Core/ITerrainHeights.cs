namespace SoloRide;

/// <summary>Heights of the ground, from a raster or any other source.</summary>
/// <remarks>Implementations are immutable and safe to use from several threads.</remarks>
public interface ITerrainHeights
{
    /// <summary>Height at one place.</summary>
    /// <param name="latDeg">[°, -90 to 90]</param>
    /// <param name="lonDeg">[°, -180 to 180]</param>
    /// <returns>Height above mean sea level [m]; NaN where nothing is known.</returns>
    double HeightM(double latDeg, double lonDeg);

    /// <summary>Heights at many places.</summary>
    /// <param name="latDeg">[°] Latitudes.</param>
    /// <param name="lonDeg">[°] Longitudes, as many.</param>
    /// <param name="heightsM">[m] Receives the heights; NaN where nothing is known.</param>
    /// <exception cref="ArgumentException">The spans differ in length.</exception>
    void HeightsM(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg, Span<double> heightsM);
}
