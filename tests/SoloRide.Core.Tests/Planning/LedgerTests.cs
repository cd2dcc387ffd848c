using SoloRide.Batteries;
using SoloRide.Demo;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Mass, water, sodium, energy and charge close over every demo ride, in the typical run and in samples with every draw at work.</summary>
public sealed class LedgerTests
{
    private const double Closed = 1e-9;

    public static TheoryData<string> Rides => [.. DemoGenerator.All.Select(r => r.Id)];

    internal static RideRequest Request(string id, int samples)
    {
        DemoRide ride = DemoGenerator.All.Single(r => r.Id == id);
        string file = Repo.File("docs", "examples", "data", DemoGenerator.FileName(ride));
        var start = new DateTimeOffset(ride.Start, TimeSpan.FromHours(ride.OffsetHours));
        RideRequest made = RideRequest.For(RideRoute.Read(file + ".gpx"), start);
        double km = made.Route.Length.Kilometers;
        return made with
        {
            PreparedAt = start.AddHours(-12),
            Weather = Forecast.Read(file + ".forecast.csv"),
            Rider = new Rider { Mass = Mass.FromKilograms(72), Height = Length.FromCentimeters(175), SustainedPower = Power.FromWatts(150) },
            Load = new Load { WaterCapacity = Volume.FromLiters(4) },
            Sources =
            [
                .. made.Sources.Select(s => s with { WetProbability = 0.7 }),
                new WaterSource { Name = "Ledger Spring", AlongRoute = Length.FromKilometers(km * 0.37), WetProbability = 0.6 },
                new WaterSource { Name = "Ledger Tank", AlongRoute = Length.FromKilometers(km * 0.71), WetProbability = 1 },
            ],
            Devices =
            [
                Device.Phone("phone", 4000),
                Device.Lamp("lamp", DeviceKind.HeadLamp, CellPack.LithiumIon(3000), DeviceMode.Of("middle", ModeUse.Lighting, 3, 3.2, 3.6)),
            ],
            FailureRates = new Dictionary<SoloRide.Kit.FailureKind, SoloRide.Kit.FailureRate> { [SoloRide.Kit.FailureKind.TubePuncture] = new(6.5, Length.FromKilometers(700)) },
            Options = new PlanOptions { Samples = samples },
        };
    }

    [Theory]
    [MemberData(nameof(Rides))]
    public void Course_EveryDemoRide_LedgersClose(string id)
    {
        RideRequest request = Request(id, 16);
        RideModel model = Model(request);
        WaterPlan water = WaterPlan.Of(model, default);
        SimulationInput input = model.WithWater(water.StartL, water.FillToL, water.TreatSecPerL);
        var middle = new SectionTrace(input.Sections);
        Check(input, middle, SimulationKernel.Middle(input, _ => true, middle), 1);
        int n = 0;
        SimulationResult all = SimulationKernel.Run(input, 16, request.Options.Seed, 1, default);
        SimulationKernel.Courses(input, 16, request.Options.Seed, (course, _) => Check(input, course, One(all, n++), double.NaN), default);
        Assert.Equal(16, n);
    }

    /// <summary>The same accounts on the very request of each scenario, with its own gear, water and group of inputs.</summary>
    [Theory]
    [MemberData(nameof(Rides))]
    public void Course_EveryScenario_LedgersClose(string id)
    {
        RideRequest request = Scenarios.Of(id, Repo.File("docs", "examples", "data")).Request;
        RideModel model = Model(request);
        WaterPlan water = WaterPlan.Of(model, default);
        SimulationInput input = model.WithWater(water.StartL, water.FillToL, water.TreatSecPerL);
        var middle = new SectionTrace(input.Sections);
        Check(input, middle, SimulationKernel.Middle(input, _ => true, middle), 1);
        int n = 0;
        SimulationResult all = SimulationKernel.Run(input, 8, request.Options.Seed, 1, default);
        SimulationKernel.Courses(input, 8, request.Options.Seed, (course, _) => Check(input, course, One(all, n++), double.NaN), default);
        Assert.Equal(8, n);
    }

    /// <summary>
    /// Charge in changing temperature. Two accounts: the store (share of the full pack) changes by what is drawn and what flows in and by nothing else, not by the cold;
    /// at the terminals, while a device works, draw times time is what its circuits asked for. The cold only sets how much of the store a watt-hour at the terminals
    /// costs, and what stays behind the cut-off.
    /// </summary>
    [Theory]
    [MemberData(nameof(Rides))]
    public void Charge_EveryScenario_StoreAndTerminalsClose(string id)
    {
        RideRequest request = Scenarios.Of(id, Repo.File("docs", "examples", "data")).Request;
        request = request with
        {
            Options = request.Options with { Samples = 0 },
            Bank = null,
            Devices = request.Devices.Count > 0 ? request.Devices : [Device.Phone("phone", 4000), Device.Lamp("lamp", DeviceKind.HeadLamp, CellPack.LithiumIon(3000), DeviceMode.Of("middle", ModeUse.Lighting, 3, 3.2, 3.6))],
        };
        var findings = new List<Finding>();
        RideCourse course = RideCourse.Of(request, null, findings)!;
        ZoneOffsets zone = request.Zone ?? ZoneOffsets.Fixed(request.Start.Offset);
        var builder = new PlanBuilder(request, course, zone, findings, default, sun: SunAlong.Of(request, course, null));
        PowerRequest asked = builder.PowerAsked();
        RidePlan plan = RidePlanner.Plan(request);
        PowerScenario scenario = PowerScenario.Of(asked.Devices);
        PowerCourse power = PowerCourse.Of(asked.Devices, asked.Timeline, asked.UnplannedNight);
        int count = asked.Devices.Count;
        Assert.True(power.AirC.Max() > power.AirC.Min(), "the air must change, or the test shows nothing");

        // Added up anew from the stretches: store, terminals, and where the clock stands.
        double[] stored = [.. Enumerable.Range(0, count).Select(d => scenario.FullWh[d] * scenario.StartFraction[d])];
        var state = new PowerState
        {
            StoredWh = [.. stored], OutageH = [.. Enumerable.Repeat(double.PositiveInfinity, count)], DeliveredWh = new double[count], TakenWh = new double[count], Works = new double[count], Scratch = new double[5 * count],
        };
        var run = new PowerRun { Hours = power.Hours, AirC = power.AirC, WindShare = power.WindShare, Mode = power.Mode, ExtraW = power.ExtraW, PortW = power.PortW, FullWh = scenario.FullWh, LoadW = scenario.TypicalW };
        var at = new List<double> { 0 };
        var charges = new List<double[]> { (double[])stored.Clone() };
        double[] delivered = new double[count];
        for (int n = 0; n < power.Count; n++)
        {
            PowerKernel.Run(scenario, run, n, n + 1, ref state);
            for (int d = 0; d < count; d++)
            {
                int mode = power.Mode[(n * count) + d];
                double loadW = (mode < 0 ? 0 : asked.Devices[d].Modes[mode].TypicalW) + power.ExtraW[(n * count) + d];
                CellShare share = scenario.Share(d, mode, CellKernel.CellC(power.AirC[n], scenario.WarmShare[d] * power.WindShare[n]));
                double above = Math.Max(0, stored[d] - (scenario.FullWh[d] * (1 - share.Open))), perWh = share.Delivered > 0 ? share.Open / share.Delivered : 1;
                double terminals = Math.Min(loadW * power.Hours[n], above / perWh);
                delivered[d] += terminals;
                stored[d] -= terminals * perWh;
                Assert.Equal(stored[d], state.StoredWh[d], Closed);
                Assert.Equal(delivered[d], state.DeliveredWh[d], Closed);
                Assert.Equal(0, state.TakenWh[d]);
            }

            at.Add(at[^1] + power.Hours[n]);
            charges.Add((double[])stored.Clone());
        }

        // And the plan tells the same charge at each station, between the ends of stretches linear as the draw is even.
        foreach (PlanStation s in plan.Stations)
        {
            double h = (s.Arrival.Typical - plan.Start).TotalHours;
            int n = 0;
            while (n + 2 < at.Count && at[n + 1] <= h)
            {
                n++;
            }

            for (int d = 0; d < count; d++)
            {
                int mode = power.Mode[(n * count) + d];
                CellShare share = scenario.Share(d, mode, CellKernel.CellC(power.AirC[n], scenario.WarmShare[d] * power.WindShare[n]));
                double loadW = (mode < 0 ? 0 : asked.Devices[d].Modes[mode].TypicalW) + power.ExtraW[(n * count) + d];
                double drawn = Math.Min(loadW * (share.Delivered > 0 ? share.Open / share.Delivered : 1) * (h - at[n]), Math.Max(0, charges[n][d] - (scenario.FullWh[d] * (1 - share.Open))));
                Assert.Equal((charges[n][d] - drawn) / scenario.FullWh[d], s.Charge.Single(c => c.Name == asked.Devices[d].Name).Left.DecimalFractions, Closed);
            }
        }
    }

    /// <summary>With a bank: what leaves its port, less the loss of charging, is what the stores gain over their draws.</summary>
    [Theory]
    [MemberData(nameof(Rides))]
    public void Charge_EveryScenarioOnABank_PortStoreAndTerminalsClose(string id)
    {
        RideRequest request = Request(id, 0);
        var findings = new List<Finding>();
        RideCourse course = RideCourse.Of(request, null, findings)!;
        PowerRequest asked = new PlanBuilder(request, course, ZoneOffsets.Fixed(request.Start.Offset), findings, default).PowerAsked();
        PowerScenario scenario = PowerScenario.Of(asked.Devices);
        PowerCourse whole = PowerCourse.Of(asked.Devices, asked.Timeline, asked.UnplannedNight);
        int count = asked.Devices.Count;

        // Everything hangs on the port all the time; the small bank runs empty on the way.
        PowerCourse power = PowerCourse.Cut(whole, count, [.. Enumerable.Range(0, whole.Count).Select(n => (n, whole.Hours[n], (double[]?)[.. Enumerable.Repeat(1.5, count)]))]);
        double[] start = [.. Enumerable.Range(0, count).Select(d => scenario.FullWh[d] * 0.6)];
        const double bankWh = 6;
        var state = new PowerState
        {
            BankWh = bankWh, StoredWh = [.. start], OutageH = [.. Enumerable.Repeat(double.PositiveInfinity, count)], DeliveredWh = new double[count], TakenWh = new double[count], Works = new double[count], Scratch = new double[5 * count],
        };
        var run = new PowerRun { Hours = power.Hours, AirC = power.AirC, WindShare = power.WindShare, Mode = power.Mode, ExtraW = power.ExtraW, PortW = power.PortW, FullWh = scenario.FullWh, LoadW = scenario.TypicalW };
        double[] lastTaken = new double[count], lastDelivered = new double[count], lastStored = [.. start];
        for (int n = 0; n < power.Count; n++)
        {
            PowerKernel.Run(scenario, run, n, n + 1, ref state);
            for (int d = 0; d < count; d++)
            {
                int mode = power.Mode[(n * count) + d];
                CellShare share = scenario.Share(d, mode, CellKernel.CellC(power.AirC[n], scenario.WarmShare[d] * power.WindShare[n]));
                double drawn = (state.DeliveredWh[d] - lastDelivered[d]) * (share.Delivered > 0 ? share.Open / share.Delivered : 1);
                Assert.Equal(lastStored[d] + ((state.TakenWh[d] - lastTaken[d]) * scenario.EfficiencyFraction[d]) - drawn, state.StoredWh[d], Closed);
                (lastTaken[d], lastDelivered[d], lastStored[d]) = (state.TakenWh[d], state.DeliveredWh[d], state.StoredWh[d]);
            }

            Assert.Equal(bankWh, state.BankWh + state.TakenWh.ToArray().Sum(), Closed);
        }

        Assert.True(state.TakenWh.ToArray().Sum() > 1);
    }

    [Theory]
    [InlineData("S03")]
    [InlineData("S07")]
    public void Plan_DemoRideWithLamp_ChargeIsStartLessDraws(string id)
    {
        // In air of one temperature a pack's energy does not change: what is gone is draw times time.
        RideRequest request = Request(id, 0);
        request = request with
        {
            Weather = new Forecast([new ForecastPlace("even", null, Enumerable.Range(-2, 60).Select(h => new ForecastHour(request.Start.AddHours(h), new Weather { AirTempC = 25, RelHumidityPct = 60, WindMps = 0, WindFromDeg = 0, GustMps = 0, CloudPct = 50 })))], new ForecastOptions { LapseKPerKm = 0 }),
            Devices = [new Device("recorder", DeviceKind.Other, CellPack.LithiumIon(8000, 3.7), DeviceMode.Of("on", ModeUse.Tracking, 0.4, 0.4, 0.4)) { Carried = CarryPlace.Exposed }],
        };
        RidePlan plan = RidePlanner.Plan(request);
        double full = request.Devices[0].Pack.UsableEnergy(Temperature.FromDegreesCelsius(25), Power.FromWatts(0.4), 1, TimeSpan.Zero).Typical.WattHours;
        foreach (PlanStation s in plan.Stations)
        {
            double hours = (s.Arrival.Typical - plan.Start).TotalHours;
            Assert.Equal(1 - (0.4 * hours / full), s.Charge[0].Left.DecimalFractions, 1e-7);
        }
    }

    // In changing air the store loses draw times time over the cell's efficiency at each stretch's temperature. These temperatures are nodes of the power plan's table, so nothing is interpolated.
    [Theory]
    [InlineData(CellChemistry.LithiumNickel)]
    [InlineData(CellChemistry.LithiumIronPhosphate)]
    public void Charge_InChangingAir_IsStartLessWhatEachStretchTook(CellChemistry chemistry)
    {
        const double drawW = 1.5;
        CellPack pack = new CellPack(chemistry, 9250, 3.2);
        var device = new Device("recorder", DeviceKind.Other, pack, DeviceMode.Of("on", ModeUse.Tracking, drawW, drawW, drawW)) { Carried = CarryPlace.Exposed };
        double[] air = [25, 20, 15, 5, 0, -7.5, -12.5, -2.5, 5, 10, 17.5, 22.5];
        PowerPlan plan = PowerPlanner.Plan(new PowerRequest
        {
            Devices = [device],
            Timeline = [.. air.Select((c, i) => new PowerInterval { Duration = TimeSpan.FromMinutes(40 + (5 * i)), AirTemperature = Temperature.FromDegreesCelsius(c) })],
            Samples = 0,
        });
        IReadOnlyList<ChargeAt> points = plan.Devices[0].Charge;
        Assert.Equal(air.Length + 1, points.Count);
        double left = points[0].ChargeFraction;
        Assert.Equal(1, left, Closed);
        for (int i = 0; i < air.Length; i++)
        {
            double taken = drawW * ((40 + (5 * i)) / 60.0) / pack.Share(air[i], drawW).Efficiency / pack.FullWh;
            left -= taken;
            Assert.Equal(left, points[i + 1].ChargeFraction, Closed);
        }

        double[] efficiency = [.. air.Select(c => pack.Share(c, drawW).Efficiency)];
        Assert.True(efficiency.Max() - efficiency.Min() > 1e-3, "The air must have changed something, or the test shows nothing.");
    }

    private static RideModel Model(RideRequest request)
    {
        var findings = new List<Finding>();
        RideCourse course = RideCourse.Of(request, null, findings)!;
        return new RideModel(request, course, request.Start, ZoneOffsets.Fixed(request.Start.Offset), null, findings, default);
    }

    private static SimulationResult One(SimulationResult all, int i)
    {
        var one = new SimulationResult(1, all.Stations);
        foreach ((double[] from, double[] to) in new[]
        {
            (all.FinishSec, one.FinishSec), (all.MovingSec, one.MovingSec), (all.StoppedSec, one.StoppedSec), (all.SweatL, one.SweatL), (all.DrunkL, one.DrunkL), (all.FilledL, one.FilledL),
            (all.Kcal, one.Kcal), (all.SodiumMg, one.SodiumMg), (all.EatenKcal, one.EatenKcal), (all.ShortWaterL, one.ShortWaterL), (all.LampLeftSec, one.LampLeftSec), (all.DarkSec, one.DarkSec),
        })
        {
            to[0] = from[i];
        }

        return one;
    }

    /// <summary>Each account added up anew from its parts, section by section, against what the run carries along.</summary>
    private static void Check(SimulationInput input, SectionTrace t, SimulationResult total, double sodiumFactor)
    {
        double joules = 0, seconds = 0, sweat = 0, lastEaten = 0, lastDrunk = 0, lastFilled = 0, carriedEnd = 0, perKcal = input.FoodKg / input.FoodKcal, moving = 0;
        for (int j = 0; j < input.Sections; j++)
        {
            // Water in hand: start, and filled, less drunk. Mass carried along the section: water and food at its beginning.
            double atBegin = input.StartWaterL + t.FilledL[j] - lastDrunk + (input.FoodKg - (lastEaten * perKcal));
            Assert.Equal(atBegin, t.CarriedKg[j], Closed);
            Assert.Equal(input.StartWaterL + t.FilledL[j] - t.DrunkL[j], t.WaterL[j], Closed);
            Assert.True(t.WaterL[j] >= -Closed && t.DrunkL[j] >= lastDrunk && t.FilledL[j] >= lastFilled && t.EatenKcal[j] >= lastEaten && t.EatenKcal[j] <= input.FoodKcal + Closed);

            // Time and energy: what the clock shows beyond moving and standing is the pause at the station before, at rest.
            double pause = t.ClockSec[j] - seconds - t.MoveSec[j] - t.StandSec[j];
            Assert.True(pause >= -1e-7);
            joules += (input.MetabolicW[j] * t.MoveSec[j]) + (input.RestW * (t.StandSec[j] + pause));
            Assert.Equal(joules, t.Joules[j], Closed * Math.Max(1, joules));
            seconds = t.ClockSec[j];
            moving += t.MoveSec[j];
            sweat = t.SweatL[j];
            (lastDrunk, lastFilled, lastEaten) = (t.DrunkL[j], t.FilledL[j], t.EatenKcal[j]);
            carriedEnd = t.WaterL[j] + (input.FoodKg - (lastEaten * perKcal));
        }

        // Rider and load: what is carried at the end, drunk and eaten came from the start and the sources.
        Assert.Equal(input.StartWaterL + input.FoodKg + lastFilled, carriedEnd + lastDrunk + (lastEaten * perKcal), Closed);
        Assert.Equal(total.SweatL[0], sweat, Closed);
        Assert.Equal(total.DrunkL[0], lastDrunk, Closed);
        Assert.Equal(total.EatenKcal[0], lastEaten, Closed * Math.Max(1, lastEaten));
        Assert.Equal(total.FinishSec[0], seconds, 1e-6);
        Assert.Equal(total.MovingSec[0] + total.StoppedSec[0], seconds, 1e-6);
        Assert.Equal(total.MovingSec[0], moving, 1e-6);
        Assert.Equal(total.Kcal[0] * 4184, joules, Closed * joules);
        Assert.Equal(total.SodiumMg[0], t.SodiumMg[^1], Closed * Math.Max(1, total.SodiumMg[0]));
        if (!double.IsNaN(sodiumFactor))
        {
            Assert.Equal(sweat * input.SodiumMgPerL * sodiumFactor, total.SodiumMg[0], Closed * Math.Max(1, total.SodiumMg[0]));
        }

        Assert.True(total.DarkSec[0] >= t.DarkSec[^1] - 1e-6 && t.DarkSec[^1] <= seconds + 1e-6);
    }
}
