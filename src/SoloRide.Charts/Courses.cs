using SoloRide.Daylight;
using SoloRide.Planning;

namespace SoloRide.Charts;

/// <summary>Courses read from a plan, as the pictures need them.</summary>
internal static class Courses
{
    /// <summary>Chance of thunder from which a picture marks the hour: the plan's own mark.</summary>
    public const double ThunderProbability = 0.3;

    public static readonly string[] PhaseNames = ["day", "civil twilight", "nautical twilight", "astronomical twilight", "night"];

    public static string RangeNote(RidePlan plan)
        => plan.Samples > 0 ? "ranges hold for 8 such rides in 10" : "ranges from a closed form";

    public static string Head(RidePlan plan, Words words)
        => $"{words.FarText(plan.Length)}, start {Words.Date(plan.Start)} {Words.Clock(plan.Start)} ({Words.Zone(plan.Start)}); {RangeNote(plan)}";

    /// <summary>A station's name with what it is, as a picture can write it: a name in letters that the typeface has not gives way to the distance.</summary>
    public static string Drawn(PlanStation s, Words words) => Face.CanWrite(s.Name)
        ? Label(s)
        : s.Kind switch
        {
            StationKind.Start => "start",
            StationKind.Finish => "finish",
            StationKind.Water => "water",
            StationKind.Exit => "way out",
            StationKind.Camp => "camp",
            _ => "place",
        }
        + (s.Kind is StationKind.Start or StationKind.Finish ? "" : " at " + words.Place(s.AlongRoute));

    /// <summary>A way out by its name, or by its distance where the typeface has no letters for the name.</summary>
    public static string Drawn(RidePlan plan, string wayOut, Words words)
        => Face.CanWrite(wayOut) ? wayOut : plan.Stations.FirstOrDefault(s => s.Name == wayOut) is { } s ? words.Place(s.AlongRoute) : "a way out";

    /// <summary>A station's name with what it is.</summary>
    public static string Label(PlanStation s) => s.Kind switch
    {
        StationKind.Water => s.Name + ", water",
        StationKind.Exit => s.Name + ", way out",
        StationKind.Camp => s.Name + ", camp",
        _ => s.Name,
    };

    /// <summary>Which label goes first where not all have room.</summary>
    public static int Rank(StationKind kind) => kind switch
    {
        StationKind.Start or StationKind.Finish => 0,
        StationKind.Water => 1,
        StationKind.Exit => 2,
        StationKind.Camp or StationKind.Turn => 3,
        StationKind.Top => 4,
        _ => 5,
    };

    /// <summary>Hours after the start.</summary>
    public static double H(RidePlan plan, DateTimeOffset t) => (t - plan.Start).TotalHours;

    /// <summary>Runs of one light phase between two instants at a place.</summary>
    public static List<(double FromH, double ToH, LightPhase Phase)> Phases(DateTimeOffset zero, double fromH, double toH, GeoPoint place)
    {
        const double stepH = 1.0 / 30;
        var runs = new List<(double, double, LightPhase)>();
        double begin = fromH;
        LightPhase phase = SolarPosition.At(zero.AddHours(fromH), place).Phase;
        for (double h = fromH + stepH; h < toH; h += stepH)
        {
            LightPhase now = SolarPosition.At(zero.AddHours(h), place).Phase;
            if (now != phase)
            {
                runs.Add((begin, h, phase));
                begin = h;
                phase = now;
            }
        }

        runs.Add((begin, toH, phase));
        return runs;
    }

    /// <summary>What the Sun does where it neither rises nor sets on the day of the start; else empty.</summary>
    public static string AllDay(RidePlan plan)
    {
        var day = Phases(plan.Start, 0, 24, plan.Trace[plan.Trace.Count / 2].Place);
        return day.All(p => p.Phase == LightPhase.Day) ? "the sun does not set" : day.All(p => p.Phase != LightPhase.Day) ? "the sun does not rise" : "";
    }

    /// <summary>Runs of hours that a condition marks; an hour stands for half an hour before and after.</summary>
    public static List<(double FromH, double ToH)> Windows(RidePlan plan, Func<PlanHour, bool> marked)
    {
        var runs = new List<(double From, double To)>();
        foreach (PlanHour hour in plan.Hours.Where(marked))
        {
            double h = H(plan, hour.At);
            if (runs.Count > 0 && h - 0.5 <= runs[^1].To + 1e-6)
            {
                runs[^1] = (runs[^1].From, h + 0.5);
            }
            else
            {
                runs.Add((Math.Max(0, h - 0.5), h + 0.5));
            }
        }

        return runs;
    }

    public static string WindowText(RidePlan plan, IEnumerable<(double FromH, double ToH)> windows)
        => string.Join(" and ", windows.Select(w => $"{Words.ClockOn(plan.Zone.ToLocal(plan.Start.AddHours(w.FromH)), plan.Start)} to {Words.ClockOn(plan.Zone.ToLocal(plan.Start.AddHours(w.ToH)), plan.Start)}"));

    /// <summary>Value of a course at a place, linear between its points.</summary>
    public static double At(IReadOnlyList<double> xs, IReadOnlyList<double> ys, double x)
    {
        int i = 0;
        while (i + 2 < xs.Count && xs[i + 1] < x)
        {
            i++;
        }

        if (xs.Count == 1)
        {
            return ys[0];
        }

        double f = xs[i + 1] > xs[i] ? Math.Clamp((x - xs[i]) / (xs[i + 1] - xs[i]), 0, 1) : 1;
        return ys[i] + ((ys[i + 1] - ys[i]) * f);
    }
}
