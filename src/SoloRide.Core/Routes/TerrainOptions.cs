using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>How terrain rasters are read and asked.</summary>
/// <remarks>Immutable.</remarks>
public sealed record TerrainOptions
{
    internal static TerrainOptions Default { get; } = new();

    /// <summary>How heights between the nodes are found.</summary>
    public TerrainInterpolation Interpolation { get; init => field = Guard.Defined(value, nameof(Interpolation)); } = TerrainInterpolation.Bilinear;

    /// <summary>Zone of the UTM grid of rasters that do not tell theirs (Esri ASCII), 1 to 60; null when their coordinates are degrees.</summary>
    public int? UtmZone { get; init => field = value is { } v ? Guard.InRange(v, 1, 60, "(zone)", nameof(UtmZone)) : null; }

    /// <summary>Whether that zone is on the southern half of the Earth.</summary>
    public bool UtmSouth { get; init; }

    /// <summary>Most cells of one raster; 1 to 1 000 000 000, 200 000 000 unless stated.</summary>
    public int MaxCells { get; init => field = Guard.InRange(value, 1, 1_000_000_000, "cells", nameof(MaxCells)); } = 200_000_000;
}
