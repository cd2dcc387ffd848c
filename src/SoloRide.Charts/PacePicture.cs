using SkiaSharp;
using SoloRide.Effort;

namespace SoloRide.Charts;

/// <summary>Ridden against expected moving time of own legs, before and after learning.</summary>
internal static class PacePicture
{
    private const float Gutter = 92, Side = 330;

    private sealed record Leg(string Ride, double RiddenMin, Estimate<double> Before, Estimate<double> After);

    public static Picture Make(RideHistory rides, PictureOptions options)
    {
        Leg[] legs = [.. rides.Legs.Select(l => new Leg(l.RideId, l.Moving.TotalMinutes, Minutes(rides.Before, l), Minutes(rides.After, l)))];
        return new Picture("pace", "Own pace: ridden and expected", Tell(rides, legs), options, sheet => Draw(sheet, rides, legs));

        static Estimate<double> Minutes(PaceModel model, TimedLeg leg)
        {
            Estimate<TimeSpan> t = model.Along(leg.Steps).Moving;
            return Estimate.Of(t.Typical.TotalMinutes, t.Low.TotalMinutes, t.High.TotalMinutes);
        }
    }

    private static double Off(IEnumerable<Leg> legs, Func<Leg, double> expected)
    {
        double[] logs = [.. legs.Select(l => Math.Abs(Math.Log(l.RiddenMin / expected(l)))).Order()];
        int n = logs.Length;
        double middle = n % 2 == 1 ? logs[n / 2] : (logs[(n / 2) - 1] + logs[n / 2]) / 2;
        return Math.Exp(middle) - 1;
    }

    private static double Inside(IEnumerable<Leg> legs, Func<Leg, Estimate<double>> expected)
        => legs.Average(l => l.RiddenMin >= expected(l).Low && l.RiddenMin <= expected(l).High ? 1.0 : 0);

    private static void Draw(Sheet sheet, RideHistory rides, Leg[] legs)
    {
        int count = legs.Select(l => l.Ride).Distinct().Count();
        SKRect room = sheet.Page(
            "Own pace: ridden and expected",
            $"Moving time of {legs.Length} {(legs.Length == 1 ? "leg" : "legs")} from {count} {(count == 1 ? "ride" : "rides")}; on the line the ride took what was expected",
            "The legs that were learned from fit better than new ones will; the error of rides held out is the honest one.");
        var box = new SKRect(room.Left + Gutter, room.Top + 8, room.Right - Side, room.Bottom - 36);
        double[] all = [.. legs.SelectMany(l => new[] { l.RiddenMin, l.Before.Typical, l.After.Low, l.After.High })];
        double low = Math.Log(all.Min() / 1.15), high = Math.Log(all.Max() * 1.15);
        var panel = new Panel(sheet, box, (low, high), (low, high));
        var ticks = Ticks(all.Min() / 1.15, all.Max() * 1.15);
        panel.Area([low, high], [low + Math.Log(1 / 1.1), high + Math.Log(1 / 1.1)], [low + Math.Log(1.1), high + Math.Log(1.1)], Ink.Ground);
        panel.Across(ticks);
        panel.Upward(ticks);
        panel.Line([low, high], [low, high], Ink.Black, 1.8f);
        panel.Paint(canvas =>
        {
            using SKPaint thin = Sheet.Stroke(Ink.Ochre, 1.8f);
            using SKPaint heavy = Sheet.Stroke(Ink.Black, 2.2f);
            using SKPaint range = Sheet.Stroke(Ink.Plum.WithAlpha(0x80), 1);
            foreach (Leg l in legs)
            {
                float y = panel.Y(Math.Log(l.RiddenMin));
                canvas.DrawLine(panel.X(Math.Log(l.After.Low)), y, panel.X(Math.Log(l.After.High)), y, range);
            }

            foreach (Leg l in legs)
            {
                float y = panel.Y(Math.Log(l.RiddenMin));
                Saltire(canvas, panel.X(Math.Log(l.Before.Typical)), y, thin);
                Plus(canvas, panel.X(Math.Log(l.After.Typical)), y, heavy);
            }
        });
        panel.Name("Ridden, moving time", room.Left, Gutter - 40);
        panel.Done();
        sheet.Text("expected, moving time", box.Right, box.Bottom + 33, 11, color: Ink.Soft, side: TextSide.Right);
        sheet.Text("slower than expected", box.Left + 12, box.Top + 22, 11.5f, color: Ink.Soft, halo: true);
        sheet.Text("faster than expected", box.Right - 12, box.Bottom - 12, 11.5f, color: Ink.Soft, side: TextSide.Right, halo: true);

        float x = box.Right + 26, yy = box.Top + 14;
        Text("What the marks mean", true);
        using (SKPaint thin = Sheet.Stroke(Ink.Ochre, 1.8f))
        {
            Saltire(sheet.Canvas, x + 10, yy - 4, thin);
        }

        sheet.Text("expected before learning", x + 30, yy);
        yy += 20;
        using (SKPaint heavy = Sheet.Stroke(Ink.Black, 2.2f))
        {
            Plus(sheet.Canvas, x + 10, yy - 4, heavy);
        }

        sheet.Text("expected after learning", x + 30, yy);
        yy += 20;
        sheet.Line(x, yy - 4, x + 22, yy - 4, Ink.Plum, 1);
        sheet.Text("its range, 8 legs in 10", x + 30, yy);
        yy += 20;
        sheet.Fill(new SKRect(x, yy - 10, x + 22, yy + 1), Ink.Ground);
        sheet.Text("within 10 % of expected", x + 30, yy);
        yy += 32;
        Text("How far off, middle leg", true);
        Text($"before learning: {Words.Percent(Off(legs, l => l.Before.Typical))}", false);
        Text($"after learning: {Words.Percent(Off(legs, l => l.After.Typical))}", false);
        PaceCalibration? c = rides.After.Options.Calibration;
        if (c?.HeldOutErrorFraction is { } held)
        {
            Text($"rides held out: {Words.Percent(held)}{(c.PriorErrorFraction is { } prior ? $", without learning {Words.Percent(prior)}" : "")}", false);
        }

        yy += 12;
        Text("Inside the range of 8 in 10", true);
        Text($"before: {Words.Percent(Inside(legs, l => l.Before))} of legs; after: {Words.Percent(Inside(legs, l => l.After))}", false);
        yy += 12;
        Text("Sustained effort", true);
        Text($"before {Words.Number((double)rides.Before.Effort.Power.Typical.Watts, 0)} W, after {Words.Number((double)rides.After.Effort.Power.Typical.Watts, 0)} W", false);

        void Text(string text, bool bold)
        {
            foreach (string line in Sheet.Wrap(text, Side - 30, 12, bold))
            {
                sheet.Text(line, x, yy, 12, bold);
                yy += bold ? 20 : 18;
            }
        }
    }

    private static void Saltire(SKCanvas canvas, float x, float y, SKPaint paint)
    {
        canvas.DrawLine(x - 4, y - 4, x + 4, y + 4, paint);
        canvas.DrawLine(x - 4, y + 4, x + 4, y - 4, paint);
    }

    private static void Plus(SKCanvas canvas, float x, float y, SKPaint paint)
    {
        canvas.DrawLine(x - 6, y, x + 6, y, paint);
        canvas.DrawLine(x, y - 6, x, y + 6, paint);
    }

    private static List<(double At, string Text)> Ticks(double fromMin, double toMin)
    {
        double[] all = [0.5, 1, 2, 3, 5, 7, 10, 15, 20, 30, 45, 60, 90, 120, 180, 240, 360, 480, 720, 960, 1440, 2880, 5760];
        return [.. all.Where(m => m >= fromMin && m <= toMin).Select(m => (Math.Log(m), m < 1 ? "30 s" : m < 60 ? Words.Number(m, 0) + " min" : m % 60 == 0 ? Words.Number(m / 60, 0) + " h" : Words.Number(m / 60, 1) + " h"))];
    }

    private static string Tell(RideHistory rides, Leg[] legs)
    {
        PaceCalibration? c = rides.After.Options.Calibration;
        var s = new List<string>
        {
            $"{legs.Length} legs from {legs.Select(l => l.Ride).Distinct().Count()} rides, ridden moving time over expected moving time on logarithmic axes.",
            $"The middle leg is off by {Words.Percent(Off(legs, l => l.Before.Typical))} before learning and by {Words.Percent(Off(legs, l => l.After.Typical))} after.",
            $"{Words.Percent(Inside(legs, l => l.Before))} of legs lie inside the range of 8 in 10 before, {Words.Percent(Inside(legs, l => l.After))} after.",
        };
        if (c?.HeldOutErrorFraction is { } held)
        {
            s.Add($"Rides held out are off by {Words.Percent(held)}{(c.PriorErrorFraction is { } p ? $", without learning by {Words.Percent(p)}" : "")}.");
        }

        s.Add("The legs that were learned from fit better than new ones will.");
        return string.Join(' ', s);
    }
}
