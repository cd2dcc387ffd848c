using SoloRide.Kit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Thorn Country: punctures are the rule.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S10(string folder) : Scenario("S10", folder)
{
    /// <inheritdoc/>
    public override string MustShow => "chance that the kit covers the punctures, from the rider's log; walk out saved by each spare and each gram";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("own log", "6 punctures in 400 km of thorn country"), ("prior", "wide: half an event in 500 km"), ("kit", "1 tube, 3 patches, plugs, pump, levers"), ("stock tank", "wet in 40 of 100"),
    ];

    /// <summary>Rate from the log.</summary>
    public static FailureRate Rate { get; } = FailureRate.FromLog(6, Length.FromKilometers(400));

    /// <summary>The kit of the ride.</summary>
    public static IReadOnlyList<KitItem> Kit { get; } =
    [
        new("spare tube", Mass.FromGrams(140), Volume.FromLiters(0.3), KitPlace.Bike, KitFunction.Tube),
        new("patches", Mass.FromGrams(15), Volume.FromLiters(0.05), KitPlace.Bike, KitFunction.TubePatch) { Uses = 3 },
        .. Gear.Usual.Where(i => i.Name != "spare tube"),
    ];

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Rider = new Rider { Mass = Mass.FromKilograms(73), SustainedPower = Power.FromWatts(155) },
        Load = new Load { OnBody = Mass.FromKilograms(3), WaterCapacity = Volume.FromLiters(6) },
        Sources = [new WaterSource { Name = "Stock Tank", AlongRoute = Length.FromKilometers(30), WetProbability = 0.4, NeedsTreatment = true }],
        Devices = [Gear.Messenger, Gear.Phone, Gear.HeadLamp()],
        KitItems = Kit,
        FailureRates = new Dictionary<FailureKind, FailureRate> { [FailureKind.TubePuncture] = Rate, [FailureKind.TubelessHole] = FailureRate.Known(0) },
    };

    /// <summary>Choice of kit for punctures alone on the whole loop, with a rate and a number of spare tubes; the stake is the walk out from the middle of each stretch.</summary>
    /// <param name="rate">Punctures.</param>
    /// <param name="tubes">Spare tubes.</param>
    /// <param name="patches">Patches.</param>
    /// <returns>The choice.</returns>
    public KitPlan Choose(FailureRate rate, int tubes, int patches)
    {
        var items = new List<KitItem>();
        for (int i = 0; i < tubes; i++)
        {
            items.Add(new KitItem($"spare tube {i + 1}", Mass.FromGrams(140), Volume.FromLiters(0.3), KitPlace.Bike, KitFunction.Tube));
        }

        if (patches > 0)
        {
            items.Add(new KitItem("patches", Mass.FromGrams(15), Volume.FromLiters(0.05), KitPlace.Bike, KitFunction.TubePatch) { Uses = patches });
        }

        items.AddRange(Kit.Where(i => i.Name is "pump" or "levers"));
        return KitPlanner.Choose(new KitRequest
        {
            Items = items,
            Distance = Route.Length,
            Matrix = new RepairMatrix([.. RepairMatrix.Standard.Modes.Where(m => m.Kind == FailureKind.TubePuncture)]),
            Stakes = [new FailureStake(FailureKind.TubePuncture, [.. Stakes()]) { Rate = rate }],
            TimePerKilogram = TimeSpan.Zero,
        });
    }

    /// <summary>What a puncture costs where: the walk out, over stretches between stations.</summary>
    /// <returns>Places.</returns>
    public IEnumerable<StakeAtPlace> Stakes()
    {
        for (int i = 1; i < Plan.Stations.Count; i++)
        {
            PlanStation a = Plan.Stations[i - 1], b = Plan.Stations[i];
            yield return new StakeAtPlace(b.Name, b.AlongRoute - a.AlongRoute, ((a.WayOut ?? TimeSpan.Zero) + (b.WayOut ?? TimeSpan.Zero)) / 2);
        }
    }

    /// <summary>What each item saves, best for its mass first.</summary>
    /// <returns>Name, minutes saved in the mean of rides, and seconds saved for each gram.</returns>
    public IReadOnlyList<(string Name, TimeSpan Saves, double SecondsPerGram)> ByGram()
    {
        KitPlan with = Choose(Rate, 1, 3);
        return [.. with.Chosen.Where(c => c.Saves > TimeSpan.Zero).Select(c => (c.Item.Name, c.Saves, c.Saves.TotalSeconds / c.Item.Mass.Grams)).OrderByDescending(x => x.Item3).ThenBy(x => x.Name, StringComparer.Ordinal)];
    }

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        yield return $"rate from the log: {F(Rate.PerDistance.Typical.InverseMeters * 1e5, 1)} punctures in 100 km ({F(Rate.PerDistance.Low.InverseMeters * 1e5, 1)}-{F(Rate.PerDistance.High.InverseMeters * 1e5, 1)})";
        foreach ((int tubes, int patches) in new[] { (0, 0), (1, 0), (1, 3), (2, 3) })
        {
            KitPlan k = Choose(Rate, tubes, patches);
            yield return $"{tubes} tubes and {patches} patches: every puncture mended on {F(100 * k.Coverage[0].CoveredProbability, 1)} rides of 100; expected walk out {F(k.ExpectedLoss.TotalMinutes, 1)} min, {F(k.ExpectedLossWithoutKit.TotalMinutes, 1)} min with nothing";
        }

        foreach ((string name, TimeSpan saves, double perGram) in ByGram())
        {
            yield return $"{name}: {Span(saves)} of walking saved at the worst place, {F(perGram, 1)} s for each gram";
        }
    }
}
