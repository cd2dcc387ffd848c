using System.Globalization;
using System.Text;
using SoloRide.Internal;

namespace SoloRide.Contact;

/// <summary>Lines of RFC 5545.</summary>
[Source("rfc-5545", "3.1 content lines, 3.3.11 text, 3.3.5 date-time, 3.8.7 change management; published rules CA1, CA2 and CA3")]
internal static class CalendarKernel
{
    public const int LineOctets = 75;

    /// <summary>Appends a content line, folded so that no line exceeds 75 octets and no character is torn apart.</summary>
    public static void Line(StringBuilder sb, string line)
    {
        int octets = 0;
        foreach (Rune rune in line.EnumerateRunes())
        {
            int n = rune.Utf8SequenceLength;
            if (octets + n > LineOctets)
            {
                sb.Append("\r\n ");
                octets = 1;
            }

            sb.Append(rune.ToString());
            octets += n;
        }

        sb.Append("\r\n");
    }

    /// <summary>A text value: backslash, semicolon, comma and line ends escaped, other control characters left out.</summary>
    public static string Escape(string text)
    {
        var sb = new StringBuilder(text.Length);
        foreach (Rune rune in text.ReplaceLineEndings("\n").EnumerateRunes())
        {
            switch (rune.Value)
            {
                case '\\': sb.Append("\\\\"); break;
                case ';': sb.Append("\\;"); break;
                case ',': sb.Append("\\,"); break;
                case '\n': sb.Append("\\n"); break;
                default:
                    if (!Rune.IsControl(rune) || rune.Value == '\t')
                    {
                        sb.Append(rune.ToString());
                    }

                    break;
            }
        }

        return sb.ToString();
    }

    public static string Utc(DateTimeOffset t) => t.UtcDateTime.ToString("yyyyMMdd'T'HHmmss'Z'", CultureInfo.InvariantCulture);
}
