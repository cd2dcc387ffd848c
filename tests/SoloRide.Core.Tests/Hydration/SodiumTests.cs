using FsCheck.Xunit;
using SoloRide.Hydration;
using UnitsNet;

namespace SoloRide.Tests.Hydration;

public sealed class SodiumTests
{
    /// <summary>Molar masses: Na 22.98977, Cl 35.453 g/mol.</summary>
    [Fact]
    [Checks(typeof(Sodium), CheckKind.Outside)]
    public void Sodium_Conversions_AgreeWithMolarMasses()
    {
        foreach (IReadOnlyDictionary<string, string> row in HydrationCsv.Read("salt_conversions.csv"))
        {
            Sodium s = Sodium.FromAmount(AmountOfSubstance.FromMillimoles(row.Num("na_mmol")));
            Assert.Equal(row.Num("na_mg"), s.Mass.Milligrams, 2e-3);
            Assert.Equal(row.Num("nacl_g"), s.Salt.Grams, 1e-5);
        }

        Assert.Equal(393.4, Sodium.FromSalt(Mass.FromGrams(1)).Mass.Milligrams, 0.05);
        Assert.Equal(17.11, Sodium.FromSalt(Mass.FromGrams(1)).Amount.Millimoles, 0.005);
    }

    [Property]
    [Checks(typeof(Sodium), CheckKind.Property)]
    public bool Sodium_ThereAndBack_IsTheSame(ushort mg)
    {
        Sodium s = Sodium.FromMass(Mass.FromMilligrams(mg));
        return Math.Abs(s.Mass.Milligrams - mg) < 1e-8
            && Math.Abs(Sodium.FromSalt(s.Salt).Mass.Milligrams - mg) < 1e-8
            && Math.Abs(Sodium.FromAmount(s.Amount).Mass.Milligrams - mg) < 1e-8
            && s + s >= s;
    }

    [Fact]
    [Checks(typeof(Sodium), CheckKind.BadInput)]
    public void Sodium_BadInput_ThrowsClearly()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => Sodium.FromMass(Mass.FromGrams(-1)));
        Assert.ThrowsAny<ArgumentException>(() => Sodium.FromSalt(Mass.FromGrams(double.NaN)));
        Assert.Throws<ArgumentOutOfRangeException>(() => Sodium.In(Molarity.FromMillimolesPerLiter(20), Volume.FromLiters(-1)));
    }

    /// <summary>Barnes et al. 2019: 51.7 ± 27.8 mmol/h at 1.28 L/h in endurance athletes; Baker et al. 2016: 35.9 ± 10.4 mmol/L.</summary>
    [Fact]
    [Checks(typeof(SodiumEstimator), CheckKind.Outside)]
    public void Estimate_PublishedSweatRates_HoldPublishedLosses()
    {
        foreach ((double lph, double mmolPerH, double sd) in new[] { (1.28, 51.7, 27.8), (1.51, 55.9, 36.8), (0.94, 34.6, 19.2), (0.95, 34.5, 21.2), (0.83, 27.2, 14.7) })
        {
            SodiumEstimate e = SodiumEstimator.Estimate(new Rider(), Estimate.Exact(VolumeFlow.FromLitersPerHour(lph)));
            double typical = e.LossRate.Typical.GramsPerHour * 1000 / Sodium.SodiumGPerMol;
            Assert.InRange(typical, mmolPerH - (0.25 * sd), mmolPerH + (0.25 * sd));
            Assert.InRange(mmolPerH * Sodium.SodiumGPerMol / 1000, e.LossRate.Low.GramsPerHour, e.LossRate.High.GramsPerHour);
        }

        Estimate<Molarity> pooled = SodiumEstimator.Estimate(new Rider(), Estimate.Exact(VolumeFlow.FromLitersPerHour(1.21))).Concentration;
        Assert.Equal(35.9, pooled.Typical.MillimolesPerLiter, 1e-9);
        Assert.Equal(43.6 * 0.57 + 11.05, SodiumKernel.WholeBodyFromForearmMmolPerL(43.6), 1e-12);
        Assert.Equal(35.9, SodiumKernel.WholeBodyFromForearmMmolPerL(43.6), 0.05);
    }

    [Property]
    [Checks(typeof(SodiumEstimator), CheckKind.Property)]
    public bool Estimate_MoreSweat_MoreSodium_AcclimatisedLess(byte rate)
    {
        double lph = 0.1 + (rate / 100.0);
        double Loss(double l, Known known) => SodiumEstimator.Estimate(new Rider { HeatAcclimatised = known }, Estimate.Exact(VolumeFlow.FromLitersPerHour(l))).LossRate.Typical.GramsPerHour;
        return Loss(lph + 0.1, Known.Unknown) > Loss(lph, Known.Unknown)
            && Loss(lph, Known.Yes) <= Loss(lph, Known.Unknown) && Loss(lph, Known.Unknown) <= Loss(lph, Known.No);
    }

    [Fact]
    [Checks(typeof(SodiumEstimator), CheckKind.BadInput)]
    public void Estimate_BadInput_ThrowsClearly()
    {
        Assert.Throws<ArgumentNullException>(() => SodiumEstimator.Estimate(null!, Estimate.Exact(VolumeFlow.Zero)));
        Assert.Throws<ArgumentOutOfRangeException>(() => SodiumEstimator.Estimate(new Rider(), Estimate.Exact(VolumeFlow.FromLitersPerHour(9))));
    }

    [Fact]
    public void Estimate_OwnTest_ReplacesThePool()
        => Assert.Equal(60, SodiumEstimator.Estimate(new Rider { SweatSodiumMmolPerL = 60 }, Estimate.Exact(VolumeFlow.FromLitersPerHour(1))).Concentration.Typical.MillimolesPerLiter, 1e-9);
}
