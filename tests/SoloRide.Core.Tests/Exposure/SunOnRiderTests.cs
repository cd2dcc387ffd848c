using FsCheck;
using FsCheck.Xunit;
using SoloRide.Exposure;
using UnitsNet;

namespace SoloRide.Tests.Exposure;

public sealed class SunOnRiderTests
{
    // Haurwitz's formula as carried by open solar libraries, evaluated by hand at three heights of the sun: 1098 s exp(-0.059/s).
    [Theory]
    [InlineData(90, 1035.10)]
    [InlineData(30, 487.90)]
    [InlineData(10, 135.74)]
    [Checks(typeof(SunOnRider), CheckKind.Outside)]
    public void At_ClearSky_IsHaurwitz(double altitudeDeg, double expectedWm2)
        => Assert.Equal(expectedWm2, SunOnRider.At(Input(altitudeDeg, 0)).Global.WattsPerSquareMeter, 1);

    [Fact]
    [Checks(typeof(SunOnRider), CheckKind.BadInput)]
    public void At_BadInput_SaysRange()
    {
        Assert.Throws<ArgumentNullException>(() => SunOnRider.At(null!));
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => Input(91, 0));
        Assert.Contains("-90 to 90 deg", e.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Input(40, 101));
        Assert.Throws<ArgumentOutOfRangeException>(() => Input(40, 0) with { GlobalIrradiance = Irradiance.FromWattsPerSquareMeter(-1) });
    }

    [Property]
    [Checks(typeof(SunOnRider), CheckKind.Property)]
    public bool At_MoreCloudOrShade_TakesUpLess(byte altitude, byte cloud, byte share)
    {
        SunInput x = Input(1 + (altitude % 89), cloud % 100) with { DirectSunFraction = share / 255.0 };
        double absorbed = SunOnRider.At(x).Absorbed.WattsPerSquareMeter;
        return absorbed >= 0
            && SunOnRider.At(x with { CloudPct = Math.Min(100, (cloud % 100) + 20) }).Absorbed.WattsPerSquareMeter <= absorbed + 30
            && SunOnRider.At(x with { DirectSunFraction = 0 }).Absorbed.WattsPerSquareMeter <= absorbed + 1e-9
            && SunOnRider.At(x with { GroundAlbedoFraction = 0.8 }).Absorbed.WattsPerSquareMeter >= absorbed;
    }

    [Fact]
    public void At_Night_HasNoSun_AndClearSkyIsColderThanAir()
    {
        SunOnRider night = SunOnRider.At(Input(-20, 0));
        Assert.Equal(0, night.Global.WattsPerSquareMeter);
        Assert.True(night.MeanRadiantTemperature.DegreesCelsius < 20);
        Assert.InRange(SunOnRider.At(Input(-20, 100)).MeanRadiantTemperature.DegreesCelsius, 15, 20.0001);
    }

    [Fact]
    public void At_GlobalAllDiffuse_NoBeam()
        => Assert.Equal(0, SunOnRider.At(Input(40, 0) with { GlobalIrradiance = Irradiance.FromWattsPerSquareMeter(300), DiffuseIrradiance = Irradiance.FromWattsPerSquareMeter(300) }).DirectNormal.WattsPerSquareMeter);

    [Fact]
    public void Kernel_OneCall_IsTheEntry()
    {
        SunInput x = Input(45, 30) with { RelHumidityPct = 40 };
        Assert.Equal(SunOnRider.At(x).MeanRadiantTemperature.DegreesCelsius, SunKernel.MeanRadiantC(20, 40, 45, 0.3, 1, 0.25), 9);
    }

    private static SunInput Input(double altitudeDeg, double cloudPct) => new()
    {
        SunAltitudeDeg = altitudeDeg,
        AirTemperature = Temperature.FromDegreesCelsius(20),
        CloudPct = cloudPct,
    };
}
