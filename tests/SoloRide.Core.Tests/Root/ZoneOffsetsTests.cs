using FsCheck.Xunit;

namespace SoloRide.Tests.Root;

public sealed class ZoneOffsetsTests
{
    private static readonly DateTimeOffset Spring = new(2027, 3, 28, 1, 0, 0, TimeSpan.Zero);
    private static readonly ZoneOffsets Change = new("test", TimeSpan.FromHours(1), [new ZoneTransition(Spring, TimeSpan.FromHours(2))]);

    [Fact]
    public void StartOfDay_AcrossTheChange_Is23Hours()
    {
        TimeSpan day = Change.StartOfDay(new DateOnly(2027, 3, 29)) - Change.StartOfDay(new DateOnly(2027, 3, 28));
        Assert.Equal(TimeSpan.FromHours(23), day);
    }

    [Fact]
    public void StartOfDay_WhenMidnightIsSkipped_IsTheChange()
    {
        // The clock jumps from 00:00 to 01:00.
        var zone = new ZoneOffsets("test", TimeSpan.Zero, [new ZoneTransition(new DateTimeOffset(2027, 3, 28, 0, 0, 0, TimeSpan.Zero), TimeSpan.FromHours(1))]);
        Assert.Equal(new DateTimeOffset(2027, 3, 28, 0, 0, 0, TimeSpan.Zero), zone.StartOfDay(new DateOnly(2027, 3, 28)).ToUniversalTime());
    }

    [Fact]
    public void From_SystemZoneWithRule_FindsTheTransitionToTheSecond()
    {
        TimeZoneInfo.AdjustmentRule rule = TimeZoneInfo.AdjustmentRule.CreateAdjustmentRule(
            new DateTime(2000, 1, 1), new DateTime(2100, 1, 1).AddDays(-1).Date, TimeSpan.FromHours(1),
            TimeZoneInfo.TransitionTime.CreateFixedDateRule(new DateTime(1, 1, 1, 2, 0, 0), 4, 5),
            TimeZoneInfo.TransitionTime.CreateFixedDateRule(new DateTime(1, 1, 1, 3, 0, 0), 10, 5));
        var zone = TimeZoneInfo.CreateCustomTimeZone("made", TimeSpan.FromHours(-7), "made", "made", "made", [rule]);
        ZoneOffsets z = ZoneOffsets.From(zone, new DateTimeOffset(2027, 1, 1, 0, 0, 0, TimeSpan.Zero), new DateTimeOffset(2028, 1, 1, 0, 0, 0, TimeSpan.Zero));
        Assert.Equal(2, z.Transitions.Count);
        Assert.Equal(new DateTimeOffset(2027, 4, 5, 9, 0, 0, TimeSpan.Zero), z.Transitions[0].From);
        Assert.Equal(TimeSpan.FromHours(-6), z.OffsetAt(new DateTimeOffset(2027, 7, 1, 0, 0, 0, TimeSpan.Zero)));
    }

    [Fact]
    [Checks(typeof(ZoneOffsets), CheckKind.BadInput)]
    public void Fixed_OutsideRange_Throws()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => ZoneOffsets.Fixed(15));
        Assert.Throws<ArgumentOutOfRangeException>(() => ZoneOffsets.Fixed(double.NaN));
        Assert.Throws<ArgumentException>(() => new ZoneOffsets("z", TimeSpan.Zero, [new(Spring, TimeSpan.Zero), new(Spring, TimeSpan.Zero)]));
    }

    [Property]
    [Checks(typeof(ZoneOffsets), CheckKind.Property)]
    public bool ToLocal_NeverMovesTheInstant(DateTimeOffset instant) => Change.ToLocal(instant) == instant || instant.Year is < 2 or > 9998;
}
