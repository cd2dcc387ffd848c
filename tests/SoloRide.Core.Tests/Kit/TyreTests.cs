using FsCheck;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Kit;
using UnitsNet;

namespace SoloRide.Tests.Kit;

public sealed class TyreTests
{
    private static Pressure Psi(double psi) => Pressure.FromPascals(psi * TyreKernel.PaPerPsi);

    /// <summary>
    /// tyre_checks.csv: own arithmetic on the standard atmosphere (ISO 2533) and the published exponent 1.5 of deflection (Renart and Roura-Grabulosa 2019).
    /// </summary>
    [Fact]
    [Checks(typeof(TyreCalculator), CheckKind.Outside)]
    public void Changes_OfTable_AreTheSameDigits()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("planning", "tyre_checks.csv")).Rows)
        {
            double tolerance = Math.Pow(10, -(row["value"].Length - row["value"].IndexOf('.') - 1)) * 0.51;
            double got = row["quantity"] switch
            {
                "gauge_change" => TyreCalculator.AfterClimb(
                    Psi(row.Num("p0_psi")), Length.FromMeters(row.Num("h0_m")), Temperature.FromDegreesCelsius(row.Num("t0_C")),
                    Length.FromMeters(row.Num("h1_m")), Temperature.FromDegreesCelsius(row.Num("p1_psi_or_t1"))).After.Pascals / TyreKernel.PaPerPsi,
                var q => Share(TyreCalculator.Compare(Psi(row.Num("p0_psi")), Psi(row.Num("p1_psi_or_t1"))), q),
            };
            Assert.True(Math.Abs(got - row.Num("value")) <= tolerance, $"{row["quantity"]} row {row.Number}: {got} is not {row["value"]}");
        }

        static double Share(TyreChange c, string quantity) => (quantity switch
        {
            var q when q.Contains("patch", StringComparison.Ordinal) => c.PatchArea,
            var q when q.Contains("deflection", StringComparison.Ordinal) => c.Deflection,
            var q when q.Contains("speed", StringComparison.Ordinal) => c.BottomingSpeed,
            _ => c.BottomingEnergy,
        }).DecimalFractions;
    }

    [Property]
    [Checks(typeof(TyreCalculator), CheckKind.Property)]
    public bool Gauge_RisesWithHeightAndHeat_AndComesBack(PositiveInt psi, PositiveInt height, PositiveInt warm)
    {
        double p = 10 + (psi.Get % 40), h = 1 + (height.Get % 4000), t = 1 + (warm.Get % 30);
        Length valley = Length.FromMeters(0), top = Length.FromMeters(h);
        Temperature cold = Temperature.FromDegreesCelsius(5), hot = Temperature.FromDegreesCelsius(5 + t);
        TyreChange up = TyreCalculator.AfterClimb(Psi(p), valley, cold, top, cold), warmUp = TyreCalculator.AfterClimb(Psi(p), valley, cold, valley, hot);
        TyreChange back = TyreCalculator.AfterClimb(up.After, top, cold, valley, cold);
        return up.After > up.Before && warmUp.After > warmUp.Before && Math.Abs(back.After.Pascals - Psi(p).Pascals) < 1e-6
            && up.PatchArea.DecimalFractions < 1 && up.BottomingEnergy.DecimalFractions > 1;
    }

    [Fact]
    [Checks(typeof(TyreCalculator), CheckKind.BadInput)]
    public void Pressures_NotAboveZero_AreRefused()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => TyreCalculator.Compare(Psi(0), Psi(20)));
        Assert.Throws<ArgumentOutOfRangeException>(() => TyreCalculator.Compare(Psi(20), Psi(-1)));
        Assert.Contains("empty", Assert.Throws<ArgumentOutOfRangeException>(() => TyreCalculator.AfterClimb(
            Psi(0.5), Length.FromMeters(0), Temperature.FromDegreesCelsius(20), Length.FromMeters(0), Temperature.FromDegreesCelsius(-20))).Message, StringComparison.Ordinal);
        Assert.Contains("11000", Assert.Throws<ArgumentOutOfRangeException>(() => TyreCalculator.AfterClimb(
            Psi(20), Length.FromMeters(0), Temperature.FromDegreesCelsius(20), Length.FromMeters(20_000), Temperature.FromDegreesCelsius(20))).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void MakersLimits_Win()
    {
        var limits = new TyreLimits { TyreLowest = Psi(18), TyreHighest = Psi(40), RimHighest = Psi(28.5) };
        Assert.Contains(TyreCalculator.Compare(Psi(25), Psi(29), limits).Findings, f => f.Code == KitFindingCodes.TyreAboveLimit);
        Assert.Contains(TyreCalculator.Compare(Psi(25), Psi(17), limits).Findings, f => f.Code == KitFindingCodes.TyreBelowLimit);
        Assert.Empty(TyreCalculator.Compare(Psi(25), Psi(25) + TyreCalculator.UsualRemoteExtra, limits).Findings);
        Assert.Contains(TyreCalculator.Compare(Psi(25), Psi(26)).Findings, f => f.Code == KitFindingCodes.TyreLimitUnknown);
    }
}
