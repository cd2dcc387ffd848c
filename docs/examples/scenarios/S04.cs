using SoloRide.Effort;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Three-Day Traverse: where to sleep, what the pack weighs.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S04(string folder) : Scenario("S04", folder)
{
    private const double GearKg = 11, FoodKgPerDay = 0.9, BagLimitC = 2;

    private double[]? _seconds;

    /// <inheritdoc/>
    public override string MustShow => "load against climbing; days split so that the hardest is least; food each day; camps colder than the bag is made for";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("gear", "11 kg without food and water"), ("food", "0.9 kg for each day, carried from the start"), ("bag", "down to 2 C"),
        ("camps and their lows", string.Join(", ", Camps.Select(c => $"{c.Name} km {F(c.AlongRoute.Kilometers, 0)}: {F(c.NightLow!.Value.DegreesCelsius, 0)} C"))),
    ];

    /// <summary>Candidate camps.</summary>
    public static IReadOnlyList<Camp> Camps { get; } =
    [
        Site("Larch Meadow", 41, 4), Site("Oller Col", 50, 1), Site("Stone Hut", 58, 3), Site("Long Tarn", 72, 0), Site("Second Tap Flat", 97, 5), Site("Pass Road Field", 110, 2), Site("High Corrie", 118, -1), Site("Mill Wood", 131, 6),
    ];

    /// <summary>Days split so that the hardest is least.</summary>
    public StagePlan Stages => StagePlanner.Split(Route.Length, 3, Camps, Effort);

    /// <summary>Camps colder than the bag is made for.</summary>
    public static IReadOnlyList<Camp> TooCold => [.. Camps.Where(c => c.NightLow is { } low && low.DegreesCelsius < BagLimitC)];

    /// <summary>The first day, from the start to its camp.</summary>
    public override RideRequest Request => OfDay(0);

    /// <summary>Load on the body at the start of a day.</summary>
    /// <param name="day">[0 to 2]</param>
    /// <returns>Mass without water.</returns>
    public static Mass LoadOn(int day) => Mass.FromKilograms(GearKg + (FoodKgPerDay * (3 - day)));

    /// <summary>Moving time between two places at the load of the first morning: the effort that is split.</summary>
    /// <param name="from">From.</param>
    /// <param name="to">To.</param>
    /// <returns>Time.</returns>
    public TimeSpan Effort(Length from, Length to)
    {
        _seconds ??= Prefix();
        return TimeSpan.FromSeconds(At(to.Meters) - At(from.Meters));

        double At(double m) => _seconds[(int)Math.Clamp(Math.Round(m / 25), 0, _seconds.Length - 1)];
    }

    /// <summary>The plan of each day.</summary>
    public IReadOnlyList<RidePlan> Days => [.. Enumerable.Range(0, 3).Select(d => RidePlanner.Plan(OfDay(d)))];

    /// <summary>The traverse as one trip: camps by the effort that each day begins with, food from the effort, the nights against the bag.</summary>
    public TripPlan Trip => TripPlanner.Plan(new TripRequest
    {
        Ride = OfDay(0) with
        {
            Title = Ride.Title,
            Route = Route,
            Load = new Load { OnBody = Mass.FromKilograms(GearKg), WaterCapacity = Volume.FromLiters(5) },
            Sources = [.. Enumerable.Range(1, 12).Select(i => i * 13.0).Where(km => km < Route.Length.Kilometers - 1).Select(km => new WaterSource { Name = $"Stream at km {F(km, 0)}", AlongRoute = Length.FromKilometers(km), WetProbability = 0.95, NeedsTreatment = true })],
            Exits = [.. new[] { ("Oller Road", 52.0), ("Pass Road", 110.0) }.Select(e => new ExitPoint { Name = e.Item1, AlongRoute = Length.FromKilometers(e.Item2) })],
        },
        Days = 3,
        Camps = Camps,
        SleepingLimit = Temperature.FromDegreesCelsius(BagLimitC),
    });

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        StagePlan stages = Stages;
        IReadOnlyList<RidePlan> days = Days;
        for (int d = 0; d < 3; d++)
        {
            Stage s = stages.Stages[d];
            yield return $"day {d + 1}: km {F(s.From.Kilometers, 0)}-{F(s.To.Kilometers, 0)}, {Span(s.Effort)} moving, pack {F(LoadOn(d).Kilograms, 1)} kg and water; up {F(days[d].Ascent!.Typical.Meters, 0)} m; finish {Clock(days[d].Finish!.Low)}-{Clock(days[d].Finish!.High)}; eat {F(days[d].Needs!.Food.Kilocalories, 0)} kcal riding{(s.Camp is { } c ? $"; camp {c.Name}, low {F(c.NightLow!.Value.DegreesCelsius, 0)} C{(TooCold.Contains(c) ? ", colder than the bag is made for" : "")}" : "")}";
        }

        yield return $"hardest day {Span(stages.Largest)} moving; camps below 2 C: {string.Join(", ", TooCold.Select(c => c.Name))}";
        yield return $"charge at the end of day 1: {string.Join(", ", days[0].Devices.Select(x => $"{x.Name} {F(x.AtFinish.Typical.Percent, 0)} %"))}";
    }

    /// <inheritdoc/>
    public override IEnumerable<string> Papers() => [Trip.ToText()];

    private static Camp Site(string name, double km, double lowC) => new() { Name = name, AlongRoute = Length.FromKilometers(km), NightLow = Temperature.FromDegreesCelsius(lowC), Allowed = Known.Yes, Water = Known.Yes };

    private RideRequest OfDay(int day)
    {
        Stage s = Stages.Stages[day];
        DateTimeOffset start = Start.AddDays(day);
        return Basic() with
        {
            Title = $"{Ride.Title}, day {day + 1}",
            Route = Route.Part(s.From, s.To),
            Start = start,
            PreparedAt = Start.AddHours(-12),
            Rider = Rider,
            Load = new Load { OnBody = LoadOn(day), WaterCapacity = Volume.FromLiters(5) },
            Sources = [.. Enumerable.Range(1, 12).Select(i => i * 13.0).Where(km => km > s.From.Kilometers + 1 && km < s.To.Kilometers - 1).Select(km => new WaterSource { Name = $"Stream at km {F(km, 0)}", AlongRoute = Length.FromKilometers(km) - s.From, WetProbability = 0.95, NeedsTreatment = true })],
            Exits = [.. new[] { ("Oller Road", 52.0), ("Pass Road", 110.0) }.Where(e => e.Item2 > s.From.Kilometers + 1 && e.Item2 < s.To.Kilometers - 1).Select(e => new ExitPoint { Name = e.Item1, AlongRoute = Length.FromKilometers(e.Item2) - s.From })],
            EndsAreExits = true,
            Devices = [Gear.HeadLamp(), Gear.Messenger, Gear.Phone],
            KitItems = Gear.Usual,
            WaitingOutfit = Gear.WinterWait,
            WaitingShelter = Exposure.Shelter.ClosedBag,
        };
    }

    private static Rider Rider => new() { Mass = Mass.FromKilograms(79), SustainedPower = Power.FromWatts(165) };

    private double[] Prefix()
    {
        RidePace pace = PaceModel.For(Rider, null, new Load { OnBody = LoadOn(0) }).Along(ElevationProfile.Of(Route).Steps(Length.FromMeters(25)));
        var sum = new double[pace.Steps.Count + 1];
        for (int i = 0; i < pace.Steps.Count; i++)
        {
            sum[i + 1] = sum[i] + pace.Steps[i].TypicalS;
        }

        return sum;
    }
}
