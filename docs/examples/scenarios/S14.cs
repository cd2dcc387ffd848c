using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Injured Knee at km 40: walk, wait or call.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S14(string folder) : Scenario("S14", folder)
{
    /// <inheritdoc/>
    public override string MustShow => "both ways out at the pace of a hurt rider against the wait; light at the end; what to send";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("knee", "hurt at km 40 at 13:30, tried out: 2.5 km/h"), ("water in hand", "1.5 L"), ("response", "class R3, 24 h"),
    ];

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Rider = new Rider { Mass = Mass.FromKilograms(69), SustainedPower = Power.FromWatts(150) },
        Load = new Load { OnBody = Mass.FromKilograms(3), WaterCapacity = Volume.FromLiters(3) },
        Sources = [.. Enumerable.Range(1, 9).Select(i => new WaterSource { Name = $"Burn {i}", AlongRoute = Length.FromKilometers(6 * i), WetProbability = 0.98 })],
        Devices = [Gear.Messenger, Gear.Phone],
        KitItems = Gear.Usual,
        WaitingOutfit = Gear.WinterWait,
        WaitingShelter = Exposure.Shelter.ClosedBag,
    };

    /// <summary>What happened.</summary>
    public TroubleNews News => new()
    {
        Kind = TroubleKind.Injured,
        AlongRoute = Length.FromKilometers(40),
        At = new DateTimeOffset(Ride.Start.Date.AddHours(13.5), Start.Offset),
        WalkingSpeed = Speed.FromKilometersPerHour(2.5),
        WaterInHand = Volume.FromLiters(1.5),
    };

    /// <summary>The advice.</summary>
    public TroubleAdvice Advice => RidePlanner.AfterTrouble(Request, News);

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        TroubleAdvice a = Advice;
        foreach (TroubleWay w in a.Ways.Where(w => w.ExitName.StartsWith("Estate", StringComparison.Ordinal)))
        {
            yield return $"{w.ExitName}: {F(w.Distance.Kilometers, 1)} km at 2.5 km/h, {Span(w.Time.Typical)}, there {Clock(w.Arrives)}, {(w.Dark > TimeSpan.Zero ? $"{Span(w.Dark)} in the dark" : "in daylight")}";
        }

        yield return $"dark from {(a.DarkFrom is { } d ? Clock(d) : "never within a day")}";
    }

    /// <inheritdoc/>
    public override IEnumerable<string> Papers() => [Advice.ToText()];
}
