using System.Diagnostics;
using System.Globalization;
using SoloRide.Internal;
using SoloRide.Kit;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Accuracy;

/// <summary>
/// Self-consistency of the planner's probabilities: seeded synthetic riders on made routes are planned, then ride once, with draws of a plain generator through a
/// loop written apart from the planner's. What was stated as 50, 80, 90 or 95 % must happen that often. It checks the arithmetic of uncertainty, not the world.
/// </summary>
internal static class PlanCalibration
{
    private const int Samples = 512;
    private static readonly double[] Levels = [0.5, 0.8, 0.9, 0.95];
    private static readonly DateTimeOffset Day = new(2027, 6, 14, 0, 0, 0, TimeSpan.Zero);

    public static int Run(int riders, int routes, int seed, int threads, double mostSeconds)
    {
        RideRequest[] made = [.. Enumerable.Range(0, routes).Select(r => Route(new Random((seed * 1009) + r)))];
        var clock = Stopwatch.StartNew();
        object gate = new();
        int done = 0, rides = 0;
        var arrived = new int[Levels.Length];
        var late = new Bins();
        var dry = new Bins();
        var unlit = new Bins();
        Parallel.For(0, riders, new ParallelOptions { MaxDegreeOfParallelism = threads }, (i, state) =>
        {
            if (clock.Elapsed.TotalSeconds > mostSeconds)
            {
                state.Stop();
                return;
            }

            for (int r = 0; r < routes; r++)
            {
                var random = new Random(HashCode(seed, i, r));
                One(made[r], random, out bool[] within, out (double, bool) lateIs, out (double, bool) dryIs, out (double, bool) unlitIs);
                lock (gate)
                {
                    rides++;
                    for (int k = 0; k < Levels.Length; k++)
                    {
                        arrived[k] += within[k] ? 1 : 0;
                    }

                    late.Add(lateIs);
                    dry.Add(dryIs);
                    unlit.Add(unlitIs);
                }
            }

            Interlocked.Increment(ref done);
        });
        double worst = 0;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{done} riders x {routes} routes = {rides} rides, {Samples} samples a plan, seed {seed}, {clock.Elapsed.TotalSeconds:F0} s"));
        for (int k = 0; k < Levels.Length; k++)
        {
            double share = (double)arrived[k] / rides;
            worst = Math.Max(worst, Math.Abs(share - Levels[k]));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| arrival stated {100 * Levels[k]:F0} % | {rides} | {arrived[k]} | {100 * share:F2} % | {100 * (share - Levels[k]):+0.00;-0.00} |"));
        }

        worst = Math.Max(worst, Math.Max(late.Print("late for a clock"), Math.Max(dry.Print("water runs short"), unlit.Print("lamp ends in the dark"))));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"worst {100 * worst:F2} points"));
        return worst <= 0.02 ? 0 : 1;
    }

    private static int HashCode(int a, int b, int c) => (int)(SplitMix64.Mix(SplitMix64.Mix((ulong)a, (ulong)b + 1), (ulong)c + 1) & 0x7FFFFFFF);

    private static RideRequest Route(Random random)
    {
        double km = 12 + (33 * random.NextDouble()), amplitude = 20 + (150 * random.NextDouble()), wave = 3 + (8 * random.NextDouble()), lat = -45 + (100 * random.NextDouble());
        int n = (int)(km * 10);
        RideRoute route = RideRoute.FromPoints(
            Enumerable.Range(0, n + 1).Select(i => new GeoPoint(lat + (i * 0.1 / 111), 0, 600 + (amplitude * Math.Sin(2 * Math.PI * i * 0.1 / wave)))), "made");
        double mean = 8 + (22 * random.NextDouble()), swing = 3 + (6 * random.NextDouble()), humidity = 25 + (50 * random.NextDouble()), cloud = 100 * random.NextDouble();
        DateTimeOffset start = Day.AddHours(6 + (13 * random.NextDouble()));
        return new RideRequest
        {
            Route = route,
            Start = start,
            PreparedAt = start.AddHours(-12 - (72 * random.NextDouble())),
            Zone = ZoneOffsets.Fixed(0),
            Weather = new Forecast([new ForecastPlace("made", null, Enumerable.Range(0, 97).Select(h => new ForecastHour(Day.AddHours(h), new Weather
            {
                AirTempC = mean + (swing * Math.Sin((h - 9) / 24.0 * 2 * Math.PI)), RelHumidityPct = humidity, WindMps = 2, WindFromDeg = 200, GustMps = 3, CloudPct = cloud, PrecipMm = 0, ThunderPct = 0,
            })))]),
            Sources =
            [
                new WaterSource { Name = "first", AlongRoute = Length.FromKilometers(km * 0.3), WetProbability = 0.4 + (0.5 * random.NextDouble()), NeedsTreatment = false },
                new WaterSource { Name = "second", AlongRoute = Length.FromKilometers(km * 0.65), WetProbability = 0.4 + (0.5 * random.NextDouble()), NeedsTreatment = false },
            ],
            Load = new Load { WaterCapacity = Volume.FromLiters(0.6 + (1.8 * random.NextDouble())) },
            FailureRates = new Dictionary<FailureKind, FailureRate> { [FailureKind.TubePuncture] = new(2 + (8 * random.NextDouble()), Length.FromKilometers(600)) },
            Options = new PlanOptions { Samples = Samples, StepLength = Length.FromMeters(100) },
        };
    }

    private static void One(RideRequest route, Random random, out bool[] within, out (double Stated, bool Is) late, out (double Stated, bool Is) dry, out (double Stated, bool Is) unlit)
    {
        RideRequest request = route with
        {
            Rider = new Rider
            {
                Mass = Mass.FromKilograms(50 + (50 * random.NextDouble())), Height = Length.FromMeters(1.55 + (0.4 * random.NextDouble())), SustainedPower = Power.FromWatts(90 + (150 * random.NextDouble())),
            },
            Options = route.Options with { Seed = (ulong)random.Next() },
        };
        var findings = new List<Finding>();
        RideCourse course = RideCourse.Of(request, null, findings)!;
        var model = new RideModel(request, course, request.Start, request.Zone!, null, findings, default);
        WaterPlan water = WaterPlan.Of(model, default);
        SimulationInput input = model.WithWater(water.StartL, water.FillToL, water.TreatSecPerL) with { LampSec = 600 + (7200 * random.NextDouble()), LampSigma = 0.15 };
        SimulationResult result = SimulationKernel.Run(input, Samples, request.Options.Seed, 1, default);
        double[] sorted = [.. result.FinishSec];
        Array.Sort(sorted);
        Ride(input, random, out double finishSec, out double shortL, out double lampLeftSec);
        within = [.. Levels.Select(p => finishSec <= QuantileKernel.OfSorted(sorted, p))];
        double clock = QuantileKernel.OfSorted(sorted, 0.5) * (0.8 + (0.5 * random.NextDouble()));
        late = (result.FinishSec.Count(t => t > clock) / (double)Samples, finishSec > clock);
        dry = (result.ShortWaterL.Count(s => s > WaterPlan.CountedToL) / (double)Samples, shortL > WaterPlan.CountedToL);
        unlit = (result.LampLeftSec.Count(t => t < 0) / (double)Samples, lampLeftSec < 0);
    }

    /// <summary>One ride of one rider, by the model's assumptions and a plain generator; no line of it is the planner's.</summary>
    private static void Ride(SimulationInput m, Random random, out double finishSec, out double shortL, out double lampLeftSec)
    {
        double day = Math.Exp(m.SharedSigma * Normal()), stops = Math.Exp(m.StopSigma * Normal()), thirst = Normal() / MathNet.Numerics.Distributions.Normal.InvCDF(0, 1, 0.9), air = Normal(), sky = Normal(), blow = Normal(), lamp = m.LampSec * Math.Exp(m.LampSigma * Normal());
        double[] ground = [.. m.ClassSigma.Select(s => Math.Exp(s * Normal()))], legs = [.. m.LegSigma.Select(s => Math.Exp(s * Normal()))];
        bool[] wet = [.. m.WetProbability.Select(p => random.NextDouble() < p)];
        var trouble = new double[m.Legs];
        double rate = m.Incidents * (m.IncidentShape > 0 ? MathNet.Numerics.Distributions.Gamma.Sample(random, m.IncidentShape, m.IncidentShape) : 1);
        for (int k = MathNet.Numerics.Distributions.Poisson.Sample(random, Math.Max(rate, 1e-12)); k > 0; k--)
        {
            double where = random.NextDouble();
            trouble[Array.FindIndex(m.LegEndShare, e => where < e || e >= 1 - 1e-9)] += -Math.Log(1 - random.NextDouble()) * m.IncidentMeanSec;
        }

        double now = 0, hand = m.StartWaterL, eaten = 0, dark = 0;
        shortL = 0;
        for (int j = 0; j < m.Sections; j++)
        {
            bool night = m.DarkSec.Count(t => t <= now) % 2 == 1;
            double load = hand + (m.FoodKcal > 0 ? m.FoodKg * (1 - (eaten / m.FoodKcal)) : 0);
            double ride = m.LightSec[j] + ((m.LadenSec[j] - m.LightSec[j]) / m.ReferenceKg * load);
            ride *= day * ground[m.Class[j]] * legs[m.Leg[j]] * (night ? m.DarkFactor[j] : 1) * (m.WindMoreLog.Length == 0 ? 1 : Math.Exp(blow > 0 ? blow * m.WindMoreLog[j] : -blow * m.WindLessLog[j]));
            double pause = ride * m.StopShare * stops;
            if (j == 0 || m.Leg[j] != m.Leg[j - 1])
            {
                pause += trouble[m.Leg[j]];
            }

            double hour = Math.Clamp((now + (ride / 2) - m.GridFromSec) / m.GridStepSec, 0, m.GridCount - 1);
            double At(double[] table, int row)
            {
                int a = Math.Min((int)hour, m.GridCount - 2);
                return (table[(row * m.GridCount) + a] * (a + 1 - hour)) + (table[(row * m.GridCount) + a + 1] * (hour - a));
            }

            double cloud = At(m.CloudFraction, 0), clouded = Math.Min(1, Math.Max(0, cloud + (sky * At(m.CloudSigma, 0))));
            double perHour = At(m.SweatLph, j) + ((At(m.SweatWarmLph, j) - At(m.SweatLph, j)) / m.WarmerK * air * At(m.TemperatureSigmaGridK, 0)) + (At(m.SweatCloudLph, j) * (clouded - cloud));
            double sweat = Math.Max(0, perHour + (thirst * At(thirst > 0 ? m.SweatAboveLph : m.SweatBelowLph, j))) * (ride + (m.RestSweatShare * pause)) / 3600;
            double wanted = Math.Min(m.IntakeShare * sweat, m.IntakeCapLph * (ride + pause) / 3600), had = Math.Min(hand, wanted);
            shortL += wanted - had;
            hand -= had;
            eaten = Math.Min(m.FoodKcal, eaten + (m.EatKcalPerHour * (ride + pause) / 3600));
            now += ride + pause;
            dark += night ? ride + pause : 0;
            if (m.StationAt[j] >= 0)
            {
                int station = m.StationAt[j];
                if (station == m.Stations - 1)
                {
                    break;
                }

                double wait = m.StationStopSec[station];
                if (m.SourceAt[station] is var source and >= 0 && wet[m.SourceOf[source]])
                {
                    double taken = Math.Max(0, m.FillToL[source] - hand);
                    wait += taken * m.TreatSecPerL[source];
                    hand += taken;
                }

                now += wait;
                dark += night ? wait : 0;
            }
        }

        finishSec = now;
        lampLeftSec = lamp - dark;

        double Normal() => MathNet.Numerics.Distributions.Normal.Sample(random, 0, 1);
    }

    /// <summary>Stated chances in bands against what happened.</summary>
    private sealed class Bins
    {
        private static readonly double[] Ends = [0.02, 0.1, 0.3, 0.7, 0.9, 0.98, 1.01];
        private readonly int[] _rides = new int[Ends.Length];
        private readonly double[] _stated = new double[Ends.Length];
        private readonly int[] _happened = new int[Ends.Length];

        public void Add((double Stated, bool Is) one)
        {
            int b = Array.FindIndex(Ends, e => one.Stated < e);
            _rides[b]++;
            _stated[b] += one.Stated;
            _happened[b] += one.Is ? 1 : 0;
        }

        /// <summary>Prints and gives the worst gap of the bands with at least 1 000 rides, and of all rides together.</summary>
        public double Print(string what)
        {
            double worst = Row("all", _rides.Sum(), _stated.Sum(), _happened.Sum());
            for (int b = 0; b < Ends.Length; b++)
            {
                string band = string.Create(CultureInfo.InvariantCulture, $"{(b == 0 ? 0 : 100 * Ends[b - 1]):F0} to {Math.Min(100, 100 * Ends[b]):F0} %");
                double gap = _rides[b] == 0 ? 0 : Row(band, _rides[b], _stated[b], _happened[b]);
                worst = _rides[b] >= 1000 ? Math.Max(worst, gap) : worst;
            }

            return worst;

            double Row(string band, int rides, double stated, int happened)
            {
                double gap = (happened - stated) / rides;
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"| {what}, stated {band} | {rides} | {happened} | {100.0 * happened / rides:F2} % for {100 * stated / rides:F2} % | {100 * gap:+0.00;-0.00} |"));
                return Math.Abs(gap);
            }
        }
    }
}
