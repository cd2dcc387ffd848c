using System.Globalization;
using System.Text;
using SoloRide.Internal;
using UnitsNet;

namespace SoloRide.Planning;

/// <summary>What to do where, in order along the route.</summary>
internal static class CueSheet
{
    /// <summary>Bearings are taken over this length before and after a place [m].</summary>
    private const double ArmM = 40;

    /// <summary>A bend without a name is worth a line from this change of bearing on [°], when it is alone.</summary>
    private const double SharpDeg = 70;

    /// <summary>Places are tried at this distance from one another [m].</summary>
    private const double StepM = 10;

    private const double AloneM = 250;

    private static readonly string[] Compass = ["N", "NE", "E", "SE", "S", "SW", "W", "NW"];

    private sealed record Cue(double M, string What, string Place);

    public static string Write(RidePlan plan, PlanUnits u)
    {
        var cues = new List<Cue>();
        double total = plan.Route.Length.Meters;
        foreach (PlanStation s in plan.Stations.Where(s => s.Kind != StationKind.Mark))
        {
            double m = s.AlongRoute.Meters;
            string what = s.Kind switch
            {
                StationKind.Start => "start",
                StationKind.Finish => "finish",
                StationKind.Turn => "turn round",
                _ => Turn(plan, m),
            };
            WaterFill? fill = plan.Needs?.Fills.FirstOrDefault(f => Math.Abs(f.AlongRoute.Meters - m) < 60 && f.Name != "start");
            string name = fill is not null ? $"{s.Name}: fill to {u.LitresUp(fill.FillTo.Liters)}" : s.Kind == StationKind.Exit ? $"{s.Name} (way out)" : s.Name;
            cues.Add(new Cue(m, what, name));
        }

        for (double m = ArmM; m < total - ArmM; m += StepM)
        {
            double change = Math.Abs(Change(plan, m));
            if (change >= SharpDeg && change >= Math.Abs(Change(plan, m - StepM)) && change > Math.Abs(Change(plan, m + StepM)) && cues.All(c => Math.Abs(c.M - m) > AloneM))
            {
                cues.Add(new Cue(m, Turn(plan, m), "bend"));
            }
        }

        cues = [.. cues.OrderBy(c => c.M)];
        var b = new StringBuilder();
        PlanText.Wrap(b, $"{plan.Title}, {Text.Date(plan.Start)}", 80);
        b.Append(CultureInfo.InvariantCulture, $"{u.DistanceUnit,6}  next  then          to  plan   last   place\n");
        for (int i = 0; i < cues.Count; i++)
        {
            Cue c = cues[i];
            PlanStation? at = plan.Stations.FirstOrDefault(s => Math.Abs(s.AlongRoute.Meters - c.M) < 1);
            string clock = at is null ? "" : PlanText.ClockOn(plan.Zone.ToLocal(at.Arrival.Typical), plan.Start), last = at?.LatestPass is { } l ? PlanText.Latest(l, plan) : "";
            string next = i + 1 < cues.Count ? u.KmShort(cues[i + 1].M - c.M) : "-";
            string to = c.M < total - ArmM ? Heading(plan, c.M) : "";
            string line = $"{u.KmShort(c.M),6}  {next,4}  {c.What,-12}  {to,-2}  {clock,-5}  {last,-5}  ";
            int folded = 0;
            foreach (string place in PlanText.Folded(c.Place, 80 - line.Length))
            {
                b.Append($"{(folded++ == 0 ? line : new string(' ', line.Length))}{place}".TrimEnd()).Append('\n');
            }
        }

        PlanText.Paragraph(b, "Caution", "Turns are read from the drawn line; signs and the ground come first. " + Cautions.Text);
        return b.ToString();
    }

    private static string Turn(RidePlan plan, double m)
    {
        double c = Change(plan, m);
        string side = c < 0 ? "left" : "right";
        return Math.Abs(c) switch
        {
            < 25 => "straight on",
            < 60 => "bear " + side,
            < 130 => side,
            _ => "sharp " + side,
        };
    }

    /// <summary>Change of bearing at a place [°, -180 to 180]; right is positive.</summary>
    private static double Change(RidePlan plan, double m)
    {
        double total = plan.Route.Length.Meters;
        if (m < ArmM || m > total - ArmM)
        {
            return 0;
        }

        double d = Bearing(plan, m, m + ArmM) - Bearing(plan, m - ArmM, m);
        return d - (360 * Math.Round(d / 360));
    }

    private static string Heading(RidePlan plan, double m) => Compass[(int)Math.Round((((Bearing(plan, m, Math.Min(m + (5 * ArmM), plan.Route.Length.Meters)) % 360) + 360) % 360) / 45) % 8];

    private static double Bearing(RidePlan plan, double from, double to)
    {
        GeoPoint a = plan.Route.PointAt(Length.FromMeters(Math.Max(0, from))), b = plan.Route.PointAt(Length.FromMeters(to));
        double dx = (b.LonDeg - a.LonDeg) * Math.Cos((a.LatDeg + b.LatDeg) / 2 * Math.PI / 180), dy = b.LatDeg - a.LatDeg;
        return Math.Atan2(dx, dy) * 180 / Math.PI;
    }
}
