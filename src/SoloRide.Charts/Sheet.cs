using SkiaSharp;

namespace SoloRide.Charts;

/// <summary>One drawing surface: shapes go to the canvas at once, texts wait and come out last, above everything.</summary>
internal sealed class Sheet(SKCanvas canvas, float width, float height)
{
    public const float Margin = 20;
    private readonly List<TextItem> _texts = [];
    private readonly List<Action> _later = [];

    public SKCanvas Canvas { get; } = canvas;

    public float Width { get; } = width;

    public float Height { get; } = height;

    public IReadOnlyList<TextItem> Texts => _texts;

    /// <summary>Writes a line; returns its width.</summary>
    public float Text(string text, float x, float y, float size = 12, bool bold = false, SKColor? color = null, TextSide side = TextSide.Left, float rotateDeg = 0, bool halo = false)
    {
        string drawn = Face.Drawable(text);
        float w = Face.Width(drawn, size, bold);
        float shift = side switch { TextSide.Left => 0, TextSide.Middle => -w / 2, _ => -w };
        double turn = rotateDeg * Math.PI / 180;
        _texts.Add(new TextItem(drawn, x + (float)(shift * Math.Cos(turn)), y + (float)(shift * Math.Sin(turn)), size, bold, color ?? Ink.Black, rotateDeg, halo));
        return w;
    }

    /// <summary>Draws when all panels stand, which clear the room they take.</summary>
    public void Later(Action draw) => _later.Add(draw);

    public void Finish() => _later.ForEach(draw => draw());

    public static float WidthOf(string text, float size = 12, bool bold = false) => Face.Width(Face.Drawable(text), size, bold);

    /// <summary>The text, cut with an ellipsis where it is wider than allowed.</summary>
    public static string Fit(string text, float maxWidth, float size = 12, bool bold = false)
    {
        if (WidthOf(text, size, bold) <= maxWidth)
        {
            return text;
        }

        int n = text.Length;
        while (n > 1 && WidthOf(text[..n].TrimEnd() + "\u2026", size, bold) > maxWidth)
        {
            n--;
        }

        return text[..n].TrimEnd() + "\u2026";
    }

    /// <summary>The text in lines of at most a width, broken at spaces.</summary>
    public static List<string> Wrap(string text, float maxWidth, float size = 12, bool bold = false)
    {
        var lines = new List<string>();
        string line = "";
        foreach (string word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            string longer = line.Length == 0 ? word : line + " " + word;
            if (line.Length > 0 && WidthOf(longer, size, bold) > maxWidth)
            {
                lines.Add(line);
                longer = word;
            }

            line = longer;
        }

        if (line.Length > 0)
        {
            lines.Add(line);
        }

        return lines;
    }

    public void Line(float x0, float y0, float x1, float y1, SKColor color, float width = 1, float[]? dash = null)
    {
        using SKPaint paint = Stroke(color, width, dash);
        Canvas.DrawLine(x0, y0, x1, y1, paint);
    }

    public void Fill(SKRect box, SKColor color)
    {
        using var paint = new SKPaint { Color = color, IsAntialias = true };
        Canvas.DrawRect(box, paint);
    }

    public void Hatch(SKPath area, Hatching kind, SKColor color, float spacing = 7, float width = 1) => HatchOn(Canvas, area, kind, color, spacing, width);

    public void Hatch(SKRect box, Hatching kind, SKColor color, float spacing = 7, float width = 1)
    {
        using var path = new SKPath();
        path.AddRect(box);
        Hatch(path, kind, color, spacing, width);
    }

    public static void HatchOn(SKCanvas canvas, SKPath area, Hatching kind, SKColor color, float spacing = 7, float width = 1)
    {
        SKRect b = area.Bounds;
        if (b.Width <= 0 || b.Height <= 0)
        {
            return;
        }

        using SKPaint paint = Stroke(color, width);
        using var lines = new SKPath();
        if (kind is Hatching.Upright)
        {
            for (float x = Up(b.Left, spacing); x <= b.Right; x += spacing)
            {
                lines.MoveTo(x, b.Top);
                lines.LineTo(x, b.Bottom);
            }
        }

        if (kind is Hatching.Rising or Hatching.Crossed)
        {
            // x + y is constant along a line that rises on the sheet.
            for (float c = Up(b.Left + b.Top, spacing * 1.4142f); c <= b.Right + b.Bottom; c += spacing * 1.4142f)
            {
                lines.MoveTo(c - b.Bottom, b.Bottom);
                lines.LineTo(c - b.Top, b.Top);
            }
        }

        if (kind is Hatching.Falling or Hatching.Crossed)
        {
            for (float c = Up(b.Left - b.Bottom, spacing * 1.4142f); c <= b.Right - b.Top; c += spacing * 1.4142f)
            {
                lines.MoveTo(c + b.Top, b.Top);
                lines.LineTo(c + b.Bottom, b.Bottom);
            }
        }

        canvas.Save();
        canvas.ClipPath(area, SKClipOperation.Intersect, true);
        canvas.DrawPath(lines, paint);
        canvas.Restore();

        static float Up(float v, float step) => (float)Math.Ceiling(v / step) * step;
    }

    public static SKPaint Stroke(SKColor color, float width, float[]? dash = null)
        => new()
        {
            Color = color,
            IsStroke = true,
            StrokeWidth = width,
            IsAntialias = true,
            StrokeJoin = SKStrokeJoin.Round,
            PathEffect = dash is null ? null : SKPathEffect.CreateDash(dash, 0),
        };

    /// <summary>Title, what the picture tells in a line, and at the foot what is missing and the caution.</summary>
    /// <returns>The room that is left.</returns>
    public SKRect Page(string title, string subtitle, string note)
    {
        Fill(new SKRect(0, 0, Width, Height), Ink.Paper);
        float room = Width - (2 * Margin);
        Text(Fit(title, room, 19, true), Margin, 30, 19, true);
        Text(Fit(subtitle, room, 13), Margin, 49, 13, color: Ink.Soft);
        List<string> caution = Wrap("Caution: " + Cautions.Text, room, 11);
        float y = Height - 10 - (14 * (caution.Count - 1));
        float top = y - 14;
        foreach (string line in caution)
        {
            Text(line, Margin, y, 11);
            y += 14;
        }

        Line(Margin, top, Width - Margin, top, Ink.Frame, 0.8f);
        if (note.Length > 0)
        {
            List<string> notes = Wrap(note, room, 11);
            for (int i = notes.Count - 1; i >= 0; i--)
            {
                top -= i == notes.Count - 1 ? 6 : 14;
                Text(notes[i], Margin, top, 11, color: Ink.Soft);
            }

            top -= 12;
        }

        return new SKRect(Margin, 60, Width - Margin, top - 6);
    }

    /// <summary>Heights of labels moved apart as little as needed to keep a distance, in a span.</summary>
    public static float[] Spread(IReadOnlyList<float> wanted, float gap, float top, float bottom)
    {
        int[] order = [.. Enumerable.Range(0, wanted.Count).OrderBy(i => wanted[i]).ThenBy(i => i)];
        var y = new float[wanted.Count];
        float last = float.NegativeInfinity;
        foreach (int i in order)
        {
            y[i] = Math.Max(Math.Clamp(wanted[i], top, bottom), last + gap);
            last = y[i];
        }

        float next = bottom;
        foreach (int i in order.Reverse())
        {
            y[i] = Math.Min(y[i], next);
            next = y[i] - gap;
        }

        return y;
    }
}
