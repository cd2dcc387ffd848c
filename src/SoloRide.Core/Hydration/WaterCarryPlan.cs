using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Hydration;

/// <summary>Where to fill, how much to carry, and what if a source is dry.</summary>
/// <remarks>Immutable. A planning aid: reports age, and independence of the sources is an assumption that a dry year breaks.</remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed record WaterCarryPlan
{
    private readonly double _fromStartL;
    private readonly double _largestL;
    private readonly double _shortL;

    internal WaterCarryPlan(
        WaterCarryState state, double fromStartL, double largestL, double shortL, double expectedLitreKm, double boundLitreKm,
        double runDry, double leastRunDry, bool proven, IReadOnlyList<WaterStop> stops, WaterCarryPlan? doubtfulDry, IReadOnlyList<Finding> findings)
    {
        State = state;
        _fromStartL = fromStartL;
        _largestL = largestL;
        _shortL = shortL;
        ExpectedLitreKm = expectedLitreKm;
        LowerBoundLitreKm = boundLitreKm;
        RunDryProbability = runDry;
        LeastRunDryProbability = leastRunDry;
        IsProvenOptimal = proven;
        Stops = stops;
        IfDoubtfulSourcesDry = doubtfulDry;
        Findings = findings;
    }

    /// <summary>Whether a plan keeps the limits.</summary>
    public WaterCarryState State { get; }

    /// <summary>Water to start with, reserve included.</summary>
    public Volume CarryFromStart => Volume.FromLiters(_fromStartL);

    /// <summary>Most water in hand anywhere, reserve included.</summary>
    public Volume LargestCarry => Volume.FromLiters(_largestL);

    /// <summary>Capacity that is missing for the stretch with the greatest need between certain sources; 0 when planned.</summary>
    public Volume MissingCapacity => Volume.FromLiters(_shortL);

    /// <summary>Expected litres times kilometres carried [L km], reserve not counted; what was made least. Compare only at equal limits.</summary>
    public double ExpectedLitreKm { get; }

    /// <summary>No plan within the limits carries less than this [L km].</summary>
    public double LowerBoundLitreKm { get; }

    /// <summary>Probability that the water runs out, the reserve left alone.</summary>
    public double RunDryProbability { get; }

    /// <summary>Least probability of running dry that any plan reaches with this capacity.</summary>
    public double LeastRunDryProbability { get; }

    /// <summary>Whether no better plan exists; otherwise <see cref="GapFraction"/> says how much better one could be at most.</summary>
    public bool IsProvenOptimal { get; }

    /// <summary>Proven gap to the best plan [share of 1]; 0 when proven optimal.</summary>
    public double GapFraction => IsProvenOptimal || !(ExpectedLitreKm > 0) ? 0 : Math.Max(0, (ExpectedLitreKm - LowerBoundLitreKm) / ExpectedLitreKm);

    /// <summary>The start and every source on the way, in order.</summary>
    public IReadOnlyList<WaterStop> Stops { get; }

    /// <summary>The plan for the case that every doubtful source is dry; null on that variant itself.</summary>
    public WaterCarryPlan? IfDoubtfulSourcesDry { get; }

    /// <summary>Assumptions, warnings, shortage.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>Cautions that go with every rendering.</summary>
    public IReadOnlyList<string> Cautions { get; } = HydrationCautions.All;

    /// <summary>The plan in lines of text, with the cautions.</summary>
    /// <returns>Text.</returns>
    public override string ToString()
    {
        var lines = new List<string>();
        if (State == WaterCarryState.Insufficient)
        {
            lines.Add($"Water cannot be carried within the limits: {Text.F(_shortL, 1)} L of capacity are missing.");
        }
        else
        {
            lines.Add($"Start with {Up(_fromStartL)} L; most in hand {Up(_largestL)} L; "
                + $"runs dry in {Text.F(RunDryProbability * 100, 1)} % of such rides.");
            foreach (WaterStop stop in Stops)
            {
                string fill = stop.IsFill ? $"fill to {Up(stop.FillTo.Liters)} L, lasts to {stop.LastsTo}" : "no need to fill";
                lines.Add($"km {Text.F(stop.Along.Kilometers, 1)} {stop.Name}: {fill}." + (stop.IfDry is { } dry ? " If dry: " + dry.Text : ""));
            }
        }

        lines.Add(HydrationLedger.Advice);
        lines.AddRange(HydrationCautions.Own);
        lines.Add(SoloRide.Cautions.Text);
        return string.Join('\n', lines);

        // What is carried is told rounded up, never down.
        static string Up(double l) => Text.F(Math.Ceiling((l * 10) - 1e-6) / 10, 1);
    }
}
