using SkiaSharp;
using SoloRide.Escape;
using SoloRide.Planning;

namespace SoloRide.Charts;

/// <summary>The line of the route with how far each stretch is from help on foot.</summary>
internal static class MapPicture
{
    private const double NearMin = 30, FarMin = 120, MPerDeg = 111_195;
    private const float Side = 330;

    private static readonly string[] ClassWords =
    [
        "up to 30 min on foot to a way out", "30 min to 2 h on foot", "more than 2 h on foot", "no way out known",
    ];

    private sealed record Spot(string Text, StationKind Kind, double East, double North);

    public static Picture Make(RidePlan plan, PictureOptions options)
    {
        var words = new Words(options.Units);
        return new Picture("map", $"{plan.Title}: the route and how far from help", Tell(plan, words), options, sheet => Draw(sheet, plan, words));
    }

    private static RemotenessClass ClassOf(PlanTracePoint p) => p.WayOut is not { } w
        ? RemotenessClass.NoWayOut
        : w.High.TotalMinutes <= NearMin ? RemotenessClass.Near : w.High.TotalMinutes <= FarMin ? RemotenessClass.Remote : RemotenessClass.Far;

    /// <summary>Runs of one class; the class of a stretch is that of its worse end.</summary>
    private static List<(int From, int To, RemotenessClass Class)> Stretches(RidePlan plan)
    {
        var runs = new List<(int, int, RemotenessClass)>();
        int from = 0;
        RemotenessClass now = Worse(0);
        for (int i = 1; i < plan.Trace.Count - 1; i++)
        {
            if (Worse(i) != now)
            {
                runs.Add((from, i, now));
                from = i;
                now = Worse(i);
            }
        }

        if (plan.Trace.Count > 1)
        {
            runs.Add((from, plan.Trace.Count - 1, now));
        }

        return runs;

        RemotenessClass Worse(int i) => plan.Trace.Count < 2 ? RemotenessClass.NoWayOut : (RemotenessClass)Math.Max((int)ClassOf(plan.Trace[i]), (int)ClassOf(plan.Trace[i + 1]));
    }

    private static void Draw(Sheet sheet, RidePlan plan, Words words)
    {
        SKRect room = sheet.Page(
            $"{plan.Title}: the route and how far from help",
            $"{words.FarText(plan.Length)}; time on foot with a dead bike, not exceeded in 9 of 10 such ways out. A drawing of the line, not a map to find the way by.", "");
        var box = new SKRect(room.Left, room.Top, room.Right - Side, room.Bottom);
        GeoPoint zero = plan.Route.Start;
        double cos = Math.Cos(zero.LatDeg * Math.PI / 180);
        (double East, double North) Flat(GeoPoint p)
        {
            double lon = p.LonDeg - zero.LonDeg;
            lon -= 360 * Math.Round(lon / 360);
            return (lon * MPerDeg * cos, (p.LatDeg - zero.LatDeg) * MPerDeg);
        }

        (double East, double North)[] line = [.. plan.Route.Points.Select(p => Flat(p.Place))];
        double minE = line.Min(p => p.East), maxE = line.Max(p => p.East), minN = line.Min(p => p.North), maxN = line.Max(p => p.North);
        double perPx = Math.Max(Math.Max((maxE - minE) / (box.Width - 150), (maxN - minN) / (box.Height - 80)), 1e-3);
        double midE = (minE + maxE) / 2, midN = (minN + maxN) / 2;
        var panel = new Panel(sheet, box, (midE - (perPx * box.Width / 2), midE + (perPx * box.Width / 2)), (midN - (perPx * box.Height / 2), midN + (perPx * box.Height / 2)));

        // A net of full distances, so that lengths can be judged anywhere.
        double unitM = words.Us ? 1609.344 : 1000;
        double net = Marks.Step(perPx * box.Width / unitM, 8) * unitM;
        panel.Paint(canvas =>
        {
            using SKPaint rule = Sheet.Stroke(Ink.Rule, 0.7f, [1.5f, 4]);
            for (double e = Math.Ceiling(panel.X0 / net) * net; e < panel.X1; e += net)
            {
                canvas.DrawLine(panel.X(e), box.Top, panel.X(e), box.Bottom, rule);
            }

            for (double n = Math.Ceiling(panel.Y0 / net) * net; n < panel.Y1; n += net)
            {
                canvas.DrawLine(box.Left, panel.Y(n), box.Right, panel.Y(n), rule);
            }
        });

        var stretches = Stretches(plan);
        panel.Paint(canvas =>
        {
            if (stretches.Count == 0)
            {
                Stroke(canvas, PathOf(plan.Route.Points.Select(p => Flat(p.Place))), RemotenessClass.Near);
            }

            foreach (var s in stretches)
            {
                double from = plan.Trace[s.From].AlongRoute.Meters, to = plan.Trace[s.To].AlongRoute.Meters;
                Stroke(canvas, PathOf(Between(from, to)), s.Class);
            }
        });

        IEnumerable<(double, double)> Between(double from, double to)
        {
            yield return Flat(plan.Route.PointAt(UnitsNet.Length.FromMeters(Math.Min(from, plan.Route.Length.Meters))));
            for (int i = 0; i < plan.Route.Points.Count; i++)
            {
                double m = plan.Route.DistanceAt(i).Meters;
                if (m > from && m < to)
                {
                    yield return line[i];
                }
            }

            yield return Flat(plan.Route.PointAt(UnitsNet.Length.FromMeters(Math.Min(to, plan.Route.Length.Meters))));
        }

        SKPath PathOf(IEnumerable<(double East, double North)> points)
        {
            var path = new SKPath();
            bool first = true;
            foreach ((double e, double n) in points)
            {
                if (first)
                {
                    path.MoveTo(panel.X(e), panel.Y(n));
                }
                else
                {
                    path.LineTo(panel.X(e), panel.Y(n));
                }

                first = false;
            }

            return path;
        }

        // What labels must keep clear of: points of the line a few pixels apart.
        var clear = new List<SKPoint>();
        double lengthM = plan.Route.Length.Meters, clearStep = Math.Max(perPx * 8, lengthM / 3000);
        for (double m = 0; m <= lengthM; m += clearStep)
        {
            (double e, double n) = Flat(plan.Route.PointAt(UnitsNet.Length.FromMeters(m)));
            clear.Add(new SKPoint(panel.X(e), panel.Y(n)));
        }

        var taken = new List<SKRect>();
        var spots = plan.Stations.Where(s => s.Kind != StationKind.Mark).OrderBy(s => Courses.Rank(s.Kind)).ThenBy(s => s.AlongRoute.Meters)
            .Select(s => { (double e, double n) = Flat(s.Place); return new Spot(Courses.Drawn(s, words), KindOf(s), e, n); }).ToList();
        if (spots.Count == 0)
        {
            (double e, double n) = Flat(plan.Route.End);
            spots = [new Spot("start", StationKind.Place, 0, 0), new Spot("finish", StationKind.Place, e, n)];
        }

        // An end of the route that is no way out is marked as a place.
        StationKind KindOf(PlanStation s) => s.Kind is StationKind.Start or StationKind.Finish && s.WayOut is not { Ticks: 0 } ? StationKind.Place : s.Kind;

        // Start and finish of a loop are one place.
        string[] ends = [.. plan.Stations.Where(s => s.Kind is StationKind.Start or StationKind.Finish).Select(s => Courses.Drawn(s, words)), "start", "finish"];
        if (spots.Find(s => s.Text == ends[0]) is { } begin && spots.FindLast(s => s.Text == ends[1] && !ReferenceEquals(s, begin)) is { } end
            && Math.Abs(panel.X(begin.East) - panel.X(end.East)) + Math.Abs(panel.Y(begin.North) - panel.Y(end.North)) < 14)
        {
            spots.Remove(end);
            spots[spots.IndexOf(begin)] = begin with { Text = begin.Text == end.Text ? $"{begin.Text}, start and finish" : begin.Text is "start" && end.Text is "finish" ? "start and finish" : $"{begin.Text}; {end.Text}" };
        }

        foreach (Spot s in spots)
        {
            float px = panel.X(s.East), py = panel.Y(s.North);
            taken.Add(new SKRect(px - 8, py - 8, px + 8, py + 8));
        }

        panel.Paint(canvas =>
        {
            foreach (Spot s in spots)
            {
                Mark(canvas, s.Kind, panel.X(s.East), panel.Y(s.North));
            }
        });
        int left = 0;
        foreach (Spot s in spots)
        {
            left += Label(s.Text, panel.X(s.East), panel.Y(s.North), 12, s.Kind is StationKind.Start or StationKind.Finish || s.Text is "start" or "finish" or "start and finish", 10) ? 0 : 1;
        }

        // Distance along the line, with the way of travel.
        double every = Marks.Step(lengthM / unitM, 10) * unitM;
        for (double m = every; m < lengthM - (every * 0.3); m += every)
        {
            (double e, double n) = Flat(plan.Route.PointAt(UnitsNet.Length.FromMeters(m)));
            Arrow(m, panel.X(e), panel.Y(n));
            Label(Words.Number(m / unitM, every / unitM < 0.1 ? 2 : every / unitM < 1 ? 1 : 0), panel.X(e), panel.Y(n), 10.5f, false, 9);
        }

        panel.Done();
        Legend();

        void Arrow(double m, float px, float py)
        {
            (double e0, double n0) = Flat(plan.Route.PointAt(UnitsNet.Length.FromMeters(Math.Max(0, m - Math.Max(30, perPx * 6)))));
            (double e1, double n1) = Flat(plan.Route.PointAt(UnitsNet.Length.FromMeters(Math.Min(lengthM, m + Math.Max(30, perPx * 6)))));
            double turn = Math.Atan2(-(n1 - n0), e1 - e0);
            panel.Paint(canvas =>
            {
                canvas.Save();
                canvas.Translate(px, py);
                canvas.RotateDegrees((float)(turn * 180 / Math.PI));
                using SKPath head = new();
                head.MoveTo(-5, -6);
                head.LineTo(5, 0);
                head.LineTo(-5, 6);
                using SKPaint halo = Sheet.Stroke(Ink.Paper, 4.5f);
                using SKPaint ink = Sheet.Stroke(Ink.Black, 1.8f);
                canvas.DrawPath(head, halo);
                canvas.DrawPath(head, ink);
                canvas.Restore();
            });
        }

        bool Label(string text, float px, float py, float size, bool bold, float gap)
        {
            string fitted = Sheet.Fit(text, 210, size, bold);
            float w = Sheet.WidthOf(fitted, size, bold), h = size;
            SKRect best = default;
            double least = double.PositiveInfinity;
            for (int ring = 0; ring < 3; ring++)
            {
                for (int k = 0; k < 12; k++)
                {
                    double angle = k * Math.PI / 6;
                    float reach = gap + (ring * 16);
                    float cx = px + (float)(Math.Cos(angle) * (reach + (w / 2))), cy = py - (float)(Math.Sin(angle) * (reach + (h / 2)));
                    var r = new SKRect(cx - (w / 2) - 2, cy - (h / 2) - 2, cx + (w / 2) + 2, cy + (h / 2) + 2);
                    if (r.Left < box.Left + 2 || r.Right > box.Right - 2 || r.Top < box.Top + 2 || r.Bottom > box.Bottom - 2 || taken.Any(t => t.IntersectsWith(r)))
                    {
                        continue;
                    }

                    double cost = (ring * 4) + (clear.Count(c => r.Contains(c)) * 6) + (k is 0 or 6 ? 0 : 1);
                    if (cost < least)
                    {
                        least = cost;
                        best = r;
                    }
                }
            }

            if (double.IsPositiveInfinity(least))
            {
                return false;
            }

            taken.Add(best);
            sheet.Text(fitted, best.Left + 2, best.Bottom - 4, size, bold, halo: true);
            return true;
        }

        void Legend()
        {
            float x = room.Right - Side + 22, y = room.Top + 12, w = Side - 22;
            Head("Time on foot to the nearest way out");
            foreach (RemotenessClass c in Enum.GetValues<RemotenessClass>().Where(c => stretches.Any(s => s.Class == c)))
            {
                using var sample = new SKPath();
                sample.MoveTo(x, y - 4);
                sample.LineTo(x + 46, y - 4);
                Stroke(sheet.Canvas, sample, c);
                sheet.Text(ClassWords[(int)c], x + 56, y, 11.5f);
                y += 19;
            }

            if (stretches.Count == 0)
            {
                y = Lines("Not planned: no times on foot.", y);
            }

            y += 8;
            Head("Marks");
            foreach ((StationKind kind, string text) in new[] { (StationKind.Exit, "way out"), (StationKind.Water, "water"), (StationKind.Place, "other place") }.Where(k => spots.Any(s => MarkOf(s.Kind) == k.Item1)))
            {
                Mark(sheet.Canvas, kind, x + 22, y - 4);
                sheet.Text(text, x + 56, y, 11.5f);
                y += 19;
            }

            using (var tip = new SKPath())
            {
                tip.MoveTo(x + 17, y - 10);
                tip.LineTo(x + 27, y - 4);
                tip.LineTo(x + 17, y + 2);
                using SKPaint ink = Sheet.Stroke(Ink.Black, 1.8f);
                sheet.Canvas.DrawPath(tip, ink);
            }

            sheet.Text($"way of travel, with {words.FarUnit} from the start", x + 56, y, 11.5f);
            y += 26;
            var far = stretches.Where(s => s.Class >= RemotenessClass.Far).ToList();
            if (stretches.Count > 0)
            {
                Head("Stretches farthest from help");
                if (far.Count == 0)
                {
                    far = [.. stretches.Where(s => s.Class == RemotenessClass.Remote)];
                }

                if (far.Count == 0)
                {
                    y = Lines("None: every place is within 30 min on foot.", y);
                }

                // As many as fit above scale and north; the rest is counted.
                int room2 = Math.Max(1, (int)((room.Bottom - 86 - y) / 17));
                foreach (var s in far.Take(far.Count > room2 ? room2 - 1 : room2))
                {
                    PlanTracePoint worst = plan.Trace.Skip(s.From).Take(s.To - s.From + 1).MaxBy(p => p.WayOut is { } t ? t.Typical : TimeSpan.MaxValue)!;
                    string most = worst.WayOut is { } t ? $"up to {Words.Span(t.High)} to {Courses.Drawn(plan, worst.WayOutTo, words)}" : "no way out known";
                    sheet.Text(Sheet.Fit($"{words.Place(plan.Trace[s.From].AlongRoute)} to {Words.Number(words.Far(plan.Trace[s.To].AlongRoute), 1)}: {most}", w, 11.5f), x, y, 11.5f);
                    y += 17;
                }

                if (far.Count > room2)
                {
                    sheet.Text($"and {far.Count - room2 + 1} more: see the text", x, y, 11.5f, color: Ink.Soft);
                }
            }

            if (left > 0)
            {
                sheet.Text($"{left} {(left == 1 ? "name" : "names")} without room: see the text", x, room.Bottom - 62, 11, color: Ink.Soft);
            }

            // Scale and north.
            float bar = (float)(net / perPx);
            float by = room.Bottom - 14;
            sheet.Line(x, by, x + bar, by, Ink.Black, 2);
            sheet.Line(x, by - 5, x, by + 5, Ink.Black, 2);
            sheet.Line(x + bar, by - 5, x + bar, by + 5, Ink.Black, 2);
            sheet.Text($"{Words.Number(net / unitM, net / unitM < 0.1 ? 2 : net / unitM < 1 ? 1 : 0)} {words.FarUnit}, the spacing of the net", x, by - 12, 11.5f);
            float nx = x + w - 14;
            sheet.Line(nx, by + 2, nx, by - 26, Ink.Black, 1.6f);
            sheet.Line(nx, by - 26, nx - 4, by - 17, Ink.Black, 1.6f);
            sheet.Line(nx, by - 26, nx + 4, by - 17, Ink.Black, 1.6f);
            sheet.Text("N", nx, by - 31, 12, true, side: TextSide.Middle);

            void Head(string text)
            {
                sheet.Text(text, x, y, 12.5f, true);
                y += 20;
            }

            float Lines(string text, float at)
            {
                foreach (string l in Sheet.Wrap(text, w, 11.5f))
                {
                    sheet.Text(l, x, at, 11.5f);
                    at += 16;
                }

                return at;
            }
        }
    }

    /// <summary>Line styles by remoteness: thin, hollow, heavy with teeth, and broken.</summary>
    private static void Stroke(SKCanvas canvas, SKPath path, RemotenessClass c)
    {
        using (path)
        {
            using SKPaint halo = Sheet.Stroke(Ink.Paper, 9);
            canvas.DrawPath(path, halo);
            switch (c)
            {
                case RemotenessClass.Near:
                    Put(2, Ink.Black);
                    break;
                case RemotenessClass.Remote:
                    Put(5, Ink.Black);
                    Put(2, Ink.Paper);
                    break;
                case RemotenessClass.Far:
                    Put(6.5f, Ink.Plum);
                    Put(2, Ink.Paper, [3, 6]);
                    break;
                default:
                    Put(5, Ink.Ochre, [3, 4]);
                    break;
            }
        }

        void Put(float width, SKColor color, float[]? dash = null)
        {
            using SKPaint paint = Sheet.Stroke(color, width, dash);
            canvas.DrawPath(path, paint);
        }
    }

    private static StationKind MarkOf(StationKind kind) => kind switch
    {
        StationKind.Exit or StationKind.Start or StationKind.Finish => StationKind.Exit,
        StationKind.Water => StationKind.Water,
        _ => StationKind.Place,
    };

    /// <summary>Marks by form: a plus for a way out, two waves for water, a short bar for the rest.</summary>
    private static void Mark(SKCanvas canvas, StationKind kind, float x, float y)
    {
        using var path = new SKPath();
        switch (kind)
        {
            case StationKind.Exit or StationKind.Start or StationKind.Finish:
                path.MoveTo(x - 7, y);
                path.LineTo(x + 7, y);
                path.MoveTo(x, y - 7);
                path.LineTo(x, y + 7);
                break;
            case StationKind.Water:
                foreach (float dy in new[] { -3f, 3f })
                {
                    path.MoveTo(x - 8, y + dy);
                    path.QuadTo(x - 4, y + dy - 5, x, y + dy);
                    path.QuadTo(x + 4, y + dy + 5, x + 8, y + dy);
                }

                break;
            default:
                path.MoveTo(x, y - 6);
                path.LineTo(x, y + 6);
                break;
        }

        using SKPaint halo = Sheet.Stroke(Ink.Paper, 6.5f);
        using SKPaint ink = Sheet.Stroke(Ink.Black, 2.6f);
        canvas.DrawPath(path, halo);
        canvas.DrawPath(path, ink);
    }

    private static string Tell(RidePlan plan, Words words)
    {
        var s = new List<string> { $"The line of a route of {words.FarText(plan.Length)}{(plan.Route.IsLoop ? ", a loop" : "")}, drawn with north up. A drawing, not a map to find the way by." };
        s.AddRange(plan.Stations.Where(p => p.Kind != StationKind.Mark).Select(p => $"{words.Place(p.AlongRoute)}: {Courses.Label(p)}."));
        var stretches = Stretches(plan);
        if (stretches.Count == 0)
        {
            s.Add("The plan was refused: no times on foot.");
        }

        foreach (RemotenessClass c in Enum.GetValues<RemotenessClass>())
        {
            var own = stretches.Where(x => x.Class == c).ToList();
            if (own.Count > 0)
            {
                s.Add($"{char.ToUpperInvariant(ClassWords[(int)c][0])}{ClassWords[(int)c][1..]}: {string.Join(", ", own.Select(x => $"{words.Place(plan.Trace[x.From].AlongRoute)} to {Words.Number(words.Far(plan.Trace[x.To].AlongRoute), 1)}"))}.");
            }
        }

        s.Add("Times on foot with a dead bike that 9 of 10 such ways out do not exceed.");
        return string.Join(' ', s);
    }
}
