using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>
/// One pass over the sections with one set of draws: clock, carried mass, water, sweat, sodium and energy together.
/// The middle run is the same pass with every draw at its median.
/// </summary>
[Source("own-coupled-ride", "moving time = (light + carried/reference * (laden - light)) * shared * class * leg * dark * wind")]
internal static class SimulationKernel
{
    /// <summary>Draws with a name; each is kept as its effect (factor, seconds, standard deviations), for shares of variance.</summary>
    public const int NamedDraws = 12;

    public const int DrawShared = 0;
    public const int DrawTemperature = 1;
    public const int DrawSweat = 2;
    public const int DrawSodium = 3;
    public const int DrawStops = 4;
    public const int DrawClasses = 5;
    public const int DrawLegs = 6;
    public const int DrawSources = 7;
    public const int DrawIncidents = 8;
    public const int DrawCloud = 9;
    public const int DrawCells = 10;
    public const int DrawWind = 11;

    private const int FirstClass = 5;
    private const int MaxClasses = 8;
    private const int CloudPoint = FirstClass + MaxClasses;
    private const int CellPoint = CloudPoint + 1;
    private const int FirstSource = CellPoint + 1;
    private const int WindPoint = SobolSequence.MaxDimensions - 1;
    private const int Block = 128;

    /// <summary>Runs all samples; the result does not depend on the number of threads.</summary>
    public static SimulationResult Run(SimulationInput input, int samples, ulong seed, int threads, CancellationToken cancel)
    {
        var result = new SimulationResult(samples, input.Stations);
        var sobol = new SobolSequence(SobolSequence.MaxDimensions, seed);
        int blocks = (samples + Block - 1) / Block;
        if (threads <= 1 || blocks == 1)
        {
            var scratch = new Scratch(input);
            for (int b = 0; b < blocks; b++)
            {
                cancel.ThrowIfCancellationRequested();
                RunBlock(b, scratch);
            }
        }
        else
        {
            Parallel.For(0, blocks, new ParallelOptions { MaxDegreeOfParallelism = threads, CancellationToken = cancel }, () => new Scratch(input), (b, _, scratch) =>
            {
                RunBlock(b, scratch);
                return scratch;
            }, _ => { });
        }

        return result;

        void RunBlock(int block, Scratch scratch)
        {
            int end = Math.Min(samples, (block + 1) * Block);
            for (int i = block * Block; i < end; i++)
            {
                Draw(input, sobol, seed, i, scratch, result.Draws.AsSpan(i * NamedDraws, NamedDraws));
                One(input, scratch, result, i, null);
            }
        }
    }

    /// <summary>The run with every draw at its median; sources as given, or all wet or dry by the flag.</summary>
    public static SimulationResult Middle(SimulationInput input, Func<int, bool> wet, SectionTrace? trace = null)
    {
        var result = new SimulationResult(1, input.Stations);
        var scratch = new Scratch(input);
        Array.Fill(scratch.ClassFactor, Math.Exp(input.SharedShift));
        Array.Fill(scratch.LegFactor, 1);
        Array.Fill(scratch.LegIncidentSec, 0);
        scratch.Warmer = 0;
        scratch.Cloudier = 0;
        scratch.Windier = 0;
        scratch.Cells = 1;
        scratch.Sweat = 0;
        scratch.Sodium = 1;
        scratch.Stop = 1;
        for (int s = 0; s < scratch.Wet.Length; s++)
        {
            scratch.Wet[s] = wet(s);
        }

        One(input, scratch, result, 0, trace);
        return result;
    }

    /// <summary>Runs the first samples again, one by one, with the whole course of each; for what is too costly to follow in every sample.</summary>
    /// <param name="input">The ride.</param>
    /// <param name="samples">How many; the first 2^k points of the sequence are spread evenly.</param>
    /// <param name="seed">Seed.</param>
    /// <param name="each">Receives the course, and the error of the air temperature in standard deviations.</param>
    /// <param name="cancel">Stops the work.</param>
    public static void Courses(SimulationInput input, int samples, ulong seed, Action<SectionTrace, double> each, CancellationToken cancel)
    {
        var one = new SimulationResult(1, input.Stations);
        var sobol = new SobolSequence(SobolSequence.MaxDimensions, seed);
        var scratch = new Scratch(input);
        var trace = new SectionTrace(input.Sections);
        for (int i = 0; i < samples; i++)
        {
            cancel.ThrowIfCancellationRequested();
            Draw(input, sobol, seed, i, scratch, one.Draws);
            One(input, scratch, one, 0, trace);
            each(trace, scratch.Warmer);
        }
    }

    private static void Draw(SimulationInput input, SobolSequence sobol, ulong seed, int sample, Scratch s, Span<double> named)
    {
        Span<double> u = s.Point;
        sobol.Point((uint)sample, u);
        ulong stream = SplitMix64.Mix(seed, ((ulong)input.Day << 32) + (ulong)sample + 1);
        double zShared = NormalKernel.Quantile(u[DrawShared]);
        double shared = Math.Exp(input.SharedShift + (input.SharedSigma * zShared));
        double zTemperature = NormalKernel.Quantile(u[DrawTemperature]);
        double zSweat = NormalKernel.Quantile(u[DrawSweat]);
        double zSodium = NormalKernel.Quantile(u[DrawSodium]);
        double zStops = NormalKernel.Quantile(u[DrawStops]);
        s.Warmer = zTemperature;
        s.Cloudier = NormalKernel.Quantile(u[CloudPoint]);
        s.Windier = NormalKernel.Quantile(u[WindPoint]);
        s.Cells = Math.Exp(input.LampSigma * NormalKernel.Quantile(u[CellPoint]));
        s.Sweat = zSweat / NormalKernel.Z90;
        s.Sodium = Math.Exp(input.SodiumSigma * zSodium);
        s.Stop = Math.Exp(input.StopSigma * zStops);
        double classes = 0;
        for (int c = 0; c < s.ClassFactor.Length; c++)
        {
            double z = NormalKernel.Quantile(c < MaxClasses ? u[FirstClass + c] : SplitMix64.NextUnit(ref stream));
            double own = Math.Exp(input.ClassSigma[c] * z);
            classes += s.ClassSec[c] * (own - 1);
            s.ClassFactor[c] = shared * own;
        }

        double legs = 0;
        for (int l = 0; l < input.Legs; l++)
        {
            double own = Math.Exp(input.LegSigma[l] * NormalKernel.Quantile(SplitMix64.NextUnit(ref stream)));
            legs += s.LegSec[l] * (own - 1);
            s.LegFactor[l] = own;
            s.LegIncidentSec[l] = 0;
        }

        double incidents = 0;
        if (input.Incidents > 0)
        {
            // Poisson by waiting times; each incident falls somewhere on the route and lasts an exponential time.
            double expected = input.IncidentShape > 0 ? input.Incidents * Gamma(input.IncidentShape, ref stream) / input.IncidentShape : input.Incidents;
            for (double t = -Math.Log(SplitMix64.NextUnit(ref stream)); t < expected; t -= Math.Log(SplitMix64.NextUnit(ref stream)))
            {
                double where = SplitMix64.NextUnit(ref stream);
                int leg;
                if (input.LegEndShare.Length == 0)
                {
                    leg = Math.Min(input.Legs - 1, (int)(where * input.Legs));
                }
                else
                {
                    for (leg = 0; leg < input.Legs - 1 && where >= input.LegEndShare[leg]; leg++)
                    {
                    }
                }

                double lasts = -input.IncidentMeanSec * Math.Log(SplitMix64.NextUnit(ref stream));
                s.LegIncidentSec[leg] += lasts;
                incidents += lasts;
            }
        }

        double wetCount = 0;
        for (int k = 0; k < s.Wet.Length; k++)
        {
            double v = input.Day == 0 && FirstSource + k < WindPoint ? u[FirstSource + k] : SplitMix64.NextUnit(ref stream);
            s.Wet[k] = v < input.WetProbability[k];
            wetCount += s.Wet[k] ? 1 : 0;
        }

        named[DrawShared] = shared;
        named[DrawTemperature] = zTemperature;
        named[DrawSweat] = 1 + (s.Sweat * (s.Sweat > 0 ? s.SweatOver : s.SweatUnder));
        named[DrawSodium] = s.Sodium;
        named[DrawStops] = s.Stop;
        named[DrawClasses] = classes;
        named[DrawLegs] = legs;
        named[DrawSources] = wetCount;
        named[DrawIncidents] = incidents;
        named[DrawCloud] = s.Cloudier;
        named[DrawCells] = s.Cells;
        named[DrawWind] = s.Windier > 0 ? s.Windier * s.WindMoreSec : -s.Windier * s.WindLessSec;
    }

    private static void One(SimulationInput input, Scratch s, SimulationResult result, int sample, SectionTrace? trace)
    {
        int samples = result.Samples;
        double clock = 0, water = input.StartWaterL, least = water, shortL = 0, sweatSum = 0, drunk = 0, filled = 0;
        double moving = 0, stopped = 0, dark = 0, joules = 0, eaten = 0;
        int darkIndex = 0;
        double[] darkSec = input.DarkSec;
        double perKcal = input.FoodKcal > 0 ? input.FoodKg / input.FoodKcal : 0;
        double[] wind = s.Windier > 0 ? input.WindMoreLog : input.WindLessLog;
        double windy = Math.Abs(s.Windier);
        bool blows = windy > 0 && wind.Length > 0;
        int leg = -1;
        for (int j = 0; j < input.Sections; j++)
        {
            while (darkIndex < darkSec.Length && darkSec[darkIndex] <= clock)
            {
                darkIndex++;
            }

            bool isDark = (darkIndex & 1) == 1;
            double carried = water + (input.FoodKg - (eaten * perKcal));
            double move = (input.LightSec[j] + ((input.LadenSec[j] - input.LightSec[j]) * carried / input.ReferenceKg))
                * s.ClassFactor[input.Class[j]] * s.LegFactor[input.Leg[j]] * (isDark ? input.DarkFactor[j] : 1);
            if (blows)
            {
                move *= Math.Exp(windy * wind[j]);
            }

            double stand = move * input.StopShare * s.Stop;
            if (input.Leg[j] != leg)
            {
                leg = input.Leg[j];
                stand += s.LegIncidentSec[leg];
            }

            double rate = SweatRate(input, s, j, clock + (move / 2));
            double sweat = rate * (move + (stand * input.RestSweatShare)) / 3600;
            double want = Math.Min(sweat * input.IntakeShare, input.IntakeCapLph * (move + stand) / 3600);
            double take = Math.Min(want, water);
            shortL += want - take;
            water -= take;
            drunk += take;
            sweatSum += sweat;
            double meal = Math.Min(input.FoodKcal - eaten, input.EatKcalPerHour * (move + stand) / 3600);
            eaten += Math.Max(0, meal);
            joules += (input.MetabolicW[j] * move) + (input.RestW * stand);
            dark += isDark ? move + stand : 0;
            moving += move;
            stopped += stand;
            clock += move + stand;
            least = Math.Min(least, water);
            if (trace is not null)
            {
                trace.ClockSec[j] = clock;
                trace.WaterL[j] = water;
                trace.SweatL[j] = sweatSum;
                trace.DrunkL[j] = drunk;
                trace.WantL[j] = drunk + shortL;
                trace.Joules[j] = joules;
                trace.EatenKcal[j] = eaten;
                trace.Dark[j] = isDark;
                trace.MoveSec[j] = move;
                trace.StandSec[j] = stand;
                trace.CarriedKg[j] = carried;
                trace.FilledL[j] = filled;
                trace.SodiumMg[j] = sweatSum * input.SodiumMgPerL * s.Sodium;
                trace.DarkSec[j] = dark;
            }

            int station = input.StationAt[j];
            if (station >= 0)
            {
                result.ArrivalSec[(station * samples) + sample] = clock;
                result.WaterL[(station * samples) + sample] = water;
                double pause = input.StationStopSec[station];
                int source = input.SourceAt[station];
                if (source >= 0 && s.Wet[input.SourceOf[source]] && input.FillToL[source] > water)
                {
                    double litres = input.FillToL[source] - water;
                    litres = input.MostTakenL.Length > 0 ? Math.Min(litres, input.MostTakenL[source]) : litres;
                    pause += litres * input.TreatSecPerL[source];
                    water += litres;
                    filled += litres;
                }

                if (pause > 0)
                {
                    clock += pause;
                    stopped += pause;
                    joules += input.RestW * pause;
                    dark += isDark ? pause : 0;
                }
            }
        }

        result.FinishSec[sample] = result.ArrivalSec[((result.Stations - 1) * samples) + sample];
        result.MovingSec[sample] = moving;
        result.StoppedSec[sample] = stopped;
        result.DarkSec[sample] = dark;
        result.ShortWaterL[sample] = shortL;
        result.LeastWaterL[sample] = least;
        result.SweatL[sample] = sweatSum;
        result.DrunkL[sample] = drunk;
        result.FilledL[sample] = filled;
        result.Kcal[sample] = joules / JoulesPerKcal;
        result.SodiumMg[sample] = sweatSum * input.SodiumMgPerL * s.Sodium;
        result.EatenKcal[sample] = eaten;
        result.LampLeftSec[sample] = (input.LampSec * s.Cells) - dark;
    }

    [Source("iso-80000-5", "thermochemical calorie")]
    public const double JoulesPerKcal = 4184;

    private static double SweatRate(SimulationInput input, Scratch s, int section, double clockSec)
    {
        double g = (clockSec - input.GridFromSec) / input.GridStepSec;
        int last = input.GridCount - 1;
        int at = (section * input.GridCount) + (g <= 0 ? 0 : g >= last ? Math.Max(0, last - 1) : (int)g);
        double f = last == 0 ? 0 : g <= 0 ? 0 : g >= last ? 1 : g - (int)g;
        int next = last == 0 ? at : at + 1;
        double now = input.SweatLph[at] + ((input.SweatLph[next] - input.SweatLph[at]) * f);
        double warm = input.SweatWarmLph[at] + ((input.SweatWarmLph[next] - input.SweatWarmLph[at]) * f);
        int column = at - (section * input.GridCount);
        double sigma = Grid(input.TemperatureSigmaGridK, column, last, f, input.TemperatureSigmaK);
        double rate = now + ((warm - now) * s.Warmer * sigma / input.WarmerK);
        if (input.SweatCloudLph.Length > 0)
        {
            double cloud = Grid(input.CloudFraction, column, last, f, 0);
            double drawn = Math.Clamp(cloud + (s.Cloudier * Grid(input.CloudSigma, column, last, f, 0)), 0, 1);
            rate += (drawn - cloud) * (input.SweatCloudLph[at] + ((input.SweatCloudLph[next] - input.SweatCloudLph[at]) * f));
        }

        // The band's own two halves: half-normals that meet at the typical rate.
        double[] half = s.Sweat > 0 ? input.SweatAboveLph : input.SweatBelowLph;
        rate += s.Sweat * (half[at] + ((half[next] - half[at]) * f));
        return rate > 0 ? rate : 0;
    }

    /// <summary>A gamma draw of a shape, scale 1.</summary>
    [Source("marsaglia-tsang-2000", "rejection from the cube of a normal; shapes below one lifted")]
    private static double Gamma(double shape, ref ulong stream)
    {
        double lift = 1;
        if (shape < 1)
        {
            lift = Math.Pow(SplitMix64.NextUnit(ref stream), 1 / shape);
            shape += 1;
        }

        double d = shape - (1.0 / 3), c = 1 / Math.Sqrt(9 * d);
        while (true)
        {
            double z = NormalKernel.Quantile(SplitMix64.NextUnit(ref stream)), v = 1 + (c * z);
            if (v <= 0)
            {
                continue;
            }

            v *= v * v;
            if (Math.Log(SplitMix64.NextUnit(ref stream)) < (z * z / 2) + d - (d * v) + (d * Math.Log(v)))
            {
                return lift * d * v;
            }
        }
    }

    private static double Grid(double[] values, int column, int last, double f, double otherwise)
        => values.Length == 0 ? otherwise : last == 0 ? values[0] : values[column] + ((values[column + 1] - values[column]) * f);

    private sealed class Scratch
    {
        public Scratch(SimulationInput input)
        {
            ClassFactor = new double[input.ClassSigma.Length];
            ClassSec = new double[input.ClassSigma.Length];
            LegFactor = new double[Math.Max(1, input.Legs)];
            LegSec = new double[LegFactor.Length];
            LegIncidentSec = new double[LegFactor.Length];
            Wet = new bool[input.WetProbability.Length];
            for (int j = 0; j < input.Sections; j++)
            {
                ClassSec[input.Class[j]] += input.LightSec[j];
                LegSec[input.Leg[j]] += input.LightSec[j];
                if (input.WindMoreLog.Length > 0)
                {
                    WindMoreSec += input.LightSec[j] * input.WindMoreLog[j];
                    WindLessSec += input.LightSec[j] * input.WindLessLog[j];
                }
            }

            (SweatOver, SweatUnder) = input.SweatHalves();
        }

        public double[] Point { get; } = new double[SobolSequence.MaxDimensions];

        public double[] ClassFactor { get; }

        public double[] LegFactor { get; }

        public double[] LegIncidentSec { get; }

        /// <summary>Typical time of each class and leg, the weight of its draw.</summary>
        public double[] ClassSec { get; }

        public double[] LegSec { get; }

        public bool[] Wet { get; }

        /// <summary>Errors of air temperature and cloud, in standard deviations.</summary>
        public double Warmer { get; set; }

        public double Cloudier { get; set; }

        /// <summary>Error of the wind along its forecast direction, in standard deviations.</summary>
        public double Windier { get; set; }

        /// <summary>What one standard deviation more, or less, adds to the typical time [s].</summary>
        public double WindMoreSec { get; }

        public double WindLessSec { get; }

        public double Cells { get; set; }

        /// <summary>Deviate of the sweat rate in halves of its band: 1 at P90, -1 at P10.</summary>
        public double Sweat { get; set; }

        /// <summary>Halves of the band over the whole ride, as shares of the typical rate.</summary>
        public double SweatOver { get; }

        public double SweatUnder { get; }

        public double Sodium { get; set; }

        public double Stop { get; set; }
    }
}
