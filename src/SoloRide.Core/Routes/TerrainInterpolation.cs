namespace SoloRide.Routes;

/// <summary>How heights between the nodes of a raster are found.</summary>
public enum TerrainInterpolation
{
    /// <summary>From the four nodes around.</summary>
    Bilinear,

    /// <summary>From the sixteen nodes around (Catmull-Rom); bilinear where one of them is missing or void.</summary>
    Bicubic,
}
