using System.Globalization;
using SoloRide.Planning;
using SoloRide.Routes;

namespace SoloRide.Demo;

/// <summary>
/// One of the fifteen invented rides: its request, the inputs that are fixed here and printed as assumptions, the plan with its levers,
/// and what must be shown. The same code serves the example program and the tests.
/// </summary>
public abstract class Scenario
{
    private readonly Lazy<RidePlan> _plan;

    /// <summary>Reads the route and the forecast of a ride.</summary>
    /// <param name="id">S01 to S15.</param>
    /// <param name="folder">The folder with the data files.</param>
    protected Scenario(string id, string folder)
    {
        Ride = DemoGenerator.All.Single(r => r.Id == id);
        string file = Path.Combine(folder, DemoGenerator.FileName(Ride));
        Route = RideRoute.Read(file + ".gpx");
        Weather = Forecast.Read(file + ".forecast.csv");
        Start = new DateTimeOffset(Ride.Start, TimeSpan.FromHours(Ride.OffsetHours));
        _plan = new Lazy<RidePlan>(() => RidePlanner.Levers(Request, Levers));
    }

    /// <summary>The row of the table of invented rides.</summary>
    public DemoRide Ride { get; }

    /// <summary>The route.</summary>
    public RideRoute Route { get; }

    /// <summary>The forecast.</summary>
    public Forecast Weather { get; }

    /// <summary>The start.</summary>
    public DateTimeOffset Start { get; }

    /// <summary>The clock of the place.</summary>
    public ZoneOffsets Zone => ZoneOffsets.Fixed(Ride.OffsetHours);

    /// <summary>What this ride must show, in one sentence.</summary>
    public abstract string MustShow { get; }

    /// <summary>Inputs that are fixed here: what, and its value with a unit.</summary>
    public abstract IReadOnlyList<(string What, string Value)> Inputs { get; }

    /// <summary>What the plan is made from.</summary>
    public abstract RideRequest Request { get; }

    /// <summary>Changes to try; null for the usual ones.</summary>
    public virtual IReadOnlyList<Lever>? Levers => null;

    /// <summary>The plan with its levers.</summary>
    public RidePlan Plan => _plan.Value;

    /// <summary>What must be shown, as lines.</summary>
    /// <returns>Lines.</returns>
    public abstract IEnumerable<string> Shown();

    /// <summary>Whole papers that belong to what must be shown; none unless a ride has one.</summary>
    /// <returns>Texts.</returns>
    public virtual IEnumerable<string> Papers() => [];

    /// <summary>What every ride states: the clock that binds, latest start, worst walk out, check-ins, the change that helps most, one honest unknown.</summary>
    /// <returns>Label and text, each with a unit.</returns>
    public IReadOnlyList<(string What, string Text)> Statements()
    {
        RidePlan p = Plan;
        PlanMargin? clock = p.Margins.Where(m => m is { AfterTrouble: false, Time: not null }).OrderBy(m => m.Time).FirstOrDefault();
        LeverEffect? best = p.Levers.FirstOrDefault(l => l.GainFraction > 0) ?? (p.Levers.Count > 0 ? p.Levers[0] : null);
        (string name, double share) = p.Drivers.Count > 0 ? p.Drivers[0] : ("arrival", double.NaN);
        return
        [
            ("Binding clock", clock is null ? "none" : $"{clock.Name}: {clock.Amount}"),
            ("Latest start", p.LatestStart is { } s ? $"{Clock(s)} in 9 of 10 rides ({p.LatestStartReason})" : "none: " + p.LatestStartReason),
            ("Worst walk out", p.BikeFails is { } b ? $"km {F(b.WorstAt.Kilometers, 1)}: {Span(b.WalkOut.Typical)} (up to {Span(b.WalkOut.High)}) to {b.ExitName}; takes {F(b.Water.Liters, 1)} L and {F(b.Food.Kilocalories, 0)} kcal" : "none"),
            ("Messages", p.Schedule is { } c ? $"silence of at most {Span(c.LongestSilence)}" + (c.LongestInterval is { } i ? $"; the wait allows {Span(i)} between two" : "") : "none"),
            ("Helps most", best is null ? "none" : best.Sentence),
            ("Unknown", p.Finish is { } f ? $"{name}: {F(100 * share, 0)} % of what the finish can vary, {Span(f.High - f.Low)} from early to late" : "none"),
        ];
    }

    /// <summary>Writes it all.</summary>
    /// <param name="writer">Where to.</param>
    public void Write(TextWriter writer)
    {
        ArgumentNullException.ThrowIfNull(writer);
        writer.WriteLine($"{Ride.Id}  {Ride.Title}");
        writer.WriteLine($"Shows: {MustShow}");
        foreach ((string what, string value) in Inputs)
        {
            writer.WriteLine($"  assumed  {what}: {value}");
        }

        writer.WriteLine();
        writer.Write(Plan.ToText(new PlanTextOptions { Details = false }));
        writer.WriteLine();
        foreach (string line in Shown())
        {
            writer.WriteLine("  shown    " + line);
        }

        foreach ((string what, string text) in Statements())
        {
            writer.WriteLine($"  {what}: {text}");
        }

        writer.WriteLine();
        foreach (string paper in Papers())
        {
            writer.WriteLine(paper);
        }
    }

    /// <summary>The request that all rides begin with.</summary>
    /// <returns>Route, named places, start, zone and forecast.</returns>
    protected RideRequest Basic() => RideRequest.For(Route, Start) with
    {
        Title = Ride.Title,
        PreparedAt = Start.AddHours(-12),
        Zone = Zone,
        Weather = Weather,
        Options = new PlanOptions { Samples = 1000 },
    };

    /// <summary>A number.</summary>
    /// <param name="value">Value.</param>
    /// <param name="decimals">Decimals.</param>
    /// <returns>Text.</returns>
    protected static string F(double value, int decimals) => value.ToString("F" + decimals.ToString(CultureInfo.InvariantCulture), CultureInfo.InvariantCulture);

    /// <summary>A clock time of the ride's place.</summary>
    /// <param name="t">Instant.</param>
    /// <returns>Text.</returns>
    protected string Clock(DateTimeOffset t) => Zone.ToLocal(t).ToString(Zone.ToLocal(t).Date == Start.Date ? "HH:mm" : "ddd HH:mm", CultureInfo.InvariantCulture);

    /// <summary>A span.</summary>
    /// <param name="t">Span.</param>
    /// <returns>Text.</returns>
    protected static string Span(TimeSpan t)
    {
        double minutes = Math.Round(Math.Abs(t.TotalMinutes));
        string sign = t < TimeSpan.Zero ? "-" : "";
        return minutes < 60 ? $"{sign}{F(minutes, 0)} min" : $"{sign}{F(Math.Floor(minutes / 60), 0)} h {((int)minutes % 60).ToString("00", CultureInfo.InvariantCulture)}";
    }
}
