using SoloRide.Accuracy;
using SoloRide.Effort;

namespace SoloRide.Tests.Effort;

/// <summary>Formulas against tables; sources in Data/effort/README.md and in each row.</summary>
public sealed class PublishedTablesTests
{
    [Theory]
    [Checks(typeof(PaceModel), CheckKind.Outside)]
    [InlineData("altitude")]
    [InlineData("fuel")]
    [InlineData("metabolic")]
    [InlineData("pace")]
    [InlineData("power")]
    [InlineData("resting")]
    public void Formula_EveryRow_IsWithinItsTolerance(string topic)
    {
        CsvTable table = CsvTable.Read(Repo.Data("effort", $"energy_checks_{topic}.csv"));
        Assert.NotEmpty(table.Rows);
        foreach (CsvRow row in table.Rows)
        {
            double expected = row.Num("expected"), ours = EffortFormulas.Evaluate(row["formula"], row["inputs"]);
            Assert.True(Math.Abs(ours - expected) <= row.Num("rel_tol") * Math.Abs(expected), $"{row["check_id"]}: {ours:R} against {expected:R}");
        }
    }

    [Fact]
    public void PublishedExamples_EveryNumericRow_IsWithinItsRounding()
    {
        int rows = 0;
        foreach (CsvRow row in CsvTable.Read(Repo.Data("effort", "published_examples.csv")).Rows)
        {
            foreach ((double ours, double published, double tolerance) in EffortExamples.Of(row["id"]))
            {
                rows++;
                Assert.True(Math.Abs(ours - published) <= tolerance, $"{row["id"]}: {ours} against {published} within {tolerance}");
            }
        }

        Assert.True(rows >= 45, $"{rows} figures");
    }

    /// <summary>Peronnet and Massicotte 1991: 61 rows by one closed form.</summary>
    [Fact]
    public void Quotient_EveryRow_IsMetByTheClosedForm()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("effort", "rer_table_peronnet_massicotte_1991.csv")).Rows)
        {
            Assert.Equal(row.Num("kcal_per_l_o2"), FuelKernel.KcalPerL(row.Num("nonprotein_rq")), 0.001);
            Assert.Equal(row.Num("pct_energy_cho"), FuelKernel.CarbohydratePct(row.Num("nonprotein_rq")), 0.06);
        }
    }

    /// <summary>Ardigo and others 2003 (abstract): walking is cheaper than riding from 10 to 15 % on; with a bicycle's mass close to 20 % for one person.</summary>
    [Theory]
    [InlineData(false, 10, 15)]
    [InlineData(true, 12, 20)]
    public void RideOrWalk_AtEqualMetabolicPower_CrossesWhereMeasured(bool loaded, double low, double high)
    {
        for (double w = 9; w <= 14; w += 1)
        {
            Assert.InRange(EffortExamples.CrossoverPercent(w, 0.010, loaded), low, high);
        }
    }

    /// <summary>Linderman and others 2003 (abstract): 11 to 14 km/h over 12 h. Course and power declared, model untuned.</summary>
    [Theory]
    [InlineData(25, 150)]
    [InlineData(25, 170)]
    [InlineData(30, 150)]
    [InlineData(30, 170)]
    public void TwelveHourRace_Untuned_IsWithinTheMeasuredSpeeds(double climb, double watts)
    {
        RacePace race = RacePace.TwelveHours(climb, watts);
        Assert.InRange(race.Kmh, 11, 14);
        Assert.InRange(race.Ratio, 1, 1.6);
    }

    /// <summary>Derived: the batch solver gives the bits of its scalar form to 1e-12, and both solve the equation.</summary>
    [Fact]
    public void SpeedFromPower_BatchAndScalar_Agree()
    {
        double[] c = [.. Enumerable.Range(0, 1003).Select(i => -120 + (0.3 * i))], v = new double[c.Length];
        RidePowerKernel.StillAirMps(0.3, RidePowerKernel.BearingNsPerM, c, 155, v);
        for (int i = 0; i < c.Length; i++)
        {
            double one = RidePowerKernel.StillAirMps(0.3, RidePowerKernel.BearingNsPerM, c[i], 155, Math.Cbrt(155 / 0.3));
            Assert.Equal(one, v[i], 1e-12 * Math.Max(1, one));
            Assert.InRange((((0.3 * v[i] * v[i]) + (RidePowerKernel.BearingNsPerM * v[i]) + c[i]) * v[i]) - 155, -1e-9, 1e-9);
        }
    }
}
