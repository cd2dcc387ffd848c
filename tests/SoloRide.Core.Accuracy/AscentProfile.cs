using SoloRide.Routes;

namespace SoloRide.Accuracy;

/// <summary>The profiles of the ascent tables, and fresh noise over their true heights by the recipe of the tables' description.</summary>
internal sealed class AscentProfile
{
    private AscentProfile(CsvRow row, string folder)
    {
        Id = row["id"];
        LengthM = row.Num("length_m");
        TruthM = row.Num("ascent_g25");
        TruthDescentM = row.Num("descent_g25");
        CsvTable truth = Table("truth"), sensor = Table("sensor"), model = Table("dem");
        TrueX = Column(truth, "dist_m");
        TrueH = Column(truth, "elev_m");
        TimeS = Column(sensor, "time_s");
        SensorX = Column(sensor, "dist_m");
        Barometric = Column(sensor, "elev_baro_m");
        Satellite = Column(sensor, "elev_gnss_m");
        ModelX = Column(model, "dist_m");
        ModelH = Column(model, "elev_dem_m");

        CsvTable Table(string kind) => CsvTable.Read(Path.Combine(folder, $"{Id}_{kind}.csv"));
    }

    public string Id { get; }

    public double LengthM { get; }

    public double TruthM { get; }

    public double TruthDescentM { get; }

    public double[] TrueX { get; }

    public double[] TrueH { get; }

    public double[] TimeS { get; }

    public double[] SensorX { get; }

    public double[] Barometric { get; }

    public double[] Satellite { get; }

    public double[] ModelX { get; }

    public double[] ModelH { get; }

    /// <summary>The profiles that are judged: at least 50 m and 10 m a kilometre of true ascent.</summary>
    public bool Judged => TruthM >= 50 && TruthM >= 10 * LengthM / 1000;

    public static AscentProfile[] All(string folder)
        => [.. CsvTable.Read(Path.Combine(folder, "truth.csv")).Rows.Where(r => File.Exists(Path.Combine(folder, r["id"] + "_truth.csv"))).Select(r => new AscentProfile(r, folder))];

    public long[] Ticks => [.. TimeS.Select(t => (long)Math.Round(t * TimeSpan.TicksPerSecond))];

    /// <summary>Fresh noise over the true heights at the sensor's places.</summary>
    public double[] Draw(HeightSource source, Random random)
    {
        double[] h = new double[SensorX.Length];
        for (int i = 0, k = 0; i < h.Length; i++)
        {
            while (k + 2 < TrueX.Length && TrueX[k + 1] < SensorX[i])
            {
                k++;
            }

            double t = Math.Clamp((SensorX[i] - TrueX[k]) / (TrueX[k + 1] - TrueX[k]), 0, 1);
            h[i] = TrueH[k] + (t * (TrueH[k + 1] - TrueH[k]));
        }

        if (source == HeightSource.Satellite)
        {
            Wander(h, Uniform(random, 3, 8), Uniform(random, 30, 120), random);
            White(h, Uniform(random, 0.1, 0.6), random);
            return [.. h.Select(v => Math.Round(v / 0.1) * 0.1)];
        }

        double[] rate = new double[h.Length];
        Wander(rate, Uniform(random, 2, 8) / 3600, 1800, random);
        double drift = 0;
        for (int i = 1; i < h.Length; i++)
        {
            drift += rate[i - 1] * (TimeS[i] - TimeS[i - 1]);
            h[i] += drift;
        }

        White(h, Uniform(random, 0.1, 0.35), random);
        Wander(h, Uniform(random, 0.2, 0.6), Uniform(random, 5, 15), random);
        double step = random.Next(3) switch { 0 => 0.2, 1 => 0.5, _ => 1.0 };
        return [.. h.Select(v => Math.Round(v / step) * step)];
    }

    private static double[] Column(CsvTable table, string column) => [.. table.Rows.Select(r => r.Num(column))];

    private static double Uniform(Random random, double a, double b) => a + ((b - a) * random.NextDouble());

    private static double Normal(Random random) => Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static void White(double[] h, double sigma, Random random)
    {
        for (int i = 0; i < h.Length; i++)
        {
            h[i] += sigma * Normal(random);
        }
    }

    private void Wander(double[] h, double sigma, double tauS, Random random)
    {
        double v = sigma * Normal(random);
        h[0] += v;
        for (int i = 1; i < h.Length; i++)
        {
            double a = Math.Exp(-(TimeS[i] - TimeS[i - 1]) / tauS);
            v = (a * v) + (sigma * Math.Sqrt(1 - (a * a)) * Normal(random));
            h[i] += v;
        }
    }
}
