using FsCheck;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Exposure;
using UnitsNet;

namespace SoloRide.Tests.Exposure;

public sealed class ColdTests
{
    // Printed charts of the Canadian and US weather services.
    [Fact]
    [Checks(typeof(WindChill), CheckKind.Outside)]
    public void WindChill_EveryPrintedCell_Agrees()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("hydration", "windchill_canada.csv")).Rows)
        {
            double t = row.Num("t_c"), v = row.Num("v10_kmh");
            Assert.Equal(row.Num("printed"), Math.Floor(WindChillKernel.IndexC(t, v) + 0.5));
            Assert.InRange(WindChill.At(Temperature.FromDegreesCelsius(t), Speed.FromKilometersPerHour(v)).Index.DegreesCelsius, row.Num("printed") - 0.5001, row.Num("printed") + 0.5001);
        }

        foreach (CsvRow row in CsvTable.Read(Repo.Data("hydration", "windchill_nws.csv")).Rows)
        {
            double x = WindChillKernel.IndexF(row.Num("t_f"), row.Num("v_mph"));
            Assert.InRange(x, row.Num("formula") - 5.1e-5, row.Num("formula") + 5.1e-5);
            if (!row.IsEmpty("printed"))
            {
                Assert.Equal(row.Num("printed"), Math.Floor(x + 0.5));
            }
        }
    }

    // Hazard bands of the Canadian weather service, second-hand.
    [Fact]
    public void Frostbite_PublishedBands_Hold()
    {
        FrostbiteBand[] bands = [FrostbiteBand.Low, FrostbiteBand.Freezing10To30Minutes, FrostbiteBand.Freezing5To10Minutes, FrostbiteBand.Freezing2To5Minutes, FrostbiteBand.FreezingUnder2Minutes];
        int i = 0;
        foreach (CsvRow row in CsvTable.Read(Repo.Data("hydration", "frostbite_anchors.csv")).Rows.Where(r => r["kind"] == "band"))
        {
            Assert.Equal(bands[i], WindChill.Band(-20, row.Num("wc_from_c")));
            Assert.Equal(bands[i++], WindChill.Band(-20, row.Num("wc_to_c")));
        }

        Assert.Equal(5, i);

        // Measured mean times to frostnip of bare faces (ADA454525, abstract) are no longer than the band's upper end, 20 min at -20 C and 16 km/h apart from the "low" band.
        Assert.Equal(FrostbiteBand.Freezing10To30Minutes, WindChill.At(Temperature.FromDegreesCelsius(-20), Speed.FromKilometersPerHour(32)).Frostbite);
        Assert.True(WindChill.At(Temperature.FromDegreesCelsius(-40), Speed.FromKilometersPerHour(32)).Frostbite >= FrostbiteBand.Freezing2To5Minutes);
        Assert.Equal(FrostbiteBand.None, WindChill.At(Temperature.FromDegreesCelsius(1), Speed.FromKilometersPerHour(100)).Frostbite);
    }

    [Fact]
    [Checks(typeof(WindChill), CheckKind.BadInput)]
    public void WindChill_BadInput_SaysRange()
    {
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => WindChill.At(Temperature.FromDegreesCelsius(-90), Speed.Zero));
        Assert.Contains("-80", e.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => WindChill.At(Temperature.FromDegreesCelsius(-5), Speed.FromMetersPerSecond(-1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => WindChill.At(Temperature.FromDegreesCelsius(-5), Speed.Zero, Speed.FromMetersPerSecond(31)));
        Assert.Throws<ArgumentOutOfRangeException>(() => WindChill.At(Temperature.FromDegreesCelsius(-5), Speed.Zero, Speed.Zero, (WindHeight)7));
    }

    [Property]
    [Checks(typeof(WindChill), CheckKind.Property)]
    public bool WindChill_FasterOrColder_IsNeverMilder(byte air, byte wind, byte ride)
    {
        var t = Temperature.FromDegreesCelsius(10 - (air % 60));
        Speed w = Speed.FromMetersPerSecond(wind / 10.0), r = Speed.FromMetersPerSecond(ride / 15.0);
        double x = WindChill.At(t, w, r).Index.DegreesCelsius;
        return x <= t.DegreesCelsius
            && WindChill.At(t, w, r + Speed.FromMetersPerSecond(1)).Index.DegreesCelsius <= x + 1e-9
            && WindChill.At(t, w + Speed.FromMetersPerSecond(1), r).Index.DegreesCelsius <= x + 1e-9
            && WindChill.At(Temperature.FromDegreesCelsius(t.DegreesCelsius - 1), w, r).Index.DegreesCelsius < x
            && WindChill.At(t, w, r, WindHeight.Face).Index.DegreesCelsius <= x + 1e-9;
    }

    // ISO 11079 equations as carried by an open implementation; roots bracketed.
    [Fact]
    public void Insulation_EveryRow_Agrees()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("hydration", "ireq.csv")).Rows)
        {
            foreach ((bool neutral, string level) in new[] { (false, "min"), (true, "neu") })
            {
                InsulationRoots r = InsulationKernel.Solve(InsulationTable.Input(row), neutral, row.Num("clo_available"));
                Assert.True(Math.Abs(r.RequiredClo - row.Num($"ireq_{level}_clo")) <= 1e-6, $"{row["id"]} {level} IREQ {r.RequiredClo} {row[$"ireq_{level}_clo"]}");
                Assert.True(Math.Abs(r.ClothingClo - row.Num($"icl_{level}_clo")) <= 1e-6, $"{row["id"]} {level} ICL {r.ClothingClo} {row[$"icl_{level}_clo"]}");
                Assert.True(Math.Abs(r.StorageWm2 - row.Num($"S_{level}_wm2")) <= 6e-6, $"{row["id"]} {level} S {r.StorageWm2} {row[$"S_{level}_wm2"]}");
                double dle = InsulationTable.AsTabled(r.LimitHours);
                Assert.True(dle == row.Num($"dle_{level}_h") || Math.Abs(dle - row.Num($"dle_{level}_h")) <= 6e-6, $"{row["id"]} {level} DLE {dle} {row[$"dle_{level}_h"]}");
            }
        }
    }

    // Example of ISO 11079 as carried by an open implementation: M 116, -15 C, 0.4 m/s, walking 0.3 m/s, 85 %: IREQ 2.5 to 2.9 clo.
    [Fact]
    [Checks(typeof(RequiredInsulation), CheckKind.Outside)]
    public void RequiredInsulation_PublishedExample_Agrees()
    {
        RequiredInsulation r = RequiredInsulation.For(
            new ColdConditions
            {
                AirTemperature = Temperature.FromDegreesCelsius(-15),
                AirSpeed = Speed.FromMetersPerSecond(0.4),
                WalkingSpeed = Speed.FromMetersPerSecond(0.3),
                RelHumidityPct = 85,
                MetabolicRate = HeatFlux.FromWattsPerSquareMeter(116),
            },
            new Outfit([new Garment("example", 2.5) { AirPermeabilityPerM2 = 8 }]));
        Assert.Equal(2.5, Math.Round(r.MinimalClo, 1));
        Assert.Equal(2.9, Math.Round(r.NeutralClo, 1));
        Assert.Equal(2.7, Math.Round(r.ClothingMinimalClo, 1));
        Assert.Equal(2.1, Math.Round(r.LimitNeutral!.Value.TotalHours, 1));
    }

    [Fact]
    [Checks(typeof(RequiredInsulation), CheckKind.BadInput)]
    public void RequiredInsulation_BadInput_SaysRange()
    {
        Assert.Throws<ArgumentNullException>(() => RequiredInsulation.For(null!, Worn(1)));
        Assert.Throws<ArgumentNullException>(() => RequiredInsulation.For(Cold(0, 70), null!));
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => Cold(40, 70));
        Assert.Contains("-60 to 30 deg C", e.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Cold(0, 10));
    }

    [Property(MaxTest = 300)]
    [Checks(typeof(RequiredInsulation), CheckKind.Property)]
    public bool RequiredInsulation_MoreActivityWarmerAirCalmer_NeedsNotMore(byte air, byte effort, byte wind)
    {
        double t = 8 - (air % 45), m = 60 + (effort % 180), v = 0.4 + (wind / 40.0);
        RequiredInsulation r = RequiredInsulation.For(Cold(t, m, v), Worn(1.5));
        RequiredInsulation harder = RequiredInsulation.For(Cold(t, m + 10, v), Worn(1.5));
        RequiredInsulation warmer = RequiredInsulation.For(Cold(t + 1, m, v), Worn(1.5));
        RequiredInsulation thicker = RequiredInsulation.For(Cold(t, m, v), Worn(1.8));
        return harder.MinimalClo <= r.MinimalClo && warmer.MinimalClo <= r.MinimalClo && warmer.NeutralClo <= r.NeutralClo
            && r.MinimalClo <= r.NeutralClo + 1e-9
            && (thicker.LimitMinimal ?? TimeSpan.MaxValue) >= (r.LimitMinimal ?? TimeSpan.MaxValue)
            && (r.LimitNeutral ?? TimeSpan.MaxValue) <= (r.LimitMinimal ?? TimeSpan.MaxValue);
    }

    [Fact]
    public void Insulation_ResidualOfTheRoot_IsSmall()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("hydration", "ireq.csv")).Rows)
        {
            double left = InsulationKernel.Solve(InsulationTable.Input(row), true, 1).ResidualWm2;
            Assert.True(Math.Abs(left) < 1e-6, $"{row["id"]} {left}");
        }
    }

    // ISO 11079 in constant weather is the night's limit.
    [Fact]
    [Checks(typeof(NightOut), CheckKind.Outside)]
    public void NightOut_ConstantWeather_IsTheStandardsLimit()
    {
        Outfit worn = Worn(2, 8);
        NightOut night = NightOut.Through(Night(worn, 0, hours: 12) with { MetabolicRate = HeatFlux.FromWattsPerSquareMeter(70) });
        RequiredInsulation r = RequiredInsulation.For(Cold(0, 70, 0.4) with { RelHumidityPct = 50 }, worn);
        Assert.Equal(r.LimitMinimal!.Value.TotalHours, night.StrainLimit!.Value.TotalHours, 6);

        // Open port of ISO 11079: resting, M 70, 2 clo, 0 C: 1.4 h at the minimal level (printed to 0.1 h).
        Assert.InRange(r.LimitMinimal!.Value.TotalHours, 1.3, 1.5);
        Assert.Equal(r.MissingMinimalClo, night.MissingClo, 9);
    }

    [Fact]
    [Checks(typeof(NightOut), CheckKind.BadInput)]
    public void NightOut_BadInput_SaysWhat()
    {
        Assert.Throws<ArgumentNullException>(() => NightOut.Through(null!));
        ArgumentException e = Assert.Throws<ArgumentException>(() => Night(Worn(1), 0) with { Weather = [Weather.Unknown] });
        Assert.Contains("entry 1", e.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Night(Worn(1), 0) with { Weather = [] });
        Assert.Throws<ArgumentOutOfRangeException>(() => Night(Worn(1), 0) with { Interval = TimeSpan.Zero });
    }

    [Property(MaxTest = 100)]
    [Checks(typeof(NightOut), CheckKind.Property)]
    public bool NightOut_ColderWindierThinner_IsNeverLater(byte air, byte wind, byte clo)
    {
        double t = 8 - (air % 30), v = wind / 20.0, c = 0.5 + (clo / 100.0);
        NightOut n = NightOut.Through(Night(Worn(c), t, v));
        TimeSpan limit = n.StrainLimit ?? TimeSpan.MaxValue;
        return (NightOut.Through(Night(Worn(c), t - 3, v)).StrainLimit ?? TimeSpan.MaxValue) <= limit
            && (NightOut.Through(Night(Worn(c), t, v + 2)).StrainLimit ?? TimeSpan.MaxValue) <= limit
            && (NightOut.Through(Night(Worn(c + 0.5), t, v)).StrainLimit ?? TimeSpan.MaxValue) >= limit
            && (NightOut.Through(Night(Worn(c), t, v) with { Shelter = Shelter.ClosedBag }).StrainLimit ?? TimeSpan.MaxValue) >= limit
            && (n.EarliestStrainLimit ?? TimeSpan.MaxValue) <= limit
            && n.MissingLowClo <= n.MissingClo && n.MissingClo <= n.MissingHighClo;
    }

    // Tikuisis 1995, abstract: the author asks that the values be used to rank. Only the order is held.
    [Fact]
    public void NightOut_SurvivalAnchors_KeepTheirOrder()
    {
        foreach (IGrouping<string, CsvRow> group in CsvTable.Read(Repo.Data("hydration", "survival_anchors.csv")).Rows.GroupBy(r => r["clothing"]))
        {
            double clo = group.Key.StartsWith("nude", StringComparison.Ordinal) ? 0 : 0.5;
            double wind = group.Key.Contains("5 km/h", StringComparison.Ordinal) ? 5 / 3.6 : 1 / 3.6;
            TimeSpan last = TimeSpan.Zero;
            foreach (CsvRow row in group.OrderBy(r => r.Num("t_c")))
            {
                NightOut n = NightOut.Through(Night(Worn(clo), row.Num("t_c"), wind));
                TimeSpan now = n.StrainLimit ?? TimeSpan.MaxValue;
                Assert.True(now > last, $"{group.Key} {row["t_c"]}");
                last = now;
            }
        }
    }

    [Fact]
    public void NightOut_Text_NeverPromises()
    {
        string text = NightOut.Through(Night(Worn(1), -5)).ToString();
        Assert.DoesNotContain("survive", text, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("does not say that a night is safe", text, StringComparison.Ordinal);
    }

    // Handbook values of ISO 9920 type and ASHRAE 55, second-hand.
    [Fact]
    [Checks(typeof(Outfit), CheckKind.Outside)]
    public void Handbook_Values_AreThePublishedOnes()
    {
        var published = CsvTable.Read(Repo.Data("hydration", "clo_garments.csv")).Rows.Where(r => !r.IsEmpty("clo")).Select(r => r.Num("clo")).ToList();
        Assert.All(Garment.Handbook, g => Assert.Contains(published, p => Math.Abs(p - g.InsulationClo) < 1e-9));
        foreach (CsvRow row in CsvTable.Read(Repo.Data("hydration", "clo_garments.csv")).Rows.Where(r => !r.IsEmpty("clo")))
        {
            Assert.Equal(row.Num("m2kw"), row.Num("clo") * InsulationKernel.M2KPerWPerClo, 6);
        }

        Assert.Equal(0.09 + 0.20 + 0.02, new Outfit([new Garment("T-shirt", 0.09), new Garment("light trousers", 0.20), new Garment("socks", 0.02)]).InsulationClo, 9);
    }

    [Fact]
    [Checks(typeof(Outfit), CheckKind.BadInput)]
    public void Outfit_BadInput_SaysWhat()
    {
        Assert.Throws<ArgumentNullException>(() => new Outfit(null!));
        Assert.Throws<ArgumentException>(() => new Outfit([null!]));
        Assert.Throws<ArgumentException>(() => new Garment(" ", 1));
        ArgumentOutOfRangeException e = Assert.Throws<ArgumentOutOfRangeException>(() => new Garment("coat", -1));
        Assert.Contains("0 to 5 clo", e.Message, StringComparison.Ordinal);
    }

    [Property]
    [Checks(typeof(Outfit), CheckKind.Property)]
    public bool Outfit_Sum_GrowsWithGarmentsAndFallsWithWet(byte a, byte b)
    {
        var one = new Outfit([new Garment("a", a / 100.0)]);
        Outfit two = one.With(new Garment("b", b / 100.0));
        double wet = new Outfit(two.Garments, Wetness.Wet).InsulationClo, damp = new Outfit(two.Garments, Wetness.Damp).InsulationClo;
        return two.InsulationClo >= one.InsulationClo && wet <= damp && damp <= two.InsulationClo;
    }

    private static Outfit Worn(double clo, double permeability = 50) => new([new Garment("worn", Math.Min(5, clo)) { AirPermeabilityPerM2 = permeability }]);

    private static ColdConditions Cold(double airC, double m, double v = 0.4) => new()
    {
        AirTemperature = Temperature.FromDegreesCelsius(airC),
        AirSpeed = Speed.FromMetersPerSecond(v),
        MetabolicRate = HeatFlux.FromWattsPerSquareMeter(m),
    };

    private static NightRequest Night(Outfit worn, double airC, double windMps = 0.4, int hours = 10) => new()
    {
        Weather = [.. Enumerable.Repeat(Weather.Unknown with { AirTempC = airC, WindMps = windMps, RelHumidityPct = 50 }, hours)],
        Outfit = worn,
    };
}
