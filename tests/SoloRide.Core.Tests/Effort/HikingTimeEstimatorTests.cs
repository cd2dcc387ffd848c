using FsCheck;
using FsCheck.Xunit;
using SoloRide.Effort;

namespace SoloRide.Tests.Effort;

public sealed class HikingTimeEstimatorTests
{
    private static TrailStep[] Way(double km, double riseM) => [.. Enumerable.Repeat(new TrailStep(km * 10, riseM / 100), 100)];

    [Fact]
    [Checks(typeof(HikingTimeEstimator), CheckKind.BadInput)]
    public void BadInput_IsRefused()
    {
        Assert.Throws<ArgumentNullException>(() => HikingTimeEstimator.Time(null!, HikingRule.Naismith));
        Assert.Throws<ArgumentOutOfRangeException>(() => HikingTimeEstimator.Time([], (HikingRule)99));
    }

    /// <summary>An Alpine-club path concept (2009) quotes DIN 33466 for 8 km and 900 m of ascent: 3 h and 2 h make 4 h.</summary>
    [Fact]
    [Checks(typeof(HikingTimeEstimator), CheckKind.Outside)]
    public void Din_EightKilometresNineHundredUp_IsFourHours()
        => Assert.Equal(4.0, HikingTimeEstimator.Time(Way(8, 900), HikingRule.Din33466).TotalHours, 9);

    /// <summary>The rule's encyclopedia article: 20 km and 1 600 m at 5 km/h by eight to one is 6:34.</summary>
    [Fact]
    public void NaismithEightToOne_PublishedExample_IsMet()
        => Assert.Equal(6 + (34 / 60.0), HikingTimeEstimator.Time(Way(20, 1600), HikingRule.NaismithEightToOne).TotalHours, 1 / 60.0);

    /// <summary>An engineering note: 9.5 km with 500 m at rate 4 is 3:38; 20 km, 1 000 m by Naismith is 5:40 (general page).</summary>
    [Fact]
    public void MunterAndNaismith_PublishedExamples_AreMet()
    {
        Assert.Equal(3 + (38 / 60.0), HikingTimeEstimator.Time(Way(9.5, 500), HikingRule.Munter).TotalHours, 1 / 60.0);
        Assert.Equal(5 + (40 / 60.0), HikingTimeEstimator.Time(Way(20, 1000), HikingRule.Naismith).TotalHours, 1e-9);
    }

    /// <summary>8 km with 600 m up, figures of the rules as printed in handbooks and codes: DIN 3.00 h, Munter 3.50, Naismith 2.60, Swiss 2.42, Tobler 2.07.</summary>
    [Theory]
    [InlineData(HikingRule.Din33466, 3.00)]
    [InlineData(HikingRule.Munter, 3.50)]
    [InlineData(HikingRule.Naismith, 2.60)]
    [InlineData(HikingRule.SwissSignpost, 2.42)]
    [InlineData(HikingRule.ToblerPath, 2.07)]
    public void Time_EightKilometresSixHundredUp_IsTheComputedFigure(HikingRule rule, double hours)
        => Assert.Equal(hours, HikingTimeEstimator.Time(Way(8, 600), rule).TotalHours, 0.005);

    [Property(MaxTest = 200)]
    [Checks(typeof(HikingTimeEstimator), CheckKind.Property)]
    public bool Time_TwiceTheWay_TakesTwiceTheTime(byte rise, byte which)
    {
        var rule = (HikingRule)(which % Enum.GetValues<HikingRule>().Length);
        TrailStep[] way = Way(5, (rise - 128) * 8);
        double once = HikingTimeEstimator.Time(way, rule).TotalSeconds, twice = HikingTimeEstimator.Time([.. way, .. way], rule).TotalSeconds;
        return Math.Abs(twice - (2 * once)) < 1e-3 && once > 0;
    }

    [Fact]
    public void Across_Rules_GiveAnOrderedRange()
    {
        Estimate<TimeSpan> e = HikingTimeEstimator.Across(Way(8, 600));
        Assert.True(e.Low < e.Typical && e.Typical < e.High);
    }
}
