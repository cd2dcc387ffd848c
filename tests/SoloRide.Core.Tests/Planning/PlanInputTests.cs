using SoloRide.Batteries;
using SoloRide.Demo;
using SoloRide.Kit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>What was checked, what is missing, and what could be changed.</summary>
public sealed class PlanInputTests
{
    private static readonly DateOnly Eve = new(2027, 6, 13);

    private static string Flat(string text) => string.Join(' ', text.Split([' ', '\n'], StringSplitOptions.RemoveEmptyEntries));

    private static RidePlan Checked(params (string Key, DateOnly On)[] done)
        => RidePlanner.Plan(Rides.Request(samples: 128) with { Checked = done.ToDictionary(d => d.Key, d => d.On) });

    [Fact]
    public void Checks_ArePrintedWithTheirDates()
    {
        RidePlan plan = Checked(("access", new(2027, 1, 5)), ("Fire Ban", Eve));
        Assert.Equal([new CheckedItem("access", new(2027, 1, 5)), new CheckedItem("fire ban", Eve)], plan.Checked);
        Assert.Equal(["permits", "closures", "season"], plan.NotChecked);
        Assert.Contains("Checked access 2027-01-05, fire ban 2027-06-13.", Flat(plan.ToText()), StringComparison.Ordinal);
        Assert.Contains("\"on\": \"2027-06-13\"", plan.ToJson(), StringComparison.Ordinal);
        Assert.DoesNotContain(plan.Findings, f => f.Code.StartsWith("planning.check-", StringComparison.Ordinal));
    }

    [Fact]
    public void Checks_TooOldOrInTheFuture_CountAsNotChecked()
    {
        RidePlan plan = Checked(("access", new(2019, 1, 1)), ("fire ban", new(2030, 1, 1)), ("closures", new(2027, 4, 1)), ("season", new(2027, 4, 20)), ("permits", new(2026, 6, 20)));
        Assert.Equal(["access", "closures", "fire ban"], plan.NotChecked);
        Assert.Equal(3, plan.Findings.Count(f => f is { Code: "planning.check-stale", Severity: FindingSeverity.Warning }));
        string text = Flat(plan.ToText(new PlanTextOptions { Details = false }));
        Assert.Contains("The check of access on 2019-01-01 is 3086 days before the ride; 365 days are trusted", text, StringComparison.Ordinal);
        Assert.Contains("The check of fire ban on 2030-01-01 lies after 2027-06-13", text, StringComparison.Ordinal);
        RideRequest longer = Rides.Request(samples: 64) with { Checked = new Dictionary<string, DateOnly> { ["closures"] = new(2027, 4, 1) } };
        Assert.DoesNotContain("closures", RidePlanner.Plan(longer with { Options = longer.Options with { ClosureCheckAge = TimeSpan.FromDays(90) } }).NotChecked);
    }

    [Fact]
    public void Checks_OfAMisspeltName_AreTold()
    {
        RidePlan plan = Checked(("acess", Eve));
        Assert.Contains("access", plan.NotChecked);
        Assert.Contains("'acess' is given as checked", Flat(plan.ToText(new PlanTextOptions { Details = false })), StringComparison.Ordinal);
    }

    [Fact]
    public void Levers_NameAnotherLampAndOneMoreSpare()
    {
        RideRequest r = Rides.Request() with { Devices = [Gear.HeadLamp()], KitItems = Gear.Usual };
        string[] names = [.. Lever.Usual(r).Select(l => l.Name)];
        Assert.Contains("take another lamp, of twice the charge of head lamp", names);
        Assert.Contains(names, n => n.StartsWith("take one more spare: ", StringComparison.Ordinal));
        Assert.Contains("take a lamp of 12 Wh", Lever.Usual(Rides.Request()).Select(l => l.Name));
    }

    [Fact]
    public void LampLever_LengthensTheLight_OfAPlanMadeAnew()
    {
        RideRequest r = Rides.Request(samples: 128) with { Start = Rides.Start.AddHours(12), Devices = [Gear.HeadLamp(800)] };
        Lever another = Lever.Usual(r).Single(l => l.Name.StartsWith("take another lamp", StringComparison.Ordinal));
        RideRequest changed = another.Change(r)!;
        Assert.Equal(2, changed.Devices.Count);
        RidePlan before = RidePlanner.Plan(r), after = RidePlanner.Plan(changed);
        PlanMargin[] light = [.. before.Margins.Where(m => m.Kind == MarginKind.LampLight)];
        Assert.NotEmpty(light);
        Assert.All(light, m => Assert.True(after.Margins.Single(x => x.Name == m.Name).Time > m.Time, $"{m.Name} {m.Amount}"));
        Assert.Null(another.Change(changed));
    }

    [Fact]
    public void SpareLever_LowersTheExpectedLoss_AndSaysSo()
    {
        RideRequest r = Rides.Request(Rides.Line(60), 128) with
        {
            KitItems = [new KitItem("tube", Mass.FromGrams(200), Volume.FromLiters(0.3), KitPlace.Bike, KitFunction.Tube), new KitItem("lever", Mass.FromGrams(20), Volume.FromLiters(0.02), KitPlace.Bike, KitFunction.TyreLever), new KitItem("pump", Mass.FromGrams(120), Volume.FromLiters(0.2), KitPlace.Bike, KitFunction.Air) { Uses = 20 }],
            FailureRates = new Dictionary<FailureKind, FailureRate> { [FailureKind.TubePuncture] = FailureRate.Known(1.0 / 60) },
        };
        RidePlan plan = RidePlanner.Levers(r);
        LeverEffect tube = plan.Levers.Single(l => l.Name == "take one more spare: tube");
        Assert.Matches(@"expected loss by breakdowns \d+\.\d -> \d+\.\d min", tube.Sentence);
        RideRequest more = Lever.Usual(r).Single(l => l.Name == tube.Name).Change(r)!;
        Assert.True(RidePlanner.Plan(more).KitPlan!.ExpectedLoss < RidePlanner.Plan(r).KitPlan!.ExpectedLoss);
    }

    [Fact]
    public void Pairs_AreNeverOfOneSort()
    {
        RidePlan plan = RidePlanner.Levers(Rides.Request(samples: 128) with { Start = Rides.Start.AddHours(9.5) });
        string[] pairs = [.. plan.Levers.Select(l => l.Name).Where(n => n.Contains(" and ", StringComparison.Ordinal))];
        Assert.NotEmpty(pairs);
        Assert.DoesNotContain(pairs, p => p.Split(" and ").Count(x => x.StartsWith("start ", StringComparison.Ordinal) || x.StartsWith("ride a day", StringComparison.Ordinal)) > 1);
        Assert.DoesNotContain(pairs, p => p.Split(" and ").Count(x => x.StartsWith("carry bottles", StringComparison.Ordinal)) > 1);
    }

    public static TheoryData<string> Absent =>
    [
        "room for water", "mass carried", "bike", "treatment of water", "height", "age", "oxygen uptake", "acclimatised to heat", "acclimatised to height", "lamp", "distress beacon", "power bank", "riding clothing", "surface and difficulty", "open fire",
    ];

    private static RideRequest Full() => Rides.Request(samples: 128) with
    {
        Route = Rides.Line().WithSections([new SoloRide.Routes.RouteSection(Length.Zero, Rides.Line().Length) { Surface = TrailSurface.Firm, Difficulty = TrailDifficulty.Level1 }]),
        Rider = new Rider { Mass = Mass.FromKilograms(80), Height = Length.FromMeters(1.8), AgeYears = 40, SustainedPower = Power.FromWatts(160), MaxOxygenUptakeMlPerKgMin = 45, HeatAcclimatised = Known.Yes, AltitudeAcclimatised = Known.Yes },
        Load = new Load { OnBody = Mass.FromKilograms(5), WaterCapacity = Volume.FromLiters(6.5) },
        Bike = new Bike { Mass = Mass.FromKilograms(13) },
        Sources = [new WaterSource { Name = "Dry Creek", AlongRoute = Length.FromKilometers(12), WetProbability = 0.8 }],
        Treatment = new SoloRide.Hydration.WaterTreatment(SoloRide.Hydration.WaterTreatmentMethod.None),
        Devices = [Gear.HeadLamp(), Gear.Phone],
        Bank = new PowerBank(5000),
        Beacon = new DistressBeacon(),
        FireAllowed = Known.No,
        Options = new PlanOptions { Samples = 128, ClothingClo = 0.5 },
    };

    private static RideRequest Without(string input) => input switch
    {
        "room for water" => Full() with { Load = new Load { OnBody = Mass.FromKilograms(5) } },
        "mass carried" => Full() with { Load = new Load { WaterCapacity = Volume.FromLiters(6.5) } },
        "bike" => Full() with { Bike = new Bike() },
        "treatment of water" => Full() with { Treatment = null },
        "height" => Full() with { Rider = Full().Rider with { Height = null } },
        "age" => Full() with { Rider = Full().Rider with { AgeYears = null } },
        "oxygen uptake" => Full() with { Rider = Full().Rider with { MaxOxygenUptakeMlPerKgMin = null } },
        "acclimatised to heat" => Full() with { Rider = Full().Rider with { HeatAcclimatised = Known.Unknown } },
        "acclimatised to height" => Full() with { Rider = Full().Rider with { AltitudeAcclimatised = Known.Unknown } },
        "lamp" => Full() with { Devices = [Gear.Phone] },
        "distress beacon" => Full() with { Beacon = null },
        "power bank" => Full() with { Bank = null },
        "riding clothing" => Full() with { Options = new PlanOptions { Samples = 128 } },
        "surface and difficulty" => Full() with { Route = Rides.Line() },
        "open fire" => Full() with { FireAllowed = Known.Unknown },
        _ => throw new ArgumentOutOfRangeException(nameof(input)),
    };

    [Theory]
    [MemberData(nameof(Absent))]
    public void EveryAbsentInput_IsSaid_WithItsStandIn(string input)
    {
        Assert.DoesNotContain(RidePlanner.Plan(Full()).Missing, m => m.Name == input);
        RidePlan plan = RidePlanner.Plan(Without(input));
        MissingInput missing = Assert.Single(plan.Missing, m => m.Name == input);
        Assert.NotEmpty(missing.StandIn);
        Assert.NotEmpty(missing.Effect);
        Assert.Contains(input, Flat(plan.ToText(new PlanTextOptions { Details = false })), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Effort_FromOxygenUptake_IsNotCalledAWidePrior()
    {
        RideRequest uptake = Full() with { Rider = Full().Rider with { SustainedPower = null } };
        Assert.DoesNotContain(RidePlanner.Plan(uptake).Findings, f => f.Code == "planning.no-rider");
        Assert.DoesNotContain(RidePlanner.Plan(uptake).Missing, m => m.Name == "sustained effort");
        RidePlan none = RidePlanner.Plan(uptake with { Rider = uptake.Rider with { MaxOxygenUptakeMlPerKgMin = null } });
        Assert.Contains("Sustained effort is not given: a wide prior", none.Findings.Single(f => f.Code == "planning.no-rider").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void NotGiven_StaysShort()
    {
        RidePlan bare = RidePlanner.Plan(new RideRequest { Route = Rides.Line(), Start = Rides.Start, Options = new PlanOptions { Samples = 128 } });
        string[] lines = bare.ToText(new PlanTextOptions { Details = false }).Split('\n');
        int from = Array.FindIndex(lines, l => l.StartsWith("Not given", StringComparison.Ordinal));
        Assert.InRange(lines.Skip(from + 1).TakeWhile(l => l.StartsWith(' ')).Count(), 3, 16);
    }
}
