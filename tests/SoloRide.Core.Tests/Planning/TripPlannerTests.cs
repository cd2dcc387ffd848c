using FsCheck;
using FsCheck.Xunit;
using SoloRide.Batteries;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Tests.Planning;

public sealed class TripPlannerTests
{
    private static Camp At(string name, double km, double? lowC = null, Known water = Known.Yes, Known mains = Known.Unknown, Known food = Known.Unknown)
        => new() { Name = name, AlongRoute = Length.FromKilometers(km), Water = water, Allowed = Known.Yes, NightLow = lowC is { } c ? Temperature.FromDegreesCelsius(c) : null, Mains = mains, Food = food };

    private static TripRequest Trip(int days = 3, int samples = 200, params Camp[] camps) => new()
    {
        Ride = Rides.Request(Rides.Line(90, 150, 11), samples) with { Exits = [new ExitPoint { Name = "Mid Road", AlongRoute = Length.FromKilometers(40) }], Weather = Rides.Weather(hours: 120), Devices = [Device.Phone("phone", 4000)] },
        Days = days,
        Camps = camps.Length > 0 ? camps : [At("Camp A", 22, 5), At("Camp B", 31, 1.9), At("Camp C", 48, 2), At("Camp D", 58, 4), At("Camp E", 71, -3)],
        SleepingLimit = Temperature.FromDegreesCelsius(2),
    };

    [Fact]
    public void Plan_ThreeDays_StartsEachDayWhereTheLastEnded()
    {
        TripPlan trip = TripPlanner.Plan(Trip());
        Assert.Equal(3, trip.Days.Count);
        for (int d = 0; d < 3; d++)
        {
            Assert.Equal(d + 1, trip.Days[d].Number);
            Assert.Equal(Rides.Start.AddDays(d), trip.Days[d].Plan.Start);
            Assert.Equal(trip.Days[d].Stage.To.Kilometers - trip.Days[d].Stage.From.Kilometers, trip.Days[d].Plan.Length.Kilometers, 3);
            Assert.NotNull(trip.Days[d].Plan.Needs);
            Assert.NotEmpty(trip.Days[d].Plan.Devices);
            Assert.True(trip.Days[d].Daylight > TimeSpan.FromHours(14));
        }

        Assert.Equal(Length.Zero, trip.Days[0].Stage.From);
        Assert.Equal(trip.Days[0].Stage.To, trip.Days[1].Stage.From);
        Assert.Equal(trip.Days[1].Stage.To, trip.Days[2].Stage.From);
        Assert.Null(trip.Days[2].Stage.Camp);
        Assert.Null(trip.Days[2].Rest);
        Assert.Equal(trip.LargestDay, trip.Days.Max(d => d.Stage.Effort));
    }

    // Mathematical truth: exhaustive search over all pairs of camps, with the effort that the plan itself counts.
    [Fact]
    public void Plan_LargestDay_EqualsExhaustiveSearch()
    {
        Camp[] camps = [.. Trip().Camps];
        TripPlan best = TripPlanner.Plan(Trip(samples: 0));
        TimeSpan least = TimeSpan.MaxValue;
        for (int i = 0; i < camps.Length; i++)
        {
            for (int j = i + 1; j < camps.Length; j++)
            {
                TimeSpan largest = TripPlanner.Plan(Trip(3, 0, camps[i], camps[j])).LargestDay;
                least = largest < least ? largest : least;
            }
        }

        Assert.Equal(least, best.LargestDay);
    }

    [Fact]
    public void Plan_Load_FallsWithFoodAndRisesWhereFoodIsHad()
    {
        TripPlan trip = TripPlanner.Plan(Trip(samples: 0));
        Assert.True(trip.Days[0].FoodCarried > trip.Days[1].FoodCarried && trip.Days[1].FoodCarried > trip.Days[2].FoodCarried);
        Assert.Equal(trip.Days[0].FoodCarried.Kilograms - trip.Days[1].FoodCarried.Kilograms, trip.Days[0].Food.Kilocalories * trip.Days[2].FoodCarried.Kilograms / trip.Days[2].Food.Kilocalories, 9);
        Assert.All(trip.Days, d => Assert.True(d.Food > Energy.FromKilocalories(1000)));

        TripPlan shop = TripPlanner.Plan(Trip(3, 0, At("Shop Camp", 31, 5, food: Known.Yes), At("Camp D", 58, 5)));
        TripPlan none = TripPlanner.Plan(Trip(3, 0, At("Shop Camp", 31, 5), At("Camp D", 58, 5)));
        Assert.True(shop.Days[0].FoodCarried < none.Days[0].FoodCarried);
        Assert.Equal(none.Days[1].FoodCarried.Kilograms, shop.Days[1].FoodCarried.Kilograms, 9);
        Assert.True(shop.Days[0].Plan.Moving!.Typical < none.Days[0].Plan.Moving!.Typical);
    }

    [Fact]
    public void Plan_ColdCamps_ExactlyThoseBelowTheLimitAreFlagged()
    {
        foreach (Camp camp in Trip().Camps)
        {
            TripPlan trip = TripPlanner.Plan(Trip(2, 0, camp));
            bool cold = camp.NightLow!.Value.DegreesCelsius < 2;
            Assert.Equal(cold, trip.Days[0].TooCold);
            Assert.Equal(cold, trip.Findings.Any(f => f.Code == "planning.camp-cold" && f.Subject == camp.Name));
        }

        TripPlan open = TripPlanner.Plan(Trip(2, 0, At("Camp C", 48)) with { SleepingLimit = null });
        Assert.Contains(open.Findings, f => f.Code == "planning.night-unknown");
        Assert.Equal(22, open.Days[0].NightLow!.Value.DegreesCelsius, 0);
    }

    [Fact]
    public void Plan_Charge_GoesDownByDayAndUpAtMains()
    {
        TripPlan trip = TripPlanner.Plan(Trip(3, 0, At("Camp A", 31, 5), At("Hut D", 58, 5, mains: Known.Yes)));
        Assert.Equal(100, trip.Days[0].ChargeAtStart[0].Left.Percent, 6);
        Assert.True(trip.Days[1].ChargeAtStart[0].Left.Percent < 99);
        Assert.Equal(trip.Days[0].Plan.Devices[0].AtFinish.Typical.Percent, trip.Days[1].ChargeAtStart[0].Left.Percent, 6);
        Assert.Equal(100, trip.Days[2].ChargeAtStart[0].Left.Percent, 6);

        TripRequest withBank = Trip(3, 0, At("Camp A", 31, 5), At("Camp D", 58, 5));
        TripPlan bank = TripPlanner.Plan(withBank with { Ride = withBank.Ride with { Bank = new PowerBank(10_000) } });
        Assert.Equal(100, bank.Days[1].ChargeAtStart[0].Left.Percent, 1);
        Assert.True(bank.Days[1].ChargeAtStart[^1].Left < bank.Days[0].ChargeAtStart[^1].Left);
        Assert.True(bank.Days[2].ChargeAtStart[^1].Left < bank.Days[1].ChargeAtStart[^1].Left);
    }

    [Fact]
    public void Plan_CampWithoutKnownWater_IsReachedWithWaterForTheNight()
    {
        TripPlan dry = TripPlanner.Plan(Trip(2, 200, At("Dry Camp", 45, 5, Known.Unknown)));
        TripPlan wet = TripPlanner.Plan(Trip(2, 200, At("Wet Camp", 45, 5)));
        Assert.True(dry.Days[0].BringToCamp!.Value.Liters >= 2 + dry.Days[1].WaterAtStart.Liters - 0.3);
        Assert.Null(wet.Days[0].BringToCamp);
        Assert.True(dry.Days[0].Plan.Margins.Where(m => m.Kind == MarginKind.Water && !m.AfterTrouble).Min(m => m.InHandFraction) < wet.Days[0].Plan.Margins.Where(m => m.Kind == MarginKind.Water && !m.AfterTrouble).Min(m => m.InHandFraction)
            || dry.Days[0].WaterAtStart > wet.Days[0].WaterAtStart);
    }

    [Fact]
    public void Plan_Days_ShareTheirFactor()
    {
        TripPlan trip = TripPlanner.Plan(Trip(3, 1000));
        double sumHigh = trip.Days.Sum(d => d.Plan.Moving!.High.TotalMinutes), sumLow = trip.Days.Sum(d => d.Plan.Moving!.Low.TotalMinutes);
        double independent = Math.Sqrt(trip.Days.Sum(d => Math.Pow((d.Plan.Moving!.High - d.Plan.Moving.Low).TotalMinutes, 2)));
        double range = (trip.Moving!.High - trip.Moving.Low).TotalMinutes;
        Assert.InRange(range, independent * 1.3, sumHigh - sumLow + 1);
        Assert.True(range > 0.9 * (sumHigh - sumLow), $"{range} of {sumHigh - sumLow}, independent {independent}");
    }

    [Fact]
    public void Plan_DeadlineOfALaterDay_BindsThatDay()
    {
        TripRequest trip = Trip(3, 0, At("Camp A", 31, 5), At("Camp D", 58, 5));
        var gate = new Deadline(DeadlineKind.Gate, "gate of day two", Length.FromKilometers(40), Length.FromKilometers(41), Rides.Start.AddDays(1).AddHours(1));
        TripPlan plan = TripPlanner.Plan(trip with { Ride = trip.Ride with { Deadlines = [gate] } });
        Assert.DoesNotContain(plan.Days[0].Plan.Margins, m => m.Name.Contains("gate", StringComparison.Ordinal));
        Assert.Contains(plan.Days[1].Plan.Margins, m => m.Name.Contains("gate", StringComparison.Ordinal));
        Assert.DoesNotContain(plan.Days[2].Plan.Margins, m => m.Name.Contains("gate", StringComparison.Ordinal));
    }

    [Fact]
    public void Plan_ShortNight_MovesTheNextStartAndSaysSo()
    {
        TripRequest request = Trip(2, 0, At("Late Camp", 85, 5)) with { LaterStart = new TimeOnly(4, 0), LeastRest = TimeSpan.FromHours(12) };
        TripPlan plan = TripPlanner.Plan(request);
        Assert.Contains(plan.Findings, f => f.Code == "planning.rest-short");
        DateTimeOffset asked = new(Rides.Start.Date.AddDays(1).AddHours(4), Rides.Start.Offset);
        Assert.True(plan.Days[1].StartMoved > TimeSpan.Zero);
        Assert.Equal(asked + plan.Days[1].StartMoved, plan.Days[1].Plan.Start);
        Assert.InRange(plan.Days[0].Rest!.Value, request.LeastRest, request.LeastRest + TimeSpan.FromMinutes(1));
        Assert.Equal(TimeSpan.Zero, plan.Days[0].StartMoved);

        // The moved day is the plan of a trip that asked for that start.
        TripPlan same = TripPlanner.Plan(request with { LaterStart = TimeOnly.FromDateTime(plan.Days[1].Plan.Start.DateTime) });
        if (plan.Days[1].Plan.Start.Date == asked.Date)
        {
            Assert.Equal(same.Days[1].Plan.ToJson(), plan.Days[1].Plan.ToJson());
        }
    }

    [Fact]
    public void Plan_ShortNightAtADryCamp_BringsWaterForTheMovedDay()
    {
        TripRequest request = Trip(2, 0, At("Dry Camp", 70, 5, Known.Unknown)) with { LaterStart = new TimeOnly(4, 0), LeastRest = TimeSpan.FromHours(12) };
        TripPlan plan = TripPlanner.Plan(request);
        Assert.True(plan.Days[1].StartMoved > TimeSpan.Zero);
        Assert.Equal(request.CampWater.Liters + plan.Days[1].WaterAtStart.Liters, plan.Days[0].BringToCamp!.Value.Liters, 6);
    }

    [Fact]
    public void Plan_LongNight_LeavesTheClock()
    {
        TripPlan plan = TripPlanner.Plan(Trip(2, 0, At("Camp", 45, 5)) with { LeastRest = TimeSpan.FromHours(1) });
        Assert.All(plan.Days, d => Assert.Equal(TimeSpan.Zero, d.StartMoved));
    }

    [Fact]
    public void Plan_NoSplitOrNoHeights_SaysWhy()
    {
        TripPlan none = TripPlanner.Plan(Trip(4, 0, At("Only", 40)));
        Assert.Empty(none.Days);
        Assert.Contains("No plan", none.ToText(), StringComparison.Ordinal);
        TripRequest flat = Trip(2, 0, At("Camp", 40));
        TripPlan refused = TripPlanner.Plan(flat with { Ride = flat.Ride with { Route = Rides.Line(90, heights: false) } });
        Assert.Equal(PlanVerdictKind.Refused, refused.Verdict);
        Assert.Contains(refused.Findings, f => f.Code == "planning.no-heights");
    }

    [Property(MaxTest = 6)]
    [Checks(typeof(TripPlanner), CheckKind.Property)]
    public bool Plan_AnyTrip_IsAPureFunctionAndItsDaysCoverTheRoute(byte seed)
    {
        var random = new System.Random(seed);
        Camp[] camps = [.. Enumerable.Range(0, 3).Select(i => At($"camp {i}", 15 + (20 * i) + (random.NextDouble() * 15), random.Next(-5, 10), random.Next(2) == 0 ? Known.Yes : Known.Unknown))];
        TripRequest request = Trip(2 + random.Next(2), 20, camps);
        TripPlan a = TripPlanner.Plan(request), b = TripPlanner.Plan(request);
        return a.ToText() == b.ToText()
            && Math.Abs(a.Days.Sum(d => d.Plan.Length.Kilometers) - request.Ride.Route.Length.Kilometers) < 0.05
            && a.Days.Zip(a.Days.Skip(1)).All(x => x.Second.FoodCarried < x.First.FoodCarried)
            && a.Days.All(d => d.TooCold == (d.NightLow?.DegreesCelsius < 2))
            && a.ToText().Split('\n').All(l => l.Length <= 96);
    }

    [Fact]
    [Checks(typeof(TripPlanner), CheckKind.BadInput)]
    public void Plan_BadInput_SaysWhat()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Trip(0));
        Assert.Contains("Far Camp", Assert.Throws<ArgumentException>(() => TripPlanner.Plan(Trip(2, 0, At("Far Camp", 95)))).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentNullException>(() => TripPlanner.Plan(null!));
        Assert.Throws<OperationCanceledException>(() => TripPlanner.Plan(Trip(), cancel: new CancellationToken(true)));
    }

    [Fact]
    public void ToText_Trip_HasWhatEachDayNeedsAndTheCautions()
    {
        string text = TripPlanner.Plan(Trip()).ToText();
        foreach (string word in new[] { "Day 1", "Day 2", "Day 3", "kcal", "Charge at the start", Cautions.Text[..20] })
        {
            Assert.Contains(word, text.ReplaceLineEndings(" "), StringComparison.Ordinal);
        }
    }

    [Fact]
    public void ToText_Trip_InUsUnits_HasNoMetricOnes_AndFitsThePage()
    {
        string us = TripPlanner.Plan(Trip()).ToText(new PlanTextOptions { Units = MeasureSystem.UsCustomary });
        Assert.Contains("mi  ", us, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\bkm\b|\d L\b|\d C\b|\d kg\b", us);
        Assert.All(us.Split('\n'), l => Assert.True(l.Length <= 80, l));
    }
}
