using SoloRide.Internal;
using SoloRide.Routes;

namespace SoloRide.Accuracy;

internal sealed class RoutesTables : IModuleTables
{
    public string Module => "routes";

    public IEnumerable<TableCheck> Tables =>
    [
        new("routes/geodesic_short.csv", TruthKind.OutsideTruth, c => Geodesics(c, "routes/geodesic_short.csv", 10)),
        new("routes/geodesic_long.csv", TruthKind.OutsideTruth, c => Geodesics(c, "routes/geodesic_long.csv", 100)),
        new("routes/files", TruthKind.OutsideTruth, Files),
        new("routes/dem/N44W072_checks.csv", TruthKind.OutsideTruth, c => Terrain(c, "N44W072", null)),
        new("routes/dem/frontrange_3sec_checks.csv", TruthKind.OutsideTruth, c => Terrain(c, "frontrange_3sec", null)),
        new("routes/dem/sangabriel_utm11_f32_strip_checks.csv", TruthKind.OutsideTruth, c => Terrain(c, "sangabriel_utm11_f32_strip", null)),
        new("routes/dem/sangabriel_utm11_i16_tiled_deflate_checks.csv", TruthKind.OutsideTruth, c => Terrain(c, "sangabriel_utm11_i16_tiled_deflate", null)),
        new("routes/dem/volcano_30m_checks.csv", TruthKind.OutsideTruth, c => Terrain(c, "volcano_30m", 10)),
        new("routes/dem/utm11_latlon_checks.csv", TruthKind.OutsideTruth, Utm),
    ];

    public IEnumerable<string> NoTable => ["routes/trail_attributes.json"];

    private static TableResult Geodesics(RunContext context, string path, double barNm)
    {
        var length = new ErrorStats();
        double azimuth = 0;
        int failures = 0;
        foreach (CsvRow row in context.Table(path).Rows)
        {
            Geodesic g = Geodesic.Between(new GeoPoint(row.Num("lat1_deg"), row.Num("lon1_deg")), new GeoPoint(row.Num("lat2_deg"), row.Num("lon2_deg")));
            double s = row.Num("s12_m");
            length.Add((g.Length.Meters - s) * 1e9);
            failures += double.IsFinite(g.Length.Meters) && double.IsFinite(g.InitialBearing.Degrees) && double.IsFinite(g.FinalBearing.Degrees) ? 0 : 1;
            if (s > 1 && barNm < 50)
            {
                double allowed = 1e-9 + (1e-7 / s);
                azimuth = Math.Max(azimuth, Math.Abs(Math.IEEERemainder(g.InitialBearing.Degrees - row.Num("azi1_deg"), 360)) / allowed);
                azimuth = Math.Max(azimuth, Math.Abs(Math.IEEERemainder(g.FinalBearing.Degrees - row.Num("azi2_deg"), 360)) / allowed);
            }
        }

        var measures = new List<Measure>
        {
            new("worst length error", length.Worst, "nm", barNm),
            new("failures or NaN", failures, "rows", 0),
        };
        if (barNm < 50)
        {
            measures.Add(new Measure("worst azimuth error over what is allowed", azimuth, "(share)", 1, Floor: 1.5));
        }

        return new TableResult(length.Count, length.Worst, length.Rms, "nm", [.. measures]);
    }

    private static TableResult Terrain(RunContext context, string name, int? zone)
    {
        string raster = Directory.GetFiles(context.File("routes/dem"), name + ".*").Single();
        TerrainTile tile = TerrainModel.Read(raster, new TerrainOptions { UtmZone = zone }).Tiles[0];
        var stats = new ErrorStats();
        int voids = 0;
        foreach (CsvRow row in context.Table($"routes/dem/{name}_checks.csv").Rows)
        {
            double x = row.Num("x"), y = row.Num("y");

            Compare(row.Num("plain_bilinear_m"), tile.BilinearM);
            Compare(row.Num("plain_catmullrom_m"), tile.CatmullRomM);

            void Compare(double expected, Func<double, double, double> height)
            {
                double h = height(x, y);
                if (double.IsNaN(expected) || double.IsNaN(h))
                {
                    voids += double.IsNaN(expected) == double.IsNaN(h) ? 0 : 1;
                    return;
                }

                // Places are printed to 1e-9 deg or m and heights to 1e-5 m: what half a last digit moves is not ours.
                const double Half = 0.5e-9;
                double rounding = 0.5e-5;
                foreach ((double dx, double dy) in new[] { (-Half, -Half), (-Half, Half), (Half, -Half), (Half, Half) })
                {
                    double moved = Math.Abs(height(x + dx, y + dy) - h);
                    rounding = Math.Max(rounding, 0.5e-5 + (double.IsNaN(moved) ? 0 : moved));
                }

                stats.Add(Math.Max(0, Math.Abs(expected - h) - rounding));
            }
        }

        return new TableResult(stats.Count, stats.Worst, stats.Rms, "m",
            new Measure("worst error beyond the rounding of the printed figures", stats.Worst, "m", 1e-6), new Measure("voids that differ", voids, "checks", 0));
    }

    private static TableResult Utm(RunContext context)
    {
        var stats = new ErrorStats();
        foreach (CsvRow row in context.Table("routes/dem/utm11_latlon_checks.csv").Rows)
        {
            UtmKernel.UtmInverse(row.Num("easting_m"), row.Num("northing_m"), 11, true, out double lat, out double lon);
            stats.Add(lat - row.Num("lat_deg"));
            stats.Add(lon - row.Num("lon_deg"));
        }

        return stats.Result("deg", 1e-11);
    }

    private static TableResult Files(RunContext context)
    {
        int rows = 0, wrong = 0;
        foreach (CsvRow row in context.Table("routes/files/MANIFEST.csv").Rows)
        {
            string path = context.File("routes/files/" + row["file"]);
            if (!File.Exists(path))
            {
                continue;
            }

            rows++;
            IReadOnlyList<string> differences = RouteFileStatistics.Compare(row, path);
            if (differences.Count > 0)
            {
                wrong++;
                Console.Error.WriteLine($"routes/files {row["file"]}: {string.Join("; ", differences)}");
            }
        }

        return new TableResult(rows, wrong, double.NaN, "rows wrong", new Measure("rows not as expected", wrong, "rows", 0));
    }
}
