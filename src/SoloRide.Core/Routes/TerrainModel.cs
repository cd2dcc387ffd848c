using SoloRide.Internal;

namespace SoloRide.Routes;

/// <summary>Heights of the ground from one or several rasters: SRTM .hgt, Esri ASCII grid, GeoTIFF (degrees or UTM).</summary>
/// <remarks>
/// Places are looked up in the rasters in the order given; the first that knows a height there answers, so put the finest first.
/// Voids and places outside are NaN. Immutable; safe to share between threads.
/// </remarks>
[Entry]
public sealed class TerrainModel : ITerrainHeights
{
    private readonly TerrainTile[] _tiles;
    private readonly bool _bicubic;

    private TerrainModel(TerrainTile[] tiles, TerrainInterpolation interpolation)
    {
        _tiles = tiles;
        _bicubic = interpolation == TerrainInterpolation.Bicubic;
        Interpolation = interpolation;
    }

    /// <summary>How heights between the nodes are found.</summary>
    public TerrainInterpolation Interpolation { get; }

    /// <summary>Number of rasters.</summary>
    public int TileCount => _tiles.Length;

    internal IReadOnlyList<TerrainTile> Tiles => _tiles;

    /// <summary>Reads one raster.</summary>
    /// <param name="path">File; .hgt by its name (N44W072.hgt), GeoTIFF by its content, else Esri ASCII; .hgt and ASCII may be gzip.</param>
    /// <param name="options">Interpolation and projection; null for the defaults.</param>
    /// <returns>The model.</returns>
    /// <exception cref="InputFormatException">The file is no raster that can be read, or does not tell where it lies.</exception>
    /// <exception cref="IOException">The file cannot be opened or read.</exception>
    public static TerrainModel Read(string path, TerrainOptions? options = null) => Read([path], options);

    /// <summary>Reads several rasters.</summary>
    /// <param name="paths">Files, the finest first; at least one.</param>
    /// <param name="options">Interpolation and projection; null for the defaults.</param>
    /// <returns>The model.</returns>
    /// <exception cref="ArgumentException">There is no file.</exception>
    /// <exception cref="InputFormatException">A file is no raster that can be read, or does not tell where it lies.</exception>
    /// <exception cref="IOException">A file cannot be opened or read.</exception>
    public static TerrainModel Read(IEnumerable<string> paths, TerrainOptions? options = null)
    {
        options ??= TerrainOptions.Default;
        TerrainTile[] tiles = [.. Guard.NotNull(paths).Select(p => TerrainReader.Read(Guard.NotEmpty(p, nameof(paths)), options))];
        return tiles.Length > 0 ? new TerrainModel(tiles, options.Interpolation) : throw new ArgumentException("A terrain model needs at least one raster.", nameof(paths));
    }

    /// <summary>Makes a model of heights on an even grid of degrees.</summary>
    /// <param name="southWest">Place of the south-western node.</param>
    /// <param name="cellDeg">[°, above 0 to 10] Distance of the nodes both ways.</param>
    /// <param name="columns">Nodes in a row, at least 2.</param>
    /// <param name="heightsM">[m, NaN = void] Heights row by row from the north, each from the west.</param>
    /// <param name="interpolation">How heights between the nodes are found.</param>
    /// <returns>The model.</returns>
    /// <exception cref="ArgumentException">The number of heights is no multiple of the columns, or gives fewer than 2 rows.</exception>
    public static TerrainModel FromGrid(GeoPoint southWest, double cellDeg, int columns, IReadOnlyList<double> heightsM, TerrainInterpolation interpolation = TerrainInterpolation.Bilinear)
    {
        Guard.Positive(cellDeg, "deg");
        Guard.InRange(cellDeg, 0, 10, "deg");
        Guard.InRange(columns, 2, 100_000, "columns");
        double[] heights = [.. Guard.NotNull(heightsM)];
        int rows = heights.Length / columns;
        if (rows < 2 || rows * columns != heights.Length)
        {
            throw new ArgumentException(FormattableString.Invariant($"heightsM holds {heights.Length} heights; they must fill at least 2 rows of {columns}."), nameof(heightsM));
        }

        double half = cellDeg / 2;
        return new TerrainModel([new TerrainTile(heights, columns, rows, southWest.LonDeg - half, southWest.LatDeg + ((rows - 0.5) * cellDeg), cellDeg, cellDeg, double.NaN)], Guard.Defined(interpolation));
    }

    /// <inheritdoc/>
    public double HeightM(double latDeg, double lonDeg)
    {
        foreach (TerrainTile tile in _tiles)
        {
            double h = tile.HeightM(latDeg, lonDeg, _bicubic);
            if (!double.IsNaN(h))
            {
                return h;
            }
        }

        return double.NaN;
    }

    /// <inheritdoc/>
    public void HeightsM(ReadOnlySpan<double> latDeg, ReadOnlySpan<double> lonDeg, Span<double> heightsM)
    {
        Guard.SameLength(latDeg.Length, lonDeg.Length, nameof(lonDeg));
        Guard.SameLength(latDeg.Length, heightsM.Length, nameof(heightsM));
        for (int i = 0; i < latDeg.Length; i++)
        {
            heightsM[i] = HeightM(latDeg[i], lonDeg[i]);
        }
    }
}
