using SoloRide.Batteries;
using SoloRide.Daylight;
using SoloRide.Effort;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Internal;
using SoloRide.Kit;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>Everything a plan is made from. Route and start are needed; whatever else is missing gives wider ranges, or a part left out, and a finding.</summary>
/// <remarks>Immutable. Nothing in it is stored or sent anywhere.</remarks>
public sealed partial record RideRequest
{
    /// <summary>The route, in the direction of travel.</summary>
    public required RideRoute Route { get; init => field = Guard.NotNull(value, nameof(Route)); }

    /// <summary>The start, with the offset of the place's clock.</summary>
    public required DateTimeOffset Start { get; init; }

    /// <summary>Title of the plan; the route's name when empty.</summary>
    public string Title { get; init => field = Guard.NotNull(value, nameof(Title)); } = "";

    /// <summary>The instant at which the plan is made: the only "now". Null: nothing is called past, and a finding says so.</summary>
    public DateTimeOffset? PreparedAt { get; init; }

    /// <summary>The clock of the place; null: the start's offset holds for the whole ride, with a finding.</summary>
    public ZoneOffsets? Zone { get; init; }

    /// <summary>The rider.</summary>
    public Rider Rider { get; init => field = Guard.NotNull(value, nameof(Rider)); } = new();

    /// <summary>The bike.</summary>
    public Bike Bike { get; init => field = Guard.NotNull(value, nameof(Bike)); } = new();

    /// <summary>What is carried besides water and food.</summary>
    public Load Load { get; init => field = Guard.NotNull(value, nameof(Load)); } = new();

    /// <summary>Habits and priors of pace, and what was learned from own rides.</summary>
    public PaceOptions Pace { get; init => field = Guard.NotNull(value, nameof(Pace)); } = new();

    /// <summary>What today's legs have shown so far; null before the ride.</summary>
    public PaceUpdate? Today { get; init; }

    /// <summary>Weather; null: named defaults stand in, with a finding.</summary>
    public Forecast? Weather { get; init; }

    /// <summary>Sources of water.</summary>
    public IReadOnlyList<WaterSource> Sources { get; init => field = [.. Guard.NotNull(value, nameof(Sources))]; } = [];

    /// <summary>Water in hand at the start when it is a fact and not to be planned, as on the trail; null: the plan says how much.</summary>
    public Volume? StartWater { get; init => field = value is { } v ? Volume.FromLiters(Guard.InRange(v.Liters, 0, 60, "L", nameof(StartWater))) : null; }

    /// <summary>How water is treated; null: no time is counted for it.</summary>
    public WaterTreatment? Treatment { get; init; }

    /// <summary>What weighed rides have shown about the rider's sweat; null: the models alone.</summary>
    public SweatCalibration? Sweat { get; init; }

    /// <summary>Ways out; the two ends of the route always count as such unless <see cref="EndsAreExits"/> says no.</summary>
    public IReadOnlyList<ExitPoint> Exits { get; init => field = [.. Guard.NotNull(value, nameof(Exits))]; } = [];

    /// <summary>Whether start and finish are ways out (a vehicle, a road, a house); true unless stated.</summary>
    public bool EndsAreExits { get; init; } = true;

    /// <summary>Lamps, messenger, phone and other devices.</summary>
    public IReadOnlyList<Device> Devices { get; init => field = [.. Guard.NotNull(value, nameof(Devices))]; } = [];

    /// <summary>The power bank.</summary>
    public PowerBank? Bank { get; init; }

    /// <summary>The distress beacon.</summary>
    public DistressBeacon? Beacon { get; init; }

    /// <summary>Ways of reaching others and the devices each needs.</summary>
    public IReadOnlyList<MessageWay> Ways { get; init => field = [.. Guard.NotNull(value, nameof(Ways))]; } = [];

    /// <summary>Kit at hand to choose from.</summary>
    public IReadOnlyList<KitItem> KitItems { get; init => field = [.. Guard.NotNull(value, nameof(KitItems))]; } = [];

    /// <summary>Room and mass that there is for kit.</summary>
    public KitCaps KitCaps { get; init => field = Guard.NotNull(value, nameof(KitCaps)); } = new();

    /// <summary>Rates of failure from the rider's own log; kinds that are missing take a wide prior in the choice of kit, and none is sampled.</summary>
    public IReadOnlyDictionary<FailureKind, FailureRate> FailureRates { get; init => field = Guard.NotNull(value, nameof(FailureRates)); } = new Dictionary<FailureKind, FailureRate>();

    /// <summary>Clothing worn and carried that can be put on for a wait; null: the wait's cold limit is not computed.</summary>
    public Outfit? WaitingOutfit { get; init; }

    /// <summary>Shelter for a wait.</summary>
    public Shelter WaitingShelter { get; init => field = Guard.Defined(value, nameof(WaitingShelter)); }

    /// <summary>Clocks given by the caller: gates, fords, storms, a promised time.</summary>
    public IReadOnlyList<Deadline> Deadlines { get; init => field = [.. Guard.NotNull(value, nameof(Deadlines))]; } = [];

    /// <summary>
    /// Skylines at places of the route, measured or read from terrain before: each holds within 2 km of its place, the nearest one counts, and one
    /// without a place holds everywhere. They decide direct sun on the rider, not twilight; they come before a terrain.
    /// </summary>
    public IReadOnlyList<HorizonProfile> Skylines { get; init => field = [.. Guard.NotNull(value, nameof(Skylines))]; } = [];

    /// <summary>Whether open fire is allowed by local rules.</summary>
    public Known FireAllowed { get; init; }

    /// <summary>What was checked of access, permits, closures, fire bans and season, each with its date; what is missing is printed as not checked.</summary>
    public IReadOnlyDictionary<string, DateOnly> Checked { get; init => field = Guard.NotNull(value, nameof(Checked)); } = new Dictionary<string, DateOnly>();

    /// <summary>How the plan is computed.</summary>
    public PlanOptions Options { get; init => field = Guard.NotNull(value, nameof(Options)); } = PlanOptions.Default;

    /// <summary>
    /// A request with the named places of the route file as sources and ways out: those whose type begins with <c>water</c> or <c>exit</c>
    /// (<c>exit: road</c>, <c>exit: house</c>, <c>exit: hut</c>, <c>exit: trailhead</c>, <c>exit: settlement</c>).
    /// </summary>
    /// <param name="route">The route.</param>
    /// <param name="start">The start.</param>
    /// <returns>The request; sources have an unknown chance of water and are planned as dry until one is given. Places without a name, or of one name, are numbered in the order of the file.</returns>
    public static RideRequest For(RideRoute route, DateTimeOffset start)
    {
        Guard.NotNull(route);
        var sources = new List<WaterSource>();
        var exits = new List<ExitPoint>();
        string[] names = Numbered([.. route.Waypoints.Select(w => (w.Name.Length > 0 ? w.Name : w.Type, Kind(w.Type)))]);
        for (int i = 0; i < route.Waypoints.Count; i++)
        {
            RouteWaypoint w = route.Waypoints[i];
            string[] type = w.Type.Split(':', 2, StringSplitOptions.TrimEntries);
            string name = names[i];
            if (type[0].Equals("water", StringComparison.OrdinalIgnoreCase))
            {
                sources.Add(new WaterSource { Name = name, Place = w.Place });
            }
            else if (type[0].Equals("exit", StringComparison.OrdinalIgnoreCase))
            {
                ExitKind kind = type.Length > 1 && Enum.TryParse(type[1], true, out ExitKind k) && Enum.IsDefined(k) ? k : ExitKind.Road;
                exits.Add(new ExitPoint { Name = name, Place = w.Place, Kind = kind });
            }
        }

        return new RideRequest { Route = route, Start = start, Sources = sources, Exits = exits };

        static string Kind(string type) => type.Split(':', 2, StringSplitOptions.TrimEntries)[0].ToLowerInvariant();
    }

    /// <summary>Names of which those that occur twice for one kind of place are numbered; a number that is a name already is left out.</summary>
    private static string[] Numbered((string Name, string Kind)[] places)
    {
        var named = new string[places.Length];
        var taken = new HashSet<string>(places.Select(p => p.Name), StringComparer.Ordinal);
        var next = new Dictionary<(string, string), int>();
        for (int i = 0; i < places.Length; i++)
        {
            (string Name, string Kind) p = places[i];
            if (p.Kind is not ("water" or "exit") || places.Count(x => x == p) == 1)
            {
                named[i] = p.Name;
                continue;
            }

            int n = next.GetValueOrDefault(p);
            string name;
            do
            {
                name = $"{p.Name} {Text.F(++n, 0)}";
            }
            while (!taken.Add(name));
            next[p] = n;
            named[i] = name;
        }

        return named;
    }
}
