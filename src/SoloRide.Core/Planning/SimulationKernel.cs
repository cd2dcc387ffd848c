using SoloRide.Internal;

namespace SoloRide.Planning;

/// <summary>
/// One pass over the sections with one set of draws: clock, carried mass, water, sweat, sodium and energy together.
/// The middle run is the same pass with every draw at its median.
/// </summary>
[Source("own-coupled-ride", "moving time = (light + carried/reference * (laden - light)) * shared * class * leg * dark")]
internal static class SimulationKernel
{
    /// <summary>Draws with a name: shared, temperature, sweat, sodium, stops, legs and incidents together, first sources.</summary>
    public const int NamedDraws = 8;

    public const int DrawShared = 0;
    public const int DrawTemperature = 1;
    public const int DrawSweat = 2;
    public const int DrawSodium = 3;
    public const int DrawStops = 4;
    public const int DrawClasses = 5;
    public const int DrawLegs = 6;
    public const int DrawSources = 7;

    private const int FirstClass = 5;
    private const int MaxClasses = 8;
    private const int FirstSource = FirstClass + MaxClasses;
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
                Draw(input, sobol, seed, i, scratch, result);
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
        scratch.Sweat = 1;
        scratch.Sodium = 1;
        scratch.Stop = 1;
        for (int s = 0; s < scratch.Wet.Length; s++)
        {
            scratch.Wet[s] = wet(s);
        }

        One(input, scratch, result, 0, trace);
        return result;
    }

    private static void Draw(SimulationInput input, SobolSequence sobol, ulong seed, int sample, Scratch s, SimulationResult result)
    {
        Span<double> u = s.Point;
        sobol.Point((uint)sample, u);
        ulong stream = SplitMix64.Mix(seed, (ulong)sample + 1);
        double zShared = NormalKernel.Quantile(u[DrawShared]);
        double shared = Math.Exp(input.SharedShift + (input.SharedSigma * zShared));
        double zTemperature = NormalKernel.Quantile(u[DrawTemperature]);
        double zSweat = NormalKernel.Quantile(u[DrawSweat]);
        double zSodium = NormalKernel.Quantile(u[DrawSodium]);
        double zStops = NormalKernel.Quantile(u[DrawStops]);
        s.Warmer = input.TemperatureSigmaK * zTemperature;
        s.Sweat = Math.Exp(input.SweatSigma * zSweat);
        s.Sodium = Math.Exp(input.SodiumSigma * zSodium);
        s.Stop = Math.Exp(input.StopSigma * zStops);
        double classes = 0;
        for (int c = 0; c < s.ClassFactor.Length; c++)
        {
            double z = NormalKernel.Quantile(c < MaxClasses ? u[FirstClass + c] : SplitMix64.NextUnit(ref stream));
            classes += z;
            s.ClassFactor[c] = shared * Math.Exp(input.ClassSigma[c] * z);
        }

        double legs = 0;
        for (int l = 0; l < input.Legs; l++)
        {
            double z = NormalKernel.Quantile(SplitMix64.NextUnit(ref stream));
            legs += z;
            s.LegFactor[l] = Math.Exp(input.LegSigma[l] * z);
            s.LegIncidentSec[l] = 0;
        }

        if (input.Incidents > 0)
        {
            // Poisson by waiting times; each incident falls on a leg at random and lasts an exponential time.
            for (double t = -Math.Log(SplitMix64.NextUnit(ref stream)); t < input.Incidents; t -= Math.Log(SplitMix64.NextUnit(ref stream)))
            {
                int leg = Math.Min(input.Legs - 1, (int)(SplitMix64.NextUnit(ref stream) * input.Legs));
                s.LegIncidentSec[leg] -= input.IncidentMeanSec * Math.Log(SplitMix64.NextUnit(ref stream));
            }
        }

        double wetCount = 0;
        for (int k = 0; k < s.Wet.Length; k++)
        {
            double v = FirstSource + k < SobolSequence.MaxDimensions ? u[FirstSource + k] : SplitMix64.NextUnit(ref stream);
            s.Wet[k] = v < input.WetProbability[k];
            wetCount += s.Wet[k] ? 1 : 0;
        }

        Span<double> named = result.Draws.AsSpan(sample * NamedDraws, NamedDraws);
        named[DrawShared] = zShared;
        named[DrawTemperature] = zTemperature;
        named[DrawSweat] = zSweat;
        named[DrawSodium] = zSodium;
        named[DrawStops] = zStops;
        named[DrawClasses] = classes;
        named[DrawLegs] = legs;
        named[DrawSources] = wetCount;
    }

    private static void One(SimulationInput input, Scratch s, SimulationResult result, int sample, SectionTrace? trace)
    {
        int samples = result.Samples;
        double clock = 0, water = input.StartWaterL, least = water, shortL = 0, sweatSum = 0, drunk = 0, filled = 0;
        double moving = 0, stopped = 0, dark = 0, joules = 0, eaten = 0;
        int darkIndex = 0;
        double[] darkSec = input.DarkSec;
        double perKcal = input.FoodKcal > 0 ? input.FoodKg / input.FoodKcal : 0;
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
                    pause += litres * input.TreatSecPerL[source];
                    water += litres;
                    filled += litres;
                }

                if (pause > 0)
                {
                    clock += pause;
                    stopped += pause;
                    joules += input.RestW * pause;
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
        double rate = (now + ((warm - now) * s.Warmer / input.WarmerK)) * s.Sweat;
        return rate > 0 ? rate : 0;
    }

    private sealed class Scratch(SimulationInput input)
    {
        public double[] Point { get; } = new double[SobolSequence.MaxDimensions];

        public double[] ClassFactor { get; } = new double[input.ClassSigma.Length];

        public double[] LegFactor { get; } = new double[Math.Max(1, input.Legs)];

        public double[] LegIncidentSec { get; } = new double[Math.Max(1, input.Legs)];

        public bool[] Wet { get; } = new bool[input.WetProbability.Length];

        public double Warmer { get; set; }

        public double Sweat { get; set; }

        public double Sodium { get; set; }

        public double Stop { get; set; }
    }
}
