using System.Globalization;
using SkiaSharp;
using SoloRide.Daylight;
using SoloRide.Planning;

namespace SoloRide.Charts;

/// <summary>Light over the days of a year and the hours of the day.</summary>
internal static class DaylightPicture
{
    private const float Gutter = 76, Side = 190;
    private const int StepMin = 10;

    // Upper limb at the horizon with the usual refraction; then the twilights by definition.
    private static readonly double[] Limits = [-50.0 / 60, -6, -12, -18];

    private sealed record Year(double[][] Crossings, LightPhase[][] PhaseOf, List<(double From, double To)>[] Shade, double[] FirstSunH, double[] LastSunH);

    public static Picture Make(string name, GeoPoint place, ZoneOffsets zone, int year, HorizonProfile? horizon, RidePlan? ride, PictureOptions options)
    {
        DaylightRange range = DaylightRange.Over(new DateOnly(year, 1, 1), new DateOnly(year, 12, 31), place, zone);
        Year days = Compute(place, zone, year, horizon);
        string title = string.Create(CultureInfo.InvariantCulture, $"Daylight through {year} at {name}");
        return new Picture("daylight", title, Tell(place, zone, range, days, horizon, ride), options, sheet => Draw(sheet, title, place, zone, year, days, horizon, ride));
    }

    private static DateTimeOffset Midnight(DateOnly day, ZoneOffsets zone)
    {
        var local = day.ToDateTime(TimeOnly.MinValue, DateTimeKind.Unspecified);
        TimeSpan offset = zone.ToLocal(new DateTimeOffset(local.AddHours(12), TimeSpan.Zero)).Offset;
        return new DateTimeOffset(local, offset);
    }

    private static Year Compute(GeoPoint place, ZoneOffsets zone, int year, HorizonProfile? horizon)
    {
        int days = DateTime.IsLeapYear(year) ? 366 : 365, n = (24 * 60 / StepMin) + 1;
        var crossings = new double[days][];
        var phases = new LightPhase[days][];
        var shade = new List<(double, double)>[days];
        var first = new double[days];
        var last = new double[days];
        var at = new DateTimeOffset[n];
        var sun = new SolarPosition[n];
        for (int d = 0; d < days; d++)
        {
            DateTimeOffset zero = Midnight(new DateOnly(year, 1, 1).AddDays(d), zone);
            for (int i = 0; i < n; i++)
            {
                at[i] = zero.AddMinutes(i * StepMin);
            }

            SolarPosition.At(at, place, sun);
            var cuts = new List<double>();
            for (int i = 1; i < n; i++)
            {
                double a = sun[i - 1].AltitudeDeg, b = sun[i].AltitudeDeg;
                foreach (double limit in Limits.Where(l => (a < l) != (b < l)).OrderBy(l => a < b ? l : -l))
                {
                    cuts.Add((i - 1 + ((limit - a) / (b - a))) * StepMin / 60);
                }
            }

            crossings[d] = [.. cuts];
            double[] edges = [0, .. cuts, 24];
            phases[d] = [.. Enumerable.Range(0, edges.Length - 1).Select(k => PhaseOf(AltitudeAt((edges[k] + edges[k + 1]) / 2)))];
            shade[d] = [];
            first[d] = last[d] = double.NaN;
            if (horizon is not null)
            {
                double begin = double.NaN;
                double before = double.NaN;
                for (int i = 0; i < n; i++)
                {
                    double altitude = sun[i].AltitudeDeg;
                    double over = altitude - horizon.AltitudeDeg(sun[i].AzimuthDeg);
                    bool up = altitude > Limits[0], hidden = up && over < 0;
                    double h = i * StepMin / 60.0;
                    double edge = i > 0 && Math.Sign(over) != Math.Sign(before) && over != before ? (i - 1 + (-before / (over - before))) * StepMin / 60 : h;
                    if (hidden && double.IsNaN(begin))
                    {
                        begin = before > 0 ? edge : h;
                    }
                    else if (!hidden && !double.IsNaN(begin))
                    {
                        shade[d].Add((begin, up ? edge : h));
                        begin = double.NaN;
                    }

                    if (up && !hidden)
                    {
                        first[d] = double.IsNaN(first[d]) ? edge : first[d];
                        last[d] = h;
                    }

                    before = over;
                }

                if (!double.IsNaN(begin))
                {
                    shade[d].Add((begin, 24));
                }
            }

            double AltitudeAt(double h)
            {
                double x = h * 60 / StepMin;
                int i = Math.Min((int)x, n - 2);
                return sun[i].AltitudeDeg + ((sun[i + 1].AltitudeDeg - sun[i].AltitudeDeg) * (x - i));
            }
        }

        return new Year(crossings, phases, shade, first, last);

        static LightPhase PhaseOf(double altitude)
            => altitude >= Limits[0] ? LightPhase.Day : altitude >= Limits[1] ? LightPhase.CivilTwilight : altitude >= Limits[2] ? LightPhase.NauticalTwilight : altitude >= Limits[3] ? LightPhase.AstronomicalTwilight : LightPhase.Night;
    }

    private static void Draw(Sheet sheet, string title, GeoPoint place, ZoneOffsets zone, int year, Year data, HorizonProfile? horizon, RidePlan? ride)
    {
        int days = data.Crossings.Length;
        string clock = $"clock of the place ({zone.Id.Replace("UTC-", "UTC\u2212", StringComparison.Ordinal)})";
        SKRect room = sheet.Page(
            title,
            string.Create(CultureInfo.InvariantCulture, $"{Math.Abs(place.LatDeg):F3}° {(place.LatDeg < 0 ? "S" : "N")}, {Math.Abs(place.LonDeg):F3}° {(place.LonDeg < 0 ? "W" : "E")}; {clock}"),
            horizon is null ? "Not shown: terrain shade (no terrain given). Real ridges cut the light short." : "Shade of the terrain changes warmth and ice, not twilight; clouds and trees are not shown.");
        var box = new SKRect(room.Left + Gutter, room.Top + 14, room.Right - Side, room.Bottom - 28);
        var panel = new Panel(sheet, box, (0, days), (0, 24));

        // Each phase is one path of upright strips, slightly wider than a day so that no seams show.
        foreach (LightPhase phase in new[] { LightPhase.Night, LightPhase.AstronomicalTwilight, LightPhase.NauticalTwilight, LightPhase.CivilTwilight })
        {
            panel.Paint(canvas =>
            {
                using var path = new SKPath();
                for (int d = 0; d < days; d++)
                {
                    double[] edges = [0, .. data.Crossings[d], 24];
                    for (int k = 0; k < edges.Length - 1; k++)
                    {
                        if (data.PhaseOf[d][k] == phase)
                        {
                            path.AddRect(new SKRect(panel.X(d), panel.Y(edges[k + 1]), panel.X(d + 1) + 0.6f, panel.Y(edges[k])));
                        }
                    }
                }

                using var fill = new SKPaint { Color = Ink.Sky[(int)phase], IsAntialias = true };
                canvas.DrawPath(path, fill);
            });
        }

        if (horizon is not null)
        {
            panel.Paint(canvas =>
            {
                using var path = new SKPath();
                for (int d = 0; d < days; d++)
                {
                    foreach ((double from, double to) in data.Shade[d])
                    {
                        path.AddRect(new SKRect(panel.X(d), panel.Y(to), panel.X(d + 1) + 0.6f, panel.Y(from)));
                    }
                }

                Sheet.HatchOn(canvas, path, Hatching.Falling, Ink.Black, 6, 0.9f);
            });
        }

        var months = Enumerable.Range(1, 12).Select(m => ((double)new DateOnly(year, m, 1).DayOfYear - 1, "")).ToList();
        panel.Across(months, false);
        foreach (int m in Enumerable.Range(1, 12))
        {
            double middle = new DateOnly(year, m, 1).DayOfYear - 1 + (DateTime.DaysInMonth(year, m) / 2.0);
            sheet.Text(CultureInfo.InvariantCulture.DateTimeFormat.GetAbbreviatedMonthName(m), panel.X(middle), box.Bottom + 18, side: TextSide.Middle);
        }

        panel.Upward([.. Enumerable.Range(0, 9).Select(k => (k * 3.0, $"{k * 3:00}:00"))]);

        // Civil dawn and dusk, and the sun's own rise and set, as lines where they are single.
        Edge(Limits[0], Ink.Black, 1.5f, null);
        Edge(Limits[1], Ink.Plum, 1.9f, [7, 3]);
        int lastDay = days - 1;
        var side = new List<(float Y, string Text, bool Bold)>();
        double[] end = [0, .. data.Crossings[lastDay], 24];
        for (int k = 0; k < end.Length - 1; k++)
        {
            if (end[k + 1] - end[k] > 0.15)
            {
                side.Add((panel.Y((end[k] + end[k + 1]) / 2), Courses.PhaseNames[(int)data.PhaseOf[lastDay][k]], false));
            }

            if (k > 0 && Boundary(data.PhaseOf[lastDay][k - 1], data.PhaseOf[lastDay][k]) is { } word)
            {
                side.Add((panel.Y(end[k]), word, true));
            }
        }

        if (ride is not null && ride.Start.Year == year)
        {
            int d = ride.Start.DayOfYear - 1;
            double from = ride.Start.TimeOfDay.TotalHours;
            double to = ride.Finish is { } f ? from + (f.Typical - ride.Start).TotalHours : from;
            float px = panel.X(d + 0.5);

            // A ride past midnight goes on at the foot of the next day.
            (int Day, double From, double To)[] parts = [.. Enumerable.Range(0, (int)(Math.Max(to, from) / 24) + 1)
                .Select(k => (d + k, k == 0 ? from : 0, Math.Min(24, Math.Max(to, from + 0.05) - (24 * k)))).Where(p => p.Item1 < days)];
            panel.Paint(canvas =>
            {
                using SKPaint halo = Sheet.Stroke(Ink.Paper, 7);
                using SKPaint ink = Sheet.Stroke(Ink.Black, 3);
                foreach (SKPaint pen in new[] { halo, ink })
                {
                    foreach (var p in parts)
                    {
                        canvas.DrawLine(panel.X(p.Day + 0.5), panel.Y(p.From), panel.X(p.Day + 0.5), panel.Y(p.To), pen);
                    }
                }
            });
            string text = $"this ride, {Words.Day(ride.Start.DateTime)}";
            bool leftward = px > box.MidX;
            sheet.Text(text, px + (leftward ? -8 : 8), panel.Y((from + parts[0].To) / 2) + 4, 12, true, side: leftward ? TextSide.Right : TextSide.Left, halo: true);
        }

        panel.Name("Hour of the day", room.Left, 40);
        panel.Done();
        if (horizon is not null)
        {
            side.Add((box.Top + 6, "hatched: sun behind terrain", false));
        }

        float[] at = Sheet.Spread([.. side.Select(l => l.Y + 4)], 14, box.Top + 9, box.Bottom);
        for (int i = 0; i < side.Count; i++)
        {
            sheet.Text(Sheet.Fit(side[i].Text, Side - 16, 11.5f, side[i].Bold), box.Right + 14, at[i], 11.5f, side[i].Bold);
            if (!side[i].Text.StartsWith("hatched", StringComparison.Ordinal))
            {
                sheet.Line(box.Right + 2, side[i].Y, box.Right + 11, at[i] - 4, Ink.Soft, 0.8f);
            }
        }

        void Edge(double limit, SKColor color, float width, float[]? dash)
        {
            foreach (bool morning in new[] { true, false })
            {
                var x = new double[days];
                var y = new double[days];
                for (int d = 0; d < days; d++)
                {
                    x[d] = d + 0.5;
                    y[d] = double.NaN;
                    double[] own = [.. data.Crossings[d].Where((_, k) => IsLimit(data.PhaseOf[d][k], data.PhaseOf[d][k + 1], limit))];
                    int at0 = Array.FindIndex(data.Crossings[d], c => own.Contains(c));
                    if (own.Length == 2)
                    {
                        y[d] = morning ? own[0] : own[1];
                    }
                    else if (own.Length == 1)
                    {
                        bool rising = data.PhaseOf[d][at0 + 1] < data.PhaseOf[d][at0];
                        y[d] = rising == morning ? own[0] : double.NaN;
                    }

                    // A jump over midnight is no line.
                    if (d > 0 && Math.Abs(y[d] - y[d - 1]) > 6)
                    {
                        y[d - 1] = double.NaN;
                    }
                }

                panel.Line(x, y, color, width, dash);
            }
        }
    }

    private static bool IsLimit(LightPhase a, LightPhase b, double limit)
        => limit == Limits[0] ? Math.Min((int)a, (int)b) == 0 && a != b : Math.Max((int)a, (int)b) == 2 && Math.Min((int)a, (int)b) == 1;

    private static string? Boundary(LightPhase a, LightPhase b)
        => IsLimit(a, b, Limits[0]) ? (b < a ? "sunrise" : "sunset") : IsLimit(a, b, Limits[1]) ? (b < a ? "civil dawn (dashed)" : "civil dusk (dashed)") : null;

    private static string Tell(GeoPoint place, ZoneOffsets zone, DaylightRange range, Year data, HorizonProfile? horizon, RidePlan? ride)
    {
        string D(DateOnly d) => d.ToString("d MMMM", CultureInfo.InvariantCulture);
        string E(DaylightExtreme? e) => e is { } x ? $"{Words.Clock(zone.ToLocal(x.At))} on {D(x.Date)}" : "never";
        var s = new List<string>
        {
            string.Create(CultureInfo.InvariantCulture, $"At {place.LatDeg:F4}, {place.LonDeg:F4}, on the clock of the place ({zone.Id})."),
            $"Longest day {D(range.LongestDay)} with {Words.Span(range.LongestDayLength)} of sun above a free horizon, shortest {D(range.ShortestDay)} with {Words.Span(range.ShortestDayLength)}.",
            $"Earliest civil dusk {E(range.EarliestCivilDusk)}, latest {E(range.LatestCivilDusk)}; earliest civil dawn {E(range.EarliestCivilDawn)}, latest {E(range.LatestCivilDawn)}.",
        };
        if (range.DaysWithoutCivilDusk > 0)
        {
            s.Add($"{range.DaysWithoutCivilDusk} days have no civil dusk.");
        }

        if (horizon is null)
        {
            s.Add("Terrain shade is not shown: no terrain was given.");
        }
        else
        {
            double hours = data.Shade.Sum(d => d.Sum(x => x.To - x.From));
            int never = data.FirstSunH.Count(double.IsNaN);
            s.Add($"Terrain hides the sun for {Words.Number(hours / data.Shade.Length, 1)} h a day on average" + (never > 0 ? $"; {never} days see no direct sun." : "."));
        }

        if (ride is not null)
        {
            s.Add($"The ride of {Words.Date(ride.Start)} from {Words.Clock(ride.Start)}{(ride.Finish is { } f ? $" to {Words.ClockOn(f.Typical, ride.Start)}" : "")} is marked.");
        }

        return string.Join(' ', s);
    }
}
