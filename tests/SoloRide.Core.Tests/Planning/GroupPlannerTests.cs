using FsCheck.Xunit;
using SoloRide.Batteries;
using SoloRide.Internal;
using SoloRide.Kit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

public sealed class GroupPlannerTests
{
    private static RideRequest Ride(int samples = 0) => Rides.Request(samples: samples);

    // Published tables of expected normal order statistics (from memory: 0.56419, 1.16296, 1.53875, 1.86748 for 2, 5, 10 and 20).
    [Theory]
    [InlineData(2, 0.56419)]
    [InlineData(5, 1.16296)]
    [InlineData(10, 1.53875)]
    [InlineData(20, 1.86748)]
    [Checks(typeof(GroupPlanner), CheckKind.Outside)]
    public void SlowestFactor_IsOnePlusSpreadTimesTheExpectedLargest(int riders, double largest)
        => Assert.Equal(1 + (0.1 * largest), GroupPlanner.Plan(Ride(), new RidingGroup { Riders = riders, Leaders = 2 }).SlowestFactor, 5);

    [Fact]
    public void Plan_GroupOfTen_TakesAsMuchLongerAsItsSlowest()
    {
        RidePlan alone = RidePlanner.Plan(Ride());
        GroupPlan group = GroupPlanner.Plan(Ride(), new RidingGroup { Riders = 10, Leaders = 2 });
        Assert.Equal(1.1539, group.SlowestFactor, 4);
        // More time means more water carried, which takes time of its own: within a per cent of the factor.
        Assert.InRange(group.Plan.Moving!.Typical / alone.Moving!.Typical, 1.1539, 1.1639);
        Assert.Equal(RidePlanner.Plan(Ride()).ToJson(), GroupPlanner.Plan(Ride(), new RidingGroup { Riders = 1, Leaders = 2 }).Plan.ToJson());
    }

    // Published rule for school groups: at least two adults, not more than ten riders for one.
    [Theory]
    [InlineData(10, 2, 2, true)]
    [InlineData(10, 1, 2, false)]
    [InlineData(20, 2, 2, true)]
    [InlineData(21, 2, 3, false)]
    [InlineData(21, 3, 3, true)]
    [Checks(typeof(GroupPlanner), CheckKind.Outside)]
    public void Leaders_ByThePublishedRule(int riders, int leaders, int needed, bool holds)
    {
        GroupPlan plan = GroupPlanner.Plan(Ride(), new RidingGroup { Riders = riders, Leaders = leaders });
        Assert.Equal(needed, plan.LeadersNeeded);
        Assert.Equal(holds, plan.LeadersHold);
        Assert.Equal(!holds, plan.Findings.Any(f => f.Code == "planning.leaders-short"));
    }

    [Fact]
    public void Spares_AreThoseOfThePooledCount()
    {
        RideRequest ride = Ride() with { FailureRates = new Dictionary<FailureKind, FailureRate> { [FailureKind.TubePuncture] = FailureRate.Known(0.004) } };
        GroupPlan plan = GroupPlanner.Plan(ride, new RidingGroup { Riders = 10, Leaders = 2, Bikes = 10 });
        GroupSpare spare = Assert.Single(plan.Spares);
        double mean = 10 * 0.004 * ride.Route.Length.Kilometers;
        Assert.Equal(mean, spare.ExpectedFactor, 9);
        // Poisson, summed here term by term.
        double p = 0, term = Math.Exp(-mean);
        int k = 0;
        for (p = term; p < 0.95; k++)
        {
            term *= mean / (k + 1);
            p += term;
        }

        Assert.Equal(k, spare.Carry);
        Assert.Equal(p, spare.EnoughProbability, 9);
        Assert.True(spare.FromLog);
        Assert.Contains(GroupPlanner.Plan(Ride(), new RidingGroup { Riders = 3, Leaders = 2 }).Findings, f => f.Code == "planning.spares-prior");
    }

    [Fact]
    public void Regroups_AddTheirStopsAndTellTheFirstHowLongTheyWait()
    {
        var bare = new RidingGroup { Riders = 10, Leaders = 2 };
        GroupPlan without = GroupPlanner.Plan(Ride(), bare);
        GroupPlan with = GroupPlanner.Plan(Ride(), bare with { RegroupAt = [Length.FromKilometers(14), Length.FromKilometers(7)], RegroupStop = TimeSpan.FromMinutes(6) });
        Assert.Equal(12, (with.Plan.Finish!.Typical - without.Plan.Finish!.Typical).TotalMinutes, 0);
        Assert.Equal(2, with.Regroups.Count);
        Assert.All(with.Regroups, r => Assert.True(r.Wait > TimeSpan.FromMinutes(5) && r.FirstThere < r.LastThere.Typical));
        Assert.True(with.Regroups[0].AlongRoute < with.Regroups[1].AlongRoute);
    }

    [Fact]
    public void SharedPower_DevicesOfAllDrawOnOneBank()
    {
        RideRequest ride = Ride() with { Devices = [Device.Phone("phone one", 800) with { StartChargeFraction = 0.3 }], Bank = new PowerBank(3000) };
        GroupPlan alone = GroupPlanner.Plan(ride, new RidingGroup { Riders = 4, Leaders = 2 });
        GroupPlan all = GroupPlanner.Plan(ride, new RidingGroup { Riders = 4, Leaders = 2, Devices = [Device.Phone("phone two", 800) with { StartChargeFraction = 0.3 }, Device.Phone("phone three", 800) with { StartChargeFraction = 0.3 }] });
        Assert.Single(alone.Plan.Devices);
        Assert.Equal(3, all.Plan.Devices.Count);
        Assert.NotNull(all.Plan.PowerPlan!.Allocation);
    }

    [Property(MaxTest = 15)]
    [Checks(typeof(GroupPlanner), CheckKind.Property)]
    public bool Plan_MoreRidersOrMoreSpread_IsNeverFaster(byte a, byte b, byte c)
    {
        int few = 1 + (a % 20), many = few + (b % 20);
        double spread = c % 50 / 100.0;
        GroupPlan small = GroupPlanner.Plan(Ride(), new RidingGroup { Riders = few, Leaders = 2, PaceSpreadFraction = spread / 2 });
        GroupPlan large = GroupPlanner.Plan(Ride(), new RidingGroup { Riders = many, Leaders = 2, PaceSpreadFraction = spread });
        return large.SlowestFactor >= small.SlowestFactor - 1e-12
            && large.Plan.Finish!.Typical >= small.Plan.Finish!.Typical
            && large.LeadersNeeded >= small.LeadersNeeded
            && large.Spares[0].Carry >= small.Spares[0].Carry;
    }

    [Fact]
    [Checks(typeof(GroupPlanner), CheckKind.BadInput)]
    public void Plan_BadInput_SaysWhat()
    {
        Assert.Contains("allowed are 1 to 500", Assert.Throws<ArgumentOutOfRangeException>(() => new RidingGroup { Riders = 0 }).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new RidingGroup { Riders = 5, PaceSpreadFraction = 0.6 });
        Assert.Contains("km 25.00", Assert.Throws<ArgumentException>(() => GroupPlanner.Plan(Ride(), new RidingGroup { Riders = 5, RegroupAt = [Length.FromKilometers(25)] })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentNullException>(() => GroupPlanner.Plan(Ride(), null!));
    }

    private static RosterEntry[] People =>
    [
        new RosterEntry("Leader One") { IsLeader = true, Phone = "555 0100" },
        new RosterEntry("Leader Two") { IsLeader = true },
        new RosterEntry("Rider Three") { Phone = "555 0103", Contact = "Contact Four 555 0104", Medical = "bee stings", Bike = "29 in" },
    ];

    [Fact]
    public void Roster_UnlessAskedFor_HoldsNothingPersonal()
    {
        GroupPlan plan = GroupPlanner.Plan(Ride(), new RidingGroup { Riders = 1, Leaders = 2, RegroupAt = [Length.FromKilometers(10)] });
        string sheet = plan.ToRoster(People);
        Assert.Contains("Rider Three", sheet, StringComparison.Ordinal);
        Assert.DoesNotContain("555", sheet, StringComparison.Ordinal);
        Assert.DoesNotContain("bee", sheet, StringComparison.Ordinal);
        Assert.Equal(9, sheet.Split("[ ]").Length - 1);
        string full = plan.ToRoster(People, PersonalData.Included);
        Assert.Contains("bee stings", full, StringComparison.Ordinal);
        Assert.Contains("555 0104", full, StringComparison.Ordinal);
        Assert.Contains("destroy it", full, StringComparison.Ordinal);
        Assert.Contains(Cautions.Text[..20], full, StringComparison.Ordinal);
    }

    [Fact]
    public void Roster_OfAnotherGroup_SaysSo()
    {
        GroupPlan plan = GroupPlanner.Plan(Ride(), new RidingGroup { Riders = 2, Leaders = 2 });
        Assert.Contains("1 riders and 2 leaders", Assert.Throws<ArgumentException>(() => plan.ToRoster(People)).Message, StringComparison.Ordinal);
        Assert.Contains("tell them apart", Assert.Throws<ArgumentException>(() => plan.ToRoster([.. People, new RosterEntry("Rider Three")])).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void ToText_Group_SaysLeadersPaceSparesAndCautions()
    {
        string text = GroupPlanner.Plan(Ride(), new RidingGroup { Riders = 10, Leaders = 1 }).ToText();
        foreach (string word in new[] { "too few", "15 % longer", "Spares for all", "Heed", "Caution" })
        {
            Assert.Contains(word, text, StringComparison.Ordinal);
        }
    }

    [Fact]
    public void ToText_Group_OpensWithTheVerdict_AndUsesTheUnitsAskedFor()
    {
        GroupPlan plan = GroupPlanner.Plan(Ride(), new RidingGroup { Riders = 10, Leaders = 1, RegroupAt = [Length.FromKilometers(10)] });
        string[] lines = plan.ToText().Split('\n');
        Assert.StartsWith("Group ", lines[0], StringComparison.Ordinal);
        Assert.Contains(lines.Take(4), l => l.StartsWith("Does it fit?   Too few leaders: 1 of 2.", StringComparison.Ordinal));
        Assert.Contains("(km 10.0)", plan.ToText(), StringComparison.Ordinal);
        string us = plan.ToText(new PlanTextOptions { Units = MeasureSystem.UsCustomary });
        Assert.Contains("(mile 6.2)", us, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\bkm\b|\d L\b|\d C\b", us);
        Assert.All(us.Split('\n'), l => Assert.True(l.Length <= 80, l));
    }

    [Fact]
    public void Roster_LongNames_AreNeverCut_AndLinesFitThePage()
    {
        GroupPlan plan = GroupPlanner.Plan(Ride(), new RidingGroup { Riders = 2, Leaders = 1, LeastLeaders = 1, RegroupAt = [Length.FromKilometers(5), Length.FromKilometers(10)] });
        string longName = "Maximiliana Featherstonehaugh-Oystermouth the Younger of Spinel Basin";
        RosterEntry[] people = [new("Leader One") { IsLeader = true }, new(longName) { Bike = "29 in" }, new("Rider With A Rather Longer Name") { Bike = "27.5 in, rigid fork" }];
        string sheet = plan.ToRoster(people, options: new PlanTextOptions { Units = MeasureSystem.UsCustomary });
        Assert.All(people, p => Assert.Contains(p.Name, sheet, StringComparison.Ordinal));
        Assert.All(people.Where(p => p.Bike.Length > 0), p => Assert.Contains(p.Bike, sheet, StringComparison.Ordinal));
        Assert.Equal(3 * 4, sheet.Split("[ ]").Length - 1);
        Assert.All(sheet.Split('\n'), l => Assert.True(l.Length <= 80, l));
        Assert.Contains("mile 3.1", sheet, StringComparison.Ordinal);
    }
}
