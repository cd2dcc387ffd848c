using SoloRide.Batteries;
using SoloRide.Contact;
using SoloRide.Escape;
using SoloRide.Exposure;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Plateau with no Signal Sky: nobody hears a message, and standing still is cold.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S09(string folder) : Scenario("S09", folder)
{
    /// <inheritdoc/>
    public override string MustShow => "insulation needed for the wait against the time help takes; interval of messages from the wait that can be borne";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("clothing for the wait", "2.0 clo and a closed bivouac bag"), ("response", "class R3, 24 h"), ("grace", "60 min"), ("reaction of the contact", "30 min"),
        ("beacon", "24 h at the least, registered"), ("messages", "no open sky for a messenger on the plateau: none is carried"), ("heat made lying still", "58.2 W/m2"), ("air", "5 C"),
    ];

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Rider = new Rider { Mass = Mass.FromKilograms(84), SustainedPower = Power.FromWatts(170) },
        Load = new Load { OnBody = Mass.FromKilograms(5), WaterCapacity = Volume.FromLiters(3) },
        Sources = [Stream("First stream", 12), Stream("Second stream", 30), Stream("Third stream", 50)],
        Devices = [Gear.HeadLamp(), Gear.Phone],
        Beacon = new DistressBeacon { BatteryExpires = new DateOnly(2028, 1, 1), Registered = Known.Yes },
        WaitingOutfit = Gear.WinterWait,
        WaitingShelter = Shelter.ClosedBag,
        KitItems = Gear.Usual,
    };

    /// <summary>Insulation that a wait in still air takes.</summary>
    public static double NeededClo => WaitingPlanner.InsulationClo(58.2, Temperature.FromDegreesCelsius(5));

    /// <summary>The wait with the beacon's guaranteed life alone, and with what the clothing allows as well.</summary>
    /// <param name="tolerated">What cold allows; null when it does not limit.</param>
    /// <returns>The plan of the wait.</returns>
    public static WaitingPlan Wait(TimeSpan? tolerated) => WaitingPlanner.Plan(
        new WaitingSituation { ColdLimit = tolerated, BeaconLife = TimeSpan.FromHours(24), Air = Temperature.FromDegreesCelsius(5) },
        ResponseClass.R3, interval: null, grace: TimeSpan.FromMinutes(60), reaction: TimeSpan.Zero);

    /// <summary>Longest interval between messages that a wait of this length allows, were there a messenger: tolerated wait less grace, reaction and response.</summary>
    /// <param name="tolerated">How long the wait can be borne.</param>
    /// <returns>The interval; null when nothing is left.</returns>
    public TimeSpan? Interval(TimeSpan tolerated) => CheckInPlanner.Plan(new CheckInRequest
    {
        Points = [new DecisionPoint(CheckInKind.Start, "South Track", Start), new DecisionPoint(CheckInKind.Finish, "North Hut", Plan.Finish!.Typical, Plan.Finish.High)],
        LateFinish = Plan.LateFinish!.Value,
        ToleratedWait = tolerated,
        Response = TimeSpan.FromHours(24),
        Grace = TimeSpan.FromMinutes(60),
        ContactReaction = TimeSpan.FromMinutes(30),
        Means = [new CommunicationMeans(MeansKind.SatelliteMessenger)],
    }).LongestInterval;

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        yield return $"lying still at 5 C takes {F(NeededClo, 2)} clo of clothing and air together before any wind; worn in the bag: {F(Gear.WinterWait.InsulationClo, 1)} clo of clothing";
        TimeSpan borne = Plan.CannotMove!.TolerableWait ?? TimeSpan.Zero;
        TimeSpan? i = Interval(borne);
        yield return $"the wait can be borne {Span(borne)} ({Plan.CannotMove.LimitedBy}); less 1 h 00 grace, 30 min reaction and 24 h 00 response: {(i is { } x ? $"a message every {Span(x)}" : "no interval is short enough; carry more insulation or do not go alone")}";
        yield return Wait(null).Findings.First(f => f.Message.Contains("no reserve", StringComparison.Ordinal)).Message;
    }

    private static WaterSource Stream(string name, double km) => new() { Name = name, AlongRoute = Length.FromKilometers(km), WetProbability = 0.97 };
}
