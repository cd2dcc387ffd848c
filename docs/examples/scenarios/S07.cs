using SoloRide.Batteries;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Night Finish by Choice: the dark is planned.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S07(string folder) : Scenario("S07", folder)
{
    private static readonly Temperature CellTemperature = Temperature.FromDegreesCelsius(9);

    private const double ReserveFraction = 0.2;

    /// <inheritdoc/>
    public override string MustShow => "lamp run time at chosen levels with 20 % reserve; walking out by lamp; the speed by night";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("head lamp", "18.5 Wh, start charge 100 %; low 1.5 W, trail 4.5 W, high 9 W"),
        ("bar lamp", "18.5 Wh, start charge 90 %; low 3 W, trail 7 W"),
        ("cells", "9 C"), ("reserve", "20 % of the charge"), ("lanes", "every 5 km"),
    ];

    /// <summary>The two lamps.</summary>
    public static IReadOnlyList<Device> Lamps { get; } = [Gear.HeadLamp(5000), Gear.BarLamp() with { StartChargeFraction = 0.9 }];

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Rider = new Rider { Mass = Mass.FromKilograms(70), SustainedPower = Power.FromWatts(140) },
        Load = new Load { WaterCapacity = Volume.FromLiters(2.5) },
        Devices = [.. Lamps, Gear.Messenger, Gear.Phone],
        WaitingOutfit = Gear.WinterWait,
        WaitingShelter = Exposure.Shelter.ClosedBag,
        KitItems = Gear.Usual,
        Options = new PlanOptions { Samples = 1000, ChargeReserveFraction = ReserveFraction },
    };

    /// <summary>Run time of a mode at the low side of what the cell gives, the reserve kept.</summary>
    /// <param name="lamp">Lamp.</param>
    /// <param name="mode">Mode.</param>
    /// <returns>Time.</returns>
    public static TimeSpan RunTime(Device lamp, DeviceMode mode)
        => TimeSpan.FromHours(lamp.Pack.UsableEnergy(CellTemperature, mode.Power.Typical, lamp.StartChargeFraction).Low.WattHours * (1 - ReserveFraction) / (double)mode.Power.Typical.Watts);

    /// <summary>The modes of the head lamp over the dark part in halves: as bright as the charge allows.</summary>
    public LampSchedule Schedule
    {
        get
        {
            TimeSpan dark = Plan.Dark!.High;
            Energy energy = Energy.FromWattHours(Lamps[0].Pack.UsableEnergy(CellTemperature, Power.FromWatts(4.5), 1).Low.WattHours * (1 - ReserveFraction));
            var half = new DarkSection { Duration = dark / 2, NeededFlux = LuminousFlux.FromLumens(150) };
            return LampPlanner.Schedule(Lamps[0].Modes, [half, half], energy);
        }
    }

    /// <summary>Whether the low mode of the weaker lamp outlasts the dark part of the worst walk out after the dark ride.</summary>
    public bool WalkCovered => Lamps.Min(l => RunTime(l, l.Modes[0])) >= Plan.Dark!.High + Plan.BikeFails!.WalkOut.High;

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        foreach (Device lamp in Lamps)
        {
            yield return $"{lamp.Name}: " + string.Join(", ", lamp.Modes.Select(m => $"{m.Name} {Span(RunTime(lamp, m))}")) + " with 20 % kept";
        }

        yield return $"dark for up to {Span(Plan.Dark!.High)}; head lamp: {string.Join(" then ", Schedule.Modes.Select(m => m.Name))}, {F(Schedule.Uses.WattHours, 1)} Wh";
        yield return $"worst walk out by lamp up to {Span(Plan.BikeFails!.WalkOut.High)}: {(WalkCovered ? "covered by the low mode of either lamp" : "not covered by one lamp alone")}";
        yield return "speed by lamp: " + Plan.Assumptions.Single(a => a.SourceId == "assumption-night").Value;
    }
}
