namespace SoloRide.Routes;

/// <summary>
/// A track point written plainly: latitude and longitude as its only attributes, at most one height and one time, all good, no other markup. It means
/// the same to any XML reader; everything else is left to one.
/// </summary>
internal static class PlainPoint
{
    private const int MaxLength = 127;

    /// <summary>Reads the plain point that text begins with, after white space.</summary>
    /// <param name="text">Text.</param>
    /// <param name="length">Characters of white space and point.</param>
    /// <param name="point">The point.</param>
    /// <returns>Whether there is one; <see cref="Outcome.Cut"/> when the text ends before it can be told.</returns>
    public static Outcome Read(ReadOnlySpan<char> text, out int length, out Values point)
    {
        length = 0;
        point = new Values { LatDeg = double.NaN, LonDeg = double.NaN, ElevationM = double.NaN, UtcTicks = RouteColumns.NoTime };
        int i = Space(text, 0);
        if (!Word(text, ref i, "<trkpt"))
        {
            return text.Length - i < 6 ? Outcome.Cut : Outcome.Other;
        }

        for (int attribute = 0; attribute < 2; attribute++)
        {
            int j = Space(text, i);
            if (text.Length - j < 5)
            {
                return Outcome.Cut;
            }

            if (j == i || text[j] != 'l' || text[j + 3] != '=' || text[j + 4] is not ('"' or '\''))
            {
                return Outcome.Other;
            }

            bool isLat = text[j + 1] == 'a' && text[j + 2] == 't';
            if (!isLat && !(text[j + 1] == 'o' && text[j + 2] == 'n'))
            {
                return Outcome.Other;
            }

            ReadOnlySpan<char> rest = text[(j + 5)..];
            int end = rest.IndexOf(text[j + 4]);
            if (end < 0)
            {
                return rest.Length > MaxLength ? Outcome.Other : Outcome.Cut;
            }

            if (end > MaxLength || rest[..end].Contains('\r') || !NumberText.TryNumber(rest[..end], out double value))
            {
                return Outcome.Other;
            }

            if (isLat)
            {
                if (!double.IsNaN(point.LatDeg) || !(Math.Abs(value) <= 90))
                {
                    return Outcome.Other;
                }

                point.LatDeg = value;
            }
            else
            {
                if (!double.IsNaN(point.LonDeg) || !(Math.Abs(value) <= 180))
                {
                    return Outcome.Other;
                }

                point.LonDeg = value;
            }

            i = j + 5 + end + 1;
        }

        i = Space(text, i);
        if (i + 1 >= text.Length)
        {
            return Outcome.Cut;
        }

        if (text[i] == '/' && text[i + 1] == '>')
        {
            length = i + 2;
            return Outcome.Point;
        }

        if (text[i++] != '>')
        {
            return Outcome.Other;
        }

        while (true)
        {
            i = Space(text, i);
            if (text.Length - i < 8)
            {
                return Outcome.Cut;
            }

            if (Word(text, ref i, "<ele>"))
            {
                Outcome found = Content(text, ref i, "</ele>", out ReadOnlySpan<char> content);
                if (found != Outcome.Point)
                {
                    return found;
                }

                if (!double.IsNaN(point.ElevationM) || !NumberText.TryNumber(content, out point.ElevationM) || !double.IsFinite(point.ElevationM))
                {
                    return Outcome.Other;
                }
            }
            else if (Word(text, ref i, "<time>"))
            {
                Outcome found = Content(text, ref i, "</time>", out ReadOnlySpan<char> content);
                if (found != Outcome.Point)
                {
                    return found;
                }

                if (point.UtcTicks != RouteColumns.NoTime || !NumberText.TryInstant(content, out point.UtcTicks, out bool withoutZone, out bool leapSecond) || withoutZone || leapSecond)
                {
                    return Outcome.Other;
                }
            }
            else if (Word(text, ref i, "</trkpt>"))
            {
                length = i;
                return Outcome.Point;
            }
            else
            {
                return Outcome.Other;
            }
        }
    }

    private static Outcome Content(ReadOnlySpan<char> text, ref int i, string endTag, out ReadOnlySpan<char> content)
    {
        ReadOnlySpan<char> rest = text[i..];
        int end = rest.IndexOf('<');
        content = default;
        if (end < 0)
        {
            return rest.Length > MaxLength ? Outcome.Other : Outcome.Cut;
        }

        if (end > MaxLength || rest[..end].Contains('\r'))
        {
            return Outcome.Other;
        }

        content = rest[..end];
        if (rest.Length - end < endTag.Length)
        {
            return Outcome.Cut;
        }

        i += end;
        return Word(text, ref i, endTag) ? Outcome.Point : Outcome.Other;
    }

    private static bool Word(ReadOnlySpan<char> text, ref int i, string word)
    {
        bool same = text[i..].StartsWith(word, StringComparison.Ordinal);
        i += same ? word.Length : 0;
        return same;
    }

    private static int Space(ReadOnlySpan<char> text, int i)
    {
        // A lone carriage return is a line of its own: left to the XML reader, which counts it.
        while (i < text.Length && (text[i] is ' ' or '\n' or '\t' || (text[i] == '\r' && i + 1 < text.Length && text[i + 1] == '\n')))
        {
            i++;
        }

        return i;
    }

    public enum Outcome
    {
        /// <summary>A plain point.</summary>
        Point,

        /// <summary>Something else.</summary>
        Other,

        /// <summary>The text ends before it can be told.</summary>
        Cut,
    }

    public struct Values
    {
        public double LatDeg, LonDeg, ElevationM;
        public long UtcTicks;
    }
}
