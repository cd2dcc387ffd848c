using System.Text;
using SkiaSharp;

namespace SoloRide.Charts;

/// <summary>The two typefaces that come inside the package, so that no picture depends on the fonts of a machine.</summary>
internal static class Face
{
    private const char Lost = '\u2026';

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

    /// <summary>Whether the typeface has a letter or figure of a name at all.</summary>
    public static bool CanWrite(string name) => name.Normalize(NormalizationForm.FormC).EnumerateRunes().Any(r => Rune.IsLetterOrDigit(r) && Regular.GetGlyph(r.Value) != 0);

    /// <summary>Composed letters, with one ellipsis for a run of letters that the typeface has not; the text alternative keeps them.</summary>
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
            else if (Regular.GetGlyph(r.Value) != 0)
            {
                b.Append(r.ToString());
            }
            else if (b.Length == 0 || b[^1] != Lost)
            {
                b.Append(Lost);
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
