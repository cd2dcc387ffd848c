using SoloRide.Batteries;
using SoloRide.Effort;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Flat route, constant weather, one device, one source: every number by hand. Written out in docs/modules/planning.md.</summary>
public sealed class ClosedFormTests
{
    private const double Tolerance = 1e-6;
    private const double SpeedMps = 4, StopShare = 6 / 60.0, SweatLph = 0.6, SodiumMmolPerL = 40, MassKg = 75, LampW = 0.5;

    private static readonly DateTimeOffset Start = new(2026, 12, 21, 10, 0, 0, TimeSpan.FromHours(1));

    /// <summary>A level line to the east in the north, at a time of day between civil dawn and dusk with the Sun below the horizon: no sun, no dark, no shade.</summary>
    private static RideRequest Request()
    {
        RideRoute route = RideRoute.FromPoints(Enumerable.Range(0, 401).Select(i => new GeoPoint(69.65, 19 + (i * 50 / 38_700.0), 0)), "Level");

        // The source stands where a step ends, about half way: stations lie on the ends of steps.
        TrailStep[] steps = [.. ElevationProfile.Of(route).Steps(Length.FromMeters(25))];
        double half = steps.Take(steps.Length / 2).Sum(x => x.LengthM);
        return new RideRequest
        {
            Route = route,
            Start = Start,
            PreparedAt = Start.AddHours(-1),
            Zone = ZoneOffsets.Fixed(1),
            Rider = new Rider
            {
                Mass = Mass.FromKilograms(MassKg), Height = Length.FromCentimeters(178), SustainedPower = Power.FromWatts(300),
                SweatRate = VolumeFlow.FromLitersPerHour(SweatLph), SweatSodiumMmolPerL = SodiumMmolPerL,
            },
            Pace = new PaceOptions
            {
                Spread = new PaceSpread { RideGsdFactor = 1, SurfaceGsdFactor = 1, HundredMetreGsdFactor = 1, FootGsdFactor = 1 },
                Stops = new StopHabit { MinutesPerHour = 60 * StopShare, GsdFactor = 1 },
                TechnicalCaps = new Dictionary<TrailDifficulty, TechnicalCap>
                {
                    [TrailDifficulty.Unknown] = new TechnicalCap(Speed.FromMetersPerSecond(SpeedMps), Speed.FromMetersPerSecond(SpeedMps), 1, 1),
                },
            },
            Load = new Load { WaterCapacity = Volume.FromLiters(1) },
            Weather = new Forecast([new ForecastPlace("level", null, Enumerable.Range(-6, 40).Select(h => new ForecastHour(
                Start.AddHours(h), new Weather { AirTempC = 25, RelHumidityPct = 50, WindMps = 0, WindFromDeg = 0, GustMps = 0, CloudPct = 0, PrecipMm = 0, ThunderPct = 0 })))]),
            Sources = [new WaterSource { Name = "Tap", AlongRoute = Length.FromMeters(half), WetProbability = 1, NeedsTreatment = false }],
            Devices = [new Device("recorder", DeviceKind.Other, CellPack.LithiumIon(2000, 3.7), DeviceMode.Of("on", ModeUse.Tracking, LampW, LampW, LampW)) { Carried = CarryPlace.Exposed }],
            Options = new PlanOptions { Samples = 0 },
        };
    }

    [Fact]
    public void Plan_LevelLine_IsTheHandCalculation()
    {
        RideRequest request = Request();
        RidePlan plan = RidePlanner.Plan(request);
        double lengthM = request.Route.Length.Meters;

        // Time: capped at 4 m/s, 6 min of stops an hour of moving.
        double moving = lengthM / SpeedMps, elapsed = moving * (1 + StopShare);
        Near(moving, plan.Moving!.Typical.TotalSeconds);
        Near(elapsed, (plan.Finish!.Typical - Start).TotalSeconds);
        Assert.Equal(plan.Finish.Low, plan.Finish.High);
        Assert.Equal(TimeSpan.Zero, plan.Dark!.High);

        // Sweat: 0.6 L an hour in motion, 0.4 of that at rest. Drink: 0.8 of it.
        double sweat = SweatLph * ((moving + (0.4 * moving * StopShare)) / 3600), drink = 0.8 * sweat;
        Near(sweat, plan.Needs!.Sweat.Typical.Liters);
        Near(drink, plan.Needs.Drink.Typical.Liters);
        Near(sweat * SodiumMmolPerL * 22.98977, plan.Needs.Sodium.Typical.Milligrams);

        // Water: the own rate is 25 % up or down at P90, so the drink of each part times 1.25, and the reserve of 0.3 L.
        PlanStation tap = plan.Stations.Single(s => s.Kind == StationKind.Water);
        double first = tap.AlongRoute.Meters / lengthM, k = 1.25;
        double leave = (first * drink * k) + 0.3, fill = ((1 - first) * drink * k) + 0.3;
        Near(leave, plan.Needs.Fills[0].FillTo.Liters);
        Near(fill, plan.Needs.Fills[1].FillTo.Liters);
        Near(leave - (first * drink), tap.WaterInHand.Typical.Liters);
        Near(fill - ((1 - first) * drink), plan.Stations[^1].WaterInHand.Typical.Liters);

        // Power at 4 m/s on the level in air of 25 C at sea level: air, bearings, rolling of rider, bike and load; drive 0.95; body 0.198.
        double density = 101_325 / (8.314462618 / 0.0289644 * 298.15);
        double newton = (0.5 * density * (0.50 + 0.0044) * SpeedMps * SpeedMps) + (0.0087 * SpeedMps) + 0.091 + ((MassKg + 14 + 4) * 9.80665 * 0.024);
        double metabolic = newton * SpeedMps / 0.95 / 0.198, rest = 1.5 * 4184 / 3600 * MassKg;
        Near(((metabolic * moving) + (rest * moving * StopShare)) / 4184, plan.Needs.Energy.Typical.Kilocalories);

        // Charge: half a watt for all the time out of 2 Ah at 3.7 V, of which a new pack at 25 C gives its typical share.
        double wattHours = request.Devices[0].Pack.UsableEnergy(Temperature.FromDegreesCelsius(25), Power.FromWatts(LampW), 1, TimeSpan.Zero).Typical.WattHours;
        Near(100 * (1 - (LampW * elapsed / 3600 / wattHours)), plan.Stations[^1].Charge[0].Left.Percent);
        Near(100 * (1 - (LampW * elapsed * first / 3600 / wattHours)), tap.Charge[0].Left.Percent);
    }

    [Fact]
    public void Plan_LevelLine_LightMarginIsDuskLessRideLessReserve()
    {
        RideRequest request = Request();
        RidePlan plan = RidePlanner.Plan(request);
        DateTimeOffset dusk = SoloRide.Daylight.SolarDay.On(new DateOnly(2026, 12, 21), request.Route.Points[^1].Place, ZoneOffsets.Fixed(1)).CivilDusk.At!.Value;
        PlanMargin light = plan.Margins.Single(m => m.Kind == MarginKind.Daylight);
        double elapsed = request.Route.Length.Meters / SpeedMps * (1 + StopShare);
        Assert.Equal((dusk - Start).TotalSeconds - elapsed - 1800, light.Time!.Value.TotalSeconds, 1e-3);
        Assert.Equal(dusk.AddSeconds(-elapsed - 1800), plan.LatestStart!.Value, TimeSpan.FromMilliseconds(1));
    }

    private static void Near(double expected, double actual) => Assert.True(Math.Abs(expected - actual) <= Tolerance * Math.Max(1, Math.Abs(expected)), $"{expected:R} by hand, {actual:R} planned");
}
