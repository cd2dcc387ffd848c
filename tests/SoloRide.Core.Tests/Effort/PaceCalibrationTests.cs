using FsCheck;
using FsCheck.Xunit;
using SoloRide.Effort;
using UnitsNet;
using Xunit.Abstractions;

namespace SoloRide.Tests.Effort;

public sealed class PaceCalibrationTests(ITestOutputHelper output)
{
    private static readonly Rider Unknown = new() { Mass = Mass.FromKilograms(76) };

    [Fact]
    [Checks(typeof(PaceCalibration), CheckKind.BadInput)]
    [Checks(typeof(PaceUpdate), CheckKind.BadInput)]
    public void From_NoLegs_Throws()
    {
        PaceModel m = PaceModel.For(Unknown);
        Assert.Throws<ArgumentException>(() => PaceCalibration.From(m, []));
        Assert.Throws<ArgumentNullException>(() => PaceCalibration.From(m, null!));
        Assert.Throws<ArgumentException>(() => PaceUpdate.From(m, []));
    }

    /// <summary>Exact legs of a rider with other power and technique give those back.</summary>
    [Fact]
    [Checks(typeof(PaceCalibration), CheckKind.Property)]
    public void From_ExactLegs_RecoversPowerAndTechnique()
    {
        PaceModel prior = PaceModel.For(Unknown);
        PaceModel truth = PaceModel.For(Unknown with { SustainedPower = Power.FromWatts(190) }, options: new PaceOptions
        {
            TechnicalCaps = new Dictionary<TrailDifficulty, TechnicalCap>
            {
                [TrailDifficulty.Level1] = Scaled(1.25, 17, 22, 0.95),
                [TrailDifficulty.Level2] = Scaled(0.8, 12, 14, 0.75),
            },
        });
        var legs = new List<TimedLeg>();
        for (int ride = 0; ride < 12; ride++)
        {
            TrailStep[] trail = Trails.Mixed(18, 200 + (70 * ride));
            int third = trail.Length / 3;
            for (int k = 0; k < 3; k++)
            {
                TrailStep[] part = trail[(k * third)..((k + 1) * third)];
                legs.Add(new TimedLeg($"r{ride}", part, truth.Along(part).Moving.Typical, TimeSpan.FromMinutes(4)));
            }
        }

        PaceCalibration c = PaceCalibration.From(prior, legs);
        output.WriteLine(c.ToString());
        output.WriteLine(string.Join("; ", c.Technique));
        Assert.InRange((double)c.SustainedPower.Watts / 190, 0.98, 1.02);
        Assert.InRange(c.Technique.Single(t => t.Difficulty == TrailDifficulty.Level1).Factor / 1.25, 0.95, 1.05);
        Assert.InRange(c.Technique.Single(t => t.Difficulty == TrailDifficulty.Level2).Factor / 0.8, 0.97, 1.03);
        Assert.True(c.HeldOutErrorFraction < 0.02 && c.HeldOutErrorFraction < c.PriorErrorFraction);
        PaceModel own = PaceModel.For(Unknown, options: new PaceOptions { Calibration = c });
        Assert.Equal(EffortBasis.OwnRides, own.Effort.Basis);
    }

    /// <summary>Textbook: prior N(0, 0.2²), one observation 0.1 with standard deviation 0.2: mean 0.05, variance 0.02. Normal-normal conjugate update, from memory.</summary>
    [Fact]
    [Checks(typeof(PaceUpdate), CheckKind.Outside)]
    [Checks(typeof(PaceCalibration), CheckKind.Outside)]
    public void Posterior_OneObservation_IsTheConjugateUpdate()
    {
        double[] a = new double[TodayState.Size];
        a[0] = 1;
        (double mean, double variance) = TodayState.Prior(0.2, 0, 0, new double[StepPace.SpreadGroups]).Observe(a, 0.1, 0.04).Of(a);
        Assert.Equal(0.05, mean, 12);
        Assert.Equal(0.02, variance, 12);
    }

    [Property(MaxTest = 40)]
    [Checks(typeof(PaceUpdate), CheckKind.Property)]
    public bool Update_SlowLegs_SlowsTheRestAndNarrows(byte slow)
    {
        PaceModel m = PaceModel.For(Unknown with { SustainedPower = Power.FromWatts(150) });
        TrailStep[] trail = Trails.Mixed(20, 400);
        double f = 1.02 + (slow / 512.0);
        PaceUpdate u = PaceUpdate.From(m, [new TimedLeg("today", trail[..80], m.Along(trail[..80]).Moving.Typical * f)]);
        RidePace before = m.Along(trail[80..]), after = m.With(u).Along(trail[80..]);
        double done = m.With(u).Along(trail[..80]).Moving.Typical / m.Along(trail[..80]).Moving.Typical;
        double ratio = u.PaceFactor.Typical.DecimalFractions;
        output.WriteLine($"{f} {ratio} {done} {after.Moving.Typical / before.Moving.Typical} {after.Moving.High / after.Moving.Low} {before.Moving.High / before.Moving.Low}");

        // The factor is that of the trail done; the rest is slower too, by as much as power and technique count there.
        // The middle of a sum of unevenly spread parts moves up by about a hundredth when their spread narrows, so a leg hardly slower than expected may give a little more than itself.
        return ratio > 1 && ratio < f + 0.012 && Math.Abs(done - ratio) < 0.03 && after.Moving.Typical > before.Moving.Typical && after.Moving.Typical < before.Moving.Typical * (f + 0.012)
            && after.Moving.High / after.Moving.Low < before.Moving.High / before.Moving.Low && after.Ledger.ImbalanceFraction < 1e-9;
    }

    private static TechnicalCap Scaled(double factor, double level, double down, double ridden)
        => new(Speed.FromKilometersPerHour(level * factor), Speed.FromKilometersPerHour(down * factor), ridden, 1.3);
}
