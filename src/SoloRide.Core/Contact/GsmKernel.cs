using System.Globalization;
using System.Text;
using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>The 7-bit alphabet of short messages: which characters it holds, and how many septets a text takes.</summary>
[Source("3gpp-23.038", "default alphabet and its extension table; 160 septets, published rule MS1")]
internal static class GsmKernel
{
    /// <summary>Septets of one burst.</summary>
    public const int BurstSeptets = 160;

    private const string Basic =
        "@£$¥èéùìòÇ\nØø\rÅåΔ_ΦΓΛΩΠΨΣΘΞÆæßÉ !\"#¤%&'()*+,-./0123456789:;<=>?¡ABCDEFGHIJKLMNOPQRSTUVWXYZÄÖÑÜ§¿abcdefghijklmnopqrstuvwxyzäöñüà";

    private const string Extension = "^{}\\[~]|€\f";

    /// <summary>Septets of one character; 0 when the alphabet lacks it.</summary>
    public static int Septets(char c) => Basic.Contains(c, StringComparison.Ordinal) ? 1 : Extension.Contains(c, StringComparison.Ordinal) ? 2 : 0;

    /// <summary>Septets of a text; -1 when a character is not in the alphabet.</summary>
    public static int Septets(ReadOnlySpan<char> text)
    {
        int sum = 0;
        foreach (char c in text)
        {
            int n = Septets(c);
            if (n == 0)
            {
                return -1;
            }

            sum += n;
        }

        return sum;
    }

    /// <summary>The text in the alphabet: as it is where it can be, else decomposed without its marks, else '?'. Line ends and tabs become spaces.</summary>
    public static string Fold(string text, out bool replaced)
    {
        replaced = false;
        var sb = new StringBuilder(text.Length);
        foreach (Rune rune in text.EnumerateRunes())
        {
            if (rune.IsBmp && Septets((char)rune.Value) > 0 && !Rune.IsControl(rune))
            {
                sb.Append((char)rune.Value);
                continue;
            }

            if (Rune.IsWhiteSpace(rune) || Rune.IsControl(rune))
            {
                sb.Append(' ');
                continue;
            }

            if (Plain(rune.Value) is { } plain)
            {
                sb.Append(plain);
                continue;
            }

            int before = sb.Length;
            if (Rune.GetUnicodeCategory(rune) == UnicodeCategory.OtherNumber && before > 0 && char.IsAsciiDigit(sb[^1]))
            {
                // A number that follows a number must not run into it: 2½ is 2 1/2, 10² is 10^2.
                sb.Append(rune.Value is 0xB2 or 0xB3 or 0xB9 or (>= 0x2070 and <= 0x2079) ? '^' : ' ');
            }

            if (rune.Value != 0xFFFD)
            {
                foreach (Rune part in rune.ToString().Normalize(NormalizationForm.FormKD).EnumerateRunes())
                {
                    UnicodeCategory category = Rune.GetUnicodeCategory(part);
                    if (category is UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.Format)
                    {
                        continue;
                    }

                    if (part.IsBmp && Septets((char)part.Value) > 0)
                    {
                        sb.Append((char)part.Value);
                    }
                    else if (Plain(part.Value) is { } other)
                    {
                        sb.Append(other);
                    }
                    else
                    {
                        replaced = true;
                        sb.Append('?');
                    }
                }
            }

            // Marks alone vanish with their letter; anything else that vanished is shown.
            if (sb.Length == before && Rune.GetUnicodeCategory(rune) is not (UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark or UnicodeCategory.Format))
            {
                replaced = true;
                sb.Append('?');
            }
        }

        return sb.ToString();
    }

    /// <summary>The longest beginning of a folded text within some septets.</summary>
    public static string Cut(string folded, int septets)
    {
        int n = 0;
        while (n < folded.Length && septets >= Septets(folded[n]))
        {
            septets -= Septets(folded[n++]);
        }

        return folded[..n].TrimEnd();
    }

    // Letters and typographic marks that decomposition does not reach.
    internal static string? Plain(int c) => c switch
    {
        0x2018 or 0x2019 or 0x201A or 0x2032 or 0x00B4 or 0x0060 => "'",
        0x201C or 0x201D or 0x201E or 0x2033 or 0x00AB or 0x00BB => "\"",
        0x2010 or 0x2011 or 0x2012 or 0x2013 or 0x2014 or 0x2212 => "-",
        0x2044 or 0x2215 => "/",
        0x00D7 => "x",
        0x00B0 => "deg",
        'Ł' => "L",
        'ł' => "l",
        'Đ' or 'Ð' => "D",
        'đ' or 'ð' => "d",
        'ı' => "i",
        'Ħ' => "H",
        'ħ' => "h",
        'Ŧ' => "T",
        'ŧ' => "t",
        'Þ' => "Th",
        'þ' => "th",
        'Œ' => "OE",
        'œ' => "oe",
        'ẞ' => "SS",
        _ => null,
    };
}
