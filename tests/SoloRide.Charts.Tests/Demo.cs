using SoloRide.Batteries;
using SoloRide.Effort;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Charts.Tests;

/// <summary>One invented ride with all that the pictures can show, planned once.</summary>
internal static class Demo
{
    public static readonly RideRequest Request = MakeRequest();
    private static readonly Lazy<RidePlan> LazyPlan = new(() => RidePlanner.Plan(Request));
    private static readonly Lazy<PictureExtras> LazyExtras = new(MakeExtras);

    public static RidePlan Plan => LazyPlan.Value;

    public static PictureExtras Extras => LazyExtras.Value;

    /// <summary>A wall in the west of level ground.</summary>
    private static TerrainModel Wall()
    {
        const int n = 60;
        var heights = new double[n * n];
        for (int i = 0; i < heights.Length; i++)
        {
            heights[i] = i % n < 6 ? 4500 : 1000;
        }

        return TerrainModel.FromGrid(new GeoPoint(38.05, -109.70), 0.01, n, heights);
    }

    private static RideRequest MakeRequest()
    {
        string data = Repo.File("docs", "examples", "data");
        RideRoute route = RideRoute.Read(Path.Combine(data, "s01-dry-creek-loop.gpx"));
        return RideRequest.For(route, new DateTimeOffset(2025, 6, 14, 14, 30, 0, TimeSpan.FromHours(-6))) with
        {
            Zone = ZoneOffsets.Fixed(-6),
            Weather = Forecast.Read(Path.Combine(data, "s01-dry-creek-loop.forecast.csv")),
            Rider = new Rider { Mass = Mass.FromKilograms(82), SustainedPower = Power.FromWatts(165) },
            Load = new Load { WaterCapacity = Volume.FromLiters(6.5) },
            Sources = [new WaterSource { Name = "Dry Creek", AlongRoute = Length.FromKilometers(31), WetProbability = 0.95 }],
            Devices =
            [
                new Device("head lamp", DeviceKind.HeadLamp, CellPack.LithiumIon(3200), DeviceMode.Lit("trail", new LampOutput(400, 6000), 4.5)),
                new Device("phone", DeviceKind.Phone, CellPack.LithiumIon(4000, 3.85), DeviceMode.Of("map", ModeUse.Navigating, 0.8, 1.5, 2.5)),
            ],
            Options = PlanOptions.Default with { Samples = 100 },
        };
    }

    private static PictureExtras MakeExtras()
    {
        PaceModel before = PaceModel.For(Request.Rider, Request.Bike, Request.Load, Request.Pace);
        TrailStep[] steps = [.. ElevationProfile.Of(Request.Route).Steps(Length.FromMeters(200))];
        TimedLeg[] legs =
        [
            .. Enumerable.Range(0, 12).Select(i =>
            {
                TrailStep[] part = [.. steps.Skip(i * 15).Take(15)];
                return new TimedLeg($"ride {i / 3}", part, before.Along(part).Moving.Typical * (1.15 + (0.02 * (i % 4))));
            }),
        ];
        PaceModel after = PaceModel.For(Request.Rider, Request.Bike, Request.Load, Request.Pace with { Calibration = PaceCalibration.From(before, legs) });
        return new PictureExtras
        {
            Terrain = Wall(),
            Starts = RidePlanner.SweepStarts(Request, Request.Start.AddHours(-4), Request.Start, TimeSpan.FromHours(1)),
            Rides = new RideHistory(before, after, legs),
        };
    }
}
