using SoloRide.Internal;

namespace SoloRide.Batteries;

/// <summary>
/// Who gets the bank's energy: a linear programme with bounded shares and at most two shared limits (energy at the port, hours of the port),
/// solved exactly for objectives in order, and its dual bound.
/// </summary>
/// <remarks>
/// Maximise, tier after tier, sum w_i e_i with lo_i ≤ e_i ≤ hi_i, sum e_i a_i ≤ B and, with one port, sum e_i b_i ≤ T, where a_i = 1/eta_i and
/// b_i = 1/(port_i eta_i). The simplex method with bounded variables on two rows; reduced costs are compared tier by tier (lexicographically),
/// so that a lower tier never takes from a higher one, and Bland's rule keeps it from cycling.
/// </remarks>
internal static class AllocationKernel
{
    public const int MaxClaims = 64;
    private const double Tolerance = 1e-12;

    /// <summary>Solves; false when the minima alone break a limit.</summary>
    /// <param name="perPort">a_i [Wh at the port per Wh in the cell].</param>
    /// <param name="perHour">b_i [h of the port per Wh in the cell]; ignored when <paramref name="portH"/> is infinite.</param>
    /// <param name="weights">w_i.</param>
    /// <param name="tiers">Tier of each claim, 0 first, without gaps.</param>
    /// <param name="tierCount">Number of tiers.</param>
    /// <param name="lowWh">lo_i.</param>
    /// <param name="highWh">hi_i.</param>
    /// <param name="bankWh">B.</param>
    /// <param name="portH">T; infinite when ports do not limit.</param>
    /// <param name="cellWh">e_i, out.</param>
    [Source("dantzig-1957", "fractional knapsack; bounded simplex for the second limit")]
    public static bool Solve(
        ReadOnlySpan<double> perPort, ReadOnlySpan<double> perHour, ReadOnlySpan<double> weights, ReadOnlySpan<int> tiers, int tierCount,
        ReadOnlySpan<double> lowWh, ReadOnlySpan<double> highWh, double bankWh, double portH, Span<double> cellWh)
    {
        int n = weights.Length;
        bool hasPort = double.IsFinite(portH);
        double bankLeft = bankWh, hoursLeft = hasPort ? portH : 1;
        for (int i = 0; i < n; i++)
        {
            if (lowWh[i] > highWh[i] + (Tolerance * Math.Max(1, highWh[i])))
            {
                return false;
            }

            cellWh[i] = lowWh[i];
            bankLeft -= lowWh[i] * perPort[i];
            hoursLeft -= hasPort ? lowWh[i] * perHour[i] : 0;
        }

        if (bankLeft < -1e-9 * Math.Max(1, bankWh) || hoursLeft < -1e-9 * Math.Max(1, hasPort ? portH : 1))
        {
            return false;
        }

        // Where each variable stands: 0 at its lower end, 1 at its upper end, 2 in the basis. n and n+1 are the slacks.
        Span<byte> stand = stackalloc byte[n + 2];
        stand[n] = 2;
        stand[n + 1] = 2;
        int first = n, second = n + 1;
        double firstValue = Math.Max(0, bankLeft), secondValue = Math.Max(0, hoursLeft);
        for (int iteration = 0; iteration < 200 * (n + 2); iteration++)
        {
            double a1 = A(first, n, perPort), b1 = B(first, n, perHour, hasPort), a2 = A(second, n, perPort), b2 = B(second, n, perHour, hasPort);
            double det = (a1 * b2) - (a2 * b1);
            int enter = -1;
            bool rising = false;
            for (int j = 0; j < n + 2 && enter < 0; j++)
            {
                if (stand[j] == 2 || (j < n && highWh[j] - lowWh[j] <= 0))
                {
                    continue;
                }

                double aj = A(j, n, perPort), bj = B(j, n, perHour, hasPort);
                double alpha = ((aj * b2) - (a2 * bj)) / det, beta = ((a1 * bj) - (aj * b1)) / det;
                for (int k = 0; k < tierCount; k++)
                {
                    double reduced = C(j, n, k, weights, tiers) - (C(first, n, k, weights, tiers) * alpha) - (C(second, n, k, weights, tiers) * beta);
                    double scale = Tolerance * 100 * (Math.Abs(C(j, n, k, weights, tiers)) + Math.Abs(C(first, n, k, weights, tiers) * alpha) + Math.Abs(C(second, n, k, weights, tiers) * beta));
                    if (Math.Abs(reduced) <= scale)
                    {
                        continue;
                    }

                    if (stand[j] == 0 ? reduced > 0 : reduced < 0)
                    {
                        enter = j;
                        rising = reduced > 0;
                    }

                    break;
                }
            }

            if (enter < 0)
            {
                break;
            }

            double ae = A(enter, n, perPort), be = B(enter, n, perHour, hasPort);
            double direction = rising ? 1 : -1;
            double d1 = -direction * (((ae * b2) - (a2 * be)) / det), d2 = -direction * (((a1 * be) - (ae * b1)) / det);
            double step = enter < n ? highWh[enter] - lowWh[enter] : double.PositiveInfinity;
            int leave = enter;
            byte leaveStand = (byte)(rising ? 1 : 0);
            Ratio(first, firstValue, d1, n, lowWh, highWh, ref step, ref leave, ref leaveStand);
            Ratio(second, secondValue, d2, n, lowWh, highWh, ref step, ref leave, ref leaveStand);
            firstValue += d1 * step;
            secondValue += d2 * step;
            if (leave == enter)
            {
                stand[enter] = leaveStand;
                continue;
            }

            double enterFrom = stand[enter] == 0 ? (enter < n ? lowWh[enter] : 0) : highWh[enter];
            stand[leave] = leaveStand;
            stand[enter] = 2;
            if (leave == first)
            {
                first = enter;
                firstValue = enterFrom + (direction * step);
            }
            else
            {
                second = enter;
                secondValue = enterFrom + (direction * step);
            }
        }

        for (int j = 0; j < n; j++)
        {
            cellWh[j] = stand[j] == 2 ? Math.Clamp(j == first ? firstValue : secondValue, lowWh[j], Math.Max(lowWh[j], highWh[j])) : stand[j] == 1 ? highWh[j] : lowWh[j];
        }

        return true;
    }

    /// <summary>
    /// The least upper bound that prices of bank energy and port hours give for one tier, other shares held: D(l, m) is convex and piecewise
    /// linear, so its least value lies where at most two of its lines meet.
    /// </summary>
    [Source("lp-duality", "weak duality: every pair of prices bounds the optimum from above")]
    public static (double BoundWh, double BankPrice, double HourPrice) Bound(
        ReadOnlySpan<double> perPort, ReadOnlySpan<double> perHour, ReadOnlySpan<double> weights, ReadOnlySpan<double> lowWh, ReadOnlySpan<double> highWh,
        double bankWh, double portH)
    {
        int n = weights.Length;
        bool hasPort = double.IsFinite(portH);
        double bank = bankWh, hours = hasPort ? portH : 0, fixedPart = 0;
        for (int i = 0; i < n; i++)
        {
            bank -= perPort[i] * lowWh[i];
            hours -= hasPort ? perHour[i] * lowWh[i] : 0;
            fixedPart += weights[i] * lowWh[i];
        }

        (double best, double l, double m) = (double.PositiveInfinity, 0.0, 0.0);
        Try(0, 0, perPort, perHour, weights, lowWh, highWh);
        for (int i = 0; i < n; i++)
        {
            Try(weights[i] / perPort[i], 0, perPort, perHour, weights, lowWh, highWh);
            if (!hasPort)
            {
                continue;
            }

            Try(0, weights[i] / perHour[i], perPort, perHour, weights, lowWh, highWh);
            for (int j = i + 1; j < n; j++)
            {
                double det = (perPort[i] * perHour[j]) - (perPort[j] * perHour[i]);
                if (Math.Abs(det) > 1e-14)
                {
                    double li = ((weights[i] * perHour[j]) - (weights[j] * perHour[i])) / det;
                    double mi = ((perPort[i] * weights[j]) - (perPort[j] * weights[i])) / det;
                    if (li >= 0 && mi >= 0)
                    {
                        Try(li, mi, perPort, perHour, weights, lowWh, highWh);
                    }
                }
            }
        }

        return (best, l, m);

        void Try(double price, double hourPrice, ReadOnlySpan<double> a, ReadOnlySpan<double> b, ReadOnlySpan<double> w, ReadOnlySpan<double> lo, ReadOnlySpan<double> hi)
        {
            double sum = (price * bank) + (hourPrice * hours) + fixedPart;
            for (int i = 0; i < w.Length; i++)
            {
                double gain = w[i] - (price * a[i]) - (hasPort ? hourPrice * b[i] : 0);
                if (gain > 0)
                {
                    sum += gain * (hi[i] - lo[i]);
                }
            }

            if (sum < best)
            {
                (best, l, m) = (sum, price, hourPrice);
            }
        }
    }

    private static double A(int j, int n, ReadOnlySpan<double> perPort) => j < n ? perPort[j] : j == n ? 1 : 0;

    private static double B(int j, int n, ReadOnlySpan<double> perHour, bool hasPort) => j < n ? (hasPort ? perHour[j] : 0) : j == n ? 0 : 1;

    private static double C(int j, int n, int tier, ReadOnlySpan<double> weights, ReadOnlySpan<int> tiers) => j < n && tiers[j] == tier ? weights[j] : 0;

    private static void Ratio(int basic, double value, double rate, int n, ReadOnlySpan<double> low, ReadOnlySpan<double> high, ref double step, ref int leave, ref byte stand)
    {
        double lower = basic < n ? low[basic] : 0, upper = basic < n ? high[basic] : double.PositiveInfinity;
        double t;
        byte to;
        if (rate < -Tolerance)
        {
            t = Math.Max(0, (value - lower) / -rate);
            to = 0;
        }
        else if (rate > Tolerance)
        {
            t = Math.Max(0, (upper - value) / rate);
            to = 1;
        }
        else
        {
            return;
        }

        if (t < step || (t <= step && basic < leave))
        {
            step = t;
            leave = basic;
            stand = to;
        }
    }
}
