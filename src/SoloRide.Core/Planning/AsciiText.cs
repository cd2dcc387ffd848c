using System.Globalization;
using System.Text;
using SoloRide.Contact;

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

    /// <summary>Signs that do not decompose, as in short messages where one letter is enough.</summary>
    private static char Sign(int c)
        => c is 0x00A0 or 0x2007 or 0x2009 or 0x202F ? ' ' : GsmKernel.Plain(c) is [char plain] ? plain : c switch
        {
            0x00D8 => 'O',
            0x00F8 => 'o',
            _ => '?',
        };
}
