using FsCheck.Xunit;
using SoloRide.Batteries;
using UnitsNet;

namespace SoloRide.Tests.Batteries;

public sealed class CellPackTests
{
    [Fact]
    [Checks(typeof(CellPack), CheckKind.BadInput)]
    public void CellPack_BadInput_SaysRangeAndUnit()
    {
        var e = Assert.Throws<ArgumentOutOfRangeException>(() => CellPack.LithiumIon(5));
        Assert.Contains("mAh", e.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => CellPack.LithiumIon(3000) with { HealthFraction = 1.2 });
        Assert.Throws<ArgumentOutOfRangeException>(() => CellPack.LithiumIon(3000).UsableEnergy(Temperature.FromDegreesCelsius(-90), Power.FromWatts(1)));
        Assert.Throws<ArgumentException>(() => CellPack.LithiumIon(3000) with { ColdTable = [] });
    }

    /// <summary>Measured: a 2.9 Ah NCA cell gives 0.703 of its warm charge at -17 °C cell temperature, 0.3C, 3.0 V (Kollmeyer 2018, DOI 10.17632/wykht8y7tg).</summary>
    [Fact]
    [Checks(typeof(CellPack), CheckKind.Outside)]
    public void UsableEnergy_ColdNickelCell_AsMeasured()
    {
        CellPack pack = CellPack.LithiumIon(2900, 3.6);
        double cold = pack.UsableEnergy(Temperature.FromDegreesCelsius(-17.3), Power.FromWatts(3.1)).Typical.WattHours;
        double warm = pack.UsableEnergy(Temperature.FromDegreesCelsius(26), Power.FromWatts(3.1)).Typical.WattHours;
        Assert.InRange(cold / warm, 0.60, 0.78);
    }

    [Property]
    [Checks(typeof(CellPack), CheckKind.Property)]
    public void UsableEnergy_ColderOlderEmptier_NeverMore(byte cold, byte load)
    {
        double tC = 25 - (cold % 50), w = load / 50.0;
        CellPack pack = CellPack.LithiumIon(3000);
        double here = pack.UsableEnergy(Temperature.FromDegreesCelsius(tC), Power.FromWatts(w)).Typical.WattHours;
        Assert.True(pack.UsableEnergy(Temperature.FromDegreesCelsius(tC - 3), Power.FromWatts(w)).Typical.WattHours <= here + 0.05);
        Assert.True((pack with { HealthFraction = 0.8 }).UsableEnergy(Temperature.FromDegreesCelsius(tC), Power.FromWatts(w)).Typical.WattHours <= here + 1e-9);
        Assert.True(pack.UsableEnergy(Temperature.FromDegreesCelsius(tC), Power.FromWatts(w), 0.7).Typical.WattHours <= here + 1e-9);
        Assert.True(pack.UsableEnergy(Temperature.FromDegreesCelsius(tC), Power.FromWatts(w), 1, TimeSpan.FromDays(30)).Typical.WattHours <= here + 1e-9);
    }
}
