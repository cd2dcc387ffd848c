using System.Globalization;
using System.Text;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Routes;

/// <summary>What to do at every junction of a route, in the order of travel, and what a wrong turn there costs.</summary>
/// <remarks>
/// Made by <see cref="RouteNetwork.CueSheet"/>. Junctions that the network does not hold are not told. Turns are read from drawn lines: signs
/// and ground come first. Immutable; safe to share between threads.
/// </remarks>
[TypeFormatterSource(typeof(PlainFormatterSource), PreferredMimeTypes = ["text/html"])]
public sealed class RouteCueSheet
{
    private const int Width = 80;
    private const double HeadingM = 40;
    private const double LookM = 50;
    private const int MostLooks = 4000;

    private static readonly string[] Compass = ["north", "north-east", "east", "south-east", "south", "south-west", "west", "north-west"];

    private readonly string _name;
    private readonly double _lengthM;

    private RouteCueSheet(string name, double lengthM, IReadOnlyList<RouteCue> cues, IReadOnlyList<Finding> findings)
    {
        _name = name;
        _lengthM = lengthM;
        Cues = cues;
        Findings = findings;
    }

    /// <summary>The cues, first the start, last the finish.</summary>
    public IReadOnlyList<RouteCue> Cues { get; }

    /// <summary>Where the route lies on no trail of the network, and what a line proves.</summary>
    public IReadOnlyList<Finding> Findings { get; }

    /// <summary>The cautions that go with it.</summary>
    public static string Caution { get; } = "Turns are read from drawn lines; signs and the ground come first. " + RouteWriter.AccessCaution + " " + Cautions.Text;

    /// <summary>The sheet as text: a line a cue, with the dearest wrong way below it, findings and cautions at the end.</summary>
    /// <returns>Text with line feeds of at most 80 columns.</returns>
    public override string ToString()
    {
        var b = new StringBuilder();
        Line(b, $"{(_name.Length > 0 ? _name : "Route")}, {Text.F(_lengthM / 1000, 1)} km");
        Line(b, "   km   next  ways  turn");
        foreach (RouteCue c in Cues)
        {
            string next = c == Cues[^1] ? "-" : Text.F(c.ToNext.Kilometers, 2);
            string ways = c.Ways > 0 ? c.Ways.ToString(CultureInfo.InvariantCulture) : "-";
            bool start = c == Cues[0];
            string angle = !start && c.Pass?.TurnAngle is { } a ? $", {Text.F(Math.Abs(a.Degrees), 0)} deg" : "";
            Line(b, $"{Text.F(c.Along.Kilometers, 2),5}  {next,5}  {ways,4}  {c.Words}{angle}{(c.Onto.Length > 0 ? ": " + c.Onto : "")}");
            if (c.DearestWrongWay is { } w)
            {
                string cost = w.ThereAndBack is { } t ? $", {Text.Span(t)}" : "";
                Line(b, $"{"",21}not {(start && w.Trail.Name.Length > 0 ? w.Trail.Name : $"{Side(w)} {w.Trail.Name}".TrimEnd())}: {Text.F(2 * w.ToNextJunction.Kilometers, 2)} km{cost} there and back");
            }
        }

        foreach (Finding f in Findings.Where(f => f.Code != RoutesFindingCodes.Access))
        {
            Render.Wrap(b, f.Message, Width);
        }

        Render.Wrap(b, Caution, Width);
        return b.ToString();
    }

    internal static RouteCueSheet Make(RouteNetwork network, RideRoute route, double withinM)
    {
        double total = route.LengthM;
        var marks = new List<(double AlongM, string Words, string Onto, JunctionPass? Pass)>();
        foreach (JunctionPass p in JunctionReader.Along(network, route, withinM))
        {
            string onto = p.Ways.FirstOrDefault(w => w.IsTaken)?.Trail.Name ?? "";
            bool first = p.Along.Meters < 1, last = p.Along.Meters > total - 1;
            marks.Add((p.Along.Meters, first ? "start " + Heading(route) : last ? "finish" : Words(p), last ? "" : onto, last ? null : p));
        }

        if (!marks.Any(m => m.AlongM < 1))
        {
            marks.Insert(0, (0, total > 0 ? "start " + Heading(route) : "start", NameAt(network, route, Math.Min(HeadingM, total / 2), withinM), null));
        }

        if (total > 0 && !marks.Any(m => m.AlongM > total - 1))
        {
            marks.Add((total, "finish", "", null));
        }

        RouteCue[] cues = [.. marks.Select((m, i) => new RouteCue(Length.FromMeters(m.AlongM), Length.FromMeters(i + 1 < marks.Count ? marks[i + 1].AlongM - m.AlongM : 0), m.Words, m.Onto, m.Pass))];
        var findings = new List<Finding>();
        (double offM, double fromM) = Off(network, route, withinM);
        if (offM > 0)
        {
            findings.Add(new Finding(RoutesFindingCodes.OffTrails, FindingSeverity.Caution, route.Name,
                $"About {Text.F(offM / 1000, 1)} km of the route, first at km {Text.F(fromM / 1000, 1)}, lie more than {Text.F(withinM, 0)} m from every trail of the network: junctions there are not known.",
                new FindingValue("off_m", Text.F(offM, 0)), new FindingValue("from_m", Text.F(fromM, 0))));
        }

        findings.Add(RouteOrigin.AccessFinding("cue sheet"));
        return new RouteCueSheet(route.Name, total, cues, findings);
    }

    private static string Words(JunctionPass p)
    {
        if (p.TurnAngle is not { } turn)
        {
            return "go on";
        }

        string side = turn.Degrees < 0 ? "left" : "right";
        return p.Side == TurnSide.StraightOn ? "straight on"
            : p.Side == TurnSide.Back ? "turn back"
            : Math.Abs(turn.Degrees) switch { < 60 => "bear " + side, < 130 => side, _ => "sharp " + side };
    }

    private static string Side(JunctionWay w) => w.Side switch
    {
        TurnSide.Left => "left",
        TurnSide.Right => "right",
        TurnSide.Back => "back",
        _ => "straight on",
    };

    private static string Heading(RideRoute route)
    {
        GeoPoint to = route.PointAt(Length.FromMeters(Math.Min(HeadingM, route.LengthM)));
        double deg = GeodesyKernel.Inverse(route.Start.LatDeg, route.Start.LonDeg, to.LatDeg, to.LonDeg).Azimuth1Deg;
        return double.IsNaN(deg) ? "" : Compass[(int)Math.Round(((deg % 360) + 360) % 360 / 45) % 8];
    }

    private static string NameAt(RouteNetwork network, RideRoute route, double alongM, double withinM)
        => network.Nearest(route.PointAt(Length.FromMeters(alongM)), withinM)?.Trail.Name ?? "";

    // Length off every trail, by places every 50 m or more.
    private static (double OffM, double FromM) Off(RouteNetwork network, RideRoute route, double withinM)
    {
        double total = route.LengthM;
        int n = (int)Math.Clamp(Math.Ceiling(total / LookM), 1, MostLooks), off = 0;
        double from = double.NaN;
        for (int i = 0; i < n; i++)
        {
            double at = total * (i + 0.5) / n;
            if (network.Nearest(route.PointAt(Length.FromMeters(at)), withinM) is null)
            {
                off++;
                from = double.IsNaN(from) ? total * i / n : from;
            }
        }

        return (total * off / n, from);
    }

    private static void Line(StringBuilder b, string line) => b.Append(line.Length > Width ? line[..Width].TrimEnd() : line).Append('\n');
}
