using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Batteries;

/// <summary>Shares a bank's energy out among devices: order of safety first, then weights; exact, with proof.</summary>
/// <remarks>Static and pure; safe to call from any thread.</remarks>
[Entry]
public static class BankPlanner
{
    /// <summary>Shares the energy out.</summary>
    /// <param name="atPort">Energy that the bank gives at its port, 0 or more.</param>
    /// <param name="claims">What the devices would take; at most 64, names must differ.</param>
    /// <param name="time">Time in which devices can hang on the bank, above 0; each claim is held to what its port power gives in it.</param>
    /// <param name="ports">Ports; <see cref="PortSharing.OneAfterAnother"/> when all devices share a single port.</param>
    /// <returns>The allocation; infeasible minima are a result, not an error.</returns>
    /// <exception cref="ArgumentException">Two claims have one name, or there are too many.</exception>
    /// <exception cref="ArgumentOutOfRangeException">Energy or time is outside its range.</exception>
    public static BankAllocation Allocate(Energy atPort, IReadOnlyList<BankClaim> claims, TimeSpan time, PortSharing ports = PortSharing.OneAfterAnother)
    {
        double bankWh = Guard.InRange(atPort.WattHours, 0, 100_000, "Wh", nameof(atPort));
        Guard.NotNull(claims);
        Guard.Defined(ports);
        double hours = Guard.InRange(time.TotalHours, 1e-6, 24 * 366, "h", nameof(time));
        int n = claims.Count;
        if (n > AllocationKernel.MaxClaims)
        {
            throw new ArgumentException($"{n} claims are given; at most {AllocationKernel.MaxClaims} are allowed.", nameof(claims));
        }

        if (claims.GroupBy(c => c.Name, StringComparer.Ordinal).FirstOrDefault(g => g.Count() > 1) is { } twice)
        {
            throw new ArgumentException($"Two claims are named '{twice.Key}'.", nameof(claims));
        }

        double portH = ports == PortSharing.OneAfterAnother ? hours : double.PositiveInfinity;
        double[] a = new double[n], b = new double[n], w = new double[n], low = new double[n], high = new double[n], cell = new double[n];
        int[] orders = [.. claims.Select(c => c.SafetyOrder).Distinct().Order()];
        int[] tiers = new int[n];
        for (int i = 0; i < n; i++)
        {
            BankClaim c = claims[i];
            a[i] = 1 / c.EfficiencyFraction;
            b[i] = 1 / (c.PortW * c.EfficiencyFraction);
            w[i] = c.WeightFactor;
            low[i] = c.MinimumWh;
            high[i] = Math.Min(c.NeedWh, c.PortW * c.EfficiencyFraction * hours);
            tiers[i] = Array.IndexOf(orders, c.SafetyOrder);
        }

        if (!AllocationKernel.Solve(a, b, w, tiers, orders.Length, low, high, bankWh, portH, cell))
        {
            return new BankAllocation(false, [], Energy.FromWattHours(0), []);
        }

        var shares = new BankShare[n];
        double used = 0;
        for (int i = 0; i < n; i++)
        {
            used += cell[i] * a[i];
            shares[i] = new BankShare(
                claims[i].Name, Energy.FromWattHours(cell[i]), Energy.FromWattHours(cell[i] * a[i]), TimeSpan.FromHours(cell[i] * b[i]),
                Energy.FromWattHours(Math.Max(0, claims[i].NeedWh - cell[i])));
        }

        return new BankAllocation(true, shares, Energy.FromWattHours(used), Prove(a, b, w, tiers, orders, low, high, bankWh, portH, cell));
    }

    private static AllocationProof[] Prove(
        double[] a, double[] b, double[] w, int[] tiers, int[] orders, double[] low, double[] high, double bankWh, double portH, double[] cell)
    {
        var proofs = new AllocationProof[orders.Length];
        for (int k = 0; k < orders.Length; k++)
        {
            double bank = bankWh, port = portH, value = 0;
            int m = tiers.Count(t => t == k), at = 0;
            double[] ak = new double[m], bk = new double[m], wk = new double[m], lk = new double[m], hk = new double[m];
            for (int i = 0; i < w.Length; i++)
            {
                if (tiers[i] == k)
                {
                    (ak[at], bk[at], wk[at], lk[at], hk[at]) = (a[i], b[i], w[i], low[i], high[i]);
                    value += w[i] * cell[i];
                    at++;
                }
                else
                {
                    double held = tiers[i] < k ? cell[i] : low[i];
                    bank -= held * a[i];
                    port -= held * b[i];
                }
            }

            (double bound, double price, double hour) = AllocationKernel.Bound(ak, bk, wk, lk, hk, bank, port);
            proofs[k] = new AllocationProof(orders[k], value, bound, price, hour);
        }

        return proofs;
    }
}
