using FsCheck.Xunit;
using SoloRide.Accuracy;
using SoloRide.Batteries;
using UnitsNet;

namespace SoloRide.Tests.Batteries;

public sealed class BankPlannerTests
{
    [Fact]
    [Checks(typeof(BankPlanner), CheckKind.BadInput)]
    public void Allocate_BadInput_SaysWhat()
    {
        BankClaim claim = new("a", Energy.FromWattHours(3), 0.9, Power.FromWatts(5));
        Assert.Throws<ArgumentOutOfRangeException>(() => BankPlanner.Allocate(Energy.FromWattHours(-1), [claim], TimeSpan.FromHours(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => BankPlanner.Allocate(Energy.FromWattHours(1), [claim], TimeSpan.Zero));
        Assert.Throws<ArgumentException>(() => BankPlanner.Allocate(Energy.FromWattHours(1), [claim, claim], TimeSpan.FromHours(1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => new BankClaim("a", Energy.FromWattHours(3), 0, Power.FromWatts(5)));
    }

    /// <summary>Linear programmes solved to proof by an independent program (Data/batteries/README.md).</summary>
    [Fact]
    [Checks(typeof(BankPlanner), CheckKind.Outside)]
    public void Allocate_TableOfLinearProgrammes_OptimalWithProof()
    {
        foreach (CsvRow row in CsvTable.Read(Repo.Data("batteries", "allocation.csv")).Rows)
        {
            BankAllocation got = Solve(row);
            Assert.Equal(row["feasible"] == "1", got.IsFeasible);
            if (got.IsFeasible)
            {
                double best = row.Num("best_weighted_Wh");
                Assert.Equal(best, got.Proofs.Sum(p => p.ValueWh), 1e-6 * best);
                Assert.Equal(row.Num("bank_Wh_used"), got.FromPort.WattHours, 1e-6 * row.Num("bank_Wh_used"));
                Assert.True(got.IsOptimal);
            }
        }
    }

    [Property]
    [Checks(typeof(BankPlanner), CheckKind.Property)]
    public void Allocate_MoreBank_NeverWorse(ushort seed)
    {
        (BankClaim[] claims, double bank, double hours) = Random(seed);
        BankAllocation less = BankPlanner.Allocate(Energy.FromWattHours(bank), claims, TimeSpan.FromHours(hours));
        BankAllocation more = BankPlanner.Allocate(Energy.FromWattHours(bank * 1.2), claims, TimeSpan.FromHours(hours));
        Assert.True(less.IsOptimal && more.IsOptimal);
        for (int k = 0; k < less.Proofs.Count; k++)
        {
            if (more.Proofs[k].ValueWh > less.Proofs[k].ValueWh + 1e-9)
            {
                return; // Better at an earlier place: later places may get less port time.
            }

            Assert.True(more.Proofs[k].ValueWh >= less.Proofs[k].ValueWh - 1e-9);
        }
    }

    internal static (BankClaim[] Claims, double Bank, double Hours) Random(int seed)
    {
        var random = new Random(seed);
        int n = 1 + random.Next(12);
        var claims = new BankClaim[n];
        for (int i = 0; i < n; i++)
        {
            claims[i] = new BankClaim($"d{i}", Energy.FromWattHours(random.NextDouble() * 20), 0.7 + (0.25 * random.NextDouble()), Power.FromWatts(2.5 * (1 + random.Next(6))))
            {
                SafetyOrder = 1 + random.Next(4),
                WeightFactor = 1 + random.Next(5),
            };
        }

        return (claims, random.NextDouble() * 60, 0.5 + (6 * random.NextDouble()));
    }

    private static BankAllocation Solve(CsvRow row)
    {
        var claims = new List<BankClaim>();
        for (int i = 1; i <= 5; i++)
        {
            claims.Add(new BankClaim($"{i}", Energy.FromWattHours(row.Num($"need_Wh_{i}")), row.Num($"eta_{i}"), Power.FromWatts(row.Num($"port_W_{i}")))
            {
                Minimum = Energy.FromWattHours(row.Num($"min_Wh_{i}")),
                WeightFactor = row.Num($"weight_{i}"),
            });
        }

        return BankPlanner.Allocate(
            Energy.FromWattHours(row.Num("bank_Wh_at_port")), claims, TimeSpan.FromHours(row.Num("time_h")), row["single_port"] == "1" ? PortSharing.OneAfterAnother : PortSharing.AllAtOnce);
    }
}
