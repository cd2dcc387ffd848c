using SoloRide.Kit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Guided Ten: ten clients, two leaders, one pace.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S06(string folder) : Scenario("S06", folder)
{
    /// <inheritdoc/>
    public override string MustShow => "pace of the slowest of ten; leaders enough or not; spares for all bikes; the worksheet, on request; the roster";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("group", "10 clients, 2 leaders; times spread by 10 % of the middle client's"), ("rule", "one leader for 10 clients, never fewer than 2"), ("middle client", "74 kg, 120 W"),
        ("punctures", "1 in 300 km for each bike"), ("chains", "1 in 4 000 km for each bike"), ("worksheet", "supervision 3, planning 2, crew 5, fitness 4, environment 5, complexity 3 of 10"),
    ];

    /// <summary>The group.</summary>
    public static RidingGroup Group { get; } = new() { Riders = 10, Leaders = 2, PaceSpreadFraction = 0.10, Bikes = 10 };

    /// <summary>Leaders and clients, from the data file beside the route: role, name, bike.</summary>
    public IReadOnlyList<RosterEntry> Roster { get; } =
    [
        .. File.ReadLines(Path.Combine(folder, "s06-guided-ten.roster.csv")).Skip(1).Where(l => l.Length > 0).Select(l => l.Split(','))
            .Select(c => new RosterEntry(c[1]) { IsLeader = c[0] == "leader", Bike = c[2] }),
    ];

    /// <summary>The worksheet as the leaders filled it in.</summary>
    public static RiskWorksheet Worksheet { get; } = RiskWorksheet.Of(3, 2, 5, 4, 5, 3);

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Rider = new Rider { Mass = Mass.FromKilograms(74), SustainedPower = Power.FromWatts(120) },
        Load = new Load { OnBody = Mass.FromKilograms(3), WaterCapacity = Volume.FromLiters(5) },
        Sources = [new WaterSource { Name = "Ranger Tap", AlongRoute = Length.FromKilometers(12), WetProbability = 1 }],
        Devices = [Gear.Messenger, Gear.Phone],
        KitItems = Gear.Usual,
        WaitingOutfit = Gear.SummerWait,
        WaitingShelter = Exposure.Shelter.ClosedBag,
        FailureRates = new Dictionary<FailureKind, FailureRate> { [FailureKind.TubePuncture] = FailureRate.Known(1.0 / 300), [FailureKind.Chain] = FailureRate.Known(1.0 / 4000) },
    };

    /// <summary>The plan of a group.</summary>
    /// <param name="group">The group.</param>
    /// <returns>The plan.</returns>
    public GroupPlan Of(RidingGroup group) => GroupPlanner.Plan(Request, group);

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        GroupPlan g = Of(Group);
        yield return $"the slowest of 10 takes {F(g.SlowestFactor, 4)} times the middle client's time: back {Clock(g.Plan.Finish!.Low)}-{Clock(g.Plan.Finish.High)}, alone {Clock(Plan.Finish!.Low)}-{Clock(Plan.Finish.High)}";
        foreach ((int clients, int leaders) in new[] { (10, 2), (10, 1), (21, 2) })
        {
            GroupPlan x = Of(Group with { Riders = clients, Leaders = leaders });
            yield return $"{clients} clients with {leaders} leaders: {x.LeadersNeeded} needed, {(x.LeadersHold ? "enough" : "not enough")}";
        }

        foreach (GroupSpare spare in g.Spares.Where(s => s.FromLog))
        {
            yield return $"{spare.Kind}: {F(spare.ExpectedFactor, 2)} expected in the group, carry for {spare.Carry}: enough on {F(100 * spare.EnoughProbability, 0)} rides of 100";
        }

        yield return "worksheet: " + Worksheet.Words;
    }

    /// <inheritdoc/>
    public override IEnumerable<string> Papers()
    {
        GroupPlan g = Of(Group);
        return [g.ToText(), g.ToRoster(Roster), Worksheet.ToText()];
    }
}
