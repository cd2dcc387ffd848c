using SoloRide.Batteries;
using SoloRide.Escape;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>River Gate: the fords rise behind the rider.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S08(string folder) : Scenario("S08", folder)
{
    /// <inheritdoc/>
    public override string MustShow => "limit of depth times speed; latest time to cross back; a camp that needs no crossing";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("first ford", "0.35 m deep, 0.50 m/s at 07:00; rising 0.02 m and 0.03 m/s in an hour"), ("second ford", "0.40 m deep, 0.60 m/s at 07:00; rising 0.03 m and 0.05 m/s in an hour"),
        ("limit", "0.4 m2/s"), ("camp", "Head Flat at km 22, beyond both fords, allowed"), ("rider", "77 kg, 130 W"),
    ];

    /// <summary>The fords.</summary>
    public IReadOnlyList<FordAhead> Fords =>
    [
        new FordAhead { Name = "First Ford", AlongRoute = Length.FromKilometers(9), Return = Length.FromKilometers(35), At = Day(7), Depth = Length.FromMeters(0.35), WaterSpeed = Speed.FromMetersPerSecond(0.5), DepthRisePerHour = Length.FromMeters(0.02), SpeedRisePerHour = Speed.FromMetersPerSecond(0.03) },
        new FordAhead { Name = "Second Ford", AlongRoute = Length.FromKilometers(17), Return = Length.FromKilometers(27), At = Day(7), Depth = Length.FromMeters(0.40), WaterSpeed = Speed.FromMetersPerSecond(0.6), DepthRisePerHour = Length.FromMeters(0.03), SpeedRisePerHour = Speed.FromMetersPerSecond(0.05) },
    ];

    /// <summary>Where to stay.</summary>
    public static IReadOnlyList<Camp> Camps { get; } = [new Camp { Name = "Gorge Road", AlongRoute = Length.FromKilometers(2), Allowed = Known.Yes, Water = Known.Yes }, new Camp { Name = "Head Flat", AlongRoute = Length.FromKilometers(22), Allowed = Known.Yes, Water = Known.Yes }];

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Rider = new Rider { Mass = Mass.FromKilograms(77), SustainedPower = Power.FromWatts(130) },
        Load = new Load { OnBody = Mass.FromKilograms(6), WaterCapacity = Volume.FromLiters(4) },
        Sources = [new WaterSource { Name = "Tamsel River", AlongRoute = Length.FromKilometers(17), WetProbability = 1, NeedsTreatment = true }],
        Beacon = new DistressBeacon { BatteryExpires = new DateOnly(2028, 1, 1), Registered = Known.Yes },
        Devices = [Gear.HeadLamp(), Gear.Phone],
        KitItems = Gear.Usual,
        WaitingOutfit = Gear.WinterWait,
        WaitingShelter = Exposure.Shelter.ClosedBag,
        Deadlines = [.. Fords.SelectMany(f => f.ToDeadlines())],
    };

    /// <summary>The fords against the ride.</summary>
    public FordPlan Crossing => FordPlanner.Plan(Request with { Deadlines = [] }, Fords, Camps);

    /// <summary>The same with a start of one's choice.</summary>
    /// <param name="start">Start.</param>
    /// <returns>The plan.</returns>
    public FordPlan CrossingFrom(DateTimeOffset start) => FordPlanner.Plan(Request with { Start = start, PreparedAt = start.AddHours(-8), Deadlines = [] }, Fords, Camps);

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        FordPlan p = Crossing;
        foreach (FordOutlook f in p.Fords)
        {
            yield return $"{f.Ford.Name}: {F(f.Out.DepthTimesSpeedM2PerS, 2)} m2/s at 07:00 ({f.Out.Words}); over the limit from {(f.LatestCrossing is { } t ? Clock(t) : "never")}; back there {(f.Back is { } b ? $"{Clock(b.Low)}-{Clock(b.High)}" : "-")}: {(f.InTime ? "in time" : "too late")}";
        }

        yield return p.Advice;
    }

    private DateTimeOffset Day(double hour) => new(Ride.Start.Date.AddHours(hour), Start.Offset);
}
