using SoloRide.Batteries;
using SoloRide.Daylight;
using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Late Start After Rain: the margin went into the morning.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S12(string folder) : Scenario("S12", folder)
{
    /// <inheritdoc/>
    public override string MustShow => "which starts fit; what helps: shorten, reverse, start next day; latest start that 9 rides in 10 finish before dusk";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("rider", "80 kg, 135 W sustained, wet roots all the way"), ("clock", "civil dusk, since one lamp of 500 lm is no plan on wet roots; no further reserve"),
    ];

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Route = Route.WithSections([new Routes.RouteSection(Length.Zero, Route.Length) { Surface = TrailSurface.Roots, Difficulty = TrailDifficulty.Level2 }]),
        Rider = new Rider { Mass = Mass.FromKilograms(80), SustainedPower = Power.FromWatts(135) },
        Load = new Load { OnBody = Mass.FromKilograms(3), WaterCapacity = Volume.FromLiters(5) },
        Sources = [new WaterSource { Name = "Forest stream", AlongRoute = Length.FromKilometers(16), WetProbability = 0.99, NeedsTreatment = true }],
        Devices = [new Device("lamp", DeviceKind.BarLamp, CellPack.LithiumIon(2600), DeviceMode.Lit("on", new LampOutput(500, 9000), 6)), Gear.Phone],
        KitItems = Gear.Usual,
        Deadlines = [new Deadline(DeadlineKind.Light, "civil dusk on wet roots", Length.Zero, Route.Length, Dusk)],
        Options = new PlanOptions { Samples = 1000 },
    };

    /// <summary>Civil dusk.</summary>
    public DateTimeOffset Dusk => SolarDay.On(DateOnly.FromDateTime(Ride.Start), Route.Start, Zone).CivilDusk.At!.Value;

    /// <inheritdoc/>
    public override IReadOnlyList<Lever> Levers =>
    [
        .. Lever.Usual(Request).Where(l => !l.Name.Contains("bank", StringComparison.Ordinal) && l.Name != "ride a day later"),
        new Lever("start at 08:00 next day", r => r with
        {
            Start = new DateTimeOffset(Ride.Start.Date.AddDays(1).AddHours(8), Start.Offset),
            Deadlines = [new Deadline(DeadlineKind.Light, "civil dusk on wet roots", Length.Zero, r.Route.Length, Dusk.AddDays(1))],
        }),
    ];

    /// <summary>Every start from six in the morning to six in the evening.</summary>
    public StartSweep Sweep => RidePlanner.SweepStarts(Request with { PreparedAt = null }, new DateTimeOffset(Ride.Start.Date.AddHours(6), Start.Offset), new DateTimeOffset(Ride.Start.Date.AddHours(18), Start.Offset), TimeSpan.FromMinutes(30));

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        StartSweep sweep = Sweep;
        yield return sweep.Windows.Count == 0 ? "no start of the day fits" : "starts that fit: " + string.Join(", ", sweep.Windows.Select(w => $"{Clock(w.From)}-{Clock(w.To)}"));
        yield return $"latest start {Clock(Plan.LatestStart!.Value)} = civil dusk {Clock(Dusk)} less {Span(Plan.Finish!.High - Plan.Start)}, which 9 rides in 10 keep";
        foreach (LeverEffect l in Plan.Levers.Take(4))
        {
            yield return l.Sentence;
        }
    }
}
