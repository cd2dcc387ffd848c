using SoloRide.Batteries;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Tests.Planning;

/// <summary>Clocks that stand before the ride, open late, or move with the day; water where bottles are short. Facts of the made rides, no source needed.</summary>
public sealed class ClockTests
{
    private static DateTimeOffset At(int day, double hour) => new DateTimeOffset(2027, 6, day, 0, 0, 0, TimeSpan.FromHours(-6)).AddHours(hour);

    private static RideRequest From(double hour) => Rides.Request(samples: 256) with { Start = At(14, hour), PreparedAt = null };

    private static string Flat(RidePlan plan) => plan.ToText().Replace("\n               ", " ", StringComparison.Ordinal);

    [Fact]
    public void NightStart_WithoutALamp_LightEndedAtTheDuskBefore()
    {
        RidePlan plan = RidePlanner.Plan(From(22));
        Assert.Equal(PlanVerdictKind.DoesNotFit, plan.Verdict.Kind);
        PlanMargin dusk = plan.Margins.Single(m => m.Kind == MarginKind.Daylight);
        Assert.True(dusk.Time < TimeSpan.Zero, dusk.Amount);
        Assert.True(plan.LatestStart < plan.Start, $"{plan.LatestStart}");
        Assert.All(plan.Stations, s => Assert.True(s.LatestPass is null || s.LatestPass < plan.Start.AddHours(1)));

        // An hour and a half earlier is that much better, across the dusk too.
        double last = double.NegativeInfinity;
        for (double hour = 23; hour >= 15; hour -= 1.5)
        {
            double now = RidePlanner.Plan(From(hour)).Margins.Single(m => m.Kind == MarginKind.Daylight).Time!.Value.TotalMinutes;
            Assert.True(now >= last - 1e-6, $"{hour}: {now} after {last}");
            last = now;
        }
    }

    [Fact]
    public void NightStart_WithALamp_UsesTheLampFirst()
    {
        Device lamp = Device.Lamp("head lamp", DeviceKind.HeadLamp, CellPack.LithiumIon(2700), DeviceMode.Of("low", ModeUse.Lighting, 4, 4, 4));
        RidePlan dusk = RidePlanner.Plan(From(19.5) with { Devices = [lamp] }), night = RidePlanner.Plan(From(22) with { Devices = [lamp] });
        PlanMargin before = dusk.Margins.Single(m => m.Name.StartsWith("end of lamp light", StringComparison.Ordinal));
        PlanMargin after = night.Margins.Single(m => m.Name.StartsWith("end of lamp light", StringComparison.Ordinal));

        // Ten hours of dark and two hours of light: what is left after the start is the lamp alone.
        Assert.True(after.Time < before.Time);
        Assert.True(after.Time < TimeSpan.FromHours(2));
        Assert.Equal(MarginKind.LampLight, night.Margins.First(m => !m.AfterTrouble && !m.Holds).Kind);
    }

    [Fact]
    public void Lamp_PlanAndCharge_SpeakOfTheSameMode()
    {
        Device lamp = Device.Lamp(
            "head lamp", DeviceKind.HeadLamp, CellPack.LithiumIon(3200), DeviceMode.Of("middle", ModeUse.Lighting, 6, 6, 6), DeviceMode.Of("low", ModeUse.Lighting, 1.5, 1.5, 1.5), DeviceMode.Of("high", ModeUse.Lighting, 14, 14, 14));
        RidePlan plan = RidePlanner.Plan(From(20.5) with { Devices = [lamp] });
        PlanMargin energy = plan.Margins.Single(m => m.Name == "lamp energy of the best single lamp");
        DeviceOutlook outlook = plan.Devices.Single();
        Assert.Equal(energy.Holds, outlook.LastsProbability >= 0.9);
    }

    [Theory]
    [InlineData(0, false)] // thunder all day and before
    [InlineData(16, true)] // from 16:00 on
    public void Thunder_AlreadyThere_IsNotMendedByAnEarlierStart(int from, bool mends)
    {
        RidePlan plan = RidePlanner.Plan(From(17) with { Weather = Rides.Weather(thunderFrom: from) });
        Assert.Equal(PlanVerdictKind.DoesNotFit, plan.Verdict.Kind);
        Assert.Equal(mends, plan.LatestStart is not null);
        Assert.Equal(mends, plan.Verdict.Sentence.Contains("would mend", StringComparison.Ordinal));
        if (mends)
        {
            // What the plan promises holds: started then, the storm is passed.
            RidePlan mended = RidePlanner.Plan(From(17) with { Weather = Rides.Weather(thunderFrom: from), Start = plan.LatestStart!.Value.AddMinutes(-1) });
            Assert.True(mended.Margins.Where(m => m.Kind == MarginKind.Storm).All(m => m.Holds));
        }
        else
        {
            Assert.Contains("stands from the start on", Flat(plan), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void Opening_BeforeItsTime_IsToldAsTooEarly()
    {
        RideRequest gate = From(8) with { Deadlines = [new Deadline(DeadlineKind.Gate, "Gate", Length.FromKilometers(5), Length.FromKilometers(6), closes: null, opens: At(14, 12))] };
        RidePlan early = RidePlanner.Plan(gate);
        Assert.Equal(PlanVerdictKind.DoesNotFit, early.Verdict.Kind);
        Assert.Contains("too early", Flat(early), StringComparison.Ordinal);
        RidePlan late = RidePlanner.Plan(gate with { Start = At(14, 12) });
        Assert.DoesNotContain("too early", Flat(late), StringComparison.Ordinal);

        // The sweep's window begins where the gate is open on the way.
        StartSweep sweep = RidePlanner.SweepStarts(gate, At(14, 6), At(14, 14), TimeSpan.FromMinutes(30));
        (DateTimeOffset from, _) = Assert.Single(sweep.Windows);
        Assert.InRange(from, At(14, 11), At(14, 12));
    }

    [Fact]
    public void Sweep_OverDays_MovesTheRidesOwnClocks()
    {
        RideRequest gate = From(8) with { Weather = null, Deadlines = [new Deadline(DeadlineKind.Gate, "Gate", Length.Zero, Length.FromKilometers(20), At(14, 13))] };
        StartSweep sweep = RidePlanner.SweepStarts(gate, At(14, 6), At(16, 18), TimeSpan.FromHours(1));
        Assert.Equal(3, sweep.Windows.Count);
        Assert.Equal(sweep.Windows.Select(w => w.To.Hour).Distinct(), [sweep.Windows[0].To.Hour]);
        Lever tomorrow = Lever.Usual(gate).Single(l => l.Name == "ride a day later");
        Assert.Equal(At(15, 13), tomorrow.Change(gate)!.Deadlines.Single().Closes);
    }

    [Fact]
    public void Source_OfATrickle_GivesNoMoreThanItHolds()
    {
        RideRequest request = Rides.Request(Rides.Line(40), samples: 256) with
        {
            Weather = Rides.Weather(airC: 30),
            Load = new Load { WaterCapacity = Volume.FromLiters(3) },
            Sources = [new WaterSource { Name = "Trickle", AlongRoute = Length.FromKilometers(20), WetProbability = 1, Amount = Volume.FromLiters(0.2) }],
        };
        RidePlan trickle = RidePlanner.Plan(request);
        RidePlan spring = RidePlanner.Plan(request with { Sources = [request.Sources[0] with { Amount = null }] });
        PlanMargin little = trickle.Margins.Single(m => m is { Kind: MarginKind.Water, AfterTrouble: false }), much = spring.Margins.Single(m => m is { Kind: MarginKind.Water, AfterTrouble: false });
        Assert.True(little.ShortfallProbability > much.ShortfallProbability);
        Assert.False(little.Holds);
        double before = trickle.Stations.Single(s => s.Name == "Trickle").WaterInHand.High.Liters;
        Assert.All(trickle.Stations.Where(s => s.AlongRoute.Kilometers > 20.1), s => Assert.True(s.WaterInHand.High.Liters <= before + 0.2 + 1e-9));
    }

    /// <summary>The water point of no return counts what is wanted, not what the bottles allow: with too little carried it lies before the place where the bottles are dry.</summary>
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void NoReturn_WithTooLittleWater_LiesBeforeTheBottlesAreDry(double litres)
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(Rides.Line(60), samples: 256) with
        {
            Weather = Rides.Weather(airC: 32),
            StartWater = Volume.FromLiters(litres),
            Options = new PlanOptions { Samples = 256, WaterReserve = Volume.Zero },
        });
        NoReturn point = plan.PointsOfNoReturn.Single(p => p.Resource == ResourceKind.Water);
        PlanStation dry = plan.Stations.First(s => s.WaterInHand.Typical.Liters < 0.1);
        Assert.True(point.AlongRoute < dry.AlongRoute, $"{point.AlongRoute.Kilometers} km, dry at {dry.AlongRoute.Kilometers} km");
    }

    [Theory]
    [InlineData(4.5)]
    [InlineData(4.6)]
    [InlineData(3.8)]
    [InlineData(2)]
    [InlineData(6)]
    public void Water_VerdictWordsAndChance_Agree(double capacityL)
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(Rides.Line(50), samples: 1000) with
        {
            Weather = Rides.Weather(airC: 30),
            Load = new Load { WaterCapacity = Volume.FromLiters(capacityL) },
            Sources = [new WaterSource { Name = "Creek", AlongRoute = Length.FromKilometers(25), WetProbability = 0.55 }],
        });
        PlanMargin water = plan.Margins.Single(m => m is { Kind: MarginKind.Water, AfterTrouble: false });
        Assert.DoesNotContain("0.0 L missing", water.Amount, StringComparison.Ordinal);
        Assert.DoesNotContain("0.0 L missing", Flat(plan), StringComparison.Ordinal);
        if (water.Holds)
        {
            Assert.True(water.ShortfallProbability <= 0.1 + 1e-9, $"{water.ShortfallProbability}");
        }

        // A source that the plan fills at is not told as not counted on.
        if (plan.Needs!.Fills.Any(f => f.Name == "Creek"))
        {
            Assert.DoesNotContain("Not counted on: Creek", Flat(plan), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void NoWayOut_IsAConditionAndSaid()
    {
        RideRequest request = Rides.Request(samples: 64) with { Exits = [], EndsAreExits = false };
        RidePlan plan = RidePlanner.Plan(request);
        Assert.Equal(PlanVerdictKind.FitsIf, plan.Verdict.Kind);
        Assert.Contains("No way out is known.", plan.Verdict.Reasons);
        Assert.Contains("Bike fails     No way out is known", plan.ToText(), StringComparison.Ordinal);
    }

    /// <summary>A time that must not be passed is told in whole minutes that have not passed it.</summary>
    [Fact]
    public void LatestTimes_AreNeverRoundedUp()
    {
        foreach (int seed in Enumerable.Range(0, 12))
        {
            RidePlan plan = RidePlanner.Plan(Rides.Request(Rides.Line(20 + (seed * 1.37)), samples: 64));
            DateTimeOffset latest = plan.Zone.ToLocal(plan.LatestStart!.Value);
            string told = System.Text.RegularExpressions.Regex.Match(plan.ToText(), @"Latest start   (\d\d:\d\d)").Groups[1].Value;
            Assert.Equal(latest.ToString("HH:mm", System.Globalization.CultureInfo.InvariantCulture), told);
        }
    }

    [Theory]
    [InlineData(1)]
    [InlineData(1899)]
    [InlineData(2201)]
    [InlineData(9999)]
    public void Start_InAnImpossibleYear_SaysWhatIsAllowed(int year)
    {
        RideRequest request = Rides.Request(samples: 16) with { Start = new DateTimeOffset(year, 6, 14, 8, 0, 0, TimeSpan.Zero), PreparedAt = null };
        string message = Assert.Throws<ArgumentException>(() => RidePlanner.Plan(request)).Message;
        Assert.Contains($"Start is in the year {year}; it must lie in 1900 to 2200", message, StringComparison.Ordinal);
    }

    [Fact]
    public void Names_WithControlCharacters_DoNotReachTheTexts()
    {
        RidePlan plan = RidePlanner.Plan(Rides.Request(samples: 64) with
        {
            Title = "A\u0000B\u001b[31mC\u202ED",
            Exits = [new ExitPoint { Name = "Half\u0007 Way\u2067 Road", AlongRoute = Length.FromKilometers(10) }],
        });
        foreach (string text in new[] { plan.ToText(), plan.ToStrip(), plan.ToPackingList(), plan.ToTrailheadNote(), plan.ToEveningList(), plan.ToMarkdown() })
        {
            Assert.DoesNotContain(text, c => (char.IsControl(c) && c != '\n') || c is '\u202E' or '\u2067');
        }
    }
}
