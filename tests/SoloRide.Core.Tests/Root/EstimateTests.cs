using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using UnitsNet;

namespace SoloRide.Tests.Root;

public sealed class EstimateTests
{
    [Fact]
    public void Estimate_InDifferentUnits_IsEqual()
        => Assert.Equal(
            Estimate.Of(Length.FromMeters(1150), Length.FromMeters(1090), Length.FromMeters(1220)),
            Estimate.Of(Length.FromKilometers(1.15), Length.FromKilometers(1.09), Length.FromKilometers(1.22)));

    [Fact]
    public void Estimate_ToString_IsOneLineWithUnits()
        => Assert.Equal("1 150 m (1 090 m to 1 220 m)", Estimate.Of(Length.FromMeters(1150), Length.FromMeters(1090), Length.FromMeters(1220)).ToString());

    [Fact]
    public void Estimate_OutOfOrder_Throws()
        => Assert.Throws<ArgumentException>(() => Estimate.Of(TimeSpan.FromHours(2), TimeSpan.FromHours(3), TimeSpan.FromHours(4)));

    [Theory]
    [InlineData(-0.1)]
    [InlineData(1.1)]
    [InlineData(double.NaN)]
    public void Estimate_LevelOutsideRange_Throws(double level)
        => Assert.Throws<ArgumentOutOfRangeException>(() => Estimate.Of(TimeSpan.Zero, TimeSpan.Zero, TimeSpan.Zero, level));

    [Fact]
    public void Estimate_NaN_Throws()
        => Assert.ThrowsAny<ArgumentException>(() => Estimate.Exact(Length.FromMeters(double.NaN)));

    [Property]
    public bool Estimate_Exact_HasNoWidth(NormalFloat metres) => Estimate.Exact(Length.FromMeters(metres.Get)).IsExact;
}
