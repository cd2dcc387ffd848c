using FsCheck;
using FsCheck.Xunit;
using SoloRide.Effort;
using UnitsNet;
using Xunit.Abstractions;

namespace SoloRide.Tests.Effort;

public sealed class PaceModelTests(ITestOutputHelper output)
{
    private static readonly Rider Known = new() { Mass = Mass.FromKilograms(76), SustainedPower = Power.FromWatts(165) };

    private static PaceModel Model(double watts = 165, PaceOptions? options = null)
        => PaceModel.For(new Rider { Mass = Mass.FromKilograms(76), SustainedPower = Power.FromWatts(watts) }, options: options);

    [Fact]
    [Checks(typeof(PaceModel), CheckKind.BadInput)]
    public void For_NoRider_Throws() => Assert.Throws<ArgumentNullException>(() => PaceModel.For(null!));

    [Fact]
    [Checks(typeof(PaceModel), CheckKind.BadInput)]
    public void Options_OutsideRange_SayRangeAndUnit()
    {
        Assert.Contains("0.13", Assert.Throws<ArgumentOutOfRangeException>(() => new PaceOptions { GrossEfficiencyFraction = 0.5 }).Message, StringComparison.Ordinal);
        Assert.Contains("m/s", Assert.Throws<ArgumentOutOfRangeException>(() => new PaceOptions { SlowestRide = Speed.FromMetersPerSecond(0) }).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new PaceReserve { PowerFraction = 0.9 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new StepConditions { Carried = Mass.FromKilograms(-1) });
        Assert.Throws<ArgumentOutOfRangeException>(() => Model().By((TravelMode)9, new TrailStep(100, 0)));
    }

    /// <summary>Common practice, no source: a loop of 11 miles with 1 500 ft of climbing is an ordinary outing of a few hours.</summary>
    [Fact]
    [Checks(typeof(PaceModel), CheckKind.Outside)]
    public void Along_ElevenMilesFifteenHundredFeet_IsAFewHours()
    {
        RidePace p = Model(150).Along(Trails.Mixed(17.7, 457));
        output.WriteLine($"{p.Elapsed} moving {p.Moving} {p.MetabolicEnergy}");
        Assert.InRange(p.Elapsed.Typical.TotalHours, 1.2, 3);
        Assert.InRange(p.Elapsed.High.TotalHours, 1.5, 4);
    }

    /// <summary>Common practice, no source: ten miles on foot from the vehicle is a little over three hours.</summary>
    [Fact]
    [Checks(typeof(PaceModel), CheckKind.Outside)]
    public void By_WalkTenMiles_IsALittleOverThreeHours()
    {
        double s = Trails.Loop(16.1, 100).Sum(x => Model().By(TravelMode.Walk, x)!.TypicalS);
        output.WriteLine($"{s / 3600:F2} h");
        Assert.InRange(s / 3600, 3.0, 4.0);
    }

    [Fact]
    public void Along_DayLoop_TakesSeveralHours()
    {
        RidePace p = Model().Along(Trails.Mixed(58, 1150));
        output.WriteLine($"{p.Elapsed} moving {p.Moving} stops {p.Stopped} {p.MetabolicEnergy} push {p.TimeIn(TravelMode.Push)} coast {p.TimeIn(TravelMode.Coast)}");
        output.WriteLine($"ledger {p.Ledger}");
        foreach (Finding f in p.Findings)
        {
            output.WriteLine(f.ToString());
        }

        Assert.InRange(58 / p.Moving.Typical.TotalHours, 10, 14.5);
    }

    [Property(MaxTest = 200)]
    [Checks(typeof(PaceModel), CheckKind.Property)]
    public bool At_MorePower_NeverSlower(byte grade, byte watts, byte extra, byte kind)
    {
        TrailStep s = Step(grade, kind);
        double p = 60 + (watts * 0.8);
        return Model(p + (extra * 0.9)).At(s).TypicalS <= Model(p).At(s).TypicalS * (1 + 1e-9);
    }

    [Property(MaxTest = 200)]
    public bool At_MoreMass_NeverFasterUphill(byte grade, byte kg, byte kind)
    {
        TrailStep s = Step((byte)(128 + (grade / 2)), kind);
        PaceModel m = Model();
        double light = m.At(s).TypicalS, heavy = m.At(s, new StepConditions { Carried = Mass.FromKilograms(kg % 30) }).TypicalS;
        return heavy >= light * (1 - 1e-9);
    }

    [Property(MaxTest = 200)]
    public bool At_SteeperUp_NeverCheaper(byte grade, byte more, byte kind)
    {
        double g = (128 + (grade / 2) - 128) / 320.0, g2 = g + (more / 1000.0);
        PaceModel m = Model();
        TrailStep a = new(100, 100 * g, 500, 0, (TrailSurface)(kind % 11), (TrailDifficulty)((kind % 4) - 1));
        TrailStep b = new(100, 100 * g2, 500, 0, a.Surface, a.Difficulty);
        return m.At(b).TypicalS >= m.At(a).TypicalS * (1 - 1e-9)
            && m.At(b).MetabolicEnergy.Joules >= m.At(a).MetabolicEnergy.Joules * (1 - 1e-9);
    }

    /// <summary>The mode chosen is never slower than riding (the share that nobody rides pushed) or walking alone, whatever the difficulty.</summary>
    [Property(MaxTest = 300)]
    public bool At_ModeChoice_NeverSlowerThanOneModeAlone(byte grade, byte kind, byte watts)
    {
        double g = (grade - 128) / 320.0;
        TrailStep s = new(100, 100 * g, 500, 0, (TrailSurface)(kind % 11), (TrailDifficulty)((kind / 11 % 8) - 1));
        PaceModel m = Model(60 + watts);
        double chosen = m.At(s).TypicalS * (1 - 1e-9);
        return new[] { TravelMode.Ride, TravelMode.Push, TravelMode.Carry }.All(mode => m.By(mode, s) is not { } one || chosen <= one.TypicalS);
    }

    /// <summary>Regression: riding once passed a whole step at riding speed where most of it must be pushed, and a way out by bike looked far shorter than it is.</summary>
    [Fact]
    public void By_Ride_WhereMostIsNotRidden_CountsThePushing()
    {
        var wall = new TrailStep(1000, 300, 900, 0, TrailSurface.Rock, TrailDifficulty.Level2);
        PaceModel strong = Model(400);
        StepPace ride = strong.By(TravelMode.Ride, wall)!, push = strong.By(TravelMode.Push, wall)!, chosen = strong.At(wall);
        Assert.Equal(TravelMode.Push, ride.Mode);
        Assert.InRange(ride.TypicalS, chosen.TypicalS * (1 - 1e-9), push.TypicalS);
        Assert.True(ride.TypicalS > 0.5 * push.TypicalS);
    }

    [Property(MaxTest = 100)]
    public bool At_HeadAndTailWind_CostMoreThanTheyGive(byte wind)
    {
        TrailStep s = new(100, 0, 0, 90, TrailSurface.Paved, TrailDifficulty.Unknown);
        PaceModel m = Model(90);
        double Time(double from) => m.At(s, new StepConditions { Weather = new Weather { AirTempC = 15, WindMps = wind / 32.0, WindFromDeg = from } }).TypicalS;
        double still = Time(0), head = Time(90), tail = Time(270);
        return head >= still - 1e-9 && tail <= still + 1e-9 && head - still >= still - tail - 1e-9;
    }

    [Fact]
    public void Ledger_OverAHundredKilometres_Closes()
    {
        RidePace p = Model().Along(Trails.Mixed(100, 2500, 37), (i, _) => new StepConditions { Weather = new Weather { AirTempC = 12, WindMps = i % 7, WindFromDeg = 37 * i % 360 } });
        Assert.True(p.Ledger.ImbalanceFraction < 1e-9, $"{p.Ledger.ImbalanceFraction:E}");
    }

    [Fact]
    public void By_OnFoot_LampInjuryAndBikeEachSlowDown()
    {
        var s = new TrailStep(100, 5, 500, 0, TrailSurface.Firm, TrailDifficulty.Level2);
        PaceModel m = Model();
        double walk = m.By(TravelMode.Walk, s)!.TypicalS, push = m.By(TravelMode.Push, s)!.TypicalS, carry = m.By(TravelMode.Carry, s)!.TypicalS;
        double lamp = m.By(TravelMode.Walk, s, new StepConditions { ByLamp = true })!.TypicalS, hurt = m.By(TravelMode.Walk, s, new StepConditions { Injured = true })!.TypicalS;
        Assert.True(walk < push && push < carry && walk < lamp && walk < hurt);
        Assert.Null(m.By(TravelMode.Coast, s));
        Assert.NotNull(m.By(TravelMode.Coast, new TrailStep(100, -8, 500, 0, TrailSurface.Firm, TrailDifficulty.Level1)));
    }

    /// <summary>The closed form agrees with samples of the same model: median within 1.5 %, P10 and P90 within 3 %.</summary>
    [Fact]
    public void Along_ClosedFormSpread_AgreesWithSamples()
    {
        RidePace p = Model().Along(Trails.Mixed(40, 900));
        double[] s = new double[4000], e = new double[4000];
        p.Sampler(7).Totals(0, s, e);
        Array.Sort(s);
        Array.Sort(e);
        output.WriteLine($"closed {p.Moving}; samples {TimeSpan.FromSeconds(s[2000])} {TimeSpan.FromSeconds(s[400])} {TimeSpan.FromSeconds(s[3600])}; kcal {p.MetabolicEnergy} {e[2000] / 4184:F0}");
        Assert.InRange(s[2000] / p.Moving.Typical.TotalSeconds, 0.985, 1.015);
        Assert.InRange(s[400] / p.Moving.Low.TotalSeconds, 0.97, 1.03);
        Assert.InRange(s[3600] / p.Moving.High.TotalSeconds, 0.97, 1.03);
    }

    [Fact]
    public void Sampler_SameSeedAndIndex_SameBits()
    {
        RidePace p = Model().Along(Trails.Mixed(20, 400));
        double[] a = new double[p.Steps.Count], b = new double[p.Steps.Count], total = new double[10], energy = new double[10];
        PaceDraw x = p.Sampler(3).Sample(9, a), y = p.Sampler(3).Sample(9, b, new double[p.Steps.Count]);
        p.Sampler(3).Totals(0, total, energy);
        Assert.Equal(x, y);
        Assert.Equal(a, b);
        Assert.Equal(a[^1], total[9]);
    }

    [Fact]
    public void Effort_WithoutWatts_SaysWhatWasUsed()
    {
        Assert.Equal(EffortBasis.StatedPower, PaceModel.For(Known).Effort.Basis);
        Assert.Equal(EffortBasis.ClimbingRate, PaceModel.For(new Rider { Mass = Mass.FromKilograms(76), ClimbingRate = Speed.FromMetersPerHour(500) }).Effort.Basis);
        Assert.Equal(EffortBasis.OxygenUptake, PaceModel.For(new Rider { MaxOxygenUptakeMlPerKgMin = 50 }).Effort.Basis);
        PaceModel prior = PaceModel.For(new Rider());
        Assert.Equal(EffortBasis.Prior, prior.Effort.Basis);
        Assert.Contains(prior.Findings, f => f.Code == "effort.basis" && f.Severity == FindingSeverity.Caution);
        TrailStep[] trail = Trails.Mixed(20, 400);
        TimeSpan known = Model().Along(trail).Moving.Typical;
        PaceModel timed = PaceModel.For(new Rider { Mass = Mass.FromKilograms(76) }, options: new PaceOptions { TimedRide = new TimedLeg("a", trail, known) });
        Assert.Equal(EffortBasis.TimedRide, timed.Effort.Basis);
        Assert.InRange((double)timed.Effort.Power.Typical.Watts, 164, 166);
    }

    [Fact]
    public void CostOf_Reserve_CostsTimeAndGainsStoppingDistance()
    {
        ReserveCost c = Model().CostOf(new PaceReserve { PowerFraction = 0.15, TechnicalFraction = 0.2 }, Trails.Mixed(30, 700));
        Assert.True(c.ExtraTime > TimeSpan.Zero && c.StoppingWith < c.StoppingWithout && c.StoppingGained > Length.Zero);
        Assert.True(c.DaylightLost > c.ExtraTime);
        Assert.True(c.UntilDuskWith is null && c.MoreAfterDusk is null && c.MoreWater is null && c.InjuryRideFactor is null && c.BreakageRideFactor is null);
    }

    /// <summary>Bookkeeping by hand from the two rides: dusk half an hour before the end with the reserve, 0.6 L/h.</summary>
    [Fact]
    public void CostOf_WithStakes_CountsDuskWaterAndOnlyTheCallersRatios()
    {
        var reserve = new PaceReserve { PowerFraction = 0.15, TechnicalFraction = 0.2 };
        TrailStep[] trail = Trails.Mixed(30, 700);
        RidePace without = Model().Along(trail), with = Model().With(reserve).Along(trail);
        TimeSpan dusk = with.Elapsed.Typical - TimeSpan.FromMinutes(3);
        ReserveCost c = Model().CostOf(reserve, trail, stakes: new ReserveStakes { UntilDusk = dusk, WaterRate = VolumeFlow.FromLitersPerHour(0.6), InjuryRateFactor = 0.8, BreakageRateFactor = 0.7 });
        Assert.Equal(-3, c.UntilDuskWith!.Typical.TotalMinutes, 9);
        Assert.Equal((dusk - without.Elapsed.Typical).TotalMinutes, c.UntilDuskWithout!.Typical.TotalMinutes, 9);
        Assert.True(c.UntilDuskWith.Low < c.UntilDuskWith.High);
        Assert.Equal(3 - Math.Max(0, (without.Elapsed.Typical - dusk).TotalMinutes), c.MoreAfterDusk!.Value.TotalMinutes, 9);
        Assert.Equal(0.6 * (with.Elapsed.Typical - without.Elapsed.Typical).TotalHours, c.MoreWater!.Value.Liters, 9);
        Assert.Equal(0.8 * (with.Moving.Typical / without.Moving.Typical), c.InjuryRideFactor!.Value, 12);
        Assert.InRange(c.BreakageRideFactor!.Value, 0.5, 0.7 + 1e-12);
        Assert.True(Model().CostOf(reserve, trail, stakes: new ReserveStakes { WaterRate = VolumeFlow.FromLitersPerHour(0.6), WaterRateWithReserve = VolumeFlow.FromLitersPerHour(0.4) }).MoreWater < Volume.Zero);
        Assert.Throws<ArgumentOutOfRangeException>(() => new ReserveStakes { WaterRate = VolumeFlow.FromLitersPerHour(9) });
        Assert.Throws<ArgumentOutOfRangeException>(() => new ReserveStakes { InjuryRateFactor = 0 });
        Assert.Throws<ArgumentOutOfRangeException>(() => new ReserveStakes { UntilDusk = TimeSpan.FromHours(-1) });
    }

    /// <summary>Derived: speed from power and power for a speed are inverse, with and without wind.</summary>
    [Property(MaxTest = 200)]
    public bool PowerFor_SpeedOfAPower_GivesThePowerBackAndCloses(byte grade, byte watts, byte wind, byte kind)
    {
        var s = new TrailStep(500, 500 * ((grade / 1280.0) - 0.02), 500, 90, (TrailSurface)(kind % 11), TrailDifficulty.Level1);
        var c = new StepConditions { Weather = new Weather { AirTempC = 12, WindMps = wind / 40.0, WindFromDeg = kind * 1.4 } };
        double p = 80 + watts;
        PaceModel m = Model();
        RidingDemand d = m.PowerFor(m.SpeedFor(Power.FromWatts(p), s, c), s, c);
        return Math.Abs((double)d.MechanicalPower.Watts - p) < 1e-6 * p && d.Ledger.ImbalanceFraction < 1e-9 && d.BrakingPower.Watts == 0;
    }

    [Fact]
    public void PowerFor_SteepDescent_BrakesAndTheLedgerCloses()
    {
        var s = new TrailStep(500, -50, 500, 90, TrailSurface.Firm, TrailDifficulty.Level1);
        RidingDemand d = Model().PowerFor(Speed.FromKilometersPerHour(15), s);
        Assert.True(d.MechanicalPower.Watts == 0 && d.BrakingPower.Watts > 100 && d.SustainedFraction == 0);
        Assert.True(d.Ledger.ImbalanceFraction < 1e-9 && d.Ledger.Brakes.Joules > 0);
        Assert.Throws<ArgumentOutOfRangeException>(() => Model().PowerFor(Speed.FromMetersPerSecond(0), s));
        Assert.Throws<ArgumentOutOfRangeException>(() => Model().SpeedFor(Power.FromWatts(-1), s));
        Assert.Equal(0, Model().SpeedFor(Power.Zero, new TrailStep(100, 5)).MetersPerSecond);
    }

    [Fact]
    public void PowerFor_Motor_GivesItsShare()
    {
        var bike = new Bike { AssistPower = Power.FromWatts(150), AssistBattery = Energy.FromWattHours(500), Mass = Mass.FromKilograms(23) };
        RidingDemand d = PaceModel.For(Known, bike).PowerFor(Speed.FromMetersPerSecond(6), new TrailStep(500, 50, 500, 90, TrailSurface.Firm, TrailDifficulty.Level1));
        Assert.Equal(150, (double)d.AssistPower.Watts, 6);
        Assert.True(d.MechanicalPower.Watts > 165 && d.Ledger.ImbalanceFraction < 1e-9);
    }

    /// <summary>Derived: the same samples in any order and on any number of threads, so percentiles are the same bits.</summary>
    [Fact]
    public void Sampler_OneOrTwoThreads_SamePercentileBits()
    {
        PaceSampler sampler = Model().Along(Trails.Mixed(20, 400)).Sampler(11);
        double[] one = new double[2000], oneJ = new double[2000], two = new double[2000], twoJ = new double[2000];
        sampler.Totals(0, one, oneJ);
        Parallel.For(0, 20, new ParallelOptions { MaxDegreeOfParallelism = 2 }, k => sampler.Totals(k * 100, two.AsSpan(k * 100, 100), twoJ.AsSpan(k * 100, 100)));
        Array.Sort(one);
        Array.Sort(two);
        Array.Sort(oneJ);
        Array.Sort(twoJ);
        foreach (int k in new[] { 100, 200, 1000, 1800, 1900 })
        {
            Assert.Equal(BitConverter.DoubleToInt64Bits(one[k]), BitConverter.DoubleToInt64Bits(two[k]));
            Assert.Equal(BitConverter.DoubleToInt64Bits(oneJ[k]), BitConverter.DoubleToInt64Bits(twoJ[k]));
        }
    }

    [Fact]
    public void Sampler_MoreSamples_AllocateNoMore()
    {
        PaceSampler sampler = Model().Along(Trails.Mixed(20, 400)).Sampler(11);
        double[] s = new double[500], e = new double[500];
        sampler.Totals(0, s, e);
        long before = GC.GetAllocatedBytesForCurrentThread();
        sampler.Totals(0, s, e);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - before, 0, 64);
    }

    /// <summary>Derived: the batch form of the walking cost meets the scalar one to 1e-12, whatever the place in the span.</summary>
    [Property(MaxTest = 50)]
    public bool WalkingCost_BatchAndScalar_Agree(byte seed, byte length)
    {
        int n = length % 37;
        double[] v = new double[n], g = new double[n], f = new double[n], w = new double[n];
        for (int i = 0; i < n; i++)
        {
            v[i] = 0.1 + (0.01 * ((seed * 7 + i * 31) % 200));
            g[i] = -60 + ((seed * 3 + i * 17) % 121);
            f[i] = 1 + (0.02 * ((seed + i) % 90));
        }

        WalkCostBatchKernel.OnFootWPerKg(v, g, f, w);
        return Enumerable.Range(0, n).All(i => Math.Abs((w[i] / WalkCostKernel.OnFootWPerKg(v[i], g[i], f[i], 1)) - 1) < 1e-12);
    }

    [Fact]
    public void Along_AssistBattery_RunsEmptyAndSaysSo()
    {
        var bike = new Bike { AssistPower = Power.FromWatts(150), AssistBattery = Energy.FromWattHours(100), Mass = Mass.FromKilograms(23) };
        RidePace p = PaceModel.For(Known, bike).Along(Trails.Mixed(40, 1200));
        Assert.Contains(p.Findings, f => f.Code == "effort.assist-empty");
        Assert.InRange(p.AssistEnergy.WattHours, 99, 102);
        Assert.True(p.Ledger.ImbalanceFraction < 1e-9);
    }

    private static TrailStep Step(byte grade, byte kind)
    {
        double g = (grade - 128) / 320.0;
        return new TrailStep(100, 100 * g, 500, 0, (TrailSurface)(kind % 11), (TrailDifficulty)((kind % 8) - 1));
    }
}
