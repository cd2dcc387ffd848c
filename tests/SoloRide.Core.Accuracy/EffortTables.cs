using System.Globalization;
using System.Text.RegularExpressions;
using System.Xml.Linq;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.LinearAlgebra;
using SoloRide.Effort;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Accuracy;

/// <summary>Power, cost, altitude, fuel and hiking formulas against published tables; pace, crossover and calibration against field anchors.</summary>
internal sealed class EffortTables : IModuleTables
{
    public string Module => "effort";

    public IEnumerable<string> NoTable =>
    [
        "effort/resting_equation_coefficients.csv", "effort/pace_function_coefficients.csv", "effort/terrain_factors.csv", "effort/crr_cda_priors.csv",
        "effort/fuel_guidance.csv", "effort/injury_failure_rates.csv", "effort/foods_generic_usda.csv",
    ];

    public IEnumerable<TableCheck> Tables =>
    [
        Checks("altitude"), Checks("fuel"), Checks("metabolic"), Checks("pace"), Checks("power"), Checks("resting"),
        new("effort/published_examples.csv", TruthKind.PublishedExample, Published),
        new("effort/rer_table_peronnet_massicotte_1991.csv", TruthKind.OutsideTruth, Quotients),
        new("effort/altitude_vo2max_groups.csv", TruthKind.OutsideTruth, Altitude),
        new("effort/met_codes.csv", TruthKind.OutsideTruth, Codes),
        new("effort/mtb_field_anchors.csv", TruthKind.OutsideTruth, Anchors),
        new("effort/mtb_tech_speed_priors.csv", TruthKind.OwnArithmetic, SyntheticRiders),
    ];

    /// <summary>Worst error over a row's own tolerance.</summary>
    private static TableCheck Checks(string topic) => new($"effort/energy_checks_{topic}.csv", TruthKind.OwnArithmetic, c =>
    {
        var relative = new ErrorStats();
        double worst = 0;
        foreach (CsvRow row in c.Table($"effort/energy_checks_{topic}.csv").Rows)
        {
            double expected = row.Num("expected"), ours = EffortFormulas.Evaluate(row["formula"], row["inputs"]);
            double error = ours == expected ? 0 : Math.Abs(ours - expected) / Math.Max(Math.Abs(expected), 1e-300);
            relative.Add(error);
            double share = error / row.Num("rel_tol");
            worst = double.IsNaN(share) ? double.PositiveInfinity : Math.Max(worst, share);
        }

        return new TableResult(relative.Count, relative.Worst, relative.Rms, "rel", new Measure("worst error over the row's tolerance", worst, "", 1));
    });

    private static TableResult Published(RunContext c)
    {
        var stats = new ErrorStats();
        double worst = 0;
        foreach (CsvRow row in c.Table("effort/published_examples.csv").Rows)
        {
            foreach ((double ours, double published, double tolerance) in EffortExamples.Of(row["id"]))
            {

                double share = Math.Abs(ours - published) / tolerance;
                stats.Add(share);
                worst = Math.Max(worst, share);
            }
        }

        return new TableResult(stats.Count, stats.Worst, stats.Rms, "of tol", new Measure("worst error over the stated rounding", worst, "", 1));
    }

    private static TableResult Quotients(RunContext c)
    {
        ErrorStats kcal = new(), pct = new();
        foreach (CsvRow row in c.Table("effort/rer_table_peronnet_massicotte_1991.csv").Rows)
        {
            double r = row.Num("nonprotein_rq");
            kcal.Add(FuelKernel.KcalPerL(r) - row.Num("kcal_per_l_o2"));
            pct.Add(FuelKernel.CarbohydratePct(r) - row.Num("pct_energy_cho"));
        }

        return new TableResult(kcal.Count, kcal.Worst, kcal.Rms, "kcal/L", new Measure("energy of oxygen", kcal.Worst, "kcal/L", 0.001), new Measure("carbohydrate", pct.Worst, "%", 0.06));
    }

    private static TableResult Codes(RunContext c)
    {
        var stats = new ErrorStats();
        foreach (CsvRow row in c.Table("effort/met_codes.csv").Rows)
        {
            stats.Add(EnergyEstimator.Met(row.Whole("code"), row.Whole("edition") == 2011 ? CompendiumEdition.Edition2011 : CompendiumEdition.Edition2024) - row.Num("met"));
        }

        return stats.Result("MET", 0);
    }

    // ---- altitude ----

    internal sealed record Group(string Study, double N, double LowKm, double HighKm, double? Uptake, double Percent);

    /// <summary>Leave one study out: least squares of the quadratic weighted by group size, interval from the 0.9 quantile of the residuals.</summary>
    private static TableResult Altitude(RunContext c)
    {
        Group[] groups =
        [
            .. c.Table("effort/altitude_vo2max_groups.csv").Rows.Select(r => new Group(
                r["study"], r.Num("n"), r.IsEmpty("low_alt_m") ? 0 : r.Num("low_alt_m") / 1000, r.Num("high_alt_m") / 1000,
                r.IsEmpty("vo2max_low_ml_kg_min") ? null : r.Num("vo2max_low_ml_kg_min"), r.Num("percent"))).Where(g => double.IsFinite(g.Percent) && g.N > 0),
        ];
        (double rmse, double cover, double half) = LeaveOut(groups, uptake: false);
        (double rmseV, double coverV, double halfV) = LeaveOut([.. groups.Where(g => g.Uptake is not null)], uptake: true);
        var shipped = new ErrorStats();
        double sum = 0, n = 0;
        foreach (Group g in groups)
        {
            double e = (100 * AltitudeKernel.FitPct(g.HighKm) / AltitudeKernel.FitPct(g.LowKm)) - g.Percent;
            shipped.Add(e);
            sum += g.N * e * e;
            n += g.N;
        }

        return new TableResult(
            groups.Length, shipped.Worst, shipped.Rms, "points",
            new Measure("left-out RMSE", rmse, "points", 4.9), new Measure("left-out RMSE with sea-level uptake", rmseV, "points", 4.3),
            new Measure("90 % interval covers at least", 100 * Math.Min(cover, coverV), "%", 85, true), new Measure("90 % interval covers at most", 100 * Math.Max(cover, coverV), "%", 95),
            new Measure("mean half-width", half, "points", 8.2), new Measure("mean half-width with uptake", halfV, "points", 6.7),
            new Measure("shipped coefficients, RMSE", Math.Sqrt(sum / n), "points"));
    }

    private static (double Rmse, double Cover, double Half) LeaveOut(Group[] groups, bool uptake)
    {
        double sum = 0, n = 0, half = 0;
        int inside = 0;
        foreach (string study in groups.Select(g => g.Study).Distinct(StringComparer.Ordinal))
        {
            Group[] train = [.. groups.Where(g => g.Study != study)];
            double[] k = Fit(train, uptake);
            double[] residuals = [.. train.Select(g => Math.Abs(Predict(k, g) - g.Percent)).Order()];
            double width = MathNet.Numerics.Statistics.SortedArrayStatistics.Quantile(residuals, 0.9);
            foreach (Group g in groups.Where(g => g.Study == study))
            {
                double e = Predict(k, g) - g.Percent;
                sum += g.N * e * e;
                n += g.N;
                half += width;
                inside += Math.Abs(e) <= width ? 1 : 0;
            }
        }

        return (Math.Sqrt(sum / n), (double)inside / groups.Length, half / groups.Length);

        double Predict(double[] k, Group g) => 100 * Level(k, g.HighKm, g) / Level(k, g.LowKm, g);

        double Level(double[] k, double km, Group g) => 100 + (k[0] * km) + (k[1] * km * km) + (uptake ? k[2] * km * (g.Uptake!.Value - 50) : 0);
    }

    /// <summary>Percent × f(low) = 100 × f(high) is linear in the coefficients; rows weighted by group size.</summary>
    internal static double[] Fit(IReadOnlyList<Group> groups, bool uptake)
    {
        int p = uptake ? 3 : 2;
        Matrix<double> x = Matrix<double>.Build.Dense(groups.Count, p);
        Vector<double> y = Vector<double>.Build.Dense(groups.Count);
        for (int i = 0; i < groups.Count; i++)
        {
            Group g = groups[i];
            double w = Math.Sqrt(g.N), share = g.Percent / 100;
            x[i, 0] = w * (g.HighKm - (share * g.LowKm));
            x[i, 1] = w * ((g.HighKm * g.HighKm) - (share * g.LowKm * g.LowKm));
            if (uptake)
            {
                x[i, 2] = x[i, 0] * (g.Uptake!.Value - 50);
            }

            y[i] = w * (g.Percent - 100);
        }

        return [.. x.QR().Solve(y)];
    }

    // ---- field anchors: crossover, twelve-hour race, real tracks ----

    private static TableResult Anchors(RunContext c)
    {
        double lowWalk = double.PositiveInfinity, highWalk = 0, lowPush = double.PositiveInfinity, highPush = 0, lowRough = double.PositiveInfinity, highRough = 0;
        for (double m = 9; m <= 14; m += 0.5)
        {
            (lowWalk, highWalk) = Widen(lowWalk, highWalk, EffortExamples.CrossoverPercent(m, 0.010, loaded: false));
            (lowPush, highPush) = Widen(lowPush, highPush, EffortExamples.CrossoverPercent(m, 0.010, loaded: true));
            (lowRough, highRough) = Widen(lowRough, highRough, EffortExamples.CrossoverPercent(m, 0.021, loaded: false));
        }

        double slow = double.PositiveInfinity, fast = 0, ratio = 0, deficit = 0, low = 0, high = 0;
        foreach (double climb in new[] { 25.0, 30 })
        {
            foreach (double watts in new[] { 150.0, 170 })
            {
                RacePace race = RacePace.TwelveHours(climb, watts);
                slow = Math.Min(slow, race.Kmh);
                fast = Math.Max(fast, race.Kmh);
                ratio = Math.Max(ratio, race.Ratio);
                deficit = Math.Max(deficit, race.DeficitKcal);
                (low, high) = (race.AdvisedLowG, race.AdvisedHighG);
            }
        }

        CsvRow? eaten = c.Table("effort/mtb_field_anchors.csv").Rows.FirstOrDefault(r => r["id"] == "MTB-12h-cho");
        var measures = new List<Measure>
        {
            new("crossover on foot unloaded, lowest grade", lowWalk, "%", 10, true), new("crossover on foot unloaded, highest grade", highWalk, "%", 15),
            new("crossover with the bike, lowest grade", lowPush, "%", 12, true), new("crossover with the bike, highest grade", highPush, "%", 20),
            new("crossover unloaded off road (0.021), lowest", lowRough, "%"), new("crossover unloaded off road (0.021), highest", highRough, "%"),
            new("12-hour race, slowest P50", slow, "km/h", 11, true), new("12-hour race, fastest P50", fast, "km/h", 14), new("12-hour race, P90/P10", ratio, "", 1.6),
            new("12-hour race, carbohydrate advised from", low, "g"), new("12-hour race, carbohydrate advised to", high, "g"),
            new("12-hour race, carbohydrate eaten (published)", eaten is null ? double.NaN : Lead(eaten["value"]), "g", Floor: double.PositiveInfinity),
            new("12-hour race, largest energy deficit at the plan's food", deficit, "kcal"),
        };
        int rows = c.Table("effort/mtb_field_anchors.csv").Rows.Count;
        string tracks = c.File("routes/files");
        if (Directory.Exists(tracks))
        {
            (int count, double before, double after) = RealTracks.SecondHalves(tracks);
            measures.Add(new("real tracks split in half: tracks", count, ""));
            measures.Add(new("second half, median error before calibration", 100 * before, "%"));
            measures.Add(new("second half, median error from the first half", 100 * after, "%", 100 * before));
        }

        return new TableResult(rows, double.NaN, double.NaN, "", [.. measures]);

        static (double, double) Widen(double low, double high, double x) => (Math.Min(low, x), Math.Max(high, x));
    }

    private static double Lead(string s)
        => double.TryParse(Regex.Match(s, @"^[0-9.]+").Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double v) ? v : double.NaN;

    // ---- synthetic riders ----

    /// <summary>Riders drawn from the priors; 500 riders for each draw asked for (10 000 with --draws 20).</summary>
    private static TableResult SyntheticRiders(RunContext c)
    {
        int riders = Math.Max(1, c.Draws) * 500;
        double noise = riders < 10_000 ? 100 * 2 * Math.Sqrt(0.25 / riders) : 0;
        var measures = new List<Measure>();
        double all = 0, before = double.NaN;
        foreach ((string name, int rides, bool update) in new[] { ("no ride", 0, false), ("no ride, updated today", 0, true), ("one ride", 1, false), ("five rides", 5, false), ("five rides, updated today", 5, true) })
        {
            SyntheticCoverage s = SyntheticCoverage.Run(riders, c.Seed, rides, update);
            all = Math.Max(all, s.WorstPoints);
            measures.Add(new($"{name}: worst miss of the 50/80/95 % intervals", s.WorstPoints, "points", 2 + noise));
            measures.Add(new($"{name}: 50 % covers", 100 * s.C50, "%"));
            measures.Add(new($"{name}: 80 % covers", 100 * s.C80, "%"));
            measures.Add(new($"{name}: 95 % covers", 100 * s.C95, "%"));
            measures.Add(new($"{name}: miss of the 80 % interval in closed form", Math.Abs((100 * s.Closed80) - 80), "points", 2 + noise));
            measures.Add(new($"{name}: median error", 100 * s.MedianError, "%", double.IsNaN(before) ? null : before));
            before = rides == 0 && !update ? 100 * s.MedianError : before;
        }

        return new TableResult(riders, all, double.NaN, "points", [.. measures]);
    }
}

/// <summary>A twelve-hour race on an even course, untuned.</summary>
internal sealed record RacePace(double Kmh, double Ratio, double AdvisedLowG, double AdvisedHighG, double DeficitKcal)
{
    public static RacePace TwelveHours(double climbMPerKm, double watts)
    {
        // The abstract gives no course. Declared: half up and half down in laps of 5 km, firm singletrack of class 0 at 500 m; race bike
        // of 12 kg, rider of 65 kg (2.3 kg lost is about 4 %), 2 kg on the body, 3 min standing an hour; the power is the mean of the race, so that no fatigue comes on top.
        var steps = new List<TrailStep>();
        for (int i = 0; i < 2400; i++)
        {
            double rise = climbMPerKm * 0.1 * 2 * ((i / 25 % 2 == 0) ? 1 : -1);
            steps.Add(new TrailStep(100, rise, 500, i * 3.6 % 360, TrailSurface.Firm, TrailDifficulty.Level0));
        }

        var rider = new Rider { Mass = Mass.FromKilograms(65), SustainedPower = Power.FromWatts(watts), MaxOxygenUptakeMlPerKgMin = 58 };
        PaceModel model = PaceModel.For(
            rider, new Bike { Mass = Mass.FromKilograms(12) }, new Load { OnBody = Mass.FromKilograms(2) },
            new PaceOptions { FadeTenHoursFraction = 0, Stops = new StopHabit { MinutesPerHour = 3 } });
        RidePace all = model.Along(steps);
        double target = 12 * 3600 / (all.Elapsed.Typical / all.Moving.Typical), sum = 0;
        int n = 0;
        while (n < steps.Count && sum < target)
        {
            sum += all.Steps[n].TypicalS;
            n++;
        }

        RidePace race = model.Along(steps[..n]);
        FoodPlan food = FoodPlanner.Plan(new FoodRequest { Rider = rider, Days = [FoodDay.Of(race)] });
        return new RacePace(
            n * 0.1 / race.Elapsed.Typical.TotalHours, race.Elapsed.High / race.Elapsed.Low, food.Days[0].AdvisedLow.Grams, food.Days[0].AdvisedHigh.Grams, food.Days[0].Deficit.Kilocalories);
    }
}

/// <summary>Timed tracks: the second half predicted by the model as it is, and after what the legs of the first half say.</summary>
internal static class RealTracks
{
    private const int LegSteps = 10;

    private const double StepM = 60, StillMps = 0.3, LongestGapS = 300, LeastM = 1500, EarthM = 6_371_000;

    public static (int Tracks, double Before, double After) SecondHalves(string folder)
    {
        var before = new List<double>();
        var after = new List<double>();
        foreach (string file in Directory.GetFiles(folder, "*.gpx", SearchOption.AllDirectories).Order(StringComparer.Ordinal))
        {
            if (Path.GetFileName(file).StartsWith("syn_", StringComparison.Ordinal) || file.Contains("drive", StringComparison.Ordinal))
            {
                continue;
            }

            foreach ((List<TrailStep> steps, List<double> seconds) in Read(file))
            {
                if (steps.Sum(s => s.LengthM) < LeastM)
                {
                    continue;
                }

                // Legs of some 600 m, so that climbs and descents, riding and walking speak apart.
                int half = steps.Count / 2;
                PaceModel model = PaceModel.For(new Rider { Mass = Mass.FromKilograms(75) });
                TimedLeg[] legs = [.. Enumerable.Range(0, half / LegSteps).Select(k => Leg(k * LegSteps, k == (half / LegSteps) - 1 ? half : (k + 1) * LegSteps))];
                double truth = seconds.Skip(half).Sum();
                TrailStep[] rest = [.. steps.Skip(half)];
                before.Add(Math.Abs((model.Along(rest).Moving.Typical.TotalSeconds / truth) - 1));
                after.Add(Math.Abs((model.With(PaceUpdate.From(model, legs)).Along(rest).Moving.Typical.TotalSeconds / truth) - 1));

                TimedLeg Leg(int from, int to) => new("first half", [.. steps.Skip(from).Take(to - from)], TimeSpan.FromSeconds(seconds.Skip(from).Take(to - from).Sum()));
            }
        }

        return (before.Count, Median(before), Median(after));
    }

    public static double Median(List<double> values)
    {
        if (values.Count == 0)
        {
            return double.NaN;
        }

        double[] v = [.. values.Order()];
        return v.Length % 2 == 1 ? v[v.Length / 2] : 0.5 * (v[(v.Length / 2) - 1] + v[v.Length / 2]);
    }

    private static IEnumerable<(List<TrailStep> Steps, List<double> Seconds)> Read(string file)
    {
        XDocument doc;
        try
        {
            doc = XDocument.Load(file);
        }
        catch (System.Xml.XmlException)
        {
            yield break;
        }

        foreach (XElement part in doc.Descendants().Where(e => e.Name.LocalName == "trk"))
        {
            var steps = new List<TrailStep>();
            var seconds = new List<double>();
            (double Lat, double Lon, double H, DateTimeOffset T)? last = null;
            double length = 0, time = 0, from = double.NaN;
            foreach (XElement p in part.Descendants().Where(e => e.Name.LocalName == "trkpt"))
            {
                string? ele = p.Elements().FirstOrDefault(e => e.Name.LocalName == "ele")?.Value, when = p.Elements().FirstOrDefault(e => e.Name.LocalName == "time")?.Value;
                if (ele is null || when is null || !DateTimeOffset.TryParse(when, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out DateTimeOffset t)
                    || !double.TryParse(ele, NumberStyles.Float, CultureInfo.InvariantCulture, out double h)
                    || !double.TryParse(p.Attribute("lat")?.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double lat)
                    || !double.TryParse(p.Attribute("lon")?.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out double lon))
                {
                    continue;
                }

                if (double.IsNaN(from))
                {
                    from = h;
                }

                if (last is { } a)
                {
                    double dt = (t - a.T).TotalSeconds, dy = (lat - a.Lat) * Math.PI / 180 * EarthM, dx = (lon - a.Lon) * Math.PI / 180 * EarthM * Math.Cos(lat * Math.PI / 180), d = Math.Sqrt((dx * dx) + (dy * dy));
                    if (dt is > 0 and < LongestGapS && d / dt is >= StillMps and < 20)
                    {
                        length += d;
                        time += dt;
                    }
                    else if (dt >= LongestGapS || dt < 0)
                    {
                        (length, time, from) = (0, 0, h);
                    }

                    if (length >= StepM)
                    {
                        double rise = Math.Clamp(h - from, -0.3 * length, 0.3 * length);
                        steps.Add(new TrailStep(length, rise, h));
                        seconds.Add(time);
                        (length, time, from) = (0, 0, h);
                    }
                }

                last = (lat, lon, h, t);
            }

            if (steps.Count >= 8)
            {
                yield return (steps, seconds);
            }
        }
    }
}

/// <summary>How often intervals hold the times of riders drawn from the priors.</summary>
internal sealed record SyntheticCoverage(double C50, double C80, double C95, double Closed80, double MedianError)
{
    private const int Samples = 400;

    public double WorstPoints => 100 * new[] { Math.Abs(C50 - 0.50), Math.Abs(C80 - 0.80), Math.Abs(C95 - 0.95) }.Max();

    public static SyntheticCoverage Run(int riders, int seed, int rides, bool update = false)
    {
        var prior = new PaceOptions();
        var body = new Rider { Mass = Mass.FromKilograms(75) };
        PaceModel model = PaceModel.For(body);
        TrailStep[] target = Trail(99, 40);
        int half = update ? target.Length / 3 : 0;
        var rank = new double[riders];
        var closed = new bool[riders];
        var errors = new double[riders];
        TrailStep[][] past = [.. Enumerable.Range(0, rides).Select(r => Trail(r, 30))];
        Parallel.For(0, riders, new ParallelOptions { MaxDegreeOfParallelism = 2 }, i =>
        {
            var random = new SampleRandom(seed, i);
            var truth = new Truth(ref random, model, prior);
            PaceModel mine = model;
            if (rides > 0)
            {
                var legs = new List<TimedLeg>();
                for (int r = 0; r < rides; r++)
                {
                    double[] s = truth.Ride(ref random, model, past[r]);
                    for (int k = 0; k < 3; k++)
                    {
                        int from = k * past[r].Length / 3, to = (k + 1) * past[r].Length / 3;
                        legs.Add(new TimedLeg($"r{r}", past[r][from..to], TimeSpan.FromSeconds(s[from..to].Sum())));
                    }
                }

                mine = PaceModel.For(body, options: prior with { Calibration = PaceCalibration.From(model, legs) });
            }

            double[] day = truth.Ride(ref random, model, target);
            if (update)
            {
                mine = mine.With(PaceUpdate.From(mine, [new TimedLeg("today", target[..half], TimeSpan.FromSeconds(day[..half].Sum()))]));
            }

            RidePace pace = mine.Along(target[half..], (_, _) => StepConditions.Default);
            double real = day[half..].Sum();
            double[] sampled = new double[Samples], joules = new double[Samples];
            pace.Sampler(unchecked((seed * 1_000_003) + i)).Totals(0, sampled, joules);
            rank[i] = (sampled.Count(s => s < real) + 0.5) / (Samples + 1);
            closed[i] = pace.Moving.Low.TotalSeconds <= real && real <= pace.Moving.High.TotalSeconds;
            errors[i] = Math.Abs((pace.Moving.Typical.TotalSeconds / real) - 1);
        });
        double In(double level) => (double)rank.Count(x => Math.Abs(x - 0.5) <= level / 2) / riders;
        return new SyntheticCoverage(In(0.5), In(0.8), In(0.95), (double)closed.Count(x => x) / riders, RealTracks.Median([.. errors]));
    }

    /// <summary>Short rides of mixed trail, so that thousands of riders stay affordable.</summary>
    private static TrailStep[] Trail(int number, int steps)
    {
        var trail = new TrailStep[steps];
        for (int i = 0; i < steps; i++)
        {
            int block = (i + number) / 5;
            double grade = (block % 2 == 0 ? 1 : -1) * (0.03 + (0.012 * ((number + block) % 5)));
            (TrailSurface surface, TrailDifficulty difficulty) = (block % 3) switch
            {
                0 => (TrailSurface.Gravel, TrailDifficulty.Level0),
                1 => (TrailSurface.Firm, TrailDifficulty.Level1),
                _ => (TrailSurface.Firm, TrailDifficulty.Level2),
            };
            trail[i] = new TrailStep(400, 400 * grade, 500, 0, surface, difficulty);
        }

        return trail;
    }

    /// <summary>One rider's hidden power and technique.</summary>
    private sealed class Truth
    {
        private readonly double _power;
        private readonly double[] _technique = new double[TrailPriors.Difficulties];
        private readonly PaceOptions _options;

        public Truth(ref SampleRandom random, PaceModel model, PaceOptions options)
        {
            _options = options;
            _power = Math.Exp(model.Effort.LogSd * random.Normal());
            for (int d = 0; d < _technique.Length; d++)
            {
                _technique[d] = Math.Exp(Math.Log(options.Cap((TrailDifficulty)(d - 1)).GsdFactor) * random.Normal());
            }
        }

        public double[] Ride(ref SampleRandom random, PaceModel model, TrailStep[] steps)
        {
            double ride = Math.Exp(Math.Log(_options.Spread.RideGsdFactor) * random.Normal());
            double shared = Math.Log(_options.Spread.RideGsdFactor), whole = Math.Log(_options.Spread.FootGsdFactor);
            double foot = Math.Exp(Math.Sqrt((whole * whole) - (shared * shared)) * random.Normal());
            double[] surface = new double[TrailPriors.Surfaces];
            for (int s = 0; s < surface.Length; s++)
            {
                surface[s] = Math.Exp(Math.Log(_options.Spread.SurfaceGsdFactor) * random.Normal());
            }

            double[] seconds = new double[steps.Length];
            for (int i = 0; i < steps.Length; i++)
            {
                StepPhysics s = model.Physics(steps[i], StepConditions.Default);
                StepOutcome o = StepKernel.Choose(s, _power, _technique[(int)steps[i].Difficulty + 1]);
                double sd = Math.Log(_options.Spread.HundredMetreGsdFactor) * Math.Min(1, Math.Sqrt(100 / s.TravelM));
                double noise = Math.Exp(sd * (random.Normal() - (0.5 * sd)));
                double walked = o.FootShare * surface[(int)steps[i].Surface] * foot, ridden = (1 - o.FootShare) * (o.CapLimited ? 1 : surface[(int)steps[i].Surface]);
                seconds[i] = o.TimeS * ride * (walked + ridden) * noise;
            }

            return seconds;
        }
    }
}
