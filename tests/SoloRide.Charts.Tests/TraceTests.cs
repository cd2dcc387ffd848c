using SoloRide.Planning;

namespace SoloRide.Charts.Tests;

/// <summary>Laws of the courses that the pictures are drawn from.</summary>
public sealed class TraceTests
{
    [Fact]
    public void Trace_GoesForward_AndItsSumsNeverFall()
    {
        IReadOnlyList<PlanTracePoint> t = Demo.Plan.Trace;
        Assert.True(t.Count > 50);
        Assert.Equal(0, t[0].AlongRoute.Meters);
        Assert.Equal(Demo.Plan.Start, t[0].At);
        Assert.InRange(t[^1].AlongRoute.Meters, Demo.Plan.Length.Meters - 50, Demo.Plan.Length.Meters + 50);
        for (int i = 1; i < t.Count; i++)
        {
            Assert.True(t[i].AlongRoute > t[i - 1].AlongRoute);
            Assert.True(t[i].At >= t[i - 1].At);
            Assert.True(t[i].Sweat >= t[i - 1].Sweat);
            Assert.True(t[i].Drunk >= t[i - 1].Drunk);
            Assert.True(t[i].EnergyUsed >= t[i - 1].EnergyUsed);
            Assert.True(t[i].WaterInHand.Liters >= 0);
            Assert.InRange(t[i].RectalTemperature!.Value.DegreesCelsius, 35, 43);
            Assert.InRange(t[i].BodyWaterLossFraction, 0, 0.2);
        }
    }

    /// <summary>What is in hand at the end is what was carried and filled less what was drunk.</summary>
    [Fact]
    public void Water_BalancesBetweenFills()
    {
        IReadOnlyList<PlanTracePoint> t = Demo.Plan.Trace;
        for (int i = 1; i < t.Count; i++)
        {
            double drunk = t[i].Drunk.Liters - t[i - 1].Drunk.Liters, fell = t[i - 1].WaterInHand.Liters - t[i].WaterInHand.Liters;
            Assert.True(fell <= drunk + 1e-9, $"At {t[i].AlongRoute} more water is gone than was drunk.");
        }
    }

    [Fact]
    public void Hours_CoverTheRide_EveryHour()
    {
        Assert.True(Demo.Plan.Hours[^1].At > Demo.Plan.LateFinish);
        Assert.All(Enumerable.Range(1, Demo.Plan.Hours.Count - 1), i => Assert.Equal(TimeSpan.FromHours(1), Demo.Plan.Hours[i].At - Demo.Plan.Hours[i - 1].At));
    }

    [Fact]
    public void WithoutForecast_HeatIsNotTold()
    {
        RidePlan plan = RidePlanner.Plan(Demo.Request with { Weather = null, Options = PlanOptions.Default with { Samples = 0 } });
        Assert.Empty(plan.Hours);
        Assert.All(plan.Trace, p => Assert.Null(p.RectalTemperature));
        Assert.NotEmpty(RidePictures.Of(plan).Find("body")!.ToPng());
    }
}
