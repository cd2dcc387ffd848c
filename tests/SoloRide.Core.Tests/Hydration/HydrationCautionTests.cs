using SoloRide.Hydration;
using UnitsNet;

namespace SoloRide.Tests.Hydration;

/// <summary>One text, in every result that people read.</summary>
public sealed class HydrationCautionTests
{
    [Fact]
    public void Results_InText_CarryEveryCaution()
    {
        var rider = new Rider { Mass = Mass.FromKilograms(75) };
        SweatEstimate sweat = SweatRateEstimator.Estimate(new SweatConditions
        {
            Rider = rider,
            Weather = Weather.Unknown with { AirTempC = 28, RelHumidityPct = 40, WindMps = 1.5 },
            MetabolicRate = Power.FromWatts(500),
        });
        var demand = new WaterDemand(Length.Zero, Length.FromKilometers(30), Estimate.Exact(Volume.FromLiters(3)));
        var ride = new WaterCarryRequest { Demand = [demand], Capacity = Volume.FromLiters(5) };
        object[] results =
        [
            sweat, SodiumEstimator.Estimate(rider, sweat.Rate), HydrationLedger.Run(rider, [new HydrationStep(TimeSpan.FromHours(3), sweat.Rate)]),
            WaterCarryPlanner.Plan(ride), FilterOrCarryCalculator.Compare(ride, new TreatmentKit { Method = new WaterTreatment(WaterTreatmentMethod.Filter), Mass = Mass.FromKilograms(0.2) }),
        ];
        foreach (object result in results)
        {
            string text = result.ToString()!;
            Assert.All(HydrationCautions.All, c => Assert.True(text.Contains(c, StringComparison.Ordinal), $"{result.GetType().Name} lacks: {c}"));
        }

        Assert.All(Cautions.Sentences, c => Assert.Contains(c, HydrationCautions.All));
    }

    [Fact]
    public void Types_WithFindings_AreAllInTheTestAbove()
        => Assert.Equal(
            ["FilterOrCarry", "HydrationLedger", "SodiumEstimate", "SweatEstimate", "WaterCarryPlan"],
            typeof(SweatEstimate).Assembly.GetExportedTypes().Where(t => t.Namespace == "SoloRide.Hydration" && t.GetProperty("Cautions") is not null).Select(t => t.Name).Order(StringComparer.Ordinal));
}
