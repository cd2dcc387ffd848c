using SoloRide.Escape;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Cross, wait or turn: fords against depth times speed while the river rises.</summary>
/// <remarks>Limits are those of <see cref="FordLimit"/>. Thread-safe; a pure function of its arguments.</remarks>
[Entry(NoOutsideCheck = "limits are checked in escape; here times of passing are held against them")]
public static class FordPlanner
{
    /// <summary>Latest crossings, and camps on the side where the rider then stands.</summary>
    /// <param name="request">The ride.</param>
    /// <param name="fords">Fords on the route, at least one.</param>
    /// <param name="camps">Places to stay.</param>
    /// <param name="terrain">As in <see cref="RidePlanner.Plan"/>.</param>
    /// <param name="cancel">Stops the work.</param>
    /// <returns>The plan of the fords.</returns>
    /// <exception cref="ArgumentException">No ford, a ford beyond the route, or one that is crossed back before it is crossed.</exception>
    /// <exception cref="OperationCanceledException">Cancelled.</exception>
    public static FordPlan Plan(RideRequest request, IReadOnlyList<FordAhead> fords, IReadOnlyList<Camp>? camps = null, ITerrainHeights? terrain = null, CancellationToken cancel = default)
    {
        Guard.NotNull(request);
        if (Guard.NotNull(fords).Count == 0)
        {
            throw new ArgumentException("At least one ford is needed.", nameof(fords));
        }

        double total = request.Route.Length.Meters;
        foreach (FordAhead f in fords)
        {
            if (Math.Max(f.AlongRoute.Meters, f.Return?.Meters ?? 0) > total || f.Return <= f.AlongRoute)
            {
                throw new ArgumentException($"The ford '{f.Name}' at km {Text.F(f.AlongRoute.Kilometers, 1)}{(f.Return is { } r ? $" and km {Text.F(r.Kilometers, 1)} on the way back" : "")} must lie within {Text.F(total / 1000, 1)} km, the way back after the way out.", nameof(fords));
            }
        }

        ZoneOffsets zone = RidePlanner.ClockOf(request);
        RidePlan plan = RidePlanner.Plan(request with { Deadlines = [.. request.Deadlines, .. fords.SelectMany(f => f.ToDeadlines())] }, terrain, cancel);
        FordOutlook[] looks = [.. fords.OrderBy(f => f.AlongRoute.Meters).Select(f =>
        {
            DateTimeOffset? latest = f.LatestCrossing, doubtful = f.DoubtfulFrom;
            Estimate<DateTimeOffset>? back = f.Return is { } r ? ArrivalAt(plan, r) : null;
            DateTimeOffset last = (back ?? ArrivalAt(plan, f.AlongRoute)).High;
            return new FordOutlook(f, FordLimit.Judge(f.Depth, f.WaterSpeed), Local(latest), Local(doubtful), back, latest is null || last < latest);
        })];
        FordOutlook[] shut = [.. looks.Where(l => !l.InTime)];
        bool outward = shut.Any(l => ArrivalAt(plan, l.Ford.AlongRoute).High >= l.LatestCrossing);

        // Beyond the last ford crossed on the way out and before the first one that is shut on the way back, or before the first ford at all.
        double lastOut = looks.Max(l => l.Ford.AlongRoute.Meters), firstOut = looks[0].Ford.AlongRoute.Meters;
        double firstShut = shut.Select(l => l.Ford.Return?.Meters ?? double.PositiveInfinity).DefaultIfEmpty(double.PositiveInfinity).Min();
        Camp[] offered = shut.Length == 0 ? [] : [.. (camps ?? []).Where(c => c.Allowed != Known.No && (outward ? c.AlongRoute.Meters < firstOut : c.AlongRoute.Meters > lastOut && c.AlongRoute.Meters < firstShut)).OrderBy(c => c.AlongRoute.Meters)];
        return new FordPlan { Fords = looks, InTime = shut.Length == 0, Camps = offered, Advice = Advice(shut, outward, offered, zone, plan), Plan = plan };

        DateTimeOffset? Local(DateTimeOffset? t) => t is { } v ? zone.ToLocal(v) : null;
    }

    private static Estimate<DateTimeOffset> ArrivalAt(RidePlan plan, Length at) => plan.Stations.MinBy(s => Math.Abs(s.AlongRoute.Meters - at.Meters))!.Arrival;

    private static string Advice(FordOutlook[] shut, bool outward, Camp[] camps, ZoneOffsets zone, RidePlan plan)
    {
        if (shut.Length == 0)
        {
            return "Every ford is crossed in time in 9 rides of 10. Look at the water each time: when in doubt do not cross.";
        }

        if (outward)
        {
            return $"Do not cross {shut[0].Ford.Name}: 9 rides in 10 reach it too late or it is past the limit already. Turn there, or camp before it{Names(camps)}.";
        }

        FordOutlook first = shut.MinBy(l => l.Ford.Return?.Meters ?? 0)!;
        DateTimeOffset by = zone.ToLocal(first.LatestCrossing!.Value);
        string when = first.Back is { } b ? $" 9 rides in 10 are back there by {PlanText.ClockOn(zone.ToLocal(b.High), plan.Start)}." : "";
        return $"{first.Ford.Name} must be crossed back before {PlanText.ClockOn(by, plan.Start)}.{when} Start earlier or turn sooner; if it is too late, do not cross: stay where no crossing is needed{Names(camps)} and wait until it has fallen.";
    }

    private static string Names(Camp[] camps)
        => camps.Length == 0 ? " (no camp is named)" : ", at " + string.Join(" or ", camps.Select(c => $"{c.Name} (km {Text.F(c.AlongRoute.Kilometers, 1)})"));
}
