using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Escape;

/// <summary>
/// Where each resource stops sufficing for the way out: the first place past which use so far, use on the way home and the reserve exceed
/// what is carried.
/// </summary>
/// <remarks>
/// The way home may differ from the way out (pass a walk-out profile), or be the same legs backward. Use is rate times time, linear inside a
/// leg, or the caller's own ledger (<see cref="ResourceAccount.Ledger"/>); by lamp only the hours given count as dark when the caller's rates say so. A source refills the account to its capacity with its
/// chance, independently of the others; on the way home nothing is refilled. Degenerate: no account or nothing used gives no point. Source:
/// <c>pnr-form</c> (constant speeds), own extension to directed legs.
/// </remarks>
[Entry]
public static class PointOfNoReturnPlanner
{
    [Source("assumption-escape-classes", "refills count at a confidence of 0.9")]
    private const double DefaultConfidence = 0.9;

    /// <summary>The distance of no return at constant speeds: E·o·h/(o + h).</summary>
    /// <param name="endurance">Time available for out and home together; above zero.</param>
    /// <param name="speedOut">Above zero.</param>
    /// <param name="speedHome">Above zero.</param>
    /// <returns>The distance and the time to it.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not positive.</exception>
    public static (Length Distance, TimeSpan TimeOut) AtConstantSpeed(TimeSpan endurance, Speed speedOut, Speed speedHome)
    {
        double e = Guard.Positive(endurance.TotalSeconds, "s", nameof(endurance));
        double o = Guard.Positive(speedOut.MetersPerSecond, "m/s", nameof(speedOut));
        double h = Guard.Positive(speedHome.MetersPerSecond, "m/s", nameof(speedHome));
        return (Length.FromMeters(PnrKernel.Distance(e, o, h)), TimeSpan.FromSeconds(PnrKernel.Time(e, o, h)));
    }

    /// <summary>The place between two exits from where on and back take the same time at constant speeds: D·h/(o + h).</summary>
    /// <param name="distance">From the exit behind to the exit ahead; above zero.</param>
    /// <param name="speedOn">Above zero.</param>
    /// <param name="speedBack">Above zero.</param>
    /// <returns>Distance from the exit behind.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A value is not positive.</exception>
    public static Length EqualTimeDistance(Length distance, Speed speedOn, Speed speedBack)
        => Length.FromMeters(PnrKernel.EqualTimeDistance(
            Guard.Positive(distance.Meters, "m", nameof(distance)),
            Guard.Positive(speedOn.MetersPerSecond, "m/s", nameof(speedOn)),
            Guard.Positive(speedBack.MetersPerSecond, "m/s", nameof(speedBack))));

    /// <summary>Points of no return when the way home is the way out backward.</summary>
    /// <param name="legs">The legs from the start; at least one.</param>
    /// <param name="accounts">What is carried.</param>
    /// <param name="rates">Use per hour, not needed for accounts with a ledger; those of <paramref name="modeOut"/> and <paramref name="modeHome"/> are taken. Time needs no rate: one hour an hour.</param>
    /// <param name="modeOut">How the rider moves out.</param>
    /// <param name="modeHome">How the rider moves home.</param>
    /// <param name="confidenceProbability">[share of 1] Confidence at which uncertain sources count.</param>
    /// <returns>The points.</returns>
    /// <exception cref="ArgumentException">No legs, or no rate for an account; the message names it.</exception>
    public static PointsOfNoReturn Find(
        IReadOnlyList<ReturnLeg> legs,
        IReadOnlyList<ResourceAccount> accounts,
        IReadOnlyList<ResourceRate> rates,
        TravelMode modeOut = TravelMode.Ride,
        TravelMode modeHome = TravelMode.Ride,
        double confidenceProbability = DefaultConfidence)
    {
        if (Guard.NotNull(legs).Count == 0)
        {
            throw new ArgumentException("At least one leg is needed.", nameof(legs));
        }

        var alongM = new double[legs.Count + 1];
        var outH = new double[legs.Count + 1];
        var homeH = new double[legs.Count + 1];
        for (int i = 0; i < legs.Count; i++)
        {
            alongM[i + 1] = alongM[i] + legs[i].Length.Meters;
            outH[i + 1] = outH[i] + legs[i].Out.TotalHours;
            homeH[i + 1] = homeH[i] + legs[i].Home.TotalHours;
        }

        return Find(alongM, outH, homeH, accounts, rates, modeOut, modeHome, confidenceProbability);
    }

    /// <summary>Points of no return when the way home is the nearest way out of a profile (build it with the exits that count as home).</summary>
    /// <param name="out">Time over each step of the profile's route in its direction, one a step.</param>
    /// <param name="home">Time out from everywhere.</param>
    /// <param name="accounts">What is carried.</param>
    /// <param name="rates">Use per hour.</param>
    /// <param name="modeOut">How the rider moves out.</param>
    /// <param name="quantileProbability">[share of 1] Quantile of the time home.</param>
    /// <param name="confidenceProbability">[share of 1] Confidence at which uncertain sources count.</param>
    /// <returns>The points.</returns>
    /// <exception cref="ArgumentException">Times and steps differ in number, or no rate for an account.</exception>
    public static PointsOfNoReturn Find(
        IReadOnlyList<TimeSpan> @out,
        WalkOutProfile home,
        IReadOnlyList<ResourceAccount> accounts,
        IReadOnlyList<ResourceRate> rates,
        TravelMode modeOut = TravelMode.Ride,
        double quantileProbability = 0.5,
        double confidenceProbability = DefaultConfidence)
    {
        Guard.NotNull(@out);
        IReadOnlyList<TrailStep> steps = Guard.NotNull(home).Graph.Route.Steps;
        Guard.SameLength(steps.Count, @out.Count, nameof(@out));
        double factor = home.Factor(quantileProbability);
        var endM = new double[steps.Count + 1];
        var endH = new double[steps.Count + 1];
        for (int i = 0; i < steps.Count; i++)
        {
            endM[i + 1] = endM[i] + steps[i].LengthM;
            endH[i + 1] = endH[i] + Guard.NotNegative(@out[i], $"out[{Text.F(i, 0)}]").TotalHours;
        }

        var breaks = home.Breaks().ToArray();
        var alongM = new double[breaks.Length];
        var outH = new double[breaks.Length];
        var homeH = new double[breaks.Length];
        for (int i = 0; i < breaks.Length; i++)
        {
            alongM[i] = breaks[i].AlongM;
            outH[i] = At(endM, endH, breaks[i].AlongM);
            homeH[i] = breaks[i].TimeS * factor / 3600;
        }

        return Find(alongM, outH, homeH, accounts, rates, modeOut, home.Pace.Mode, confidenceProbability);
    }

    private static PointsOfNoReturn Find(
        double[] alongM,
        double[] outH,
        double[] homeH,
        IReadOnlyList<ResourceAccount> accounts,
        IReadOnlyList<ResourceRate> rates,
        TravelMode modeOut,
        TravelMode modeHome,
        double confidence)
    {
        Guard.NotNull(accounts);
        Guard.NotNull(rates);
        Guard.Fraction(confidence);
        var findings = new List<Finding>();
        var points = new List<PointOfNoReturn>();
        PointOfNoReturn? binding = null;
        double bindingM = double.PositiveInfinity;
        double[] breaksM = alongM;
        foreach (ResourceAccount account in accounts)
        {
            (alongM, double[] used, double[] needed) = account.Ledger is { } ledger ? FromLedger(account, ledger) : FromRates(account);

            (double AlongM, double Chance)[] refills =
            [
                .. account.Refills.Select(r => (Along: r.AlongRoute is { } a ? a.Meters : throw new ArgumentException($"Source '{r.Name}' has no distance along the route.", nameof(accounts)), Chance: r.WetProbability ?? 0))
                    .Where(r => r.Chance > 0 && r.Along <= breaksM[^1]).OrderBy(r => r.Along),
            ];
            double dry = Last(alongM, used, needed, account, [.. refills.Where(r => r.Chance >= 1)], 1);
            double likely = Math.Max(Sure(dry), Sure(Last(alongM, used, needed, account, refills, confidence)));
            if (refills.Any(r => r.Chance < 1) && likely > Sure(dry))
            {
                findings.Add(new Finding(
                    EscapeFindingCodes.RefillUncertain,
                    FindingSeverity.Caution,
                    account.Kind.ToString(),
                    $"Past km {Text.F(dry / 1000, 1)} the way home depends on a source that may be dry: see it before going on.",
                    new FindingValue("all_dry_m", Text.F(dry, 0))));
            }

            var point = new PointOfNoReturn(
                account.Kind,
                Si.Length(dry),
                double.IsPositiveInfinity(likely) ? null : Length.FromMeters(likely),
                double.IsNaN(dry) ? null : TimeSpan.FromHours(At(breaksM, outH, dry)));
            points.Add(point);
            if (Sure(dry) < bindingM)
            {
                bindingM = dry;
                binding = point;
            }

            if (dry <= breaksM[0])
            {
                findings.Add(new Finding(
                    EscapeFindingCodes.ResourceShort, FindingSeverity.Warning, account.Kind.ToString(), $"{account.Kind}: {account.Available} with a reserve of {account.Reserve} does not suffice even at the start."));
            }
        }

        return new PointsOfNoReturn(points, binding, findings);

        static double Sure(double m) => double.IsNaN(m) ? double.PositiveInfinity : m;

        (double[] AlongM, double[] Used, double[] Needed) FromRates(ResourceAccount account)
        {
            double ro = Rate(account.Kind, modeOut), rh = Rate(account.Kind, modeHome);
            var used = new double[breaksM.Length];
            var needed = new double[breaksM.Length];
            for (int i = 0; i < breaksM.Length; i++)
            {
                used[i] = ro * outH[i];
                needed[i] = used[i] + (rh > 0 ? rh * homeH[i] : double.IsFinite(homeH[i]) ? 0 : double.PositiveInfinity);
            }

            return (breaksM, used, needed);
        }

        (double[] AlongM, double[] Used, double[] Needed) FromLedger(ResourceAccount account, ResourceLedger ledger)
        {
            double slackM = Math.Max(1, breaksM[^1] * 1e-6);
            if (ledger.AlongM[0] > breaksM[0] + slackM || ledger.AlongM[^1] < breaksM[^1] - slackM)
            {
                throw new ArgumentException(
                    $"The ledger of {account.Kind} reaches from {Text.F(ledger.AlongM[0], 0)} to {Text.F(ledger.AlongM[^1], 0)} m; 0 to {Text.F(breaksM[^1], 0)} m are needed.", nameof(accounts));
            }

            return (ledger.AlongM, ledger.Used, [.. ledger.Used.Zip(ledger.Home, (u, h) => u + h)]);
        }

        double Rate(ResourceKind kind, TravelMode mode)
            => rates.FirstOrDefault(r => r.Kind == kind && r.Mode == mode)?.AmountPerHour
                ?? (kind == ResourceKind.Time ? 1 : throw new ArgumentException($"No rate of {kind} is given for the mode {mode}.", nameof(rates)));
    }

    /// <summary>
    /// The first place past which the chance that the account suffices falls below the confidence. The state after a wet source is known
    /// (the capacity), so that only the last wet source counts.
    /// </summary>
    private static double Last(double[] alongM, double[] used, double[] needed, ResourceAccount account, (double AlongM, double Chance)[] refills, double confidence)
    {
        // failsM[k]: where the account fails when source k - 1 was the last wet one (k = 0: none was).
        var failsM = new double[refills.Length + 1];
        for (int k = 0; k <= refills.Length; k++)
        {
            double fromM = k == 0 ? alongM[0] : refills[k - 1].AlongM;
            double start = k == 0 ? 0 : At(alongM, used, fromM);
            double budget = (k == 0 ? account.Available.Value : account.Capacity.Value) - account.Reserve.Value + start;
            double m = First(alongM, needed, budget, fromM);
            failsM[k] = double.IsNaN(m) ? double.PositiveInfinity : m;
        }

        if (refills.Length == 0)
        {
            return double.IsPositiveInfinity(failsM[0]) ? double.NaN : failsM[0];
        }

        // A source that is reached past the failure of the state before helps no more: the rider should have turned.
        foreach (double place in failsM.Where(double.IsFinite).Concat(refills.Select(r => r.AlongM)).Order())
        {
            if (Chance(place) < confidence - 1e-12)
            {
                return place;
            }
        }

        return double.NaN;

        // Chance that the account still suffices just past a place.
        double Chance(double placeM)
        {
            // alive[k]: chance of having source k - 1 as last wet one, without having been short before.
            var alive = new double[refills.Length + 1];
            alive[0] = 1;
            for (int i = 0; i < refills.Length && refills[i].AlongM <= placeM; i++)
            {
                double reached = 0;
                for (int k = 0; k <= i; k++)
                {
                    alive[k] = failsM[k] >= refills[i].AlongM ? alive[k] : 0;
                    reached += alive[k] * refills[i].Chance;
                    alive[k] *= 1 - refills[i].Chance;
                }

                alive[i + 1] = reached;
            }

            double sum = 0;
            for (int k = 0; k < alive.Length; k++)
            {
                sum += failsM[k] > placeM ? alive[k] : 0;
            }

            return sum;
        }
    }

    private static double First(double[] alongM, double[] needed, double budget, double fromM)
    {
        // The place of a refill becomes a break of its own.
        int i = Array.BinarySearch(alongM, fromM);
        if (i >= 0)
        {
            return PnrKernel.First(alongM.AsSpan(i), needed.AsSpan(i), budget);
        }

        i = ~i;
        double[] m = [fromM, .. alongM[i..]];
        double[] n = [At(alongM, needed, fromM), .. needed[i..]];
        return PnrKernel.First(m, n, budget);
    }

    private static double At(double[] alongM, double[] value, double m)
    {
        int i = Array.BinarySearch(alongM, m);
        if (i >= 0)
        {
            return value[i];
        }

        i = Math.Clamp(~i, 1, alongM.Length - 1);
        double share = (m - alongM[i - 1]) / (alongM[i] - alongM[i - 1]);
        return share <= 0 || value[i - 1].Equals(value[i]) ? value[i - 1] : share >= 1 ? value[i] : value[i - 1] + (share * (value[i] - value[i - 1]));
    }
}
