using SoloRide.Accuracy;
using SoloRide.Batteries;
using SoloRide.Kit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Each thing that is said to be drawn moves its numbers; shares of variance, convergence and the worth of what is missing.</summary>
public sealed class UncertaintyTests
{
    [Fact]
    public void Run_EachDraw_MovesItsNumber()
    {
        RideRequest request = LedgerTests.Request("S01", 0);
        SimulationInput full = Input(request);
        SimulationInput still = full with
        {
            SharedSigma = 0, ClassSigma = new double[full.ClassSigma.Length], LegSigma = new double[full.LegSigma.Length], StopSigma = 0, SweatAboveLph = new double[full.SweatAboveLph.Length], SweatBelowLph = new double[full.SweatBelowLph.Length], SodiumSigma = 0,
            TemperatureSigmaK = 0, TemperatureSigmaGridK = [], CloudSigma = new double[full.CloudSigma.Length], Incidents = 0, WetProbability = [.. full.WetProbability.Select(_ => 1.0)],
            WindMoreLog = [], WindLessLog = [],
        };
        Assert.Equal(0, Spread(Run(still).FinishSec), 1e-9);
        Assert.Equal(0, Spread(Run(still).SweatL), 1e-9);
        Assert.True(Spread(Run(still with { SharedSigma = full.SharedSigma }).FinishSec) > 600);
        Assert.True(Spread(Run(still with { ClassSigma = full.ClassSigma }).FinishSec) > 60);
        Assert.True(Spread(Run(still with { LegSigma = full.LegSigma }).FinishSec) > 10);
        Assert.True(Spread(Run(still with { StopSigma = full.StopSigma }).FinishSec) > 60);
        Assert.True(Spread(Run(still with { WindMoreLog = full.WindMoreLog, WindLessLog = full.WindLessLog }).FinishSec) > 30);
        Assert.True(Spread(Run(still with { Incidents = full.Incidents }).FinishSec) > 60);
        Assert.True(Spread(Run(still with { TemperatureSigmaK = full.TemperatureSigmaK, TemperatureSigmaGridK = full.TemperatureSigmaGridK }).SweatL) > 0.05);
        Assert.True(Spread(Run(still with { CloudSigma = full.CloudSigma }).SweatL) > 0.01);
        Assert.True(Spread(Run(still with { SweatAboveLph = full.SweatAboveLph, SweatBelowLph = full.SweatBelowLph }).SweatL) > 0.2);
        Assert.True(Spread(Run(still with { SodiumSigma = full.SodiumSigma }).SodiumMg) > 100);
        Assert.True(Spread(Run(still with { WetProbability = full.WetProbability, StartWaterL = 1, FillToL = [.. full.FillToL.Select(_ => 4.0)] }).ShortWaterL) > 0.02);
        Assert.True(Spread(Run(still with { LampSec = 7200, LampSigma = 0.2 }).LampLeftSec) > 600);
    }

    [Fact]
    public void Weather_OlderForecast_IsWider()
    {
        RideRequest request = Rides.Request(samples: 0);
        double Sigma(double days) => new WeatherAlong(request with { PreparedAt = request.Start.AddDays(-days), Weather = request.Weather }).TemperatureSigmaAtK(request.Start);
        Assert.Equal(1.5625, Sigma(0.5), 1e-12);
        Assert.True(Sigma(3) > Sigma(1));

        // About doubled by the sixth day [forecast-error].
        Assert.Equal(2 * Sigma(1), Sigma(6), 0.01);
        Assert.Equal(Sigma(11), Sigma(30), 1e-12);
        var along = new WeatherAlong(request with { PreparedAt = request.Start.AddDays(-2) });
        Assert.True(along.TemperatureSigmaAtK(request.Start.AddHours(10)) > along.TemperatureSigmaAtK(request.Start));
        Assert.True(along.CloudSigmaAt(request.Start.AddDays(3)) > along.CloudSigmaAt(request.Start));
    }

    [Fact]
    public void Weather_Windier_IsAnErrorAlongTheForecastDirection()
    {
        RideRequest request = Rides.Request(samples: 0);
        var along = new WeatherAlong(request);
        DateTimeOffset at = request.Start;

        // 2 m/s at the forecast's height on the first day, half of it behind the shelter of the trail.
        Assert.Equal(1, along.WindSigmaAtMps(at), 1e-9);
        Weather w = new() { WindMps = 1.5, WindFromDeg = 200, AirTempC = 20 };
        Assert.Equal((2.5, 200.0), (along.Windier(w, at, 1).WindMps, along.Windier(w, at, 1).WindFromDeg));
        Weather turned = along.Windier(w, at, -2);
        Assert.Equal(0.5, turned.WindMps, 1e-9);
        Assert.Equal(20, turned.WindFromDeg, 1e-9);
        Assert.Equal(w with { WindFromDeg = double.NaN }, along.Windier(w with { WindFromDeg = double.NaN }, at, 1));
        Assert.Equal(w, new WeatherAlong(request with { Weather = null }).Windier(w, at, 1));
    }

    [Fact]
    public void Wind_AgainstAndBehind_MovesTheArrivalAsThePaceModelDoes_AndIsNamedAmongTheDrivers()
    {
        // Due north, wind from the south, then from the north: stronger helps, then hinders.
        static RideRequest From(double deg, double mps) => Rides.Request(Rides.Line(20, 10), samples: 1024) with
        {
            Weather = new Forecast([new ForecastPlace("w", null, Enumerable.Range(0, 60).Select(h => new ForecastHour(Rides.Start.AddHours(h - 12), new Weather { AirTempC = 18, RelHumidityPct = 50, WindMps = mps, WindFromDeg = deg, CloudPct = 50 })))]),
        };
        SimulationInput tail = Input(From(180, 4)), head = Input(From(0, 4));
        Assert.All(tail.WindMoreLog, x => Assert.True(x <= 1e-9));
        Assert.All(head.WindMoreLog, x => Assert.True(x >= -1e-9));

        // One standard deviation is 2 m/s in the forecast: the ride planned in that wind takes the time that the factor says.
        double typical = head.LightSec.Sum(), more = head.LightSec.Zip(head.WindMoreLog, (t, x) => t * Math.Exp(x)).Sum();
        Assert.Equal(Input(From(0, 6)).LightSec.Sum(), more, 1e-3 * typical);
        RidePlan plan = RidePlanner.Plan(From(0, 4));
        Assert.Contains(plan.Drivers, d => d.Name == "wind" && d.ShareFraction > 0.01);
        Assert.DoesNotContain(RidePlanner.Plan(From(0, 4) with { Weather = null }).Drivers, d => d.Name == "wind");

        // The typical run does not move.
        Assert.Equal(Middle(head), Middle(head with { WindMoreLog = [], WindLessLog = [] }), 1e-9);
        static double Middle(SimulationInput input) => SimulationKernel.Middle(input, _ => true).FinishSec[0];
    }

    /// <summary>Compound Poisson with a gamma rate: mean and variance of the total in closed form (textbook).</summary>
    [Theory]
    [InlineData(0)]
    [InlineData(0.8)]
    [InlineData(6.5)]
    public void Run_Incidents_HaveTheMeanAndVarianceOfTheCompound(double shape)
    {
        SimulationInput input = PlanningTables.Plain([600, 1200, 900], 0, 0, 0, 0.7, 1500) with { IncidentShape = shape };
        double[] t = SimulationKernel.Run(input, 60_000, 3, 1, default).FinishSec;
        double mean = t.Average() - 2700, variance = t.Select(x => (x - 2700 - mean) * (x - 2700 - mean)).Average();
        double expected = (0.7 * 2 * 1500 * 1500) + (shape > 0 ? 0.7 * 0.7 / shape * 1500 * 1500 : 0);

        // Four standard errors of 60,000 draws.
        Assert.Equal(0.7 * 1500, mean, 4 * Math.Sqrt(expected / 60_000));
        Assert.Equal(1, variance / expected, 0.12);
    }

    /// <summary>T = F (sum of e_i m_i) + stop + incidents: shares of variance in closed form.</summary>
    [Fact]
    public void Drivers_ArrivalFixture_AreTheClosedForm()
    {
        SimulationInput input = PlanningTables.Fixture(true);
        SimulationResult result = SimulationKernel.Run(input, 20_000, 1, 1, default);
        var spread = ArrivalSpread.Of(input, SimulationKernel.Middle(input, _ => true), new PlanOptions { Samples = 20_000 }, default);
        double a = Math.Exp(0.15 * 0.15), b = Math.Exp(0.10 * 0.10);
        double meanF = Math.Sqrt(a), varF = a * (a - 1), meanE = Math.Sqrt(b), varE = b * (b - 1);
        double sum = 320 * meanE, sumVar = new[] { 50.0, 40, 70, 60, 45, 55 }.Sum(m => m * m) * varE, incidents = 0.3 * 2 * 20 * 20;
        double all = (varF * sum * sum) + (meanF * meanF * sumVar) + (varF * sumVar) + incidents;
        Dictionary<string, double> shares = spread.Drivers(1).ToDictionary(d => d.Name, d => d.ShareFraction);
        Assert.Equal(varF * sum * sum / all, shares["rider and day"], 0.02);
        Assert.Equal(meanF * meanF * sumVar / all, shares["single legs"], 0.02);
        Assert.Equal(incidents / all, shares["incidents"], 0.02);
        Assert.DoesNotContain("sweat", shares.Keys);
        Assert.Equal(20_000, result.Samples);
    }

    [Fact]
    public void Plan_RouteAndStartAlone_SaysWhatStandsInAndWhatKnowingItIsWorth()
    {
        RidePlan plan = RidePlanner.Plan(new RideRequest { Route = Rides.Line(), Start = Rides.Start, Options = new PlanOptions { Samples = 512 } });
        Assert.NotEqual(PlanVerdictKind.Refused, plan.Verdict.Kind);
        string[] names = [.. plan.Missing.Select(m => m.Name)];
        foreach (string name in new[] { "sustained effort", "own timed rides", "forecast", "body mass", "weighed rides", "sodium of sweat", "log of breakdowns", "sources of water", "ways out", "lamps and devices", "clothing for a wait", "zone", "instant of preparation", "skyline or terrain" })
        {
            Assert.Contains(name, names);
        }

        Assert.All(plan.Missing, m => Assert.True(m.StandIn.Length > 0 && m.Effect.Length > 0));
        MissingInput effort = plan.Missing.Single(m => m.Name == "sustained effort"), forecast = plan.Missing.Single(m => m.Name == "forecast");
        Assert.Equal("finish", effort.Outcome);
        Assert.InRange(effort.ShareFraction, 0.2, 0.95);
        Assert.InRange(forecast.ShareFraction, 0.01, 0.95);
        Assert.Equal(plan.Missing.OrderByDescending(m => double.IsNaN(m.ShareFraction) ? -1 : m.ShareFraction).Select(m => m.Name), names);
    }

    /// <summary>The promise is kept: with the input known the variance falls by about the share that was named.</summary>
    [Fact]
    public void Missing_Effort_KnowingItNarrowsTheFinishByTheShare()
    {
        RideRequest unknown = Rides.Request(samples: 4000) with { Rider = new Rider { Mass = Mass.FromKilograms(75) }, Sources = [] };
        RidePlan before = RidePlanner.Plan(unknown);
        double share = before.Missing.Single(m => m.Name == "sustained effort").ShareFraction;
        RidePlan after = RidePlanner.Plan(unknown with { Rider = unknown.Rider with { ClimbingRate = Speed.FromMetersPerSecond(0.2) } });
        double was = LogWidth(before), now = LogWidth(after);
        Assert.Equal(1 - share, now * now / (was * was), 0.12);
        Assert.DoesNotContain(after.Missing, m => m.Name == "sustained effort");

        static double LogWidth(RidePlan p) => Math.Log((p.Finish!.High - p.Start) / (p.Finish.Low - p.Start));
    }

    [Fact]
    public void Convergence_MoreSamples_IsReportedSmaller()
    {
        RideRequest request = Rides.Request();
        SampleConvergence Of(int samples) => RidePlanner.Plan(request with { Options = request.Options with { Samples = samples } }).Convergence!;
        SampleConvergence few = Of(256), many = Of(8192);
        Assert.True(many.FinishHigh < few.FinishHigh / 2, $"{few.FinishHigh} {many.FinishHigh}");
        Assert.True(many.FinishHigh < TimeSpan.FromMinutes(1.5));
        Assert.Null(RidePlanner.Plan(request with { Options = request.Options with { Samples = 100 } }).Convergence);

        // The stated error is no fiction: two seeds differ by no more than five of them.
        double a = Finish(1), b = Finish(99), error = Of(2048).FinishHigh.TotalSeconds;
        Assert.True(Math.Abs(a - b) < 5 * Math.Sqrt(2) * error, $"{a} {b} {error}");

        double Finish(ulong seed) => (RidePlanner.Plan(request with { Options = request.Options with { Samples = 2048, Seed = seed } }).Finish!.High - request.Start).TotalSeconds;
    }

    [Fact]
    public void Run_MoreSamples_AllocatesOnlyTheResult()
    {
        SimulationInput input = Input(LedgerTests.Request("S01", 0));
        SimulationKernel.Run(input, 64, 1, 1, default);
        long Bytes(int samples)
        {
            long before = GC.GetAllocatedBytesForCurrentThread();
            SimulationKernel.Run(input, samples, 1, 1, default);
            return GC.GetAllocatedBytesForCurrentThread() - before;
        }

        // Per sample: two numbers a station, thirteen totals, eleven draws of eight bytes each, and nothing else.
        long more = Bytes(4096) - Bytes(1024), arrays = 3072L * 8 * ((2 * input.Stations) + 13 + SimulationKernel.NamedDraws);
        Assert.InRange(more, arrays - 4096, arrays + 4096);
    }

    private static SimulationInput Input(RideRequest request)
    {
        var findings = new List<Finding>();
        var model = new RideModel(request, RideCourse.Of(request, null, findings)!, request.Start, ZoneOffsets.Fixed(request.Start.Offset), null, findings, default);
        WaterPlan water = WaterPlan.Of(model, default);
        return model.WithWater(water.StartL, water.FillToL, water.TreatSecPerL);
    }

    private static SimulationResult Run(SimulationInput input) => SimulationKernel.Run(input, 512, 5, 1, default);

    private static double Spread(double[] values)
    {
        double mean = values.Average();
        return Math.Sqrt(values.Sum(v => (v - mean) * (v - mean)) / values.Length);
    }
}
