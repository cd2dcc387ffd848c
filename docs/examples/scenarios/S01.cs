using SoloRide.Escape;
using SoloRide.Exposure;
using SoloRide.Hydration;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Dry Creek Loop: one creek that may be dry, and a heat window.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S01(string folder) : Scenario("S01", folder)
{
    private const double DrinkLph = 0.55, ReserveL = 0.3;

    /// <inheritdoc/>
    public override string MustShow => "carried water covers the branch with a dry creek as far as the road; from where on it no longer lasts back; the heat window closes at 11:00";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("drinking", "0.55 L/h, whatever the heat"), ("reserve", "0.3 L"), ("bottles", "3 L and 0.5 L"), ("creek", "wet in 55 of 100; whether it is dry is known only at km 31"),
        ("heat category by the hour", "1 from 08:00, 2 from 09:30, 3 from 11:00, 4 from 13:00"), ("filter", "0.7 L/min"),
    ];

    /// <summary>Heat categories as a public service would state them.</summary>
    public HeatWindow Heat => HeatWindow.Of(
    [
        new(Day(0), HeatCategory.None), new(Day(8), HeatCategory.One), new(Day(9.5), HeatCategory.Two), new(Day(11), HeatCategory.Three), new(Day(13), HeatCategory.Four),
    ]);

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        // Measured sweat of this rider, so that planned intake, 0.8 of it, is the fixed drinking rate.
        Rider = new Rider { Mass = Mass.FromKilograms(82), SustainedPower = Power.FromWatts(165), SweatRate = VolumeFlow.FromLitersPerHour(DrinkLph / 0.8) },
        Load = new Load { OnBody = Mass.FromKilograms(3.5), WaterCapacity = Volume.FromLiters(3.5) },
        Sources = [new WaterSource { Name = "Dry Creek", AlongRoute = Length.FromKilometers(31), WetProbability = 0.55, LastReport = new DateOnly(2025, 6, 5), NeedsTreatment = true }],
        Treatment = new WaterTreatment(WaterTreatmentMethod.Filter) { FilterFlow = VolumeFlow.FromLitersPerMinute(0.7), SetUp = TimeSpan.FromMinutes(3) },
        Devices = [Gear.Messenger, Gear.Phone, Gear.HeadLamp()],
        KitItems = Gear.Usual,
        WaitingOutfit = Gear.SummerWait,
        WaitingShelter = Shelter.ClosedBag,
        Deadlines = [Heat.ToDeadline(Start, Length.Zero, Length.FromKilometers(44))],
    };

    /// <summary>Water for the way to the road at km 44 with the creek dry: the fixed rate over the time that 9 rides in 10 keep, and the reserve.</summary>
    public Volume NeedToRoad => Volume.FromLiters((DrinkLph * RidePlanner.TimeBetween(Request, Length.Zero, Length.FromKilometers(44)).High.TotalHours) + ReserveL);

    /// <summary>Farthest point from where an amount of water still lasts back to the start, the creek dry.</summary>
    /// <param name="carried">Water at the start.</param>
    /// <returns>Distance; null when it lasts from everywhere.</returns>
    public Length? NoReturn(Volume carried)
    {
        RidePlan there = RidePlanner.Plan(Request with { Options = Request.Options with { Samples = 0 } });
        RidePlan back = RidePlanner.Plan(Request with { Route = Route.Reversed(), Sources = [], Deadlines = [], Options = Request.Options with { Samples = 0 } });
        double total = Route.Length.Meters;
        var legs = new List<ReturnLeg>();
        foreach ((PlanStation a, PlanStation b) in there.Stations.Zip(there.Stations.Skip(1)))
        {
            legs.Add(new ReturnLeg(b.AlongRoute - a.AlongRoute, b.Arrival.Typical - a.Arrival.Typical, TimeOn(back, total - a.AlongRoute.Meters) - TimeOn(back, total - b.AlongRoute.Meters)));
        }

        var account = new ResourceAccount(ResourceAmount.Water(carried), ResourceAmount.Water(Volume.FromLiters(ReserveL)));
        return PointOfNoReturnPlanner.Find(legs, [account], [new ResourceRate(ResourceKind.Water, TravelMode.Ride, DrinkLph)]).Points[0].AllDry;
    }

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        yield return $"to the road at km 44 with the creek dry: {F(NeedToRoad.Liters, 1)} L with the reserve; bottles hold 3.5 L: {(NeedToRoad.Liters <= 3.5 ? "covered" : "not covered")}";
        foreach (double litres in new[] { 3.5, 3.0, 2.5, 2.0 })
        {
            yield return NoReturn(Volume.FromLiters(litres)) is { } at
                ? $"with {F(litres, 1)} L: past km {F(at.Kilometers, 1)} it no longer lasts back to the start if the creek is dry{(at.Kilometers < 31 ? ", which you learn only at km 31" : "")}"
                : $"with {F(litres, 1)} L: it lasts back from everywhere";
        }

        yield return $"below heat category 3 until {Clock(Heat.EndFrom(Start))}; at the road by then in {F(100 * (1 - Plan.Margins.First(m => m.Kind == MarginKind.Heat).ShortfallProbability), 0)} rides of 100";
    }

    private static TimeSpan TimeOn(RidePlan plan, double m)
    {
        for (int i = 1; i < plan.Stations.Count; i++)
        {
            PlanStation a = plan.Stations[i - 1], b = plan.Stations[i];
            if (m <= b.AlongRoute.Meters + 1)
            {
                double f = (m - a.AlongRoute.Meters) / (b.AlongRoute.Meters - a.AlongRoute.Meters);
                return a.Arrival.Typical - plan.Start + (Math.Clamp(f, 0, 1) * (b.Arrival.Typical - a.Arrival.Typical));
            }
        }

        return plan.Finish!.Typical - plan.Start;
    }

    private DateTimeOffset Day(double hour) => new(Ride.Start.Date.AddHours(hour), Start.Offset);
}
