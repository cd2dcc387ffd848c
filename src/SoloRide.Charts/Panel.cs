using ScottPlot;
using ScottPlot.TickGenerators;
using SkiaSharp;

namespace SoloRide.Charts;

/// <summary>One pair of axes on a sheet. The plotting library draws axes, ticks, rules and lines; texts are the sheet's.</summary>
internal sealed class Panel : IDisposable
{
    private const float Edge = 6;
    private readonly Sheet _sheet;
    private readonly Plot _plot = new();

    public Panel(Sheet sheet, SKRect box, (double From, double To) x, (double From, double To) y)
    {
        _sheet = sheet;
        Box = new SKRect(MathF.Round(box.Left), MathF.Round(box.Top), MathF.Round(box.Right), MathF.Round(box.Bottom));
        (X0, X1) = x;
        (Y0, Y1) = y;
        _plot.FigureBackground.Color = Of(Ink.Paper);
        _plot.DataBackground.Color = Colors.Transparent;
        _plot.Axes.SetLimits(X0, X1, Y0, Y1);
        _plot.Layout.Fixed(new PixelPadding(Edge, Edge, Edge, Edge));
        _plot.Axes.Title.IsVisible = false;
        _plot.HideGrid();
        _plot.FigureBorder = LineStyle.None;
        _plot.DataBorder = LineStyle.None;
        foreach (IAxis axis in _plot.Axes.GetAxes())
        {
            axis.TickGenerator = new NumericManual();
            axis.FrameLineStyle.Color = Of(Ink.Frame);
            axis.FrameLineStyle.Width = 1;
            axis.MajorTickStyle.Length = 4;
            axis.MajorTickStyle.Color = Of(Ink.Frame);
            axis.MinorTickStyle.Length = 0;
        }
    }

    public SKRect Box { get; }

    public double X0 { get; }

    public double X1 { get; }

    public double Y0 { get; }

    public double Y1 { get; }

    public float X(double x) => (float)(Box.Left + ((x - X0) / (X1 - X0) * Box.Width));

    public float Y(double y) => (float)(Box.Bottom - ((y - Y0) / (Y1 - Y0) * Box.Height));

    public static Color Of(SKColor c) => new(c.Red, c.Green, c.Blue, c.Alpha);

    /// <summary>Rules and ticks across, with texts below where asked for.</summary>
    public void Across(IReadOnlyList<(double At, string Text)> ticks, bool texts = true, string unit = "")
    {
        _plot.Axes.Bottom.TickGenerator = Manual(ticks);
        Rules(ticks, true);
        if (!texts)
        {
            return;
        }

        float last = float.NegativeInfinity;
        foreach ((double at, string text) in ticks)
        {
            float w = Sheet.WidthOf(text), x = X(at);
            if (x - (w / 2) > last + 4)
            {
                _sheet.Text(text, x, Box.Bottom + 18, side: TextSide.Middle);
                last = x + (w / 2);
            }
        }

        if (unit.Length > 0)
        {
            _sheet.Text(unit, Box.Right, Box.Bottom + 33, 11, color: Ink.Soft, side: TextSide.Right);
        }
    }

    /// <summary>Rules and ticks upward, with texts on the left.</summary>
    public void Upward(IReadOnlyList<(double At, string Text)> ticks)
    {
        _plot.Axes.Left.TickGenerator = Manual(ticks);
        Rules(ticks, false);
        foreach ((double at, string text) in ticks)
        {
            _sheet.Text(text, Box.Left - 8, Y(at) + 4, 11.5f, side: TextSide.Right);
        }
    }

    /// <summary>What the panel shows, in the gutter on its left.</summary>
    public void Name(string name, float x, float width)
    {
        float y = Box.Top + 11;
        foreach (string line in Sheet.Wrap(name, width, 12, true))
        {
            _sheet.Text(line, x, y, 12, true);
            y += 15;
        }
    }

    /// <summary>A line; gaps where a value is not a number.</summary>
    public void Line(IReadOnlyList<double> xs, IReadOnlyList<double> ys, SKColor color, float width = 1.8f, float[]? dash = null, bool stepped = false)
    {
        var x = new List<double>();
        var y = new List<double>();
        for (int i = 0; i <= xs.Count; i++)
        {
            if (i < xs.Count && double.IsFinite(xs[i]) && double.IsFinite(ys[i]))
            {
                x.Add(xs[i]);
                y.Add(ys[i]);
                continue;
            }

            if (x.Count > 1)
            {
                ScottPlot.Plottables.Scatter line = _plot.Add.ScatterLine(x.ToArray(), y.ToArray(), Of(color));
                line.LineWidth = width;
                line.LineStyle.StrokeJoin = SKStrokeJoin.Round;
                line.LinePattern = dash is null ? LinePattern.Solid : new LinePattern(dash, 0, "own");
                if (stepped)
                {
                    line.ConnectStyle = ConnectStyle.StepHorizontal;
                }
            }

            x.Clear();
            y.Clear();
        }
    }

    /// <summary>The area between two courses over the same places.</summary>
    public void Area(IReadOnlyList<double> xs, IReadOnlyList<double> low, IReadOnlyList<double> high, SKColor? fill, Hatching? hatch = null, SKColor? hatchInk = null, float spacing = 7)
    {
        if (xs.Count < 2)
        {
            return;
        }

        Paint(canvas =>
        {
            using var path = new SKPath();
            path.MoveTo(X(xs[0]), Y(high[0]));
            for (int i = 1; i < xs.Count; i++)
            {
                path.LineTo(X(xs[i]), Y(high[i]));
            }

            for (int i = xs.Count - 1; i >= 0; i--)
            {
                path.LineTo(X(xs[i]), Y(low[i]));
            }

            path.Close();
            if (fill is { } color)
            {
                using var paint = new SKPaint { Color = color, IsAntialias = true };
                canvas.DrawPath(path, paint);
            }

            if (hatch is { } kind)
            {
                Sheet.HatchOn(canvas, path, kind, hatchInk ?? Ink.Soft, spacing);
            }
        });
    }

    /// <summary>A rectangle in the panel's own numbers.</summary>
    public void Block(double x0, double x1, double y0, double y1, SKColor? fill, Hatching? hatch = null, SKColor? hatchInk = null, float spacing = 7)
        => Area([x0, x1], [y0, y0], [y1, y1], fill, hatch, hatchInk, spacing);

    public void Paint(Action<SKCanvas> draw) => _plot.PlottableList.Add(new Painted(draw));

    /// <summary>Puts the panel on the sheet.</summary>
    public void Done()
    {
        // The library clears what it may draw on: the clip keeps the rest of the sheet.
        _sheet.Canvas.Save();
        _sheet.Canvas.ClipRect(new SKRect(Box.Left - Edge, Box.Top - Edge, Box.Right + Edge, Box.Bottom + Edge));
        _plot.Render(_sheet.Canvas, new PixelRect(Box.Left - Edge, Box.Right + Edge, Box.Bottom + Edge, Box.Top - Edge));
        _sheet.Canvas.Restore();
        Dispose();
    }

    public void Dispose() => _plot.Dispose();

    private static NumericManual Manual(IReadOnlyList<(double At, string Text)> ticks)
    {
        var generator = new NumericManual();
        foreach ((double at, _) in ticks)
        {
            generator.AddMajor(at, "");
        }

        return generator;
    }

    private void Rules(IReadOnlyList<(double At, string Text)> ticks, bool across)
        => Paint(canvas =>
        {
            using SKPaint paint = Sheet.Stroke(Ink.Rule, 0.8f);
            foreach ((double at, _) in ticks)
            {
                if (across)
                {
                    canvas.DrawLine(X(at), Box.Top, X(at), Box.Bottom, paint);
                }
                else
                {
                    canvas.DrawLine(Box.Left, Y(at), Box.Right, Y(at), paint);
                }
            }
        });
}
