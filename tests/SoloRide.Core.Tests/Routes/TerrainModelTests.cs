using FsCheck;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Internal;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Routes;

public sealed class TerrainModelTests
{
    // Source: GDAL 3.6.2 where all nodes exist; plain formulas beside it. Rasters: NASA/USGS SRTM and USGS (public domain); not shipped.
    [SkippableTheory]
    [InlineData("N44W072.hgt", "N44W072_checks.csv", null)]
    [InlineData("frontrange_3sec.asc", "frontrange_3sec_checks.csv", null)]
    [InlineData("volcano_30m.asc", "volcano_30m_checks.csv", 10)]
    [InlineData("sangabriel_utm11_f32_strip.tif", "sangabriel_utm11_f32_strip_checks.csv", null)]
    [InlineData("sangabriel_utm11_i16_tiled_deflate.tif", "sangabriel_utm11_i16_tiled_deflate_checks.csv", null)]
    [Checks(typeof(TerrainModel), CheckKind.Outside)]
    public void Heights_ReferenceChecks_Agree(string raster, string checks, int? zone)
    {
        TerrainTile tile = TerrainModel.Read(Repo.ReferenceFile("routes", "dem", raster), new TerrainOptions { UtmZone = zone }).Tiles[0];
        foreach (CsvRow row in CsvTable.Read(Repo.ReferenceFile("routes", "dem", checks)).Rows)
        {
            // From the pixel coordinates, which carry more digits than the printed degrees.
            double x = tile.LeftX + (row.Num("pixel_x") * tile.CellX), y = tile.TopY - (row.Num("pixel_y") * tile.CellY);
            Near(row.Num("plain_bilinear_m"), tile.BilinearM(x, y));
            Near(row.Num("plain_catmullrom_m"), tile.CatmullRomM(x, y));
        }

        // The checks print 1e-6 of a cell and 1e-5 m.
        static void Near(double expected, double actual)
            => Assert.True(double.IsNaN(expected) ? double.IsNaN(actual) : Math.Abs(expected - actual) < 1e-4, $"{actual} instead of {expected}");
    }

    [Fact]
    [Checks(typeof(TerrainModel), CheckKind.BadInput)]
    public void Read_BadRasters_SayWhatIsWrong()
    {
        string folder = Path.Combine(Path.GetTempPath(), Path.GetRandomFileName());
        Directory.CreateDirectory(folder);
        try
        {
            Bad("some.hgt", "", "south-western corner");
            Bad("N44W072.hgt", "abc", "no square");
            Bad("a.asc", "hello 5", "no key");
            Bad("b.asc", "ncols 2\nnrows 2\nxllcorner 560505\nyllcorner 5113905\ncellsize 30\n1 2 3 4", "UtmZone");
            Bad("c.asc", "ncols 2\nnrows 2\nxllcorner 5\nyllcorner 5\ncellsize 1\n1 2 3", "height 4 of 4");
            Bad("d.asc", "ncols 2000000\nnrows 2000000\nxllcorner 5\nyllcorner 5\ncellsize 1\n1 2 3", "product up to");
            Bad("e.tif", "II*\0garbage", "TIFF");
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }

        Assert.Throws<ArgumentException>(() => TerrainModel.FromGrid(default, 1, 3, [1, 2, 3, 4]));
        Assert.Throws<ArgumentException>(() => TerrainModel.Read([]));

        void Bad(string name, string text, string words)
        {
            string path = Path.Combine(folder, name);
            File.WriteAllText(path, text);
            Assert.Contains(words, Assert.Throws<InputFormatException>(() => TerrainModel.Read(path)).Message, StringComparison.Ordinal);
        }
    }

    [Property]
    [Checks(typeof(TerrainModel), CheckKind.Property)]
    public bool Heights_OfAPlane_AreThePlane(NonNegativeInt u, NonNegativeInt v, bool bicubic)
    {
        double[] heights = [.. Enumerable.Range(0, 100).Select(i => 500 + (3 * (i % 10)) - (7.0 * (i / 10)))];
        TerrainModel model = TerrainModel.FromGrid(new GeoPoint(45, 7), 0.01, 10, heights, bicubic ? TerrainInterpolation.Bicubic : TerrainInterpolation.Bilinear);
        double x = u.Get % 1000 / 1000.0 * 9, y = v.Get % 1000 / 1000.0 * 9;
        return Math.Abs(model.HeightM(45.09 - (y * 0.01), 7 + (x * 0.01)) - (500 + (3 * x) - (7 * y))) < 1e-6;
    }

    [Property]
    [Checks(typeof(TerrainModel), CheckKind.Property)]
    public bool Bilinear_AnyPlace_StaysBetweenItsNodes(int seed, NonNegativeInt u, NonNegativeInt v)
    {
        var random = new Random(seed);
        double[] heights = [.. Enumerable.Range(0, 100).Select(_ => random.NextDouble() * 1000)];
        double h = TerrainModel.FromGrid(default, 0.01, 10, heights).HeightM(u.Get % 1000 / 1000.0 * 0.09, v.Get % 1000 / 1000.0 * 0.09);
        return h >= heights.Min() - 1e-9 && h <= heights.Max() + 1e-9;
    }

    [Fact]
    public void Heights_VoidsAndOutside_AreNaN()
    {
        double[] heights = [.. Enumerable.Range(0, 36).Select(i => i == 14 ? double.NaN : i)];
        TerrainModel model = TerrainModel.FromGrid(new GeoPoint(45, 7), 0.01, 6, heights);
        Assert.True(double.IsNaN(model.HeightM(45.025, 7.025)));
        Assert.True(double.IsNaN(model.HeightM(44.99, 7.02)));
        Assert.Equal(0, model.HeightM(45.05, 7.0), 1e-9);
        Assert.False(double.IsNaN(model.HeightM(45.005, 7.045)));
    }

    [Fact]
    public void Drape_Modes_DoWhatTheySay()
    {
        double[] heights = [.. Enumerable.Range(0, 100).Select(i => 500.0 + (10 * (i % 10)))];
        TerrainModel model = TerrainModel.FromGrid(new GeoPoint(45, 7), 0.01, 10, heights);
        RideRoute bare = RideRoute.FromPoints([new GeoPoint(45.05, 7.01), new GeoPoint(45.05, 7.04, 700), new GeoPoint(45.05, 7.07), new GeoPoint(46, 7.07)]);
        RideRoute filled = bare.Drape(model), replaced = bare.Drape(model, DrapeMode.Replace);
        Assert.Equal([510, 700, 570], filled.Points.Take(3).Select(p => Math.Round(p.Place.ElevationM, 6)));
        Assert.Equal([510, 540, 570], replaced.Points.Take(3).Select(p => Math.Round(p.Place.ElevationM, 6)));
        Assert.Contains(replaced.Findings, f => f.Code == "routes.terrain-void");
        Assert.Equal(HeightSource.TerrainModel, ElevationProfile.Of(replaced).Source);
        RideRoute dense = bare.Part(Length.Zero, bare.DistanceAt(2)).Drape(model, DrapeMode.Replace, Length.FromMeters(50));
        Assert.True(dense.Points.Count > 90);
        Assert.Equal(bare.DistanceAt(2).Meters, dense.Length.Meters, 1e-6);
    }

    [Fact]
    public void Drape_Merge_TakesTheDriftOut()
    {
        double[] heights = [.. Enumerable.Range(0, 100).Select(i => 500.0 + (10 * (i % 10)))];
        TerrainModel model = TerrainModel.FromGrid(new GeoPoint(45, 7), 0.01, 10, heights);
        RideRoute drifted = RideRoute.FromPoints(Enumerable.Range(0, 800).Select(i => new GeoPoint(45.05, 7 + (i * 0.0001), 500 + (i * 0.1) + 40)));
        RideRoute merged = drifted.Drape(model, DrapeMode.Merge);
        Assert.Equal(540, merged.Points[400].Place.ElevationM, 0.5);
    }

    // Source: GeoConvert (GeographicLib); not shipped.
    [SkippableFact]
    public void Utm_ReferenceChecks_Agree()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.ReferenceFile("routes", "dem", "utm11_latlon_checks.csv")).Rows)
        {
            UtmKernel.UtmInverse(row.Num("easting_m"), row.Num("northing_m"), 11, true, out double lat, out double lon);
            Assert.Equal(row.Num("lat_deg"), lat, 1e-11);
            Assert.Equal(row.Num("lon_deg"), lon, 1e-11);
        }
    }
}
