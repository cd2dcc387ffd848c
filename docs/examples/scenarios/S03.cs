using SoloRide.Batteries;
using SoloRide.Daylight;
using SoloRide.Effort;
using SoloRide.Planning;
using SoloRide.Routes;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Short Day Fell Circuit: the day is shorter than the ride.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S03(string folder) : Scenario("S03", folder)
{
    /// <summary>Moving and standing together: 36 km in 8 h.</summary>
    private static readonly TimeSpan Whole = TimeSpan.FromHours(8);

    private const double StopMinutesPerHour = 6;

    /// <inheritdoc/>
    public override string MustShow => "finish after last light at the middle arrival; lamp energy in the cold with one lamp lost; how cold and wet it is";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("pace", "36 km in 8 h, 6 min of each moving hour standing: 4.5 km/h over all"),
        ("head lamp", "11.8 Wh, 4.5 W as used"), ("bar lamp", "18.5 Wh, 7 W as used"), ("cells", "3 C, carried outside"),
        ("wind and rain", "45 km/h, 0.8 mm/h all day"), ("worn", "1.0 clo: long jersey, tights, rain suit"),
    ];

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Rider = new Rider { Mass = Mass.FromKilograms(75), Height = Length.FromCentimeters(178) },
        Pace = new PaceOptions
        {
            Stops = new StopHabit { MinutesPerHour = StopMinutesPerHour },
            TimedRide = new TimedLeg("own round", ElevationProfile.Of(Route).Steps(Length.FromMeters(25)), Whole / (1 + (StopMinutesPerHour / 60))),
        },
        Load = new Load { OnBody = Mass.FromKilograms(4), WaterCapacity = Volume.FromLiters(3) },
        Devices = [Gear.HeadLamp(), Gear.BarLamp(), Gear.Messenger, Gear.Phone],
        WaitingOutfit = Gear.WinterWait,
        WaitingShelter = Exposure.Shelter.ClosedBag,
        KitItems = Gear.Usual,
    };

    /// <summary>Civil dusk at the start.</summary>
    public DateTimeOffset Dusk => SolarDay.On(DateOnly.FromDateTime(Ride.Start), Route.Start, Zone).CivilDusk.At!.Value;

    /// <summary>What losing the larger lamp means.</summary>
    public LampFailure LargerLampLost => Plan.PowerPlan!.IfLampFails.Single(f => f.Failed == "bar lamp");

    /// <summary>Cold and wet in what is worn.</summary>
    public ColdWetExposure Cold => ColdWetExposure.Of(Plan, Weather, [new Exposure.Garment("long jersey and tights", 0.6), new Exposure.Garment("rain suit", 0.4)]);

    /// <summary>How long the smaller lamp lasts at 3 °C, at the low side of its cell, 20 % kept.</summary>
    /// <param name="mode">Mode.</param>
    /// <returns>Time.</returns>
    public TimeSpan HeadLampLasts(DeviceMode mode)
        => TimeSpan.FromHours(Request.Devices[0].Pack.UsableEnergy(Temperature.FromDegreesCelsius(3), mode.Power.Typical).Low.WattHours * 0.8 / (double)mode.Power.Typical.Watts);

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        yield return $"civil dusk {Clock(Dusk)}; middle finish {Clock(Plan.Finish!.Typical)}, {Span(Plan.Finish.Typical - Dusk)} after it";
        yield return Cold.Words;
        yield return $"at the middle finish, bar lamp lost: the {LargerLampLost.Remaining} has {Span(LargerLampLost.RemainingTime!.Low)} in its low mode for {Span(LargerLampLost.DarkTime)} of dark";
        foreach (DeviceMode mode in Request.Devices[0].Modes)
        {
            TimeSpan has = HeadLampLasts(mode), rest = has - Plan.Dark!.High;
            yield return $"late finish, bar lamp lost: the head lamp has {Span(has)} in mode {mode.Name} at 3 C with 20 % kept, for up to {Span(Plan.Dark.High)} of dark: {(rest >= TimeSpan.Zero ? "covered" : $"{Span(rest.Duration())} short")}";
        }
    }
}
