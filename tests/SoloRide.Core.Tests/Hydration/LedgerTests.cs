using FsCheck;
using FsCheck.Xunit;
using SoloRide.Hydration;
using UnitsNet;

namespace SoloRide.Tests.Hydration;

public sealed class LedgerTests
{
    private static readonly Rider Rider75 = new() { Mass = Mass.FromKilograms(75) };

    [Property(MaxTest = 200)]
    [Checks(typeof(HydrationLedger), CheckKind.Property)]
    public bool Run_PlannedIntake_NeverAboveLossNorCaps(NonEmptyArray<byte> minutes, byte sweat, byte want, bool thirst)
    {
        HydrationStep[] steps = [.. minutes.Get.Select((b, i) => Step(1 + (b % 240), 0.02 + (sweat % 40 / 10.0 * (1 + (i % 3)) / 3))
            with { Planned = thirst ? null : Volume.FromLiters(want / 50.0) })];
        var options = new HydrationLedgerOptions { HourlyMaximum = Volume.FromLiters(0.9), DailyMaximum = Volume.FromLiters(6) };
        HydrationLedger ledger = HydrationLedger.Run(Rider75, steps, options);
        for (int k = 0; k < steps.Length; k++)
        {
            HydrationLedgerEntry e = ledger.Entries[k];
            if (e.WaterDrunk.Liters > e.WaterLost.Typical.Liters + 1e-9 || e.Intake.Liters > (0.9 * steps[k].Duration.TotalHours) + 1e-9 || e.Intake.Liters < 0)
            {
                return false;
            }

            // Any 24 hours that end with this step, earlier steps taken in part.
            TimeSpan from = e.At - TimeSpan.FromHours(24);
            double day = 0;
            for (int j = 0; j <= k; j++)
            {
                TimeSpan end = ledger.Entries[j].At, begin = end - steps[j].Duration;
                double share = end <= from ? 0 : begin >= from ? 1 : (end - from) / steps[j].Duration;
                day += share * ledger.Entries[j].Intake.Liters;
            }

            if (day > 6 + 1e-9)
            {
                return false;
            }
        }

        return true;
    }

    /// <summary>
    /// Published limits: US Army fluid guide (1.5 quarts an hour, 12 a day), ACSM 2007 (2 % of body mass), NATA 2017 (thirst replaces about two
    /// thirds); and 8 h of drinking by the Army table above the own sweat leads to a gain of more than 2 % body water (abstract cited there).
    /// </summary>
    [Fact]
    [Checks(typeof(HydrationLedger), CheckKind.Outside)]
    public void Run_PublishedLimits_AreTheDefaultsAndOverPrescriptionIsAlarmed()
    {
        var o = new HydrationLedgerOptions();
        Assert.Equal(1.42, o.HourlyMaximum.Liters, 0.005);
        Assert.Equal(11.36, o.DailyMaximum.Liters, 0.005);
        Assert.Equal(0.02, o.DeficitAlarmFraction);
        HydrationLedger thirst = HydrationLedger.Run(Rider75, [Step(180, 0.9)]);
        Assert.Equal(2.0 / 3, thirst.Last.WaterDrunk.Liters / thirst.Last.WaterLost.Typical.Liters, 1e-9);

        HydrationLedger table = HydrationLedger.Run(Rider75, [.. Enumerable.Range(0, 8).Select(_ => Step(60, 0.6) with { Drunk = Volume.FromLiters(0.946) })]);
        Assert.True(table.Last.DeficitOfBodyMass.Typical.Percent < -2);
        Assert.Contains(table.Findings, f => f.Code == HydrationFindingCodes.OverDrinking && f.Severity == FindingSeverity.Warning);
        Assert.Contains(table.Findings, f => f.Code == HydrationFindingCodes.Dilution);
    }

    [Fact]
    public void Run_HotDayWithLittleWater_AlarmsDeficit()
        => Assert.Contains(
            HydrationLedger.Run(Rider75, [Step(240, 1.0) with { Available = Volume.FromLiters(0.5) }]).Findings,
            f => f.Code == HydrationFindingCodes.Deficit);

    [Fact]
    public void Run_ThirstOnAMildDay_RaisesNoAlarm()
        => Assert.DoesNotContain(HydrationLedger.Run(Rider75, [Step(120, 0.5)]).Findings, f => f.Severity >= FindingSeverity.Caution);

    [Fact]
    public void Run_WantedTooMuch_IsCutAndSaid()
    {
        HydrationLedger ledger = HydrationLedger.Run(Rider75, [Step(60, 0.5) with { Planned = Volume.FromLiters(2) }]);
        Assert.Equal(0.5, ledger.Last.WaterDrunk.Liters, 1e-9);
        Assert.Contains(ledger.Findings, f => f.Code == HydrationFindingCodes.IntakeCut);
    }

    [Fact]
    public void Run_SaltWithoutWater_NeverMasksTheDeficit()
    {
        HydrationStep step = Step(240, 1.0) with { Available = Volume.FromLiters(0.5) };
        HydrationLedger plain = HydrationLedger.Run(Rider75, [step]);
        HydrationLedger salted = HydrationLedger.Run(Rider75, [step with { Eaten = Sodium.FromMass(Mass.FromGrams(2)) }]);
        Assert.Equal(plain.Last.WaterDeficit, salted.Last.WaterDeficit);
        Assert.True(salted.SodiumOpen < plain.SodiumOpen);
        Assert.Contains(salted.Findings, f => f.Code == HydrationFindingCodes.SaltNoCure);
    }

    /// <summary>ACSM 2007: sports drinks hold at most 30 mmol/L of sodium; 690 mg are 30.0 mmol.</summary>
    [Fact]
    public void Run_Capsules_CountAsSodiumAndAsWaterNeed()
    {
        HydrationLedger l = HydrationLedger.Run(Rider75, [Step(300, 0.8) with { Capsules = Sodium.FromMass(Mass.FromMilligrams(690)) }]);
        Assert.Equal(1, l.WaterForCapsules.Liters, 0.001);
        Assert.Equal(690, l.Last.SodiumTaken.Mass.Milligrams, 1e-6);
        HydrationLedger none = HydrationLedger.Run(Rider75, [Step(300, 0.8)]);
        Assert.Equal(none.Last.WaterDrunk, l.Last.WaterDrunk);
        Assert.Equal(none.Last.WaterDeficit, l.Last.WaterDeficit);
        Assert.Equal(0.5 * none.Last.SodiumLost.Typical.Milligrams, none.SodiumToCarry.Milligrams, 1e-6);
        Assert.Equal(Mass.Zero, HydrationLedger.Run(Rider75, [Step(200, 0.8)]).SodiumToCarry);
    }

    [Fact]
    public void ToString_CarriesAdviceAndCautions()
    {
        string text = HydrationLedger.Run(Rider75, [Step(300, 0.8)]).ToString();
        Assert.Contains("Drink to thirst", text, StringComparison.Ordinal);
        Assert.Contains(Cautions.Text, text, StringComparison.Ordinal);
    }

    /// <summary>Sampling kernel: nothing is allocated.</summary>
    [Fact]
    public void Drink_Kernel_DoesNotAllocate()
    {
        double[] hours = new double[200], loss = new double[200], available = new double[200], wanted = new double[200], drunk = new double[200], intake = new double[200];
        Array.Fill(hours, 0.5);
        Array.Fill(loss, 0.8);
        Array.Fill(available, double.PositiveInfinity);
        Array.Fill(wanted, double.NaN);
        Array.Fill(drunk, double.NaN);
        HydrationLedgerKernel.Drink(hours, loss, available, wanted, drunk, 2.0 / 3, 1.42, 11.36, intake);
        long before = GC.GetAllocatedBytesForCurrentThread();
        double sum = 0;
        for (int k = 0; k < 20; k++)
        {
            HydrationLedgerKernel.Drink(hours, loss, available, wanted, drunk, 2.0 / 3, 1.42, 11.36, intake);
            var input = new SweatInput(1.9, 250, 40, 25 + k, 0.4, 2, 30, 0.4, 0.38, Known.Unknown);
            SweatBand band = input.Band();
            input.Scale(band, out double low, out double typical, out double high);
            sum += SweatKernel.AtDeviate(low, typical, high, 0.3) + SweatHeatStrain.Gpm2h(in input, 75, 1.8, 60);
        }

        Assert.Equal(0, GC.GetAllocatedBytesForCurrentThread() - before);
        Assert.True(sum > 0);
    }

    [Fact]
    public void Run_GutIllness_WarnsAndAddsTheLossGiven()
    {
        HydrationLedger ill = HydrationLedger.Run(Rider75, [Step(60, 0.5)], new HydrationLedgerOptions { GutIllness = GutIllness.Diarrhoea, GutLoss = VolumeFlow.FromLitersPerHour(0.4) });
        Assert.Equal(0.9, ill.Last.WaterLost.Typical.Liters, 1e-9);
        Assert.Contains(ill.Findings, f => f.Code == HydrationFindingCodes.GutIllness && f.Severity == FindingSeverity.Warning);
    }

    [Fact]
    [Checks(typeof(HydrationLedger), CheckKind.BadInput)]
    public void Run_BadInput_ThrowsClearly()
    {
        Assert.Throws<ArgumentException>(() => HydrationLedger.Run(Rider75, []));
        Assert.Throws<ArgumentNullException>(() => HydrationLedger.Run(null!, [Step(60, 1)]));
        Assert.Throws<ArgumentOutOfRangeException>(() => Step(0, 1));
        Assert.Throws<ArgumentOutOfRangeException>(() => new HydrationLedgerOptions { HourlyMaximum = Volume.FromLiters(2) });
        Assert.Throws<ArgumentOutOfRangeException>(() => Step(60, 7));
    }

    private static HydrationStep Step(double minutes, double lph)
        => new(TimeSpan.FromMinutes(minutes), new Estimate<VolumeFlow>(VolumeFlow.FromLitersPerHour(lph), VolumeFlow.FromLitersPerHour(lph * 0.8), VolumeFlow.FromLitersPerHour(lph * 1.2)));
}
