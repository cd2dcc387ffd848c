using FsCheck;
using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Internal;
using SoloRide.Kit;
using UnitsNet;

namespace SoloRide.Tests.Kit;

public sealed class FailureRateTests
{
    // Half a unit of the sixth printed decimal.
    private const double Printed6 = 0.51e-6;

    /// <summary>Textbook Poisson distribution, poisson_coverage.csv.</summary>
    [Fact]
    [Checks(typeof(FailureRate), CheckKind.Outside)]
    public void AtMost_OfKnownRate_IsThePoissonTable()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("planning", "poisson_coverage.csv")).Rows)
        {
            FailureRate rate = FailureRate.Known(row.Num("lambda") / 100);
            for (int k = 0; k <= 4; k++)
            {
                Assert.InRange(Math.Abs(rate.AtMostProbability(k, Length.FromKilometers(100)) - row.Num($"P_N<={k}")), 0, Printed6);
            }
        }
    }

    /// <summary>Textbook gamma-Poisson prediction, gamma_poisson_checks.csv (own arithmetic on it).</summary>
    [Fact]
    [Checks(typeof(FailureRate), CheckKind.Outside)]
    public void AtMost_OfLearnedRate_IsTheTable()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("planning", "gamma_poisson_checks.csv")).Rows)
        {
            var rate = new FailureRate(row.Num("shape_a"), Length.FromKilometers(row.Num("exposure_b_km")));
            var next = Length.FromKilometers(row.Num("next_km"));
            Assert.InRange(Math.Abs(rate.NoEventProbability(next) - row.Num("P_no_event")), 0, Printed6);
            Assert.InRange(Math.Abs(rate.AtMostProbability(1, next) - row.Num("P_at_most_1")), 0, Printed6);
        }
    }

    [Fact]
    public void FromLog_IsTheUpdateOfThePrior()
    {
        FailureRate rate = FailureRate.FromLog(6, Length.FromKilometers(400), new FailureRate(2.5, Length.FromKilometers(1000)));
        Assert.Equal(new FailureRate(8.5, Length.FromKilometers(1400)), rate);
        Assert.InRange(rate.PerDistance.Typical.InverseMeters * 1000, 8.5 / 1400 - 1e-12, 8.5 / 1400 + 1e-12);
    }

    /// <summary>Expected largest of n normal values, group_pace_checks.csv; n = 2 is 1/sqrt(pi).</summary>
    [Fact]
    public void SlowestOfGroup_IsTheTable()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("planning", "group_pace_checks.csv")).Rows)
        {
            int n = row.Whole("riders");
            Assert.InRange(Math.Abs(OrderStatisticKernel.ExpectedLargestNormal(n) - row.Num("E_max_of_standard_normals")), 0, 0.51e-5);
            Assert.InRange(Math.Abs(OrderStatisticKernel.SlowestFactor(n, 0.10) - row.Num("slowest_multiplier_sigma_0.10")), 0, 0.51e-4);
            Assert.InRange(Math.Abs(OrderStatisticKernel.SlowestFactor(n, 0.15) - row.Num("slowest_multiplier_sigma_0.15")), 0, 0.51e-4);
        }

        Assert.InRange(Math.Abs(OrderStatisticKernel.ExpectedLargestNormal(2) - (1 / Math.Sqrt(Math.PI))), 0, 1e-12);
    }

    [Property]
    [Checks(typeof(FailureRate), CheckKind.Property)]
    public bool Coverage_RisesWithEachSpare_AndFallsWithDistance(PositiveInt events, PositiveInt km, PositiveInt cluster)
    {
        FailureRate rate = FailureRate.FromLog(events.Get % 40, Length.FromKilometers(50 + (km.Get % 4000))).Clustered(1 + (cluster.Get % 50 / 10.0));
        var near = Length.FromKilometers(1 + (km.Get % 200));
        double before = 0;
        for (int k = 0; k < 8; k++)
        {
            double p = rate.AtMostProbability(k, near);
            if (p < before || p > 1 || rate.AtMostProbability(k, near * 2) > p + 1e-12)
            {
                return false;
            }

            before = p;
        }

        return true;
    }

    [Property]
    public bool Clustered_Counts_KeepTheirMean(PositiveInt events, PositiveInt cluster)
    {
        FailureRate plain = FailureRate.FromLog(events.Get % 20, Length.FromKilometers(1000));
        FailureRate rate = plain.Clustered(1 + (cluster.Get % 30 / 10.0));
        double[] p = new double[2000];
        CountKernel.GammaPoisson(rate.MeanOn(60), rate.ShapeOn(60), p);
        double mean = p.Select((x, n) => x * n).Sum(), var = p.Select((x, n) => x * n * n).Sum() - (mean * mean);
        double wanted = (rate.ClusterFactor * mean) + (mean * mean / (0.5 + (events.Get % 20)));
        return Math.Abs(mean - plain.MeanOn(60)) < 1e-9 && Math.Abs(var - wanted) < 1e-6;
    }

    [Theory]
    [InlineData(0, 100)]
    [InlineData(-1, 100)]
    [InlineData(2, 0)]
    [InlineData(double.NaN, 100)]
    [Checks(typeof(FailureRate), CheckKind.BadInput)]
    public void FailureRate_OfNothing_SaysSo(double shape, double km)
        => Assert.Contains("above 0", Assert.Throws<ArgumentOutOfRangeException>(() => new FailureRate(shape, Length.FromKilometers(km))).Message, StringComparison.Ordinal);

    [Fact]
    public void Known_ZeroRate_NeverFails()
    {
        FailureRate never = FailureRate.Known(0);
        Assert.Equal(1, never.NoEventProbability(Length.FromKilometers(500)));
        Assert.Throws<ArgumentOutOfRangeException>(() => never.Updated(-1, Length.Zero));
        Assert.Throws<ArgumentOutOfRangeException>(() => FailureRate.Known(-0.1));
    }
}
