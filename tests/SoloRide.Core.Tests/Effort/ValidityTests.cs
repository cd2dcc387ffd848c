using SoloRide.Effort;
using UnitsNet;

namespace SoloRide.Tests.Effort;

/// <summary>Every model says so when its input lies outside what it was made for, and keeps quiet inside. Ranges as the sources state them; see docs/modules/effort.md.</summary>
public sealed class ValidityTests
{
    private static readonly TimeSpan Hour = TimeSpan.FromHours(1);

    private static readonly Rider Grown = new() { Mass = Mass.FromKilograms(75), Height = Length.FromCentimeters(178), AgeYears = 40, Sex = Sex.Male, SustainedPower = Power.FromWatts(160) };

    private static bool Says(IEnumerable<Finding> findings, string code) => findings.Any(f => f.Code == code);

    [Theory]
    [InlineData(WalkingModel.Looney, 1.2, 0.10, 10, 1.2, 0.50, 10)]
    [InlineData(WalkingModel.Looney, 1.2, 0.10, 10, 2.1, 0.10, 10)]
    [InlineData(WalkingModel.Looney, 1.2, 0.10, 10, 1.2, 0.10, 60)]
    [InlineData(WalkingModel.Pandolf, 1.2, 0.10, 10, 1.2, -0.05, 10)]
    [InlineData(WalkingModel.PandolfSantee, 1.2, -0.10, 10, 1.2, -0.20, 10)]
    [InlineData(WalkingModel.Minetti, 1.2, 0.30, 0, 1.2, 0.50, 0)]
    [InlineData(WalkingModel.Minetti, 1.2, 0.30, 0, 1.2, 0.30, 10)]
    [InlineData(WalkingModel.Ardigo, 1.2, 0.10, 0, 1.2, -0.10, 0)]
    [InlineData(WalkingModel.Acsm, 1.2, 0.10, 0, 2.5, 0.10, 0)]
    public void WalkingEquation_OutsideItsRange_SaysSo(WalkingModel model, double v, double grade, double load, double vOut, double gradeOut, double loadOut)
    {
        EnergyReading inside = EnergyEstimator.OnFoot(Grown, Speed.FromMetersPerSecond(v), grade, Hour, Mass.FromKilograms(load), model: model);
        EnergyReading outside = EnergyEstimator.OnFoot(Grown, Speed.FromMetersPerSecond(vOut), gradeOut, Hour, Mass.FromKilograms(loadOut), model: model);
        Assert.False(Says(inside.Findings, "effort.walking-range"));
        Assert.True(Says(outside.Findings, "effort.walking-range"));
        Assert.True(outside.Energy.Typical.Joules > 0);
    }

    [Fact]
    public void WalkingEquation_None_IsWithoutARange()
        => Assert.All(Enum.GetValues<WalkingModel>(), m => Assert.True(Says(
            [.. EnergyEstimator.OnFoot(Grown, Speed.FromMetersPerSecond(2.9), 0.9, Hour, model: m).Findings, .. EnergyEstimator.OnFoot(Grown, Speed.FromMetersPerSecond(1), -0.9, Hour, model: m).Findings],
            "effort.walking-range")));

    [Fact]
    public void RestingEquation_EveryOne_FlagsAgeOrBuild()
    {
        Rider huge = Grown with { Mass = Mass.FromKilograms(200), Height = Length.FromCentimeters(150) };
        Assert.All(Enum.GetValues<RestingEquation>(), e =>
        {
            Assert.False(Says(EnergyEstimator.Resting(Grown, e).Findings, "effort.resting-range"));
            Assert.True(Says(EnergyEstimator.Resting(huge, e).Findings, "effort.resting-range"));
        });
        Assert.True(Says(EnergyEstimator.Resting(Grown with { AgeYears = 85 }).Findings, "effort.resting-range"));
        Assert.True(Says(EnergyEstimator.Resting(Grown with { AgeYears = 80 }, RestingEquation.HarrisBenedict).Findings, "effort.resting-range"));
        Assert.True(Says(EnergyEstimator.WholeDay(Grown with { AgeYears = 85 }).Findings, "effort.resting-range"));
    }

    [Fact]
    public void Activity_Class_HeartRate_Cycling_OutsideTheirPeople_SaySo()
    {
        Rider old = Grown with { AgeYears = 70 };
        Assert.False(Says(EnergyEstimator.FromActivity(Grown, 1009, CompendiumEdition.Edition2024, Hour).Findings, "effort.activity-range"));
        Assert.True(Says(EnergyEstimator.FromActivity(old, 1009, CompendiumEdition.Edition2024, Hour).Findings, "effort.activity-range"));
        Assert.True(Says(EnergyEstimator.FromActivity(old, 1009, CompendiumEdition.Edition2011, Hour).Findings, "effort.activity-range"));
        Assert.True(Says(EnergyEstimator.FromClass(old, MetabolicClass.Moderate, Hour).Findings, "effort.activity-range"));
        Assert.True(Says(EnergyEstimator.FromHeartRate(old, 140, Hour).Findings, "effort.heart-rate-range"));
        Assert.True(Says(EnergyEstimator.FromCycling(Grown, Power.FromWatts(20), Hour).Findings, "effort.cycling-range"));
    }

    [Fact]
    public void HikingRule_EveryOne_FlagsAWayTooSteep()
        => Assert.All(Enum.GetValues<HikingRule>(), rule =>
        {
            Assert.False(Says(HikingTimeEstimator.Check([new TrailStep(100, 8)], rule), "effort.rule-range"));
            Assert.True(Says(HikingTimeEstimator.Check([new TrailStep(100, 60)], rule), "effort.rule-range"));
        });

    [Fact]
    public void HikingRule_DescentsAndCreeping_AreSaid()
    {
        Assert.True(Says(HikingTimeEstimator.Check([new TrailStep(100, -8)], HikingRule.Naismith), "effort.rule-range"));
        Assert.True(Says(HikingTimeEstimator.Check([new TrailStep(100, 44)], HikingRule.MarquezPerez), "effort.rule-range") || HikingTimeEstimator.Time([new TrailStep(100, 44)], HikingRule.MarquezPerez) < TimeSpan.FromSeconds(1000));
        Assert.Throws<ArgumentNullException>(() => HikingTimeEstimator.Check(null!, HikingRule.Naismith));
    }

    [Fact]
    public void Pace_OnFootHeightHeatHours_OutsideTheData_SaySo()
    {
        PaceModel m = PaceModel.For(Grown);
        var steep = new TrailStep(100, 55, 500, 0, TrailSurface.Firm, TrailDifficulty.Level3);
        Assert.Equal("effort.steep-on-foot", m.By(TravelMode.Walk, steep)!.Finding?.Code);
        var firm = new TrailStep(100, 5, 500, 0, TrailSurface.Firm, TrailDifficulty.Level1);
        Assert.Null(m.By(TravelMode.Walk, firm)!.Finding);
        Assert.Equal("effort.heavy-on-foot", m.By(TravelMode.Push, firm, new StepConditions { Carried = Mass.FromKilograms(60) })!.Finding?.Code);
        PaceModel runner = PaceModel.For(Grown with { SustainedPower = Power.FromWatts(320) }, options: new PaceOptions { Foot = new FootHabit { WalkerPercentile = 25, Fastest = Speed.FromMetersPerSecond(2.5) } });
        StepPace fast = runner.By(TravelMode.Walk, new TrailStep(100, -3, 500, 0, TrailSurface.Paved))!;
        Assert.Equal(fast.Pace.MetersPerSecond > 1.96 ? "effort.fast-on-foot" : null, fast.Finding?.Code);
        TrailStep[] high = [new TrailStep(100, 2, 6300)];
        Assert.Contains(m.Along(high).Findings, f => f.Code == "effort.altitude" && f.Severity == FindingSeverity.Caution);
        Assert.True(Says(m.Along([firm], (_, _) => new StepConditions { Weather = new Weather { AirTempC = 36 } }).Findings, "effort.heat"));
        Assert.True(Says(m.Along([firm], (_, _) => new StepConditions { MovingBefore = TimeSpan.FromHours(30) }).Findings, "effort.long-ride"));
        Assert.False(Says(m.Along([firm]).Findings, "effort.long-ride"));
    }

    [Fact]
    public void PowerFor_WhereThisRiderWouldNotRide_SaysSo()
    {
        PaceModel m = PaceModel.For(Grown);
        var climb = new TrailStep(100, 6, 500, 0, TrailSurface.Firm, TrailDifficulty.Level1);
        Assert.True(Says(m.PowerFor(Speed.FromMetersPerSecond(4.5), climb).Findings, "effort.above-sustained"));
        Assert.True(Says(m.PowerFor(Speed.FromMetersPerSecond(12), climb).Findings, "effort.above-cap"));
        Assert.True(Says(m.PowerFor(Speed.FromMetersPerSecond(0.6), climb).Findings, "effort.below-balance"));
        Assert.Empty(m.PowerFor(Speed.FromMetersPerSecond(2), climb).Findings);
    }
}
