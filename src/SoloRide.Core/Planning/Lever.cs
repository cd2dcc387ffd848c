using SoloRide.Batteries;
using SoloRide.Internal;
using SoloRide.Kit;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>A change to a request that a rider can make.</summary>
/// <remarks>Immutable.</remarks>
public sealed record Lever
{
    // A way out nearer to the start is no shorter variant of the ride, one nearer to the end saves nothing.
    private const double EarliestEndFraction = 0.3, LatestEndFraction = 0.95;

    private const string Clock = "start";

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

    /// <summary>Sort of change: two of one sort make no pair. Empty: a sort of its own.</summary>
    internal string Sort { get; init; } = "";

    /// <summary>Whether two changes are of one sort.</summary>
    internal bool SameSort(Lever other) => Sort.Length > 0 ? Sort == other.Sort : Name == other.Name;

    /// <summary>The usual changes: earlier or later start, more water, the loop the other way, another lamp, a power bank, one more of each spare, fewer stops, the same ride a day later, and each way out as an earlier end.</summary>
    /// <param name="request">The request.</param>
    /// <returns>The levers that can be applied to it.</returns>
    public static IReadOnlyList<Lever> Usual(RideRequest request)
    {
        Guard.NotNull(request);
        var levers = new List<Lever>
        {
            new("start 30 min earlier", r => Moved(r, TimeSpan.FromMinutes(-30))) { Sort = Clock },
            new("start 60 min earlier", r => Moved(r, TimeSpan.FromMinutes(-60))) { Sort = Clock },
            new("start 60 min later", r => Moved(r, TimeSpan.FromMinutes(60))) { Sort = Clock },
            new("carry bottles for 1 L more", r => r.Load.WaterCapacity.Liters + 1 <= 30 ? r with { Load = r.Load with { WaterCapacity = Volume.FromLiters(r.Load.WaterCapacity.Liters + 1) } } : null) { Sort = "bottles" },
            new("carry bottles for 2 L more", r => r.Load.WaterCapacity.Liters + 2 <= 30 ? r with { Load = r.Load with { WaterCapacity = Volume.FromLiters(r.Load.WaterCapacity.Liters + 2) } } : null) { Sort = "bottles" },
            new("halve the stops", r => r.Pace.Calibration is null && r.Pace.Stops.MinutesPerHour > 0 ? r with { Pace = r.Pace with { Stops = r.Pace.Stops with { MinutesPerHour = r.Pace.Stops.MinutesPerHour / 2 } } } : null),
            new("ride a day later", r => Moved(r, TimeSpan.FromDays(1))) { Sort = Clock },
        };
        if (request.Route.IsLoop)
        {
            levers.Add(new Lever("ride the loop the other way", Reversed));
        }

        if (request.Devices.Count > 0 && request.Bank is null)
        {
            levers.Add(new Lever("take a power bank of 5 000 mAh", r => r with { Bank = new PowerBank(5000) }));
        }

        levers.Add(request.Devices.Where(d => d.Kind is DeviceKind.HeadLamp or DeviceKind.BarLamp).MaxBy(d => d.Pack.RatedEnergy.WattHours) is { } lamp
            ? new Lever($"take another lamp, of twice the charge of {lamp.Name}", r => WithDevice(r, Twice(lamp)))
            : new Lever("take a lamp of 12 Wh", r => WithDevice(r, OwnLamp())));
        foreach (KitItem item in request.KitItems.Where(i => i.Functions.Any(IsSpare) && i.Uses < 100))
        {
            levers.Add(new Lever($"take one more spare: {item.Name}", r => r.KitItems.FirstOrDefault(i => i.Name == item.Name) is { } own ? r with { KitItems = [.. r.KitItems.Where(i => i != own), OneMore(own)] } : null) { Sort = "spare" });
        }

        double total = request.Route.Length.Meters;
        foreach (ExitPoint e in request.Exits)
        {
            if (AlongM(request.Route, e.AlongRoute, e.Place) is { } m && m > EarliestEndFraction * total && m < LatestEndFraction * total)
            {
                // Looked up in the request as it then stands: another change may have turned or cut the route.
                levers.Add(new Lever($"end at {e.Name}", r => r.Exits.FirstOrDefault(x => x.Name == e.Name) is { } exit && AlongM(r.Route, exit.AlongRoute, exit.Place) is { } at && at < LatestEndFraction * r.Route.Length.Meters ? EndAt(r, Length.FromMeters(at)) : null) { Sort = "end" });
            }
        }

        return levers;
    }

    /// <summary>Parts that are used up by a repair; tools are not.</summary>
    private static bool IsSpare(KitFunction f) => f is KitFunction.Plug or KitFunction.Tube or KitFunction.TubePatch or KitFunction.TyreBoot or KitFunction.ValveCore or KitFunction.ChainLink or KitFunction.Hanger
        or KitFunction.ShiftCable or KitFunction.BrakePads or KitFunction.Spoke or KitFunction.CleatBolt;

    private static KitItem OneMore(KitItem item)
    {
        double more = (item.Uses + 1.0) / item.Uses;
        return new KitItem(item.Name, item.Mass * more, item.Volume * more, item.Place, item.Functions)
        {
            Uses = item.Uses + 1,
            WaterCapacity = item.WaterCapacity,
            HasOwnMount = item.HasOwnMount,
            HasFlame = item.HasFlame,
            MustGo = item.MustGo,
            ExpiresOn = item.ExpiresOn,
            MadeFor = item.MadeFor,
        };
    }

    private static RideRequest? WithDevice(RideRequest r, Device device) => r.Devices.Any(d => d.Name == device.Name) ? null : r with { Devices = [.. r.Devices, device] };

    private static Device Twice(Device lamp) => new("another " + lamp.Name, lamp.Kind, new CellPack(lamp.Pack.Chemistry, 2000 * lamp.Pack.RatedCapacity.AmpereHours, lamp.Pack.NominalVoltage.Volts)
    {
        HonestFraction = lamp.Pack.HonestFraction,
        CapacitySpreadFraction = lamp.Pack.CapacitySpreadFraction,
        SelfDischargePerMonthFraction = lamp.Pack.SelfDischargePerMonthFraction,
        ColdTable = lamp.Pack.ColdTable,
    }, lamp.Modes) { Carried = lamp.Carried };

    [Source("assumption-lever-lamp")]
    private static Device OwnLamp() => Device.Lamp("lamp of 12 Wh", DeviceKind.HeadLamp, CellPack.LithiumIon(3200), DeviceMode.Of("low", ModeUse.Lighting, 1.2, 1.5, 1.8), DeviceMode.Of("middle", ModeUse.Lighting, 2.5, 3, 3.5), DeviceMode.Of("high", ModeUse.Lighting, 7, 8, 9));

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
