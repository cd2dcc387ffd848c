using SoloRide.Internal;
using SoloRide.Kit;
using UnitsNet;

namespace SoloRide.Accuracy;

/// <summary>Coverage of spares, learned failure rates, tyre pressure, injury chances, pace of a group.</summary>
internal sealed class KitTables : IModuleTables
{
    // An error of one half is what rounding to the printed digit leaves; a hair more for the rounding of the inputs.
    private const double HalfDigit = 0.51;

    public string Module => "kit";

    public IEnumerable<TableCheck> Tables =>
    [
        new("planning/poisson_coverage.csv", TruthKind.OwnArithmetic, Poisson),
        new("planning/gamma_poisson_checks.csv", TruthKind.OwnArithmetic, GammaPoisson),
        new("planning/tyre_checks.csv", TruthKind.OwnArithmetic, Tyre),
        new("planning/injury_probability_checks.csv", TruthKind.PublishedExample, Injury),
        new("planning/group_pace_checks.csv", TruthKind.OwnArithmetic, Group),
    ];

    /// <summary>Error in units of the last printed digit.</summary>
    internal static double InDigits(string printed, double got)
    {
        string p = printed.Trim();
        int dot = p.IndexOf('.', StringComparison.Ordinal), end = p.IndexOfAny(['e', 'E']);
        int decimals = dot < 0 ? 0 : (end < 0 ? p.Length : end) - dot - 1;
        double exponent = end < 0 ? 0 : double.Parse(p[(end + 1)..], System.Globalization.CultureInfo.InvariantCulture);
        double value = double.Parse(p, System.Globalization.CultureInfo.InvariantCulture);
        return (got - value) / Math.Pow(10, exponent - decimals);
    }

    private static TableResult Poisson(RunContext context)
    {
        var stats = new ErrorStats();
        CsvTable table = context.Table("planning/poisson_coverage.csv");
        foreach (CsvRow row in table.Rows)
        {
            foreach (string column in table.Header.Where(h => h.StartsWith("P_N<=", StringComparison.Ordinal) && !row.IsEmpty(h)))
            {
                int k = int.Parse(column["P_N<=".Length..], System.Globalization.CultureInfo.InvariantCulture);
                stats.Add(InDigits(row[column], FailureRate.Known(row.Num("lambda")).AtMostProbability(k, Length.FromKilometers(1))));
            }
        }

        return stats.Result("last digits", HalfDigit, "worst", HalfDigit);
    }

    private static TableResult GammaPoisson(RunContext context)
    {
        var stats = new ErrorStats();
        foreach (CsvRow row in context.Table("planning/gamma_poisson_checks.csv").Rows)
        {
            var rate = new FailureRate(row.Num("shape_a"), Length.FromKilometers(row.Num("exposure_b_km")));
            var next = Length.FromKilometers(row.Num("next_km"));
            stats.Add(InDigits(row["P_no_event"], rate.NoEventProbability(next)));
            stats.Add(InDigits(row["P_at_most_1"], rate.AtMostProbability(1, next)));
        }

        return stats.Result("last digits", HalfDigit, "worst", HalfDigit);
    }

    private static TableResult Tyre(RunContext context)
    {
        var stats = new ErrorStats();
        foreach (CsvRow row in context.Table("planning/tyre_checks.csv").Rows)
        {
            string quantity = row["quantity"];
            double p0 = row.Num("p0_psi"), second = row.Num("p1_psi_or_t1"), got;
            if (quantity.StartsWith("gauge", StringComparison.Ordinal))
            {
                got = TyreKernel.GaugePa(p0 * TyreKernel.PaPerPsi, row.Num("h0_m"), row.Num("h1_m"), row.Num("t0_C"), second) / TyreKernel.PaPerPsi;
            }
            else
            {
                double k = second / p0;
                got = quantity.Contains("patch", StringComparison.Ordinal) ? TyreKernel.PatchRatio(k)
                    : quantity.Contains("deflection", StringComparison.Ordinal) ? TyreKernel.DeflectionRatio(k)
                    : quantity.Contains("speed", StringComparison.Ordinal) ? TyreKernel.BottomingSpeedRatio(k)
                    : quantity.Contains("energy", StringComparison.Ordinal) ? TyreKernel.BottomingEnergyRatio(k)
                    : double.NaN;
            }

            stats.Add(InDigits(row["value"], got));
        }

        return stats.Result("last digits", HalfDigit, "worst", HalfDigit);
    }

    private static TableResult Injury(RunContext context)
    {
        var stats = new ErrorStats();
        foreach (CsvRow row in context.Table("planning/injury_probability_checks.csv").Rows)
        {
            // The name ends in the rate: club_survey_3.6_per_1000h.
            string[] words = row["rate"].Split('_');
            double rate = double.Parse(words[^3], System.Globalization.CultureInfo.InvariantCulture);
            stats.Add(InDigits(row["P_at_least_one"], CountKernel.AtLeastOne(rate, row.Num("hours"))));
        }

        return stats.Result("last digits", HalfDigit, "worst", HalfDigit);
    }

    private static TableResult Group(RunContext context)
    {
        var stats = new ErrorStats();
        CsvTable table = context.Table("planning/group_pace_checks.csv");
        const string Multiplier = "slowest_multiplier_sigma_";
        foreach (CsvRow row in table.Rows)
        {
            int n = row.Whole("riders");
            stats.Add(InDigits(row["E_max_of_standard_normals"], OrderStatisticKernel.ExpectedLargestNormal(n)));
            foreach (string column in table.Header.Where(h => h.StartsWith(Multiplier, StringComparison.Ordinal) && !row.IsEmpty(h)))
            {
                stats.Add(InDigits(row[column], OrderStatisticKernel.SlowestFactor(n, double.Parse(column[Multiplier.Length..], System.Globalization.CultureInfo.InvariantCulture))));
            }
        }

        return stats.Result("last digits", HalfDigit, "worst", HalfDigit);
    }
}
