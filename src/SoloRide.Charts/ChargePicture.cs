using SkiaSharp;
using SoloRide.Batteries;
using SoloRide.Daylight;
using SoloRide.Planning;

namespace SoloRide.Charts;

/// <summary>Charge of each device over the ride and the night after.</summary>
internal static class ChargePicture
{
    private const float Gutter = 92, Side = 216;

    public static Picture Make(RidePlan plan, PowerPlan power, PictureOptions options)
        => new("charge", $"{plan.Title}: charge of every device", Tell(plan, power), options, sheet => Draw(sheet, plan, power));

    private static double EndH(PowerPlan power) => Math.Max(0.5, power.Devices.SelectMany(d => d.Charge).Max(c => c.At.TotalHours));

    private static double At(DevicePower d, double h)
        => 100 * Courses.At([.. d.Charge.Select(c => c.At.TotalHours)], [.. d.Charge.Select(c => c.ChargeFraction)], h);

    private static void Draw(Sheet sheet, RidePlan plan, PowerPlan power)
    {
        double finish = power.Ride.TotalHours, end = EndH(power);
        SKRect room = sheet.Page(
            $"{plan.Title}: charge of every device",
            $"Stored charge at typical use, start {Words.Date(plan.Start)} {Words.Clock(plan.Start)} ({Words.Zone(plan.Start)}), to a finish that {LateWords(plan)}, then an unplanned night out",
            "What cold and the cut-off leave usable can be less than what is stored: see the chance beside each name, with the bank where there is one.");
        bool bank = power.TopUps.Count > 0;
        float lower = 36 + 22 + (bank ? 8 + (15 * Math.Min(6, power.TopUps.Count)) : 0);
        var box = new SKRect(room.Left + Gutter, room.Top + 18, room.Right - Side, room.Bottom - lower);
        var panel = new Panel(sheet, box, (0, end), (0, 103));
        if (end > finish + 0.01)
        {
            panel.Block(finish, end, 0, 103, null, Hatching.Falling, Ink.Rule, 8);
            sheet.Text("riding", panel.X(finish / 2), box.Top - 6, 11.5f, side: TextSide.Middle);
            sheet.Text("unplanned night out", panel.X((finish + end) / 2), box.Top - 6, 11.5f, side: TextSide.Middle);
        }

        panel.Across(Marks.Clock(plan.Start, plan.Zone, 0, end, 12));
        panel.Upward([.. Enumerable.Range(0, 6).Select(k => (20.0 * k, Words.Percent(0.2 * k)))]);
        panel.Paint(canvas =>
        {
            using SKPaint ink = Sheet.Stroke(Ink.Black, 1.4f);
            canvas.DrawLine(panel.X(finish), box.Top, panel.X(finish), box.Bottom, ink);
        });
        var labels = new List<(float Y, int Device)>();
        foreach ((int i, DevicePower d) in power.Devices.Index())
        {
            var look = LineLooks.Of(i);
            panel.Line([.. d.Charge.Select(c => c.At.TotalHours)], [.. d.Charge.Select(c => 100 * c.ChargeFraction)], look.Color, look.Width, look.Dash);
            labels.Add((panel.Y(At(d, end)), i));
        }

        panel.Name("Charge left", room.Left, Gutter - 44);
        panel.Done();

        float[] at = Sheet.Spread([.. labels.Select(l => l.Y)], 46, box.Top + 10, box.Bottom - 26);
        foreach ((float y, int i) in labels)
        {
            DevicePower d = power.Devices[i];
            var look = LineLooks.Of(i);
            float x = box.Right + 12, ly = at[i];
            sheet.Line(box.Right + 1, y, x, ly - 4, look.Color, 1);
            sheet.Line(x, ly - 4, x + 34, ly - 4, look.Color, look.Width, look.Dash);
            sheet.Text(Sheet.Fit(Face.CanWrite(d.Device.Name) ? d.Device.Name : $"device {i + 1}", Side - 56, 12, true), x + 40, ly, 12, true, look.Color);
            sheet.Text($"{Words.Number(At(d, finish), 0)} % at the finish, {Words.Number(At(d, end), 0)} % at the end", x, ly + 15, 11);
            if (!double.IsNaN(d.LastsNightWithBankProbability))
            {
                sheet.Text($"lasts all of it: {Chance(d.LastsNightWithBankProbability)}", x, ly + 28, 11);
            }
        }

        // Light of the sky.
        float sky = box.Bottom + 30;
        GeoPoint place = plan.Trace.Count > 0 ? plan.Trace[^1].Place : plan.Route.Start;
        foreach (var p in Courses.Phases(plan.Start, 0, end, place))
        {
            var strip = new SKRect(panel.X(p.FromH), sky, panel.X(p.ToH), sky + 15);
            sheet.Fill(strip, Ink.Sky[(int)p.Phase]);
            string name = Courses.PhaseNames[(int)p.Phase];
            if (Sheet.WidthOf(name, 11) < strip.Width - 6)
            {
                sheet.Text(name, strip.MidX, sky + 12, 11, side: TextSide.Middle, color: p.Phase == LightPhase.Night ? Ink.Paper : Ink.Black);
            }
        }

        using (SKPaint frame = Sheet.Stroke(Ink.Frame, 0.8f))
        {
            sheet.Canvas.DrawRect(new SKRect(box.Left, sky, box.Right, sky + 15), frame);
        }

        sheet.Text("Light", room.Left, sky + 12, 12, true);
        if (bank)
        {
            float y = sky + 27;
            sheet.Text("On the bank", room.Left, y + 10, 12, true);
            foreach (TopUp t in power.TopUps.Take(6))
            {
                float x0 = panel.X(t.From.TotalHours), x1 = Math.Max(panel.X(Math.Min(end, t.To.TotalHours)), x0 + 3);
                var bar = new SKRect(x0, y + 1, x1, y + 11);
                sheet.Hatch(bar, Hatching.Rising, Ink.Black, 4);
                using SKPaint frame = Sheet.Stroke(Ink.Black, 1);
                sheet.Canvas.DrawRect(bar, frame);
                string text = $"{t.Device}, {Words.ClockOn(plan.Zone.ToLocal(plan.Start + t.From), plan.Start)} to {Words.ClockOn(plan.Zone.ToLocal(plan.Start + t.To), plan.Start)}";
                float w = Sheet.WidthOf(text, 11);
                bool fits = x1 + 6 + w < sheet.Width - Sheet.Margin;
                sheet.Text(text, fits ? x1 + 6 : x0 - 6, y + 10, 11, side: fits ? TextSide.Left : TextSide.Right);
                y += 15;
            }
        }
    }

    /// <summary>The ride of this picture is a slow one: its finish is not exceeded at the level of the plan.</summary>
    private static string LateWords(RidePlan plan) => $"{Words.Number(plan.ConfidenceLevel * 10, plan.ConfidenceLevel * 10 % 1 > 0.001 ? 1 : 0)} of 10 rides reach sooner";

    private static string Chance(double p) => p >= 0.995 ? "above 99 %" : p <= 0.005 ? "below 1 %" : Words.Percent(p);

    private static string Tell(RidePlan plan, PowerPlan power)
    {
        double finish = power.Ride.TotalHours, end = EndH(power);
        var s = new List<string>
        {
            $"From the start at {Words.Clock(plan.Start)} over a late finish at {Words.ClockOn(plan.Zone.ToLocal(plan.Start.AddHours(finish)), plan.Start)} ({LateWords(plan)}) to the end of an unplanned night at {Words.ClockOn(plan.Zone.ToLocal(plan.Start.AddHours(end)), plan.Start)}, at typical use.",
        };
        s.AddRange(power.Devices.Select(d =>
            $"{d.Device.Name}: {Words.Number(At(d, 0), 0)} % at the start, {Words.Number(At(d, finish), 0)} % at the finish, {Words.Number(At(d, end), 0)} % at the end"
            + (double.IsNaN(d.LastsNightWithBankProbability) ? "." : $", lasts through the night with chance {Chance(d.LastsNightWithBankProbability)}.")));
        s.AddRange(power.TopUps.Select(t => $"{t.Device} hangs on the bank from {Words.ClockOn(plan.Zone.ToLocal(plan.Start + t.From), plan.Start)} to {Words.ClockOn(plan.Zone.ToLocal(plan.Start + t.To), plan.Start)}."));
        if (power.FirstToFail is { } first)
        {
            s.Add($"First to fail: {first}.");
        }

        return string.Join(' ', s);
    }
}
