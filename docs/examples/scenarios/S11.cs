using SoloRide.Effort;
using SoloRide.Escape;
using SoloRide.Kit;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Two-Bottle Summit: one climb of 2 100 m, partly on foot.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S11(string folder) : Scenario("S11", folder)
{
    /// <inheritdoc/>
    public override string MustShow => "tyre pressure at the top; share pushed; turning back by energy and by time; slowing with height named as an assumption";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("start", "920 m, one climb to 3 020 m"), ("tyres", "23 psi pumped at 920 m and 6 C; 6 C or 10 C at the top"), ("bottles", "two of 1.5 L; a tap at the start, a snow patch at km 7, water at the hut"),
        ("food", "2 600 kcal eaten on the way"), ("trail", "grade 2 on the climb"),
    ];

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Route = Route.WithSections([new RouteSection(Length.Zero, Route.Length) { Surface = TrailSurface.Rock, Difficulty = TrailDifficulty.Level2 }]),
        Rider = new Rider { Mass = Mass.FromKilograms(66), SustainedPower = Power.FromWatts(185) },
        Load = new Load { WaterCapacity = Volume.FromLiters(3) },
        Sources =
        [
            new WaterSource { Name = "Low snow patch", AlongRoute = Length.FromKilometers(7), WetProbability = 0.97, NeedsTreatment = true },
            new WaterSource { Name = "Hut water", AlongRoute = Length.FromKilometers(14), WetProbability = 0.98 },
            new WaterSource { Name = "Hut water, down", AlongRoute = Length.FromKilometers(24), WetProbability = 0.98 },
        ],
        Exits =
        [
            new ExitPoint { Name = "Saint Halden Hut", AlongRoute = Length.FromKilometers(14), Kind = ExitKind.Hut, Phone = Known.Yes },
            new ExitPoint { Name = "Saint Halden Hut, down", AlongRoute = Length.FromKilometers(24), Kind = ExitKind.Hut, Phone = Known.Yes },
        ],
        Devices = [Gear.Messenger, Gear.Phone],
        KitItems = Gear.Usual,
        WaitingOutfit = Gear.SummerWait,
        WaitingShelter = Exposure.Shelter.ClosedBag,
    };

    /// <summary>The tyres at the top.</summary>
    /// <param name="topC">Air in the tyre there [°C].</param>
    /// <returns>The change.</returns>
    public static TyreChange Tyres(double topC) => TyreCalculator.AfterClimb(
        Pressure.FromPoundsForcePerSquareInch(23), Length.FromMeters(920), Temperature.FromDegreesCelsius(6), Length.FromMeters(3020), Temperature.FromDegreesCelsius(topC));

    /// <summary>The pace on the climb.</summary>
    public RidePace Climb
    {
        get
        {
            RideRoute up = Request.Route.Part(Length.Zero, Request.Route.Length / 2);
            return Model.Along(ElevationProfile.Of(up).Steps(Length.FromMeters(25)));
        }
    }

    /// <summary>The rider's model of pace.</summary>
    public PaceModel Model => PaceModel.For(Request.Rider, Request.Bike, Request.Load, Request.Pace);

    /// <summary>Share of the time on the climb that is not ridden.</summary>
    public double PushShare
    {
        get
        {
            RidePace c = Climb;
            return (c.TimeIn(TravelMode.Push) + c.TimeIn(TravelMode.Carry)) / c.Moving.Typical;
        }
    }

    /// <summary>Share of a step of a grade that is not ridden.</summary>
    /// <param name="grade">Rise over length [share of 1].</param>
    /// <returns>[share of 1]</returns>
    public double PushShareAt(double grade) => 1 - Model.At(new TrailStep(25, 25 * grade, 2000, surface: TrailSurface.Rock, difficulty: TrailDifficulty.Level2)).RiddenFraction;

    /// <summary>Farthest point from where the food in the bag still lasts back, eaten evenly over the planned time.</summary>
    public PointsOfNoReturn Food
    {
        get
        {
            var legs = new List<ReturnLeg>();
            PlanStation[] up = [.. Plan.Stations.Where(s => s.AlongRoute <= Route.Length / 2)];
            double down = (Plan.Finish!.Typical - up[^1].Arrival.Typical) / (up[^1].Arrival.Typical - Plan.Start);
            for (int i = 1; i < up.Length; i++)
            {
                TimeSpan t = up[i].Arrival.Typical - up[i - 1].Arrival.Typical;
                legs.Add(new ReturnLeg(up[i].AlongRoute - up[i - 1].AlongRoute, t, t * down));
            }

            Energy food = Energy.FromKilocalories(2600);
            double perHour = Plan.Needs!.Food.Kilocalories / (Plan.Finish.Typical - Plan.Start).TotalHours;
            return PointOfNoReturnPlanner.Find(legs, [new ResourceAccount(ResourceAmount.Food(food), ResourceAmount.Food(Energy.FromKilocalories(400)))], [new ResourceRate(ResourceKind.Food, TravelMode.Ride, perHour)]);
        }
    }

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        yield return $"tyres: 23.0 psi at 920 m read {F(Tyres(6).After.PoundsForcePerSquareInch, 1)} psi at 3 020 m at the same temperature, {F(Tyres(10).After.PoundsForcePerSquareInch, 1)} psi when the tyre warms from 6 to 10 C";
        yield return $"on foot for {F(100 * PushShare, 0)} % of the time on the climb; of a step at 10 % {F(100 * PushShareAt(0.10), 0)} %, at 20 % {F(100 * PushShareAt(0.20), 0)} %, at 30 % {F(100 * PushShareAt(0.30), 0)} %";
        PlanStation top = Plan.Stations.MaxBy(s => s.Place.ElevationM)!;
        yield return $"turn at the top by {(top.TurnAround is { } t ? Clock(t) : "-")} for the light; by energy {(Food.Points[0].AllDry is { } m ? $"past km {F(m.Kilometers, 1)} 2 600 kcal do not last back with 400 kcal kept" : "2 600 kcal last to the top and back with 400 kcal kept")}";
        yield return "with height: " + Plan.Assumptions.Single(a => a.SourceId == "macinnis-2015").Value;
    }
}
