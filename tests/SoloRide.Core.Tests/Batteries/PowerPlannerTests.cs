using FsCheck.Xunit;
using SoloRide.Batteries;
using UnitsNet;

namespace SoloRide.Tests.Batteries;

public sealed class PowerPlannerTests
{
    [Fact]
    [Checks(typeof(PowerPlanner), CheckKind.BadInput)]
    public void Plan_UnknownDeviceOrMode_SaysWhich()
    {
        PowerRequest ride = BatteryRequests.Ride();
        var e = Assert.Throws<ArgumentException>(() => PowerPlanner.Plan(ride with
        {
            Timeline = [new PowerInterval { Duration = TimeSpan.FromHours(1), Modes = new Dictionary<string, string> { ["lantern"] = "off" } }],
        }));
        Assert.Contains("lantern", e.Message, StringComparison.Ordinal);
        e = Assert.Throws<ArgumentException>(() => PowerPlanner.Plan(ride with
        {
            Timeline = [new PowerInterval { Duration = TimeSpan.FromHours(1), Modes = new Dictionary<string, string> { ["phone"] = "disco" } }],
        }));
        Assert.Contains("flight mode", e.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => ride with { Timeline = [] });
        Assert.Throws<ArgumentException>(() => ride with { Devices = [BatteryRequests.Phone(), BatteryRequests.Phone()] });
        Assert.Throws<ArgumentOutOfRangeException>(() => new PowerInterval { Duration = TimeSpan.Zero });
        Assert.Throws<ArgumentException>(() => PowerPlanner.Plan(ride with { Ways = [new MessageWay { Name = "w", Purpose = MessagePurpose.Message, Needs = ["pigeon"] }] }));
    }

    [Fact]
    [Checks(typeof(PowerPlanner), CheckKind.Property)]
    public void Plan_PermutedDevices_ChangesNothing()
    {
        var bank = new PowerBank(5000);
        Device[] devices = [BatteryRequests.Phone(0.4), BatteryRequests.Messenger(0.2), BatteryRequests.Lamp(start: 0.6), BatteryRequests.Lamp("bar lamp", 0.5), BatteryRequests.Navigation(0.3)];
        PowerPlan a = PowerPlanner.Plan(BatteryRequests.Ride(bank, devices: devices));
        PowerPlan b = PowerPlanner.Plan(BatteryRequests.Ride(bank, devices: [.. devices.Reverse()]));
        foreach (DevicePower p in a.Devices)
        {
            DevicePower q = b.Devices.Single(x => x.Device.Name == p.Device.Name);
            Assert.Equal(p.LastsNightProbability, q.LastsNightProbability);
            Assert.Equal(p.LastsNightWithBankProbability, q.LastsNightWithBankProbability);
            Assert.Equal(p.Depletion, q.Depletion);
        }

        Assert.Equal(a.MessageAfterNightProbability, b.MessageAfterNightProbability, 12);
        Assert.Equal(a.FirstToFail, b.FirstToFail);
        Assert.Equal(a.TopUps.OrderBy(t => t.From).ThenBy(t => t.Device, StringComparer.Ordinal), b.TopUps.OrderBy(t => t.From).ThenBy(t => t.Device, StringComparer.Ordinal));
    }

    [Fact]
    public void Plan_SplitStretch_ChangesNothing()
    {
        PowerRequest whole = BatteryRequests.Ride(devices: [BatteryRequests.Phone(0.3), BatteryRequests.Lamp(start: 0.7)]);
        PowerInterval first = whole.Timeline[0];
        PowerRequest split = whole with
        {
            Timeline = [first with { Duration = first.Duration / 3 }, first with { Duration = first.Duration * 2 / 3 }, .. whole.Timeline.Skip(1)],
        };
        PowerPlan a = PowerPlanner.Plan(whole), b = PowerPlanner.Plan(split);
        for (int d = 0; d < a.Devices.Count; d++)
        {
            Assert.Equal(a.Devices[d].LastsNightProbability, b.Devices[d].LastsNightProbability);
            Assert.True((a.Devices[d].Depletion!.Typical - b.Devices[d].Depletion!.Typical).Duration() < TimeSpan.FromMilliseconds(1));
        }
    }

    [Property(MaxTest = 30)]
    public void Plan_Colder_NeverLastsLonger(byte coldBy)
    {
        double by = coldBy % 20;
        PowerPlan warm = PowerPlanner.Plan(BatteryRequests.Ride(airC: 5, samples: 200)), cold = PowerPlanner.Plan(BatteryRequests.Ride(airC: 5 - by, samples: 200));
        for (int d = 0; d < warm.Devices.Count; d++)
        {
            Assert.True(cold.Devices[d].LastsNightProbability <= warm.Devices[d].LastsNightProbability);
        }
    }

    [Fact]
    public void Plan_MessengerFirst_WhenTheBankIsShort()
    {
        // Order of allocation, messenger first: common practice, no source.
        PowerPlan plan = PowerPlanner.Plan(BatteryRequests.Ride(new PowerBank(1200), devices: [BatteryRequests.Phone(0.1), BatteryRequests.Messenger(0.05), BatteryRequests.Navigation(0.1)]));
        BankShare messenger = plan.Allocation!.Shares.Single(s => s.Name == "messenger");
        Assert.Equal(0, messenger.Unmet.WattHours, 9);
        Assert.True(plan.Allocation.Shares.Single(s => s.Name == "navigation").Unmet.WattHours > 0);
        Assert.True(plan.Allocation.IsOptimal);
    }

    [Fact]
    public void Plan_FlatPhone_StillCallsForHelp()
    {
        Device dead = BatteryRequests.Phone(0);
        PowerPlan plan = PowerPlanner.Plan(BatteryRequests.Ride(devices: [dead, BatteryRequests.Messenger()]));
        Assert.True(plan.MessageProbability < 0.05);
        Assert.True(plan.DistressCallProbability > 0.9);
    }

    [Fact]
    public void Plan_OneDeviceConstantLoad_IsTheHandCalculation()
    {
        // 3.7 Wh * 1 A h at k = 1 (25 C, low drain), 0.37 W: 10 h.
        var device = new Device("box", DeviceKind.Other, new CellPack(CellChemistry.NickelMetalHydride, 1000, 3.7) { ColdTable = [new ColdPoint(Temperature.FromDegreesCelsius(25), 1)], CapacitySpreadFraction = 0 },
            DeviceMode.Of("on", ModeUse.Other, 0.37, 0.37, 0.37)) { Carried = CarryPlace.Exposed };
        PowerPlan plan = PowerPlanner.Plan(new PowerRequest
        {
            Devices = [device],
            Timeline = [new PowerInterval { Duration = TimeSpan.FromHours(4), AirTemperature = Temperature.FromDegreesCelsius(25) }],
            Samples = 0,
        });
        Assert.Equal(10, plan.Devices[0].Depletion!.Typical.TotalHours, 6);
        Assert.Equal(1, plan.Devices[0].LastsToEndProbability);
    }

    [Fact]
    public void Plan_NoDevices_IsAPlanWithoutDevices()
    {
        PowerPlan plan = PowerPlanner.Plan(new PowerRequest { Devices = [], Timeline = [new PowerInterval { Duration = TimeSpan.FromHours(3) }], Bank = new PowerBank(10_000), Beacon = new DistressBeacon() });
        Assert.Empty(plan.Devices);
        Assert.Null(plan.FirstToFail);
        Assert.Equal(0.95, plan.DistressCallProbability, 12);
        Assert.Equal(0, plan.MessageProbability, 12);
    }

    [Fact]
    public void Plan_LargerBank_NeverWorse()
    {
        Device[] devices = [BatteryRequests.Phone(0.2), BatteryRequests.Messenger(0.1), BatteryRequests.Lamp(start: 0.5), BatteryRequests.Navigation(0.3)];
        double[] before = [0, 0, 0, 0];
        foreach (double mah in new[] { 500.0, 1500, 4000, 10_000 })
        {
            PowerPlan plan = PowerPlanner.Plan(BatteryRequests.Ride(new PowerBank(mah), devices: devices));
            for (int d = 0; d < devices.Length; d++)
            {
                Assert.True(plan.Devices[d].LastsNightWithBankProbability >= plan.Devices[d].LastsNightProbability - 1e-12);
            }

            double[] now = [.. plan.Allocation!.Proofs.Select(p => p.ValueWh)];
            for (int k = 0; k < now.Length; k++)
            {
                Assert.True(now[k] >= before[k] - 1e-9);
            }

            before = now.Concat(new double[4]).Take(4).ToArray();
        }
    }

    [Fact]
    public void Plan_OneLampFails_SaysWhetherTheOtherCovers()
    {
        PowerPlan plan = PowerPlanner.Plan(BatteryRequests.Ride(samples: 100));
        Assert.Equal(2, plan.IfLampFails.Count);
        LampFailure failure = plan.IfLampFails.Single(f => f.Failed == "head lamp");
        Assert.Equal("bar lamp", failure.Remaining);
        Assert.Equal(3, failure.DarkTime.TotalHours, 9);
        Assert.False(failure.IsCovered);
        Assert.Contains(plan.EveningChecks, c => c.Subject == "phone");
    }

    [Fact]
    public void Plan_FirstToFail_HasRemediesWithTheirChances()
    {
        // A half-charged phone that looks for a network all day, exposed on the bar.
        Device phone = BatteryRequests.Phone(0.5) with { Carried = CarryPlace.Exposed };
        var searching = new Dictionary<string, string> { ["phone"] = "searching" };
        PowerRequest ride = BatteryRequests.Ride(new PowerBank(5000), airC: -5, devices: [phone, BatteryRequests.Messenger()]);
        ride = ride with { Timeline = [.. ride.Timeline.Select(t => t with { Modes = searching })] };
        PowerPlan plan = PowerPlanner.Plan(ride);
        Assert.Equal("phone", plan.FirstToFail);
        DevicePower first = plan.Devices.Single(d => d.Device.Name == "phone");
        Assert.Contains(plan.Remedies, r => r.Kind == PowerRemedyKind.ChargeFull);
        Assert.Contains(plan.Remedies, r => r.Kind == PowerRemedyKind.CarryWarm);
        Assert.Contains("standby", plan.Remedies.Single(r => r.Kind == PowerRemedyKind.LowerMode).Text, StringComparison.Ordinal);
        Assert.All(plan.Remedies, r => Assert.True(r.LastsNightProbability > first.LastsNightProbability || r.LastsToEndProbability > first.LastsToEndProbability));
        Assert.Equal(plan.Remedies.OrderByDescending(r => r.LastsNightProbability).Select(r => r.LastsNightProbability), plan.Remedies.Select(r => r.LastsNightProbability));

        // The remedy's chances are those of a plan made with it.
        PowerPlan charged = PowerPlanner.Plan(ride with { Devices = [phone with { StartChargeFraction = 1 }, BatteryRequests.Messenger()], Bank = null });
        Assert.Equal(charged.Devices[0].LastsNightProbability, plan.Remedies.Single(r => r.Kind == PowerRemedyKind.ChargeFull).LastsNightProbability);
        PowerPlan warm = PowerPlanner.Plan(ride with { Devices = [phone with { Carried = CarryPlace.Pocket }, BatteryRequests.Messenger()], Bank = null });
        Assert.Equal(warm.Devices[0].LastsNightProbability, plan.Remedies.Single(r => r.Kind == PowerRemedyKind.CarryWarm).LastsNightProbability);
        Assert.Empty(PowerPlanner.Plan(BatteryRequests.Ride(devices: [BatteryRequests.Messenger()])).Remedies);
    }

    [Fact]
    public void Plan_MessengerRemedy_CountsItsMessages()
    {
        Device messenger = BatteryRequests.Messenger(0.15);
        PowerPlan plan = PowerPlanner.Plan(BatteryRequests.Ride(devices: [BatteryRequests.Phone(), messenger]));
        Assert.Equal("messenger", plan.FirstToFail);
        PowerPlan charged = PowerPlanner.Plan(BatteryRequests.Ride(devices: [BatteryRequests.Phone(), BatteryRequests.Messenger()]));
        Assert.Equal(charged.Devices[1].LastsNightProbability, plan.Remedies.Single(r => r.Kind == PowerRemedyKind.ChargeFull).LastsNightProbability);
    }

    [Fact]
    public void Plan_OneDeviceFlat_SaysWhatStillWorks()
    {
        PowerPlan plan = PowerPlanner.Plan(BatteryRequests.Ride(devices: [BatteryRequests.Phone(), BatteryRequests.Messenger(), BatteryRequests.Lamp()]) with { Beacon = new DistressBeacon() });
        FlatDevice phone = plan.IfFlat.Single(f => f.Device == "phone"), messenger = plan.IfFlat.Single(f => f.Device == "messenger"), lamp = plan.IfFlat.Single(f => f.Device == "head lamp");
        Assert.False(phone.CanSendMessage);
        Assert.Contains("distress call by messenger", phone.DistressCallWays);
        Assert.False(messenger.CanSendMessage);
        Assert.Equal(["distress call by distress beacon"], messenger.DistressCallWays);
        Assert.True(lamp.CanSendMessage && lamp.CanCallForHelp);
        Assert.Contains(plan.Cautions, c => c.Contains("never a promise", StringComparison.Ordinal));
        Assert.Contains(plan.Cautions, c => c.Contains("below 0 C", StringComparison.Ordinal));
        Assert.Contains(plan.Cautions, c => c.Contains("carrier", StringComparison.Ordinal));
        Assert.Contains(plan.Cautions, c => c.Contains("registered", StringComparison.Ordinal));
    }
}
