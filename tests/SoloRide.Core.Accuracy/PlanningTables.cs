using SoloRide.Internal;
using SoloRide.Planning;

namespace SoloRide.Accuracy;

/// <summary>Arrival under a shared pace factor: the planner's own sampler on the tables' legs.</summary>
internal sealed class PlanningTables : IModuleTables
{
    public string Module => "planning";

    public IEnumerable<string> NoTable => ["planning/demo_scenarios.csv", "planning/features.csv"];

    public IEnumerable<TableCheck> Tables =>
    [
        new("planning/arrival_fixture.csv", TruthKind.OwnArithmetic, Arrival),
        new("planning/arrival_quantile_factors.csv", TruthKind.OwnArithmetic, Factors),
    ];

    /// <summary>The fixture: six legs of 50, 40, 70, 60, 45, 55 min, ln F 0.15, ln e 0.10, stops 35 min, 0.3 incidents of 20 min.</summary>
    internal static SimulationInput Fixture(bool shared)
    {
        double[] minutes = [50, 40, 70, 60, 45, 55];
        return Plain(
            [.. minutes.Select(m => m * 60)],
            sharedSigma: shared ? 0.15 : 0,
            // Independent: each leg has its own factor of the same spread on top of its noise.
            legSigma: shared ? 0.10 : Math.Sqrt((0.15 * 0.15) + (0.10 * 0.10)),
            stopSec: 35 * 60,
            incidents: 0.3,
            incidentMeanSec: 20 * 60);
    }

    internal static SimulationInput Plain(double[] legSec, double sharedSigma, double legSigma, double stopSec, double incidents, double incidentMeanSec)
    {
        int n = legSec.Length;
        var stationAt = new int[n];
        Array.Fill(stationAt, -1);
        stationAt[^1] = 1;
        // The stop comes before the last leg, at a station of its own.
        stationAt[n - 2] = 0;
        return new SimulationInput
        {
            Sections = n,
            LightSec = legSec,
            LadenSec = legSec,
            ReferenceKg = 1,
            Class = new byte[n],
            Leg = [.. Enumerable.Range(0, n)],
            Legs = n,
            MetabolicW = new double[n],
            DarkFactor = [.. Enumerable.Repeat(1.0, n)],
            SweatLph = new double[n],
            SweatWarmLph = new double[n],
            WarmerK = 1,
            GridFromSec = 0,
            GridStepSec = 3600,
            GridCount = 1,
            StationAt = stationAt,
            Stations = 2,
            StationStopSec = [stopSec, 0],
            SourceAt = [-1, -1],
            SourceOf = [],
            WetProbability = [],
            FillToL = [],
            TreatSecPerL = [],
            StartWaterL = 0,
            IntakeShare = 0,
            IntakeCapLph = 0,
            FoodKg = 0,
            FoodKcal = 0,
            EatKcalPerHour = 0,
            StopShare = 0,
            RestW = 0,
            RestSweatShare = 0,
            DarkSec = [],
            SodiumMgPerL = 0,
            SharedSigma = sharedSigma,
            ClassSigma = [0],
            LegSigma = [.. Enumerable.Repeat(legSigma, n)],
            StopSigma = 0,
            SweatAboveLph = new double[n],
            SweatBelowLph = new double[n],
            SodiumSigma = 0,
            TemperatureSigmaK = 0,
            Incidents = incidents,
            IncidentMeanSec = incidentMeanSec,
        };
    }

    internal static double Quantile(ReadOnlySpan<double> values, double p)
    {
        double[] sorted = values.ToArray();
        Array.Sort(sorted);
        return QuantileKernel.OfSorted(sorted, p);
    }

    private static TableResult Arrival(RunContext context)
    {
        const int Draws = 400_000;
        var errors = new ErrorStats();
        double p90 = double.NaN;
        SimulationResult shared = SimulationKernel.Run(Fixture(true), Draws, 1, 1, default);
        SimulationResult independent = SimulationKernel.Run(Fixture(false), Draws, 1, 1, default);
        foreach (CsvRow row in context.Table("planning/arrival_fixture.csv").Rows)
        {
            double p = row.Num("p");
            // Errors as a share of the Monte-Carlo allowance: 0.35 min at P90, growing with the width of the tail.
            double allowance = p is > 0.98 or < 0.02 ? 0.7 : 0.35;
            double a = Quantile(shared.FinishSec, p) / 60, b = Quantile(independent.FinishSec, p) / 60;
            errors.Add((a - row.Num("minutes_shared_factor")) / allowance * 0.35);
            errors.Add((b - row.Num("minutes_if_legs_were_independent")) / allowance * 0.35);
            p90 = p == 0.9 ? a : p90;
        }

        return new TableResult(errors.Count, errors.Worst, errors.Rms, "min",
            new Measure("worst error (P99 halved)", errors.Worst, "min", 0.35),
            new Measure("P90 with the shared factor", p90, "min", 436.28 - 0.35, AtLeast: true));
    }

    private static TableResult Factors(RunContext context)
    {
        var errors = new ErrorStats();
        CsvTable table = context.Table("planning/arrival_quantile_factors.csv");
        foreach (CsvRow row in table.Rows)
        {
            foreach (string column in table.Header.Where(h => h.StartsWith('P')))
            {
                double p = double.Parse(column[1..], System.Globalization.CultureInfo.InvariantCulture) / 100;
                errors.Add(Math.Exp(row.Num("sigma_log") * NormalKernel.Quantile(p)) - row.Num(column));
            }
        }

        return errors.Result("factor", 0.5e-4 + 1e-9);
    }
}
