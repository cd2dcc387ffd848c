using SkiaSharp;

namespace SoloRide.Charts;

/// <summary>A picture of a result, with what it shows in words.</summary>
/// <remarks>
/// Drawn anew at each call from what was read when it was made: the same bytes each time, on any thread. Needs no screen and no font of the machine.
/// Tells by line style, hatching and labels, never by colour alone. Every picture and every text alternative carries <see cref="Cautions"/>. Immutable; safe to share.
/// </remarks>
[TypeFormatterSource(typeof(PictureFormatters), PreferredMimeTypes = ["text/html"])]
public sealed class Picture
{
    private readonly Action<Sheet> _draw;

    internal Picture(string name, string title, string told, PictureOptions options, Action<Sheet> draw)
    {
        Name = name;
        Title = title;
        TextAlternative = $"{title}. {told} {Cautions.Text}";
        Options = options;
        _draw = draw;
    }

    /// <summary>Short name, fit for a file: profile, map, charge, starts, daylight, body or pace.</summary>
    public string Name { get; }

    /// <summary>Title.</summary>
    public string Title { get; }

    /// <summary>What the picture shows, in sentences: for those who cannot see it, and to check it by. Also the description inside the SVG.</summary>
    public string TextAlternative { get; }

    /// <summary>Size and units.</summary>
    public PictureOptions Options { get; }

    /// <summary>The picture as PNG.</summary>
    /// <returns>The bytes of the file.</returns>
    public byte[] ToPng()
    {
        float density = (float)Options.DensityFactor;
        var info = new SKImageInfo((int)Math.Round(Options.WidthPx * density), (int)Math.Round(Options.HeightPx * density), SKColorType.Rgba8888, SKAlphaType.Opaque);
        using SKSurface surface = SKSurface.Create(info) ?? throw new InvalidOperationException($"No drawing surface of {info.Width} by {info.Height} dots could be made.");
        surface.Canvas.Clear(SKColors.White);
        surface.Canvas.Scale(density);
        var sheet = new Sheet(surface.Canvas, Options.WidthPx, Options.HeightPx);
        _draw(sheet);
        sheet.Finish();
        foreach (TextItem t in sheet.Texts)
        {
            Write(surface.Canvas, t);
        }

        using SKImage image = surface.Snapshot();
        using SKData data = image.Encode(SKEncodedImageFormat.Png, 100);
        return data.ToArray();
    }

    /// <summary>The picture as SVG, with its title and description inside; letters are outlines, so that it looks the same everywhere.</summary>
    /// <returns>XML text.</returns>
    public string ToSvg() => SvgWriter.Write(this, _draw);

    /// <summary>Writes the picture to a file; the ending decides: .png or .svg.</summary>
    /// <param name="path">Path of the file.</param>
    /// <exception cref="ArgumentException">Another ending.</exception>
    /// <exception cref="IOException">The file cannot be written.</exception>
    public void Save(string path)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(path);
        switch (Path.GetExtension(path).ToUpperInvariant())
        {
            case ".PNG":
                File.WriteAllBytes(path, ToPng());
                break;
            case ".SVG":
                File.WriteAllText(path, ToSvg());
                break;
            default:
                throw new ArgumentException($"'{path}' ends in neither .png nor .svg.", nameof(path));
        }
    }

    /// <summary>A figure for a page: the SVG, and the text alternative beneath in a fold.</summary>
    /// <returns>HTML.</returns>
    public string ToHtml()
        => $"<figure style=\"margin:0\">{ToSvg()}<details><summary>In words</summary><p>{SvgWriter.Escape(TextAlternative)}</p></details></figure>";

    /// <summary>The text alternative.</summary>
    /// <returns>Text.</returns>
    public override string ToString() => TextAlternative;

    internal void Draw(Sheet sheet) => _draw(sheet);

    private static void Write(SKCanvas canvas, TextItem t)
    {
        using SKFont font = Face.Font(t.Size, t.Bold);
        canvas.Save();
        canvas.Translate(t.X, t.Y);
        canvas.RotateDegrees(t.RotateDeg);
        if (t.Halo)
        {
            using SKPaint around = Sheet.Stroke(Ink.Paper, 3.2f);
            canvas.DrawText(t.Text, 0, 0, SKTextAlign.Left, font, around);
        }

        using var paint = new SKPaint { Color = t.Color, IsAntialias = true };
        canvas.DrawText(t.Text, 0, 0, SKTextAlign.Left, font, paint);
        canvas.Restore();
    }
}
