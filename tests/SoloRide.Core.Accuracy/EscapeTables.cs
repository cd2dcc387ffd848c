using System.Globalization;
using System.Text.Json;
using System.Text.RegularExpressions;
using SoloRide.Effort;
using SoloRide.Escape;
using UnitsNet;

namespace SoloRide.Accuracy;

/// <summary>Ways out, points of no return, rules of walking, thunder, search and waiting.</summary>
internal sealed partial class EscapeTables : IModuleTables
{
    public string Module => "planning";

    public IEnumerable<TableCheck> Tables =>
    [
        new("planning/walkout", TruthKind.OwnArithmetic, Graphs),
        new("planning/walkout_fixture_expected.csv", TruthKind.OwnArithmetic, Fixture),
        new("planning/equal_escape_points.csv", TruthKind.OwnArithmetic, EqualTimes),
        new("planning/pnr_etp_checks.csv", TruthKind.PublishedExample, c => Digits(c.Table("planning/pnr_etp_checks.csv"), PnrText)),
        new("planning/walking_rule_checks.csv", TruthKind.PublishedExample, c => Digits(c.Table("planning/walking_rule_checks.csv"), r => [(r["value"], WalkingRule(r) ?? double.NaN)])),
        new("planning/walking_rate_curves.csv", TruthKind.OwnArithmetic, Curves),
        new("planning/checkin_latency.csv", TruthKind.OwnArithmetic, c => Digits(c.Table("planning/checkin_latency.csv"), r =>
        {
            DetectionDelay d = WaitingPlanner.Detection(TimeSpan.FromMinutes(r.Num("interval_min")), TimeSpan.FromMinutes(r.Num("grace_min")));
            return [(r["mean_detection_min"], d.Mean.TotalMinutes), (r["worst_detection_min"], d.Worst.TotalMinutes)];
        })),
        new("planning/lightning_checks.csv", TruthKind.OwnArithmetic, c => Digits(c.Table("planning/lightning_checks.csv"), r =>
        {
            double sound = StormKernel.SoundMps(r.Num("air_C"));
            Length at30 = ThunderThreshold.StrikeDistance(TimeSpan.FromSeconds(StormKernel.ActSeconds), Temperature.FromDegreesCelsius(r.Num("air_C")));
            return [(r["sound_m_s"], sound), (r["km_at_30_s"], at30.Kilometers), (r["miles_at_30_s"], at30.Meters / StormKernel.MileM), (r["seconds_per_mile"], StormKernel.MileM / sound)];
        })),
        new("planning/search_area_checks.csv", TruthKind.PublishedExample, c => Digits(c.Table("planning/search_area_checks.csv"), r =>
            [(r["area_sq_mi"], WaitingPlanner.SearchArea(TimeSpan.FromHours(r.Num("hours")), Speed.FromMilesPerHour(r.Num("speed_mph"))).SquareMiles)])),
        new("planning/waiting_insulation.csv", TruthKind.OwnArithmetic, c => Digits(c.Table("planning/waiting_insulation.csv"), r =>
            [(r["total_insulation_clo_incl_air_layer"], WaitingPlanner.InsulationClo(r.Num("metabolic_W_m2"), Temperature.FromDegreesCelsius(r.Num("air_C"))))])),
        new("planning/horizon_angle.csv", TruthKind.OwnArithmetic, c => Digits(c.Table("planning/horizon_angle.csv"), r =>
            [(r["horizon_elevation_deg"], WaitingKernel.HorizonDeg(r.Num("rim_above_trail_m"), r.Num("distance_m")))])),
    ];

    /// <summary>The pieces of the fixture are the input of its two tables; the list of rules is cited at constants, a test counts them.</summary>
    public IEnumerable<string> NoTable => ["planning/walkout_fixture_edges.csv", "planning/published_rules.csv"];

    private static readonly string[] FixtureExits = ["A", "X2", "X3"];

    private static TableResult Graphs(RunContext context)
    {
        var stats = new ErrorStats();
        int files = 0;
        foreach (string file in Directory.GetFiles(context.File("planning/walkout"), "*.json").Order(StringComparer.Ordinal))
        {
            files++;
            using JsonDocument doc = JsonDocument.Parse(File.ReadAllText(file));
            JsonElement root = doc.RootElement;
            TrailLink[] links = [.. root.GetProperty("edges").EnumerateArray().Select(e => new TrailLink(
                e.GetProperty("a").GetInt32(), e.GetProperty("b").GetInt32(), Seconds(e.GetProperty("cost_ab_s")), Seconds(e.GetProperty("cost_ba_s"))))];
            NetworkExit[] exits = [.. root.GetProperty("exits").EnumerateArray().Select(x => new NetworkExit(x.GetInt32(), x.GetInt32().ToString("D9", CultureInfo.InvariantCulture)))];
            NetworkWalkOut result = new TrailNetwork(root.GetProperty("nodes").GetInt32(), links, exits).WalkOut();
            int node = 0;
            foreach (JsonElement expected in root.GetProperty("expected_cost_to_nearest_exit_s").EnumerateArray())
            {
                TimeSpan? time = result.TimeFrom(node++);
                stats.Add((time is null, expected.ValueKind == JsonValueKind.Null) switch
                {
                    (true, true) => 0,
                    (false, false) => time!.Value.TotalSeconds - expected.GetDouble(),
                    _ => double.PositiveInfinity,
                });
            }
        }

        return files == 0 ? throw new FileNotFoundException("No graph in planning/walkout.") : stats.Result("s", 0.001, "worst node", 0.00051);

        static TimeSpan? Seconds(JsonElement e) => e.ValueKind == JsonValueKind.Null ? null : TimeSpan.FromSeconds(e.GetDouble());
    }

    private static TableResult Fixture(RunContext context)
    {
        CsvTable table = context.Table("planning/walkout_fixture_expected.csv");
        (TrailNetwork network, string[] names) = Network(context);
        var digits = new DigitStats();
        foreach (IGrouping<double, CsvRow> speed in table.Rows.GroupBy(r => r.Num("speed_factor")))
        {
            NetworkWalkOut w = network.WalkOut(Pace(speed.Key));
            foreach (CsvRow row in speed)
            {
                int node = Array.IndexOf(names, row["node"]);
                digits.Add(row["minutes"], w.TimeFrom(node)?.TotalMinutes ?? double.NaN);
                digits.Add(row["nearest_exit_by_time"] == w.ExitFrom(node));
            }
        }

        return digits.Result("min");
    }

    private static TableResult EqualTimes(RunContext context)
    {
        CsvTable table = context.Table("planning/equal_escape_points.csv");
        (TrailNetwork network, string[] names) = Network(context);
        var digits = new DigitStats();
        foreach (IGrouping<double, CsvRow> speed in table.Rows.GroupBy(r => r.Num("speed_factor")))
        {
            NetworkWalkOut w = network.WalkOut(Pace(speed.Key));
            IReadOnlyList<NetworkPoint> points = w.EqualTimePoints();
            digits.Add(points.Count == speed.Count());
            digits.Add(speed.OrderByDescending(r => r.Num("minutes_either_way")).First()["minutes_either_way"], w.Worst()?.Time.TotalMinutes ?? double.NaN);
            foreach (CsvRow row in speed)
            {
                NetworkPoint? p = points.FirstOrDefault(q => names[q.A] == row["u"] && names[q.B] == row["v"]);
                digits.Add(row["metres_from_u"], p?.FromA.Meters ?? double.NaN);
                digits.Add(row["minutes_either_way"], p?.Time.TotalMinutes ?? double.NaN);
                digits.Add(p?.ExitViaA == row["exit_via_u"] && p?.ExitViaB == row["exit_via_v"]);
            }
        }

        return digits.Result("m, min");
    }

    private static TableResult Curves(RunContext context)
    {
        CsvTable table = context.Table("planning/walking_rate_curves.csv");
        var digits = new DigitStats();
        foreach (CsvRow row in table.Rows)
        {
            if (row["model"].StartsWith("sullivan", StringComparison.OrdinalIgnoreCase))
            {
                // These coefficient sets are refused: the row is met when the kernel refuses it and no rule of the library offers it.
                digits.Add(Refuses() && !Enum.GetNames<HikingRule>().Any(n => n.StartsWith("Sullivan", StringComparison.OrdinalIgnoreCase)));
                continue;
            }

            foreach (string column in table.Header.Where(h => h.StartsWith("rate_m_s_at_", StringComparison.Ordinal) && !row.IsEmpty(h)))
            {
                double deg = double.Parse(Pair().Match(column["rate_m_s_at_".Length..]).Value, CultureInfo.InvariantCulture);
                digits.Add(row[column], WalkingKernel.RateMps(RateCurves.Campbell2019, deg, row.Num("percentile_or_label")));
            }
        }

        return digits.Result("m/s");

        static bool Refuses()
        {
            try
            {
                return double.IsNaN(WalkingKernel.RateMps(RateCurves.Sullivan2020, 0, 50));
            }
            catch (NotSupportedException)
            {
                return true;
            }
        }
    }

    private static IEnumerable<(string Printed, double Actual)> PnrText(CsvRow row)
    {
        double o = row.Num("gs_out"), h = row.Num("gs_home"), e = row.Num("endurance_or_time");
        switch (row["quantity"])
        {
            case "equal_time_distance":
                return [(row["value"], PointOfNoReturnPlanner.EqualTimeDistance(Length.FromNauticalMiles(row.Num("D")), Speed.FromKnots(o), Speed.FromKnots(h)).NauticalMiles)];
            case "equal_time_time":
                return [(row["value"], PnrKernel.EqualTimeTime(row.Num("D"), o, h, e))];
            case "point_of_no_return_distance":
                return [(row["value"], PointOfNoReturnPlanner.AtConstantSpeed(TimeSpan.FromHours(e), Speed.FromKnots(o), Speed.FromKnots(h)).Distance.NauticalMiles)];
            case "point_of_no_return_time":
                return [(row["value"], PointOfNoReturnPlanner.AtConstantSpeed(TimeSpan.FromHours(e), Speed.FromKnots(o), Speed.FromKnots(h)).TimeOut.TotalHours)];
            case "piecewise_pnr_leg_index":
                string[] cells = [row["D"], row["gs_out"], row["gs_home"]];
                double[] on = Numbers(cells.First(c => c.StartsWith("out", StringComparison.Ordinal))), back = Numbers(cells.First(c => c.StartsWith("back", StringComparison.Ordinal)));
                ReturnLeg[] legs = [.. on.Zip(back, (a, b) => new ReturnLeg(Length.FromKilometers(1), TimeSpan.FromHours(a), TimeSpan.FromHours(b)))];
                PointOfNoReturn p = PointOfNoReturnPlanner.Find(legs, [new ResourceAccount(ResourceAmount.Time(TimeSpan.FromHours(e)), ResourceAmount.Time(TimeSpan.Zero))], []).Points[0];
                double km = p.AllDry?.Kilometers ?? legs.Length;
                string[] parts = row["value"].Split('+');
                double whole = double.Parse(parts[0], CultureInfo.InvariantCulture);
                return [(parts[1], km - whole)];
            default:
                return [(row["value"], double.NaN)];
        }

        static double[] Numbers(string text) => [.. text.Split('=')[^1].Split('|').Select(v => double.Parse(v, CultureInfo.InvariantCulture))];
    }

    private static double? WalkingRule(CsvRow row)
    {
        string a = row["arg1"], b = row["arg2"];
        return row["rule"] switch
        {
            "tobler_km_h" => WalkingKernel.ToblerKmh(row.Num("arg1")),
            "tobler_offpath_km_h" => WalkingKernel.ToblerKmh(row.Num("arg1")) * WalkingKernel.ToblerOffPathFactor,
            "naismith_h" => HikingKernel.NaismithHours(Number(a, "km"), Number(b, "m up")),
            "flat_equivalent_km_8to1" => HikingKernel.NaismithEightHours(Number(a, "km"), Number(b, "m up"), 1),
            "langmuir_h" => HikingKernel.LangmuirHours(
                Number(a, "km"), Number(b, "up") + Number(b, "m up"), Number(b, "gentle down") + Number(b, "m gentle down"), Number(b, "steep down") + Number(b, "m steep down")),
            "time_control_plan_h" => WalkingKernel.TimeControlHours(Number(a, "mi"), Number(a, "mph"), Number(b, "ft up")),
            _ => null,
        };

        static double Number(string text, string unit)
            => Worded().Matches(text).Where(m => m.Groups[2].Value.Trim() == unit).Select(m => double.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture)).FirstOrDefault();
    }

    private static (TrailNetwork Network, string[] Names) Network(RunContext context)
    {
        CsvTable table = context.Table("planning/walkout_fixture_edges.csv");
        string[] names = [.. table.Rows.SelectMany(r => new[] { r["u"], r["v"] }).Distinct()];

        // The pieces do not list the exits; they are the nodes from which it takes no time.
        string expected = context.File("planning/walkout_fixture_expected.csv");
        string[] exits = File.Exists(expected)
            ? [.. CsvTable.Read(expected).Rows.Where(r => r.Num("minutes") == 0).Select(r => r["node"]).Distinct()]
            : FixtureExits;
        return (new TrailNetwork(
            names.Length,
            [.. table.Rows.Select(r => new TrailLink(Array.IndexOf(names, r["u"]), Array.IndexOf(names, r["v"]), new TrailStep(r.Num("length_m"), r.Num("rise_m_u_to_v"))))],
            [.. exits.Where(names.Contains).Select(x => new NetworkExit(Array.IndexOf(names, x), x))]), names);
    }

    private static EscapePace Pace(double speedFactor) => EscapePace.For(TravelMode.Walk, options: new EscapePaceOptions { WalkerFactor = speedFactor });

    private static TableResult Digits(CsvTable table, Func<CsvRow, IEnumerable<(string Printed, double Actual)>> cells)
    {
        var digits = new DigitStats();
        foreach (CsvRow row in table.Rows)
        {
            foreach ((string printed, double actual) in cells(row).Where(c => c.Printed.Length > 0))
            {
                digits.Add(printed, actual);
            }
        }

        return digits.Result("");
    }

    [GeneratedRegex(@"[-+]?\d+(?:\.\d+)?")]
    private static partial Regex Pair();

    [GeneratedRegex(@"(-?\d+(?:\.\d+)?)\s*((?:m up|ft up|m gentle down|m steep down|gentle down|steep down|up|km|mi|mph)\b)")]
    private static partial Regex Worded();

    /// <summary>Cells met when they agree with the printed digits: half a unit of the last one.</summary>
    private sealed class DigitStats
    {
        private readonly ErrorStats _errors = new();
        private int _cells;
        private int _met;

        public void Add(string printed, double actual)
        {
            int dot = printed.IndexOf('.', StringComparison.Ordinal);
            double half = 0.5 * Math.Pow(10, dot < 0 ? 0 : -(printed.Length - dot - 1));
            double error = actual - double.Parse(printed, CultureInfo.InvariantCulture);
            _errors.Add(error);
            _cells++;
            _met += Math.Abs(error) <= half * 1.0001 ? 1 : 0;
        }

        public void Add(bool met)
        {
            _cells++;
            _met += met ? 1 : 0;
        }

        public TableResult Result(string unit)
            => new(_cells, _errors.Worst, _errors.Rms, unit, new Measure("cells that agree with the printed digits", _cells == 0 ? 0 : (double)_met / _cells, "share", 1, true, 1));
    }
}
