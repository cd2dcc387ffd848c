using System.Globalization;
using FsCheck.Xunit;
using SoloRide.Batteries;
using SoloRide.Kit;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Laws that every plan keeps.</summary>
public sealed class PlanLawTests
{
    /// <summary>
    /// More water in hand never raises the chance of running dry except through time: a heavier load is slower, and slower means more hours of sweat.
    /// With the mass of water without effect on time (laden as fast as light) no sample runs short by more; with it, only samples that also took longer may.
    /// </summary>
    [Property(MaxTest = 20)]
    public bool MoreWater_NeverRaisesTheChanceOfRunningDry_ExceptThroughTime(byte litres, byte extra, ushort seed)
    {
        RideRequest request = Rides.Request(samples: 0) with { Sources = [new WaterSource { Name = "Spring", AlongRoute = Length.FromKilometers(8), WetProbability = 0.5 }] };
        var findings = new List<Finding>();
        var model = new RideModel(request, RideCourse.Of(request, null, findings)!, request.Start, request.Zone!, null, findings, default);
        double less = 0.2 + (litres / 255.0 * 1.5), more = less + 0.05 + (extra / 255.0 * 2);
        SimulationInput Start(double l) => model.WithWater(l, [0.4], [0.0]);
        SimulationResult Weightless(double l) => SimulationKernel.Run(Start(l) with { LadenSec = Start(l).LightSec }, 128, seed, 1, default);
        SimulationResult a = Weightless(less), b = Weightless(more), heavyA = SimulationKernel.Run(Start(less), 128, seed, 1, default), heavyB = SimulationKernel.Run(Start(more), 128, seed, 1, default);
        for (int i = 0; i < 128; i++)
        {
            if (b.ShortWaterL[i] > a.ShortWaterL[i] + 1e-12 || b.FinishSec[i] != a.FinishSec[i])
            {
                return false;
            }

            if (heavyB.ShortWaterL[i] > heavyA.ShortWaterL[i] + 1e-12 && heavyB.FinishSec[i] <= heavyA.FinishSec[i])
            {
                return false;
            }
        }

        return true;
    }

    [Property(MaxTest = 8)]
    [Checks(typeof(RidePlanner), CheckKind.Property)]
    public bool AnotherSource_NeverLowersFeasibility(byte km, byte wet, byte capacity)
    {
        RideRequest request = Rides.Request(Rides.Line(40), samples: 64) with
        {
            Start = new DateTimeOffset(2027, 6, 14, 6, 0, 0, TimeSpan.FromHours(-6)),
            Load = new Load { WaterCapacity = Volume.FromLiters(1 + (capacity / 255.0 * 3)) },
            Sources = [new WaterSource { Name = "Tap", AlongRoute = Length.FromKilometers(17), WetProbability = 1 }],
        };
        RidePlan with = RidePlanner.Plan(request with { Sources = [.. request.Sources, new WaterSource { Name = "New", AlongRoute = Length.FromKilometers(1 + (km / 255.0 * 38)), WetProbability = wet / 255.0 }] });
        RidePlan without = RidePlanner.Plan(request);
        // One stop more makes other samples: the litres needed move by a few hundredths, below what water is counted to.
        return with.Verdict.Kind <= without.Verdict.Kind
            || with.Margins.Single(m => m is { Kind: MarginKind.Water, AfterTrouble: false }).Water!.Value.Liters > -2 * WaterPlan.CountedToL;
    }

    [Property(MaxTest = 6)]
    [Checks(typeof(RidePlanner), CheckKind.Property)]
    public bool LargerReserve_NeverMakesTheVerdictBetter(byte daylight, byte water, byte charge, byte hour)
    {
        RideRequest request = Rides.Request(samples: 64) with
        {
            Start = new DateTimeOffset(2027, 6, 14, 8 + (hour % 10), 0, 0, TimeSpan.FromHours(-6)),
            Load = new Load { WaterCapacity = Volume.FromLiters(2.5) },
            Devices = [Device.Messenger("messenger", 200)],
        };
        PlanVerdictKind Kind(double share) => RidePlanner.Plan(request with
        {
            Options = request.Options with
            {
                DaylightReserve = TimeSpan.FromMinutes(share * daylight),
                WaterReserve = Volume.FromLiters(share * water / 255.0),
                ChargeReserveFraction = share * charge / 300.0,
            },
        }).Verdict.Kind;
        return Kind(0) <= Kind(0.5) && Kind(0.5) <= Kind(1);
    }

    /// <summary>Bottles with room, heat, a fixed amount at the start and sources: what the reserve adds to the bottles never counts as a margin.</summary>
    [Property(MaxTest = 12)]
    [Checks(typeof(RidePlanner), CheckKind.Property)]
    public bool LargerWaterReserve_NeverMakesTheVerdictBetter(byte capacity, byte air, byte reserve, byte fixedStart, byte wet)
    {
        RideRequest request = Rides.Request(Rides.Line(30), samples: 256) with
        {
            Load = new Load { WaterCapacity = Volume.FromLiters(2 + (capacity / 255.0 * 10)) },
            Weather = Rides.Weather(airC: 15 + (air / 255.0 * 22)),
            StartWater = fixedStart % 3 == 0 ? Volume.FromLiters(Math.Min(2 + (capacity / 255.0 * 10), 1 + (fixedStart / 255.0 * 6))) : null,
            Sources = wet % 2 == 0 ? [new WaterSource { Name = "Spring", AlongRoute = Length.FromKilometers(14), WetProbability = wet / 255.0 }] : [],
        };
        double most = 0.2 + (reserve / 255.0 * 3.8);
        PlanVerdictKind Kind(double share) => RidePlanner.Plan(request with { Options = request.Options with { WaterReserve = Volume.FromLiters(share * most) } }).Verdict.Kind;
        return Kind(0) <= Kind(0.3) && Kind(0.3) <= Kind(1);
    }

    [Fact]
    [Checks(typeof(RidePlanner), CheckKind.Property)]
    public void UnitsAndOffsetOfTheInput_ChangeNothing()
    {
        RideRequest metric = Rides.Request(samples: 300) with
        {
            Sources = [new WaterSource { Name = "Spring", AlongRoute = Length.FromMeters(12_000), WetProbability = 0.8 }],
            Deadlines = [new Deadline(DeadlineKind.Gate, "Gate", Length.Zero, Length.FromMeters(20_000), Rides.Start.AddHours(9))],
        };
        RideRequest other = metric with
        {
            Start = metric.Start.ToOffset(TimeSpan.FromHours(9)),
            PreparedAt = metric.PreparedAt!.Value.ToOffset(TimeSpan.Zero),
            Rider = new Rider { Mass = Mass.FromGrams(76_000), Height = Length.FromMeters(1.78), SustainedPower = Power.FromKilowatts(0.16) },
            Load = new Load { WaterCapacity = Volume.FromMilliliters(6000) },
            Sources = [new WaterSource { Name = "Spring", AlongRoute = Length.FromKilometers(12), WetProbability = 0.8 }],
            Exits = [new ExitPoint { Name = "Half Way Road", AlongRoute = Length.FromMeters(10_000) }],
            Deadlines = [new Deadline(DeadlineKind.Gate, "Gate", Length.Zero, Length.FromKilometers(20), Rides.Start.AddHours(9).ToOffset(TimeSpan.FromHours(5.5)))],
            Options = metric.Options with { StepLength = Length.FromCentimeters(2500), WaterReserve = Volume.FromDeciliters(3), FoodReserve = Energy.FromJoules(400 * 4184) },
        };
        Assert.Equal(RidePlanner.Plan(metric).ToJson(), RidePlanner.Plan(other).ToJson());
    }

    [Property(MaxTest = 6)]
    [Checks(typeof(RidePlanner), CheckKind.Property)]
    public bool Order_OfDevicesSourcesExitsKitAndDeadlines_ChangesNothing(int seed)
    {
        var random = new Random(seed);
        RideRequest request = Rides.Request(Rides.Line(30), samples: 128) with
        {
            Sources = [.. Enumerable.Range(0, 4).Select(i => new WaterSource { Name = "S" + i, AlongRoute = Length.FromKilometers(4 + (6 * i)), WetProbability = 0.5 + (0.1 * i) })],
            Exits = [.. Enumerable.Range(0, 3).Select(i => new ExitPoint { Name = "E" + i, AlongRoute = Length.FromKilometers(5 + (8 * i)) })],
            Devices = [Device.Phone("phone", 4000), Device.Messenger("messenger", 1250), Device.NavigationComputer("computer", 1500)],
            Bank = new PowerBank(5000),
            Deadlines = [new Deadline(DeadlineKind.Gate, "Gate", Length.Zero, Length.FromKilometers(20), Rides.Start.AddHours(9)), new Deadline(DeadlineKind.Gate, "Ford", Length.Zero, Length.FromKilometers(9), Rides.Start.AddHours(5))],
        };
        RideRequest mixed = request with
        {
            Sources = Mixed(request.Sources), Exits = Mixed(request.Exits), Devices = Mixed(request.Devices), Deadlines = Mixed(request.Deadlines),
        };
        return RidePlanner.Plan(request).ToJson() == RidePlanner.Plan(mixed).ToJson();

        T[] Mixed<T>(IReadOnlyList<T> list)
        {
            T[] all = [.. list];
            random.Shuffle(all);
            return all;
        }
    }

    [Fact]
    [Checks(typeof(RidePlanner), CheckKind.Property)]
    public void Json_OneAndTwoThreads_TwoCultures_TwoRuns_SameBytes()
    {
        RideRequest request = LedgerTests.Request("S01", 600);
        RideRequest two = request with { Options = request.Options with { Threads = 2 } };
        CultureInfo before = CultureInfo.CurrentCulture;
        var json = new List<string>();
        try
        {
            foreach (string culture in new[] { "", "comma" })
            {
                var c = (CultureInfo)CultureInfo.InvariantCulture.Clone();
                if (culture.Length > 0)
                {
                    (c.NumberFormat.NumberDecimalSeparator, c.NumberFormat.NumberGroupSeparator, c.NumberFormat.NegativeSign, c.DateTimeFormat.TimeSeparator) = (",", ".", "~", ".");
                }

                CultureInfo.CurrentCulture = c;
                json.AddRange([RidePlanner.Plan(request).ToJson(), RidePlanner.Plan(request).ToJson(), RidePlanner.Plan(two).ToJson()]);
            }
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }

        Assert.Single(json.Distinct());
    }
}
