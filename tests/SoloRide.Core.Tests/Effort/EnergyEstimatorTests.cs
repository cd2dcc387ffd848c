using FsCheck;
using FsCheck.Xunit;
using SoloRide.Effort;
using UnitsNet;

namespace SoloRide.Tests.Effort;

public sealed class EnergyEstimatorTests
{
    private static readonly TimeSpan Hour = TimeSpan.FromHours(1);

    private static Rider Body(Sex sex, double kg, double cm, int years)
        => new() { Sex = sex, Mass = Mass.FromKilograms(kg), Height = Length.FromCentimeters(cm), AgeYears = years };

    [Fact]
    [Checks(typeof(EnergyEstimator), CheckKind.BadInput)]
    public void BadInput_IsRefused()
    {
        Assert.Throws<ArgumentException>(() => EnergyEstimator.Resting(new Rider()));
        Assert.Throws<ArgumentOutOfRangeException>(() => EnergyEstimator.FromHeartRate(Body(Sex.Male, 75, 180, 30), 10, Hour));
        Assert.Throws<ArgumentOutOfRangeException>(() => EnergyEstimator.FromCycling(Body(Sex.Male, 75, 180, 30), Power.FromWatts(100), TimeSpan.Zero));
        Assert.Contains("01999", Assert.Throws<ArgumentException>(() => EnergyEstimator.FromActivity(Body(Sex.Male, 75, 180, 30), 1999, CompendiumEdition.Edition2011, Hour)).Message, StringComparison.Ordinal);
    }

    /// <summary>Mifflin and St Jeor: a reference page's woman of 75 kg, 165.1 cm, 45 years has 1 396 kcal, another page's man of 80 kg, 180 cm, 30 years 1 780.</summary>
    [Fact]
    [Checks(typeof(EnergyEstimator), CheckKind.Outside)]
    public void Resting_PublishedExamples_AreMet()
    {
        Assert.Equal(1396, EnergyEstimator.Resting(Body(Sex.Female, 75, 165.1, 45)).Energy.Typical.Kilocalories, 1.0);
        Assert.Equal(1780, EnergyEstimator.Resting(Body(Sex.Male, 80, 180, 30)).Energy.Typical.Kilocalories, 0.5);
    }

    /// <summary>Compendium: 01009 is 8.5 MET in both editions, 01015 is 7.5 in 2011 and 4.3 in 2024, 01060 15.8 and 16.8.</summary>
    [Fact]
    public void Met_ByEdition_IsThePrintedOne()
    {
        Assert.Equal(8.5, EnergyEstimator.Met(1009, CompendiumEdition.Edition2011));
        Assert.Equal(7.5, EnergyEstimator.Met(1015, CompendiumEdition.Edition2011));
        Assert.Equal(4.3, EnergyEstimator.Met(1015, CompendiumEdition.Edition2024));
        Assert.Equal(16.8, EnergyEstimator.Met(1060, CompendiumEdition.Edition2024));
        Assert.Equal(8.5 * 75, EnergyEstimator.FromActivity(Body(Sex.Male, 75, 180, 30), 1009, CompendiumEdition.Edition2024, Hour).Energy.Typical.Kilocalories, 6);
    }

    [Fact]
    public void HeartRate_OutsideTheFit_SaysSo()
    {
        Assert.Contains(EnergyEstimator.FromHeartRate(Body(Sex.Male, 75, 180, 30), 70, Hour).Findings, f => f.Code == "effort.heart-rate-range");
        Assert.DoesNotContain(EnergyEstimator.FromHeartRate(Body(Sex.Male, 75, 180, 30), 140, Hour).Findings, f => f.Code == "effort.heart-rate-range");
        Assert.Contains(EnergyEstimator.FromCycling(Body(Sex.Male, 75, 180, 30), Power.FromWatts(300), Hour).Findings, f => f.Code == "effort.cycling-range");
    }

    [Property(MaxTest = 100)]
    [Checks(typeof(EnergyEstimator), CheckKind.Property)]
    public bool Resting_HeavierBody_NeedsMore_AndSexUnstatedLiesBetween(byte kg, byte which)
    {
        var eq = (RestingEquation)(which % 5);
        double Kcal(Sex s, double m) => EnergyEstimator.Resting(Body(s, m, 175, 40), eq).Energy.Typical.Kilocalories;
        double mass = 40 + (kg / 4.0), male = Kcal(Sex.Male, mass), female = Kcal(Sex.Female, mass), unstated = Kcal(Sex.Unstated, mass);
        return Kcal(Sex.Male, mass + 5) > male && unstated >= Math.Min(male, female) - 1e-9 && unstated <= Math.Max(male, female) + 1e-9;
    }

    /// <summary>Classes of ISO 8996, 2004 edition (from memory): moderate is 165 W/m²; Du Bois gives 1.84 m² at 70 kg and 1.73 m (textbook value 1.83, from memory).</summary>
    [Fact]
    public void FromClass_Moderate_IsTheClassTimesTheSurface()
    {
        Assert.Equal(1.83, EnergyEstimator.SurfaceM2(70, 1.73), 0.01);
        EnergyReading r = EnergyEstimator.FromClass(Body(Sex.Male, 70, 173, 30), MetabolicClass.Moderate, Hour);
        Assert.InRange((double)r.MeanPower.Watts / 1.83, 163, 167);
    }

    [Fact]
    public void WholeDay_WithRide_AddsIt()
    {
        Rider r = Body(Sex.Male, 80, 180, 30);
        double without = EnergyEstimator.WholeDay(r).Energy.Typical.Kilocalories;
        double with = EnergyEstimator.WholeDay(r, new FoodDay(TimeSpan.FromHours(6), TimeSpan.FromHours(5), Energy.FromKilocalories(3000))).Energy.Typical.Kilocalories;
        Assert.Equal(1780 * 1.3, without, 0.5);
        Assert.Equal((1780 * 1.3 * 0.75) + 3000, with, 0.5);
    }
}
