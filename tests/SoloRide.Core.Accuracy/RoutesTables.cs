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
