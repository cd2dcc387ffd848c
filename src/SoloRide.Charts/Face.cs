using System.Text;
using SkiaSharp;

namespace SoloRide.Charts;

/// <summary>The two typefaces that come inside the package, so that no picture depends on the fonts of a machine.</summary>
internal static class Face
{
    private static readonly SKTypeface Regular = Load("regular.ttf");
    private static readonly SKTypeface Bold = Load("bold.ttf");

    public static SKTypeface Of(bool bold) => bold ? Bold : Regular;

    /// <summary>A font without hinting: outlines only, the same on every machine.</summary>
    public static SKFont Font(float size, bool bold)
        => new(Of(bold), size) { Hinting = SKFontHinting.None, Subpixel = true, LinearMetrics = true, Edging = SKFontEdging.Antialias };

    public static float Width(string text, float size, bool bold)
    {
        using SKFont font = Font(size, bold);
        return font.MeasureText(text);
    }

    /// <summary>Composed letters, with a box where the typeface has none; the text alternative keeps the letter.</summary>
    public static string Drawable(string text)
    {
        var b = new StringBuilder(text.Length);
        // Halves of a pair that stand alone become the replacement sign, which no normal form refuses.
        string whole = string.Concat(text.EnumerateRunes());
        foreach (Rune r in whole.Normalize(NormalizationForm.FormC).EnumerateRunes())
        {
            if (Rune.IsControl(r))
            {
                b.Append(' ');
            }
            else
            {
                b.Append(Regular.GetGlyph(r.Value) == 0 ? "\u25A1" : r.ToString());
            }
        }

        return b.ToString();
    }

    private static SKTypeface Load(string name)
    {
        using Stream stream = typeof(Face).Assembly.GetManifestResourceStream(name) ?? throw new InvalidOperationException($"The typeface '{name}' is missing from the package.");
        using SKData data = SKData.Create(stream);
        return SKTypeface.FromData(data) ?? throw new InvalidOperationException($"The typeface '{name}' cannot be read.");
    }
}
