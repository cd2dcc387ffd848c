using FsCheck.Xunit;
using SoloRide.Hydration;
using UnitsNet;

namespace SoloRide.Tests.Hydration;

/// <summary>A source that is passed twice is wet or dry both times; checked by going through all plans and all cases in litres.</summary>
public sealed class WaterCarrySharedTests
{
    [Property(MaxTest = 60)]
    public bool Solve_SourcesPassedAgain_IsTheBestOfAllPlansOverAllCases(int seed)
    {
        var random = new Random(seed);
        int m = 3 + random.Next(3);
        double[] lengthKm = new double[m], needL = new double[m], ownLKm = new double[m], wet = new double[m], limit = new double[m];
        int[] group = new int[m];
        Array.Fill(group, -1);
        for (int i = 0; i < m; i++)
        {
            lengthKm[i] = 3 + random.Next(10);
            needL[i] = 0.5 + random.NextDouble();
            ownLKm[i] = needL[i] * lengthKm[i] / 2;
            wet[i] = i == 0 ? 1 : 0.3 + (0.6 * random.NextDouble());
            limit[i] = 4;
        }

        group[1] = group[m - 1] = 0;
        wet[m - 1] = wet[1];
        double alpha = random.NextDouble() * 0.5;
        var plan = new int[m];
        WaterCarrySolution own = WaterCarryShared.Solve(lengthKm, needL, ownLKm, wet, limit, group, alpha, 25_000, plan, default);
        (double bestCost, double leastFail) = (double.PositiveInfinity, 1.0);
        foreach (int[] candidate in Plans(m, needL, limit))
        {
            (double cost, double fail) = Walk(candidate);
            leastFail = Math.Min(leastFail, fail);
            bestCost = fail <= alpha + 1e-12 ? Math.Min(bestCost, cost) : bestCost;
        }

        return own.Feasible == double.IsFinite(bestCost)
            && Math.Abs(own.LeastFailProbability - leastFail) < 1e-12
            && (!own.Feasible || (Math.Abs(own.CostLKm - bestCost) < 1e-9 && Walk(plan) is var (c, f) && Math.Abs(c - own.CostLKm) < 1e-9 && Math.Abs(f - own.FailProbability) < 1e-12));

        // Every case of wet and dry, the first and the last source being one; water counted in litres.
        (double Cost, double Fail) Walk(int[] targets)
        {
            double cost = 0, fail = 0;
            for (int c = 0; c < 1 << m; c++)
            {
                bool Wet(int i) => i == 0 || (c & (1 << (i == m - 1 ? 1 : i))) != 0;
                if ((c & 1) == 0 || ((c >> (m - 1)) & 1) != 0 && m - 1 != 1)
                {
                    continue;
                }

                double p = 1;
                for (int i = 1; i < m - 1; i++)
                {
                    p *= Wet(i) ? wet[i] : 1 - wet[i];
                }

                double hand = 0;
                bool dead = false;
                for (int i = 0; i < m && !dead; i++)
                {
                    double to = 0;
                    for (int k = i; k < targets[i]; k++)
                    {
                        to += needL[k];
                    }

                    hand = Wet(i) ? Math.Max(hand, to) : hand;
                    dead = hand < needL[i] - 1e-9;
                    if (!dead)
                    {
                        cost += p * (((hand - needL[i]) * lengthKm[i]) + ownLKm[i]);
                        hand -= needL[i];
                    }
                }

                fail += dead ? p : 0;
            }

            return (cost, fail);
        }
    }

    [Fact]
    public void Plan_SpringPassedTwice_RiskIsThatOfOneSpring()
    {
        WaterCarryRequest Request(string? pass) => new()
        {
            Demand = [new WaterDemand(Length.Zero, Length.FromKilometers(30), Estimate.Exact(Volume.FromLiters(3)))],
            Capacity = Volume.FromLiters(2.0),
            Reserve = Volume.Zero,
            MaxRunDryProbability = 0.5,
            Sources =
            [
                new WaterSource { Name = "Spring", AlongRoute = Length.FromKilometers(10), WetProbability = 0.8, PassOf = pass },
                new WaterSource { Name = "Spring (pass 2)", AlongRoute = Length.FromKilometers(20), WetProbability = 0.8, PassOf = pass },
            ],
        };

        // 2 L last 20 km. Independent: dry at both in 0.04, and what was taken at the first pass lasts to the end. One spring: dry in 0.2.
        Assert.Equal(0.04, WaterCarryPlanner.Plan(Request(null)).LeastRunDryProbability, 1e-12);
        WaterCarryPlan one = WaterCarryPlanner.Plan(Request("Spring"));
        Assert.Equal(0.2, one.LeastRunDryProbability, 1e-12);
        Assert.Equal(0.2, one.RunDryProbability, 1e-12);
        Assert.Equal(WaterCarryState.Insufficient, WaterCarryPlanner.Plan(Request("Spring") with { MaxRunDryProbability = 0.1 }).State);
    }

    private static IEnumerable<int[]> Plans(int m, double[] needL, double[] limit)
    {
        var most = new int[m];
        for (int i = 0; i < m; i++)
        {
            double d = 0;
            int t = i;
            while (t < m && (d += needL[t]) <= limit[i] + 1e-9)
            {
                t++;
            }

            most[i] = t;
        }

        IEnumerable<int[]> all = [new int[m]];
        for (int i = 0; i < m; i++)
        {
            int at = i;
            all = all.SelectMany(p => Enumerable.Range(at + 1, most[at] - at).Select(t => { int[] q = [.. p]; q[at] = t; return q; }));
        }

        return all;
    }
}
