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
