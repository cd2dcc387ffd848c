using FsCheck;
using FsCheck.Xunit;
using UnitsNet;

namespace SoloRide.Tests.Root;

public sealed class NounTests
{
    [Theory]
    [InlineData(91, 0)]
    [InlineData(-90.1, 0)]
    [InlineData(0, 181)]
    [InlineData(double.NaN, 0)]
    [InlineData(0, double.NaN)]
    public void GeoPoint_OutsideRange_SaysValueAndRange(double lat, double lon)
    {
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => new GeoPoint(lat, lon));
        Assert.Contains("deg", e.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Rider_NegativeMass_SaysRangeAndUnit()
    {
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => new Rider { Mass = Mass.FromKilograms(-70) });
        Assert.Contains("25", e.Message, StringComparison.Ordinal);
        Assert.Contains("kg", e.Message, StringComparison.Ordinal);
        Assert.Equal("Mass", e.ParamName);
    }

    [Fact]
    public void Records_GivenInDifferentUnits_AreEqual()
        => Assert.Equal(new Rider { Mass = Mass.FromKilograms(76), Height = Length.FromCentimeters(180) }, new Rider { Mass = Mass.FromGrams(76_000), Height = Length.FromMeters(1.8) });

    [Property]
    public bool TrailStep_ReversedTwice_IsTheSameTrail(PositiveInt length, int rise)
    {
        var step = new TrailStep(length.Get, rise % 1000, 500, 30);
        TrailStep twice = step.Reversed().Reversed();
        return twice.LengthM == step.LengthM && twice.RiseM == step.RiseM && Math.Abs(twice.BearingDeg - step.BearingDeg) < 1e-9;
    }

    [Fact]
    public void Deadline_ClosingBeforeOpening_Throws()
    {
        var noon = new DateTimeOffset(2027, 6, 14, 12, 0, 0, TimeSpan.Zero);
        Assert.Throws<ArgumentException>(() => new Deadline(DeadlineKind.Gate, "gate", Length.Zero, Length.Zero, noon, noon.AddHours(1)));
    }

    [Fact]
    public void Cautions_SayWhatTheyMust()
    {
        foreach (string part in new[] { "not a guarantee", "can be worse than assumed", "fire bans come first", "trigger the distress device", "a doctor" })
        {
            Assert.Contains(part, Cautions.Text, StringComparison.Ordinal);
        }
    }
}
