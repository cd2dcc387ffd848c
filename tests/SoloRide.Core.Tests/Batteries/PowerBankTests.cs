using FsCheck.Xunit;
using SoloRide.Batteries;
using UnitsNet;

namespace SoloRide.Tests.Batteries;

public sealed class PowerBankTests
{
    private static readonly Temperature Warm = Temperature.FromDegreesCelsius(25);

    [Fact]
    [Checks(typeof(PowerBank), CheckKind.BadInput)]
    public void PowerBank_BadInput_SaysRangeAndUnit()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new PowerBank(10));
        Assert.Throws<ArgumentOutOfRangeException>(() => new PowerBank(10_000) { ConverterEfficiencyFraction = 1.1 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new PowerBank(10_000).EnergyAtPort(Temperature.FromDegreesCelsius(90)));
    }

    /// <summary>
    /// The trade's rule that 10 000 mAh gives two full phone charges or more (common practice, no source) holds only up to about 3 800 mAh a phone:
    /// with converter 0.90, cable 0.97, charger 0.90 the limit is 3 775 mAh at 3.85 V.
    /// </summary>
    [Theory]
    [InlineData(3000, true)]
    [InlineData(3700, true)]
    [InlineData(3850, false)]
    [InlineData(5000, false)]
    [Checks(typeof(PowerBank), CheckKind.Outside)]
    public void FullCharges_TenThousandMah_TwiceOnlyForSmallPhones(double phoneMah, bool twice)
    {
        var bank = new PowerBank(10_000);
        bank = bank with { ConverterEfficiencyFraction = 0.90, IdlePower = Power.FromWatts(0), Pack = bank.Pack with { HonestFraction = 1, ColdTable = [new ColdPoint(Warm, 1)] } };
        var phone = new Device("phone", DeviceKind.Phone, CellPack.LithiumIon(phoneMah, 3.85), DeviceMode.Of("on", ModeUse.Other, 1, 1, 1)) { ChargingEfficiencyFraction = 0.97 * 0.90 };
        Assert.Equal(twice, bank.FullCharges(phone, Warm).Typical.DecimalFractions >= 2);
    }

    [Property]
    [Checks(typeof(PowerBank), CheckKind.Property)]
    public void EnergyAtPort_ColderOrOlder_NeverMore(byte cold)
    {
        var bank = new PowerBank(10_000);
        double at = bank.EnergyAtPort(Temperature.FromDegreesCelsius(20 - (cold % 40))).Typical.WattHours;
        Assert.True(at <= bank.EnergyAtPort(Warm).Typical.WattHours + 1e-9);
        Assert.True((bank with { StartChargeFraction = 0.5 }).EnergyAtPort(Temperature.FromDegreesCelsius(20 - (cold % 40))).Typical.WattHours <= at);
        Assert.True(at <= bank.Pack.RatedEnergy.WattHours);
    }
}
