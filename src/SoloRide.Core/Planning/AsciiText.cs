using System.Globalization;
using System.Text;

namespace SoloRide.Planning;

/// <summary>Text in ASCII that is never longer than before, so that lines keep their width.</summary>
internal static class AsciiText
{
    public static string Of(string text)
    {
        if (System.Text.Ascii.IsValid(text))
        {
            return text;
        }

        var b = new StringBuilder(text.Length);
        foreach (Rune r in text.Normalize(NormalizationForm.FormD).EnumerateRunes())
        {
            if (r.IsAscii)
            {
                b.Append((char)r.Value);
            }
            else if (Rune.GetUnicodeCategory(r) is not (UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.Format))
            {
                b.Append(Sign(r.Value));
            }
        }

        return b.ToString();
    }

    /// <summary>Signs that do not decompose and have one plain neighbour.</summary>
    private static char Sign(int c) => c switch
    {
        0x2010 or 0x2011 or 0x2012 or 0x2013 or 0x2014 or 0x2212 => '-',
        0x2018 or 0x2019 or 0x2032 => '\'',
        0x201C or 0x201D or 0x201E or 0x2033 => '"',
        0x00A0 or 0x2007 or 0x2009 or 0x202F => ' ',
        0x00D7 => 'x',
        0x00D8 => 'O',
        0x00F8 => 'o',
        0x0110 => 'D',
        0x0111 => 'd',
        0x0131 => 'i',
        0x0141 => 'L',
        0x0142 => 'l',
        _ => '?',
    };
}
