using SoloRide.Planning;
using UnitsNet;

namespace SoloRide.Demo;

/// <summary>Seven Cairns High Loop: eleven kilometres of ridge before the storms.</summary>
/// <param name="folder">The folder with the data files.</param>
public sealed class S02(string folder) : Scenario("S02", folder)
{
    /// <inheritdoc/>
    public override string MustShow => "latest time to enter the ridge in 9 rides of 10; two ways down; start earlier or drop the ridge";

    /// <inheritdoc/>
    public override IReadOnlyList<(string What, string Value)> Inputs =>
    [
        ("ridge", "km 16 to km 27"), ("storm", "onset 13:30, early 12:30, late 15:00"), ("west gully", "leaves at km 19: 25 min down, 18 to 36 min"), ("north spur", "leaves at km 24: 20 min down, 15 to 30 min"),
        ("rider", "68 kg, 150 W sustained"),
    ];

    /// <summary>The ridge.</summary>
    public StormRidge Ridge => new()
    {
        Name = "the ridge",
        From = Length.FromKilometers(16),
        To = Length.FromKilometers(27),
        Onset = Estimate.Of(Day(13.5), Day(12.5), Day(15)),
        Escapes =
        [
            new StormEscape("west gully", Length.FromKilometers(19), Minutes(25, 18, 36)),
            new StormEscape("north spur", Length.FromKilometers(24), Minutes(20, 15, 30)),
        ],
    };

    /// <inheritdoc/>
    public override RideRequest Request => Basic() with
    {
        Rider = new Rider { Mass = Mass.FromKilograms(68), SustainedPower = Power.FromWatts(150) },
        Load = new Load { OnBody = Mass.FromKilograms(3), WaterCapacity = Volume.FromLiters(3) },
        Sources = [.. Enumerable.Range(1, 9).Select(i => new WaterSource { Name = $"Stream {i}", AlongRoute = Length.FromKilometers(4 * i), WetProbability = 0.95, NeedsTreatment = true })],
        Devices = [Gear.Messenger, Gear.Phone],
        KitItems = Gear.Usual,
        WaitingOutfit = Gear.SummerWait,
        WaitingShelter = Exposure.Shelter.ClosedBag,
        Deadlines = [Ridge.ToDeadline()],
    };

    /// <summary>The ridge against the storm.</summary>
    public StormPlan Storm => StormPlanner.Plan(Request with { Deadlines = [] }, Ridge);

    /// <summary>The same with a start earlier or later.</summary>
    /// <param name="start">Start.</param>
    /// <returns>The plan.</returns>
    public StormPlan StormFrom(DateTimeOffset start) => StormPlanner.Plan(Request with { Start = start, PreparedAt = start.AddHours(-8), Deadlines = [] }, Ridge);

    /// <inheritdoc/>
    public override IEnumerable<string> Shown()
    {
        StormPlan s = Storm;
        yield return $"at the ridge {Clock(s.Entry.Low)}-{Clock(s.Entry.High)}; latest entry {Clock(s.LatestEntry)} for the nearer way off, {Clock(s.LatestForWhole)} for all of it";
        foreach (StormExit e in s.Exits)
        {
            yield return $"{e.Name} (leaves at km {F(e.LeavesAt.Kilometers, 0)}): {Span(e.FromEntry.Typical)}, up to {Span(e.FromEntry.High)} from the entry; enter by {Clock(e.LatestEntry)}";
        }

        yield return s.Advice;
        yield return $"starting at 08:30 instead: {StormFrom(Day(8.5)).Advice}";
    }

    private static Estimate<TimeSpan> Minutes(double typical, double low, double high) => Estimate.Of(TimeSpan.FromMinutes(typical), TimeSpan.FromMinutes(low), TimeSpan.FromMinutes(high));

    private DateTimeOffset Day(double hour) => new(Ride.Start.Date.AddHours(hour), Start.Offset);
}
