using SkiaSharp;
using SoloRide.Exposure;
using SoloRide.Planning;

namespace SoloRide.Charts;

/// <summary>Heat strain and body water over the clock of the ride.</summary>
internal static class BodyPicture
{
    private const float Gutter = 104, Side = 196;

    // The limit that ISO 7933 sets for rectal temperature, and the loss from which performance suffers in most guidance.
    private const double RectalLimitC = 38, LossLevelFraction = 0.02;

    public static Picture Make(RidePlan plan, PictureOptions options)
    {
        var words = new Words(options.Units);
        return new Picture("body", $"{plan.Title}: heat strain and body water", Tell(plan, words), options, sheet => Draw(sheet, plan, words));
    }

    private static void Draw(Sheet sheet, RidePlan plan, Words words)
    {
        bool forecast = plan.Hours.Count > 0 && plan.Trace.Any(p => p.RectalTemperature is not null);
        SKRect room = sheet.Page(
            $"{plan.Title}: heat strain and body water",
            Courses.Head(plan, words) + ", typical run",
            forecast ? "Body temperature by ISO 7933 for an average healthy body at work in heat; a person can be far off. Not a medical judgement." : "Not shown: heat of the day and body temperature (no forecast given). A person can be far off what is shown. Not a medical judgement.");
        float left = room.Left + Gutter, right = room.Right - Side, bottom = room.Bottom - 36;
        double[] h = [.. plan.Trace.Select(p => Courses.H(plan, p.At))];
        (double, double) x = (0, h[^1]);
        var ticks = Marks.Clock(plan.Start, plan.Zone, 0, h[^1], 12);
        float free = bottom - room.Top - (forecast ? 42 : 14), y = room.Top + 2;
        Panel Track(float share, double low, double high)
        {
            var box = new SKRect(left, y, right, y + (free * share));
            y = box.Bottom + 14;
            return new Panel(sheet, box, x, (low, high));
        }

        if (forecast)
        {
            // Heat of the day.
            PlanHour[] hours = [.. plan.Hours.Where(o => Courses.H(plan, o.At) <= h[^1] + 1)];
            double[] wbgt = [.. hours.Select(o => words.Heat(o.WetBulbGlobe.DegreesCelsius))];
            double[] at = [.. hours.Select(o => Courses.H(plan, o.At))];
            double step = words.Us ? 9 : 5;
            Panel a = Track(0.26f, Math.Floor((wbgt.Min() - (step / 5)) / step) * step, Math.Ceiling((wbgt.Max() + (step / 5)) / step) * step);
            foreach ((int i, PlanHour o) in hours.Index())
            {
                double from = Math.Max(0, at[i] - 0.5), to = Math.Min(x.Item2, at[i] + 0.5);
                if (to <= from || o.Heat == HeatCategory.None)
                {
                    continue;
                }

                if (o.Heat >= HeatCategory.Four)
                {
                    a.Block(from, to, a.Y0, a.Y1, null, Hatching.Crossed, Ink.Ochre, 8);
                }
                else
                {
                    a.Block(from, to, a.Y0, a.Y1, null, Hatching.Rising, Ink.Rule, 9);
                }

                float middle = a.X((from + to) / 2);
                if (a.X(to) - a.X(from) > 16)
                {
                    sheet.Text(((int)o.Heat).ToString(System.Globalization.CultureInfo.InvariantCulture), middle, a.Box.Bottom - 6, 12, true, side: TextSide.Middle, halo: true);
                }
            }

            a.Across(ticks, false);
            a.Upward(Marks.Round(a.Y0, a.Y1, 4));
            a.Line(at, wbgt, Ink.Black, 2);
            a.Name($"Wet-bulb globe, {words.HeatUnit}", room.Left, Gutter - 46);
            a.Done();
            HeatCategory worst = hours.Max(o => o.Heat);
            Beside(a, [(a.Y(Courses.At(at, wbgt, x.Item2)), "in the open, middle height", false), (a.Box.Bottom - 10, worst == HeatCategory.None ? "no heat category reached" : "figures: heat category", true)]);

            // Body temperature.
            double[] rectal = [.. plan.Trace.Select(p => p.RectalTemperature is { } t ? words.Heat(t.DegreesCelsius) : double.NaN)];
            double low = Math.Min(words.Heat(36.5), rectal.Where(double.IsFinite).Min()), high = Math.Max(words.Heat(38.5), rectal.Where(double.IsFinite).Max() + (words.Us ? 0.4 : 0.2));
            Panel b = Track(0.28f, low, high);
            b.Across(ticks, false);
            b.Upward(Marks.Round(low, high, 4));
            b.Line([x.Item1, x.Item2], [words.Heat(RectalLimitC), words.Heat(RectalLimitC)], Ink.Plum, 1.8f, [7, 4]);
            b.Line(h, rectal, Ink.Black, 2.2f);
            b.Name($"Rectal tempera\u00ADture, {words.HeatUnit}".Replace("\u00AD", "", StringComparison.Ordinal), room.Left, Gutter - 40);
            b.Done();
            Beside(b, [(b.Y(rectal[^1]), "typical run", true), (b.Y(words.Heat(RectalLimitC)), $"{words.HeatText(RectalLimitC, 1)}: limit for work", false)]);
        }

        // Water of the body.
        double[] sweat = [.. plan.Trace.Select(p => words.Water(p.Sweat))];
        double[] drunk = [.. plan.Trace.Select(p => words.Water(p.Drunk))];
        double most = Math.Max(plan.Needs is { } n ? words.Water(n.Sweat.High) : 0, sweat[^1]);
        Panel c = Track(forecast ? 0.28f : 0.6f, 0, Math.Max(0.5, most * 1.08));
        c.Across(ticks, false);
        c.Upward(Marks.Round(0, c.Y1, 4));
        c.Area(h, drunk, sweat, null, Hatching.Upright, Ink.Frame, 6);
        c.Line(h, sweat, Ink.Black, 2.2f);
        c.Line(h, drunk, Ink.Plum, 2, [9, 4]);
        c.Name($"Since the start, {words.WaterUnit}", room.Left, Gutter - 40);
        if (plan.Needs is { } needs)
        {
            c.Paint(canvas =>
            {
                using SKPaint ink = Sheet.Stroke(Ink.Black, 1.6f);
                float px = c.X(x.Item2) - 3, y0 = c.Y(words.Water(needs.Sweat.Low)), y1 = c.Y(words.Water(needs.Sweat.High));
                canvas.DrawLine(px, y0, px, y1, ink);
                canvas.DrawLine(px - 4, y0, px + 2, y0, ink);
                canvas.DrawLine(px - 4, y1, px + 2, y1, ink);
            });
        }

        c.Done();
        var lines = new List<(float, string, bool)> { (c.Y(sweat[^1]), "sweat", true), (c.Y(drunk[^1]), "drunk (dashed)", true) };
        if (plan.Needs is { } need)
        {
            lines.Add((c.Y(words.Water(need.Sweat.High)), $"sweat, 8 in 10: {Words.Number(words.Water(need.Sweat.Low), 1)}\u2013{words.WaterText(need.Sweat.High)}", false));
        }

        lines.Add((c.Y((sweat[^1] + drunk[^1]) / 2), "striped: not drunk back", false));
        Beside(c, lines);

        double[] loss = [.. plan.Trace.Select(p => 100 * p.BodyWaterLossFraction)];
        Panel d = Track(forecast ? 0.18f : 0.4f, 0, Math.Max(2.6, loss.Max() * 1.15));
        d.Across(ticks);
        d.Upward(Marks.Round(0, d.Y1, 3));
        d.Line([x.Item1, x.Item2], [100 * LossLevelFraction, 100 * LossLevelFraction], Ink.Plum, 1.8f, [7, 4]);
        d.Line(h, loss, Ink.Black, 2.2f);
        d.Name("Not drunk back, % of body mass", room.Left, Gutter - 34);
        d.Done();
        Beside(d, [(d.Y(loss[^1]), "typical run", true), (d.Y(100 * LossLevelFraction), $"{Words.Number(100 * LossLevelFraction, 0)} %: usual level of concern", false)]);
        sheet.Text("clock", right, d.Box.Bottom + 32, 11, color: Ink.Soft, side: TextSide.Right);

        void Beside(Panel p, List<(float Y, string Text, bool Bold)> labels)
        {
            float[] at = Sheet.Spread([.. labels.Select(l => l.Y + 4)], 14, p.Box.Top + 9, p.Box.Bottom + 2);
            for (int i = 0; i < labels.Count; i++)
            {
                sheet.Text(Sheet.Fit(labels[i].Text, Side - 14, 11.5f, labels[i].Bold), p.Box.Right + 12, at[i], 11.5f, labels[i].Bold);
                sheet.Line(p.Box.Right + 2, labels[i].Y, p.Box.Right + 9, at[i] - 4, Ink.Soft, 0.8f);
            }
        }
    }

    private static string Tell(RidePlan plan, Words words)
    {
        PlanTracePoint end = plan.Trace[^1];
        var s = new List<string>();
        if (plan.Hours.Count > 0)
        {
            PlanHour[] hours = [.. plan.Hours.Where(o => o.At <= end.At)];
            if (hours.Length > 0)
            {
                PlanHour hottest = hours.MaxBy(o => o.WetBulbGlobe.DegreesCelsius)!;
                s.Add($"Wet-bulb globe temperature reaches {words.HeatText(hottest.WetBulbGlobe.DegreesCelsius)} at {Words.ClockOn(hottest.At, plan.Start)}, heat category {(int)hottest.Heat}.");
            }

            PlanTracePoint? top = plan.Trace.Where(p => p.RectalTemperature is not null).MaxBy(p => p.RectalTemperature!.Value.DegreesCelsius);
            if (top is not null)
            {
                double c = top.RectalTemperature!.Value.DegreesCelsius;
                s.Add($"Rectal temperature by ISO 7933 reaches {words.HeatText(c, 1)} at {Words.ClockOn(top.At, plan.Start)}, {(c >= RectalLimitC ? "at or above" : "below")} the limit of {words.HeatText(RectalLimitC, 1)} for work.");
            }
        }
        else
        {
            s.Add("Heat of the day and body temperature are not shown: no forecast was given.");
        }

        string sweat = plan.Needs is { } n ? $" ({Words.Number(words.Water(n.Sweat.Low), 1)} to {Words.Number(words.Water(n.Sweat.High), 1)} in 8 rides of 10)" : "";
        PlanTracePoint worst = plan.Trace.MaxBy(p => p.BodyWaterLossFraction)!;
        s.Add($"By the finish at {Words.ClockOn(end.At, plan.Start)}: sweat {words.WaterText(end.Sweat)}{sweat}, drunk {words.WaterText(end.Drunk)}.");
        s.Add($"What is not drunk back reaches {Words.Number(100 * worst.BodyWaterLossFraction, 1)} % of body mass at {Words.ClockOn(worst.At, plan.Start)}; {Words.Number(100 * LossLevelFraction, 0)} % is the usual level of concern.");
        return string.Join(' ', s);
    }
}
