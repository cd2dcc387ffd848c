using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using System.Xml;
using System.Xml.Linq;
using SkiaSharp;

namespace SoloRide.Charts;

/// <summary>Draws to SVG; texts become outlines of the typeface inside the package, each letter kept once.</summary>
internal static partial class SvgWriter
{
    private const float GlyphSize = 100;
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";
    private static readonly XNamespace XLink = "http://www.w3.org/1999/xlink";

    public static string Write(Picture picture, Action<Sheet> draw)
    {
        float width = picture.Options.WidthPx, height = picture.Options.HeightPx;
        using var stream = new MemoryStream();
        Sheet sheet;
        using (SKCanvas canvas = SKSvgCanvas.Create(new SKRect(0, 0, width, height), stream))
        {
            sheet = new Sheet(canvas, width, height);
            draw(sheet);
            sheet.Finish();
        }

        XElement root = XDocument.Parse(Encoding.UTF8.GetString(stream.ToArray())).Root!;
        Tidy(root, picture.Name);
        string title = picture.Name + "-title", description = picture.Name + "-desc";
        root.SetAttributeValue("viewBox", string.Create(CultureInfo.InvariantCulture, $"0 0 {width} {height}"));
        root.SetAttributeValue("role", "img");
        root.SetAttributeValue("aria-labelledby", $"{title} {description}");
        root.SetAttributeValue(XNamespace.Xml + "lang", "en");
        root.AddFirst(
            new XElement(Svg + "title", new XAttribute("id", title), Clean(picture.Title)),
            new XElement(Svg + "desc", new XAttribute("id", description), Clean(picture.TextAlternative)));
        Letters(root, sheet.Texts, picture.Name);
        var text = new StringBuilder();
        using (var writer = XmlWriter.Create(text, new XmlWriterSettings { OmitXmlDeclaration = true, NewLineChars = "\n", Indent = false }))
        {
            root.WriteTo(writer);
        }

        return text.Append('\n').ToString();
    }

    public static string Escape(string text) => Clean(text).Replace("&", "&amp;", StringComparison.Ordinal).Replace("<", "&lt;", StringComparison.Ordinal).Replace(">", "&gt;", StringComparison.Ordinal);

    /// <summary>Without what XML cannot hold.</summary>
    private static string Clean(string text) => string.Concat(text.Where((c, i) => XmlConvert.IsXmlChar(c) || (char.IsHighSurrogate(c) && i + 1 < text.Length && char.IsLowSurrogate(text[i + 1])) || (char.IsLowSurrogate(c) && i > 0 && char.IsHighSurrogate(text[i - 1]))));

    /// <summary>Names that stay apart when several pictures share a page, and no more digits than can be seen.</summary>
    private static void Tidy(XElement root, string name)
    {
        // The library numbers its names through the whole process; here they count from 1 in each picture.
        var names = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (XAttribute id in root.Descendants().Attributes("id"))
        {
            names[id.Value] = string.Create(CultureInfo.InvariantCulture, $"{name}-{names.Count + 1}");
        }

        foreach (XElement e in root.Descendants())
        {
            foreach (XAttribute a in e.Attributes())
            {
                a.Value = a.Name.LocalName switch
                {
                    "id" => names[a.Value],
                    "d" => Long().Replace(a.Value, m => Round(double.Parse(m.Value, CultureInfo.InvariantCulture), 2)),
                    _ => Reference().Replace(a.Value, m => $"url(#{names.GetValueOrDefault(m.Groups[1].Value, m.Groups[1].Value)})"),
                };
            }
        }
    }

    private static void Letters(XElement root, IReadOnlyList<TextItem> texts, string name)
    {
        var defs = new XElement(Svg + "defs");
        var groups = new List<XElement>();
        var known = new HashSet<(ushort Glyph, bool Bold)>();
        foreach (TextItem t in texts)
        {
            using SKFont font = Face.Font(GlyphSize, t.Bold);
            ushort[] glyphs = font.GetGlyphs(t.Text);
            float[] advances = font.GetGlyphWidths(glyphs);
            var uses = new List<XElement>();
            float x = 0;
            for (int i = 0; i < glyphs.Length; i++)
            {
                using SKPath? path = font.GetGlyphPath(glyphs[i]);
                if (path is { IsEmpty: false })
                {
                    string id = string.Create(CultureInfo.InvariantCulture, $"{name}-{(t.Bold ? "b" : "r")}{glyphs[i]}");
                    if (known.Add((glyphs[i], t.Bold)))
                    {
                        defs.Add(new XElement(Svg + "path", new XAttribute("id", id), new XAttribute("d", Long().Replace(path.ToSvgPathData(), m => Round(double.Parse(m.Value, CultureInfo.InvariantCulture), 1)))));
                    }

                    uses.Add(new XElement(Svg + "use", new XAttribute(XLink + "href", "#" + id), new XAttribute("x", Round(x, 1))));
                }

                x += advances[i];
            }

            string turn = t.RotateDeg == 0 ? "" : $" rotate({Round(t.RotateDeg, 2)})";
            var group = new XElement(Svg + "g", new XAttribute("transform", $"translate({Round(t.X, 2)} {Round(t.Y, 2)}){turn} scale({Round(t.Size / GlyphSize, 4)})"), new XAttribute("fill", Hex(t.Color)));
            if (t.Halo)
            {
                groups.Add(new XElement(Svg + "g", new XAttribute("transform", group.Attribute("transform")!.Value), new XAttribute("fill", Hex(Ink.Paper)), new XAttribute("stroke", Hex(Ink.Paper)), new XAttribute("stroke-width", Round(3.2 * GlyphSize / t.Size, 1)), new XAttribute("stroke-linejoin", "round"), uses));
            }

            group.Add(uses);
            groups.Add(group);
        }

        root.Add(defs);
        root.Add(groups);
    }

    private static string Hex(SKColor c) => string.Create(CultureInfo.InvariantCulture, $"#{c.Red:x2}{c.Green:x2}{c.Blue:x2}");

    private static string Round(double v, int decimals)
    {
        double r = Math.Round(v, decimals, MidpointRounding.AwayFromZero);
        return (r == 0 ? 0 : r).ToString(CultureInfo.InvariantCulture);
    }

    [GeneratedRegex(@"-?\d*\.\d+(?:[eE]-?\d+)?")]
    private static partial Regex Long();

    [GeneratedRegex(@"url\(#([^)]+)\)")]
    private static partial Regex Reference();
}
