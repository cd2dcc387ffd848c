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
        new("routes/files/MANIFEST.csv", TruthKind.OutsideTruth, Files),
        new("routes/ascent", TruthKind.OutsideTruth, Ascent),
        new("routes/ascent/climbs_truth.csv", TruthKind.OutsideTruth, Climbs),
        new("routes/dem/N44W072_checks.csv", TruthKind.OutsideTruth, c => Terrain(c, "N44W072", null)),
        new("routes/dem/frontrange_3sec_checks.csv", TruthKind.OutsideTruth, c => Terrain(c, "frontrange_3sec", null)),
        new("routes/dem/sangabriel_utm11_f32_strip_checks.csv", TruthKind.OutsideTruth, c => Terrain(c, "sangabriel_utm11_f32_strip", null)),
        new("routes/dem/sangabriel_utm11_i16_tiled_deflate_checks.csv", TruthKind.OutsideTruth, c => Terrain(c, "sangabriel_utm11_i16_tiled_deflate", null)),
        new("routes/dem/volcano_30m_checks.csv", TruthKind.OutsideTruth, c => Terrain(c, "volcano_30m", 10)),
        new("routes/dem/utm11_latlon_checks.csv", TruthKind.OutsideTruth, Utm),
    ];

    public IEnumerable<string> NoTable => ["routes/trail_attributes.json", "routes/manifest.csv", "routes/files", "routes/schema"];

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

    /// <summary>A recording without places: distances and heights as they are, laid along a meridian.</summary>
    private static RideRoute Route(double[] x, double[] h, double[]? timeS)
    {
        var start = new DateTimeOffset(2027, 6, 14, 8, 0, 0, TimeSpan.Zero);
        return RideRoute.FromPoints(x.Select((d, i) =>
        {
            GeoPoint p = Geodesic.PointAt(new GeoPoint(45, 7), UnitsNet.Angle.Zero, UnitsNet.Length.FromMeters(d));
            return new RoutePoint(new GeoPoint(p.LatDeg, p.LonDeg, h[i]), timeS is null ? null : start.AddSeconds(timeS[i]));
        }));
    }

    private static double Plain(double[] x, double[] h, double lengthM, double sigmaM)
    {
        double[] cells = new double[ProfileKernel.CellCount(lengthM)], smooth = new double[cells.Length];
        ProfileKernel.CellMeans(x, h, lengthM, cells);
        ProfileKernel.Gaussian(cells, sigmaM / (lengthM / cells.Length), smooth);
        return ProfileKernel.Sums(smooth).RiseM;
    }

    private static TableResult Ascent(RunContext context)
    {
        AscentProfile[] profiles = [.. AscentProfile.All(context.File("routes/ascent")).Where(p => p.Judged)];
        var measures = new List<Measure>();
        int rows = 0;
        double worst = 0;
        foreach ((HeightSource source, string name, double bar, double gaussianM, double floor) in new[]
        {
            (HeightSource.Barometric, "barometric", 1.2, 25.0, 1.3), (HeightSource.Satellite, "satellite", 8.5, 60.0, 9.0), (HeightSource.TerrainModel, "terrain model", 6.0, 40.0, 7.0),
        })
        {
            int draws = source == HeightSource.TerrainModel ? 1 : context.Draws;
            var errors = new (double Ours, double Plain, bool Covered, bool Told, bool Series)[profiles.Length * (draws + 1)];
            Parallel.For(0, errors.Length, new ParallelOptions { MaxDegreeOfParallelism = 2 }, k =>
            {
                AscentProfile p = profiles[k % profiles.Length];
                int draw = k / profiles.Length;
                double[] x = source == HeightSource.TerrainModel ? p.ModelX : p.SensorX;
                double[] h = source == HeightSource.TerrainModel ? p.ModelH
                    : draw == 0 ? source == HeightSource.Barometric ? p.Barometric : p.Satellite
                    : p.Draw(source, new Random(HashCode(context.Seed, p.Id, draw, (int)source)));
                ElevationProfile profile = ElevationProfile.Of(Route(x, h, source == HeightSource.TerrainModel ? null : p.TimeS), new ElevationOptions { IntervalLevel = 0.9 });
                errors[k] = ((profile.Ascent.Typical.Meters / p.TruthM) - 1, (Plain(x, h, profile.Route.Length.Meters, gaussianM) / p.TruthM) - 1,
                    profile.Ascent.Low.Meters <= p.TruthM && p.TruthM <= profile.Ascent.High.Meters, profile.Source == source, draw == 0);
            });

            // Barometric and satellite are judged on the fresh draws, terrain model on the given series.
            var judged = errors.Where(e => e.Series == (source == HeightSource.TerrainModel || draws == 0)).ToArray();
            double rms = 100 * Math.Sqrt(judged.Average(e => e.Ours * e.Ours)), plain = 100 * Math.Sqrt(judged.Average(e => e.Plain * e.Plain));
            double given = 100 * Math.Sqrt(errors.Where(e => e.Series).Average(e => e.Ours * e.Ours)), bias = 100 * judged.Average(e => e.Ours);
            double covered = 100 * judged.Average(e => e.Covered ? 1.0 : 0);
            rows += judged.Length;
            worst = Math.Max(worst, 100 * judged.Max(e => Math.Abs(e.Ours)));
            measures.Add(new Measure($"{name}: rms error over {judged.Length} series", rms, "%", bar, Floor: floor));
            measures.Add(new Measure($"{name}: rms error less that of the class-known Gaussian", Math.Round(rms - plain, 6), "%", 0, Floor: 0.15));
            measures.Add(new Measure($"{name}: bias", Math.Abs(bias), "%", 1.5));
            measures.Add(new Measure($"{name}: coverage of the 90 % interval below", covered, "%", 85, AtLeast: true, Floor: 80));
            measures.Add(new Measure($"{name}: coverage of the 90 % interval above", covered, "%", 95, Floor: 99));
            measures.Add(new Measure($"{name}: source recognised", 100 * judged.Average(e => e.Told ? 1.0 : 0), "%"));
            measures.Add(new Measure($"{name}: rms error on the given series", given, "%"));
            if (source == HeightSource.TerrainModel)
            {
                double[] sorted = [.. judged.Select(e => 100 * Math.Abs(e.Ours)).Order()];
                measures.Add(new Measure($"{name}: median error", sorted[sorted.Length / 2], "%", 3));
            }
        }

        return new TableResult(rows, worst, double.NaN, "%", [.. measures]);

        static int HashCode(int seed, string id, int draw, int source)
        {
            int h = seed;
            foreach (char c in id)
            {
                h = unchecked((h * 31) + c);
            }

            return unchecked((((h * 1009) + draw) * 17) + source);
        }
    }

    /// <summary>Climbs of the barometric series: an end is found within 50 m, or where the true height is within 1 m of that at the true end; the climbs overlap by more than half the shorter.</summary>
    private static TableResult Climbs(RunContext context)
    {
        var profiles = AscentProfile.All(context.File("routes/ascent")).ToDictionary(p => p.Id);
        int wanted = 0, found = 0, made = 0, right = 0;
        foreach (var group in context.Table("routes/ascent/climbs_truth.csv").Rows.GroupBy(r => (Id: r["id"], Threshold: r.Num("reversal_threshold_m"))))
        {
            if (!profiles.TryGetValue(group.Key.Id, out AscentProfile? p))
            {
                continue;
            }

            double[] smooth = new double[p.TrueH.Length];
            ProfileKernel.Gaussian(p.TrueH, 25 / (p.LengthM / (p.TrueH.Length - 1)), smooth);
            ElevationProfile profile = ElevationProfile.Of(Route(p.SensorX, p.Barometric, p.TimeS));
            var climbs = profile.Climbs(UnitsNet.Length.FromMeters(group.Key.Threshold)).Select(c => (A: c.From.Meters, B: c.To.Meters)).ToArray();
            var truths = group.Select(r => (A: r.Num("start_m"), B: r.Num("end_m"))).ToArray();
            wanted += truths.Length;
            made += climbs.Length;
            found += truths.Count(t => climbs.Any(c => Same(t, c)));
            right += climbs.Count(c => truths.Any(t => Same(t, c)));

            bool Same((double A, double B) t, (double A, double B) c)
                => End(t.A, c.A) && End(t.B, c.B) && Math.Min(t.B, c.B) - Math.Max(t.A, c.A) > Math.Min(t.B - t.A, c.B - c.A) / 2;

            bool End(double truth, double ours) => Math.Abs(truth - ours) <= 50 || Math.Abs(At(truth) - At(ours)) <= 1;

            double At(double x)
            {
                double u = Math.Clamp(x / p.LengthM * (smooth.Length - 1), 0, smooth.Length - 1);
                int i = Math.Min((int)u, smooth.Length - 2);
                return smooth[i] + ((u - i) * (smooth[i + 1] - smooth[i]));
            }
        }

        double recall = 100.0 * found / Math.Max(1, wanted), precision = 100.0 * right / Math.Max(1, made);
        return new TableResult(wanted, wanted - found, double.NaN, "climbs missed", new Measure("recall", recall, "%", 97, true, 95), new Measure("precision", precision, "%", 95, true, 93));
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
