using SoloRide.Daylight;
using SoloRide.Escape;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Early Shade Slot: the sun leaves the canyon hours before it sets.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S05(string folder) : Scenario("S05", folder)
{
    private const double BackRatio = 0.7;

    /// <inheritdoc/>
    public override string MustShow => "when direct sun ends at each station; turning back for the shade and for dusk apart; only one way out";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("rims", "300 m above the trail at 500 m: 31.0 degrees straight across"), ("canyon", "runs along 20 degrees"), ("way back", "0.7 of the speed of the way out (down first, then up)"), ("lamp", "none"), ("reserve before dusk", "30 min"),
    ];

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Rider = new Rider { Mass = Mass.FromKilograms(88), SustainedPower = Power.FromWatts(150) },
        Load = new Load { OnBody = Mass.FromKilograms(3), WaterCapacity = Volume.FromLiters(5) },
        Devices = [Gear.Messenger, Gear.Phone],
        KitItems = Gear.Usual,
        WaitingOutfit = Gear.WinterWait,
        WaitingShelter = Exposure.Shelter.ClosedBag,
    };

    /// <summary>The sun at a station, between walls along the route's own direction there; the given axis where the route turns round.</summary>
    /// <param name="station">Station.</param>
    /// <returns>The sun.</returns>
    public CanyonSun SunAt(PlanStation station)
    {
        ArgumentNullException.ThrowIfNull(station);
        return Sun(station.Place, Route.BearingAt(station.AlongRoute)?.Degrees is { } b ? ((b % 360) + 360) % 360 : Ride.AxisDeg);
    }

    /// <summary>The sun at the mouth, between walls along the canyon's axis.</summary>
    public CanyonSun AtMouth => Sun(Route.Start, Ride.AxisDeg);

    /// <summary>Straight across alone: the sun above 31.0 degrees all round, which is the safe side where the canyon bends.</summary>
    public DirectSunDay AllRound => DirectSunDay.On(Date, Route.Start, Zone, HorizonProfile.Level(AtMouth.RimDeg));

    /// <summary>Civil dusk at the mouth.</summary>
    public DateTimeOffset Dusk => SolarDay.On(Date, Route.Start, Zone).CivilDusk.At!.Value;

    /// <summary>The two clocks at the mouth: end of direct sun, and dusk less its reserve.</summary>
    public IReadOnlyList<Deadline> Clocks =>
    [
        new Deadline(DeadlineKind.Shade, "the end of direct sun", Length.Zero, Route.Length / 2, AllRound.LastSun),
        new Deadline(DeadlineKind.Light, "civil dusk less 30 min", Length.Zero, Route.Length / 2, Dusk.AddMinutes(-30)),
    ];

    /// <summary>Latest turning back at each station of the way in, for some clocks.</summary>
    /// <param name="clocks">Clocks.</param>
    /// <returns>The turns.</returns>
    public TurnAroundPlan Turns(params IReadOnlyList<Deadline> clocks)
    {
        PlanStation[] way = [.. Plan.Stations.Where(s => s.AlongRoute.Meters <= (Route.Length.Meters / 2) + 50)];
        var legs = new List<DeadlineLeg>();
        for (int i = 1; i < way.Length; i++)
        {
            TimeSpan typical = way[i].Arrival.Typical - way[i - 1].Arrival.Typical, spread = way[i].Arrival.High - way[i - 1].Arrival.High;
            TimeSpan high = spread > typical ? spread : typical;
            Length length = i == way.Length - 1 ? (Route.Length / 2) - way[i - 1].AlongRoute : way[i].AlongRoute - way[i - 1].AlongRoute;
            legs.Add(new DeadlineLeg(length, Estimate.Of(typical, typical, high), Estimate.Of(typical / BackRatio, typical / BackRatio, high / BackRatio)));
        }

        return DeadlinePlanner.TurnArounds(legs, clocks, Start);
    }

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        CanyonSun mouth = AtMouth;
        yield return $"sunset {Clock(mouth.Day.Sun.Sunset.At!.Value)}; straight across the sun is gone at {Clock(AllRound.LastSun!.Value)}, {Span(mouth.Day.Sun.Sunset.At.Value - AllRound.LastSun.Value)} before; along the axis it reaches in until {(mouth.Ends is { } e ? Clock(e) : "never")}";
        foreach (PlanStation s in Plan.Stations)
        {
            CanyonSun sun = SunAt(s);
            yield return $"km {F(s.AlongRoute.Kilometers, 1)}: here {Clock(s.Arrival.Typical)}, direct sun until {(sun.Ends is { } x ? Clock(x) : "none today")}; way out to {s.WayOutTo}, the only one";
        }

        TurnAround both = Turns([.. Clocks]).Stations[^1];
        foreach (Deadline c in Clocks)
        {
            yield return $"turn at km {F(both.AlongRoute.Kilometers, 1)} for {c.Name} ({Clock(c.Closes!.Value)}): by {Clock(Turns(c).Stations[^1].At!.Value)}{(c.Name == both.Binding ? "; the earlier, it binds" : "")}";
        }
    }

    private DateOnly Date => DateOnly.FromDateTime(Ride.Start);

    private CanyonSun Sun(GeoPoint place, double axisDeg) => CanyonSun.On(Date, place, Zone, axisDeg, Length.FromMeters(300), Length.FromMeters(500));
}
