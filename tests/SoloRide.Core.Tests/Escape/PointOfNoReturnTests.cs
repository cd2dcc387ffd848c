using System.Globalization;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Escape;
using UnitsNet;

namespace SoloRide.Tests.Escape;

public sealed class PointOfNoReturnTests
{
    /// <summary>Forms and 278 nm published (flight-training article, rule RV10; aviation article, rule RV11); further digits own arithmetic.</summary>
    [Fact]
    [Checks(typeof(PointOfNoReturnPlanner), CheckKind.Outside)]
    public void ClosedForms_MeetTheTable()
    {
        foreach (CsvRow row in KernelTableTests.Table("pnr_etp_checks.csv").Rows)
        {
            KernelTableTests.Close(row["quantity"].StartsWith("piecewise", StringComparison.Ordinal) ? row["value"].Split('+')[1] : row["value"], Value(row));
        }
    }

    /// <summary>A descent-first canyon whose return takes twice as long: one third of the time down, two thirds up (park guideline, rule RV7, second-hand).</summary>
    [Fact]
    public void ReturnTwiceAsSlow_TurnsAtOneThird()
    {
        (Length d, TimeSpan t) = PointOfNoReturnPlanner.AtConstantSpeed(TimeSpan.FromHours(9), Speed.FromKilometersPerHour(4), Speed.FromKilometersPerHour(2));
        Assert.Equal(3, t.TotalHours, 9);
        Assert.Equal(12, d.Kilometers, 9);
    }

    [Fact]
    public void Refills_CountByTheirChance()
    {
        // One litre an hour, one hour a kilometre both ways, four litres carried: all dry the turn is at km 2. The source at km 1 brings it back to four.
        ReturnLeg[] legs = [.. Enumerable.Range(0, 10).Select(_ => new ReturnLeg(Length.FromKilometers(1), TimeSpan.FromHours(1), TimeSpan.FromHours(1)))];
        ResourceRate[] rates = [new(ResourceKind.Water, TravelMode.Ride, 1)];
        Assert.Equal((2.0, 2.5), Find(0.95, 0.9));
        Assert.Equal((2.0, 2.0), Find(0.8, 0.9));
        Assert.Equal((2.5, 2.5), Find(1, 0.9));
        Assert.Equal((2.0, 2.0), Find(null, 0.9));

        (double, double) Find(double? wet, double confidence)
        {
            var account = new ResourceAccount(ResourceAmount.Water(Volume.FromLiters(4)), ResourceAmount.Water(Volume.Zero))
            {
                Refills = [new WaterSource { Name = "creek", AlongRoute = Length.FromKilometers(1), WetProbability = wet }],
            };
            PointsOfNoReturn p = PointOfNoReturnPlanner.Find(legs, [account], rates, confidenceProbability: confidence);
            Assert.Equal(wet is > 0.9 and < 1, p.Findings.Any(f => f.Code == EscapeFindingCodes.RefillUncertain));
            return (Math.Round(p.Points[0].AllDry!.Value.Kilometers, 9), Math.Round(p.Points[0].AtConfidence!.Value.Kilometers, 9));
        }
    }

    /// <summary>A ledger that says what constant rates say gives the same points; with use of its own the place moves to where the sums say.</summary>
    [Property(MaxTest = 100)]
    public void Ledger_OfConstantRates_GivesTheSamePoints(int seed)
    {
        var random = new Random(seed);
        ReturnLeg[] legs = [.. Enumerable.Range(0, random.Next(1, 9)).Select(_ => new ReturnLeg(Length.FromMeters(random.Next(100, 5000)), TimeSpan.FromMinutes(random.Next(1, 90)), TimeSpan.FromMinutes(random.Next(1, 90))))];
        const double Rate = 0.7;
        var plain = new ResourceAccount(ResourceAmount.Water(Volume.FromLiters(random.Next(1, 8))), ResourceAmount.Water(Volume.FromLiters(0.5)))
        {
            Refills = [new WaterSource { Name = "creek", AlongRoute = Length.FromMeters(random.Next(1, 20_000)), WetProbability = random.NextDouble() }],
        };
        ResourceAmount Of(TimeSpan t) => ResourceAmount.Water(Volume.FromLiters(Rate * t.TotalHours));
        ResourceAccount own = plain with { Ledger = ResourceLedger.PerLeg(legs, [.. legs.Select(l => Of(l.Out))], [.. legs.Select(l => Of(l.Home))]) };
        PointOfNoReturn a = PointOfNoReturnPlanner.Find(legs, [plain], [new ResourceRate(ResourceKind.Water, TravelMode.Ride, Rate)]).Points[0];
        PointOfNoReturn b = PointOfNoReturnPlanner.Find(legs, [own], []).Points[0];
        Assert.Equal(a.AllDry?.Meters ?? -1, b.AllDry?.Meters ?? -1, 1e-6);
        Assert.Equal(a.AtConfidence?.Meters ?? -1, b.AtConfidence?.Meters ?? -1, 1e-6);
        Assert.Equal(a.TimeAfterStart?.TotalSeconds ?? -1, b.TimeAfterStart?.TotalSeconds ?? -1, 1e-3);
    }

    [Fact]
    public void Ledger_PerLegUse_MovesThePoint_AndBadOnesAreNamed()
    {
        // Three legs of 2 km. Water out 0.5, 2 (a hot climb), 0.5 L; home 0.3, 0.3, 0.3 L; 3 L carried, 0.5 kept: 0.8 after one leg, 0.8 + 2.3 y = 2.5.
        ReturnLeg[] legs = [.. Enumerable.Range(0, 3).Select(_ => new ReturnLeg(Length.FromKilometers(2), TimeSpan.FromHours(1), TimeSpan.FromHours(1)))];
        static ResourceAmount L(double litres) => ResourceAmount.Water(Volume.FromLiters(litres));
        ResourceLedger ledger = ResourceLedger.PerLeg(legs, [L(0.5), L(2), L(0.5)], [L(0.3), L(0.3), L(0.3)]);
        var account = new ResourceAccount(L(3), L(0.5)) { Ledger = ledger };
        PointsOfNoReturn p = PointOfNoReturnPlanner.Find(legs, [account, new ResourceAccount(ResourceAmount.Time(TimeSpan.FromHours(5)), ResourceAmount.Time(TimeSpan.Zero))], []);
        Assert.Equal(2 + (2 * 1.7 / 2.3), p.Points[0].AllDry!.Value.Kilometers, 9);
        Assert.Equal(5, p.Points[1].AllDry!.Value.Kilometers, 9);
        Assert.Equal(ResourceKind.Water, p.Binding!.Kind);

        // With a profile, and no way home past km 3.
        ExitGraph graph = ExitGraph.Build(new EscapeRoute { Steps = [new TrailStep(6000, 0)], Exits = [ExitGraphTests.On("a", 0)] });
        WalkOutProfile home = graph.WalkOut(EscapePace.For(TravelMode.Walk));
        ResourceLedger stops = ResourceLedger.Of([new(Length.Zero, L(0), L(0)), new(Length.FromKilometers(3), L(0.1), L(0.1)), new(Length.FromKilometers(6), L(0.2), null)]);
        Assert.Equal(3, PointOfNoReturnPlanner.Find([TimeSpan.FromHours(1)], home, [account with { Ledger = stops }], []).Points[0].AllDry!.Value.Kilometers, 9);

        Says("entries[1]", () => ResourceLedger.Of([new(Length.Zero, L(1), L(0)), new(Length.FromKilometers(1), L(0.5), L(0))]));
        Says("entries[1]", () => ResourceLedger.Of([new(Length.Zero, L(0), L(0)), new(Length.Zero, L(1), L(0))]));
        Says("one kind", () => ResourceLedger.Of([new(Length.Zero, L(0), L(0)), new(Length.FromKilometers(1), ResourceAmount.Time(TimeSpan.Zero), L(0))]));
        Says("at least two", () => ResourceLedger.Of([]));
        Says("reaches from", () => PointOfNoReturnPlanner.Find([.. legs, legs[0]], [account], []));
        Says("Water", () => new ResourceAccount(ResourceAmount.Time(TimeSpan.Zero), ResourceAmount.Time(TimeSpan.Zero)) { Ledger = ledger });

        static void Says(string text, Func<object> act) => Assert.Contains(text, Assert.ThrowsAny<ArgumentException>(act).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void WithProfile_HomeIsTheNearestWayOut_AndTheBindingResourceIsTheFirst()
    {
        // Exits at both ends of 20 km, 1 h/km everywhere; 13 h of light and 12 L at 1 L/h: out s, home min(s, 20 - s).
        ExitGraph graph = ExitGraph.Build(new EscapeRoute { Steps = [new TrailStep(20_000, 0)], Exits = [ExitGraphTests.On("a", 0), ExitGraphTests.On("b", 20_000)] });
        WalkOutProfile home = graph.WalkOut(EscapePace.FromFunction("1 km/h", TravelMode.Walk, s => TimeSpan.FromHours(s.LengthM / 1000)));
        var water = new ResourceAccount(ResourceAmount.Water(Volume.FromLiters(14)), ResourceAmount.Water(Volume.FromLiters(2)));
        var time = new ResourceAccount(ResourceAmount.Time(TimeSpan.FromHours(13)), ResourceAmount.Time(TimeSpan.Zero));
        var rich = new ResourceAccount(ResourceAmount.Food(Energy.FromKilocalories(2001)), ResourceAmount.Food(Energy.Zero));
        ResourceRate[] rates = [new(ResourceKind.Water, TravelMode.Ride, 1), new(ResourceKind.Water, TravelMode.Walk, 1), new(ResourceKind.Food, TravelMode.Ride, 100), new(ResourceKind.Food, TravelMode.Walk, 100)];
        PointsOfNoReturn p = PointOfNoReturnPlanner.Find([TimeSpan.FromHours(20)], home, [time, water, rich], rates);
        Assert.Equal(6.5, p.Points[0].AllDry!.Value.Kilometers, 9);
        Assert.Equal(6.0, p.Points[1].AllDry!.Value.Kilometers, 9);
        Assert.Null(p.Points[2].AllDry);
        Assert.Equal(ResourceKind.Water, p.Binding!.Kind);
        Assert.Equal(6.0, p.Binding.TimeAfterStart!.Value.TotalHours, 9);
    }

    /// <summary>With equal costs out and home the point of no return is half-way of what the account allows; more reserve never moves it on.</summary>
    [Property(MaxTest = 100)]
    [Checks(typeof(PointOfNoReturnPlanner), CheckKind.Property)]
    public void SymmetricCosts_TurnHalfWay(int seed)
    {
        var random = new Random(seed);
        ReturnLeg[] legs = [.. Enumerable.Range(0, random.Next(1, 12)).Select(_ => TimeSpan.FromMinutes(random.Next(1, 90))).Select(t => new ReturnLeg(Length.FromMeters(t.TotalMinutes * 70), t, t))];
        double total = legs.Sum(l => l.Out.TotalHours), m = legs.Sum(l => l.Length.Meters);
        double hours = total * 2 * (0.05 + (0.9 * random.NextDouble()));
        double At(double reserve) => PointOfNoReturnPlanner.Find(legs, [new ResourceAccount(ResourceAmount.Time(TimeSpan.FromHours(hours)), ResourceAmount.Time(TimeSpan.FromHours(reserve)))], []).Points[0].AllDry!.Value.Meters;
        Assert.InRange(At(0) - (m * hours / (2 * total)), -1e-3, 1e-3);
        Assert.True(At(hours / 10) <= At(0) + 1e-9);
    }

    [Fact]
    [Checks(typeof(PointOfNoReturnPlanner), CheckKind.BadInput)]
    public void BadInput_NamesTheItem()
    {
        var water = new ResourceAccount(ResourceAmount.Water(Volume.FromLiters(1)), ResourceAmount.Water(Volume.Zero));
        var leg = new ReturnLeg(Length.FromKilometers(1), TimeSpan.FromHours(1), TimeSpan.FromHours(1));
        Assert.Contains("Water", Assert.Throws<ArgumentException>(() => PointOfNoReturnPlanner.Find([leg], [water], [])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => PointOfNoReturnPlanner.Find([], [water], []));
        Assert.Throws<ArgumentException>(() => new ResourceAccount(ResourceAmount.Water(Volume.FromLiters(1)), ResourceAmount.Time(TimeSpan.Zero)));
        Assert.Throws<ArgumentOutOfRangeException>(() => ResourceAmount.Water(Volume.FromLiters(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => PointOfNoReturnPlanner.AtConstantSpeed(TimeSpan.FromHours(1), Speed.Zero, Speed.FromKilometersPerHour(3)));
        Assert.Throws<ArgumentOutOfRangeException>(() => PointOfNoReturnPlanner.EqualTimeDistance(Length.FromKilometers(1), Speed.FromKilometersPerHour(3), Speed.FromKilometersPerHour(-3)));
        var blind = water with { Refills = [new WaterSource { Name = "seep", WetProbability = 1 }] };
        Assert.Contains("'seep'", Assert.Throws<ArgumentException>(() => PointOfNoReturnPlanner.Find([leg], [blind], [new ResourceRate(ResourceKind.Water, TravelMode.Ride, 1)])).Message, StringComparison.Ordinal);
    }

    private static double Value(CsvRow row)
    {
        double o = row.Num("gs_out"), h = row.Num("gs_home"), e = row.Num("endurance_or_time");
        switch (row["quantity"])
        {
            case "equal_time_distance":
                return PointOfNoReturnPlanner.EqualTimeDistance(Length.FromNauticalMiles(row.Num("D")), Speed.FromKnots(o), Speed.FromKnots(h)).NauticalMiles;
            case "equal_time_time":
                return PnrKernel.EqualTimeTime(row.Num("D"), o, h, e);
            case "point_of_no_return_distance":
                return PointOfNoReturnPlanner.AtConstantSpeed(TimeSpan.FromHours(e), Speed.FromKnots(o), Speed.FromKnots(h)).Distance.NauticalMiles;
            case "point_of_no_return_time":
                return PointOfNoReturnPlanner.AtConstantSpeed(TimeSpan.FromHours(e), Speed.FromKnots(o), Speed.FromKnots(h)).TimeOut.TotalHours;
            default:
                double[] on = Numbers(row["D"]), back = Numbers(row["gs_out"]);
                ReturnLeg[] legs = [.. on.Zip(back, (a, b) => new ReturnLeg(Length.FromKilometers(1), TimeSpan.FromHours(a), TimeSpan.FromHours(b)))];
                double km = PointOfNoReturnPlanner.Find(legs, [new ResourceAccount(ResourceAmount.Time(TimeSpan.FromHours(e)), ResourceAmount.Time(TimeSpan.Zero))], []).Points[0].AllDry!.Value.Kilometers;
                Assert.Equal(row["value"].Split('+')[0], Math.Floor(km).ToString(CultureInfo.InvariantCulture));
                return km - Math.Floor(km);
        }
    }

    private static double[] Numbers(string text) => [.. text.Split('=')[^1].Split('|').Select(v => double.Parse(v, CultureInfo.InvariantCulture))];
}
