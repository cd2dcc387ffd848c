using SoloRide.Internal;
using SoloRide.Kit;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Plans a ride for a group: at the pace of its slowest, with stops to wait, leaders by a ratio, and spares and power that all share.</summary>
/// <remarks>
/// <para>The slowest of n takes 1 + s E times as long as the middle rider, E the expected largest of n standard normals and s the spread of the riders' times.
/// What rider and day share stays uncertain as in the plan of one rider.</para>
/// <para>A pure function of its inputs. Thread-safe. A planning aid, not a guarantee.</para>
/// </remarks>
[Entry]
[Source("textbook-order-statistics", "expected largest value")]
public static class GroupPlanner
{
    /// <summary>Plans a ride for a group.</summary>
    /// <param name="ride">The ride; its rider and bike stand for the middle one.</param>
    /// <param name="group">The group.</param>
    /// <param name="terrain">Heights of the ground, for routes that carry none.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The plan.</returns>
    /// <exception cref="ArgumentException">A stop lies at or beyond an end of the route; two devices share a name; and as <see cref="RidePlanner.Plan"/>.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static GroupPlan Plan(RideRequest ride, RidingGroup group, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        Guard.NotNull(ride);
        Guard.NotNull(group);
        double km = ride.Route.Length.Kilometers;
        foreach (Length at in group.RegroupAt)
        {
            if (at.Meters <= 0 || at.Kilometers >= km)
            {
                throw new ArgumentException($"A stop to wait at km {Text.F(at.Kilometers, 2)} must lie above km 0 and before km {Text.F(km, 2)}.", nameof(group));
            }
        }

        double factor = OrderStatisticKernel.SlowestFactor(group.Riders, group.PaceSpreadFraction);
        RidePlan plan = RidePlanner.Plan(
            ride with
            {
                Devices = [.. ride.Devices, .. group.Devices],
                Options = ride.Options with { PaceFactor = factor, StopAtM = [.. group.RegroupAt.Select(x => x.Meters)], StopSec = group.RegroupStop.TotalSeconds },
            },
            terrain,
            cancel);
        var findings = new List<Finding>();
        int needed = LeadersFor(group.Riders, group.RidersPerLeader, group.LeastLeaders);
        if (group.Leaders < needed)
        {
            findings.Add(new Finding(
                PlanningFindingCodes.LeadersShort, FindingSeverity.Warning, "Leaders",
                $"{group.Leaders} of {needed} leaders: {group.Riders} riders at one for {group.RidersPerLeader}, and at least {group.LeastLeaders}. Bring another leader, or fewer riders. Local rules may ask for more."));
        }

        return new GroupPlan
        {
            Group = group,
            Plan = plan,
            SlowestFactor = factor,
            Regroups = plan.Verdict.Kind == PlanVerdictKind.Refused ? [] : Regroups(plan, group, factor),
            LeadersNeeded = needed,
            Spares = Spares(ride, group, km, findings),
            Findings = findings,
        };
    }

    /// <summary>Leaders that a ratio asks for.</summary>
    internal static int LeadersFor(int riders, int perLeader, int least) => Math.Max(least, (riders + perLeader - 1) / perLeader);

    private static List<RegroupOutlook> Regroups(RidePlan plan, RidingGroup group, double factor)
    {
        // From stop to stop the first one is as much faster than the middle as the last one is slower.
        double first = Math.Max(0.1, (2 - factor) / factor);
        var all = new List<RegroupOutlook>();
        DateTimeOffset left = plan.Start;
        foreach (Length at in group.RegroupAt)
        {
            PlanStation s = plan.Stations.Skip(1).MinBy(x => Math.Abs(x.AlongRoute.Meters - at.Meters))!;
            if (all.Count > 0 && all[^1].AlongRoute.Meters >= s.AlongRoute.Meters)
            {
                continue;
            }

            TimeSpan leg = s.Arrival.Typical - left;
            TimeSpan wait = leg * (1 - first);
            all.Add(new RegroupOutlook(s.Name, s.AlongRoute, plan.Zone.ToLocal(s.Arrival.Typical - wait), s.Arrival, wait));
            left = s.Arrival.Typical + group.RegroupStop;
        }

        return all;
    }

    private static List<GroupSpare> Spares(RideRequest ride, RidingGroup group, double km, List<Finding> findings)
    {
        int bikes = group.Bikes ?? group.Riders + group.Leaders;
        var rates = new SortedDictionary<FailureKind, (FailureRate Rate, bool FromLog)>();
        foreach ((FailureKind kind, FailureRate rate) in ride.FailureRates)
        {
            if (kind != FailureKind.Body)
            {
                rates[kind] = (rate, true);
            }
        }

        if (rates.Count == 0)
        {
            rates[FailureKind.TubePuncture] = (FailureRate.WidePrior, false);
            findings.Add(new Finding(PlanningFindingCodes.SparesPrior, FindingSeverity.Caution, "FailureRates", "No log of breakdowns: spares against punctures stand on a wide prior. Count your own."));
        }

        var all = new List<GroupSpare>();
        var ridden = Length.FromKilometers(km * bikes);
        foreach ((FailureKind kind, (FailureRate rate, bool fromLog)) in rates)
        {
            int carry = 0;
            while (carry < 10_000 && rate.AtMostProbability(carry, ridden) < group.SparesLevel)
            {
                carry++;
            }

            all.Add(new GroupSpare(kind, rate.MeanOn(km * bikes), carry, rate.AtMostProbability(carry, ridden), fromLog));
        }

        return all;
    }
}
