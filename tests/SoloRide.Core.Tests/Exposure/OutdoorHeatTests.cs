using FsCheck;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Exposure;
using UnitsNet;

namespace SoloRide.Tests.Exposure;

public sealed class OutdoorHeatTests
{
    // Liljegren et al. 2008: roots of the published program's equations, solved to 1e-9.
    [Fact]
    public void Kernel_Wbgt_AgreesWithTightRoots()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("hydration", "wbgt.csv")).Rows)
        {
            (WbgtRoots roots, double tpsy) = WbgtTable.Solve(row);
            Assert.True(roots.Converged);
            Assert.True(Math.Abs(roots.GlobeC - row.Num("tight_tg")) <= 1e-6, $"{row["id"]} Tg {roots.GlobeC} {row["tight_tg"]}");
            Assert.True(Math.Abs(roots.NaturalWetC - row.Num("tight_tnwb")) <= 1e-6, $"{row["id"]} Tnwb {roots.NaturalWetC} {row["tight_tnwb"]}");
            Assert.True(Math.Abs(roots.WbgtC - row.Num("tight_wbgt")) <= 1e-6, $"{row["id"]} WBGT {roots.WbgtC} {row["tight_wbgt"]}");
            Assert.True(Math.Abs(tpsy - row.Num("tight_tpsy")) <= 1e-6, $"{row["id"]} Tpsy {tpsy} {row["tight_tpsy"]}");
        }
    }

    [Fact]
    [Checks(typeof(OutdoorHeat), CheckKind.Outside)]
    public void At_DayRowsOfTheReference_AgreeToTheCap()
    {
        int seen = 0;
        foreach (CsvRow row in CsvTable.Read(Repo.Data("hydration", "wbgt.csv")).Rows.Where(r => r.Num("wind_height_m") == 2 && r.Num("cos_zenith") > 0.01))
        {
            OutdoorHeat heat = OutdoorHeat.At(new OutdoorConditions
            {
                AirTemperature = Temperature.FromDegreesCelsius(row.Num("ta_c")),
                RelHumidityPct = row.Num("rh_pct"),
                Wind = Speed.FromMetersPerSecond(row.Num("wind_ms")),
                Pressure = Pressure.FromHectopascals(row.Num("p_hpa")),
                SunAltitudeDeg = 90 - (Math.Acos(row.Num("cos_zenith")) * 180 / Math.PI),
                GlobalIrradiance = Irradiance.FromWattsPerSquareMeter(row.Num("solar_in_wm2")),
                Date = new DateOnly(row.Whole("year"), row.Whole("month"), row.Whole("day")),
            });

            // The sun's distance is that of noon, and the reference is a day ahead in 2024: together under 0.01 K.
            Assert.InRange(heat.WetBulbGlobe.DegreesCelsius, row.Num("tight_wbgt") - 0.01, row.Num("tight_wbgt") + 0.01);
            Assert.True(heat.RootErrorK <= 1e-7);
            seen++;
        }

        Assert.True(seen > 20);
    }

    [Fact]
    [Checks(typeof(OutdoorHeat), CheckKind.BadInput)]
    public void At_BadInput_SaysRange()
    {
        Assert.Throws<ArgumentNullException>(() => OutdoorHeat.At(null!));
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => Hot() with { RelHumidityPct = -1 });
        Assert.Contains("0 to 100 %", e.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Hot() with { SunAltitudeDeg = double.NaN });
        Assert.Throws<ArgumentOutOfRangeException>(() => Hot() with { Wind = Speed.FromMetersPerSecond(31) });
        Assert.Throws<ArgumentOutOfRangeException>(() => OutdoorHeat.At(Hot()).WorkRest((WorkIntensity)9));
    }

    [Property(MaxTest = 300)]
    [Checks(typeof(OutdoorHeat), CheckKind.Property)]
    public bool At_WholeRange_ConvergesWithCertificate(ushort a, ushort b, ushort c, ushort d, ushort e, ushort f)
    {
        double U(ushort x, double lo, double hi) => lo + ((hi - lo) * x / ushort.MaxValue);
        OutdoorHeat heat = OutdoorHeat.At(new OutdoorConditions
        {
            AirTemperature = Temperature.FromDegreesCelsius(U(a, -40, 60)),
            RelHumidityPct = U(b, 0, 100),
            Wind = Speed.FromMetersPerSecond(U(c, 0, 30)),
            Pressure = Pressure.FromHectopascals(U(d, 500, 1050)),
            SunAltitudeDeg = U(e, -10, 90),
            GlobalIrradiance = Irradiance.FromWattsPerSquareMeter(U(f, 0, 1400)),
        });
        return heat.RootErrorK <= 1e-6;
    }

    [Property(MaxTest = 200)]
    public bool At_MoreSunOrHumidity_NotCooler(byte air, byte humidity, byte sun)
    {
        OutdoorConditions x = Hot() with
        {
            AirTemperature = Temperature.FromDegreesCelsius(10 + (air % 35)),
            RelHumidityPct = humidity % 90,
            GlobalIrradiance = Irradiance.FromWattsPerSquareMeter(sun * 2),
        };
        double w = OutdoorHeat.At(x).WetBulbGlobe.DegreesCelsius;
        return OutdoorHeat.At(x with { RelHumidityPct = (humidity % 90) + 5 }).WetBulbGlobe.DegreesCelsius > w
            && OutdoorHeat.At(x with { AirTemperature = Temperature.FromDegreesCelsius(11 + (air % 35)) }).WetBulbGlobe.DegreesCelsius > w;
    }

    // Army work, rest and water table (TB MED 507 lineage), second-hand.
    [Fact]
    public void Table_EveryCell_IsAsPublished()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("hydration", "army_fluid_table.csv")).Rows)
        {
            int category = row.Whole("heat_category");
            int intensity = row["work"] switch { "easy" => 0, "moderate" => 1, _ => 2 };
            (int work, double qt) = HeatTableKernel.Cell(category, intensity);
            Assert.Equal(row.Num("work_fraction"), work / 60.0, 9);
            Assert.Equal(row.Num("water_qt_h"), qt, 9);
            Assert.Equal(row.Num("water_l_h"), qt * HeatTableKernel.LitresPerQuart, 3);
            Assert.Equal(category, HeatTableKernel.Category(row.Num("wbgt_f_from")));
            Assert.Equal(category - 1, HeatTableKernel.Category(row.Num("wbgt_f_from") - 0.05));
        }
    }

    [Fact]
    public void WorkRest_HotDay_GivesTheCell()
    {
        OutdoorHeat heat = OutdoorHeat.At(Hot());
        Assert.NotEqual(HeatCategory.None, heat.Category);
        WorkRestWater cell = heat.WorkRest(WorkIntensity.Hard)!;
        Assert.True(cell.WorkPerHour + cell.RestPerHour == TimeSpan.FromHours(1));
        Assert.True(cell.Water.High.LitersPerHour <= 1.5 * HeatTableKernel.LitresPerQuart + 1e-9);
        Assert.Null(OutdoorHeat.At(Hot() with { AirTemperature = Temperature.FromDegreesCelsius(10) }).WorkRest(WorkIntensity.Hard));
    }

    // Heat index algorithm of the US National Weather Service.
    [Fact]
    public void HeatIndex_EveryRow_Agrees()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("hydration", "heat_index_nws.csv")).Rows)
        {
            Assert.InRange(HeatIndexKernel.IndexF(row.Num("t_f"), row.Num("rh")), row.Num("hi_f") - 5.1e-5, row.Num("hi_f") + 5.1e-5);
        }
    }

    private static OutdoorConditions Hot() => new()
    {
        AirTemperature = Temperature.FromDegreesCelsius(36),
        RelHumidityPct = 40,
        Wind = Speed.FromMetersPerSecond(2),
        SunAltitudeDeg = 60,
        GlobalIrradiance = Irradiance.FromWattsPerSquareMeter(900),
    };

    // Open comfort library's validation set (not shipped), printed to 0.1. That library takes ln(1 + T) in the saturation pressure where the index's own program takes
    // ln T: with its slip every row agrees within 0.05, without it within 0.1. Outside the range nothing is given.
    [SkippableFact]
    public void UniversalIndex_ReferenceRows_Agree()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.ReferenceFile("hydration", "utci_cases.csv")).Rows)
        {
            (double indexC, bool given) = UtciTable.Index(row);
            Assert.Equal(!row.IsEmpty("out_utci"), given);
            if (given)
            {
                Assert.InRange(indexC, row.Num("out_utci") - 0.1, row.Num("out_utci") + 0.1);
            }
        }
    }

    [Fact]
    public void UniversalIndex_HasAllCoefficients_AndRisesWithSun()
    {
        Assert.Equal(210, UtciKernel.Count);
        OutdoorConditions x = Hot() with { MeanRadiantTemperature = Temperature.FromDegreesCelsius(36) };
        double shade = OutdoorHeat.At(x).UniversalIndex!.Value.DegreesCelsius;
        Assert.True(OutdoorHeat.At(x with { MeanRadiantTemperature = Temperature.FromDegreesCelsius(60) }).UniversalIndex!.Value.DegreesCelsius > shade + 3);
        Assert.Null(OutdoorHeat.At(Hot()).UniversalIndex);
        Assert.Null(OutdoorHeat.At(x with { Wind = Speed.Zero }).UniversalIndex);
    }
}
