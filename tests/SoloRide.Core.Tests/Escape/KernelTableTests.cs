using System.Globalization;
using SoloRide.Accuracy;
using SoloRide.Effort;
using SoloRide.Escape;
using UnitsNet;

namespace SoloRide.Tests.Escape;

/// <summary>Tables of rules and closed forms; which cells are published and which own arithmetic stands in the README beside the tables.</summary>
public sealed class KernelTableTests
{
    [Fact]
    public void WalkingRules_MeetTheTable()
    {
        foreach (CsvRow row in Table("walking_rule_checks.csv").Rows)
        {
            if (WalkingRuleRow.Value(row) is { } value)
            {
                Close(row["value"], value);
            }
            else
            {
                Assert.Fail($"No rule '{row["rule"]}'.");
            }
        }
    }

    /// <summary>The library's own coefficients give the table's rates; the sets that contradict themselves are offered by no rule.</summary>
    [Fact]
    public void QuantileCurves_MeetTheTable_AndUnreadSetsAreRefused()
    {
        CsvTable table = Table("walking_rate_curves.csv");
        foreach (CsvRow row in table.Rows)
        {
            if (!row["model"].StartsWith("campbell", StringComparison.Ordinal))
            {
                Assert.StartsWith("sullivan", row["model"], StringComparison.Ordinal);
                Assert.DoesNotContain(Enum.GetNames<HikingRule>(), n => n.StartsWith("Sullivan", StringComparison.Ordinal));
                Assert.Contains("sullivan2020", Assert.Throws<NotSupportedException>(() => WalkingKernel.RateMps(RateCurves.Sullivan2020, 0, 50)).Message, StringComparison.Ordinal);
                continue;
            }

            foreach (string column in table.Header.Where(h => h.StartsWith("rate_m_s_at_", StringComparison.Ordinal)))
            {
                double deg = double.Parse(column["rate_m_s_at_".Length..].Replace("deg", "", StringComparison.Ordinal), CultureInfo.InvariantCulture);
                Close(row[column], WalkingKernel.RateMps(RateCurves.Campbell2019, deg, row.Num("percentile_or_label")));
            }
        }
    }

    /// <summary>Outside 30 degrees the curves give no number; the refused set is asked by nothing in the library but its own raw formula.</summary>
    [Fact]
    public void QuantileCurves_OutsideTheirSlopes_GiveNoNumber()
    {
        Assert.Equal(double.NaN, WalkingKernel.RateMps(RateCurves.Campbell2019, 30.1, 50));
        Assert.True(WalkingKernel.RateMps(RateCurves.Campbell2019, -30, 50) > 0);
        string source = Path.Combine(Repo.Root, "src", "SoloRide.Core");
        string[] users = [.. Directory.EnumerateFiles(source, "*.cs", SearchOption.AllDirectories).Where(f => File.ReadAllText(f).Contains("SullivanRawMps", StringComparison.Ordinal)).Select(f => Path.GetFileName(f)!)];
        Assert.Equal(["HikingKernel.cs"], users);
    }

    [Fact]
    public void Thunder_MeetsTheTable()
    {
        foreach (CsvRow row in Table("lightning_checks.csv").Rows)
        {
            double sound = StormKernel.SoundMps(row.Num("air_C"));
            Close(row["sound_m_s"], sound);
            Close(row["km_at_30_s"], StormKernel.ActSeconds * sound / 1000);
            Close(row["miles_at_30_s"], ThunderThreshold.StrikeDistance(TimeSpan.FromSeconds(30), Temperature.FromDegreesCelsius(row.Num("air_C"))).Meters / StormKernel.MileM);
            Close(row["seconds_per_mile"], StormKernel.MileM / sound);
        }
    }

    [Fact]
    public void SearchArea_MeetsTheTable()
    {
        foreach (CsvRow row in Table("search_area_checks.csv").Rows)
        {
            Close(row["area_sq_mi"], WaitingPlanner.SearchArea(TimeSpan.FromHours(row.Num("hours")), Speed.FromMilesPerHour(row.Num("speed_mph"))).SquareMiles);
        }
    }

    [Fact]
    public void Insulation_MeetsTheTable()
    {
        foreach (CsvRow row in Table("waiting_insulation.csv").Rows)
        {
            Close(row["total_insulation_clo_incl_air_layer"], WaitingPlanner.InsulationClo(row.Num("metabolic_W_m2"), Temperature.FromDegreesCelsius(row.Num("air_C"))));
        }
    }

    [Fact]
    public void Horizon_MeetsTheTable()
    {
        foreach (CsvRow row in Table("horizon_angle.csv").Rows)
        {
            Close(row["horizon_elevation_deg"], WaitingKernel.HorizonDeg(row.Num("rim_above_trail_m"), row.Num("distance_m")));
        }
    }

    [Fact]
    public void Detection_MeetsTheTable()
    {
        foreach (CsvRow row in Table("checkin_latency.csv").Rows)
        {
            DetectionDelay d = WaitingPlanner.Detection(TimeSpan.FromMinutes(row.Num("interval_min")), TimeSpan.FromMinutes(row.Num("grace_min")));
            Close(row["mean_detection_min"], d.Mean.TotalMinutes);
            Close(row["worst_detection_min"], d.Worst.TotalMinutes);
        }
    }

    internal static CsvTable Table(string name) => CsvTable.Read(Repo.Data("planning", name));

    /// <summary>Within half a unit of the last printed digit.</summary>
    internal static void Close(string printed, double actual)
    {
        int dot = printed.IndexOf('.', StringComparison.Ordinal);
        double half = 0.5 * Math.Pow(10, dot < 0 ? 0 : -(printed.Length - dot - 1));
        double value = double.Parse(printed, CultureInfo.InvariantCulture);
        Assert.InRange(actual, value - (half * 1.0001), value + (half * 1.0001));
    }
}
