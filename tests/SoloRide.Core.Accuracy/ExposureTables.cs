using SoloRide.Exposure;
using UnitsNet;

namespace SoloRide.Accuracy;

/// <summary>Tables of heat and cold.</summary>
internal sealed class ExposureTables : IModuleTables
{
    public string Module => "hydration-exposure";

    public IEnumerable<TableCheck> Tables =>
    [
        new("hydration/phs_annexF_2004_pa.csv", TruthKind.PublishedExample, AnnexF2004),
        new("hydration/phs_annexF_2023.csv", TruthKind.PublishedExample, AnnexF2023),
        new("hydration/phs_random.csv", TruthKind.OwnArithmetic, Random),
        new("hydration/wbgt.csv", TruthKind.OutsideTruth, Wbgt),
        new("hydration/ireq.csv", TruthKind.OwnArithmetic, Ireq),
        new("hydration/windchill_canada.csv", TruthKind.OutsideTruth, c => WindChillTable(c, "windchill_canada.csv", r => WindChillKernel.IndexC(r.Num("t_c"), r.Num("v10_kmh")))),
        new("hydration/windchill_nws.csv", TruthKind.OutsideTruth, c => WindChillTable(c, "windchill_nws.csv", r => WindChillKernel.IndexF(r.Num("t_f"), r.Num("v_mph")))),
        new("hydration/heat_index_nws.csv", TruthKind.OutsideTruth, HeatIndex),
        new("hydration/utci_cases.csv", TruthKind.OutsideTruth, Utci),
        new("hydration/frostbite_anchors.csv", TruthKind.OutsideTruth, Frostbite),
        new("hydration/clo_garments.csv", TruthKind.OutsideTruth, Clo),
        new("hydration/survival_anchors.csv", TruthKind.OutsideTruth, SurvivalOrder),
        new("planning/wbgt_work_rest.csv", TruthKind.OutsideTruth, WorkRest),
    ];

    // met_anchors: defaults of the night out; shivering_points: no shivering model is shipped; phs_cases: the same cases as the two annexes, with humidity for
    // vapour pressure; wci_siple_passel_cases: the index replaced in 2001.
    public IEnumerable<string> NoTable =>
        ["hydration/met_anchors.csv", "hydration/shivering_points.csv", "hydration/phs_cases.csv", "hydration/wci_siple_passel_cases.csv"];

    /// <summary>The whole army table: the category at both ends of each row and in the printed gap after it, work, rest and water at three intensities.</summary>
    private static TableResult WorkRest(RunContext c)
    {
        var water = new ErrorStats();
        int cells = 0, met = 0, rows = 0;
        foreach (CsvRow row in c.Table("planning/wbgt_work_rest.csv").Rows)
        {
            int category = row.Whole("heat_category");
            rows++;
            Cell(HeatTableKernel.Category(row.Num("wbgt_F_low")) == category);
            Cell(HeatTableKernel.Category(row.Num("wbgt_F_low") - 0.05) == category - 1);
            Cell(HeatTableKernel.Category(row.IsEmpty("wbgt_F_high") ? 200 : row.Num("wbgt_F_high") + 0.05) == category);
            foreach ((string name, WorkIntensity intensity) in new[] { ("easy", WorkIntensity.Easy), ("moderate", WorkIntensity.Moderate), ("hard", WorkIntensity.Hard) })
            {
                (int minutes, double quarts) = HeatTableKernel.Cell(category, (int)intensity);
                string printed = minutes >= 60 ? "NL" : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{minutes}/{60 - minutes}");
                Cell(printed == row[name + "_work_rest"].Trim());
                water.Add(quarts - row.Num(name + "_qt_h"));
                Cell(Math.Abs(quarts - row.Num(name + "_qt_h")) < 1e-9);
            }
        }

        return new TableResult(rows, water.Worst, water.Rms, "qt/h", new Measure("cells as printed", (double)met / cells, "share", 1, true, 1));

        void Cell(bool same)
        {
            cells++;
            met += same ? 1 : 0;
        }
    }

    private static TableResult AnnexF2004(RunContext c)
    {
        var tre = new ErrorStats();
        int met = 0, rows = 0, converged = 0;
        foreach (CsvRow row in c.Table("hydration/phs_annexF_2004_pa.csv").Rows)
        {
            int minutes = row.Whole("duration_min");
            met += AsPrinted(row, HeatStrainTable.AnnexF2004(row) with { ListingLoops = true }, minutes, tre) ? 1 : 0;
            converged += AsPrinted(row, HeatStrainTable.AnnexF2004(row), minutes, new ErrorStats()) ? 1 : 0;
            rows++;
        }

        return new TableResult(rows, tre.Worst, tre.Rms, "C",
            new Measure("rows as printed, listing mode", (double)met / rows, "", 1, true),
            new Measure("rows as printed, converged solver", (double)converged / rows, ""));
    }

    private static bool AsPrinted(CsvRow row, HeatStrainInput input, int minutes, ErrorStats tre)
    {
        (HeatStrainStepper body, double d50, double d95, double dTre) = HeatStrainTable.Run(input, minutes, drinks: true);
        tre.Add(body.RectalC - row.Num("annexF_tre"));
        return Math.Abs(Math.Round(body.RectalC, 1) - row.Num("annexF_tre")) < 1e-9
            && Math.Abs(Math.Round(body.LossG) - row.Num("annexF_loss_g")) < 1e-9
            && dTre == row.Num("annexF_dlim_tre") && d50 == row.Num("annexF_dlim_loss50") && d95 == row.Num("annexF_dlim_loss95");
    }

    private static TableResult AnnexF2023(RunContext c)
    {
        var tre = new ErrorStats();
        var loss = new ErrorStats();
        int core = 0, limit = 0;
        foreach (CsvRow row in c.Table("hydration/phs_annexF_2023.csv").Rows.Where(r => r["reading"].StartsWith("R2", StringComparison.Ordinal)))
        {
            (HeatStrainStepper body, _, double d95, double dTre) = HeatStrainTable.Run(HeatStrainTable.AnnexF2023(row) with { ListingLoops = true }, 480, drinks: true);
            tre.Add(body.RectalC - row.Num("std_tre"));
            loss.Add(100 * ((body.LossG / row.Num("std_loss_g")) - 1));
            core += dTre == row.Num("std_dlim_tre") ? 1 : 0;
            limit += Math.Round(d95 / 10) * 10 == row.Num("std_dlim_loss") ? 1 : 0;
        }

        return new TableResult(tre.Count, tre.Worst, tre.Rms, "C",
            new Measure("rectal temperature", tre.Worst, "C", 0.06),
            new Measure("loss", loss.Worst, "%", 0.6),
            new Measure("core limits equal", (double)core / tre.Count, "", 1, true),
            new Measure("loss limits equal at 10 min", (double)limit / tre.Count, "", 1, true));
    }

    private static TableResult Random(RunContext c)
    {
        var tre = new ErrorStats();
        var loss = new ErrorStats();
        int limits = 0;
        foreach (CsvRow row in c.Table("hydration/phs_random.csv").Rows)
        {
            (HeatStrainStepper body, _, double d95, double dTre) = HeatStrainTable.Run(HeatStrainTable.Random(row), row.Whole("duration_min"), row.Num("drink") == 1);
            tre.Add(body.RectalC - row.Num("rec_t_re"));
            tre.Add(body.CoreC - row.Num("rec_t_cr"));
            loss.Add(body.LossG - row.Num("rec_loss_g"));
            limits += dTre == row.Num("rec_dlim_tre") && Math.Abs(d95 - row.Num("rec_dlim_loss95")) < 1e-3 ? 1 : 0;
        }

        return new TableResult(loss.Count, tre.Worst, tre.Rms, "C",
            new Measure("rectal and core temperature", tre.Worst, "C", 1e-6),
            new Measure("loss", loss.Worst, "g", 1e-3),
            new Measure("limits equal", (double)limits / loss.Count, "", 1, true));
    }

    private static TableResult Wbgt(RunContext c)
    {
        var wbgt = new ErrorStats();
        var parts = new ErrorStats();
        double certificate = 0;
        foreach (CsvRow row in c.Table("hydration/wbgt.csv").Rows)
        {
            if (!row.IsEmpty("tight_status") && row.Num("tight_status") != 0)
            {
                continue;
            }

            (WbgtRoots roots, double tpsy) = WbgtTable.Solve(row);
            wbgt.Add(roots.WbgtC - row.Num("tight_wbgt"));
            parts.Add(roots.GlobeC - row.Num("tight_tg"));
            parts.Add(roots.NaturalWetC - row.Num("tight_tnwb"));
            parts.Add(tpsy - row.Num("tight_tpsy"));
            certificate = Math.Max(certificate, WbgtTable.CertifyK(row, roots));
        }

        return new TableResult(wbgt.Count, wbgt.Worst, wbgt.Rms, "K",
            new Measure("WBGT against tight roots", wbgt.Worst, "K", 1e-6),
            new Measure("globe, natural and psychrometric wet bulb", parts.Worst, "K", 1e-6),
            new Measure("roots enclosed within", certificate, "K"));
    }

    private static TableResult Ireq(RunContext c)
    {
        var clo = new ErrorStats();
        var hours = new ErrorStats();
        var storage = new ErrorStats();
        int unlimited = 0, unlimitedEqual = 0;
        foreach (CsvRow row in c.Table("hydration/ireq.csv").Rows)
        {
            foreach ((bool neutral, string level) in new[] { (false, "min"), (true, "neu") })
            {
                InsulationRoots r = InsulationKernel.Solve(InsulationTable.Input(row), neutral, row.Num("clo_available"));
                clo.Add(r.RequiredClo - row.Num($"ireq_{level}_clo"));
                clo.Add(r.ClothingClo - row.Num($"icl_{level}_clo"));
                storage.Add(r.StorageWm2 - row.Num($"S_{level}_wm2"));
                double wanted = row.Num($"dle_{level}_h"), got = InsulationTable.AsTabled(r.LimitHours);
                if (double.IsInfinity(wanted))
                {
                    unlimited++;
                    unlimitedEqual += double.IsInfinity(got) ? 1 : 0;
                }
                else
                {
                    hours.Add(got - wanted);
                }
            }
        }

        return new TableResult(clo.Count / 4, clo.Worst, clo.Rms, "clo",
            new Measure("IREQ and ICL", clo.Worst, "clo", 1e-6),
            new Measure("duration limited exposure", hours.Worst, "h", 6e-6),
            new Measure("storage", storage.Worst, "W/m2", 6e-6),
            new Measure("no limit where the table has none", unlimited == 0 ? 1 : (double)unlimitedEqual / unlimited, "", 1, true));
    }

    private static TableResult WindChillTable(RunContext c, string name, Func<CsvRow, double> index)
    {
        var stats = new ErrorStats();
        int printed = 0, equal = 0;
        foreach (CsvRow row in c.Table("hydration/" + name).Rows)
        {
            double x = index(row);
            stats.Add(x - row.Num("formula"));
            if (!row.IsEmpty("printed"))
            {
                printed++;
                equal += Math.Floor(x + 0.5) == row.Num("printed") ? 1 : 0;
            }
        }

        return new TableResult(stats.Count, stats.Worst, stats.Rms, "deg",
            new Measure("printed cells equal by rounding", (double)equal / printed, "", 1, true),
            new Measure("formula", stats.Worst, "deg", 5.1e-5));
    }

    private static TableResult HeatIndex(RunContext c)
    {
        var stats = new ErrorStats();
        foreach (CsvRow row in c.Table("hydration/heat_index_nws.csv").Rows)
        {
            stats.Add(HeatIndexKernel.IndexF(row.Num("t_f"), row.Num("rh")) - row.Num("hi_f"));
        }

        return stats.Result("F", 5.1e-5);
    }

    /// <summary>The table's library takes ln(1 + T) where the index's own program takes ln T (saturation pressure 0.9 % high): up to 0.05 on these rows beside their rounding.</summary>
    private static TableResult Utci(RunContext c)
    {
        var stats = new ErrorStats();
        int rows = 0, agreed = 0;
        foreach (CsvRow row in c.Table("hydration/utci_cases.csv").Rows)
        {
            (double index, bool given) = UtciTable.Index(row);
            rows++;
            agreed += given == !row.IsEmpty("out_utci") ? 1 : 0;
            if (given && !row.IsEmpty("out_utci"))
            {
                stats.Add(index - row.Num("out_utci"));
            }
        }

        return new TableResult(rows, stats.Worst, stats.Rms, "deg",
            new Measure("index where given", stats.Worst, "deg"),
            new Measure("given inside the range only", (double)agreed / rows, "", 1, true));
    }

    /// <summary>Bands at both printed ends; measured frostnip is no proof for bands, so only its order in wind and cold is held.</summary>
    private static TableResult Frostbite(RunContext c)
    {
        FrostbiteBand[] bands = [FrostbiteBand.Low, FrostbiteBand.Freezing10To30Minutes, FrostbiteBand.Freezing5To10Minutes, FrostbiteBand.Freezing2To5Minutes, FrostbiteBand.FreezingUnder2Minutes];
        int seen = 0, equal = 0, pairs = 0, ordered = 0;
        var measured = new List<(double Index, double Minutes)>();
        foreach (CsvRow row in c.Table("hydration/frostbite_anchors.csv").Rows)
        {
            if (row["kind"] == "band")
            {
                double[] ends = [row.Num("wc_from_c"), row.Num("wc_to_c")];
                FrostbiteBand wanted = bands[row.IsEmpty("min_high") ? 0 : row.Num("min_high") switch { >= 30 => 1, >= 10 => 2, >= 5 => 3, _ => 4 }];
                foreach (double end in ends)
                {
                    seen++;
                    equal += WindChill.Band(-20, end) == wanted ? 1 : 0;
                }
            }
            else if (!row.IsEmpty("min_high") && row.Num("v_kmh") > 0)
            {
                measured.Add((WindChillKernel.IndexC(row.Num("t_c"), row.Num("v_kmh")), row.Num("min_high")));
            }
        }

        foreach ((double index, double minutes) in measured)
        {
            foreach ((double other, double otherMinutes) in measured.Where(m => m.Minutes < minutes))
            {
                pairs++;
                ordered += other < index ? 1 : 0;
            }
        }

        return new TableResult(seen + measured.Count, 0, 0, "",
            new Measure("band ends equal", (double)equal / seen, "", 1, true),
            new Measure("faster frostnip at lower wind chill", pairs == 0 ? 1 : (double)ordered / pairs, "", 1, true));
    }

    private static TableResult Clo(RunContext c)
    {
        var stats = new ErrorStats();
        int named = 0, equal = 0;
        foreach (CsvRow row in c.Table("hydration/clo_garments.csv").Rows.Where(r => !r.IsEmpty("clo") && !r.IsEmpty("m2kw")))
        {
            stats.Add((row.Num("clo") * InsulationKernel.M2KPerWPerClo) - row.Num("m2kw"));
            named++;
            equal += Garment.Handbook.Any(g => Math.Abs(g.InsulationClo - row.Num("clo")) < 1e-9) ? 1 : 0;
        }

        return new TableResult(named, stats.Worst, stats.Rms, "m2K/W",
            new Measure("clo to m2K/W", stats.Worst, "m2K/W", 1e-9),
            new Measure("values among the handbook garments", (double)equal / named, ""));
    }

    /// <summary>Only the order: colder never gives a later limit of strain, and clothing a later one at the same cold.</summary>
    private static TableResult SurvivalOrder(RunContext c)
    {
        int pairs = 0, ordered = 0;
        CsvRow[] rows = [.. c.Table("hydration/survival_anchors.csv").Rows];
        foreach (CsvRow a in rows)
        {
            foreach (CsvRow b in rows.Where(r => r["clothing"] == a["clothing"] && r.Num("t_c") < a.Num("t_c")))
            {
                pairs++;
                ordered += Limit(b) < Limit(a) ? 1 : 0;
            }
        }

        return new TableResult(rows.Length, 0, 0, "", new Measure("order held", pairs == 0 ? 1 : (double)ordered / pairs, "", 1, true));

        static double Limit(CsvRow row)
        {
            bool nude = row["clothing"].StartsWith("nude", StringComparison.Ordinal);
            var request = new NightRequest
            {
                Weather = [.. Enumerable.Repeat(Weather.Unknown with { AirTempC = row.Num("t_c"), WindMps = (nude ? 1 : 5) / 3.6, RelHumidityPct = 50 }, 24)],
                Outfit = new Outfit(nude ? [] : [new Garment("two thin layers", 0.5)]),
            };
            return NightOut.Through(request).StrainLimit?.TotalHours ?? double.PositiveInfinity;
        }
    }
}
