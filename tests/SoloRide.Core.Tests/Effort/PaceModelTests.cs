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

    /// <summary>Where all of a step can be ridden, the mode chosen is never slower than riding or walking alone.</summary>
    [Property(MaxTest = 300)]
    public bool At_ModeChoice_NeverSlowerThanOneModeAlone(byte grade, byte kind, byte watts)
    {
        double g = (grade - 128) / 320.0;
        TrailStep s = new(100, 100 * g, 500, 0, (TrailSurface)(kind % 11), TrailDifficulty.Level0);
        PaceModel m = Model(60 + watts);
        double chosen = m.At(s).TypicalS * (1 - 1e-9);
        return new[] { TravelMode.Ride, TravelMode.Push, TravelMode.Carry }.All(mode => m.By(mode, s) is not { } one || chosen <= one.TypicalS);
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
        Assert.True(c.ExtraTime > TimeSpan.Zero && c.StoppingWith < c.StoppingWithout);
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
