using FsCheck;
using FsCheck.Xunit;
using SoloRide.Exposure;
using UnitsNet;

namespace SoloRide.Tests.Exposure;

public sealed class LayerPlanTests
{
    private static readonly Garment[] Worn = [new("jersey", 0.25), new("shorts", 0.06), new("socks", 0.02)];
    private static readonly Garment Shell = new("wind jacket", 0.25) { AirPermeabilityPerM2 = 5 };
    private static readonly Garment Warm = new("light insulated jacket", 0.6);

    // ISO 11079 through its own entry: the part's need is the standard's, at the part's heat and air speed.
    [Fact]
    [Checks(typeof(LayerPlan), CheckKind.Outside)]
    public void For_Need_IsTheStandardsClothingInsulation()
    {
        RidePart part = Part(RidePartKind.Wait, 0);
        PartLayers p = LayerPlan.For([part], Worn, []).Parts[0];
        RequiredInsulation r = RequiredInsulation.For(
            new ColdConditions { AirTemperature = part.AirTemperature, AirSpeed = part.Wind, MetabolicRate = HeatFlux.FromWattsPerSquareMeter(58.2), RelHumidityPct = 50 }, new Outfit(Worn));
        Assert.Equal(r.ClothingMinimalClo, p.NeededMinimalClo, 9);
        Assert.Equal(r.ClothingNeutralClo, p.NeededNeutralClo, 9);
    }

    [Fact]
    public void For_ColdDescentAfterWarmClimb_PutsOnLayers()
    {
        LayerPlan plan = LayerPlan.For([Part(RidePartKind.Climb, 8), Part(RidePartKind.Descent, 12), Part(RidePartKind.Wait, 2)], Worn, [Shell, Warm]);
        Assert.True(plan.Parts[1].Verdict == LayerVerdict.PutOn, plan.ToString());
        Assert.True(plan.Parts[0].NeededMinimalClo < plan.Parts[1].NeededMinimalClo);
        Assert.Contains(Warm, plan.Parts[2].PutOn);
        Assert.True(plan.Parts[2].MissingClo > 0);
        Assert.Equal(plan.Parts[2], plan.Worst);
        Assert.Contains(plan.Findings, f => f.Code == ExposureFindingCodes.CarriedShort);
    }

    [Fact]
    [Checks(typeof(LayerPlan), CheckKind.BadInput)]
    public void For_BadInput_SaysWhat()
    {
        Assert.Throws<ArgumentNullException>(() => LayerPlan.For(null!, Worn, []));
        Assert.Throws<ArgumentException>(() => LayerPlan.For([], Worn, []));
        Assert.Throws<ArgumentException>(() => LayerPlan.For([Part(RidePartKind.Climb, 5)], [null!], []));
        var pads = new ProtectiveWear { Name = "knee pads", Mass = Mass.FromKilograms(0.5) };
        ArgumentException e = Assert.Throws<ArgumentException>(() => LayerPlan.For([Part(RidePartKind.Descent, 5) with { ProtectiveWorn = [pads] }], Worn, []));
        Assert.Contains("knee pads", e.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => Part(RidePartKind.Climb, -70));
    }

    [Fact]
    public void For_ProtectiveWear_IsWornOrStowed_AndUnknownHeatIsFound()
    {
        var helmet = new ProtectiveWear { Name = "full-face helmet", Mass = Mass.FromKilograms(1) };
        var pads = new ProtectiveWear { Name = "knee pads", Mass = Mass.FromKilograms(0.5), HeatLoadClo = 0.1 };
        LayerPlan plan = LayerPlan.For([Part(RidePartKind.Climb, 8), Part(RidePartKind.Descent, 8) with { ProtectiveWorn = [helmet, pads] }], Worn, [], [helmet, pads]);
        Assert.Equal([helmet, pads], plan.Parts[0].Stowed);
        Assert.Empty(plan.Parts[1].Stowed);
        Assert.Equal(plan.Parts[0].WornClo + 0.1, plan.Parts[1].WornClo, 9);
        Assert.Equal("full-face helmet", Assert.Single(plan.Findings, f => f.Code == ExposureFindingCodes.ProtectiveHeatUnknown).Subject);
    }

    [Property(MaxTest = 60)]
    public bool For_PutOn_IsTheFewestThatReach(byte air, byte a, byte b, byte c, byte p)
    {
        Garment[] carried = [new("a", a / 100.0), new("b", b / 100.0) { AirPermeabilityPerM2 = 1 + p }, new("c", c / 100.0)];
        PartLayers best = LayerPlan.For([Part(RidePartKind.Descent, 14 - (air % 20))], Worn, carried).Parts[0];

        // Every single garment alone, by its own call: if one reaches, no more than one is put on.
        int alone = carried.Count(g => LayerPlan.For([best.Part], Worn, [g]).Parts[0].MissingClo == 0);
        return best.PutOn.Count == 0 ? best.WornClo >= best.NeededMinimalClo : alone == 0 || best.PutOn.Count == 1;
    }

    [Property(MaxTest = 100)]
    [Checks(typeof(LayerPlan), CheckKind.Property)]
    public bool For_MoreCarriedOrDrier_IsNeverShorter(byte air, byte kind, byte clo)
    {
        RidePart part = Part((RidePartKind)(kind % 7), 10 - (air % 30));
        double missing = LayerPlan.For([part], Worn, [Shell]).Parts[0].MissingClo;
        double more = LayerPlan.For([part], Worn, [Shell, new Garment("more", clo / 100.0)]).Parts[0].MissingClo;
        double wet = LayerPlan.For([part with { Wetness = Wetness.Wet }], Worn, [Shell]).Parts[0].MissingClo;
        return more <= missing + 1e-9 && wet >= missing - 1e-9;
    }

    private static RidePart Part(RidePartKind kind, double airC) => new()
    {
        Name = kind.ToString(),
        Kind = kind,
        Duration = TimeSpan.FromHours(2),
        AirTemperature = Temperature.FromDegreesCelsius(airC),
        Wind = Speed.FromMetersPerSecond(2),
    };
}
