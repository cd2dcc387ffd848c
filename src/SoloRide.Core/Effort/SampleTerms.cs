namespace SoloRide.Effort;

/// <summary>
/// Steps as arrays for sampling, ordered by surface and difficulty so that each run of steps shares its factors; pace on foot is
/// tabulated against the power factor, riding is solved anew in each sample.
/// </summary>
internal sealed class SampleTerms
{
    /// <summary>Knots of the power factor, even in its logarithm.</summary>
    public const int Knots = 33;

    public const double LogLow = -1.6, LogHigh = 1.6;

    private readonly double[] _grade, _footFactor;

    private SampleTerms(int count, int padded)
    {
        Count = count;
        Padded = padded;
        Order = new int[count];
        Travel = new double[padded];
        A = new double[padded];
        C = new double[padded];
        Wind = new double[padded];
        Lift = new double[padded];
        CubeRoot = new double[padded];
        Wheel = new double[padded];
        Assist = new double[padded];
        Cap = new double[padded];
        DownShare = new double[padded];
        Ridden = new double[padded];
        PedalOverEfficiency = new double[padded];
        Floor = new double[padded];
        Slowest = new double[padded];
        FootTime = new double[Knots * padded];
        FootWatts = new double[Knots * padded];
        StepLogSd = new double[count];
        _grade = new double[padded];
        _footFactor = new double[padded];
    }

    public int Count { get; }

    /// <summary>With each run filled up to whole vectors.</summary>
    public int Padded { get; }

    /// <summary>Place of each step (in the order of travel) in the arrays.</summary>
    public int[] Order { get; }

    public List<Run> Runs { get; } = [];

    public double[] Travel { get; }

    public double[] A { get; }

    public double B { get; private set; }

    public double[] C { get; }

    public double[] Wind { get; }

    /// <summary>What the upper bound of the speed gets besides the cube root: gravity on descents, tail wind.</summary>
    public double[] Lift { get; }

    public double[] CubeRoot { get; }

    /// <summary>Wheel power from the pedals at the typical form [W].</summary>
    public double[] Wheel { get; }

    public double[] Assist { get; }

    public double[] Cap { get; }

    /// <summary>Share of the cap that descending sets.</summary>
    public double[] DownShare { get; }

    public double[] Ridden { get; }

    /// <summary>Metabolic power at the typical form [W].</summary>
    public double[] PedalOverEfficiency { get; }

    public double[] Floor { get; }

    public double[] Slowest { get; }

    public double[] FootTime { get; }

    public double[] FootWatts { get; }

    public double[] StepLogSd { get; }

    public bool AnyWind { get; private set; }

    public bool AnyAssist { get; private set; }

    public static SampleTerms Of(RidePace pace, StepPhysics[] physics)
    {
        int[] byClass = [.. Enumerable.Range(0, physics.Length).OrderBy(i => Class(physics[i]))];
        int padded = 0;
        var runs = new List<Run>();
        for (int i = 0; i < byClass.Length;)
        {
            int c = Class(physics[byClass[i]]), j = i;
            while (j < byClass.Length && Class(physics[byClass[j]]) == c)
            {
                j++;
            }

            int length = (j - i + 3) & ~3;
            runs.Add(new Run(padded, length, c / TrailPriors.Difficulties, TrailPriors.Surfaces + (c % TrailPriors.Difficulties)));
            padded += length;
            i = j;
        }

        var t = new SampleTerms(physics.Length, padded) { B = RidePowerKernel.BearingNsPerM };
        t.Runs.AddRange(runs);
        int at = 0;
        foreach (Run run in runs)
        {
            int real = 0;
            while (at + real < byClass.Length && Class(physics[byClass[at + real]]) == (run.Surface * TrailPriors.Difficulties) + run.Technique - TrailPriors.Surfaces)
            {
                t.Set(run.First + real, physics[byClass[at + real]], byClass[at + real]);
                real++;
            }

            for (int fill = real; fill < run.Length; fill++)
            {
                t.Set(run.First + fill, physics[byClass[at]], -1);
            }

            at += real;
        }

        t.SetFootWatts(physics);
        for (int i = 0; i < physics.Length; i++)
        {
            t.StepLogSd[i] = pace.Steps[i].StepLogSd;
        }

        return t;
    }

    private static int Class(in StepPhysics s) => ((int)s.Surface * TrailPriors.Difficulties) + (int)s.Difficulty + 1;

    private void Set(int k, in StepPhysics s, int step)
    {
        if (step >= 0)
        {
            Order[step] = k;
        }

        double wheel = s.PedalW * s.DriveEfficiency;
        Travel[k] = step >= 0 ? s.TravelM : 0;
        A[k] = s.A;
        C[k] = s.C;
        Wind[k] = s.HeadWindMps;
        AnyWind |= s.HeadWindMps != 0;
        AnyAssist |= s.AssistW > 0;
        CubeRoot[k] = Math.Cbrt((wheel + s.AssistW) / s.A);
        Lift[k] = (s.C < 0 ? Math.Sqrt(-s.C / s.A) : 0) + Math.Max(0, -s.HeadWindMps);
        Wheel[k] = wheel;
        Assist[k] = s.AssistW;
        Cap[k] = s.CapMps;
        DownShare[k] = s.DownShare;
        Ridden[k] = s.RiddenFraction;
        PedalOverEfficiency[k] = s.PedalW / s.GrossEfficiency;
        Floor[k] = s.RideFloorW;
        Slowest[k] = s.SlowestRideMps;
        for (int j = 0; j < Knots; j++)
        {
            double factor = Math.Exp(LogLow + ((LogHigh - LogLow) * j / (Knots - 1)));
            double best = Math.Max(StepKernel.OnFootMps(s, TravelMode.Push, factor), StepKernel.OnFootMps(s, TravelMode.Carry, factor));
            FootTime[(j * Padded) + k] = step >= 0 ? s.TravelM / best : 0;
            FootWatts[(j * Padded) + k] = best;
        }

        _grade[k] = s.GradePercent;
        _footFactor[k] = s.BikeLoadFactor * s.TerrainFactor;
    }

    /// <summary>From the speeds on foot, which stand in the table so far, to metabolic power.</summary>
    private void SetFootWatts(StepPhysics[] physics)
    {
        double[] cost = new double[Padded];
        for (int j = 0; j < Knots && physics.Length > 0; j++)
        {
            Span<double> row = FootWatts.AsSpan(j * Padded, Padded);
            WalkCostBatchKernel.OnFootWPerKg(row, _grade, _footFactor, cost);
            for (int k = 0; k < row.Length; k++)
            {
                row[k] = cost[k] * physics[0].BodyKg;
            }
        }
    }

    /// <summary>Consecutive places that share surface and difficulty; both as spread groups.</summary>
    internal readonly record struct Run(int First, int Length, int Surface, int Technique);
}
