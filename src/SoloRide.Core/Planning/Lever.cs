using SoloRide.Batteries;
using SoloRide.Internal;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A change to a request that a rider can make.</summary>
/// <remarks>Immutable.</remarks>
public sealed record Lever
{
    // A way out nearer to the start is no shorter variant of the ride, one nearer to the end saves nothing.
    private const double EarliestEndFraction = 0.3, LatestEndFraction = 0.95;

    /// <summary>Makes a lever.</summary>
    /// <param name="name">The change, in words, such as "start 30 min earlier".</param>
    /// <param name="change">The changed request; null when it cannot be made. Must be pure.</param>
    /// <exception cref="ArgumentException">The name is empty.</exception>
    public Lever(string name, Func<RideRequest, RideRequest?> change)
    {
        Name = Guard.NotEmpty(name);
        Change = Guard.NotNull(change);
    }

    /// <summary>The change, in words.</summary>
    public string Name { get; }

    /// <summary>The changed request; null when it cannot be made.</summary>
    public Func<RideRequest, RideRequest?> Change { get; }

    /// <summary>The usual changes: earlier or later start, more water, the loop the other way, a power bank, fewer stops, the same ride a day later, and each way out as an earlier end.</summary>
    /// <param name="request">The request.</param>
    /// <returns>The levers that can be applied to it.</returns>
    public static IReadOnlyList<Lever> Usual(RideRequest request)
    {
        Guard.NotNull(request);
        var levers = new List<Lever>
        {
            new("start 30 min earlier", r => Moved(r, TimeSpan.FromMinutes(-30))),
            new("start 60 min earlier", r => Moved(r, TimeSpan.FromMinutes(-60))),
            new("start 60 min later", r => Moved(r, TimeSpan.FromMinutes(60))),
            new("carry bottles for 1 L more", r => r.Load.WaterCapacity.Liters + 1 <= 30 ? r with { Load = r.Load with { WaterCapacity = Volume.FromLiters(r.Load.WaterCapacity.Liters + 1) } } : null),
            new("carry bottles for 2 L more", r => r.Load.WaterCapacity.Liters + 2 <= 30 ? r with { Load = r.Load with { WaterCapacity = Volume.FromLiters(r.Load.WaterCapacity.Liters + 2) } } : null),
            new("halve the stops", r => r.Pace.Calibration is null && r.Pace.Stops.MinutesPerHour > 0 ? r with { Pace = r.Pace with { Stops = r.Pace.Stops with { MinutesPerHour = r.Pace.Stops.MinutesPerHour / 2 } } } : null),
            new("ride a day later", r => Moved(r, TimeSpan.FromDays(1))),
        };
        if (request.Route.IsLoop)
        {
            levers.Add(new Lever("ride the loop the other way", Reversed));
        }

        if (request.Devices.Count > 0 && request.Bank is null)
        {
            levers.Add(new Lever("take a power bank of 5 000 mAh", r => r with { Bank = new PowerBank(5000) }));
        }

        double total = request.Route.Length.Meters;
        foreach (ExitPoint e in request.Exits)
        {
            if (AlongM(request.Route, e.AlongRoute, e.Place) is { } m && m > EarliestEndFraction * total && m < LatestEndFraction * total)
            {
                // Looked up in the request as it then stands: another change may have turned or cut the route.
                levers.Add(new Lever($"end at {e.Name}", r => r.Exits.FirstOrDefault(x => x.Name == e.Name) is { } exit && AlongM(r.Route, exit.AlongRoute, exit.Place) is { } at && at < LatestEndFraction * r.Route.Length.Meters ? EndAt(r, Length.FromMeters(at)) : null));
            }
        }

        return levers;
    }

    /// <summary>Distance along the route of a thing given by distance or by a place beside the route; null when it lies off it.</summary>
    private static double? AlongM(RideRoute route, Length? along, GeoPoint? place)
    {
        if (along is { } a)
        {
            return a.Meters;
        }

        return place is { } p && route.Nearest(p) is { } pass && pass.Offset.Meters <= RideCourse.OffRouteM ? pass.DistanceAlong.Meters : null;
    }

    private static RideRequest? Moved(RideRequest r, TimeSpan by)
        => r.PreparedAt is { } now && r.Start + by < now ? null : RidePlanner.StartingAt(r, r.Start + by);

    private static RideRequest? Reversed(RideRequest r)
    {
        double total = r.Route.Length.Meters;
        return r with
        {
            Route = r.Route.Reversed(),
            Sources = [.. r.Sources.Select(s => s.AlongRoute is { } a ? s with { AlongRoute = Length.FromMeters(Math.Max(0, total - a.Meters)) } : s)],
            Exits = [.. r.Exits.Select(e => e.AlongRoute is { } a ? e with { AlongRoute = Length.FromMeters(Math.Max(0, total - a.Meters)) } : e)],
            Deadlines = [.. r.Deadlines.Select(d => new Deadline(d.Kind, d.Name, Length.FromMeters(Math.Max(0, total - d.To.Meters)), Length.FromMeters(Math.Max(0, total - d.From.Meters)), d.Closes, d.Opens))],
        };
    }

    private static RideRequest? EndAt(RideRequest r, Length end)
    {
        RideRoute part = r.Route.Part(Length.Zero, end);
        return r with
        {
            Route = part,
            Sources = [.. r.Sources.Where(s => AlongM(r.Route, s.AlongRoute, s.Place) is not { } m || m <= end.Meters)],
            Exits = [.. r.Exits.Where(e => AlongM(r.Route, e.AlongRoute, e.Place) is not { } m || m <= end.Meters)],
            Deadlines = [.. r.Deadlines.Where(d => d.From < end).Select(d => d.To <= end ? d : new Deadline(d.Kind, d.Name, d.From, end, d.Closes, d.Opens))],
        };
    }
}
