using SoloRide.Kit;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Charity Fifty: waves, cut-offs, counts.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S15(string folder) : Scenario("S15", folder)
{
    /// <inheritdoc/>
    public override string MustShow => "cut-offs at checkpoints from the slow end of the field; punctures to expect; when marshals may go; what must be settled";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("field", "50 riders in three waves at 09:00, 09:10, 09:20"), ("middle rider", "75 kg, 110 W"), ("spread of the field", "geometric standard deviation 1.22"), ("slow end", "95 of 100"), ("punctures", "1 in 400 km for each rider"),
    ];

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Rider = new Rider { Mass = Mass.FromKilograms(75), SustainedPower = Power.FromWatts(110) },
        Load = new Load { WaterCapacity = Volume.FromLiters(2) },
        Sources = [new WaterSource { Name = "Mill Cafe tap", AlongRoute = Length.FromKilometers(14), WetProbability = 1 }, new WaterSource { Name = "Ferry Cafe tap", AlongRoute = Length.FromKilometers(33), WetProbability = 1 }],
        Devices = [Gear.Phone],
        KitItems = Gear.Usual,
    };

    /// <summary>The event.</summary>
    public EventRequest Event => new()
    {
        MiddleRider = Request,
        Waves = [new EventWave("first", Start, 20), new EventWave("second", Start.AddMinutes(10), 15), new EventWave("third", Start.AddMinutes(20), 15)],
        Checkpoints = [new EventCheckpoint("Mill Cafe", Length.FromKilometers(14)), new EventCheckpoint("Church Lane", Length.FromKilometers(25)), new EventCheckpoint("Ferry Cafe", Length.FromKilometers(33)), new EventCheckpoint("Long Lane", Length.FromKilometers(42))],
        FieldGsdFactor = 1.22,
        Punctures = FailureRate.Known(1.0 / 400),
    };

    /// <summary>Its plan.</summary>
    public EventPlan Day => EventPlanner.Plan(Event);

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        EventPlan p = Day;
        yield return $"punctures: 50 riders x {F(Route.Length.Kilometers, 1)} km x 0.0025 for each km = {F(p.ExpectedPuncturesFactor, 1)}";
        yield return $"marshals at {p.Checkpoints[0].Name} may go at {Clock(p.Checkpoints[0].Release)}, at the finish at {Clock(p.Checkpoints[^1].Release)}";
    }

    /// <inheritdoc/>
    public override IEnumerable<string> Papers() => [Day.ToText()];
}
