using BenchmarkDotNet.Attributes;
using SoloRide.Batteries;
using SoloRide.Charts;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Benchmarks;

/// <summary>One picture each, 1200 by 700, warm: what a page waits for.</summary>
[MemoryDiagnoser]
public class ChartsBenchmarks
{
    private PictureSet _set = null!;

    [Params("profile", "map", "body", "charge", "starts", "daylight")]
    public string Name { get; set; } = "";

    [GlobalSetup]
    public void Setup()
    {
        RideRoute route = RideRoute.FromPoints(Enumerable.Range(0, 2000).Select(i => new GeoPoint(38 + (0.1 * Math.Sin(i / 320.0)), -109 + (0.1 * Math.Cos(i / 320.0)), 1500 + (200 * Math.Sin(i / 60.0)))), "Bench");
        RideRequest request = RideRequest.For(route, new DateTimeOffset(2025, 6, 14, 6, 0, 0, TimeSpan.FromHours(-6))) with
        {
            Devices = [new Device("phone", DeviceKind.Phone, CellPack.LithiumIon(4000, 3.85), DeviceMode.Of("map", ModeUse.Navigating, 0.8, 1.5, 2.5))],
            Load = new Load { WaterCapacity = Volume.FromLiters(6) },
            Options = PlanOptions.Default with { Samples = 100 },
        };
        _set = RidePictures.Of(RidePlanner.Plan(request), new PictureExtras { Starts = RidePlanner.SweepStarts(request, request.Start, request.Start.AddHours(4), TimeSpan.FromMinutes(30)) });
    }

    [Benchmark(Baseline = true)]
    public byte[] Png() => _set.Find(Name)!.ToPng();

    [Benchmark]
    public string Svg() => _set.Find(Name)!.ToSvg();
}
