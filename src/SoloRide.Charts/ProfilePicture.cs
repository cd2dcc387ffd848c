using SkiaSharp;
using SoloRide.Daylight;
using SoloRide.Exposure;
using SoloRide.Planning;

namespace SoloRide.Charts;

/// <summary>Four tracks over the distance: height, clock, water, way out.</summary>
internal static class ProfilePicture
{
    private const float Gutter = 104, Side = 150;

    public static Picture Make(RidePlan plan, ITerrainHeights? terrain, PictureOptions options)
    {
        var words = new Words(options.Units);
        bool[]? sun = terrain is null ? null : InSun(plan, terrain);
        var heat = Courses.Windows(plan, h => h.Heat >= HeatCategory.Four);
        var thunder = Courses.Windows(plan, h => h.ThunderProbability >= Courses.ThunderProbability);
        return new Picture("profile", $"{plan.Title}: height, clock, water and way out", Tell(plan, words, sun, heat, thunder), options, sheet => Draw(sheet, plan, words, sun, heat, thunder));
    }

    private static bool[] InSun(RidePlan plan, ITerrainHeights terrain)
    {
        // The Sun's course wants ascending instants; two points of one instant are one place in time.
        var at = new List<DateTimeOffset>();
        var places = new List<GeoPoint>();
        var from = new int[plan.Trace.Count];
        for (int i = 0; i < plan.Trace.Count; i++)
        {
            if (at.Count == 0 || plan.Trace[i].At > at[^1])
            {
                at.Add(plan.Trace[i].At);
                places.Add(plan.Trace[i].Place);
            }

            from[i] = at.Count - 1;
        }

        SunOnRoute sun = SunOnRoute.Along(at.ToArray(), places.ToArray(), terrain);
        return [.. from.Select(i => sun.InSun[i] || SolarPosition.At(at[i], places[i]).AltitudeDeg <= -0.8333)];
    }

    private static void Draw(Sheet sheet, RidePlan plan, Words words, bool[]? sun, List<(double FromH, double ToH)> heat, List<(double FromH, double ToH)> thunder)
    {
        var missing = new List<string>();
        if (sun is null)
        {
            missing.Add("terrain shade (no terrain given)");
        }

        if (plan.Hours.Count == 0)
        {
            missing.Add("heat and thunder (no forecast given)");
        }

        if (plan.Stations.All(s => s.WayOut is null))
        {
            missing.Add("way out (none known)");
        }

        string note = missing.Count > 0 ? "Not shown: " + string.Join(", ", missing) + "." : "";
        SKRect room = sheet.Page($"{plan.Title}: height, clock, water and way out", Courses.Head(plan, words), note);
        float left = room.Left + Gutter, right = room.Right - Side;
        float laneBottom = room.Top + 54;
        float bottom = room.Bottom - 36;
        float free = bottom - laneBottom - 36;
        double total = words.Far(plan.Length);
        var ticks = Marks.Round(0, total, 12);
        double[] far = [.. plan.Trace.Select(p => words.Far(p.AlongRoute))];
        (double, double) x = (0, Math.Max(total, far[^1]));

        float y = laneBottom;
        Panel Track(float share, double low, double high)
        {
            var box = new SKRect(left, y, right, y + (free * share));
            y = box.Bottom + 12;
            return new Panel(sheet, box, x, (low, high));
        }

        // Places.
        var lane = new LabelLane(sheet, left - 60, sheet.Width - Sheet.Margin, laneBottom, 3);
        var named = new List<double>();
        foreach (PlanStation s in plan.Stations.Where(s => s.Kind != StationKind.Mark).OrderBy(s => Courses.Rank(s.Kind)).ThenBy(s => s.AlongRoute.Meters))
        {
            double at = words.Far(s.AlongRoute);
            float px = (float)(left + (at / x.Item2 * (right - left)));
            if (lane.Put(Courses.Drawn(s, words), px, s.Kind is StationKind.Start or StationKind.Finish))
            {
                named.Add(at);
            }
        }

        if (lane.LeftOut > 0)
        {
            sheet.Text($"{lane.LeftOut} more {(lane.LeftOut == 1 ? "place" : "places")}: see the text", room.Left, laneBottom - 42, 10.5f, color: Ink.Soft);
        }

        // Height.
        double[] height = [.. plan.Trace.Select(p => words.Height(p.Place.ElevationM))];
        double least = height.Min(), most = height.Max(), pad = Math.Max(words.Height(30), (most - least) * 0.12);
        Panel a = Track(0.26f, least - (pad * 0.6), most + pad);
        Across(a, false);
        a.Upward(Marks.Round(a.Y0, a.Y1, 4));
        double[] floor = [.. height.Select(_ => a.Y0)];
        a.Area(far, floor, height, Ink.Ground);
        if (sun is not null)
        {
            foreach ((int from, int to) in Runs(sun, false))
            {
                int i0 = Math.Max(0, from - 1), n = to - i0 + 1;
                a.Area(far[i0..(i0 + n)], floor[..n], height[i0..(i0 + n)], null, Hatching.Falling, Ink.Soft, 6);
            }
        }

        a.Line(far, height, Ink.Black, 2);
        a.Name($"Height, {words.HeightUnit}", room.Left, Gutter - 56);
        if (sun is not null)
        {
            bool any = sun.Any(s => !s);
            if (any)
            {
                var key = new SKRect(right + 12, a.Box.Bottom - 40, right + 34, a.Box.Bottom - 26);
                sheet.Hatch(key, Hatching.Falling, Ink.Soft, 6);
                sheet.Text("terrain hides", key.Right + 6, key.Top + 5, 11);
                sheet.Text("the sun", key.Right + 6, key.Top + 18, 11);
            }
            else
            {
                sheet.Text("terrain never hides", right + 12, a.Box.Bottom - 34, 11);
                sheet.Text("the sun on the way", right + 12, a.Box.Bottom - 21, 11);
            }
        }

        Guides(a);
        a.Done();

        // Clock.
        double[] stationFar = [.. plan.Stations.Select(s => words.Far(s.AlongRoute))];
        double[] typical = [.. plan.Trace.Select(p => Courses.H(plan, p.At))];
        double[] low = Bound(s => s.Arrival.Low), high = Bound(s => s.Arrival.High);
        double[] latest = [.. plan.Stations.Select(s => s.LatestPass is { } t ? Courses.H(plan, t) : double.NaN)];
        double late = Math.Max(high.Max(), plan.LateFinish is { } lf ? Courses.H(plan, lf) : 0);
        double latestMost = latest.Where(double.IsFinite).DefaultIfEmpty(0).Max();
        double latestLeast = latest.Where(double.IsFinite).DefaultIfEmpty(0).Min();
        bool showLatest = latest.Any(double.IsFinite) && latestMost <= 1.7 * late && latestLeast >= -0.6 * late;
        double top = Math.Max(late, showLatest ? latestMost : 0) * 1.06;
        double base0 = Math.Min(0, latest.Where(h => showLatest && double.IsFinite(h)).DefaultIfEmpty(0).Min());
        Panel b = Track(0.38f, base0 - (0.02 * top), top);
        var phases = Courses.Phases(plan.Start, b.Y0, b.Y1, plan.Trace[plan.Trace.Count / 2].Place);
        foreach (var p in phases.Where(p => p.Phase != LightPhase.Day))
        {
            b.Block(x.Item1, x.Item2, p.FromH, p.ToH, Ink.Sky[(int)p.Phase]);
        }

        string sky = Courses.AllDay(plan);
        Across(b, false);
        b.Upward(Marks.Clock(plan.Start, plan.Zone, b.Y0, b.Y1, 6));
        var side = new List<(float Y, string Text, bool Bold)>();
        foreach (var w in heat)
        {
            b.Block(x.Item1, x.Item2, w.FromH, Math.Min(w.ToH, b.Y1), null, Hatching.Rising, Ink.Ochre, 9);
        }

        foreach (var w in thunder)
        {
            b.Block(x.Item1, x.Item2, w.FromH, Math.Min(w.ToH, b.Y1), null, Hatching.Crossed, Ink.Plum, 11);
        }

        b.Area(far, low, high, Ink.Band.WithAlpha(0xD8));
        b.Line(far, typical, Ink.Black, 2);
        side.Add((b.Y(typical[^1]), "typical arrival", true));
        side.Add((b.Y(high[^1]), "range: 8 rides in 10", false));
        if (showLatest)
        {
            b.Line(stationFar, latest, Ink.Plum, 2, [7, 4]);
            side.Add((b.Y(latest[^1]), "latest pass (dashed)", true));
        }
        else if (latest.Any(double.IsFinite))
        {
            // Far above or below the band: said in words, since drawing it would flatten everything else.
            PlanStation first = plan.Stations.First(s => s.LatestPass is not null);
            side.Add((latestLeast < 0 ? b.Box.Bottom : b.Box.Top, latestLeast < 0 ? $"latest start: {Words.DayOfMonth(plan.Zone.ToLocal(first.LatestPass!.Value).DateTime)} {Words.Clock(plan.Zone.ToLocal(first.LatestPass!.Value))}" : "latest pass: above this", true));
        }

        foreach (var w in heat.Where(w => w.FromH < b.Y1))
        {
            side.Add((b.Y((w.FromH + Math.Min(w.ToH, b.Y1)) / 2), "heat category 4 or 5", false));
        }

        foreach (var w in thunder.Where(w => w.FromH < b.Y1))
        {
            side.Add((b.Y((w.FromH + Math.Min(w.ToH, b.Y1)) / 2), $"thunder {Words.Percent(Courses.ThunderProbability)} or more", false));
        }

        foreach (var p in phases.Where(p => p.ToH - p.FromH > 0.02 * (b.Y1 - b.Y0)).Reverse().DistinctBy(p => p.Phase))
        {
            side.Add((b.Y((p.FromH + p.ToH) / 2), p.Phase == LightPhase.Day && sky.Length > 0 ? sky : Courses.PhaseNames[(int)p.Phase], false));
        }

        Beside(b, side);
        b.Name("Clock at each place", room.Left, Gutter - 44);
        Guides(b);
        b.Done();

        // Water.
        double[] water = [.. plan.Trace.Select(p => words.Water(p.WaterInHand))];
        double mostWater = Math.Max(water.Max(), plan.Stations.Max(s => words.Water(s.WaterInHand.High)));
        Panel c = Track(0.18f, 0, Math.Max(0.5, mostWater * 1.15));
        Across(c, false);
        c.Upward(Marks.Round(0, c.Y1, 3));
        c.Area(far, [.. water.Select(_ => 0.0)], water, null, Hatching.Upright, Ink.Frame, 6);
        c.Line(far, water, Ink.Black, 2);
        c.Paint(canvas =>
        {
            using SKPaint paint = Sheet.Stroke(Ink.Plum, 1.8f);
            foreach (PlanStation s in plan.Stations)
            {
                float px = c.X(words.Far(s.AlongRoute));
                float y0 = c.Y(words.Water(s.WaterInHand.Low)), y1 = c.Y(words.Water(s.WaterInHand.High));
                if (Math.Abs(y0 - y1) > 1)
                {
                    canvas.DrawLine(px, y0, px, y1, paint);
                    canvas.DrawLine(px - 3, y0, px + 3, y0, paint);
                    canvas.DrawLine(px - 3, y1, px + 3, y1, paint);
                }
            }
        });
        PlanStation dry = plan.Stations.Skip(1).MinBy(s => s.WaterInHand.Typical.Liters)!;
        Notes(c,
        [
            (c.Y(c.Y1 * 0.86), $"least: {words.WaterText(dry.WaterInHand.Typical)}", true),
            (c.Y(c.Y1 * 0.60), $"at {words.Place(dry.AlongRoute)} ({Words.Number(words.Water(dry.WaterInHand.Low), 1)}\u2013{Words.Number(words.Water(dry.WaterInHand.High), 1)})", false),
            (c.Y(c.Y1 * 0.34), "bars: range on arrival", false),
        ]);
        c.Name($"Water in hand, {words.WaterUnit}", room.Left, Gutter - 50);
        Guides(c);
        c.Done();

        // Way out.
        double[] way = [.. plan.Trace.Select(p => p.WayOut is { } w ? w.Typical.TotalHours : double.NaN)];
        double[] wayHigh = [.. plan.Trace.Select(p => p.WayOut is { } w ? w.High.TotalHours : double.NaN)];
        double mostWay = wayHigh.Where(double.IsFinite).DefaultIfEmpty(1).Max();
        Panel d = Track(0.18f, 0, Math.Max(0.5, mostWay * 1.3));
        Across(d, true);
        d.Upward(Marks.Round(0, d.Y1, 3));
        if (way.Any(double.IsFinite))
        {
            d.Area(far, [.. way.Select(_ => 0.0)], [.. way.Select(w => double.IsFinite(w) ? w : 0)], Ink.Ground);
            d.Line(far, way, Ink.Black, 2);
            d.Line(far, wayHigh, Ink.Soft, 1.4f, [2, 3]);
            ToExits(d);
            PlanTracePoint worst = plan.Trace.Where(p => p.WayOut is not null).MaxBy(p => p.WayOut!.Typical)!;
            Notes(d,
            [
                (d.Y(d.Y1 * 0.86), $"most: {Words.Span(worst.WayOut!.Typical)}", true),
                (d.Y(d.Y1 * 0.60), $"at {words.Place(worst.AlongRoute)}", false),
                (d.Y(d.Y1 * 0.34), "dotted: 9 in 10 are faster", false),
            ]);
        }

        else
        {
            sheet.Text("no way out is known", d.Box.MidX, d.Box.MidY + 4, 12, side: TextSide.Middle, halo: true);
        }

        d.Name("Way out on foot, h", room.Left, Gutter - 44);
        Guides(d);
        d.Done();
        sheet.Text($"distance along the route, {words.FarUnit}", right, d.Box.Bottom + 32, 11, color: Ink.Soft, side: TextSide.Right);

        void Across(Panel p, bool texts) => p.Across(ticks, texts);

        // Between two stations the bound keeps its share of the typical time since the start, so that the typical run stays inside its range.
        double[] Bound(Func<PlanStation, DateTimeOffset> of)
        {
            double[] at = [.. plan.Stations.Select(s => Courses.H(plan, of(s)))];
            double[] own = [.. plan.Stations.Select(s => Courses.H(plan, s.Arrival.Typical))];
            double[] share = [.. at.Select((h, i) => own[i] > 0 ? h / own[i] : double.NaN)];
            int first = Array.FindIndex(share, double.IsFinite);
            return first < 0
                ? typical
                : [.. far.Select((m, i) => typical[i] * Courses.At(stationFar[first..], share[first..], Math.Max(m, stationFar[first])))];
        }

        void Guides(Panel p) => p.Paint(canvas =>
        {
            using SKPaint paint = Sheet.Stroke(Ink.Soft.WithAlpha(0x90), 0.8f, [1.5f, 3]);
            foreach (double at in named)
            {
                canvas.DrawLine(p.X(at), p.Box.Top, p.X(at), p.Box.Bottom, paint);
            }
        });

        void ToExits(Panel p)
        {
            int from = 0;
            for (int i = 1; i <= plan.Trace.Count; i++)
            {
                if (i < plan.Trace.Count && plan.Trace[i].WayOutTo == plan.Trace[from].WayOutTo)
                {
                    continue;
                }

                float x0 = p.X(far[from]), x1 = p.X(far[i - 1]);
                string name = plan.Trace[from].WayOutTo;
                if (name.Length > 0 && x1 - x0 > 40)
                {
                    // Above the low of the curve, which lies at the way out itself.
                    string own = Courses.Drawn(plan, name, words), text = Sheet.WidthOf("to " + own, 11) <= x1 - x0 - 8 ? "to " + own : Sheet.Fit(own, x1 - x0 - 8, 11);
                    sheet.Text(text, (x0 + x1) / 2, p.Box.Top + 13, 11, side: TextSide.Middle, halo: true);
                }

                if (i < plan.Trace.Count)
                {
                    double cut = (far[i - 1] + far[i]) / 2;
                    p.Paint(canvas =>
                    {
                        using SKPaint paint = Sheet.Stroke(Ink.Black, 1.2f);
                        canvas.DrawLine(p.X(cut), p.Box.Top, p.X(cut), p.Box.Top + 12, paint);
                    });
                }

                from = i;
            }
        }

        void Notes(Panel p, List<(float Y, string Text, bool Bold)> lines)
            => lines.ForEach(l => sheet.Text(Sheet.Fit(l.Text, Side - 14, 11.5f, l.Bold), p.Box.Right + 12, l.Y + 4, 11.5f, l.Bold));

        void Beside(Panel p, List<(float Y, string Text, bool Bold)> labels)
        {
            float[] at = Sheet.Spread([.. labels.Select(l => l.Y + 4)], 14, p.Box.Top + 9, p.Box.Bottom);
            for (int i = 0; i < labels.Count; i++)
            {
                sheet.Text(Sheet.Fit(labels[i].Text, Side - 14, 11.5f, labels[i].Bold), p.Box.Right + 12, at[i], 11.5f, labels[i].Bold);
                sheet.Line(p.Box.Right + 2, labels[i].Y, p.Box.Right + 9, at[i] - 4, Ink.Soft, 0.8f);
            }
        }
    }

    private static IEnumerable<(int From, int To)> Runs(bool[] values, bool wanted)
    {
        for (int i = 0; i < values.Length; i++)
        {
            if (values[i] != wanted)
            {
                continue;
            }

            int j = i;
            while (j + 1 < values.Length && values[j + 1] == wanted)
            {
                j++;
            }

            yield return (i, j);
            i = j;
        }
    }

    private static string Tell(RidePlan plan, Words words, bool[]? sun, List<(double FromH, double ToH)> heat, List<(double FromH, double ToH)> thunder)
    {
        var s = new List<string>
        {
            $"{words.FarText(plan.Length)}, start {Words.Date(plan.Start)} at {Words.Clock(plan.Start)} ({Words.Zone(plan.Start)}), {Courses.RangeNote(plan)}.",
            $"Heights from {words.HeightText(plan.Trace.Min(p => p.Place.ElevationM))} to {words.HeightText(plan.Trace.Max(p => p.Place.ElevationM))}.",
        };
        if (plan.Finish is { } f)
        {
            s.Add($"Finish {Words.ClockOn(f.Typical, plan.Start)} ({Words.ClockOn(f.Low, plan.Start)} to {Words.ClockOn(f.High, plan.Start)}).");
        }

        s.AddRange(plan.Stations.Where(p => p.Kind != StationKind.Mark).Select(p =>
            $"{words.Place(p.AlongRoute)} {Courses.Label(p)}: {Words.ClockOn(p.Arrival.Typical, plan.Start)}"
            + (p.LatestPass is { } l ? $", latest {Words.ClockOn(l, plan.Start)}" : "")
            + $", water {words.WaterText(p.WaterInHand.Typical)} ({Words.Number(words.Water(p.WaterInHand.Low), 1)} to {Words.Number(words.Water(p.WaterInHand.High), 1)})"
            + (p.WayOut is { } w ? $", {Words.Span(w)} on foot to {p.WayOutTo}" : "") + "."));
        PlanTracePoint? worst = plan.Trace.Where(p => p.WayOut is not null).MaxBy(p => p.WayOut!.Typical);
        s.Add(worst is null ? "No way out is known." : $"The longest way out on foot is {Words.Span(worst.WayOut!.Typical)} from {words.Place(worst.AlongRoute)} to {worst.WayOutTo}.");
        double until = plan.LateFinish is { } lf ? Courses.H(plan, lf) : Courses.H(plan, plan.Trace[^1].At);
        var phases = Courses.Phases(plan.Start, 0, Math.Max(0.1, until), plan.Trace[plan.Trace.Count / 2].Place);
        string allDay = Courses.AllDay(plan);
        s.Add("Light: " + string.Join(", then ", phases.Select((p, i) => Courses.PhaseNames[(int)p.Phase] + (i > 0 ? $" from {Words.ClockOn(plan.Zone.ToLocal(plan.Start.AddHours(p.FromH)), plan.Start)}" : ""))) + (allDay.Length > 0 ? "; " + allDay : "") + ".");
        s.Add(plan.Hours.Count == 0
            ? "Heat and thunder are not shown: no forecast was given."
            : (heat.Count == 0 ? "Heat stays below category 4." : $"Heat category 4 or 5: {Courses.WindowText(plan, heat)}.")
                + (thunder.Count > 0 ? $" Thunder at {Words.Percent(Courses.ThunderProbability)} or more: {Courses.WindowText(plan, thunder)}."
                    : plan.Hours.All(h => double.IsNaN(h.ThunderProbability)) ? " The forecast says nothing of thunder." : " No hour with thunder likely."));
        s.Add(sun is null
            ? "Terrain shade is not shown: no terrain was given."
            : sun.All(v => v)
                ? "Terrain never hides the sun on the way."
                : "Terrain hides the sun on " + string.Join(", ", Runs(sun, false).Select(r => $"{words.Place(plan.Trace[r.From].AlongRoute)} to {Words.Number(words.Far(plan.Trace[r.To].AlongRoute), 1)}")) + ".");
        return string.Join(' ', s);
    }
}
