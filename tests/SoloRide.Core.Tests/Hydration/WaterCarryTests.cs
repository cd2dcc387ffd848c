using System.Diagnostics.CodeAnalysis;
using FsCheck;
using FsCheck.Fluent;
using FsCheck.Xunit;
using SoloRide.Hydration;
using UnitsNet;

namespace SoloRide.Tests.Hydration;

public sealed class WaterCarryTests
{
    /// <summary>Own arithmetic: the rows of water_carry.csv were solved by brute force over all plans.</summary>
    [Fact]
    [Checks(typeof(WaterCarryPlanner), CheckKind.Regression)]
    public void Solve_TabledCases_GivesOptimumAndSmallestPlan()
    {
        foreach (IReadOnlyDictionary<string, string> row in HydrationCsv.Read("water_carry.csv"))
        {
            double[] x = row.List("x_km"), need = row.List("need_l"), p = [1, .. row.List("p")];
            Case c = new([.. x.Zip(x.Skip(1), (a, b) => b - a)], need, p, row.Num("capacity_l"), row.Num("alpha"));
            (WaterCarrySolution s, int[] plan) = c.Solve();
            Assert.Equal(row.Num("feasible") == 1, s.Feasible);
            if (s.Feasible)
            {
                Assert.True(s.Proven);
                Assert.Equal(row.Num("cost_l_km"), s.CostLKm, 1e-6);
                Assert.Equal(row.Num("p_fail"), s.FailProbability, 1e-9);
                Assert.Equal(row.List("plan"), plan.Select(t => (double)t));
            }
        }
    }

    /// <summary>Every plan tried one by one: an independent walk over the branches.</summary>
    [Property(MaxTest = 60, Arbitrary = [typeof(Cases)])]
    public void Solve_SmallChains_EqualsBruteForce(Case c)
    {
        (WaterCarrySolution s, int[] plan) = c.Solve();
        double best = double.PositiveInfinity, fail = 0;
        int m = c.LengthKm.Length;
        int[] trial = [.. Enumerable.Range(1, m)];
        while (true)
        {
            (double cost, double f, bool fits) = c.Walk(trial);
            if (fits && f <= c.Alpha + 1e-12 && cost < best - 1e-10)
            {
                best = cost;
                fail = f;
            }

            int i = m - 1;
            while (i >= 0 && trial[i] == m)
            {
                trial[i] = i + 1;
                i--;
            }

            if (i < 0)
            {
                break;
            }

            trial[i]++;
        }

        Assert.Equal(double.IsFinite(best), s.Feasible);
        if (s.Feasible)
        {
            Assert.Equal(best, s.CostLKm, 1e-8);
            (double cost, double f, bool fits) = c.Walk(plan);
            Assert.True(fits);
            Assert.Equal(s.CostLKm, cost, 1e-8);
            Assert.Equal(s.FailProbability, f, 1e-10);
            _ = fail;
        }
    }

    [Property(MaxTest = 60, Arbitrary = [typeof(Cases)])]
    [Checks(typeof(WaterCarryPlanner), CheckKind.Property)]
    public void Solve_RaisedProbability_KeepsFeasibleAndFailsNoMore(Case c, PositiveInt which, PositiveInt by)
    {
        Case better = c.With(1 + (which.Get % Math.Max(1, c.Wet.Length - 1)), p => Math.Min(1, p + (by.Get % 10 / 10.0)));
        (WaterCarrySolution a, _) = c.Solve();
        (WaterCarrySolution b, _) = better.Solve();
        Assert.True(b.LeastFailProbability <= a.LeastFailProbability + 1e-12);
        Assert.True(!a.Feasible || b.Feasible);

        // Without any failing branch the cost is comparable: a better source never costs more.
        (WaterCarrySolution a0, _) = (c with { Alpha = 0 }).Solve();
        (WaterCarrySolution b0, _) = (better with { Alpha = 0 }).Solve();
        Assert.True(!a0.Feasible || b0.CostLKm <= a0.CostLKm + 1e-9);
    }

    [Property(MaxTest = 40, Arbitrary = [typeof(Cases)])]
    public void Solve_DrySource_IsAsAbsent(Case c, PositiveInt which)
    {
        if (c.Wet.Length < 2)
        {
            return;
        }

        int i = 1 + (which.Get % (c.Wet.Length - 1));
        (WaterCarrySolution dry, _) = c.With(i, _ => 0).Solve();
        (WaterCarrySolution absent, _) = c.Without(i).Solve();
        Assert.Equal(absent.Feasible, dry.Feasible);
        if (dry.Feasible)
        {
            Assert.Equal(absent.CostLKm, dry.CostLKm, 1e-8);
            Assert.Equal(absent.FailProbability, dry.FailProbability, 1e-12);
        }
    }

    /// <summary>Khuller, Malekian, Mestre (ESA 2007), price zero: at each certain stop just enough to reach the next.</summary>
    [Fact]
    public void Solve_CertainSources_CarriesJustToTheNext()
    {
        Case c = new([5, 7, 3, 9], [1, 1.5, 0.5, 2], [1, 1, 1, 1], 3, 0);
        (WaterCarrySolution s, int[] plan) = c.Solve();
        Assert.Equal([1, 2, 3, 4], plan);
        Assert.Equal((5 * 0.5) + (7 * 0.75) + (3 * 0.25) + (9 * 1), s.CostLKm, 1e-12);
        Assert.Equal(0, s.FailProbability);
    }

    /// <summary>
    /// As failed branches carry nothing further, a more reliable source can raise the expected litre-kilometres where failures are allowed:
    /// costs compare only at no failure. Kept as a test so that nobody claims more.
    /// </summary>
    [Fact]
    public void Solve_FailuresAllowed_BetterSourceMayCostMore()
    {
        Case weak = new([1, 100], [0.1, 5], [1, 0.6], 5, 0.5);
        (WaterCarrySolution a, _) = weak.Solve();
        (WaterCarrySolution b, _) = weak.With(1, _ => 0.9).Solve();
        Assert.Equal(0.05 + (0.6 * 250), a.CostLKm, 1e-9);
        Assert.Equal(0.05 + (0.9 * 250), b.CostLKm, 1e-9);
        Assert.True(b.FailProbability < a.FailProbability);
    }

    /// <summary>A source added where the route has none: feasible plans stay feasible, and nothing fails more.</summary>
    [Property(MaxTest = 40, Arbitrary = [typeof(Cases)])]
    public void Solve_SourceAdded_NotWorse(Case c, PositiveInt which)
    {
        if (c.Wet.Length < 2)
        {
            return;
        }

        int i = 1 + (which.Get % (c.Wet.Length - 1));
        Case bare = c.Without(i) with { Alpha = 0 };
        (WaterCarrySolution without, _) = bare.Solve();
        (WaterCarrySolution with, _) = (c with { Alpha = 0 }).Solve();
        Assert.True(with.LeastFailProbability <= without.LeastFailProbability + 1e-12);
        Assert.True(!without.Feasible || with.CostLKm <= without.CostLKm + 1e-9);
    }

    /// <summary>Cut early, the plan still keeps the limits and its gap holds the true optimum.</summary>
    [Property(MaxTest = 400, Arbitrary = [typeof(Cases)])]
    public void Solve_CutEarly_KeepsLimitsAndBound(Case c)
    {
        (WaterCarrySolution full, _) = c.Solve();
        if (!full.Feasible)
        {
            return;
        }

        int[] plan = new int[c.LengthKm.Length];
        double[] own = [.. c.LengthKm.Zip(c.NeedL, (x, n) => x * n / 2)], limit = [.. c.LengthKm.Select(_ => c.CapacityL)];
        WaterCarrySolution cut = WaterCarryKernel.Solve(c.LengthKm, c.NeedL, own, c.Wet, limit, c.Alpha, 2, plan);
        Assert.True(cut.FailProbability <= c.Alpha + 1e-12);
        Assert.True(cut.BoundLKm <= full.CostLKm + 1e-9, $"{cut.BoundLKm} {full.CostLKm}");
        Assert.True(cut.CostLKm >= full.CostLKm - 1e-9);
        (double cost, double fail, bool fits) = c.Walk(plan);
        Assert.True(fits);
        Assert.Equal(cut.CostLKm, cost, 1e-8);
        Assert.Equal(cut.FailProbability, fail, 1e-10);
    }

    [Fact]
    public void Plan_ThreeDaysWithCampsAndACache_IsOneChain()
    {
        static WaterDemand Leg(double a, double b, double l) => new(Length.FromKilometers(a), Length.FromKilometers(b), Estimate.Exact(Volume.FromLiters(l)));
        WaterCarryPlan plan = WaterCarryPlanner.Plan(new WaterCarryRequest
        {
            Demand = [Leg(0, 45, 4), Leg(45, 45, 2.5), Leg(45, 90, 4.5), Leg(90, 90, 2.5), Leg(90, 130, 3.5)],
            Sources =
            [
                new WaterSource { Name = "Basin Tank", AlongRoute = Length.FromKilometers(45), WetProbability = 1 },
                new WaterSource { Name = "Cache", AlongRoute = Length.FromKilometers(90), WetProbability = 1, Amount = Volume.FromLiters(6), NeedsTreatment = false },
            ],
            Capacity = Volume.FromLiters(8),
        });
        Assert.Equal(WaterCarryState.Planned, plan.State);
        Assert.Equal(4.5, plan.CarryFromStart.Liters, 1e-9);
        Assert.Equal(2.5 + 4.5 + 0.5, plan.Stops[1].FillTo.Liters, 1e-9);
        Assert.Equal(2.5 + 3.5, plan.Stops[2].MostTaken.Liters, 1e-9);
        Assert.Equal(7.5, plan.LargestCarry.Liters, 1e-9);
    }

    [Fact]
    public void Demand_FromSweatAndFromSamples_PlansTheUpperEnd()
    {
        static VolumeFlow Lph(double v) => VolumeFlow.FromLitersPerHour(v);
        WaterDemand sweat = WaterDemand.FromSweat(Length.Zero, Length.FromKilometers(20), Estimate.Of(Lph(0.5), Lph(0.3), Lph(0.9)), TimeSpan.FromHours(3));
        Assert.Equal(2.7, WaterCarryPlanner.Plan(new WaterCarryRequest { Demand = [sweat], Capacity = Volume.FromLiters(6), Reserve = Volume.Zero }).CarryFromStart.Liters, 1e-9);
        double[] samples = [.. Enumerable.Range(0, 101).Select(i => i / 100.0)];
        WaterDemand sampled = WaterDemand.FromSamples(Length.Zero, Length.FromKilometers(20), samples);
        Assert.Equal(0.9, sampled.Need.High.Liters, 0.01);
        Assert.Throws<ArgumentException>(() => WaterDemand.FromSamples(Length.Zero, Length.FromKilometers(20), []));
    }

    [Fact]
    public void Plan_Cancelled_Stops()
    {
        using var source = new CancellationTokenSource();
        source.Cancel();
        Random random = new(3);
        Assert.ThrowsAny<OperationCanceledException>(() =>
        {
            for (int k = 0; k < 50; k++)
            {
                WaterCarryPlanner.Plan(Many(random, 40), source.Token);
            }
        });
    }

    private static WaterCarryRequest Many(Random random, int sources) => new()
    {
        Demand = [new WaterDemand(Length.Zero, Length.FromKilometers(sources * 2), Estimate.Exact(Volume.FromLiters(sources * 0.15)))],
        Sources = [.. Enumerable.Range(1, sources - 1).Select(i => new WaterSource { Name = "S" + i, AlongRoute = Length.FromKilometers(2 * i), WetProbability = 0.4 + (0.5 * random.NextDouble()) })],
        Capacity = Volume.FromLiters(4),
        MaxRunDryProbability = 0.1,
    };

    [Fact]
    public void Plan_DoubtfulSpring_CarriesPastItAndSaysWhatIfDry()
    {
        WaterCarryPlan plan = WaterCarryPlanner.Plan(Loop(0.6));
        Assert.Equal(WaterCarryState.Planned, plan.State);
        Assert.Equal(5.5, plan.CarryFromStart.Liters, 1e-9);
        Assert.Equal(0, plan.RunDryProbability);
        Assert.NotNull(plan.IfDoubtfulSourcesDry);
        Assert.Equal(WaterCarryState.Planned, plan.IfDoubtfulSourcesDry.State);

        WaterCarryPlan bold = WaterCarryPlanner.Plan(Loop(0.6) with { MaxRunDryProbability = 0.45 });
        Assert.Equal(3.0, bold.CarryFromStart.Liters, 1e-9);
        Assert.Equal(0.4, bold.RunDryProbability, 1e-12);
        WaterStop spring = bold.Stops[1];
        Assert.True(spring.IsFill);
        Assert.NotNull(spring.IfDry);
        Assert.Equal(12.5, spring.IfDry.TurnBackBefore!.Value.Kilometers, 1e-9);
        Assert.Equal("Start", spring.IfDry.BackName);
        Assert.Contains(bold.Findings, f => f.Code == HydrationFindingCodes.DoubtfulSource);
        Assert.Contains(Cautions.Text, bold.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void Plan_UnknownProbability_IsPlannedAsDry()
    {
        WaterCarryPlan unknown = WaterCarryPlanner.Plan(Loop(null));
        WaterCarryPlan none = WaterCarryPlanner.Plan(Loop(0.6) with { Sources = [] });
        Assert.Equal(none.CarryFromStart, unknown.CarryFromStart);
        Assert.Equal(none.ExpectedLitreKm, unknown.ExpectedLitreKm, 1e-9);
        Assert.Contains(unknown.Findings, f => f.Code == HydrationFindingCodes.SourceUnknown);
    }

    [Fact]
    public void Plan_TooFar_IsShortAndSaysWhatIsMissing()
    {
        WaterCarryPlan plan = WaterCarryPlanner.Plan(Loop(0.6) with { Capacity = Volume.FromLiters(4) });
        Assert.Equal(WaterCarryState.Insufficient, plan.State);
        Assert.Equal(1.5, plan.MissingCapacity.Liters, 1e-9);
        Assert.Contains(plan.Findings, f => f.Code == HydrationFindingCodes.WaterShort);
    }

    [Fact]
    public void Plan_SmallCache_LimitsWhatIsTaken()
    {
        WaterCarryRequest request = Loop(1) with { Sources = [new WaterSource { Name = "Cache", AlongRoute = Length.FromKilometers(25), WetProbability = 1, Amount = Volume.FromLiters(1), NeedsTreatment = false }] };
        Assert.Equal(5.5, WaterCarryPlanner.Plan(request).CarryFromStart.Liters, 1e-9);
    }

    [Fact]
    public void Plan_DryCampAtSource_IsSuppliedByIt()
    {
        static Estimate<Volume> L(double l) => Estimate.Exact(Volume.FromLiters(l));
        WaterCarryPlan plan = WaterCarryPlanner.Plan(new WaterCarryRequest
        {
            Demand =
            [
                new WaterDemand(Length.Zero, Length.FromKilometers(20), L(2)),
                new WaterDemand(Length.FromKilometers(20), Length.FromKilometers(20), L(3)),
                new WaterDemand(Length.FromKilometers(20), Length.FromKilometers(40), L(2)),
            ],
            Sources = [new WaterSource { Name = "Camp tap", AlongRoute = Length.FromKilometers(20), WetProbability = 1 }],
            Capacity = Volume.FromLiters(6),
        });
        Assert.Equal(2.5, plan.CarryFromStart.Liters, 1e-9);
        Assert.Equal(5.5, plan.Stops[1].FillTo.Liters, 1e-9);
    }

    [Fact]
    [Checks(typeof(WaterCarryPlanner), CheckKind.BadInput)]
    public void Plan_BadInput_ThrowsClearly()
    {
        Assert.Throws<ArgumentNullException>(() => WaterCarryPlanner.Plan(null!));
        Assert.Throws<ArgumentException>(() => WaterCarryPlanner.Plan(Loop(1) with { Demand = [] }));
        Assert.Throws<ArgumentException>(() => WaterCarryPlanner.Plan(Loop(1) with { Reserve = Volume.FromLiters(6) }));
        Assert.Throws<ArgumentOutOfRangeException>(() => Loop(1) with { MaxRunDryProbability = 0.6 });
        Assert.ThrowsAny<ArgumentException>(() => Loop(1) with { Capacity = Volume.FromLiters(double.NaN) });
        ArgumentException gap = Assert.Throws<ArgumentException>(() => WaterCarryPlanner.Plan(Loop(1) with
        {
            Demand =
            [
                new WaterDemand(Length.Zero, Length.FromKilometers(20), Estimate.Exact(Volume.FromLiters(2))),
                new WaterDemand(Length.FromKilometers(21), Length.FromKilometers(40), Estimate.Exact(Volume.FromLiters(2))),
            ],
        }));
        Assert.Contains("21000 m", gap.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => new WaterDemand(Length.FromKilometers(2), Length.FromKilometers(1), Estimate.Exact(Volume.Zero)));
    }

    private static WaterCarryRequest Loop(double? wet) => new()
    {
        Demand = [new WaterDemand(Length.Zero, Length.FromKilometers(50), Estimate.Exact(Volume.FromLiters(5)))],
        Sources = [new WaterSource { Name = "Alder Spring", AlongRoute = Length.FromKilometers(25), WetProbability = wet }],
        Capacity = Volume.FromLiters(6),
    };

    [SuppressMessage("Performance", "CA1819", Justification = "Test data.")]
    public sealed record Case(double[] LengthKm, double[] NeedL, double[] Wet, double CapacityL, double Alpha)
    {
        private double[] Own => OwnLKm ?? [.. LengthKm.Zip(NeedL, (x, n) => x * n / 2)];

        public double[]? OwnLKm { get; init; }

        internal (WaterCarrySolution Solution, int[] Plan) Solve()
        {
            int[] plan = new int[LengthKm.Length];
            double[] limit = [.. LengthKm.Select(_ => CapacityL)];
            return (WaterCarryKernel.Solve(LengthKm, NeedL, Own, Wet, limit, Alpha, 10_000_000, plan), plan);
        }

        public Case With(int i, Func<double, double> change)
            => i < Wet.Length ? this with { Wet = [.. Wet.Select((p, k) => k == i ? change(p) : p)] } : this;

        /// <summary>Node i taken out: legs i-1 and i become one.</summary>
        public Case Without(int i)
        {
            static double[] Join(double[] a, int i, double v) => [.. a.Take(i - 1), v, .. a.Skip(i + 1)];
            double[] own = Own;
            return new Case(
                Join(LengthKm, i, LengthKm[i - 1] + LengthKm[i]), Join(NeedL, i, NeedL[i - 1] + NeedL[i]),
                [.. Wet.Where((_, k) => k != i)], CapacityL, Alpha)
            {
                OwnLKm = Join(own, i, own[i - 1] + own[i] + (NeedL[i] * LengthKm[i - 1])),
            };
        }

        /// <summary>All branches, one by one.</summary>
        public (double Cost, double Fail, bool Fits) Walk(int[] plan)
        {
            int m = LengthKm.Length;
            double[] own = Own;
            double D(int a, int b) => NeedL[a..b].Sum();
            for (int i = 0; i < m; i++)
            {
                if (D(i, plan[i]) > CapacityL + 1e-9)
                {
                    return (0, 0, false);
                }
            }

            double cost = 0, fail = 0;
            Branch(0, 0, 1);
            return (cost, fail, true);

            void Branch(int i, int reach, double p)
            {
                if (i == m || p == 0)
                {
                    return;
                }

                Leave(Math.Max(reach, plan[i]), p * Wet[i]);
                if (reach == i)
                {
                    fail += p * (1 - Wet[i]);
                }
                else
                {
                    Leave(reach, p * (1 - Wet[i]));
                }

                void Leave(int r, double q)
                {
                    cost += q * ((D(i + 1, r) * LengthKm[i]) + own[i]);
                    Branch(i + 1, r, q);
                }
            }
        }
    }

    public static class Cases
    {
        public static Arbitrary<Case> Case()
        {
            Gen<double> wet = Gen.Elements(0.0, 0.3, 0.6, 0.8, 0.9, 0.95, 1.0);
            Gen<Case> gen =
                from m in Gen.Choose(1, 6)
                from x in Gen.ArrayOf(Gen.Choose(5, 300), m)
                from n in Gen.ArrayOf(Gen.Choose(40, 90), m)
                from p in Gen.ArrayOf(wet, m)
                from cap in Gen.Choose(8, 70)
                from alpha in Gen.Elements(0.0, 0.01, 0.05, 0.1, 0.3)
                select new Case(
                    [.. x.Select(v => v / 10.0)],
                    [.. x.Zip(n, (v, k) => v / 10.0 * k / 1000)],
                    [1, .. p.Skip(1)], cap / 10.0, alpha);
            return gen.ToArbitrary();
        }
    }
}
