using FsCheck.Xunit;
using SoloRide.Hydration;
using UnitsNet;

namespace SoloRide.Tests.Hydration;

public sealed class TreatmentTests
{
    /// <summary>US EPA WSG11 / CDC: 1 min, 3 min above 2 000 m; EPA: 30 min; CDC: chlorine and iodine fail on Cryptosporidium, filters 1 µm and 0.3 µm.</summary>
    [Fact]
    [Checks(typeof(WaterTreatment), CheckKind.Outside)]
    public void Treatment_PublishedAdvice_IsKept()
    {
        var boil = new WaterTreatment(WaterTreatmentMethod.Boil);
        Assert.Equal(1, boil.Time(Volume.FromLiters(1), Length.FromMeters(1500))!.Typical.TotalMinutes, 1e-9);
        Assert.Equal(3, boil.Time(Volume.FromLiters(1), Length.FromMeters(2500))!.Typical.TotalMinutes, 1e-9);
        Assert.Equal(30, new WaterTreatment(WaterTreatmentMethod.Iodine).Time(Volume.FromLiters(1))!.Typical.TotalMinutes, 1e-9);
        Assert.Equal(PathogenControl.None, new WaterTreatment(WaterTreatmentMethod.Chlorine).Cryptosporidium);
        Assert.Equal(PathogenControl.None, new WaterTreatment(WaterTreatmentMethod.Iodine).Cryptosporidium);
        Assert.Equal(PathogenControl.LowToModerate, new WaterTreatment(WaterTreatmentMethod.ChlorineDioxide).Cryptosporidium);
        var fine = new WaterTreatment(WaterTreatmentMethod.Filter) { FilterPore = Length.FromMicrometers(0.2), FilterFlow = VolumeFlow.FromLitersPerMinute(1) };
        Assert.Equal(PathogenControl.High, fine.Protozoa);
        Assert.Equal(PathogenControl.Moderate, fine.Bacteria);
        Assert.Equal(PathogenControl.None, fine.Viruses);
        Assert.Contains(fine.Limits(), f => f.Message.Contains("viruses", StringComparison.Ordinal));
        Assert.Contains(fine.Limits(), f => f.Code == HydrationFindingCodes.FilterLost);
    }

    [Property]
    [Checks(typeof(WaterTreatment), CheckKind.Property)]
    public bool Time_MoreWater_NotLess(byte litres)
        => new[] { WaterTreatmentMethod.Boil, WaterTreatmentMethod.Filter, WaterTreatmentMethod.Chlorine, WaterTreatmentMethod.ChlorineDioxide }.All(m =>
        {
            var t = new WaterTreatment(m) { FilterFlow = VolumeFlow.FromLitersPerMinute(0.8), HeatingPerLitre = TimeSpan.FromMinutes(6) };
            Estimate<TimeSpan> a = t.Time(Volume.FromLiters(litres / 10.0))!, b = t.Time(Volume.FromLiters((litres / 10.0) + 1))!;
            return b.Typical >= a.Typical && b.High >= a.High && a.High >= a.Typical;
        });

    [Fact]
    [Checks(typeof(WaterTreatment), CheckKind.BadInput)]
    public void Treatment_BadInput_ThrowsClearly()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => new WaterTreatment((WaterTreatmentMethod)99));
        Assert.Throws<ArgumentOutOfRangeException>(() => new WaterTreatment(WaterTreatmentMethod.Filter) { FilterFlow = VolumeFlow.FromLitersPerMinute(0) });
        Assert.Throws<ArgumentOutOfRangeException>(() => new WaterTreatment(WaterTreatmentMethod.Boil).Time(Volume.FromLiters(-1)));
    }

    [Fact]
    public void Filter_FlowUnknown_GivesNoTime()
        => Assert.Null(new WaterTreatment(WaterTreatmentMethod.Filter).Time(Volume.FromLiters(2)));

    /// <summary>Kell 1975 form; standard atmosphere with an enhanced saturation formula.</summary>
    [Fact]
    public void WaterProperties_Tables_Agree()
    {
        foreach (IReadOnlyDictionary<string, string> row in HydrationCsv.Read("water_density.csv"))
        {
            Assert.Equal(row.Num("kg_per_l"), WaterTreatmentKernel.DensityKgPerL(row.Num("t_c")), 6e-7);
        }

        foreach (IReadOnlyDictionary<string, string> row in HydrationCsv.Read("boiling_altitude.csv"))
        {
            Assert.Equal(row.Num("p_pa"), WaterTreatmentKernel.PressurePa(row.Num("alt_m")), 0.06);
            Assert.Equal(row.Num("boil_c"), WaterTreatmentKernel.BoilingC(row.Num("alt_m")), 6e-4);
        }
    }
}
