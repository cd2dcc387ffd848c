using SkiaSharp;
using SoloRide.Planning;

namespace SoloRide.Charts;

/// <summary>Margins over the start, in panels by unit, above a strip of verdicts.</summary>
internal static class StartsPicture
{
    private const float Gutter = 104, Side = 224;

    private sealed record Course(string Name, int Unit, double[] InHand);

    public static Picture Make(StartSweep sweep, ZoneOffsets zone, string title, PictureOptions options)
    {
        var words = new Words(options.Units);
        List<Course> courses = Read(sweep, words);
        string name = title.Length > 0 ? $"{title}: when to start" : "When to start";
        return new Picture("starts", name, Tell(sweep, zone, words, courses), options, sheet => Draw(sheet, sweep, zone, words, courses, name));
    }

    /// <summary>One course for each limit: its name without the place, since the place can move with the start.</summary>
    private static List<Course> Read(StartSweep sweep, Words words)
    {
        var found = new Dictionary<string, (int Unit, double[] Values)>(StringComparer.Ordinal);
        for (int i = 0; i < sweep.Outcomes.Count; i++)
        {
            foreach (PlanMargin m in sweep.Outcomes[i].Margins)
            {
                (int unit, double value) = m switch
                {
                    { Time: { } t } => (0, t.TotalHours),
                    { Water: { } w } => (1, words.Water(w)),
                    { Charge: { } c } => (2, c.WattHours),
                    _ => (-1, double.NaN),
                };
                if (unit < 0)
                {
                    continue;
                }

                string name = Short(m);
                if (!found.TryGetValue(name, out var entry))
                {
                    entry = (unit, [.. Enumerable.Repeat(double.NaN, sweep.Outcomes.Count)]);
                    found[name] = entry;
                }

                // Where one name stands for several places, the least counts.
                entry.Values[i] = double.IsNaN(entry.Values[i]) ? value : Math.Min(entry.Values[i], value);
            }
        }

        return [.. found.Select(f => new Course(f.Key, f.Value.Unit, f.Value.Values)).OrderBy(c => c.Unit).ThenBy(c => c.InHand.Where(double.IsFinite).Min()).ThenBy(c => c.Name, StringComparer.Ordinal)];

        static string Short(PlanMargin m)
        {
            string name = m.Name;
            foreach (string cut in new[] { " at the finish", " at ", " before ", " from km", " from mile" })
            {
                int at = name.IndexOf(cut, StringComparison.Ordinal);
                if (at > 0)
                {
                    name = name[..at];
                }
            }

            // The panel is named for the charge already.
            if (m.Charge is not null && name.StartsWith("charge of ", StringComparison.Ordinal))
            {
                name = name["charge of ".Length..].Replace(" through a night out", ", night out", StringComparison.Ordinal);
            }

            return m.AfterTrouble ? "after trouble: " + name : name;
        }
    }

    private static void Draw(Sheet sheet, StartSweep sweep, ZoneOffsets zone, Words words, List<Course> courses, string title)
    {
        DateTimeOffset zero = sweep.Outcomes[0].Start;
        double[] h = [.. sweep.Outcomes.Select(o => (o.Start - zero).TotalHours)];
        SKRect room = sheet.Page(title, $"What is in hand against each limit, for starts on {Words.Date(zone.ToLocal(zero))} ({Words.Zone(zone.ToLocal(zero))}); below the heavy line it is missing", "A start fits when every limit of the ride itself holds; limits after trouble make conditions.");
        float left = room.Left + Gutter, right = room.Right - Side;
        (double, double) x = (h[0], h[^1]);
        var ticks = Marks.Clock(zero, zone, h[0], h[^1], 12);

        // Verdicts.
        var strip = new SKRect(left, room.Top + 8, right, room.Top + 34);
        float half = sweep.Outcomes.Count > 1 ? (float)((h[1] - h[0]) / 2) : 0.5f;
        float X(double v) => (float)(left + ((Math.Clamp(v, x.Item1, x.Item2) - x.Item1) / (x.Item2 - x.Item1) * (right - left)));
        for (int i = 0; i < h.Length;)
        {
            int j = i;
            while (j + 1 < h.Length && sweep.Outcomes[j + 1].Kind == sweep.Outcomes[i].Kind)
            {
                j++;
            }

            var r = new SKRect(X(h[i] - half), strip.Top, X(h[j] + half), strip.Bottom);
            string word = Verdict(sweep.Outcomes[i].Kind);
            if (sweep.Outcomes[i].Kind == PlanVerdictKind.DoesNotFit)
            {
                sheet.Hatch(r, Hatching.Crossed, Ink.Black, 6, 1.1f);
            }
            else if (sweep.Outcomes[i].Kind == PlanVerdictKind.FitsIf)
            {
                sheet.Hatch(r, Hatching.Rising, Ink.Soft, 9);
            }
            else if (sweep.Outcomes[i].Kind == PlanVerdictKind.Refused)
            {
                sheet.Fill(r, Ink.Frame);
            }

            if (Sheet.WidthOf(word, 12, true) < r.Width - 8)
            {
                float half2 = (Sheet.WidthOf(word, 12, true) / 2) + 6;
                sheet.Fill(new SKRect(r.MidX - half2, r.Top + 3, r.MidX + half2, r.Bottom - 3), Ink.Paper);
                sheet.Text(word, r.MidX, r.MidY + 4, 12, true, side: TextSide.Middle);
            }

            i = j + 1;
        }

        using (SKPaint frame = Sheet.Stroke(Ink.Frame, 1))
        {
            sheet.Canvas.DrawRect(strip, frame);
        }

        sheet.Text("The plan", room.Left, strip.MidY + 4, 12, true);
        if (sweep.Best is { } best)
        {
            float bx = X((best.Start - zero).TotalHours);
            sheet.Line(bx, strip.Bottom, bx, strip.Bottom + 8, Ink.Black, 2);
            sheet.Text($"{(best.Kind is PlanVerdictKind.Fits or PlanVerdictKind.FitsIf ? "most in hand" : "least missing")}: {Words.ClockOn(zone.ToLocal(best.Start), zone.ToLocal(zero))}", right + 12, strip.MidY + 4, 12, true);
        }

        int[] units = [.. courses.Select(c => c.Unit).Distinct().Order()];
        float[] weights = [.. units.Select(u => u == 0 ? 2.1f : 1f)];
        float top = strip.Bottom + 16, bottom = room.Bottom - 36, free = bottom - top - (14 * (units.Length - 1));
        int look = 0;
        foreach ((int k, int unit) in units.Index())
        {
            Course[] own = [.. courses.Where(c => c.Unit == unit)];
            double[] all = [.. own.SelectMany(c => c.InHand).Where(double.IsFinite)];
            double low = Math.Min(0, all.Min()), high = Math.Max(0, all.Max()), pad = Math.Max(0.2, (high - low) * 0.08);
            var box = new SKRect(left, top, right, top + (free * weights[k] / weights.Sum()));
            top = box.Bottom + 14;
            var panel = new Panel(sheet, box, x, (low - pad, high + pad));
            panel.Block(x.Item1, x.Item2, panel.Y0, 0, null, Hatching.Falling, Ink.Rule, 7);
            panel.Across(ticks, k == units.Length - 1);
            panel.Upward(Marks.Round(panel.Y0, panel.Y1, k == 0 && unit == 0 ? 7 : 4));
            panel.Line([x.Item1, x.Item2], [0, 0], Ink.Black, 2.6f);
            var labels = new List<(float Y, string Text, bool Reaches, SKColor Color, float Width, float[]? Dash)>();
            foreach (Course c in own)
            {
                var style = LineLooks.Of(look++);
                panel.Line(h, c.InHand, style.Color, style.Width, style.Dash);
                int last = Array.FindLastIndex(c.InHand, double.IsFinite);

                // A limit that not every start meets ends where its line ends.
                string until = last == h.Length - 1 ? "" : ", to " + Words.ClockOn(zone.ToLocal(sweep.Outcomes[last].Start), zone.ToLocal(zero));
                labels.Add((panel.Y(c.InHand[last]), c.Name + until, until.Length == 0, style.Color, style.Width, style.Dash));
                for (int i = 0; i < h.Length; i++)
                {
                    // A start that alone meets the limit has no neighbour to draw a line to.
                    if (double.IsFinite(c.InHand[i]) && (i == 0 || double.IsNaN(c.InHand[i - 1])) && (i == h.Length - 1 || double.IsNaN(c.InHand[i + 1])))
                    {
                        float px = panel.X(h[i]), py = panel.Y(c.InHand[i]);
                        panel.Paint(canvas =>
                        {
                            using SKPaint ink = Sheet.Stroke(style.Color, 2.4f);
                            canvas.DrawLine(px - 5, py, px + 5, py, ink);
                        });
                    }
                }
            }

            panel.Name(unit switch { 0 => "Time in hand, h", 1 => $"Water in hand, {words.WaterUnit}", _ => "Charge in hand, Wh" }, room.Left, Gutter - 50);
            panel.Done();
            var texts = labels.Select(l => Sheet.Wrap(l.Text, Side - 52, 11.5f)).ToList();
            float[] at = Sheet.Spread([.. labels.Select(l => l.Y + 4)], Math.Min(30, box.Height / Math.Max(1, labels.Count)), box.Top + 9, box.Bottom - 8);
            for (int i = 0; i < labels.Count; i++)
            {
                var l = labels[i];
                float lx = right + 12;
                if (l.Reaches)
                {
                    sheet.Line(right + 1, l.Y, lx, at[i] - 4, l.Color, 1);
                }

                sheet.Line(lx, at[i] - 4, lx + 30, at[i] - 4, l.Color, l.Width, l.Dash);
                bool room2 = labels.Count * 30 <= box.Height + 16;
                if (texts[i].Count > 1 && room2)
                {
                    sheet.Text(texts[i][0], lx + 36, at[i], 11.5f);
                    sheet.Text(Sheet.Fit(string.Join(' ', texts[i].Skip(1)), Side - 52, 11.5f), lx + 36, at[i] + 13, 11.5f);
                }
                else
                {
                    sheet.Text(Sheet.Fit(l.Text, Side - 52, 11.5f), lx + 36, at[i], 11.5f);
                }
            }
        }

        if (units.Length == 0)
        {
            sheet.Text("No limit could be compared.", left, top + 20);
        }

        sheet.Text("start", right, room.Bottom - 4, 11, color: Ink.Soft, side: TextSide.Right);
    }

    private static string Verdict(PlanVerdictKind kind) => kind switch
    {
        PlanVerdictKind.Fits => "fits",
        PlanVerdictKind.FitsIf => "fits with conditions",
        PlanVerdictKind.DoesNotFit => "does not fit",
        _ => "not planned",
    };

    private static string Tell(StartSweep sweep, ZoneOffsets zone, Words words, List<Course> courses)
    {
        DateTimeOffset first = zone.ToLocal(sweep.Outcomes[0].Start), last = zone.ToLocal(sweep.Outcomes[^1].Start);
        string C(DateTimeOffset t) => Words.ClockOn(zone.ToLocal(t), first);
        var s = new List<string>
        {
            $"{sweep.Outcomes.Count} starts from {Words.Date(first)} {Words.Clock(first)} to {C(last)}.",
            sweep.Windows.Count == 0 ? "No start fits." : $"Starts that fit, with or without conditions: {string.Join(" and ", sweep.Windows.Select(w => w.From == w.To ? C(w.From) : $"{C(w.From)} to {C(w.To)}"))}.",
        };
        if (sweep.Best is { } best)
        {
            s.Add(best.Kind is PlanVerdictKind.Fits or PlanVerdictKind.FitsIf ? $"Most is in hand with a start at {C(best.Start)}." : $"Least is missing with a start at {C(best.Start)}.");
        }

        foreach (Course c in courses)
        {
            string unit = c.Unit switch { 0 => "h", 1 => words.WaterUnit, _ => "Wh" };
            int a = Array.FindIndex(c.InHand, double.IsFinite), b = Array.FindLastIndex(c.InHand, double.IsFinite);
            s.Add($"In hand, {c.Name}: {Words.Number(c.InHand[a], 1)} {unit} for {C(sweep.Outcomes[a].Start)}, {Words.Number(c.InHand[b], 1)} {unit} for {C(sweep.Outcomes[b].Start)}.");
        }

        return string.Join(' ', s);
    }
}
