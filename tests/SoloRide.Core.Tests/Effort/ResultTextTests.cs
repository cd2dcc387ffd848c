using SoloRide.Effort;
using UnitsNet;

namespace SoloRide.Tests.Effort;

/// <summary>What a user reads who prints a result: figures with their units, findings, cautions. Regression; the suite's culture is a foreign one.</summary>
public sealed class ResultTextTests
{
    private static PaceModel Model() => PaceModel.For(new Rider { Mass = Mass.FromKilograms(76), SustainedPower = Power.FromWatts(165) });

    [Fact]
    public void ReserveCost_AsText_SaysWhatWasAskedForAndNoMore()
    {
        var reserve = new PaceReserve { PowerFraction = 0.15, TechnicalFraction = 0.2 };
        TrailStep[] trail = Trails.Mixed(30, 700);
        string bare = Model().CostOf(reserve, trail).ToString();
        Assert.StartsWith("Left unused: 15 % of the sustained power, 20 % of the technical speed.\n", bare, StringComparison.Ordinal);
        Assert.Contains(" more. From start to end ", bare, StringComparison.Ordinal);
        Assert.Contains("Nothing is claimed about injuries and breakages.", bare, StringComparison.Ordinal);
        Assert.DoesNotContain("dusk", bare, StringComparison.Ordinal);
        Assert.DoesNotContain("Water:", bare, StringComparison.Ordinal);
        Assert.EndsWith(Cautions.Text, bare, StringComparison.Ordinal);
        string asked = Model().CostOf(reserve, trail, stakes: new ReserveStakes
        {
            UntilDusk = TimeSpan.FromHours(4), WaterRate = VolumeFlow.FromLitersPerHour(0.6), WaterRateWithReserve = VolumeFlow.FromLitersPerHour(0.3), InjuryRateFactor = 0.8,
        }).ToString();
        Assert.Contains("Left until dusk ", asked, StringComparison.Ordinal);
        Assert.Contains(" L less.", asked, StringComparison.Ordinal);
        Assert.Contains("injuries times 0.", asked, StringComparison.Ordinal);
        Assert.Contains("breakages not asked", asked, StringComparison.Ordinal);
    }

    [Fact]
    public void RidePace_AsText_HasTimesModesAndEnergy()
    {
        RidePace pace = Model().Along(Trails.Mixed(30, 700));
        string text = pace.ToString();
        Assert.StartsWith($"From start to end {pace.Elapsed}: in motion {pace.Moving}", text, StringComparison.Ordinal);
        Assert.Contains("Ride ", text, StringComparison.Ordinal);
        Assert.Contains(" kcal", text, StringComparison.Ordinal);
        Assert.Contains(Cautions.Sentences[0], text, StringComparison.Ordinal);
    }

    [Fact]
    public void FoodPlan_AsText_HasNeedFoodsReserveAndPack()
    {
        FoodPlan plan = FoodPlanner.Plan(new FoodRequest
        {
            Rider = new Rider { Mass = Mass.FromKilograms(76), AgeYears = 40 },
            Days = [new FoodDay(TimeSpan.FromHours(6), TimeSpan.FromHours(5), Energy.FromKilocalories(3000))],
        });
        string text = plan.ToString();
        Assert.StartsWith("Need 3 000 kcal", text, StringComparison.Ordinal);
        Assert.Contains("advised 360 to 540 g".Replace(" to ", " g to ", StringComparison.Ordinal), text, StringComparison.Ordinal);
        Assert.All(plan.Eat, p => Assert.Contains(p.Food.Name, text, StringComparison.Ordinal));
        Assert.Contains("Stays unopened: ", text, StringComparison.Ordinal);
        Assert.Contains("In the pack ", text, StringComparison.Ordinal);
        Assert.Contains("Medical questions: a doctor.", text, StringComparison.Ordinal);
    }

    [Fact]
    public void EnergyReading_AsText_HasRangeSpanAndMethod()
    {
        EnergyReading r = EnergyEstimator.FromCycling(new Rider { Mass = Mass.FromKilograms(76) }, Power.FromWatts(250), TimeSpan.FromMinutes(90));
        Assert.StartsWith($"{r.Energy} in 1 h 30, by leg-cycling equation.", r.ToString(), StringComparison.Ordinal);
        Assert.Contains("50 to 200 W", r.ToString(), StringComparison.Ordinal);
    }
}
