using System.Globalization;

namespace SoloRide.Routes;

/// <summary>Numbers and times of route files, read without allocation.</summary>
internal static class NumberText
{
    // Powers of ten that a double holds exactly: product and quotient with a 53-bit integer are then correctly rounded.
    private static readonly double[] Exact =
    [
        1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22,
    ];

    /// <summary>White space, optional sign, digits with a point, optional exponent; nothing else.</summary>
    public static bool TryNumber(ReadOnlySpan<char> text, out double value)
    {
        value = double.NaN;
        int i = 0, end = text.Length;
        while (i < end && IsSpace(text[i]))
        {
            i++;
        }

        while (end > i && IsSpace(text[end - 1]))
        {
            end--;
        }

        int begin = i;
        bool negative = false;
        if (i < end && text[i] is '+' or '-')
        {
            negative = text[i] == '-';
            i++;
        }

        ulong mantissa = 0;
        int digits = 0, significant = 0, exponent = 0;
        bool point = false;
        for (; i < end; i++)
        {
            uint d = (uint)(text[i] - '0');
            if (d <= 9)
            {
                digits++;
                if (significant < 19)
                {
                    mantissa = (mantissa * 10) + d;
                    significant += mantissa != 0 ? 1 : 0;
                    exponent -= point ? 1 : 0;
                }
                else
                {
                    significant++;
                    exponent += point ? 0 : 1;
                }
            }
            else if (text[i] == '.' && !point)
            {
                point = true;
            }
            else
            {
                break;
            }
        }

        if (digits == 0)
        {
            return false;
        }

        if (i < end && (text[i] | 0x20) == 'e')
        {
            i++;
            bool minus = i < end && text[i] == '-';
            i += i < end && text[i] is '+' or '-' ? 1 : 0;
            int e = 0, count = 0;
            for (; i < end && (uint)(text[i] - '0') <= 9; i++, count++)
            {
                e = Math.Min((e * 10) + (text[i] - '0'), 100_000);
            }

            if (count == 0)
            {
                return false;
            }

            exponent += minus ? -e : e;
        }

        if (i != end)
        {
            return false;
        }

        if (significant <= 19 && mantissa <= 1UL << 53 && exponent is >= -22 and <= 22)
        {
            double v = exponent < 0 ? mantissa / Exact[-exponent] : mantissa * Exact[exponent];
            value = negative ? -v : v;
            return true;
        }

        return double.TryParse(text[begin..end], NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out value);
    }

    /// <summary>
    /// An instant: date, T or a space, time of day with optional fraction, and Z, an offset or no zone (read as UTC).
    /// Second 60 is read as the second after.
    /// </summary>
    public static bool TryInstant(ReadOnlySpan<char> text, out long utcTicks, out bool withoutZone, out bool leapSecond)
    {
        utcTicks = RouteColumns.NoTime;
        withoutZone = leapSecond = false;
        text = Trim(text);
        if (text.Length < 16 || text[4] != '-' || text[7] != '-' || text[10] is not ('T' or 't' or ' ') || text[13] != ':'
            || !Digits(text[..4], out int year) || !Digits(text.Slice(5, 2), out int month) || !Digits(text.Slice(8, 2), out int day)
            || !Digits(text.Slice(11, 2), out int hour) || !Digits(text.Slice(14, 2), out int minute))
        {
            return false;
        }

        int second = 0, at = 16;
        long fraction = 0;
        if (at < text.Length && text[at] == ':')
        {
            if (text.Length < at + 3 || !Digits(text.Slice(at + 1, 2), out second))
            {
                return false;
            }

            at += 3;
            if (at < text.Length && text[at] is '.' or ',')
            {
                long unit = TimeSpan.TicksPerSecond;
                int first = ++at;
                for (; at < text.Length && (uint)(text[at] - '0') <= 9; at++)
                {
                    unit /= 10;
                    fraction += unit * (text[at] - '0');
                }

                if (at == first)
                {
                    return false;
                }
            }
        }

        if (year < 1 || month is < 1 or > 12 || day < 1 || day > DateTime.DaysInMonth(year, month)
            || hour > 24 || minute > 59 || second > 60 || (hour == 24 && (minute > 0 || second > 0 || fraction > 0)))
        {
            return false;
        }

        ReadOnlySpan<char> zone = Trim(text[at..]);
        long offsetMinutes = 0;
        if (zone.IsEmpty)
        {
            withoutZone = true;
        }
        else if (zone is not ("Z" or "z"))
        {
            ReadOnlySpan<char> rest = zone[1..];
            if (zone[0] is not ('+' or '-') || rest.Length < 2 || !Digits(rest[..2], out int oh))
            {
                return false;
            }

            int om = 0;
            rest = rest[2..];
            if (!rest.IsEmpty && rest[0] == ':')
            {
                rest = rest[1..];
            }

            if ((!rest.IsEmpty && (rest.Length != 2 || !Digits(rest, out om))) || oh > 14 || om > 59)
            {
                return false;
            }

            offsetMinutes = ((oh * 60) + om) * (zone[0] == '-' ? -1 : 1);
        }

        leapSecond = second == 60;
        long ticks = new DateTime(year, month, day).Ticks + (((hour * 60L) + minute - offsetMinutes) * TimeSpan.TicksPerMinute)
            + (second * TimeSpan.TicksPerSecond) + fraction;
        if (ticks < DateTime.MinValue.Ticks || ticks > DateTime.MaxValue.Ticks)
        {
            return false;
        }

        utcTicks = ticks;
        return true;
    }

    /// <summary>The shortest decimal text that reads back to the same double; never an exponent.</summary>
    public static string Decimal(double value)
    {
        string text = value.ToString("R", CultureInfo.InvariantCulture);
        int e = text.IndexOf('E', StringComparison.Ordinal);
        if (e < 0)
        {
            return text;
        }

        int exponent = int.Parse(text.AsSpan(e + 1), NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture);
        bool negative = text[0] == '-';
        string digits = text[(negative ? 1 : 0)..e].Replace(".", "", StringComparison.Ordinal);
        int point = text.AsSpan(negative ? 1 : 0, e - (negative ? 1 : 0)).IndexOf('.');
        int whole = (point < 0 ? digits.Length : point) + exponent;
        string s = whole <= 0 ? "0." + new string('0', -whole) + digits
            : whole >= digits.Length ? digits + new string('0', whole - digits.Length)
            : digits[..whole] + "." + digits[whole..];
        return negative ? "-" + s : s;
    }

    public static ReadOnlySpan<char> Trim(ReadOnlySpan<char> text)
    {
        while (!text.IsEmpty && IsSpace(text[0]))
        {
            text = text[1..];
        }

        while (!text.IsEmpty && IsSpace(text[^1]))
        {
            text = text[..^1];
        }

        return text;
    }

    public static bool IsSpace(char c) => c is ' ' or '\t' or '\n' or '\r';

    private static bool Digits(ReadOnlySpan<char> text, out int value)
    {
        value = 0;
        foreach (char c in text)
        {
            if ((uint)(c - '0') > 9)
            {
                return false;
            }

            value = (value * 10) + (c - '0');
        }

        return true;
    }
}
