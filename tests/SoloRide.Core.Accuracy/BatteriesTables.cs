using System.Globalization;
using MathNet.Numerics.LinearAlgebra;
using SoloRide.Batteries;
using UnitsNet;

namespace SoloRide.Accuracy;

/// <summary>Tables of the batteries room: measured cells with rows, levels or blocks left out, and arithmetic under the stated rule sets.</summary>
internal sealed class BatteriesTables : IModuleTables
{
    private delegate double Law(ReadOnlySpan<double> p, CsvRow row);

    public string Module => "batteries";

    public IEnumerable<string> NoTable => ["batteries/ocv_cellA.csv"];

    public IEnumerable<TableCheck> Tables =>
    [
        new("batteries/cell_measured.csv", TruthKind.OutsideTruth, CellMeasured),
        new("batteries/resistance_measured.csv", TruthKind.OutsideTruth, ResistanceMeasured),
        new("batteries/charge_measured.csv", TruthKind.OutsideTruth, ChargeMeasured),
        new("batteries/balance.csv", TruthKind.OwnArithmetic, Balance),
        new("batteries/powerbank.csv", TruthKind.OwnArithmetic, Bank),
        new("batteries/charge_time.csv", TruthKind.OwnArithmetic, ChargeTime),
        new("batteries/light_speed.csv", TruthKind.OwnArithmetic, LightSpeed),
        new("batteries/ageing.csv", TruthKind.PublishedExample, Ageing),
        new("batteries/retries.csv", TruthKind.OwnArithmetic, Retries),
        new("batteries/allocation.csv", TruthKind.OutsideTruth, Allocation),
        new("batteries/light_plan.csv", TruthKind.OutsideTruth, LightPlan),
    ];

    private static TableResult CellMeasured(RunContext context)
    {
        CsvTable table = context.Table("batteries/cell_measured.csv");
        var measures = new List<Measure>();
        var all = new ErrorStats();
        Part("A", "cellA", NickelCellKernel.Fitted.ToArray(), (p, r) => NickelCellKernel.ChargeAh(p, r.Num("T_chamber_C"), r.Num("rate_C"), r.Num("cutoff_V")), 1.5, 4, 1.35, 3.4);
        Part("C", "cellC", OtherCellKernel.Phosphate.ToArray(), (p, r) => OtherCellKernel.PhosphateAh(p, r.Num("T_chamber_C"), r.Num("cutoff_V")), 1.5, 4, 0.6, 2);
        Part("B", "cellB", OtherCellKernel.SecondNickel.ToArray(), (p, r) => OtherCellKernel.SecondNickelAh(p, r.Num("T_chamber_C")), 2.2, 5, 1.3, 4);
        return new TableResult(all.Count, all.Worst, all.Rms, "% of rated", [.. measures]);

        void Part(string name, string prefix, double[] shipped, Law law, double meanBar, double worstBar, double meanFloor, double worstFloor)
        {
            CsvRow[] rows = [.. table.Rows.Where(r => r["cell"].StartsWith(prefix, StringComparison.Ordinal))];
            if (rows.Length == 0)
            {
                return;
            }

            ErrorStats left = new(), direct = new();
            for (int i = 0; i < rows.Length; i++)
            {
                CsvRow row = rows[i];
                CsvRow[] others = [.. rows.Where((_, j) => j != i)];
                double rated = row.Num("nominal_Ah");
                double[] p = others.Length >= 2 * shipped.Length ? Fit(shipped, others, law, r => r.Num("Ah")) : shipped;
                double error = 100 * (law(p, row) - row.Num("Ah")) / rated;
                left.Add(error);
                all.Add(error);
                direct.Add(100 * (law(shipped, row) - row.Num("Ah")) / rated);
            }

            measures.Add(new Measure($"cell {name}, each row left out: mean error", left.Mean, "%", meanBar, false, meanFloor));
            measures.Add(new Measure($"cell {name}, each row left out: worst error", left.Worst, "%", worstBar, false, worstFloor));
            measures.Add(new Measure($"cell {name}, shipped numbers: mean error", direct.Mean, "%", meanBar, false, meanBar));
            measures.Add(new Measure($"cell {name}, shipped numbers: worst error", direct.Worst, "%", worstBar, false, worstBar));
        }
    }

    private static TableResult ResistanceMeasured(RunContext context)
    {
        CsvTable table = context.Table("batteries/resistance_measured.csv");
        var measures = new List<Measure>();
        var all = new ErrorStats();
        Part("0.3 s", "R_0p3s_ohm", ResistanceKernel.At0p3s.ToArray(), 0.06);
        Part("10 s", "R_10s_ohm", ResistanceKernel.At10s.ToArray(), 0.09);
        return new TableResult(table.Rows.Count, all.Worst, all.Rms, "ln", [.. measures]);

        void Part(string name, string column, double[] shipped, double bar)
        {
            CsvRow[] rows = [.. table.Rows.Where(r => r.Num(column) > 0)];
            static double Law(ReadOnlySpan<double> p, CsvRow r) => ResistanceKernel.LnOhm(p, r.Num("T_cell_C"), r.Num("Ah_removed"), r.Num("pulse_C"));
            // A charge level is the set of pulses at one stop of the discharge: 0.145 Ah steps, pulses a few hundredths apart.
            static int Level(CsvRow r) => (int)Math.Floor((r.Num("Ah_removed") + 0.03) / 0.0725);
            ErrorStats left = new(), direct = new();
            foreach (IGrouping<int, CsvRow> level in rows.GroupBy(Level))
            {
                CsvRow[] others = [.. rows.Where(r => Level(r) != level.Key)];
                double[] p = others.Length >= 3 * shipped.Length ? Fit(shipped, others, Law, r => Math.Log(r.Num(column))) : shipped;
                foreach (CsvRow row in level)
                {
                    double error = Law(p, row) - Math.Log(row.Num(column));
                    left.Add(error);
                    all.Add(error);
                    direct.Add(Law(shipped, row) - Math.Log(row.Num(column)));
                }
            }

            measures.Add(new Measure($"{name}, whole charge levels left out: rms(ln)", left.Rms, "", bar, false, bar));
            measures.Add(new Measure($"{name}, shipped 12 numbers: rms(ln)", direct.Rms, "", bar, false, bar));
        }
    }

    private static TableResult ChargeMeasured(RunContext context)
    {
        CsvRow[] rows = [.. context.Table("batteries/charge_measured.csv").Rows];
        static double Measured(CsvRow r) => r.Num("t_cc_min") + r.Num("t_cv_min");
        static double Model(CsvRow r, double tauMin) => 60 * ChargeKernel.Times(r.Num("Q_total_Ah"), r.Num("I_cc_A"), r.Num("I_cut_A"), tauMin / 60).FullH;
        static double Law(ReadOnlySpan<double> p, CsvRow r) => Model(r, ChargeKernel.TaperMin(p, r.Num("T_mean_C"))) / Measured(r);
        double[] shipped = ChargeKernel.Taper.ToArray();
        ErrorStats blocks = new(), known = new(), direct = new();
        for (int k = 0; k < 5; k++)
        {
            int from = (int)Math.Round(rows.Length * k / 5.0), to = (int)Math.Round(rows.Length * (k + 1) / 5.0);
            CsvRow[] others = [.. rows[..from], .. rows[to..]];
            double[] p = others.Length >= 6 ? Fit(shipped, others, Law, _ => 1) : shipped;
            foreach (CsvRow row in rows[from..to])
            {
                blocks.Add(100 * (Law(p, row) - 1));
                direct.Add(100 * (Law(shipped, row) - 1));
                known.Add(100 * ((Model(row, row.Num("tau_cv_min")) / Measured(row)) - 1));
            }
        }

        return new TableResult(
            rows.Length, blocks.Worst, blocks.Rms, "%",
            new Measure("five blocks left out: mean error", blocks.Mean, "%", 6, false, 6),
            new Measure("five blocks left out: worst error", blocks.Worst, "%", 14, false, 14),
            new Measure("shipped numbers: mean error", direct.Mean, "%", 6, false, 6),
            new Measure("shipped numbers: worst error", direct.Worst, "%", 14, false, 14),
            new Measure("measured taper: mean error", known.Mean, "%", 1.5, false, 1.5),
            new Measure("measured taper: worst error", known.Worst, "%", 3, false, 3));
    }

    private static TableResult Balance(RunContext context)
    {
        var errors = new ErrorStats();
        int wrong = 0;
        foreach (CsvRow r in context.Table("batteries/balance.csv").Rows)
        {
            BalanceKernel.Balance b = BalanceKernel.Of(
                r.Num("rated_mAh"), r.Num("V_nom"), r.Num("soh"), r.Num("soc_start"), r.Num("idle_days"), r.Num("selfdischarge_per_month"), r.Num("T_C"), r.Num("cutoff_V"),
                r.Num("P_ride_mW") / 1000, r.Num("t_ride_h"), r.Num("P_night_mW") / 1000, r.Num("t_night_h"), r.Num("reserve_frac"));
            errors.Add(Relative(b.RateC, r.Num("rate_C")));
            errors.Add(Relative(b.Share, r.Num("k_T")));
            errors.Add(Relative(b.UsableWh, r.Num("E_usable_Wh")));
            errors.Add(Relative(b.AvailableWh, r.Num("E_available_Wh")));
            errors.Add(Relative(b.RideWh, r.Num("E_ride_Wh")));
            errors.Add(Relative(b.NightWh, r.Num("E_night_Wh")));
            errors.Add(Relative(b.MarginWh, r.Num("margin_Wh"), b.AvailableWh));
            errors.Add(Relative(b.DepletionH, r.Num("depletion_h")));
            errors.Add(Relative(b.TopUpWh, r.Num("topup_Wh"), b.AvailableWh));
            wrong += b.MarginWh >= 0 != (r["lasts"] == "1") ? 1 : 0;
        }

        return new TableResult(errors.Count, errors.Worst, errors.Rms, "relative", new Measure("worst error", errors.Worst, "", 1e-6), new Measure("wrong verdicts", wrong, "rows", 0));
    }

    private static TableResult Bank(RunContext context)
    {
        var errors = new ErrorStats();
        int wrong = 0;
        foreach (CsvRow r in context.Table("batteries/powerbank.csv").Rows)
        {
            double printed = PowerBankKernel.PrintedWh(r.Num("printed_mAh"), r.Num("V_cell"));
            double port = PowerBankKernel.AtPortWh(printed * r.Num("honest_frac") * r.Num("soh") * r.Num("k_T"), r.Num("idle_mW") / 1000, r.Num("idle_h"), r.Num("eta_conv"));
            double atDevice = port * r.Num("eta_cable"), cell = atDevice * r.Num("eta_charge");
            double charges = cell / PowerBankKernel.PrintedWh(r.Num("dev_mAh"), r.Num("dev_V"));
            errors.Add(Relative(printed, r.Num("Wh_printed")));
            errors.Add(Relative(port, r.Num("Wh_at_port")));
            errors.Add(Relative(PowerBankKernel.PortMah(port), r.Num("mAh_at_5V")));
            errors.Add(Relative(atDevice, r.Num("Wh_at_device_port")));
            errors.Add(Relative(cell, r.Num("Wh_into_cell")));
            errors.Add(Relative(charges, r.Num("full_charges")));
            errors.Add(Relative(Math.Min(1, r.Num("dev_soc0") + charges), r.Num("dev_soc_after")));
            errors.Add(Relative(cell / r.Num("dev_V") * 1000 / r.Num("printed_mAh"), r.Num("delivered_mAh_per_printed_mAh")));
            string air = PowerBankKernel.Air(printed) switch { AirCarriage.CarryOn => "carry", AirCarriage.WithApproval => "approval", _ => "forbidden" };
            wrong += air != r["air_class"] ? 1 : 0;
        }

        return new TableResult(errors.Count, errors.Worst, errors.Rms, "relative", new Measure("worst error", errors.Worst, "", 1e-6), new Measure("wrong air classes", wrong, "rows", 0));
    }

    private static TableResult ChargeTime(RunContext context)
    {
        var errors = new ErrorStats();
        foreach (CsvRow r in context.Table("batteries/charge_time.csv").Rows)
        {
            double q = r.Num("Q_Ah"), soc = r.Num("soc0"), tau = r.Num("tau_cv_min") / 60, cut = r.Num("I_cut_A");
            double i = ChargeKernel.CurrentA(r.Num("P_usb_W"), r.Num("eta_charger"), r.Num("V_batt_mean"), r.Num("C_max"), q);
            (double constant, double full) = ChargeKernel.Times(q * (1 - soc), i, cut, tau);
            errors.Add(Relative(i, r.Num("I_cc_A")));
            errors.Add(Relative(60 * constant, r.Num("t_cc_min"), 1e-3));
            errors.Add(Relative(60 * full, r.Num("t_full_min")));
            errors.Add(Relative(60 * ChargeKernel.TimeTo(q * (0.8 - soc), q * (1 - soc), i, cut, tau), r.Num("t_80_min"), 1e-3));
        }

        return errors.Result("relative", 1e-5);
    }

    private static TableResult LightSpeed(RunContext context)
    {
        var errors = new ErrorStats();
        foreach (CsvRow r in context.Table("batteries/light_speed.csv").Rows)
        {
            double cd = r.Num("candela"), lux = r.Num("E_needed_lux"), t = r.Num("t_react_s");
            double a = LampKernel.DecelMps2(r.Num("grade"), r.Num("mu")), see = LampKernel.SeeDistanceM(cd, lux);
            double stop = LampKernel.StopDistanceM(r.Num("speed_kmh") / 3.6, t, a);
            errors.Add(Relative(LampKernel.BeamDistanceM(cd), r.Num("FL1_beam_m")));
            errors.Add(Relative(see, r.Num("see_distance_m")));
            errors.Add(Relative(a, r.Num("decel_ms2")));
            errors.Add(Relative(stop, r.Num("stop_distance_m")));
            errors.Add(Relative(3.6 * LampKernel.MaxSpeedMps(see, t, a), r.Num("max_speed_kmh")));
            errors.Add(Relative(LampKernel.CandelaNeeded(stop, lux), r.Num("candela_needed")));
        }

        return errors.Result("relative", 1e-6);
    }

    private static TableResult Ageing(RunContext context)
    {
        var errors = new ErrorStats();
        foreach (CsvRow r in context.Table("batteries/ageing.csv").Rows)
        {
            double q = AgeingKernel.ThroughputAh(r.Num("equiv_full_cycles"));
            double calendar = AgeingKernel.CalendarLoss(r.Num("T_C"), r.Num("V_storage"), r.Num("days"));
            double cycle = AgeingKernel.CycleLoss(r.Num("V_avg_cycle"), r.Num("dod"), q);
            errors.Add(Relative(calendar, r.Num("calendar_loss")));
            errors.Add(Relative(cycle, r.Num("cycle_loss")));
            errors.Add(Relative(1 - calendar - cycle, r.Num("capacity_rel")));
            errors.Add(Relative(AgeingKernel.Resistance(r.Num("T_C"), r.Num("V_storage"), r.Num("days"), r.Num("V_avg_cycle"), r.Num("dod"), q), r.Num("resistance_rel")));
        }

        return errors.Result("relative", 1e-6);
    }

    private static TableResult Retries(RunContext context)
    {
        var errors = new ErrorStats();
        foreach (CsvRow r in context.Table("batteries/retries.csv").Rows)
        {
            double p = r.Num("p_success"), n = r.Num("max_attempts"), capped = RetryKernel.ExpectedCapped(p, n), for95 = RetryKernel.For95(p);
            double pa = r.Num("P_attempt_W"), ta = r.Num("t_attempt_s"), pw = r.Num("P_wait_W"), tw = r.Num("t_wait_s");
            errors.Add(Relative(1 / p, r.Num("expected_attempts_unbounded")));
            errors.Add(Relative(for95, r.Num("attempts_for_95pct")));
            errors.Add(Relative(RetryKernel.Within(p, n), r.Num("p_success_within_max")));
            errors.Add(Relative(capped, r.Num("expected_attempts_capped")));
            errors.Add(Relative(RetryKernel.EnergyMwh(capped, pa, ta, pw, tw), r.Num("expected_energy_mWh_capped")));
            errors.Add(Relative(RetryKernel.EnergyMwh(for95, pa, ta, pw, tw), r.Num("energy_mWh_for_95pct")));
            errors.Add(Relative(RetryKernel.TimeS(for95, ta, tw), r.Num("time_s_for_95pct")));
        }

        return errors.Result("relative", 1e-6);
    }

    private static TableResult Allocation(RunContext context)
    {
        var errors = new ErrorStats();
        int wrong = 0, unproved = 0, rows = 0;
        foreach (CsvRow r in context.Table("batteries/allocation.csv").Rows)
        {
            rows++;
            var claims = new List<BankClaim>();
            for (int i = 1; i <= 5; i++)
            {
                claims.Add(new BankClaim($"{i}", Energy.FromWattHours(r.Num($"need_Wh_{i}")), r.Num($"eta_{i}"), Power.FromWatts(r.Num($"port_W_{i}")))
                {
                    Minimum = Energy.FromWattHours(r.Num($"min_Wh_{i}")),
                    WeightFactor = r.Num($"weight_{i}"),
                });
            }

            BankAllocation got = BankPlanner.Allocate(
                Energy.FromWattHours(r.Num("bank_Wh_at_port")), claims, TimeSpan.FromHours(r.Num("time_h")), r["single_port"] == "1" ? PortSharing.OneAfterAnother : PortSharing.AllAtOnce);
            if (got.IsFeasible != (r["feasible"] == "1"))
            {
                wrong++;
            }
            else if (got.IsFeasible)
            {
                errors.Add(Relative(got.Proofs.Sum(p => p.ValueWh), r.Num("best_weighted_Wh")));
                errors.Add(Relative(got.FromPort.WattHours, r.Num("bank_Wh_used")));
                unproved += got.IsOptimal ? 0 : 1;
            }
        }

        return new TableResult(
            rows, errors.Worst, errors.Rms, "relative", new Measure("worst error of optimum and bank use", errors.Worst, "", 1e-6),
            new Measure("wrong feasibility", wrong, "rows", 0), new Measure("without proof", unproved, "rows", 0));
    }

    private static TableResult LightPlan(RunContext context)
    {
        var errors = new ErrorStats();
        int wrong = 0, unproved = 0, rows = 0;
        foreach (CsvRow r in context.Table("batteries/light_plan.csv").Rows)
        {
            rows++;
            double[] hours = List(r["section_h"]), lumens = List(r["mode_lumens"]), least = List(r["section_min_lumens"]);
            bool[] allowed = [.. least.SelectMany(l => lumens.Select(m => m >= l))];
            int[] modes = new int[hours.Length];
            LampScheduleKernel.Outcome got = LampScheduleKernel.Solve(
                lumens, List(r["mode_watts"]), hours, allowed, List(r["section_weight"]), r.Num("energy_Wh"), modes);
            if (got.Feasible != (r["feasible"] == "1"))
            {
                wrong++;
            }
            else if (got.Feasible)
            {
                errors.Add(Relative(got.Worth, r.Num("best_score")));
                errors.Add(Relative(got.EnergyWh, r.Num("energy_used_Wh")));
                wrong += string.Join(';', modes.Select(m => m + 1)) != r["best_modes"] ? 1 : 0;
                unproved += got.Bound <= got.Worth + (1e-9 * Math.Abs(got.Worth)) ? 0 : 1;
            }
        }

        return new TableResult(
            rows, errors.Worst, errors.Rms, "relative", new Measure("worst error of score and energy", errors.Worst, "", 1e-6),
            new Measure("other schedule or feasibility", wrong, "rows", 0), new Measure("without proof", unproved, "rows", 0));

        static double[] List(string text) => [.. text.Split(';').Select(v => double.Parse(v, CultureInfo.InvariantCulture))];
    }

    private static double Relative(double got, double wanted, double scale = 0)
        => double.IsInfinity(wanted) || double.IsInfinity(got)
            ? (double.IsInfinity(wanted) && double.IsInfinity(got) ? 0 : double.PositiveInfinity)
            : Math.Abs(got - wanted) / Math.Max(Math.Max(Math.Abs(wanted), scale), 1e-12);

    /// <summary>Least squares by damped Gauss–Newton steps from the shipped numbers: what left-out rows are predicted with.</summary>
    private static double[] Fit(double[] start, CsvRow[] rows, Law law, Func<CsvRow, double> wanted)
    {
        double[] p = [.. start];
        double[] target = [.. rows.Select(wanted)];
        double[] residual = Residual(p);
        double sum = residual.Sum(v => v * v), damping = 1e-2;
        for (int iteration = 0; iteration < 120; iteration++)
        {
            var jacobian = Matrix<double>.Build.Dense(rows.Length, p.Length);
            for (int j = 0; j < p.Length; j++)
            {
                double h = 1e-4 * Math.Max(1e-2, Math.Abs(p[j]));
                double[] q = [.. p];
                q[j] += h;
                double[] moved = Residual(q);
                for (int i = 0; i < rows.Length; i++)
                {
                    jacobian[i, j] = (moved[i] - residual[i]) / h;
                }
            }

            Matrix<double> normal = jacobian.TransposeThisAndMultiply(jacobian);
            Vector<double> gradient = jacobian.TransposeThisAndMultiply(Vector<double>.Build.Dense(residual));
            bool better = false;
            for (int k = 0; k < 12 && !better; k++)
            {
                Matrix<double> damped = normal.Clone();
                for (int j = 0; j < p.Length; j++)
                {
                    damped[j, j] += damping * (normal[j, j] + 1e-9);
                }

                double[] next = [.. damped.Solve(-gradient).Zip(p, (a, b) => a + b)];
                double[] nextResidual = Residual(next);
                double nextSum = nextResidual.Sum(v => v * v);
                if (double.IsFinite(nextSum) && nextSum < sum)
                {
                    better = true;
                    bool done = sum - nextSum < 1e-10 * sum;
                    (p, residual, sum) = (next, nextResidual, nextSum);
                    damping = Math.Max(1e-9, damping / 5);
                    if (done)
                    {
                        return p;
                    }
                }
                else
                {
                    damping *= 5;
                }
            }

            if (!better)
            {
                break;
            }
        }

        return p;

        double[] Residual(double[] at) => [.. rows.Select((r, i) => law(at, r) - target[i])];
    }
}
