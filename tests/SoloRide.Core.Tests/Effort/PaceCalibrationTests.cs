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

    /// <summary>Exact legs of a rider who descends slower than the class factor says: the two come apart, and without descents nothing is claimed.</summary>
    [Fact]
    public void From_ExactLegs_RecoversDescendingApartFromTheClass()
    {
        PaceModel prior = PaceModel.For(Unknown);
        PaceModel truth = PaceModel.For(Unknown with { SustainedPower = Power.FromWatts(230) }, options: new PaceOptions
        {
            TechnicalCaps = new Dictionary<TrailDifficulty, TechnicalCap>
            {
                [TrailDifficulty.Level1] = Scaled(1.2, 17, 22 * 0.8, 0.95),
                [TrailDifficulty.Level2] = Scaled(0.9, 12, 14 * 0.8, 0.75),
            },
        });
        var legs = new List<TimedLeg>();
        for (int ride = 0; ride < 12; ride++)
        {
            foreach (double grade in new[] { 0.0, -0.01, -0.06, -0.12, 0.05 })
            {
                foreach (TrailDifficulty d in new[] { TrailDifficulty.Level1, TrailDifficulty.Level2 })
                {
                    TrailStep[] part = [.. Enumerable.Repeat(new TrailStep(100, 100 * grade, 600, 0, TrailSurface.Paved, d), 20)];
                    legs.Add(new TimedLeg($"r{ride}", part, truth.Along(part).Moving.Typical));
                }
            }
        }

        PaceCalibration c = PaceCalibration.From(prior, legs);
        output.WriteLine($"{c} {string.Join("; ", c.Technique)}");
        Assert.InRange(c.DescentFactor / 0.8, 0.98, 1.02);
        Assert.InRange(c.Technique.Single(t => t.Difficulty == TrailDifficulty.Level1).Factor / 1.2, 0.97, 1.03);
        Assert.InRange(c.Technique.Single(t => t.Difficulty == TrailDifficulty.Level2).Factor / 0.9, 0.97, 1.03);
        Assert.True(c.DescentGsdFactor < new PaceSpread().DescentGsdFactor);
        Assert.Equal(6, c.CorrelationFactor.Count);

        // Only level ground: the descending stays what it was, as uncertain as before; known techniques are not forgotten.
        PaceModel own = PaceModel.For(Unknown, options: new PaceOptions { Calibration = c });
        TrailStep[] flat = [.. Enumerable.Repeat(new TrailStep(100, 0, 600, 0, TrailSurface.Paved, TrailDifficulty.Level1), 30)];
        PaceCalibration next = PaceCalibration.From(own, [new TimedLeg("x", flat, own.Along(flat).Moving.Typical)]);
        Assert.Equal((c.DescentFactor, c.DescentGsdFactor), (next.DescentFactor, next.DescentGsdFactor));
        Assert.Equal(2, next.Technique.Count);
        Assert.NotNull(PaceModel.For(Unknown, options: new PaceOptions { Calibration = next }));
        Assert.Throws<ArgumentException>(() => PaceModel.For(Unknown, options: new PaceOptions { Calibration = c with { CorrelationFactor = [0.1] } }));
    }

    /// <summary>Textbook: prior N(0, 0.2²), one observation 0.1 with standard deviation 0.2: mean 0.05, variance 0.02. Normal-normal conjugate update, from memory.</summary>
    [Fact]
    [Checks(typeof(PaceUpdate), CheckKind.Outside)]
    [Checks(typeof(PaceCalibration), CheckKind.Outside)]
    public void Posterior_OneObservation_IsTheConjugateUpdate()
    {
        double[] a = new double[TodayState.Size];
        a[0] = 1;
        (double mean, double variance) = TodayState.Prior(0.2, 0, 0, new double[StepPace.SpreadGroups], 0).Observe(a, 0.1, 0.04).Of(a);
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

        // Typical times are medians of sums, a little off the sum of the steps; the update reads a leg against the sum. So a leg slower by f
        // may come out slower than f by what median and sum differ on the way done, and by how far that changes on the rest as its spread narrows.
        RidePace doneBefore = m.Along(trail[..80]);
        double slack = Math.Exp(Math.Abs(Skew(doneBefore)) + (0.5 * doneBefore.Sums.StepVariance) + Math.Abs(Skew(after) - Skew(before)));
        return ratio > 1 && ratio < f * slack && Math.Abs(done - ratio) < 0.03 && after.Moving.Typical > before.Moving.Typical && after.Moving.Typical < before.Moving.Typical * (f * slack)
            && after.Moving.High / after.Moving.Low < before.Moving.High / before.Moving.Low && after.Ledger.ImbalanceFraction < 1e-9;

        static double Skew(RidePace p) => Math.Log(p.Moving.Typical.TotalSeconds / p.Sums.TotalS);
    }

    private static TechnicalCap Scaled(double factor, double level, double down, double ridden)
        => new(Speed.FromKilometersPerHour(level * factor), Speed.FromKilometersPerHour(down * factor), ridden, 1.3);
}
