using BenchmarkDotNet.Attributes;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Benchmarks;

/// <summary>The whole plan of a 50 km route at 25 m steps: typical only, and with samples; a fixed loop of sines beside it tells the machine.</summary>
[MemoryDiagnoser]
public class PlanningBenchmarks
{
    private RideRequest _request = null!;

    [Params(0, 2000, 10000)]
    public int Samples { get; set; }

    [GlobalSetup]
    public void Setup() => _request = Request(Samples);

    /// <summary>A 50 km route with a doubtful spring and one way out.</summary>
    internal static RideRequest Request(int samples, int km = 50)
    {
        int n = km * 40;
        RideRoute route = RideRoute.FromPoints(Enumerable.Range(0, n + 1).Select(i => new GeoPoint(38 + (i * 25 / 111_000.0), -109, 1500 + (120 * Math.Sin(i / 40.0)))), "50 km");
        var start = new DateTimeOffset(2027, 6, 14, 7, 0, 0, TimeSpan.FromHours(-6));
        return new RideRequest
        {
            Route = route,
            Start = start,
            Zone = ZoneOffsets.Fixed(-6),
            Rider = new Rider { Mass = Mass.FromKilograms(76), SustainedPower = Power.FromWatts(165) },
            Load = new Load { WaterCapacity = Volume.FromLiters(5) },
            Weather = new Forecast([new ForecastPlace("b", null, Enumerable.Range(0, 49).Select(h => new ForecastHour(start.AddHours(h - 7), new Weather { AirTempC = 20 + (8 * Math.Sin(h / 4.0)), RelHumidityPct = 40, WindMps = 3, WindFromDeg = 220, GustMps = 5, CloudPct = 20 })))]),
            Sources = [new WaterSource { Name = "spring", AlongRoute = Length.FromKilometers(26), WetProbability = 0.6 }],
            Exits = [new ExitPoint { Name = "road", AlongRoute = Length.FromKilometers(33) }],
            Options = new PlanOptions { Samples = samples },
        };
    }

    [Benchmark]
    public RidePlan Plan() => RidePlanner.Plan(_request);

    [Benchmark(Baseline = true)]
    public double MillionSines() => Sines();

    internal static double Sines()
    {
        double sum = 0;
        for (int i = 0; i < 1_000_000; i++)
        {
            sum += Math.Sin(i);
        }

        return sum;
    }
}
