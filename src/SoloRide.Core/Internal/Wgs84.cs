namespace SoloRide.Internal;

/// <summary>The WGS 84 ellipsoid.</summary>
[Source("wgs84", "defining parameters a and 1/f")]
internal static class Wgs84
{
    public const double AM = 6378137.0;
    public const double F = 1 / 298.257223563;
    public const double BM = AM * (1 - F);
    public const double E2 = F * (2 - F);
    public const double Ep2 = E2 / (1 - E2);
    public const double RadPerDeg = Math.PI / 180;
}
