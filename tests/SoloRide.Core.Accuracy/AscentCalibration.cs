using System.Globalization;
using MathNet.Numerics.LinearAlgebra;
using SoloRide.Routes;

namespace SoloRide.Accuracy;

/// <summary>
/// Fits what the ascent of a recording is corrected with, leaving out one profile after the other to judge it.
/// Run by hand (<c>--calibrate FOLDER/routes/ascent DRAWS</c>); the figures it prints go into the library with the source routes-ascent-fit.
/// </summary>
internal static class AscentCalibration
{
    private sealed record Sample(AscentProfile Profile, HeightSource Source, bool Given, double[] Climbing, double NetM, HeightNoise? Noise)
    {
        public double TruthClimbing => Profile.TruthM + Profile.TruthDescentM;
    }

    public static int Run(string folder, int draws)
    {
        AscentProfile[] profiles = AscentProfile.All(folder);
        var samples = new List<Sample>[profiles.Length];
        Parallel.For(0, profiles.Length, new ParallelOptions { MaxDegreeOfParallelism = 2 }, n =>
        {
            AscentProfile p = profiles[n];
            var list = new List<Sample>
            {
                Make(p, HeightSource.Barometric, p.SensorX, p.Barometric, p.Ticks, true),
                Make(p, HeightSource.Satellite, p.SensorX, p.Satellite, p.Ticks, true),
                Make(p, HeightSource.TerrainModel, p.ModelX, p.ModelH, [], true),
            };
            for (int d = 0; d < draws; d++)
            {
                foreach (HeightSource source in new[] { HeightSource.Barometric, HeightSource.Satellite })
                {
                    list.Add(Make(p, source, p.SensorX, p.Draw(source, new Random((n * 1000) + (d * 7) + (int)source + 500_000)), p.Ticks, false));
                }
            }

            samples[n] = list;
        });
        List<Sample> all = [.. samples.SelectMany(s => s)];
        Class(profiles, all);
        foreach (double scale in new[] { 40.0, 50, 60, 70 })
        {
            Report($"Gaussian {scale}", [.. all.Where(s => s.Source == HeightSource.Satellite && s.Profile.Judged)], s => At(s, scale));
        }

        Ridge(profiles, all, HeightSource.Satellite, SatelliteFeatures, [0.3, 3, 30]);
        foreach (double scale in new[] { 30.0, 40, 50, 60 })
        {
            Report($"Gaussian {scale}", [.. all.Where(s => s.Source == HeightSource.TerrainModel && s.Profile.Judged)], s => At(s, scale));
        }

        foreach (double scale in new[] { 40.0, 45, 50, 55, 60, 65, 70 })
        {
            Report($"Twiced {scale}", [.. all.Where(s => s.Source == HeightSource.TerrainModel && s.Profile.Judged)], s => Twiced(s.Profile, scale, s.Profile.ModelX, s.Profile.ModelH));
        }

        Report("Gaussian 25", [.. all.Where(s => s.Source == HeightSource.Barometric && s.Profile.Judged)], s => At(s, 25));
        return 0;
    }

    internal static double[] SatelliteFeatures(double[] climbing, double length, HeightNoise? noise) => AscentModel.SatelliteFeatures(climbing, length, noise!);

    private static double Twiced(AscentProfile p, double scale, double[] x, double[] h)
    {
        double[] cells = new double[ProfileKernel.CellCount(p.LengthM)], a = new double[cells.Length], b = new double[cells.Length];
        ProfileKernel.CellMeans(x, h, p.LengthM, cells);
        double step = p.LengthM / cells.Length;
        ProfileKernel.Gaussian(cells, scale / step, a);
        ProfileKernel.Gaussian(a, scale / step, b);
        (double rise, double fall) = ProfileKernel.Sums([.. a.Zip(b, (u, v) => (2 * u) - v)]);
        return rise + fall;
    }

    private static Sample Make(AscentProfile p, HeightSource source, double[] x, double[] h, long[] ticks, bool given)
    {
        double[] cells = new double[ProfileKernel.CellCount(p.LengthM)], climbing = new double[AscentKernel.ScaleCount], smooth = new double[cells.Length];
        ProfileKernel.CellMeans(x, h, p.LengthM, cells);
        double step = p.LengthM / cells.Length;
        AscentKernel.Climbing(cells, step, climbing);
        ProfileKernel.Gaussian(cells, 60 / step, smooth);
        return new Sample(p, source, given, climbing, smooth[^1] - smooth[0], HeightNoise.Of(x, h, ticks));
    }

    private static double At(Sample s, double scale)
    {
        for (int k = 0; k + 1 < AscentKernel.ScaleCount; k++)
        {
            double a = AscentKernel.ScalesM[k], b = AscentKernel.ScalesM[k + 1];
            if (scale <= b)
            {
                double t = (Math.Log(scale) - Math.Log(a)) / (Math.Log(b) - Math.Log(a));
                return Math.Exp(((1 - t) * Math.Log(s.Climbing[k])) + (t * Math.Log(s.Climbing[k + 1])));
            }
        }

        return s.Climbing[^1];
    }

    private static double Error(Sample s, double climbing) => ((Math.Max(climbing, Math.Abs(s.NetM)) + s.NetM) / 2 / s.Profile.TruthM) - 1;

    private static void Report(string what, IReadOnlyList<Sample> samples, Func<Sample, double> climbing)
    {
        foreach (bool given in new[] { true, false })
        {
            double[] e = [.. samples.Where(s => s.Given == given).Select(s => Error(s, climbing(s)))];
            if (e.Length > 0)
            {
                double[] a = [.. e.Select(Math.Abs).Order()];
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"{what,-32} {(given ? "given" : "fresh")} {samples[0].Source,-12} n {e.Length,5} rms {100 * Math.Sqrt(e.Average(v => v * v)):F2} median {100 * a[a.Length / 2]:F2} bias {100 * e.Average():F2} p80 {100 * a[(int)(0.8 * a.Length)]:F2} p90 {100 * a[(int)(0.9 * a.Length)]:F2} p95 {100 * a[(int)(0.95 * a.Length)]:F2}"));
                double[] h = [.. samples.Where(s => s.Given == given).Select(s => Math.Abs(Error(s, climbing(s))) * s.Profile.TruthM / (climbing(s) / 2)).Order()];
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"  of half the climbing p50 {100 * h[h.Length / 2]:F2} p80 {100 * h[(int)(0.8 * h.Length)]:F2} p90 {100 * h[(int)(0.9 * h.Length)]:F2} p95 {100 * h[(int)(0.95 * h.Length)]:F2}"));
            }
        }
    }

    private static void Ridge(AscentProfile[] profiles, List<Sample> all, HeightSource source, Func<double[], double, HeightNoise?, double[]> features, double[] lambdas)
    {
        Sample[] used = [.. all.Where(s => s.Source == source && s.Profile.TruthM >= 20)];
        double[][] x = [.. used.Select(s => features(s.Climbing, s.Profile.LengthM, s.Noise))];
        double[] y = [.. used.Select(s => Math.Log(s.TruthClimbing / At(s, AscentModel.BaseScaleM(source))))];
        double[] w = [.. used.Select(s => s.Profile.Judged ? 1.0 : 0.15)];
        foreach (double lambda in lambdas)
        {
            var guess = new Dictionary<Sample, double>();
            foreach (AscentProfile p in profiles)
            {
                int[] train = [.. Enumerable.Range(0, used.Length).Where(i => used[i].Profile != p)];
                double[] c = Solve(x, y, w, train, lambda);
                for (int i = 0; i < used.Length; i++)
                {
                    if (used[i].Profile == p)
                    {
                        guess[used[i]] = At(used[i], AscentModel.BaseScaleM(source)) * Math.Exp(Dot(c, x[i]));
                    }
                }
            }

            Report(string.Create(CultureInfo.InvariantCulture, $"ridge {lambda}, one left out"), [.. used.Where(s => s.Profile.Judged)], s => guess[s]);
            double[] fit = Solve(x, y, w, [.. Enumerable.Range(0, used.Length)], lambda);
            Console.WriteLine("  [" + string.Join(", ", fit.Select(v => v.ToString("G6", CultureInfo.InvariantCulture))) + "]");
        }
    }

    private static double Dot(double[] c, double[] x)
    {
        double sum = c[^1];
        for (int i = 0; i < x.Length; i++)
        {
            sum += c[i] * x[i];
        }

        return sum;
    }

    // Weighted ridge on centred features; the last coefficient is the constant.
    private static double[] Solve(double[][] x, double[] y, double[] w, int[] rows, double lambda)
    {
        int m = x[0].Length;
        double total = rows.Sum(i => w[i]);
        double[] mean = [.. Enumerable.Range(0, m).Select(k => rows.Sum(i => w[i] * x[i][k]) / total)];
        double my = rows.Sum(i => w[i] * y[i]) / total;
        double[] sd = [.. Enumerable.Range(0, m).Select(k => Math.Sqrt(1e-12 + (rows.Sum(i => w[i] * (x[i][k] - mean[k]) * (x[i][k] - mean[k])) / total)))];
        var a = Matrix<double>.Build.Dense(m, m, (p, q) => (rows.Sum(i => w[i] * (x[i][p] - mean[p]) / sd[p] * (x[i][q] - mean[q]) / sd[q]) / total) + (p == q ? lambda / 100 : 0));
        var b = Vector<double>.Build.Dense(m, p => rows.Sum(i => w[i] * (x[i][p] - mean[p]) / sd[p] * (y[i] - my)) / total);
        double[] c = [.. a.Solve(b).Select((v, k) => v / sd[k])];
        return [.. c, my - Enumerable.Range(0, m).Sum(k => c[k] * mean[k])];
    }

    // Logistic regression of the source on the noise figures by Newton steps.
    private static void Class(AscentProfile[] profiles, List<Sample> all)
    {
        Sample[] used = [.. all.Where(s => s.Noise is not null && s.Source != HeightSource.TerrainModel)];
        double[][] x = [.. used.Select(s => AscentModel.ClassFeatures(s.Noise!))];
        double[] y = [.. used.Select(s => s.Source == HeightSource.Satellite ? 1.0 : 0)];
        int wrong = 0, wrongGiven = 0, doubtful = 0;
        foreach (AscentProfile p in profiles)
        {
            double[] c = Logistic(x, y, [.. Enumerable.Range(0, used.Length).Where(i => used[i].Profile != p)]);
            for (int i = 0; i < used.Length; i++)
            {
                if (used[i].Profile == p)
                {
                    double z = Dot(c, x[i]);
                    bool bad = (z > 0) != (y[i] > 0);
                    wrong += bad ? 1 : 0;
                    wrongGiven += bad && used[i].Given ? 1 : 0;
                    doubtful += Math.Abs(z) < 2 ? 1 : 0;
                }
            }
        }

        double[] fit = Logistic(x, y, [.. Enumerable.Range(0, used.Length)]);
        int plain = used.Count(s => (s.Noise!.MedianM[1] > 1.75) != (s.Source == HeightSource.Satellite));
        Console.WriteLine($"class: {used.Length} series, wrong {wrong} (given {wrongGiven}), doubtful {doubtful}; threshold alone wrong {plain}");
        Console.WriteLine("  [" + string.Join(", ", fit.Select(v => v.ToString("G6", CultureInfo.InvariantCulture))) + "]");
    }

    private static double[] Logistic(double[][] x, double[] y, int[] rows)
    {
        int m = x[0].Length + 1;
        var c = Vector<double>.Build.Dense(m);
        for (int step = 0; step < 25; step++)
        {
            var g = Vector<double>.Build.Dense(m);
            var h = Matrix<double>.Build.Dense(m, m);
            foreach (int i in rows)
            {
                double[] v = [.. x[i], 1];
                double z = 0;
                for (int k = 0; k < m; k++)
                {
                    z += c[k] * v[k];
                }

                double q = 1 / (1 + Math.Exp(-z)), wgt = Math.Max(q * (1 - q), 1e-9);
                for (int a = 0; a < m; a++)
                {
                    g[a] += (y[i] - q) * v[a];
                    for (int b = 0; b < m; b++)
                    {
                        h[a, b] += wgt * v[a] * v[b];
                    }
                }
            }

            // A weak pull to zero keeps separable data finite.
            double pull = 1e-3 * rows.Length;
            for (int a = 0; a < m - 1; a++)
            {
                g[a] -= pull * c[a] / 100;
                h[a, a] += pull / 100;
            }

            Vector<double> d = h.Solve(g);
            c += d;
            if (d.L2Norm() < 1e-9)
            {
                break;
            }
        }

        return c.ToArray();
    }
}
