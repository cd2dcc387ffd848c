using FsCheck.Xunit;
using SoloRide.Escape;
using UnitsNet;

namespace SoloRide.Tests.Escape;

/// <summary>Water of a wait at rest, by the air.</summary>
public sealed class RestWaterTests
{
    private const double QuartL = 0.946353;

    private static double PerDay(double meanC)
        => WaitingPlanner.Plan(new WaitingSituation { MeanAir = Temperature.FromDegreesCelsius(meanC) }).WaterNeeded.Liters;

    /// <summary>2 to 3 quarts a day at about 20 °C (air-force survival text, WT1); about 5 quarts at a daily mean of 30 °C at rest in the shade (Brown 1947, in Institute of Medicine 2005, page 129).</summary>
    [Theory]
    [InlineData(5, 3)]
    [InlineData(20, 3)]
    [InlineData(30, 5)]
    public void RestWater_AtThePublishedTemperatures(double meanC, double quarts) => Assert.Equal(quarts * QuartL, PerDay(meanC), 6);

    /// <summary>
    /// Days that a resting man lives in the shade with 20 quarts more (Adolph 1947, as reprinted in survival manuals), by the highest temperature of the day:
    /// 48.9 °C 2 and 4.5 days, 43.3 °C 3 and 7, 37.8 °C 5 and 13.5, 32.2 °C 7 and 23, 26.7 °C 9 and 29. What is planned for lies above what only keeps alive,
    /// at a mean 10 K below the highest.
    /// </summary>
    [Theory]
    [InlineData(48.9, 2, 4.5)]
    [InlineData(43.3, 3, 7)]
    [InlineData(37.8, 5, 13.5)]
    [InlineData(32.2, 7, 23)]
    [InlineData(26.7, 9, 29)]
    public void RestWater_IsAboveWhatOnlyKeepsAlive(double highestC, double daysDry, double daysWith20)
        => Assert.InRange(PerDay(highestC - 10), 20 * QuartL / (daysWith20 - daysDry), double.PositiveInfinity);

    [Property]
    public bool RestWater_NeverFallsWithTheAir(byte a, byte b)
        => PerDay(-20 + (Math.Min(a, b) / 4.0)) <= PerDay(-20 + (Math.Max(a, b) / 4.0));

    [Fact]
    public void Heat_AndBodyWater_CountInTheLimit()
    {
        var s = new WaitingSituation { Water = Volume.FromLiters(1), BodyWater = Volume.FromLiters(1.5), MeanAir = Temperature.FromDegreesCelsius(20) };
        Assert.Equal(2.5 / (3 * QuartL) * 24, WaitingPlanner.Tolerable(s).Time!.Value.TotalHours, 6);
        Assert.Equal("heat", WaitingPlanner.Tolerable(s with { HeatLimit = TimeSpan.FromHours(2) }).Binding);
        Assert.Throws<ArgumentOutOfRangeException>(() => new WaitingSituation { BodyWater = Volume.FromLiters(-1) });
        Assert.Throws<ArgumentOutOfRangeException>(() => new WaitingSituation { HeatLimit = TimeSpan.FromHours(-1) });
    }
}
